package heat

// Outside says how far the outside of a piece is past its middle when that is done.
type Outside uint8

// Even is nothing to mind; Softer, softer than the middle; PastSoft, halve it or
// keep the water below the boil; CutIt, far past soft.
const (
	Even Outside = iota
	Softer
	PastSoft
	CutIt
)

var outsideWords = [...]string{"even", "soft", "past-soft", "cut"}

// String is the word that scripts read: "even", "soft", "past-soft" or "cut".
func (o Outside) String() string { return outsideWords[o] }

// Outer is the surface of a piece when its centre is done.
type Outer struct {
	CookValue float64 // minutes at 100 °C
	Ratio     float64 // to the cook value of soft
	Says      Outside
}

// From which ratio on the outside is softer than the middle, past soft and far
// past soft; floury ones, that crumble, one class sooner (judgement).
var (
	outerLimits  = [...]float64{1.5, 3, 5}
	flouryLimits = [...]float64{1, 1.5, 3}
)

// outerOf reads the surface off a history, from loading until done.
func outerOf(h *history, doneS float64, crop Crop) Outer {
	o := Outer{CookValue: h.gathered(0, doneS, crop.Z, surfaceOf)}
	o.Ratio = o.CookValue / crop.Target(Soft)
	limits := outerLimits
	if crop.Kind == "floury" {
		limits = flouryLimits
	}
	for _, limit := range limits {
		if o.Ratio > limit {
			o.Says++
		}
	}
	return o
}

// WholeSize is the largest size to cook whole to a doneness, see [LargestWhole].
type WholeSize struct {
	Doneness  Doneness
	LargestMM float64
}

// WholeSizes are the largest whole sizes for every doneness.
func WholeSizes(crop Crop, c Conditions) ([]WholeSize, error) {
	var sizes []WholeSize
	for d := JustTender; d <= Soft; d++ {
		mm, err := LargestWhole(crop, d, c)
		if err != nil {
			return nil, err
		}
		sizes = append(sizes, WholeSize{d, mm})
	}
	return sizes, nil
}

// LargestWhole is the largest diameter, in whole mm, of a tuber or root that can be
// steamed whole until done without its outside getting softer than its middle; 0
// where not even the smallest can.
func LargestWhole(crop Crop, until Doneness, c Conditions) (float64, error) {
	even := func(mm float64) (bool, error) {
		s, err := newSituation(crop, Cut{Shape: Whole, SizeMM: mm}, until, c.filled())
		if err != nil {
			return false, err
		}
		h := s.run(shells).last()
		done := h.cooked(s.target, crop.Z)
		return done.done && outerOf(h, done.seconds, crop).Says == Even, nil
	}
	low, high := rangeSmallMM, rangeLargeMM
	if ok, err := even(low); err != nil || !ok {
		return 0, err
	}
	for high-low > 1 {
		middle := float64(int(low+high) / 2)
		ok, err := even(middle)
		if err != nil {
			return 0, err
		}
		if ok {
			low = middle
		} else {
			high = middle
		}
	}
	return low, nil
}
