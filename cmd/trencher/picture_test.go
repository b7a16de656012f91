package main

import (
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every picture is an SVG that any reader of XML takes, and says in words what
// the terminal says.
func TestSeasonPictures(t *testing.T) {
	g := newGarden(t)
	file := func(name string) string { return filepath.Join(t.TempDir(), name) }
	yields, next, sheet := file("yields.svg"), file("next.svg"), file("next.html")
	g.ok("tally", "--yields", yields)
	g.ok("next", "--picture", next, "--sheet", sheet, "--for", "2 adults, 2 children", "--eat", "leek, 2 a week, 20 weeks")
	for name, says := range map[string][]string{
		yields: {"2031 tub-1, potato", "42 g a l (usual 40 to 80)", "times the middle of what is usual"},
		next:   {"second early potato", "126 plants, 63 to 254", "square metres"},
	} {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		decoder := xml.NewDecoder(bytes.NewReader(data))
		for {
			if _, err := decoder.Token(); err == io.EOF {
				break
			} else {
				require.NoError(t, err, name)
			}
		}
		for _, words := range says {
			assert.Contains(t, string(data), words, name)
		}
	}
	data, err := os.ReadFile(sheet)
	require.NoError(t, err)
	assert.Contains(t, string(data), "leek: 126 plants, 63 to 254")
	assert.Contains(t, string(data), "<svg")
}
