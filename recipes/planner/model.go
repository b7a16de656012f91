package planner

import (
	"math/big"

	"trencher/recipes/planner/integer"
)

// A model is a sharing problem written as an integer program: first one column
// of portions a dish, then at a table one column of helpings for each kind of
// guest and dish, and one a dish that says "beyond its smallest batch".
type model struct {
	p        *Problem
	prog     integer.Model
	levels   []Level     // what the program's levels are
	dishes   []int       // by portions column: the dish
	column   map[int]int // the reverse
	kinds    []kind
	taken    []taking // the helpings columns
	beyond   []batch
	gramUnit *big.Int // what is used first is counted in so many units a gram
	wishUnit *big.Int // wishes are
}

// newModel writes the problem as a program over the dishes given with the most
// portions each could have. extra are rows and pieces found missing before.
func (p *Problem) newModel(most map[int]int64, extra cuts) *model {
	m := &model{p: p, column: map[int]int{}}
	for d := range p.Dishes {
		top, ok := most[d]
		if !ok {
			continue
		}
		m.column[d] = m.addColumn(integer.Column{Most: top, Batch: int64(p.Dishes[d].least())})
		m.dishes = append(m.dishes, d)
	}
	stores := p.stores(func(d int) bool { _, ok := most[d]; return ok })
	var rows []ratRow
	for _, s := range stores {
		rows = append(rows, s.supplyRows()...)
	}
	for _, r := range append(append(rows, p.limitRows()...), extra.rows...) {
		m.addRow(r.whole(m.column))
	}
	if p.Guests != nil {
		m.addGuests()
	}
	m.addFirst(stores, extra.pieces)
	m.addBalance()
	m.addPortions()
	m.prog.Start = make([]int64, len(m.prog.Columns))
	return m
}

func (m *model) addColumn(c integer.Column) int {
	m.prog.Columns = append(m.prog.Columns, c)
	return len(m.prog.Columns) - 1
}

func (m *model) addRow(r integer.Row) { m.prog.Rows = append(m.prog.Rows, r) }

func (m *model) addLevel(level Level, goal integer.Goal) {
	m.levels = append(m.levels, level)
	m.prog.Levels = append(m.prog.Levels, integer.Level{Goal: goal})
}

// minus is the negative of a sum.
func minus(terms []integer.Term) []integer.Term {
	var list []integer.Term
	for _, t := range terms {
		list = append(list, integer.Term{Column: t.Column, Coef: new(big.Int).Neg(t.Coef)})
	}
	return list
}

// addFirst writes what is taken from the lots to be used today, one minimum a
// crop.
func (m *model) addFirst(stores []*store, extra []ratRow) {
	var crops [][]ratRow
	var numbers []*big.Rat
	for _, s := range stores {
		if s.first.Sign() == 0 {
			continue
		}
		pieces := s.firstPieces()
		for _, e := range extra {
			if e.crop == s.crop {
				pieces = append(pieces, e)
			}
		}
		for i := range pieces {
			numbers = append(numbers, pieces[i].numbers()...)
		}
		crops = append(crops, pieces)
	}
	if len(crops) == 0 {
		return
	}
	m.gramUnit = commonUnit(numbers...)
	goal := integer.Concave{Step: m.gramUnit, Growth: 8}
	for _, pieces := range crops {
		var least integer.Minimum
		for i := range pieces {
			least = append(least, pieces[i].scaledTo(m.gramUnit, m.column))
		}
		goal.Minima = append(goal.Minima, least)
	}
	m.addLevel(UseFirst, goal)
}

// addBalance asks for the largest t with portions ≥ t × wish.
func (m *model) addBalance() {
	var wishes []*big.Rat
	for _, d := range m.dishes {
		wishes = append(wishes, m.p.Dishes[d].Wish.Rat())
	}
	m.wishUnit = commonUnit(wishes...)
	var goal integer.MaxMin
	for c, w := range wishes {
		goal.Shares = append(goal.Shares, integer.Share{Column: c, Weight: inUnits(w, m.wishUnit)})
	}
	m.addLevel(Balance, goal)
}

// addPortions asks for the most portions, or at a table the fewest, and then for
// more of the dish that stands first.
func (m *model) addPortions() {
	var all []integer.Term
	var goal integer.InOrder
	for c := range m.dishes {
		all = append(all, integer.Times(1, c))
		goal.Columns = append(goal.Columns, c)
	}
	if m.p.Guests != nil {
		all = minus(all)
	}
	m.addLevel(Portions, integer.Linear{Terms: all})
	m.addLevel(Ties, goal)
}

// scaled is a value of the level in grams, portions or helpings.
func (m *model) scaled(level Level, value *big.Rat) *big.Rat {
	switch {
	case value == nil:
		return nil
	case level == UseFirst:
		return new(big.Rat).Quo(value, new(big.Rat).SetInt(m.gramUnit))
	case level == Balance:
		return new(big.Rat).Mul(value, new(big.Rat).SetInt(m.wishUnit))
	}
	return value
}

// read gives the values of all levels of a solution.
func (m *model) read(s integer.Solution) Levels {
	l := Levels{UseFirst: new(big.Rat)}
	for i, level := range m.levels {
		value := m.scaled(level, s.Levels[i].Value)
		switch level {
		case Fed:
			l.Fed = int(value.Num().Int64())
		case UseFirst:
			l.UseFirst = value
		case Balance:
			l.Balance = value
		case Portions:
			l.Portions = int(new(big.Int).Abs(value.Num()).Int64())
		}
	}
	return l
}
