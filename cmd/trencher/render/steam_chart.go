package render

import (
	"fmt"
	"html"
	"io"
	"math"
	"strings"

	"trencher/recipes/heat"
)

// Room of the steaming chart, in pixels.
const (
	chartWidth, chartHeight = 760.0, 430.0
	chartLeft, chartRight   = 58.0, 20.0
	chartTop, chartBottom   = 64.0, 56.0
)

// SteamChart draws the temperatures of a piece's centre and surface over time
// as one SVG: when steam flows freely, and the band in which the knife decides.
func SteamChart(w io.Writer, c heat.Curve) error {
	g := newGrid(c)
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %.0f %.0f" width="%.0f" height="%.0f" role="img" font-family="sans-serif" font-size="13" fill="#22261f">`+"\n",
		chartWidth, chartHeight, chartWidth, chartHeight)
	fmt.Fprintln(&b, MadeSVG)
	title := fmt.Sprintf("%s, %s, until %s", capital(c.Estimate.Crop.Title()), c.Estimate.Cut, c.Estimate.Doneness)
	fmt.Fprintf(&b, "<title>%s</title>\n", html.EscapeString(title))
	fmt.Fprintf(&b, `<rect width="%.0f" height="%.0f" fill="#ffffff"/>`+"\n", chartWidth, chartHeight)
	fmt.Fprintf(&b, `<text x="%.0f" y="22" font-size="16">%s</text>`+"\n", chartLeft, html.EscapeString(title))
	fmt.Fprintf(&b, `<text x="%.0f" y="44">%s</text>`+"\n", chartLeft, html.EscapeString(fmt.Sprintf(
		"%s from full steam; test with a knife from %s to %s", minutesFine(c.Estimate.Minutes), knifeFromFine(c.Estimate.Low), upToFine(c.Estimate.High))))
	g.band(&b, c)
	g.axes(&b)
	g.line(&b, c.Moments, "#b0642d", func(m heat.Moment) float64 { return m.SurfaceC })
	g.line(&b, c.Moments, "#2f5d34", func(m heat.Moment) float64 { return m.CentreC })
	g.mark(&b, c)
	g.names(&b, c)
	fmt.Fprintln(&b, "</svg>")
	_, err := io.WriteString(w, b.String())
	return err
}

// grid turns minutes and °C into places on the chart.
type grid struct{ minutes float64 }

func newGrid(c heat.Curve) grid {
	last := c.Moments[len(c.Moments)-1].Minutes
	return grid{math.Max(last, 1)}
}

func (g grid) x(minutes float64) float64 {
	return drawn(chartLeft + math.Min(minutes/g.minutes, 1)*(chartWidth-chartLeft-chartRight))
}

func (g grid) y(celsius float64) float64 {
	return drawn(chartHeight - chartBottom - celsius/110*(chartHeight-chartTop-chartBottom))
}

// drawn is a place in tenths, the same on every machine: half a tenth goes down,
// whatever the last bit says.
func drawn(at float64) float64 { return math.Round(at*10-slip) / 10 }

// band shades the minutes from low to high and the come-up before them.
func (g grid) band(b *strings.Builder, c heat.Curve) {
	e := c.Estimate
	top, height := chartTop, chartHeight-chartTop-chartBottom
	from, to := g.x(c.FullFlow+e.Low), g.x(c.FullFlow+e.High)
	fmt.Fprintf(b, `<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" fill="#e9efdc"/>`+"\n", from, top, to-from, height)
	fmt.Fprintf(b, `<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" fill="#f1ece4"/>`+"\n", chartLeft, top, g.x(c.FullFlow)-chartLeft, height)
}

func (g grid) axes(b *strings.Builder) {
	for t := 0.0; t <= 100; t += 20 {
		fmt.Fprintf(b, `<path d="M%.1f %.1fH%.1f" stroke="#d8d8d2"/><text x="%.1f" y="%.1f" text-anchor="end">%.0f</text>`+"\n",
			chartLeft, g.y(t), chartWidth-chartRight, chartLeft-8, g.y(t)+4, t)
	}
	for m := 0.0; m <= g.minutes; m += pace(g.minutes) {
		fmt.Fprintf(b, `<path d="M%.1f %.1fv6" stroke="#22261f"/><text x="%.1f" y="%.1f" text-anchor="middle">%g</text>`+"\n",
			g.x(m), g.y(0), g.x(m), g.y(0)+20, m)
	}
	fmt.Fprintf(b, `<path d="M%.1f %.1fV%.1fH%.1f" fill="none" stroke="#22261f"/>`+"\n", chartLeft, chartTop, g.y(0), chartWidth-chartRight)
	fmt.Fprintf(b, `<text x="%.1f" y="%.1f" text-anchor="middle">minutes from putting it in</text>`+"\n", (chartLeft+chartWidth-chartRight)/2, chartHeight-14)
	fmt.Fprintf(b, `<text x="10" y="%.1f">°C</text>`+"\n", chartTop+4)
}

// pace is the minutes between two marks of the time axis.
func pace(minutes float64) float64 {
	for _, p := range []float64{1, 2, 5, 10, 20, 30} {
		if minutes/p <= 12 {
			return p
		}
	}
	return 60
}

func (g grid) line(b *strings.Builder, moments []heat.Moment, stroke string, at func(heat.Moment) float64) {
	var d strings.Builder
	for i, m := range moments {
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		fmt.Fprintf(&d, "%s%.1f %.1f", letter, g.x(m.Minutes), g.y(at(m)))
	}
	fmt.Fprintf(b, `<path d="%s" fill="none" stroke="%s" stroke-width="2.5"/>`+"\n", d.String(), stroke)
}

// mark points out when the centre is expected to be done.
func (g grid) mark(b *strings.Builder, c heat.Curve) {
	x, y := g.x(c.FullFlow+c.Estimate.Modelled), g.y(c.Estimate.CentreC)
	fmt.Fprintf(b, `<circle cx="%.1f" cy="%.1f" r="5" fill="#2f5d34"/>`+"\n", x, y)
	fmt.Fprintf(b, `<text x="%.1f" y="%.1f">%.0f °C at the centre</text>`+"\n", x+8, y+20, c.Estimate.CentreC)
}

// names labels the lines and the shaded spans.
func (g grid) names(b *strings.Builder, c heat.Curve) {
	at := c.Moments[len(c.Moments)/3]
	fmt.Fprintf(b, `<text x="%.1f" y="%.1f" fill="#8f4d1f">surface</text>`+"\n", g.x(at.Minutes), g.y(at.SurfaceC)-8)
	fmt.Fprintf(b, `<text x="%.1f" y="%.1f" fill="#2f5d34">centre</text>`+"\n", g.x(at.Minutes)+10, g.y(at.CentreC)+18)
	fmt.Fprintf(b, `<text x="%.1f" y="%.1f" font-size="12">full steam</text>`+"\n", g.x(c.FullFlow)+4, g.y(0)-24)
	fmt.Fprintf(b, `<text x="%.1f" y="%.1f" font-size="12">test with a knife</text>`+"\n", g.x(c.FullFlow+c.Estimate.Low)+4, g.y(0)-8)
}
