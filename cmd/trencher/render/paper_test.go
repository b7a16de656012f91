package render

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/webdriver"
)

// fontsTried are very unlike: one of the widest there are, without feet, and one
// with feet. Both come with Debian's fonts-dejavu-core.
var fontsTried = []string{"DejaVu Sans", "DejaVu Serif"}

// line is one line of text on paper.
type line struct {
	side   int // from 1
	points float64
	text   string
}

// onPaper prints a page in a font and reads it back: its lines, how many sides,
// and how far down, of 1, the last side has ink.
func onPaper(t *testing.T, b *webdriver.Browser, page, font string) (lines []line, sides int, lastFilled float64) {
	t.Helper()
	const family = `"Liberation Sans", Arial, Helvetica, sans-serif`
	require.Contains(t, page, family)
	dir := t.TempDir()
	file := filepath.Join(dir, "page.html")
	require.NoError(t, os.WriteFile(file, []byte(strings.ReplaceAll(page, family, fmt.Sprintf("%q", font))), 0o644))
	b.Open("file://" + file)
	pdf := filepath.Join(dir, "page.pdf")
	require.NoError(t, os.WriteFile(pdf, b.Print(), 0o644))
	lines, sides = linesOf(t, pdf)
	return lines, sides, filledTo(t, pdf, sides)
}

// linesOf reads a PDF back.
func linesOf(t *testing.T, pdf string) (lines []line, sides int) {
	t.Helper()
	read, err := exec.Command(needPoppler(t, "pdftohtml"), "-xml", "-i", "-stdout", "-zoom", "3", pdf).Output()
	require.NoError(t, err)
	decoder := xml.NewDecoder(bytes.NewReader(read))
	decoder.Strict = false
	sizes := map[string]float64{}
	for {
		token, err := decoder.Token()
		if token == nil || err != nil {
			return lines, sides
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch start.Name.Local {
		case "page":
			sides++
		case "fontspec":
			var size float64
			fmt.Sscan(attribute(start, "size"), &size)
			sizes[attribute(start, "id")] = size / 3
		case "text":
			text := textWithin(decoder)
			if strings.TrimSpace(text) != "" {
				lines = append(lines, line{side: sides, points: sizes[attribute(start, "font")], text: text})
			}
		}
	}
}

func attribute(of xml.StartElement, name string) string {
	for _, each := range of.Attr {
		if each.Name.Local == name {
			return each.Value
		}
	}
	return ""
}

// textWithin reads to the end of the element that has begun.
func textWithin(decoder *xml.Decoder) string {
	var text strings.Builder
	for depth := 1; depth > 0; {
		token, err := decoder.Token()
		if err != nil {
			break
		}
		switch token := token.(type) {
		case xml.StartElement:
			depth++
		case xml.EndElement:
			depth--
		case xml.CharData:
			text.Write(token)
		}
	}
	return text.String()
}

// filledTo is how far down the last side has ink, as a share of its height.
func filledTo(t *testing.T, pdf string, last int) float64 {
	t.Helper()
	drawn, err := exec.Command(needPoppler(t, "pdftoppm"), "-r", "30", "-gray", "-png", "-f", fmt.Sprint(last), "-l", fmt.Sprint(last), pdf).Output()
	require.NoError(t, err)
	picture, err := png.Decode(bytes.NewReader(drawn))
	require.NoError(t, err)
	lowest := 0
	for y := range picture.Bounds().Dy() {
		for x := range picture.Bounds().Dx() {
			if grey, _, _, _ := picture.At(x, y).RGBA(); grey < math.MaxUint16*9/10 {
				lowest = y
			}
		}
	}
	return float64(lowest) / float64(picture.Bounds().Dy())
}

// needPoppler finds a program of Debian's poppler-utils. It skips the test where
// there is none, unless TRENCHER_LIVE=1 says that it must be there.
func needPoppler(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil && os.Getenv("TRENCHER_LIVE") == "1" {
		t.Fatal("TRENCHER_LIVE=1, but there is no ", name)
	}
	if err != nil {
		t.Skip("no ", name, "; TRENCHER_LIVE=1 makes this a failure")
	}
	return path
}
