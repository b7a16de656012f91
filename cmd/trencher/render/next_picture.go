package render

import (
	"fmt"
	"html"
	"html/template"
	"io"
	"math"
	"strings"

	"trencher/harvest"
)

// Room of the picture of a season to come, in pixels.
const (
	groundWidth = 830
	groundNames = 190
	groundRoom  = 330 // for the scale
	groundRow   = 30
	groundTop   = 46
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
	var rows strings.Builder
	most := 0.0
	for _, c := range a.Crops {
		most = max(most, groundOf(c, c.Plants.High))
	}
	step := niceStep(most)
	end := math.Ceil(most/step) * step
	at := func(m2 float64) float64 { return groundNames + groundRoom*m2/max(end, step) }
	y := groundTop
	for _, c := range a.Crops {
		if c.Plants.Likely == 0 {
			continue
		}
		y += groundRow
		nextRow(&rows, c, y, at)
	}
	var axis strings.Builder
	for i := 0; float64(i)*step <= end+step/2 && most > 0; i++ {
		x := at(float64(i) * step)
		fmt.Fprintf(&axis, `<line x1="%.1f" x2="%.1f" y1="%d" y2="%d" stroke="#c9c4b5"/><text x="%.1f" y="%d" text-anchor="middle" fill="#22261f">%g</text>`+"\n",
			x, x, groundTop, y+groundRow/2, x, groundTop-6, math.Round(float64(i)*step*1000)/1000)
	}
	height := y + groundRow
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="100%%" role="img" aria-label="%s" font-family="sans-serif" font-size="13">
%s
<title>%s</title>
<rect width="%d" height="%d" fill="#ffffff"/>
<text x="%d" y="18" fill="#22261f">bed, in square metres: likely, and nine times out of ten within the line</text>
%s%s</svg>
`, groundWidth, height, html.EscapeString(NextTitle(a)), MadeSVG, html.EscapeString(NextTitle(a)), groundWidth, height, groundNames, axis.String(), rows.String())
}

// nextRow draws one crop at the height y.
func nextRow(b *strings.Builder, c harvest.NextCrop, y int, at func(float64) float64) {
	low, likely, high := at(groundOf(c, c.Plants.Low)), at(groundOf(c, c.Plants.Likely)), at(groundOf(c, c.Plants.High))
	fmt.Fprintf(b, `<text x="8" y="%d" fill="#22261f">%s</text>`+"\n", y, html.EscapeString(joinWords(c.Class, c.Crop)))
	fmt.Fprintf(b, `<line x1="%.1f" x2="%.1f" y1="%d" y2="%d" stroke="#3f6b3a" stroke-width="4"/>`+"\n", low, high, y-5, y-5)
	fmt.Fprintf(b, `<rect x="%.1f" y="%d" width="6" height="18" fill="#22261f"/>`+"\n", likely-3, y-14)
	fmt.Fprintf(b, `<text x="%d" y="%d" fill="#22261f">%s, %d to %d: %.1f m2</text>`+"\n", groundNames+groundRoom+14, y,
		count(roundUp(c.Plants.Likely), "plant", "plants"), roundUp(c.Plants.Low), roundUp(c.Plants.High), c.M2)
}

// groundOf is the bed that so many plants take, whole plants, in square metres.
func groundOf(c harvest.NextCrop, plants float64) float64 {
	return math.Ceil(plants) / c.Row.Spacing.PlantsPerM2()
}

// niceStep is a round step that parts a scale into some five.
func niceStep(most float64) float64 {
	if most <= 0 {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(most/5)))
	for _, n := range []float64{1, 2, 5} {
		if n*power >= most/5 {
			return n * power
		}
	}
	return 10 * power
}

var nextSheet = template.Must(template.New("next").Parse(`<!DOCTYPE html>
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

// NextSheet writes what to plant as one page to print: the picture, and the
// words beside it.
func NextSheet(w io.Writer, a harvest.NextSeason) error {
	var text strings.Builder
	if err := NextText(&text, a); err != nil {
		return err
	}
	return nextSheet.Execute(w, struct {
		Title   string
		Made    template.HTML
		Style   template.CSS
		Picture template.HTML
		Text    string
	}{NextTitle(a), MadeHTML, template.CSS(SheetStyle()), NextDrawing(a), text.String()})
}
