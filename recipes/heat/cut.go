package heat

import (
	"fmt"
	"math"
	"strconv"
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

// String is the shape's word in a cut: "halves across".
func (s Shape) String() string { return shapeWords[s] }

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
		if mm != 0 && !(mm >= SmallestMM && mm <= LargestMM) {
			return outsideError("cut", mm, SmallestMM, LargestMM, "mm")
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
