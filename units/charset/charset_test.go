package charset

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units/strict"
)

// encoders write text in each character set, by the tables of unicode.org
// (Windows-1252, ISO 8859-1, ISO 8859-15: the characters named in the test,
// from memory) and by the standard library.
var encoders = map[string]func(string) []byte{
	"utf-8":    func(s string) []byte { return []byte(s) },
	"utf-16le": func(s string) []byte { return inUTF16(s, binary.LittleEndian) },
	"utf-16be": func(s string) []byte { return inUTF16(s, binary.BigEndian) },
	"windows-1252": func(s string) []byte {
		return inBytes(s, map[rune]byte{'€': 0x80, '…': 0x85, '‘': 0x91, '’': 0x92, '“': 0x93, '”': 0x94, '•': 0x95, '–': 0x96, '—': 0x97, '™': 0x99, 'œ': 0x9c})
	},
	"iso-8859-1":  func(s string) []byte { return inBytes(s, nil) },
	"iso-8859-15": func(s string) []byte { return inBytes(s, map[rune]byte{'€': 0xa4, 'œ': 0xbd}) },
}

func inUTF16(s string, order binary.AppendByteOrder) []byte {
	var out []byte
	for _, c := range utf16.Encode([]rune(s)) {
		out = order.AppendUint16(out, c)
	}
	return out
}

func inBytes(s string, own map[rune]byte) []byte {
	var out []byte
	for _, c := range s {
		b, ok := own[c]
		if !ok {
			b = byte(c)
		}
		out = append(out, b)
	}
	return out
}

// letters a character set can write.
var letters = map[string]string{
	"utf-8": "½¼¾⅓⅛é°ñ’–€😀漢", "utf-16le": "½¼¾⅓⅛é°ñ’–€😀漢", "utf-16be": "½¼¾⅓⅛é°ñ’–€😀漢",
	"windows-1252": "½¼¾é°ñß€…‘’“”•–—™œ", "iso-8859-1": "½¼¾é°ñß×º", "iso-8859-15": "é°ñß€œ",
}

// Whatever a set can write comes back letter by letter, whether the set is
// told by a mark, by the page or by the caller; and not a character is left
// out or changed in silence.
func TestEveryCharacterSurvives(t *testing.T) {
	random := rand.New(rand.NewPCG(16, 4))
	for set, encode := range encoders {
		alphabet := []rune("abc 019 ,;" + letters[set])
		for range 300 {
			var made strings.Builder
			for range 1 + random.IntN(40) {
				made.WriteRune(alphabet[random.IntN(len(alphabet))])
			}
			text := made.String()
			got, err := Text("f", encode(text), set)
			require.NoError(t, err)
			require.Equal(t, text, got, set)
			if page := fmt.Sprintf("<html><head><meta charset=%q></head>%s</html>", set, text); set[:3] != "utf" {
				got, err = Text("f", encode(page), "")
				require.NoError(t, err)
				require.Equal(t, page, got, set)
			}
		}
	}
	for mark, set := range map[string]string{"\xff\xfe": "utf-16le", "\xfe\xff": "utf-16be", "\xef\xbb\xbf": "utf-8"} {
		got, err := Text("f", append([]byte(mark), encoders[set]("2½ – 漢😀\r\nx\ry")...), "iso-8859-1")
		require.NoError(t, err)
		assert.Equal(t, "2½ – 漢😀\nx\ny", got, "a mark is believed before what is said")
	}
}

// A file cut or flipped anywhere is read as its set has it, or refused at its
// place; it never loses a byte.
func TestNoByteIsLostInSilence(t *testing.T) {
	random := rand.New(rand.NewPCG(16, 5))
	for range 2000 {
		data := []byte("2½ cups flour – 1¼ tsp")
		for range 1 + random.IntN(3) {
			data[random.IntN(len(data))] = byte(random.IntN(256))
		}
		got, err := Text("f", data, "utf-8")
		if err == nil {
			require.Equal(t, strings.ReplaceAll(strings.ReplaceAll(string(data), "\r\n", "\n"), "\r", "\n"), got)
		}
	}
}

func TestWhatIsNoTextIsRefused(t *testing.T) {
	for _, test := range []struct{ name, data, charset, says, hint string }{
		{"Latin-1 that does not say so", "Cake\n2\xbd cups flour", "", `f:2:2: byte 0xbd is no text in UTF-8, and nothing tells of another character set`, "say which set it is in"},
		{"a hole of Windows-1252", "2\x81", "windows-1252", `f:1:2: byte 0x81`, ""},
		{"half a pair", "\xff\xfe2\x00\x00\xd8", "", `f:1:3: byte 0x00`, ""},
		{"an odd byte", "\xff\xfe2\x00x", "", `f:1:3: byte 0x78`, ""},
		{"UTF-16 without its mark", "2\x00c\x00", "", "f:1:2: a zero byte", "which character set"},
		{"an unknown set", "x", "ebcdic", `charset "ebcdic": no character set that is known here`, "write utf-8"},
		{"a set it declares", "<meta charset='shift_jis'>", "", `charset "shift_jis": the file declares`, ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := Text("f", []byte(test.data), test.charset)
			require.ErrorContains(t, err, test.says)
			var hinted interface{ Hint() string }
			require.True(t, errors.As(err, &hinted))
			assert.Contains(t, hinted.Hint(), test.hint)
		})
	}
	_, err := Text("f", []byte("2\xbd cups"), "")
	var placed *strict.Error
	require.True(t, errors.As(err, &placed))
}
