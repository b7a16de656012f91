package heat

import (
	"fmt"
	"math"
	"strings"
	"trencher/units"
)

// CutForms says every form that ParseCut reads.
const CutForms = "whole 35 mm | whole 45x35x35 mm | halves 45 mm | halves across 45 mm | quarters 60 mm | " +
	"eighths 80 mm | wedges 80 mm | cube 25 mm | slice 6 mm | slice 6x40 mm | baton 10 mm | baton 10x60 mm | box 30x20x10 mm"

// ParseCut reads a cut as a dish or a cook writes it: see CutForms. Whole,
// halves, quarters, eighths and wedges may stand without a size (the lot's
// sizes then decide); the others may not.
func ParseCut(text string) (Cut, error) {
	wrong := func(problem string) (Cut, error) {
		return Cut{}, &units.FieldError{Field: "cut", Value: text, Problem: problem, Accepted: CutForms}
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
		if !(mm >= SmallestMM && mm <= LargestMM) {
			return fmt.Sprintf("%s mm is no size for a piece or a tuber; %d to %d mm are", millimetres(mm), SmallestMM, LargestMM)
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
	SmallestMM = 2
	LargestMM  = 200
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
