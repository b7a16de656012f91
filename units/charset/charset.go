// Package charset reads a file's bytes as text, by the mark or the declaration
// of its character set. A byte that the set does not have is an error with its
// place, never a character left out.
package charset

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"trencher/units"
	"trencher/units/pattern"
	"trencher/units/strict"
)

// set is one way of writing text as bytes.
type set uint8

const (
	utf8Set set = iota
	utf16Little
	utf16Big
	windows1252
	latin9
	windows1250
	latin2
	macRoman
)

// tables are the sets of one byte a character. ISO 8859-1 is read as Windows-1252, which
// has characters where ISO 8859-1 has controls that no recipe holds: so does
// every browser (WHATWG Encoding Standard, names and labels).
var tables = map[set]*charmap.Charmap{
	windows1252: charmap.Windows1252, latin9: charmap.ISO8859_15, windows1250: charmap.Windows1250,
	latin2: charmap.ISO8859_2, macRoman: charmap.Macintosh,
}

// labels are the names the sets go by in files (WHATWG Encoding Standard; the
// most used of each).
var labels = map[string]set{
	"utf-8": utf8Set, "utf8": utf8Set, "unicode-1-1-utf-8": utf8Set,
	"utf-16": utf16Little, "utf-16le": utf16Little, "utf16": utf16Little, "utf-16be": utf16Big,
	"windows-1252": windows1252, "cp1252": windows1252, "x-cp1252": windows1252, "ansi": windows1252,
	"iso-8859-1": windows1252, "iso8859-1": windows1252, "iso_8859-1": windows1252, "latin1": windows1252, "latin-1": windows1252,
	"l1": windows1252, "us-ascii": windows1252, "ascii": windows1252,
	"iso-8859-15": latin9, "iso8859-15": latin9, "latin9": latin9, "latin-9": latin9,
	"windows-1250": windows1250, "cp1250": windows1250,
	"iso-8859-2": latin2, "iso8859-2": latin2, "latin2": latin2,
	"macintosh": macRoman, "mac": macRoman, "x-mac-roman": macRoman,
}

// acceptedSets is what an error offers.
const acceptedSets = "utf-8, utf-16le, utf-16be, windows-1252, iso-8859-1, iso-8859-15, windows-1250, iso-8859-2 or macintosh"

// Text is a file's text, by its byte order mark, else by the character set
// given, else by the one it declares (an HTML or XML head), else as UTF-8.
// Lines end in a line feed. A byte that the set does not have is an error with
// its place.
func Text(file string, data []byte, given string) (string, error) {
	in, data, named, err := setOf(data, given)
	if err != nil {
		return "", err
	}
	var text string
	var bad int // the offset of a byte that is no text; -1 = none
	switch in {
	case utf8Set:
		text, bad = string(data), invalidUTF8(data)
	case utf16Little:
		text, bad = fromUTF16(data, binary.LittleEndian)
	case utf16Big:
		text, bad = fromUTF16(data, binary.BigEndian)
	default:
		text, bad = fromTable(data, tables[in])
	}
	if bad >= 0 {
		return "", unread(file, data, bad, in, named)
	}
	if zero := strings.IndexByte(text, 0); zero >= 0 {
		line, column := Place([]byte(text), zero)
		return "", wrongByte(file, line, column, "a zero byte: this is not text, or UTF-16 without its mark", "text; or say which character set it is in: "+acceptedSets)
	}
	return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), nil
}

// setOf finds the character set of a file, tells whether anything names it, and takes
// off its mark.
func setOf(data []byte, given string) (in set, rest []byte, named bool, err error) {
	for _, mark := range []struct {
		bytes string
		set   set
	}{{"\xef\xbb\xbf", utf8Set}, {"\xff\xfe", utf16Little}, {"\xfe\xff", utf16Big}} {
		if rest, ok := bytes.CutPrefix(data, []byte(mark.bytes)); ok {
			return mark.set, rest, true, nil
		}
	}
	if given != "" {
		in, ok := labels[strings.ToLower(strings.TrimSpace(given))]
		if !ok {
			return 0, nil, false, units.WrongField("charset", given, "no character set that is known here", acceptedSets)
		}
		return in, data, true, nil
	}
	name := declared(data)
	in, known := labels[name]
	switch {
	case name == "":
		return utf8Set, data, false, nil
	case !known:
		return 0, nil, false, units.WrongField("charset", name, "the file declares a character set that is not known here", "the set it is in: "+acceptedSets)
	case in == utf16Little || in == utf16Big:
		return utf8Set, data, true, nil // a declaration read as ASCII cannot stand in UTF-16
	}
	return in, data, true, nil
}

var (
	xmlHead  = pattern.New(`(?i)^\s*<\?xml[^>]*\bencoding\s*=\s*["']([\w.:-]+)`)
	metaHead = pattern.New(`(?i)<meta\s[^>]*\bcharset\s*=\s*["']?\s*([\w.:-]+)`)
)

// declared is the character set a page names in its first 4 kilobytes.
func declared(data []byte) string {
	head := data[:min(len(data), 4096)]
	if !bytes.HasPrefix(bytes.TrimSpace(head), []byte("<")) {
		return ""
	}
	for _, form := range []*pattern.Pattern{xmlHead, metaHead} {
		if found := form.FindSubmatch(head); found != nil {
			return strings.ToLower(string(found[1]))
		}
	}
	return ""
}

func invalidUTF8(data []byte) int {
	for at := 0; at < len(data); {
		c, size := utf8.DecodeRune(data[at:])
		if c == utf8.RuneError && size <= 1 {
			return at
		}
		at += size
	}
	return -1
}

func fromUTF16(data []byte, order binary.ByteOrder) (string, int) {
	var text strings.Builder
	text.Grow(len(data))
	for at := 0; at < len(data); at += 2 {
		if at+1 >= len(data) {
			return "", at
		}
		c := rune(order.Uint16(data[at:]))
		if utf16.IsSurrogate(c) {
			if at+3 >= len(data) {
				return "", at
			}
			c = utf16.DecodeRune(c, rune(order.Uint16(data[at+2:])))
			if c == utf8.RuneError {
				return "", at
			}
			at += 2
		}
		text.WriteRune(c)
	}
	return text.String(), -1
}

// fromTable reads a set of one byte a character. What stands for a control
// character above 127 stands for nothing.
func fromTable(data []byte, table *charmap.Charmap) (string, int) {
	var text strings.Builder
	text.Grow(len(data))
	for at, b := range data {
		c := table.DecodeByte(b)
		if c == utf8.RuneError || c >= 0x80 && c < 0xa0 {
			return "", at
		}
		text.WriteRune(c)
	}
	return text.String(), -1
}

// Place is the line and column of an offset, from 1.
func Place(data []byte, at int) (line, column int) {
	before := data[:at]
	return bytes.Count(before, []byte("\n")) + 1, at - bytes.LastIndexByte(before, '\n')
}

func wrongByte(file string, line, column int, problem, accepted string) *strict.Error {
	return &strict.Error{File: file, Line: line, Column: column, Problem: problem, Accepted: accepted}
}
