package charset

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A byte that is no text is told with what the sets that have the whole file make of
// its place; to read the file in one of them gives just that.
func TestWhatOtherSetsMakeOfAByte(t *testing.T) {
	_, err := Text("card.txt", []byte("Soup\n\xbd pint milk\n"), "")
	var unread *UnreadError
	require.ErrorAs(t, err, &unread)
	assert.Equal(t, "card.txt:2:1: byte 0xbd is no text in UTF-8, and nothing tells of another character set", err.Error())
	assert.Equal(t, `windows-1252 for "½ pint milk", iso-8859-15 for "œ pint milk", windows-1250 or iso-8859-2 for "˝ pint milk", macintosh for "Ω pint milk"`, unread.Choices())

	random := rand.New(rand.NewPCG(16, 6))
	offered := 0
	for range 500 {
		data := []byte("Potato soup for a cold evening\r\n500 g potatoes, half a pint of milk")
		for range 1 + random.IntN(4) {
			data[random.IntN(len(data))] = byte(0x80 + random.IntN(0x80))
		}
		text, err := Text("f", data, "")
		if err == nil {
			continue
		}
		require.ErrorAs(t, err, &unread, text)
		sets := 0
		for _, one := range unread.Readings {
			for _, set := range one.Sets {
				sets++
				read, err := Text("f", data, set)
				require.NoError(t, err, "%q in %s", data, set)
				require.Contains(t, read, one.Text)
			}
		}
		for _, one := range tried {
			if _, err := Text("f", data, one.name); err == nil {
				sets--
			}
		}
		require.Zero(t, sets, "%q: every set that can read it is offered, once", data)
		offered += len(unread.Readings)
	}
	require.Greater(t, offered, 500)
}

// The set that was tried is not offered again, nor any where none has every byte; a
// long line is cut short.
func TestSetsThatAreNotOffered(t *testing.T) {
	var unread *UnreadError
	_, err := Text("f", []byte("\x81\xe9"), "windows-1252")
	require.ErrorAs(t, err, &unread)
	assert.Equal(t, `macintosh for "ÅÈ"`, unread.Choices())
	_, err = Text("f", []byte("\xff\xfe\x3d\xd8"), "")
	require.ErrorAs(t, err, &unread)
	assert.NotContains(t, unread.Choices(), "utf")
	_, err = Text("f", []byte(strings.Repeat("a", 100)+"\xe9"+strings.Repeat("b", 100)), "")
	require.ErrorAs(t, err, &unread)
	assert.Equal(t, strings.Repeat("a", 12)+"é"+strings.Repeat("b", 19), unread.Readings[0].Text)
}
