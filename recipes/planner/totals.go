package planner

import (
	"slices"

	"trencher/recipes/planner/integer"
)

// In what order columns are branched on. What is made at all and how much is made of a
// crop in all leave the relaxation little to hide; which dish has the portion is settled
// last, and mostly follows. Where nobody in particular eats, a dish's portions are
// branched on beside its crop's.
const (
	sumRank      = iota - 1 // sums of signs, and of the children's portions
	signRank                // whether a dish is made, and portions of dishes that need the same
	cropRank                // portions of all dishes of a crop
	portionsRank            // of a dish
	helpingsRank
	fedRank
)

// A total is a column that some dishes' portions add up to, or how many of them are made.
type total struct {
	column int
	dishes []int
	made   bool
}

// of is what a dish of so many portions adds to the total.
func (t *total) of(portions int64) int64 {
	if t.made {
		return min(1, portions)
	}
	return portions
}

// addTotals writes how many portions there are, and how many dishes are made, of those
// that need the same of the same crops, to be branched on before the dishes' own: the
// lots see no more.
func (m *model) addTotals() {
	taken := make([]bool, len(m.dishes))
	for i := range m.dishes {
		if taken[i] {
			continue
		}
		alike := []int{i}
		for k := i + 1; k < len(m.dishes); k++ {
			if slices.EqualFunc(m.p.Dishes[m.dishes[i].dish].Needs, m.p.Dishes[m.dishes[k].dish].Needs, Need.alike) {
				taken[k] = true
				alike = append(alike, k)
			}
		}
		if len(alike) > 1 {
			m.addTotal(total{dishes: alike}, signRank)
			m.addTotal(total{dishes: alike, made: true}, sumRank)
		}
	}
	m.addCropTotals(len(m.totals) > 0)
}

// manyDishes is from how many dishes on a crop's total is worth a column: a few are soon
// branched on one by one.
const manyDishes = 20

// addCropTotals writes, for many dishes, how many portions there are of all dishes of a
// crop, and, where dishes come in several that need the same, how many of them are made.
// A relaxation spreads what is left of each crop's lots over parts of portions, which only
// their sum shows to make no whole one.
func (m *model) addCropTotals(made bool) {
	if len(m.dishes) < manyDishes {
		return
	}
	for _, crop := range m.crops() {
		var with []int
		for i, c := range m.dishes {
			if m.p.Dishes[c.dish].needs(crop) {
				with = append(with, i)
			}
		}
		if len(with) < 2 || len(with) == len(m.dishes) {
			continue
		}
		m.addTotal(total{dishes: with}, cropRank)
		if made {
			m.addTotal(total{dishes: with, made: true}, sumRank)
		}
	}
}

// crops are the crops of the model's dishes, in alphabetical order.
func (m *model) crops() []string {
	var crops []string
	for _, c := range m.dishes {
		for _, n := range m.p.Dishes[c.dish].Needs {
			crops = append(crops, n.Crop)
		}
	}
	slices.Sort(crops)
	return slices.Compact(crops)
}

// needs reports whether a dish takes of a crop.
func (d *Dish) needs(crop string) bool {
	return slices.ContainsFunc(d.Needs, func(n Need) bool { return n.Crop == crop })
}

// addTotal gives a total its column, and says what it adds up to.
func (m *model) addTotal(t total, rank int) {
	var terms []integer.Term
	most := int64(0)
	for _, i := range t.dishes {
		c := m.dishes[i]
		column := c.portions
		if t.made {
			if column = c.made; column == 0 {
				return // nobody counts what is made
			}
		}
		terms, most = append(terms, integer.Times(1, column)), most+t.of(c.most)
	}
	if most > integer.MostValue {
		return
	}
	t.column = m.addColumn(integer.Column{Most: most, Rank: rank})
	terms = append(terms, integer.Times(-1, t.column))
	m.addRow(integer.AtMost(0, terms...))
	m.addRow(integer.AtLeast(0, terms...))
	m.totals = append(m.totals, t)
}

// fillTotals sets what the totals, nought so far, add up to.
func (m *model) fillTotals(x []int64) {
	for _, t := range m.totals {
		for _, i := range t.dishes {
			x[t.column] += t.of(x[m.dishes[i].portions])
		}
	}
}
