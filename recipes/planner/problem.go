// Package planner shares a weighed crop out among dishes and people, exactly.
//
// The problem: whole portions of each dish, from lots of crops that not every
// dish accepts, within limits on other ingredients, within the steamer's layers
// and a number of dishes, and within what the eaters may and will eat. The
// optimum is a list of levels, each decided exactly before the next, see
// [Solve].
//
// The package writes the problem as rows and columns, has package integer find
// the optimum, and reads it back. [Explain] says what bound a plan. It prints
// nothing and reads no files.
package planner

import (
	"cmp"
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// A Problem is what there is and what is wanted. Guests decides the question:
// with nil nobody in particular eats and the most portions are asked for, else
// the guests come first.
type Problem struct {
	Lots     []Lot
	Dishes   []Dish
	Limits   []Limit
	KeepBack []KeepBack
	Guests   []Guest
	Sides    int // the most helpings one guest takes, at least 1

	MostDishes int  // the most dishes that are made; 0 means any number
	ManyDishes bool // guests: as many dishes as can be are asked for, not as few
	Layers     int  // the most layers that are steamed; 0 means any number

	Ties      []int // the dishes in the order in which ties go; nil means as they stand
	NodeLimit int   // the search's patience, in nodes; 0 means DefaultNodeLimit

	anyOfEqual bool     // ties need not be settled: only what the plan comes to is asked for
	sorted     []*store // lots and needs by crop, where they are asked for often; nil: not yet
}

// A Lot is produce of one crop that is sorted alike.
type Lot struct {
	ID      string // unique
	Crop    string
	Texture string          // "" when unknown: accepted by any dish
	Sizes   units.Band      // ungraded: accepted by any dish
	Supply  decimal.Decimal // as-lifted grams after trimming
	First   bool            // to be used today
	Keeps   time.Time       // until then, raw; zero when unknown: longest
}

// A Dish is what can be made, by whole portions.
type Dish struct {
	Name     string
	Smallest int // fewest portions worth making; 0 means 1
	Largest  int // most portions at once
	Wish     decimal.Decimal
	Needs    []Need
	Others   []Other
}

// A Need is one weighed crop of a dish.
type Need struct {
	Crop       string
	PerPortion *big.Rat   // as-lifted grams, above 0
	Texture    string     // "" or "any" accepts every texture
	Sizes      units.Band // ungraded: accepts every size
	Load       Load
}

// A Load is the room a need takes in the steamer. Layers are counted whole for
// all needs of a class together. The zero value takes none.
type Load struct {
	Class      string
	PerPortion *big.Rat // layers
}

// An Other is any other ingredient of a dish that a limit may name.
type Other struct {
	Item       string
	PerPortion *big.Rat
	Unit       string
}

// A Limit bounds an ingredient over all dishes. Its unit is the one its
// ingredient carries in the dishes.
type Limit struct {
	Item   string
	Amount *big.Rat
	Unit   string
}

// A KeepBack holds that many as-lifted grams of a crop out of the plan.
type KeepBack struct {
	Crop  string
	Grams *big.Rat
}

// A Guest is one or several people at the table who eat alike.
type Guest struct {
	Label string
	Count int
	Child bool     // a child's helping is half a portion
	Suits []bool   // by dish: may these guests eat it
	Why   []string // by dish, may be nil: why not
}

const (
	// DefaultNodeLimit is the search's patience when a Problem sets none: some
	// seconds, which few in a thousand random problems ask for.
	DefaultNodeLimit = 200_000
	// MostPortions is the largest batch of one dish the planner counts with.
	MostPortions = 100_000
	mostGuests   = 100_000
	mostHelpings = 1_000_000
)

// ErrNothingFits says that not one dish can be made from what there is. The
// plan that comes with it says why for each dish.
var ErrNothingFits = errors.New("nothing fits: no dish can be made from what there is")

// Validate says what makes the problem impossible to ask, or nil. All errors
// are [*units.FieldError].
func (p Problem) Validate() error {
	if len(p.Dishes) == 0 {
		return units.WrongField("dishes", "", "there are none", "at least one dish")
	}
	seen := map[string]bool{}
	for _, l := range p.Lots {
		if seen[l.ID] {
			return units.WrongField("lot", l.ID, "appears twice", "one name for each lot")
		}
		seen[l.ID] = true
		if l.Supply.IsNegative() {
			return units.WrongField("lot", l.ID, "has less than nothing", "0 g or more")
		}
		if l.Sizes.Low > l.Sizes.High {
			return units.WrongField("lot", l.ID, "its smallest size is above its largest", "sizes such as 20-45 mm")
		}
	}
	for i := range p.Dishes {
		if err := p.Dishes[i].validate(); err != nil {
			return err
		}
	}
	return errors.Join(p.validateLimits(), p.validateKeepBack(), p.validateGuests(), p.validateBounds())
}

// validateBounds checks the number of dishes, the layers and the order of ties.
func (p Problem) validateBounds() error {
	switch {
	case p.MostDishes < 0:
		return units.WrongField("dishes", fmt.Sprint(p.MostDishes), "no number of dishes", "1 or more")
	case p.Layers < 0:
		return units.WrongField("layers", fmt.Sprint(p.Layers), "no number of layers", "1 or more")
	case p.Ties == nil:
		return nil
	}
	order := slices.Sorted(slices.Values(p.Ties))
	for d := range p.Dishes {
		if len(order) != len(p.Dishes) || order[d] != d {
			return units.WrongField("ties", fmt.Sprint(p.Ties), "not an order of the dishes", "each dish once")
		}
	}
	return nil
}

func (d *Dish) validate() error {
	wrong := func(problem, accepted string) error { return units.WrongField("dish", d.Name, problem, accepted) }
	switch {
	case d.Smallest < 0:
		return wrong(fmt.Sprintf("smallest is %d", d.Smallest), "1 or more")
	case d.Largest < d.least():
		return wrong(fmt.Sprintf("smallest %d is above largest %d", d.least(), d.Largest), "smallest at most largest")
	case d.Largest > MostPortions:
		return wrong(fmt.Sprintf("largest is %d", d.Largest), fmt.Sprintf("at most %d", MostPortions))
	case !d.Wish.IsPositive():
		return wrong("wish is "+d.Wish.String(), "a weight above 0, such as 1 or 2")
	case len(d.Needs) == 0:
		return wrong("uses no weighed crop", "at least one crop")
	}
	for _, n := range d.Needs {
		if n.PerPortion == nil || n.PerPortion.Sign() <= 0 {
			return wrong("needs no "+n.Crop, "an amount above 0")
		}
		if n.Sizes.Low > n.Sizes.High {
			return wrong("its smallest size of "+n.Crop+" is above its largest", "sizes such as 20-45 mm")
		}
		if n.Load.PerPortion != nil && n.Load.PerPortion.Sign() < 0 {
			return wrong("takes less than no room of "+n.Crop, "0 layers or more")
		}
	}
	for _, o := range d.Others {
		if o.PerPortion == nil || o.PerPortion.Sign() < 0 {
			return wrong("has no amount of "+o.Item, "0 or more")
		}
	}
	return nil
}

// least is the smallest batch, which is at least one portion.
func (d *Dish) least() int { return max(1, d.Smallest) }

func (p Problem) validateLimits() error {
	seen := map[string]bool{}
	for _, l := range p.Limits {
		if l.Amount == nil || l.Amount.Sign() < 0 {
			return units.WrongField("limit", l.Item, "has no amount", "an amount such as 150 g")
		}
		if seen[l.Item] {
			return units.WrongField("limit", l.Item, "is given twice", "one limit for each ingredient")
		}
		seen[l.Item] = true
		if err := p.validateLimit(l); err != nil {
			return err
		}
	}
	return nil
}

func (p Problem) validateLimit(l Limit) error {
	found := false
	var items []string
	for _, d := range p.Dishes {
		for _, o := range d.Others {
			items = append(items, o.Item)
			if o.Item != l.Item {
				continue
			}
			found = true
			if o.Unit != l.Unit {
				return units.WrongField("limit", l.Item, fmt.Sprintf("is in %s but %q counts it in %s", unitName(l.Unit), d.Name, unitName(o.Unit)), "the same unit")
			}
		}
	}
	if found {
		return nil
	}
	slices.Sort(items)
	return units.WrongField("limit", l.Item, "no dish here uses it", "one of "+strings.Join(slices.Compact(items), ", "))
}

func unitName(unit string) string { return cmp.Or(units.KitchenWord(unit), "pieces") }

func (p Problem) validateKeepBack() error {
	seen := map[string]bool{}
	for _, k := range p.KeepBack {
		if k.Grams == nil || k.Grams.Sign() < 0 {
			return units.WrongField("keep-back", k.Crop, "has no amount", "a weight such as 500 g")
		}
		if seen[k.Crop] {
			return units.WrongField("keep-back", k.Crop, "is given twice", "one weight for each crop")
		}
		seen[k.Crop] = true
		if have := p.onHand(k.Crop); have.Cmp(k.Grams) < 0 {
			return units.WrongField("keep-back", k.Crop, fmt.Sprintf("there are only %s g", have.FloatString(1)), "no more than there is")
		}
	}
	return nil
}

// onHand is all there is of a crop, in grams.
func (p Problem) onHand(crop string) *big.Rat {
	sum := new(big.Rat)
	for _, l := range p.Lots {
		if l.Crop == crop {
			sum.Add(sum, l.Supply.Rat())
		}
	}
	return sum
}

func (p Problem) validateGuests() error {
	if p.Guests == nil {
		return nil
	}
	if p.Sides < 1 {
		return units.WrongField("sides", "", fmt.Sprintf("%d helpings for each guest", p.Sides), "1 or more")
	}
	if len(p.Guests) == 0 {
		return units.WrongField("guests", "", "there are none", "at least one guest")
	}
	total := 0
	for _, g := range p.Guests {
		if g.Count < 1 || g.Count > mostGuests {
			return units.WrongField("guests", g.Label, fmt.Sprintf("%d people", g.Count), fmt.Sprintf("1 to %d", mostGuests))
		}
		if total += g.Count; total > mostGuests {
			return units.WrongField("guests", "", "too many", fmt.Sprintf("at most %d in all", mostGuests))
		}
		if len(g.Suits) != len(p.Dishes) || g.Why != nil && len(g.Why) != len(p.Dishes) {
			return units.WrongField("guests", g.Label, "do not say for each dish whether it suits", "one answer for each dish")
		}
	}
	if each := min(p.Sides, len(p.Dishes)); total*each > mostHelpings {
		return units.WrongField("guests", "", fmt.Sprintf("too many for %d helpings each", each), fmt.Sprintf("at most %d helpings in all", mostHelpings))
	}
	return nil
}

// accepts reports whether the need takes the lot: same crop, a texture that
// fits or is unknown, and a size band that lies within its own.
func (n Need) accepts(l Lot) bool {
	if n.Crop != l.Crop {
		return false
	}
	if n.Texture != "" && n.Texture != "any" && l.Texture != "" && n.Texture != l.Texture {
		return false
	}
	return l.Sizes.Within(n.Sizes)
}
