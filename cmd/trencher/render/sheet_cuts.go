package render

import (
	"fmt"
	"math"
	"strings"

	"trencher/recipes/heat"
	"trencher/recipes/meal"
)

// Cutting pictures are drawn in millimetres of the tuber and shown at one
// fifth of life size, so that pictures on one sheet compare by eye.
const (
	pictureScale = 1.0 / 5
	pictureGap   = 5.0 // mm between the side and the end view
	pictureEdge  = 2.0 // mm around, for the outline's own width

	// longOverWide is how much longer than wide a tuber is drawn: the
	// steaming model's own default.
	longOverWide = 1.3
)

// cutPicture is one size class with its cuts: the tuber from the side and
// from its end. Outlines, cut lines and the marked piece are SVG path data.
type cutPicture struct {
	ViewBox       string
	Width, Height string // as shown, with the unit
	Outline       string
	Piece         string
	Lines         string
	Says          string // the picture in words
}

// drawCut draws a class of tubers, or only the piece when the lot has not
// been graded; it returns nil when neither size is known.
func drawCut(cut meal.Cut, how string) *cutPicture {
	if !cut.Sizes.IsGraded() {
		return drawPiece(cut, how)
	}
	wide := float64(cut.Sizes.Low+cut.Sizes.High) / 2
	long := wide * longOverWide
	side := ellipse{x: pictureEdge + long/2, y: pictureEdge + wide/2, a: long / 2, b: wide / 2}
	end := ellipse{x: 2*pictureEdge + long + pictureGap + wide/2, y: side.y, a: wide / 2, b: wide / 2}
	across, along, endAcross, endAlong := cutPlanes(cut)
	picture := frame(end.x+end.a+pictureEdge, wide+2*pictureEdge)
	picture.Outline = side.outline() + end.outline()
	picture.Piece = side.piece(across, along) + end.piece(endAcross, endAlong)
	picture.Lines = side.lines(across, along) + end.lines(endAcross, endAlong)
	if cut.Cut.Shape == heat.Wedges { // each quarter halved again: no rectangle is one piece
		picture.Lines += end.diagonals()
		picture.Piece = side.piece(across, along)
	}
	picture.Says = fmt.Sprintf("A tuber of %s from the side and from its end: %s.", cut.Sizes, how)
	return picture
}

// drawPiece draws the piece alone, as a square of its thickness.
func drawPiece(cut meal.Cut, how string) *cutPicture {
	if cut.PieceMM <= 0 {
		return nil
	}
	picture := frame(cut.PieceMM+2*pictureEdge, cut.PieceMM+2*pictureEdge)
	picture.Piece = rectangle(pictureEdge, pictureEdge, cut.PieceMM, cut.PieceMM)
	picture.Says = fmt.Sprintf("One piece, %.0f mm thick: %s.", cut.PieceMM, how)
	return picture
}

func frame(width, height float64) *cutPicture {
	return &cutPicture{
		ViewBox: fmt.Sprintf("0 0 %.1f %.1f", width, height),
		Width:   fmt.Sprintf("%.1fmm", width*pictureScale),
		Height:  fmt.Sprintf("%.1fmm", height*pictureScale),
	}
}

// spacing tells where the cuts in one direction lie: none, one through the
// middle, or evenly spaced with a piece around the middle.
type spacing struct {
	middle bool
	every  float64 // mm; 0 = not evenly spaced
}

// cutPlanes gives the cuts seen in each view: across the length and along it
// from the side, then the two directions seen from the end.
func cutPlanes(cut meal.Cut) (across, along, endAcross, endAlong spacing) {
	middle, every := spacing{middle: true}, spacing{every: cut.PieceMM}
	switch cut.Cut.Shape {
	case heat.Halves:
		return spacing{}, middle, spacing{}, middle
	case heat.HalvesAcross:
		return middle, spacing{}, spacing{}, spacing{}
	case heat.Quarters, heat.Wedges:
		return spacing{}, middle, middle, middle
	case heat.Eighths:
		return middle, middle, middle, middle
	case heat.Cube:
		return every, every, every, every
	case heat.Slice:
		return every, spacing{}, spacing{}, spacing{}
	case heat.Baton:
		return spacing{}, every, every, every
	}
	return
}

