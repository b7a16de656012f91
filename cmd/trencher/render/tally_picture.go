package render

import (
	"fmt"
	"html"
	"io"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/harvest"
)

// Room of the bar picture, in pixels.
const (
	pictureWidth = 760
	pictureNames = 200
	pictureRoom  = pictureWidth - pictureNames - 90 // for the longest bar
	pictureRow   = 34
	pictureBar   = 18
	pictureLabel = 60 // the shortest part with room for its weight
)

// fateFills are the fills of the places grams go to, by harvest.Fate; each
// bar's parts are also told apart by the legend's order.
var fateFills = []string{"#3f6b3a", "#8a6f3c", "#5b7c99", "#6b5344", "#e8d9a8", "#c9c4b5"}

// fateInks are the inks that can be read on them.
var fateInks = []string{"#ffffff", "#ffffff", "#ffffff", "#ffffff", "#22261f", "#22261f"}

// TallyPicture draws the seasons as one SVG: a bar for each planting, as long
// as its net weight, split by where it went.
func TallyPicture(w io.Writer, t harvest.Tally) error {
	var rows strings.Builder
	heaviest := t.Heaviest()
	y := pictureRow
	for _, season := range t.Seasons {
		for _, row := range season.Rows {
			pictureLine(&rows, y, fmt.Sprintf("%d  %s  %s", season.Year, row.Planting.ID, row.Planting.Crop), row, heaviest)
			y += pictureRow
		}
	}
	for i, name := range fates {
		x := pictureNames + 100*i
		fmt.Fprintf(&rows, `<rect x="%d" y="%d" width="12" height="12" fill="%s"/><text x="%d" y="%d" fill="#22261f">%s</text>`+"\n",
			x, y-10, fateFills[i], x+16, y, name)
	}
	height := y + pictureRow
	_, err := fmt.Fprintf(w, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d" role="img" font-family="sans-serif" font-size="13">
%s
<title>What each planting gave and where it went</title>
<rect width="%d" height="%d" fill="#ffffff"/>
%s</svg>
`, pictureWidth, height, pictureWidth, height, MadeSVG, pictureWidth, height, rows.String())
	return err
}

// pictureLine draws one planting at the height y: its name, its bar with the
// weight of each part that has room for it, and its net weight.
func pictureLine(b *strings.Builder, y int, name string, row harvest.Yield, heaviest decimal.Decimal) {
	fmt.Fprintf(b, `<text x="8" y="%d" fill="#22261f">%s</text>`+"\n", y, html.EscapeString(name))
	x := pictureNames
	for _, part := range row.Went.Parts() {
		length := cells(part.Grams, heaviest, pictureRoom)
		if length > 0 {
			fmt.Fprintf(b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"><title>%s %s</title></rect>`+"\n",
				x, y-14, length, pictureBar, fateFills[part.Fate], fates[part.Fate], grams(part.Grams))
		}
		if length >= pictureLabel {
			fmt.Fprintf(b, `<text x="%d" y="%d" fill="%s" font-size="11">%s</text>`+"\n", x+4, y-1, fateInks[part.Fate], grams(part.Grams))
		}
		x += length
	}
	fmt.Fprintf(b, `<text x="%d" y="%d" fill="#22261f">%s</text>`+"\n", x+6, y, grams(row.Net))
}
