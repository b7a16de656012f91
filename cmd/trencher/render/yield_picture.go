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

// YieldPicture draws each planting's yield against the usual one as one SVG: the
// usual range is a band, the yield a mark, on one scale of times the middle of
// what is usual, with the grams beside it.
func YieldPicture(w io.Writer, t harvest.Tally) error {
	_, err := io.WriteString(w, yieldSVG(t))
	return err
}

// YieldDrawing is the picture for a page of its own.
func YieldDrawing(t harvest.Tally) template.HTML { return template.HTML(yieldSVG(t)) }

func yieldSVG(t harvest.Tally) string {
	most := 2.0
	for _, season := range t.Seasons {
		for _, y := range season.Rows {
			if a, ok := y.AgainstUsual(); ok {
				most = max(most, a.Times, a.High)
			}
		}
	}
	step := niceStep(most)
	end := math.Ceil(most/step) * step
	at := func(times float64) float64 { return groundNames + groundRoom*times/end }
	var rows, axis strings.Builder
	y := groundTop
	for _, season := range t.Seasons {
		for _, row := range season.Rows {
			if a, ok := row.AgainstUsual(); ok {
				y += groundRow
				yieldRow(&rows, fmt.Sprintf("%d %s, %s", season.Year, row.Planting.ID, row.Planting.Crop), a, y, at)
			}
		}
	}
	for i := 0; float64(i)*step <= end+step/2; i++ {
		x := at(float64(i) * step)
		fmt.Fprintf(&axis, `<line x1="%.1f" x2="%.1f" y1="%d" y2="%d" stroke="#c9c4b5"/><text x="%.1f" y="%d" text-anchor="middle" fill="#22261f">%g</text>`+"\n",
			x, x, groundTop, y+groundRow/2, x, groundTop-6, math.Round(float64(i)*step*1000)/1000)
	}
	height := y + groundRow
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="100%%" role="img" aria-label="Yields against the usual ones" font-family="sans-serif" font-size="13">
%s
<title>Yields against the usual ones</title>
<rect width="%d" height="%d" fill="#ffffff"/>
<text x="%d" y="18" fill="#22261f">yield, times the middle of what is usual; the bar is what is usual</text>
%s%s</svg>
`, groundWidth, height, MadeSVG, groundWidth, height, groundNames, axis.String(), rows.String())
}

func yieldRow(b *strings.Builder, name string, a harvest.AgainstUsual, y int, at func(float64) float64) {
	unit := map[string]string{harvest.PerLitre: "l", harvest.PerM2: "m2", harvest.PerPlant: "plant"}[a.Per]
	fmt.Fprintf(b, `<text x="8" y="%d" fill="#22261f">%s</text>`+"\n", y, html.EscapeString(name))
	fmt.Fprintf(b, `<rect x="%.1f" y="%d" width="%.1f" height="14" fill="#c9d8b5" stroke="#3f6b3a"/>`+"\n", at(a.Low), y-12, at(a.High)-at(a.Low))
	fmt.Fprintf(b, `<rect x="%.1f" y="%d" width="5" height="20" fill="#22261f"/>`+"\n", at(a.Times)-2.5, y-15)
	fmt.Fprintf(b, `<text x="%d" y="%d" fill="#22261f">%.0f g a %s (usual %d to %d)</text>`+"\n", groundNames+groundRoom+14, y, a.Grams, unit, a.UsualLow, a.UsualTop)
}
