package charset

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"trencher/units/strict"
)

// UnreadError is a byte that is no text in the character set that a file is read in.
type UnreadError struct {
	At       *strict.Error
	Readings []Reading // by the sets that have every byte of the file
}

// Reading is what stands around that byte, read in some sets.
type Reading struct {
	Sets []string // as they are given
	Text string
}

func (e *UnreadError) Error() string { return e.At.Error() }

// Unwrap is the error with its place.
func (e *UnreadError) Unwrap() error { return e.At }

// Hint says what to do.
func (e *UnreadError) Hint() string { return e.At.Hint() }

// Choices are the sets to choose from, with what each makes of the place:
// windows-1252 for "½ pint milk", macintosh for "Ω pint milk".
func (e *UnreadError) Choices() string {
	var list []string
	for _, one := range e.Readings {
		list = append(list, strings.Join(one.Sets, " or ")+" for "+strconv.Quote(one.Text))
	}
	return strings.Join(list, ", ")
}

// tried are the sets of one byte a character, by the names they are offered by, the
// most usual first.
var tried = []struct {
	name string
	set  set
}{{"windows-1252", windows1252}, {"iso-8859-15", latin9}, {"windows-1250", windows1250}, {"iso-8859-2", latin2}, {"macintosh", macRoman}}

// unread is the error for the byte at a place, with what other sets make of it.
func unread(file string, data []byte, bad int, in set, named bool) error {
	problem := fmt.Sprintf("byte %#02x is no text in this character set", data[bad])
	if !named {
		problem = fmt.Sprintf("byte %#02x is no text in UTF-8, and nothing tells of another character set", data[bad])
	}
	line, column := Place(data, bad)
	e := &UnreadError{At: wrongByte(file, line, column, problem, "the file again, saved as UTF-8; or say which set it is in: "+acceptedSets)}
	around := nearby(data, bad)
	for _, one := range tried {
		if _, wrong := fromTable(data, tables[one.set]); one.set == in || wrong >= 0 {
			continue
		}
		text, _ := fromTable(around, tables[one.set])
		e.add(one.name, strings.TrimSpace(text))
	}
	return e
}

// add adds what a set makes of the place; sets that agree stand together.
func (e *UnreadError) add(name, text string) {
	for i := range e.Readings {
		if e.Readings[i].Text == text {
			e.Readings[i].Sets = append(e.Readings[i].Sets, name)
			return
		}
	}
	e.Readings = append(e.Readings, Reading{[]string{name}, text})
}

// nearby is what stands around a place in its line.
func nearby(data []byte, at int) []byte {
	const before, after = 12, 20
	from := max(bytes.LastIndexAny(data[:at], "\r\n")+1, at-before)
	to := min(len(data), at+after)
	if end := bytes.IndexAny(data[at:to], "\r\n"); end >= 0 {
		to = at + end
	}
	return data[from:to]
}
