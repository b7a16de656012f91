package render

import (
	"fmt"
	"html"
	"io"
	"strings"

	"trencher/cmd/trencher/ask"
)

// Room of the bar picture, in pixels.
const (
	pictureWidth = 760
	pictureNames = 200
	pictureRow   = 34
	pictureBar   = 18
	pictureLabel = 60 // the shortest part with room for its weight
)

// fateFills are the fills of the five places grams go to, in the order of
// ask.Parts; each bar's parts are also told apart by the legend's order.
var fateFills = []string{"#3f6b3a", "#8a6f3c", "#5b7c99", "#6b5344", "#c9c4b5"}

// fateInks are the inks that can be read on them.
var fateInks = []string{"#ffffff", "#ffffff", "#ffffff", "#ffffff", "#22261f"}

// TallyPicture draws the seasons as one SVG: a bar for each planting, as long
// as its net weight, split by where it went.
func TallyPicture(w io.Writer, a ask.TallyAnswer) error {
	picture := ask.PictureOf(a.Seasons, pictureWidth-pictureNames-90)
	var b strings.Builder
	height := pictureRow * (len(picture.Rows) + 2)
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d" role="img" font-family="sans-serif" font-size="13">`+"\n",
		pictureWidth, height, pictureWidth, height)
	fmt.Fprintln(&b, "<title>What each planting gave and where it went</title>")
	fmt.Fprintf(&b, `<rect width="%d" height="%d" fill="#ffffff"/>`+"\n", pictureWidth, height)
	y := pictureRow
	for _, row := range picture.Rows {
		fmt.Fprintf(&b, `<text x="8" y="%d" fill="#22261f">%s</text>`+"\n", y, html.EscapeString(row.Name))
		x := pictureNames
		for i, part := range row.Parts {
			if part.Length > 0 {
				fmt.Fprintf(&b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"><title>%s %s</title></rect>`+"\n",
					x, y-14, part.Length, pictureBar, fateFills[i], part.Name, grams(part.Grams))
				if part.Length >= pictureLabel {
					fmt.Fprintf(&b, `<text x="%d" y="%d" fill="%s" font-size="11">%s</text>`+"\n", x+4, y-1, fateInks[i], grams(part.Grams))
				}
			}
			x += part.Length
		}
		fmt.Fprintf(&b, `<text x="%d" y="%d" fill="#22261f">%s</text>`+"\n", x+6, y, grams(row.Net))
		y += pictureRow
	}
	x := pictureNames
	for i, name := range picture.Legend {
		fmt.Fprintf(&b, `<rect x="%d" y="%d" width="12" height="12" fill="%s"/><text x="%d" y="%d" fill="#22261f">%s</text>`+"\n",
			x, y-10, fateFills[i], x+16, y, name)
		x += 100
	}
	fmt.Fprintln(&b, "</svg>")
	_, err := io.WriteString(w, b.String())
	return err
}
