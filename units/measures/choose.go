package measures

import (
	"slices"
	"strings"

	"trencher/units"
)

// pantry is what the table has of one ingredient in the state asked for.
type pantry struct {
	table      Table
	ingredient string
	state      string // as asked, or empty
	rows       []Row  // those in the state asked for
	all        []Row
	standsIn   bool // the ingredient is another food than was asked for
	asBought   bool // whole, with its peel: only where nothing is done to it
}

func (t Table) pantry(ingredient, state string) (pantry, error) {
	if t.index == nil {
		return pantry{}, unknownIngredient(ingredient, nil)
	}
	key, ownState, ok := t.index.split(ingredient)
	if !ok || len(t.index.rows(key)) == 0 {
		return pantry{}, unknownIngredient(ingredient, t.Nearest(ingredient))
	}
	if state == "" {
		state = strings.TrimSpace(ownState)
	}
	all := t.index.rows(key)
	p := pantry{table: t, ingredient: all[0].Ingredient, state: state}
	p.standsIn = t.index.standsIn(ingredient, key)
	asked := stateWords(state)
	for _, row := range all {
		if row.refused {
			continue
		}
		p.all = append(p.all, row)
		if row.inState(asked) {
			p.rows = append(p.rows, row)
		}
	}
	if len(p.rows) == 0 {
		return pantry{}, unsettledState(p.ingredient, state, t.States(key))
	}
	return p, nil
}

// density is the row to go by between volume and mass.
func (p pantry) density() (choice, error) {
	var fit []Row
	for _, row := range p.rows {
		if row.Measure.Dimension() == units.Volume {
			fit = append(fit, row)
		}
	}
	if len(fit) == 0 {
		return choice{}, p.missing("a spoon or cup")
	}
	best := bestByState(p.narrow(fit))
	for _, row := range best[1:] {
		if !sameDensity(row, best[0]) {
			return choice{}, unsettledState(p.ingredient, p.state, statesOf(best))
		}
	}
	return choice{row: best[0], assumed: append(p.otherFood(), p.stateTaken(fit, best[0])...)}, nil
}

// bestByState is the best row of each state, in the table's order.
func bestByState(rows []Row) []Row {
	var best []Row
next:
	for _, row := range rows {
		for i, old := range best {
			if old.State == row.State {
				if better(row, old) {
					best[i] = row
				}
				continue next
			}
		}
		best = append(best, row)
	}
	return best
}

// better prefers the row marked as the state's best, then the larger measure,
// whose grams were rounded least.
func better(a, b Row) bool {
	if a.chosen != b.chosen {
		return a.chosen
	}
	order, err := a.Measure.Compare(b.Measure)
	return err == nil && order > 0
}

func sameDensity(a, b Row) bool {
	return choice{row: a}.perUnit(units.Millilitre).Cmp(choice{row: b}.perUnit(units.Millilitre)) == 0
}

// narrow leaves the rows to choose among: the user's own before the book's;
// the state asked for exactly; what is not cooked or dried unless that was
// asked; the default state; the sizes of the kitchen's country.
func (p pantry) narrow(rows []Row) []Row {
	rows = keep(rows, func(r Row) bool { return r.own })
	rows = keep(rows, func(r Row) bool { return p.state != "" && lookupKey(r.State) == lookupKey(p.state) })
	if !rows[0].Measure.Unit().IsPack() {
		rows = keep(rows, func(r Row) bool { return isChanged(r.State) == isChanged(p.state) })
	}
	rows = keep(rows, func(r Row) bool { return r.ofDefaultState })
	rows = keep(rows, func(r Row) bool { return !r.british || p.table.british })
	return keep(rows, func(r Row) bool { return r.region == p.table.region })
}

// keep leaves the rows that pass, or all if none does.
func keep(rows []Row, pass func(Row) bool) []Row {
	var kept []Row
	for _, row := range rows {
		if pass(row) {
			kept = append(kept, row)
		}
	}
	if len(kept) == 0 {
		return rows
	}
	return kept
}

// otherFood is the food whose weight stands in for what was asked.
func (p pantry) otherFood() []Assumption {
	if !p.standsIn {
		return nil
	}
	return []Assumption{{Kind: TakenAs, What: p.ingredient}}
}

// stateTaken is the state that was taken where several were on offer.
func (p pantry) stateTaken(offered []Row, taken Row) []Assumption {
	if taken.State == "" || lookupKey(taken.State) == lookupKey(p.state) || len(statesOf(offered)) < 2 {
		return nil
	}
	return []Assumption{{Kind: TakenAs, What: taken.State}}
}

