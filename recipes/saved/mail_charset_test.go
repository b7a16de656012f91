package saved

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units/charset"
	"trencher/units/strict"
)

// An e-mail is read in the set that its part names, however it is sent (RFC 2045: 7bit,
// 8bit, quoted-printable), and its subject by the words of RFC 2047; one that names
// none, or another than it is in, needs to be told.
func TestCharacterSetsOfMail(t *testing.T) {
	mail := func(subject, kind, body string) []byte {
		return []byte("From: a@example.org\r\nSubject: " + subject + "\r\nMIME-Version: 1.0\r\nContent-Type: " + kind + "\r\n\r\n" + strings.ReplaceAll(body, "\n", "\r\n"))
	}
	const card = "Serves 4\n\n500 g potatoes\n\xbd pint milk\n\nBoil the potatoes for 20 minutes.\n"
	lines := func(data []byte, o Options) (name, milk string, err error) {
		recipe, err := Read("a.eml", data, o)
		for _, line := range recipe.Lines {
			if strings.Contains(line.Text, "milk") {
				milk = line.Text
			}
		}
		return recipe.Name, milk, err
	}
	for about, c := range map[string]struct {
		subject, kind, told, name, milk string
	}{
		"as it names itself":              {"Soup", "text/plain; charset=iso-8859-1", "", "Soup", "½ pint milk"},
		"as it names itself, not as told": {"Soup", "text/plain; charset=iso-8859-15", "windows-1252", "Soup", "œ pint milk"},
		"as told":                         {"Soup", "text/plain", "iso-8859-1", "Soup", "½ pint milk"},
		"as told, against its name":       {"Soup", "text/plain; charset=utf-8", "iso-8859-1", "Soup", "½ pint milk"},
		"a subject as it is":              {"Cr\xe8me soup", "text/plain; charset=iso-8859-1", "", "Crème soup", "½ pint milk"},
		"a subject in UTF-8":              {"Crème soup", "text/plain; charset=iso-8859-1", "", "Crème soup", "½ pint milk"},
		"a subject in its own set":        {"=?windows-1252?Q?Potatoes_=96_mashed?=", "text/plain; charset=iso-8859-1", "", "Potatoes – mashed", "½ pint milk"},
	} {
		name, milk, err := lines(mail(c.subject, c.kind, card), Options{Charset: c.told})
		require.NoError(t, err, about)
		assert.Equal(t, []string{c.name, c.milk}, []string{name, milk}, about)
	}
	for _, kind := range []string{"text/plain", "text/plain; charset=utf-8"} {
		_, _, err := lines(mail("Soup", kind, card), Options{})
		var unread *charset.UnreadError
		require.ErrorAs(t, err, &unread, kind)
		var placed *strict.Error
		require.True(t, errors.As(err, &placed))
		assert.Equal(t, []int{9, 1}, []int{placed.Line, placed.Column}, "the line of the file")
		assert.Contains(t, unread.Choices(), `windows-1252 for "½ pint milk"`)
	}
	_, _, err := lines(mail("Soup", "text/plain; charset=iso-8859-1", card), Options{Charset: "ebcdic"})
	require.ErrorContains(t, err, `charset "ebcdic": no character set that is known here`)
}
