package render

import (
	"fmt"
	"html"
	"math"
	"strings"
)

// Room of a picture with one scale, in pixels: narrow enough to be read on a
// phone, where it is shown as wide as the screen.
const (
	scaleWidth = 400
	scaleLeft  = 16
	scaleRoom  = 360
	scaleRow   = 62
	scaleTop   = 70
)

// scaleDrawing is an SVG of rows on one scale, each with its name and figures
// above it.
type scaleDrawing struct {
	step, end float64
	y         int // of the last row's middle
	rows      strings.Builder
}

// newScaleDrawing is a drawing whose scale reaches to most.
func newScaleDrawing(most float64) *scaleDrawing {
	step := niceStep(most)
	return &scaleDrawing{step: step, end: max(step, math.Ceil(most/step)*step), y: scaleTop - 10}
}

// at is where a figure stands on the scale.
func (d *scaleDrawing) at(figure float64) float64 { return scaleLeft + scaleRoom*figure/d.end }

// row begins a row and gives the middle of what is drawn in it.
func (d *scaleDrawing) row(name, figures string) (y int) {
	d.y += scaleRow
	fmt.Fprintf(&d.rows, `<text x="%d" y="%d" fill="#22261f" font-weight="bold">%s</text><text x="%d" y="%d" fill="#22261f">%s</text>`+"\n",
		scaleLeft, d.y-30, html.EscapeString(name), scaleLeft, d.y-14, html.EscapeString(figures))
	return d.y
}

// svg is the whole picture, with two lines that say what the scale is.
func (d *scaleDrawing) svg(title, says, more string) string {
	var axis strings.Builder
	for i := 0; float64(i)*d.step <= d.end+d.step/2; i++ {
		x := d.at(float64(i) * d.step)
		fmt.Fprintf(&axis, `<line x1="%.1f" x2="%.1f" y1="%d" y2="%d" stroke="#c9c4b5"/><text x="%.1f" y="%d" text-anchor="middle" fill="#22261f">%g</text>`+"\n",
			x, x, scaleTop, d.y+scaleRow/4, x, scaleTop-6, math.Round(float64(i)*d.step*1000)/1000)
	}
	height, title := d.y+scaleRow/2, html.EscapeString(title)
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="100%%" role="img" aria-label="%s" font-family="sans-serif" font-size="15">
%s
<title>%s</title>
<rect width="%d" height="%d" fill="#ffffff"/>
<text x="%d" y="20" fill="#22261f">%s</text><text x="%d" y="40" fill="#22261f">%s</text>
%s%s</svg>
`, scaleWidth, height, title, MadeSVG, title, scaleWidth, height, scaleLeft, says, scaleLeft, more, axis.String(), d.rows.String())
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