// positions are the cuts within half a width of the middle, from the middle.
func (s spacing) positions(half float64) []float64 {
	if s.middle {
		return []float64{0}
	}
	var at []float64
	if s.every > 1 {
		for p := s.every / 2; p < half; p += s.every {
			at = append(at, -p, p)
		}
	}
	return at
}

// ellipse is an outline with its centre and half axes, in millimetres.
type ellipse struct{ x, y, a, b float64 }

func (e ellipse) outline() string {
	return fmt.Sprintf("M%.1f %.1fa%.1f %.1f 0 1 0 %.1f 0a%.1f %.1f 0 1 0 %.1f 0z",
		e.x-e.a, e.y, e.a, e.b, 2*e.a, e.a, e.b, -2*e.a)
}

// lines draws the cuts from edge to edge of the outline.
func (e ellipse) lines(across, along spacing) string {
	var path strings.Builder
	for _, p := range across.positions(e.a) {
		reach := e.b * math.Sqrt(1-p*p/(e.a*e.a))
		fmt.Fprintf(&path, "M%.1f %.1fV%.1f", e.x+p, e.y-reach, e.y+reach)
	}
	for _, p := range along.positions(e.b) {
		reach := e.a * math.Sqrt(1-p*p/(e.b*e.b))
		fmt.Fprintf(&path, "M%.1f %.1fH%.1f", e.x-reach, e.y+p, e.x+reach)
	}
	return path.String()
}

// diagonals draws the two cuts that make wedges of quarters.
func (e ellipse) diagonals() string {
	x, y := e.a*math.Sqrt2/2, e.b*math.Sqrt2/2
	return fmt.Sprintf("M%.1f %.1fL%.1f %.1fM%.1f %.1fL%.1f %.1f", e.x-x, e.y-y, e.x+x, e.y+y, e.x-x, e.y+y, e.x+x, e.y-y)
}

// piece marks one piece: the part of the outline around the middle, or in the
// upper right where a cut runs through the middle.
func (e ellipse) piece(across, along spacing) string {
	left, right := across.bounds(e.a)
	top, bottom := along.bounds(e.b)
	var path strings.Builder
	const steps = 16
	x := func(i int) float64 { // closer together at the ends, where the outline turns
		return (left+right)/2 - (right-left)/2*math.Cos(math.Pi*float64(i)/steps)
	}
	for i := 0; i <= steps; i++ { // along the upper edge, then back below
		e.edgePoint(&path, x(i), top)
	}
	for i := steps; i >= 0; i-- {
		e.edgePoint(&path, x(i), bottom)
	}
	return "M" + strings.TrimPrefix(path.String(), "L") + "z"
}

// edgePoint adds the point at x, kept inside the outline.
func (e ellipse) edgePoint(path *strings.Builder, x, y float64) {
	reach := e.b * math.Sqrt(math.Max(0, 1-x*x/(e.a*e.a)))
	fmt.Fprintf(path, "L%.1f %.1f", e.x+x, e.y+math.Max(-reach, math.Min(reach, y)))
}

// bounds are the two sides of the marked piece in this direction.
func (s spacing) bounds(half float64) (low, high float64) {
	switch {
	case s.middle:
		return -half, 0
	case s.every > 1:
		return -math.Min(half, s.every/2), math.Min(half, s.every/2)
	}
	return -half, half
}

func rectangle(x, y, width, height float64) string {
	return fmt.Sprintf("M%.1f %.1fh%.1fv%.1fh%.1fz", x, y, width, height, -width)
}
