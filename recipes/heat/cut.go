package heat

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"trencher/units"
)

// Shape is how a crop is cut.
type Shape uint8

// The cuts of a kitchen. Halves and quarters are cut lengthwise; Eighths are
// quarters cut across once; Wedges are eighths cut lengthwise only.
const (
	Whole Shape = iota + 1
	Halves
	HalvesAcross
	Quarters
	Eighths
	Wedges
	Cube
	Slice
	Baton
	Box
)

var shapeWords = map[Shape]string{
	Whole: "whole", Halves: "halves", HalvesAcross: "halves across", Quarters: "quarters",
	Eighths: "eighths", Wedges: "wedges", Cube: "cube", Slice: "slice", Baton: "baton", Box: "box",
}

// CutForms says every form that ParseCut reads.
const CutForms = "whole 35 mm | whole 45x35x35 mm | halves 45 mm | halves across 45 mm | quarters 60 mm | " +
	"eighths 80 mm | wedges 80 mm | cube 25 mm | slice 6 mm | slice 6x40 mm | baton 10 mm | baton 10x60 mm | box 30x20x10 mm"

// String is the shape's word in a cut: "halves across".
func (s Shape) String() string { return shapeWords[s] }

// Order is what to do to the tuber: "leave whole", "halve"; a cut to a size is
// its own order.
func (c Cut) Order() string {
	switch c.Shape {
	case Whole:
		return "leave whole"
	case Halves:
		return "halve"
	case HalvesAcross:
		return "halve across"
	case Quarters:
		return "quarter"
	case Eighths:
		return "quarter, then cut across"
	case Wedges:
		return "cut in eight wedges"
	}
	return c.String()
}

// OfTuber says whether the cut takes a whole tuber or root and parts it, so
// that its size is the tuber's.
func (s Shape) OfTuber() bool { return s >= Whole && s <= Wedges }

// Cut is one piece of a crop. The zero value is no cut.
type Cut struct {
	Shape Shape
	// SizeMM is the number behind the word: the diameter of the uncut tuber
	// for Whole to Wedges, a cube's edge, a slice's thickness, a baton's
	// side. 0 for a cut of the tuber means: as the lot's sizes have it.
	SizeMM float64
	// AcrossMM is a slice's diameter or a baton's length; 0 = the crop's
	// usual one (see Crop.WidthMM) or six sides of the baton.
	AcrossMM float64
	// Sides are length, width and thickness in mm, when all three are given:
	// of a box, or of the uncut tuber. Zero otherwise.
	Sides [3]float64
}

// Sized says whether the cut has a size of its own.
func (c Cut) Sized() bool { return c.SizeMM != 0 || c.Sides[0] != 0 }

// check refuses sizes that no piece or tuber has.
func (c Cut) check() error {
	for _, mm := range [...]float64{c.SizeMM, c.AcrossMM, c.Sides[0], c.Sides[1], c.Sides[2]} {
		if mm != 0 && !(mm >= smallestMM && mm <= largestMM) {
			return outsideError("cut", mm, smallestMM, largestMM, "mm")
		}
	}
	return nil
}

// WithTuber is the cut made on a tuber of that diameter in mm. A cube, slice,
// baton or box stays as it is.
func (c Cut) WithTuber(diameterMM float64) Cut {
	if c.Shape.OfTuber() {
		c.SizeMM, c.Sides = diameterMM, [3]float64{}
	}
	return c
}

// String writes the cut so that ParseCut reads it back: "cube 25 mm".
func (c Cut) String() string {
	word := c.Shape.String()
	switch {
	case c.Sides[0] > 0:
		return fmt.Sprintf("%s %sx%sx%s mm", word, millimetres(c.Sides[0]), millimetres(c.Sides[1]), millimetres(c.Sides[2]))
	case c.AcrossMM > 0:
		return fmt.Sprintf("%s %sx%s mm", word, millimetres(c.SizeMM), millimetres(c.AcrossMM))
	case c.SizeMM > 0:
		return fmt.Sprintf("%s %s mm", word, millimetres(c.SizeMM))
	}
	return word
}

func millimetres(mm float64) string {
	return strconv.FormatFloat(math.Round(mm*100)/100, 'f', -1, 64)
}

