package page

import (
	"fmt"
	"math"
	"strings"
)

// curvePoint is one size with its expected time and band, in millimetres and
// minutes.
type curvePoint struct{ Size, Low, Expected, High float64 }

// curve is a drawing of time over size. The line and its band are drawn in a
// box of 100 by 100 that is stretched to the screen; the scales stand beside
// it in percent and in the reader's letters, so that the text keeps its size.
type curve struct {
	Of         string // the crop and its cut
	Line, Band string
	Sizes      []mark // along the lower edge
	Minutes    []mark // along the left edge
	Says       string
}

// mark is a place on a scale, in percent from the left or the top.
type mark struct{ At, Text string }

// drawCurve draws the points, which rise in size; nil for fewer than two.
func drawCurve(of string, points []curvePoint) *curve {
	if len(points) < 2 {
		return nil
	}
	first, last := points[0], points[len(points)-1]
	var longest float64
	for _, point := range points {
		longest = max(longest, point.High)
	}
	minuteStep := roundStep(longest, 6)
	top := math.Ceil(longest/minuteStep) * minuteStep
	x := func(size float64) float64 { return 100 * (size - first.Size) / (last.Size - first.Size) }
	y := func(minutes float64) float64 { return 100 - 100*minutes/top }

	drawn := &curve{Of: of, Says: of + ": " + fmt.Sprintf("minutes by size, from %.0f min at %.0f mm to %.0f min at %.0f mm; the table below has the figures.",
		first.Expected, first.Size, last.Expected, last.Size)}
	var line, upper, lower strings.Builder
	for i, point := range points {
		back := points[len(points)-1-i]
		fmt.Fprintf(&line, "%s%.2f %.2f", pen(i), x(point.Size), y(point.Expected))
		fmt.Fprintf(&upper, "%s%.2f %.2f", pen(i), x(point.Size), y(point.High))
		fmt.Fprintf(&lower, "L%.2f %.2f", x(back.Size), y(back.Low))
	}
	drawn.Line, drawn.Band = line.String(), upper.String()+lower.String()+"z"
	sizeStep := roundStep(last.Size-first.Size, 5)
	for size := math.Ceil(first.Size/sizeStep) * sizeStep; size <= last.Size; size += sizeStep {
		drawn.Sizes = append(drawn.Sizes, mark{fmt.Sprintf("%.2f%%", x(size)), fmt.Sprintf("%.0f", size)})
	}
	for minutes := 0.0; minutes <= top; minutes += minuteStep {
		drawn.Minutes = append(drawn.Minutes, mark{fmt.Sprintf("%.2f%%", y(minutes)), fmt.Sprintf("%.0f", minutes)})
	}
	return drawn
}

func pen(i int) string {
	if i == 0 {
		return "M"
	}
	return "L"
}

// roundStep is 1, 2 or 5 times a power of ten that divides the length into at
// most that many parts.
func roundStep(length float64, parts int) float64 {
	step := 1.0
	for {
		for _, factor := range []float64{1, 2, 5} {
			if length <= step*factor*float64(parts) {
				return step * factor
			}
		}
		step *= 10
	}
}
