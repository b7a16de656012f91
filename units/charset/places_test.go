package charset

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// The first byte that is no text is told with its place and what it is, at the
// beginning of a file, within it and at its end.
func TestBadBytesHaveTheirPlace(t *testing.T) {
	for _, row := range []struct{ data, given, says string }{
		{"\xff", "utf-8", "f:1:1: byte 0xff is no text in this character set"},
		{"a\nb\xfe", "", "f:2:2: byte 0xfe is no text in UTF-8, and nothing tells of another character set"},
		{"\xc3", "", "f:1:1: byte 0xc3 is no text in UTF-8, and nothing tells of another character set"},
		{"\xc3\xa9\xff", "", "f:1:3: byte 0xff is no text in UTF-8, and nothing tells of another character set"},
		{"<meta charset=\"utf-16\">\xff", "", "f:1:24: byte 0xff is no text in this character set"},
		{"\x81", "windows-1252", "f:1:1: byte 0x81 is no text in this character set"},
		{"ab\x81", "windows-1252", "f:1:3: byte 0x81 is no text in this character set"},
		{"\x85", "iso-8859-15", "f:1:1: byte 0x85 is no text in this character set"},
		{"\x00", "", "f:1:1: a zero byte: this is not text, or UTF-16 without its mark"},
		{"a\n\x00", "", "f:2:1: a zero byte: this is not text, or UTF-16 without its mark"},
		{"\xff\xfea", "", "f:1:1: byte 0x61 is no text in this character set"},
		{"\xff\xfea\x00b", "", "f:1:3: byte 0x62 is no text in this character set"},
		{"\xff\xfe\x3d\xd8", "", "f:1:1: byte 0x3d is no text in this character set"},
		{"\xff\xfe\x3d\xd8\x00", "", "f:1:1: byte 0x3d is no text in this character set"},
		{"\xff\xfea\x00\x3d\xd8a\x00", "", "f:1:3: byte 0x3d is no text in this character set"},
		{"\xff\xfe\x3d\xd8a\x00", "", "f:1:1: byte 0x3d is no text in this character set"},
	} {
		text, err := Text("f", []byte(row.data), row.given)
		assert.EqualError(t, err, row.says, "%q", row.data)
		assert.Empty(t, text)
	}
	for data, want := range map[string]string{
		"\xff\xfe\x3d\xd8\x00\xde": "😀", "\xfe\xff\xd8\x3d\xde\x00": "😀", "": "", "\xff\xfe": "", "\ufffd": "\ufffd",
		"a\r\nb\rc\n": "a\nb\nc\n", "\xff\xfe\xfd\xff": "\ufffd",
	} {
		text, err := Text("f", []byte(data), "")
		require.NoError(t, err, "%q", data)
		assert.Equal(t, want, text)
	}
}

// A mark counts before what is told, that before what the page declares.
func TestWhichSetCounts(t *testing.T) {
	page := func(declared string) string { return `<html><meta charset="` + declared + `">` }
	for _, row := range []struct{ data, given, want string }{
		{"\xef\xbb\xbfé", "windows-1252", "é"},
		{"\xe9", " Windows-1252 ", "é"},
		{page("utf-8") + "\xe9", "windows-1252", page("utf-8") + "é"},
		{page("windows-1252") + "\x80", "", page("windows-1252") + "€"},
		{page("utf-16") + "é", "", page("utf-16") + "é"},
		{page("utf-16be") + "é", "", page("utf-16be") + "é"},
		{"<?xml version='1.0' encoding='iso-8859-15'?>\xa4", "", "<?xml version='1.0' encoding='iso-8859-15'?>€"},
		{"charset=windows-1252 é", "", "charset=windows-1252 é"},
	} {
		text, err := Text("f", []byte(row.data), row.given)
		require.NoError(t, err, "%q", row.data)
		assert.Equal(t, row.want, text)
	}
	var wrong *units.FieldError
	_, err := Text("f", []byte("a"), "klingon")
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "no character set that is known here", wrong.Problem)
	_, err = Text("f", []byte(page("klingon")), "")
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "the file declares a character set that is not known here", wrong.Problem)
}

// A declaration counts within the first 4,096 bytes.
func TestHowFarADeclarationIsLookedFor(t *testing.T) {
	declared := `<meta charset="windows-1252">`
	within := "<" + strings.Repeat(" ", 4096-len(declared)+1) + declared // but for its last two signs, a quote and a bracket
	text, err := Text("f", []byte(within+"\x80"), "")
	require.NoError(t, err)
	assert.True(t, strings.HasSuffix(text, "€"))
	_, err = Text("f", []byte("<"+strings.Repeat(" ", 4096)+declared+"\x80"), "")
	assert.ErrorContains(t, err, "byte 0x80 is no text")
}
