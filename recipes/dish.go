package recipes

import (
	"fmt"
	"math/big"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// Served is how a dish comes to the table.
type Served string

// How a dish is served.
const (
	Hot  Served = "hot"
	Warm Served = "warm"
	Cold Served = "cold"
)

// Scaling is how an amount grows with the portions. The zero value is
// Linear.
type Scaling uint8

// The kinds of scaling.
const (
	Linear    Scaling = iota // in step with the portions
	Seasoning                // in step to twice the recipe, then carefully
	Fixed                    // the same for any number of portions
)

// Dish is one of the grower's own recipes.
type Dish struct {
	Name              string
	File              string // the dish file, as printed in errors
	Portions          int    // what the amounts are for
	Served            Served
	Smallest, Largest int             // fewest and most portions worth making at once
	Wish              decimal.Decimal // its weight when the crop is shared out
	Crops             []CropLine      // the weighed crops it is built on; at least one
	Others            []OtherLine
	Method            []string
	Remarks           []string  // the comments beside its lines
	Steps             []OwnStep // what takes time or a ring besides
	Assumed           []string  // what the file left out and was taken for granted

	omitted omitted
}

// omitted are the keys that a dish file or one of its lines left out.
type omitted uint8

const (
	noServed omitted = 1 << iota
	noSmallest
	noLargest
	noPrepared
	noCut
	noUntil
)

// CropLine is a weighed crop of a dish.
type CropLine struct {
	Crop     string         // by CropName
	Amount   units.Quantity // prepared weight for all the dish's portions
	Prepared string         // the table's word: "scrubbed"; AsLifted when nothing is done
	Texture  string         // "waxy", "floury", or "" for any
	Sizes    units.Band     // the whole of a lot's band must lie in it
	Cut      string         // "cube 25 mm"; "" for a raw crop left as it is
	Cook     string         // "steam", "boil", "blanch", "raw" or "own"
	Minutes  int            // the grower's own, the longer end; 0 where the heat says how long
	Uses     string         // what it keeps busy meanwhile: "ring", "oven", "grill", "embers", "nothing"; "" where steamed or raw
	Until    string         // "just-tender", "tender", "soft"; "" for a raw crop

	yield   Yield
	stated  stated
	omitted omitted
}

// OtherLine is any other ingredient of a dish.
type OtherLine struct {
	Item     string
	Amount   units.Quantity
	State    string // "chopped", "ground"; "" when it has none
	FromPlot bool   // picked from the plot; else bought
	Instead  []Alternative
	Optional bool
	Scales   Scaling

	stated stated
}

// OwnStep is a step of the grower's own that takes time or a ring.
type OwnStep struct {
	Do      string
	Minutes int    // the most it takes
	Uses    string // what it keeps busy: "ring", "oven", "grill", "embers", "nothing"
	Work    OwnWork
}

// OwnWork is what a step of the grower's own does, as far as it is known.
type OwnWork uint8

// The kinds of work.
const (
	AnyWork OwnWork = iota
	WarmsUp
	Melts
)

// Alternative is what may be used instead of an ingredient.
type Alternative struct {
	Item   string
	Amount units.Quantity
	State  string

	stated stated
}

// NeedPerPortion returns the grams of a crop line, as lifted, that one portion
// takes: amount / portions / yield(crop, prepared), exactly, with the yield
// used. The error tells of a line that is not there or has no weight.
func (d Dish) NeedPerPortion(line int) (*big.Rat, Yield, error) {
	if line < 0 || line >= len(d.Crops) {
		return nil, Yield{}, fmt.Errorf("%s has no crop line %d", d.Name, line+1)
	}
	c := d.Crops[line]
	weight, err := c.Amount.In(units.Gram)
	if err != nil || d.Portions < 1 || c.yield.Factor == nil {
		return nil, Yield{}, fmt.Errorf("%s: the crop %s has no weight", d.Name, c.Crop)
	}
	need := weight.Rat()
	need.Quo(need, big.NewRat(int64(d.Portions), 1))
	return need.Quo(need, c.yield.Factor), c.yield, nil
}

// PortionsFrom returns how many portions a lifted weight of the crop on one
// line makes, exactly (not rounded to whole portions). The errors are those
// of NeedPerPortion.
func (d Dish) PortionsFrom(line int, lifted units.Quantity) (*big.Rat, error) {
	need, _, err := d.NeedPerPortion(line)
	if err != nil {
		return nil, err
	}
	weight, err := lifted.In(units.Gram)
	if err != nil {
		return nil, err
	}
	if need.Sign() == 0 {
		return nil, fmt.Errorf("%s: the crop %s has no weight", d.Name, d.Crops[line].Crop)
	}
	return need.Quo(weight.Rat(), need), nil
}
