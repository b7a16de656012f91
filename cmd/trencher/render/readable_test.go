package render

import (
	"bytes"
	"encoding/json"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

func TestReadableWritesHiddenCharactersOut(t *testing.T) {
	for text, shown := range map[string]string{
		"½ pt, 20 °C – “mash”\n\tthen": "½ pt, 20 °C – “mash”\n\tthen",
		"a,b\r\nc":                     "a,b\r\nc", // the line end of a table (RFC 4180)
		"over\rwritten":                `over\u000dwritten`,
		"\x1b[2Jgone":                  `\u001b[2Jgone`,
		"\u009b31m":                    `\u009b31m`,
		"potato\u202eegac":             `potato\u202eegac`,
		"bell\a":                       `bell\u0007`,
		"not UTF-8: \xff":              `not UTF-8: \xff`,
	} {
		// Written whole, and byte by byte, it reads alike.
		var whole, pieces bytes.Buffer
		_, err := Readable(&whole).Write([]byte(text))
		require.NoError(t, err)
		assert.Equal(t, shown, whole.String())
		in := Readable(&pieces)
		for i := range len(text) {
			n, err := in.Write([]byte{text[i]})
			require.NoError(t, err)
			require.Equal(t, 1, n)
		}
		assert.Equal(t, shown, pieces.String())
	}
}

// Whatever is written, nothing hidden comes out, and JSON keeps its meaning.
func FuzzReadable(f *testing.F) {
	f.Add("\x1b]0;title\a", 3)
	f.Add("a\r\n\u2066b\xe2\x80", 1)
	f.Fuzz(func(t *testing.T, text string, at int) {
		var out bytes.Buffer
		w := Readable(&out)
		at = min(max(at, 0), len(text))
		for _, part := range []string{text[:at], text[at:], "\n"} {
			_, err := w.Write([]byte(part))
			require.NoError(t, err)
		}
		assert.True(t, utf8.Valid(out.Bytes()))
		for i, c := range out.String() {
			assert.False(t, units.Hidden(c) && !(c == '\r' && out.Bytes()[i+1] == '\n'), "%q", out.String())
		}
		var said bytes.Buffer
		encoded, err := json.Marshal(text)
		require.NoError(t, err)
		_, err = Readable(&said).Write(encoded)
		require.NoError(t, err)
		var back, direct string
		require.NoError(t, json.Unmarshal(said.Bytes(), &back))
		require.NoError(t, json.Unmarshal(encoded, &direct))
		assert.Equal(t, direct, back)
	})
}
