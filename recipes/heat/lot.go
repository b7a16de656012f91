package heat

import (
	"fmt"
	"trencher/units"
)

func (s Sizes) check() error {
	if s == (Sizes{}) {
		return nil
	}
	if err := within("tuber", s.LowMM, smallestMM, largestMM, "mm"); err != nil {
		return err
	}
	return within("tuber", s.HighMM, s.LowMM, largestMM, "mm")
}

// Piece is what becomes of one tuber of that diameter in mm under a cut: its
// half or quarter; or a cube, unless the tuber is no larger than the cube: then
// it stays whole. A cut with a tuber's size of its own stays as it is, and so
// does every cut when the diameter is not known (0).
func Piece(cut Cut, tuberMM float64) Cut {
	if tuberMM <= 0 || cut.Shape.OfTuber() && cut.Sized() {
		return cut
	}
	edge := cut.SizeMM
	if cut.Shape == Box {
		edge = max(cut.Sides[0], cut.Sides[1], cut.Sides[2])
	}
	switch {
	case cut.Shape.OfTuber():
		return cut.WithTuber(tuberMM)
	case edge >= tuberMM && cut.Shape != Baton:
		return Cut{Shape: Whole, SizeMM: tuberMM}
	case cut.Shape == Slice && cut.AcrossMM == 0:
		cut.AcrossMM = tuberMM
	}
	return cut
}

// CheckTuber refuses a cut that a tuber of that diameter, in mm, has no room
// for.
func (c Cut) CheckTuber(tuberMM float64) error {
	if err := within("tuber", tuberMM, smallestMM, largestMM, "mm"); err != nil {
		return err
	}
	need := c.SizeMM
	if c.Shape == Box { // its length may lie along the tuber
		need = min(max(c.Sides[0], c.Sides[1]), max(c.Sides[1], c.Sides[2]), max(c.Sides[0], c.Sides[2]))
	}
	if c.Shape.OfTuber() || need <= tuberMM {
		return nil
	}
	return &units.FieldError{Field: "cut", Value: c.String(), Problem: fmt.Sprintf("larger than the tuber, %s mm across", millimetres(tuberMM)),
		Accepted: fmt.Sprintf("at most %s mm, or whole", millimetres(tuberMM))}
}

// SteamLot estimates a dish's cut on a lot of tubers between two sizes: the
// largest tuber says how long, and the band reaches from the smallest piece's
// Low to the largest piece's High. The estimate's Cut is the largest piece. An
// ungraded lot is reckoned by the crop's usual sizes, and says so.
func SteamLot(crop Crop, cut Cut, sizes Sizes, until Doneness, c Conditions) (Estimate, error) {
	if err := sizes.check(); err != nil {
		return Estimate{}, err
	}
	var assumed string
	if sizes == (Sizes{}) {
		if cut.Sized() && !cut.Shape.OfTuber() {
			return Steam(crop, cut, until, c)
		}
		sizes = crop.Usual
		assumed = fmt.Sprintf("ungraded: sizes of %g-%g mm assumed", sizes.LowMM, sizes.HighMM)
	}
	if cut.Sized() && cut.Shape.OfTuber() {
		return Steam(crop, cut, until, c)
	}
	largest, err := Steam(crop, Piece(cut, sizes.HighMM), until, c)
	if err != nil {
		return Estimate{}, err
	}
	smallest, err := Steam(crop, Piece(cut, sizes.LowMM), until, c)
	if err != nil {
		return Estimate{}, err
	}
	largest.Low = min(largest.Low, smallest.Low)
	largest.High = max(largest.High, smallest.High)
	if assumed != "" {
		largest.Notes = append(largest.Notes, assumed)
	}
	if !cut.Shape.OfTuber() && Piece(cut, sizes.LowMM).Shape == Whole {
		largest.Notes = append(largest.Notes, fmt.Sprintf("tubers no larger than the %s stay whole", cut))
	}
	return largest, nil
}
