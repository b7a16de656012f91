package render

import (
	"bytes"
	"fmt"
	"io"
	"unicode/utf8"

	"trencher/units"
)

// Readable passes text on to a terminal with every hidden character written
// out, as \u001b: control characters, which could move the cursor or clear the
// screen, and the marks that turn the direction of writing. They come in with
// file names and words typed at a prompt. Line ends and tabs stay. In JSON the
// written-out form stands for the same character.
//
// What is split between two writes, a character or a line end, is held back until
// the rest of it comes.
func Readable(w io.Writer) io.Writer { return &readableWriter{to: w} }

type readableWriter struct {
	to   io.Writer
	held []byte // the beginning of a character, or of a line end
}

func (r *readableWriter) Write(data []byte) (int, error) {
	if len(r.held) == 0 && isPlain(data) {
		return r.to.Write(data)
	}
	text := append(r.held, data...)
	shown := make([]byte, 0, len(text))
	for utf8.FullRune(text) && !bytes.Equal(text, []byte("\r")) {
		c, size := utf8.DecodeRune(text)
		switch {
		case bytes.HasPrefix(text, []byte("\r\n")): // the line end of a table
			size = 2
			shown = append(shown, "\r\n"...)
		case c == utf8.RuneError && size == 1:
			shown = fmt.Appendf(shown, `\x%02x`, text[0])
		case units.Hidden(c):
			shown = fmt.Appendf(shown, `\u%04x`, c)
		default:
			shown = append(shown, text[:size]...)
		}
		text = text[size:]
	}
	r.held = append([]byte(nil), text...)
	if _, err := r.to.Write(shown); err != nil {
		return 0, err
	}
	return len(data), nil
}

// isPlain tells text of printable ASCII, line ends and tabs, as most is: it is passed
// on as it stands.
func isPlain(text []byte) bool {
	for _, c := range text {
		if (c < ' ' || c > '~') && c != '\n' && c != '\t' {
			return false
		}
	}
	return true
}
