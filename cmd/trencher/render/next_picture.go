package render

import (
	"fmt"
	"html/template"
	"io"
	"math"
	"strings"
	"sync"

	"trencher/harvest"
)

// NextPicture draws what to plant as one SVG: for each crop the ground it takes,
// as likely and in its range, on one scale of square metres, with the number of
// plants beside it. The figures are those of [NextText].
func NextPicture(w io.Writer, a harvest.NextSeason) error {
	_, err := io.WriteString(w, nextSVG(a))
	return err
}

// NextDrawing is the picture for a page of its own.
func NextDrawing(a harvest.NextSeason) template.HTML { return template.HTML(nextSVG(a)) }

func nextSVG(a harvest.NextSeason) string {
	most := 0.0
	for _, c := range a.Crops {
		most = max(most, groundOf(c, c.Plants.High))
	}
	d := newScaleDrawing(most)
	for _, c := range a.Crops {
		if c.Plants.Likely > 0 {
			nextRow(d, c)
		}
	}
	return d.svg(NextTitle(a), "bed in square metres: the mark is likely,", "nine times out of ten it is within the line")
}

// nextRow draws one crop.
func nextRow(d *scaleDrawing, c harvest.NextCrop) {
	y := d.row(joinWords(c.Class, c.Crop), fmt.Sprintf("%s, %d to %d: %.1f m2",
		count(roundUp(c.Plants.Likely), "plant", "plants"), roundUp(c.Plants.Low), roundUp(c.Plants.High), c.M2))
	low, likely, high := d.at(groundOf(c, c.Plants.Low)), d.at(groundOf(c, c.Plants.Likely)), d.at(groundOf(c, c.Plants.High))
	fmt.Fprintf(&d.rows, `<line x1="%.1f" x2="%.1f" y1="%d" y2="%d" stroke="#3f6b3a" stroke-width="4"/>`+"\n", low, high, y, y)
	fmt.Fprintf(&d.rows, `<rect x="%.1f" y="%d" width="6" height="18" fill="#22261f"/>`+"\n", likely-3, y-9)
}

// groundOf is the bed that so many plants take, whole plants, in square metres.
func groundOf(c harvest.NextCrop, plants float64) float64 {
	return math.Ceil(plants) / c.Row.Spacing.PlantsPerM2()
}

var nextSheet = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("next").Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
{{.Made}}
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{.Title}}</title>
<style>
{{.Style}}</style>
</head>
<body class="sheet">
<h1>What to plant</h1>
<p class="answer">{{.Title}}.</p>
{{.Picture}}
<pre>{{.Text}}</pre>
</body>
</html>
`))
})

// NextSheet writes what to plant as one page to print: the picture, and the
// words beside it.
func NextSheet(w io.Writer, a harvest.NextSeason) error {
	var text strings.Builder
	if err := NextText(&text, a); err != nil {
		return err
	}
	return nextSheet().Execute(w, struct {
		Title   string
		Made    template.HTML
		Style   template.CSS
		Picture template.HTML
		Text    string
	}{NextTitle(a), MadeHTML, template.CSS(PlanStyle()), NextDrawing(a), text.String()})
}
