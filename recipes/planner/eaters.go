package planner

import (
	"strings"

	"trencher/recipes/planner/integer"
)

// A kind is all guests who eat alike.
type kind struct {
	child  bool
	suits  []bool // by dish of the problem
	count  int
	groups []int // indices into Problem.Guests
}

// A taking is one column of helpings: how many guests of a kind eat a dish.
type taking struct{ column, kind, dish int }

// halves is a helping in half portions.
func (k *kind) halves() int64 {
	if k.child {
		return 1
	}
	return 2
}

// kindsOf merges the guests that eat alike, in the order they first appear.
func (p *Problem) kindsOf() []kind {
	index := map[string]int{}
	var kinds []kind
	for g, guest := range p.Guests {
		var key strings.Builder
		if guest.Child {
			key.WriteByte('c')
		}
		for _, s := range guest.Suits {
			if s {
				key.WriteByte('1')
			} else {
				key.WriteByte('0')
			}
		}
		k, ok := index[key.String()]
		if !ok {
			k = len(kinds)
			index[key.String()] = k
			kinds = append(kinds, kind{child: guest.Child, suits: guest.Suits})
		}
		kinds[k].count += guest.Count
		kinds[k].groups = append(kinds[k].groups, g)
	}
	return kinds
}

// A batch is the 0/1 column that says that a dish goes beyond its smallest
// batch.
type batch struct {
	column, dish int // columns of the program
	smallest     int64
}

// addGuests writes who eats what: a guest eats a dish at most once and at most
// Sides helpings, the helpings of a dish are covered by its portions, and a
// dish beyond its smallest batch is not cooked past what is eaten of it,
// rounded up to a whole portion.
func (m *model) addGuests() {
	m.kinds = m.p.kindsOf()
	eaten := make([][]integer.Term, len(m.dishes)) // half portions taken of each dish
	var fed []integer.Term
	for k := range m.kinds {
		var taken []integer.Term
		for c, d := range m.dishes {
			if !m.kinds[k].suits[d] {
				continue
			}
			j := m.addColumn(integer.Column{Most: int64(m.kinds[k].count), Rank: 2})
			m.taken = append(m.taken, taking{j, k, d})
			taken = append(taken, integer.Times(1, j))
			eaten[c] = append(eaten[c], integer.Times(m.kinds[k].halves(), j))
		}
		if len(taken) > m.p.Sides {
			m.addRow(integer.AtMost(int64(m.kinds[k].count)*int64(m.p.Sides), taken...))
		}
		fed = append(fed, taken...)
	}
	for c := range m.dishes {
		m.addEaters(c, eaten[c])
	}
	m.prog.Repair = m.follow
	m.addLevel(Fed, integer.Linear{Terms: fed})
}

// addEaters ties the portions of column c to the half portions eaten of it.
func (m *model) addEaters(c int, eaten []integer.Term) {
	smallest, most := m.prog.Columns[c].Batch, m.prog.Columns[c].Most
	m.addRow(integer.AtMost(0, append([]integer.Term{integer.Times(-2, c)}, eaten...)...))
	if most <= smallest {
		return
	}
	beyond := m.addColumn(integer.Column{Most: 1, Rank: 1})
	m.beyond = append(m.beyond, batch{beyond, c, smallest})
	m.addRow(integer.AtMost(smallest, integer.Times(1, c), integer.Times(smallest-most, beyond)))
	cover := []integer.Term{integer.Times(2, c), integer.Times(2*smallest-1, beyond)}
	m.addRow(integer.AtMost(2*smallest, append(cover, minus(eaten)...)...))
}

// follow sets what follows from the portions.
func (m *model) follow(x []int64) {
	for _, b := range m.beyond {
		x[b.column] = 0
		if x[b.dish] > b.smallest {
			x[b.column] = 1
		}
	}
}