// ParseCut reads a cut as a dish or a cook writes it: see CutForms. Whole,
// halves, quarters, eighths and wedges may stand without a size (the lot's
// sizes then decide); the others may not.
func ParseCut(text string) (Cut, error) {
	wrong := func(problem string) (Cut, error) {
		return Cut{}, &units.FieldError{Field: "cut", Value: text, Problem: problem, Accepted: "" + CutForms}
	}
	words := strings.Fields(strings.ToLower(strings.ReplaceAll(text, "×", "x")))
	shape, rest := shapeOf(words)
	if shape == 0 {
		return wrong("not a cut this tool knows")
	}
	cut := Cut{Shape: shape}
	if len(rest) == 0 {
		if !shape.OfTuber() {
			return wrong("no size")
		}
		return cut, nil
	}
	sizes, problem := parseSizes(strings.Join(rest, " "))
	if problem != "" {
		return wrong(problem)
	}
	if problem = cut.take(sizes); problem != "" {
		return wrong(problem)
	}
	return cut, nil
}

// ParseShape reads a cut's bare word: "cube", "whole".
func ParseShape(text string) (Shape, error) {
	shape, rest := shapeOf(strings.Fields(strings.ToLower(text)))
	if shape == 0 || len(rest) > 0 {
		return 0, &units.FieldError{Field: "cut", Value: text, Problem: "not a bare cut", Accepted: "whole, halves, quarters, eighths, wedges, cube, slice or baton"}
	}
	return shape, nil
}

// shapeOf finds the cut's word at the start; a trailing s is optional.
func shapeOf(words []string) (Shape, []string) {
	if len(words) == 0 {
		return 0, nil
	}
	shape := Shape(0)
	switch words[0] {
	case "whole":
		shape = Whole
	case "half", "halves", "halved":
		shape = Halves
	case "quarter", "quarters", "quartered":
		shape = Quarters
	case "eighth", "eighths":
		shape = Eighths
	case "wedge", "wedges":
		shape = Wedges
	case "cube", "cubes", "dice":
		shape = Cube
	case "slice", "slices", "sliced":
		shape = Slice
	case "baton", "batons":
		shape = Baton
	case "box":
		shape = Box
	}
	if shape == Halves && len(words) > 1 && words[1] == "across" {
		return HalvesAcross, words[2:]
	}
	return shape, words[1:]
}

// take puts the sizes written behind the word where they belong.
func (c *Cut) take(sizes []float64) (problem string) {
	for _, mm := range sizes {
		if !(mm >= smallestMM && mm <= largestMM) {
			return fmt.Sprintf("%s mm is no size for a piece or a tuber; %d to %d mm are", millimetres(mm), smallestMM, largestMM)
		}
	}
	switch {
	case c.Shape == Box && len(sizes) != 3:
		return "a box has three sides"
	case len(sizes) == 3 && (c.Shape.OfTuber() || c.Shape == Box):
		copy(c.Sides[:], sizes)
	case len(sizes) == 2 && (c.Shape == Slice || c.Shape == Baton):
		c.SizeMM, c.AcrossMM = sizes[0], sizes[1]
	case len(sizes) == 1:
		c.SizeMM = sizes[0]
	default:
		return fmt.Sprintf("%d sizes are too many or too few for it", len(sizes))
	}
	return ""
}

// Sizes outside these are taken for slips of the pen.
const (
	smallestMM = 2
	largestMM  = 200
)

// parseSizes reads "25 mm", "2.5 cm", "1½ in" or "45x35x35 mm" into
// millimetres; the unit stands behind the last.
func parseSizes(text string) (mm []float64, problem string) {
	parts := strings.Split(text, "x")
	last := parts[len(parts)-1]
	unit := strings.TrimLeft(last, " 0123456789.,/½¼¾⅓⅔⅛⅜⅝⅞+-")
	if unit == "" {
		return nil, "no unit of length"
	}
	for i, part := range parts {
		if strings.HasPrefix(strings.TrimSpace(part), "-") {
			return nil, fmt.Sprintf("%q is below zero", strings.TrimSpace(part))
		}
		if i < len(parts)-1 {
			part += " " + unit
		}
		length, err := units.Parse(part, units.Metric)
		if err != nil || length.IsRange() || length.Dimension() != units.Length {
			return nil, fmt.Sprintf("%q is no length", strings.TrimSpace(part))
		}
		value, err := length.Float64(units.Millimetre)
		if err != nil {
			return nil, fmt.Sprintf("%q is no length", strings.TrimSpace(part))
		}
		mm = append(mm, math.Round(value*1e6)/1e6)
	}
	return mm, ""
}