func statesOf(rows []Row) []string {
	var list []string
	for _, row := range rows {
		if !slices.Contains(list, row.State) {
			list = append(list, row.State)
		}
	}
	slices.Sort(list)
	return list
}

// standIns are the kinds that may stand for a plain piece, in this order: a
// medium one, or the whole plant part that is counted.
var standIns = []string{"piece", "medium", "head", "bulb", "ear", "stem", "pod", "star", "link", "fillet", "breast"}

// alike are the kinds that stand for each other, where a table has but one.
var alike = map[string]string{"stick": "stalk", "stem": "stalk", "stalk": "stem", "bag": "packet", "packet": "bag", "pot": "tub", "tub": "pot", "sachet": "packet"}

// each is the row to go by between a count and mass.
func (p pantry) each(u units.Unit) (choice, error) {
	kinds := []string{u.Kind()}
	if u.Kind() == units.Piece.Kind() {
		kinds = standIns
	}
	if other, ok := alike[u.Kind()]; ok {
		kinds = append(kinds, other)
	}
	fit := p.counted(p.rows, kinds)
	if len(fit) == 0 {
		fit = p.counted(p.all, kinds) // an onion weighs the same, chopped or not
	}
	if len(fit) == 0 {
		return choice{}, p.missing(u.One())
	}
	fit = keep(fit, func(r Row) bool { return slices.Contains(stateWords(r.State), "whole") == p.asBought })
	rows := p.narrow(fit)
	rows = keep(rows, func(r Row) bool { return r.Size == "" })
	rows = keep(rows, func(r Row) bool { return r.Size == "" || r.Size == "medium" })
	if len(rows) > 1 && rows[0].Size != "" && !oneWeight(rows) {
		return choice{}, unknownMeasure(p, u.One()+" without its size", sizesOf(rows))
	}
	return choice{row: rows[0], assumed: slices.Concat(p.otherFood(), p.standing(u, rows[0]), p.weighedAs(rows[0]))}, nil
}

// counted are the rows of the first kind that has any, and not of another
// country's sizes; never a cooked one for a raw.
func (p pantry) counted(rows []Row, kinds []string) []Row {
	var fit []Row
	for _, kind := range kinds {
		for _, row := range rows {
			unit := row.Measure.Unit()
			if unit.Kind() == kind && (unit.IsPack() || isChanged(row.State) == isChanged(p.state)) {
				fit = append(fit, row)
			}
		}
		if len(fit) > 0 && !p.otherCountry(fit) {
			break
		}
	}
	return fit
}

// otherCountry tells whether all the rows are of another country's sizes.
func (p pantry) otherCountry(rows []Row) bool {
	for _, row := range rows {
		if row.region == units.NoSystem || row.region == p.table.region || p.table.region == units.NoSystem {
			return false
		}
	}
	return true
}

func oneWeight(rows []Row) bool {
	for _, row := range rows {
		if row.Grams.Cmp(rows[0].Grams) != 0 || !row.Measure.Equal(rows[0].Measure) {
			return false
		}
	}
	return true
}

func sizesOf(rows []Row) []string {
	var list []string
	for _, row := range rows {
		list = append(list, row.Size)
	}
	return list
}

// standing is what stood in for what was asked.
func (p pantry) standing(u units.Unit, row Row) []Assumption {
	taken := row.Measure.Unit()
	switch {
	case row.Size != "" && !(Row{State: p.state}).inState(stateWords(row.Size)):
		return []Assumption{{Kind: TakenAs, What: row.Size}}
	case taken.Kind() == u.Kind():
		return nil
	case taken.IsSize():
		return []Assumption{{Kind: TakenAs, What: taken.Kind()}}
	}
	return []Assumption{{Kind: CountedAs, What: taken.One()}}
}

// weighedAs is the state a piece was weighed in: without its peel or shell,
// where the cook may be thinking of what was bought or lifted.
func (p pantry) weighedAs(row Row) []Assumption {
	if row.State == "" || row.State == "raw" || row.State == "fresh" || p.state != "" && row.inState(stateWords(p.state)) {
		return nil
	}
	return []Assumption{{Kind: WeighedAs, What: row.State}}
}

func (p pantry) missing(wanted string) error {
	var known []string
	for _, row := range p.rows {
		text := row.Measure.String()
		if row.Size != "" {
			text += " " + row.Size
		}
		if !slices.Contains(known, text) {
			known = append(known, text)
		}
	}
	return unknownMeasure(p, wanted, known)
}
