package recipes

import (
	_ "embed"
	"math/big"
	"slices"
	"strings"
	"sync"

	"trencher/units"
)

// AsLifted is the preparation of a crop as it was weighed in: nothing done.
const AsLifted = "as-lifted"

// YieldRow is one figure of the yields table: what is left of a crop's weight
// when it goes from one state to the next.
type YieldRow struct {
	Crop     string
	From, To string   // states: "as-lifted", "washed", "peeled" ...
	Also     []string // other words for To
	Factor   *big.Rat // grams after over grams before
	Note     string   // what it assumes and where other sources differ
	units.Provenance
}

// Yield is the way from one state of a crop to another: the product of the
// rows it goes through.
type Yield struct {
	Crop     string
	Prepared string   // the state reached, in the table's word
	Factor   *big.Rat // grams after over grams before; 1 when nothing is done
	Steps    []YieldRow
}

// unknownYield says that the table has no way to the state asked for, and which
// states it has.
func unknownYield(field, crop, state string, known []string) error {
	return units.WrongField(field, state, "no yield for "+crop,
		"one of "+strings.Join(known, " | ")+", or your own figure under `yields` in kitchen.yaml")
}

// YieldOf returns what is left of a crop's lifted weight once it is prepared
// ("scrubbed", "peeled", "shelled" ...), as the product of the table's steps.
// AsLifted, and no preparation at all, is 1 for any crop. Roots are taken to
// be weighed with their leaves twisted off. The error is a [*units.FieldError]
// for "prepared" that lists the crop's known preparations.
func YieldOf(crop, prepared string) (Yield, error) {
	return yieldTable().yield(crop, prepared)
}

// CookedYield returns what is left of a crop's prepared weight once it is
// steamed, boiled or baked. The error is a [*units.FieldError] for "cook".
func CookedYield(crop, prepared, cooked string) (Yield, error) {
	return yieldTable().cooked(crop, prepared, cooked)
}

// Preparations lists the states of a crop that YieldOf knows, AsLifted first.
func Preparations(crop string) []string { return yieldTable().preparations(CropName(crop)) }

// yields is a table of rows with the way back to AsLifted for each.
type yields struct {
	prepare, cook []YieldRow
	crops         map[string]bool // by name: those with any row
}

// yieldLine is a row of yields.csv; its factor is a fraction.
type yieldLine struct {
	cook        bool
	over, under int64
	YieldRow
}

var yieldTable = sync.OnceValue(func() *yields {
	t := &yields{crops: map[string]bool{}}
	for _, line := range yieldLines {
		row := line.YieldRow
		row.Factor = big.NewRat(line.over, line.under)
		t.crops[row.Crop] = true
		if line.cook {
			t.cook = append(t.cook, row)
		} else {
			t.prepare = append(t.prepare, row)
		}
	}
	return t
})

// with returns the table with the kitchen's own rows before the embedded ones.
func (t *yields) with(own []YieldRow) *yields {
	if len(own) == 0 {
		return t
	}
	return &yields{prepare: append(slices.Clone(own), t.prepare...), cook: t.cook, crops: t.crops}
}

func (t *yields) yield(crop, prepared string) (Yield, error) {
	name := CropName(crop)
	state := stateName(prepared)
	if _, ok := findStep(t.prepare, name, state); state == "picked" && !ok {
		state = AsLifted // nothing to pick off: as it came from the plant
	}
	y := Yield{Crop: name, Prepared: state, Factor: big.NewRat(1, 1)}
	for state != AsLifted {
		row, ok := findStep(t.prepare, name, state)
		if !ok || len(y.Steps) > len(t.prepare) {
			return Yield{}, unknownYield("prepared", name, prepared, t.preparations(name))
		}
		if len(y.Steps) == 0 {
			y.Prepared = row.To
		}
		y.Steps = slices.Insert(y.Steps, 0, row)
		y.Factor.Mul(y.Factor, row.Factor)
		state = row.From
	}
	return y, nil
}

func (t *yields) cooked(crop, prepared, cooked string) (Yield, error) {
	name, from := CropName(crop), stateName(prepared)
	if row, ok := findStep(t.prepare, name, from); ok {
		from = row.To
	}
	var known []string
	for _, row := range t.cook {
		if row.Crop != name || row.From != from {
			continue
		}
		if row.To == fold(cooked) {
			return Yield{Crop: name, Prepared: row.To, Factor: new(big.Rat).Set(row.Factor), Steps: []YieldRow{row}}, nil
		}
		known = append(known, row.To)
	}
	if known == nil {
		known = []string{"nothing yet for this crop " + from}
	}
	return Yield{}, unknownYield("cook", name+" "+from, cooked, known)
}

func (t *yields) preparations(crop string) []string {
	states := []string{AsLifted}
	for _, row := range t.prepare {
		if row.Crop == crop && !slices.Contains(states, row.To) {
			states = append(states, row.To)
		}
	}
	return states
}

// cropNames lists the crops of the table in its order.
func (t *yields) cropNames() []string {
	var names []string
	for _, row := range t.prepare {
		if !slices.Contains(names, row.Crop) {
			names = append(names, row.Crop)
		}
	}
	return names
}

func findStep(rows []YieldRow, crop, state string) (YieldRow, bool) {
	for _, row := range rows {
		if row.Crop == crop && (row.To == state || slices.Contains(row.Also, state)) {
			return row, true
		}
	}
	return YieldRow{}, false
}

// stateName folds the word for a preparation; everything that means "as it
// was weighed in" is AsLifted.
func stateName(prepared string) string {
	switch state := fold(prepared); state {
	case "", AsLifted, "as lifted", "lifted", "as-picked", "as picked", "as-cut", "as cut", "whole":
		return AsLifted
	default:
		return state
	}
}
