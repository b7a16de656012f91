package heat

import (
	"fmt"
	"trencher/units"
)

// check refuses a span that no tubers have, or that runs from large to small.
func (s Sizes) check() error {
	if s == (Sizes{}) || s.LowMM >= SmallestMM && s.HighMM >= s.LowMM && s.HighMM <= LargestMM {
		return nil
	}
	return units.WrongField("lot", fmt.Sprintf("%s-%s mm", millimetres(s.LowMM), millimetres(s.HighMM)), "out of reach",
		fmt.Sprintf("%d to %d mm, the smaller size first", SmallestMM, LargestMM))
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
	if err := within("tuber", tuberMM, SmallestMM, LargestMM, "mm"); err != nil {
		return err
	}
	need := c.SizeMM
	if c.Shape == Box { // its length may lie along the tuber
		need = min(max(c.Sides[0], c.Sides[1]), max(c.Sides[1], c.Sides[2]), max(c.Sides[0], c.Sides[2]))
	}
	if c.Shape.OfTuber() || need <= tuberMM {
		return nil
	}
	across := millimetres(tuberMM)
	return units.WrongField("cut", c.String(), "larger than the tuber, "+across+" mm across", "at most "+across+" mm, or whole")
}

// SteamLot estimates a cut on a lot of tubers between two sizes: the largest
// tuber says how long, and the band reaches from the smallest piece's Low to the
// largest piece's High. The estimate's Cut is the largest piece. Without sizes,
// or with a tuber's size in the cut, it is [Steam].
func SteamLot(crop Crop, cut Cut, sizes Sizes, until Doneness, c Conditions) (Estimate, error) {
	if err := sizes.check(); err != nil {
		return Estimate{}, err
	}
	if sizes == (Sizes{}) || cut.Sized() && cut.Shape.OfTuber() {
		return Steam(crop, cut, until, c)
	}
	largest, err := Steam(crop, Piece(cut, sizes.HighMM), until, c)
	if err != nil {
		return Estimate{}, err
	}
	least := Piece(cut, sizes.LowMM)
	smallest, err := Steam(crop, least, until, c)
	if err != nil {
		return Estimate{}, err
	}
	largest.FromLoadingLow = min(largest.FromLoadingLow, smallest.FromLoadingLow)
	largest.FromLoadingHigh = max(largest.FromLoadingHigh, smallest.FromLoadingHigh)
	if largest.FreeFirst {
		largest.Low = min(largest.Low, smallest.Low)
		largest.High = max(largest.High, smallest.High)
	}
	if !cut.Shape.OfTuber() && least.Shape == Whole {
		largest.Notes = append(largest.Notes, fmt.Sprintf("tubers no larger than the %s stay whole", cut))
	}
	return largest, nil
}
