package planner

import (
	"math/big"
	"slices"

	"trencher/recipes/planner/integer"
)

// addGuests writes who eats what. How many are fed, and what is over, are goals
// unless they are asked for already.
func (m *model) addGuests(w wanting) {
	var dishes []int
	for _, c := range m.dishes {
		dishes = append(dishes, c.dish)
	}
	m.adults, m.children = m.p.companyOf(false, dishes), m.p.companyOf(true, dishes)
	for i := range m.dishes {
		m.addEaten(i, w)
	}
	if w.fed == nil {
		m.addPairs()
		m.addFed()
	} else {
		m.askFed(w.fed)
	}
	if w.fed != nil && w.over > 0 {
		m.addRow(integer.AtMost(w.over, m.terms(m.over())...))
	}
	m.seedRows()
}

// addEaten writes the helpings of a dish: its portions less what is over are the
// adults' helpings and half the children's, rounded up. The adults' need no column
// of their own, nor do the children's beyond their whole portions and the odd half.
// That nobody takes more than there are people is told by [model.broken].
func (m *model) addEaten(i int, w wanting) {
	c := &m.dishes[i]
	c.eaten = columns{{c.portions, 1}}
	if !m.exact && c.least > 1 {
		m.addOver(c, w)
	}
	c.adults = c.eaten
	children := m.children.each[i]
	if children == 0 {
		return
	}
	c.pairs, c.adults = c.eaten, nil
	if m.adults.each[i] > 0 {
		c.shared = m.addColumn(integer.Column{Most: min((children+1)/2, c.most), Rank: helpingsRank})
		c.pairs = columns{{c.shared, 1}}
		c.adults = slices.Concat(c.eaten, minus(c.pairs))
		m.addRow(integer.AtLeast(0, m.terms(c.adults)...))
	}
	c.odd = m.addColumn(integer.Column{Most: 1, Rank: helpingsRank})
	half := columns{{c.odd, -1}}
	m.addRow(integer.AtLeast(0, m.terms(c.pairs, half)...))
	if children%2 == 1 { // when all of an odd number have it, a half is left: no fraction of it is not
		m.addRow(integer.AtMost(children/2, m.terms(c.pairs, half)...))
	}
	c.children = slices.Concat(c.pairs, c.pairs, half)
}

// addOver writes the portions of a dish that nobody takes: less than its smallest
// batch. Where as few are over as can be, none are of a dish cooked beyond that;
// else a row must say so.
func (m *model) addOver(c *dishColumns, w wanting) {
	c.over = m.addColumn(integer.Column{Most: c.least - 1, Rank: helpingsRank})
	over, x := integer.Times(c.least, c.over), integer.Times(1-c.least, c.portions)
	m.addRow(integer.AtMost(0, over, x))
	c.eaten = append(c.eaten, times{c.over, -1})
	if w.fed == nil || w.fewest {
		return
	}
	c.beyond = m.addColumn(integer.Column{Most: 1})
	m.addRow(integer.AtMost(c.least, integer.Times(1, c.portions), integer.Times(c.least-c.most, c.beyond)))
	m.addRow(integer.AtMost(c.least-1, integer.Times(1, c.over), integer.Times(c.least-1, c.beyond)))
}

// addPairs writes the portions that the children's helpings come to over all
// dishes, to be branched on first: which dish has the odd half is no choice worth
// making before.
func (m *model) addPairs() {
	var all columns
	most, dishes := int64(0), 0
	for i, c := range m.dishes {
		if len(c.pairs) > 0 {
			all = append(all, c.pairs...)
			most += (m.children.each[i] + 1) / 2
			dishes++
		}
	}
	if dishes < 2 {
		return
	}
	// No guest takes more than Sides helpings, so that a large sum is never reached.
	m.pairs = m.addColumn(integer.Column{Most: min(most, integer.MostValue), Rank: sumRank})
	total := m.terms(all, columns{{m.pairs, -1}})
	m.addRow(integer.AtMost(0, total...))
	m.addRow(integer.AtLeast(0, total...))
}

// over is the whole portions that nobody eats, over all dishes.
func (m *model) over() columns {
	var all columns
	for _, c := range m.dishes {
		if c.over > 0 {
			all = append(all, times{c.over, 1})
		}
	}
	return all
}

// helpings is all helpings, of adults and of children.
func (m *model) helpings() columns {
	var all columns
	for _, c := range m.dishes {
		all = append(append(all, c.adults...), c.children...)
	}
	return all
}

// addFed asks for the most guests fed once, then twice, and so on, and then for
// the least over. What is fed up to a round is a column; up to the last, all
// helpings.
func (m *model) addFed() {
	all := m.everybody()
	for r := 1; r < m.p.Sides; r++ {
		most := m.adults.rank(all, r) + m.children.rank(all, r)
		fed := m.addColumn(integer.Column{Most: most, Rank: fedRank})
		m.fed = append(m.fed, fed)
		m.addLevel(Fed, integer.Linear{Terms: m.terms(columns{{fed, 1}})})
		m.addRow(integer.AtMost(0, m.terms(columns{{fed, 1}}, minus(m.helpings()))...))
	}
	m.addLevel(Fed, integer.Linear{Terms: m.terms(m.helpings())})
	m.addLevel(Over, integer.Linear{Terms: m.terms(minus(m.over()))})
}

// askFed asks for so many helpings in all.
func (m *model) askFed(fed []int64) {
	all := m.terms(m.helpings())
	asked := fed[len(fed)-1]
	m.addRow(integer.AtLeast(asked, all...))
	m.addLevel(Fed, integer.Linear{Terms: all, Enough: big.NewInt(asked)})
}

// everybody is the set of all dishes.
func (m *model) everybody() []bool {
	all := make([]bool, len(m.dishes))
	for i := range all {
		all[i] = true
	}
	return all
}

// seedRows writes the rows that are often needed: the helpings of each dish and of
// all, what feeds each kind of guest, and what feeds the adults and the children.
func (m *model) seedRows() {
	for _, who := range []*company{m.adults, m.children} {
		if len(who.kinds) == 0 {
			continue
		}
		all := m.everybody()
		m.addRow(m.takenRow(who, all))
		m.seedFed(who, all)
		for i, n := range who.each {
			if n > 0 {
				one := make([]bool, len(m.dishes))
				one[i] = true
				m.addRow(m.takenRow(who, one))
			}
		}
		for _, k := range who.kinds {
			others := make([]bool, len(m.dishes))
			for i, s := range k.suits {
				others[i] = !s
			}
			m.seedFed(who, others)
		}
	}
}

// seedFed writes, for every round but the last, what of the set feeds the company.
func (m *model) seedFed(who *company, set []bool) {
	for r := 1; r < m.p.Sides; r++ {
		if who == m.adults {
			m.addRow(m.fedRow(r, set, nil))
		} else {
			m.addRow(m.fedRow(r, nil, set))
		}
	}
}

// takenRow says that the helpings of a set of dishes find takers.
func (m *model) takenRow(who *company, set []bool) integer.Row {
	var all columns
	for i, in := range set {
		if in {
			all = append(all, m.takenOf(who, i)...)
		}
	}
	return integer.AtMost(who.rank(set, m.p.Sides), m.terms(all)...)
}

// takenOf is the helpings of a dish that the company takes.
func (m *model) takenOf(who *company, i int) columns {
	if who == m.adults {
		return m.dishes[i].adults
	}
	return m.dishes[i].children
}

// fedRow says that what is fed up to a round, or asked to be, is at most the
// helpings of the dishes outside the sets plus the sets' ranks.
func (m *model) fedRow(round int, ofAdults, ofChildren []bool) integer.Row {
	var all columns
	for i := range m.dishes {
		if ofAdults == nil || !ofAdults[i] {
			all = append(all, m.dishes[i].adults...)
		}
		if ofChildren == nil || !ofChildren[i] {
			all = append(all, m.dishes[i].children...)
		}
	}
	limit := m.adults.rank(ofAdults, round) + m.children.rank(ofChildren, round)
	if m.asked != nil {
		return integer.AtMost(limit-m.asked[round-1], m.terms(minus(all))...)
	}
	return integer.AtMost(limit, m.terms(minus(all), columns{{m.fed[round-1], 1}})...)
}

// broken lists the rows about takers that x breaks, and of rounded ones.
func (m *model) broken(x []float64) []integer.Row {
	rows := m.roundings(x)
	if m.p.Guests == nil {
		return rows
	}
	sets := make([][2][]bool, m.p.Sides)
	served := make([]float64, m.p.Sides)
	for w, who := range []*company{m.adults, m.children} {
		if len(who.kinds) == 0 {
			continue
		}
		s := who.seat(m.takenAt(who, x), 0)
		for r := range m.p.Sides {
			s.oneMore()
			served[r] += s.served()
			sets[r][w] = s.tight()
		}
		if left := s.unserved(); left > looseness {
			rows = append(rows, m.takenRow(who, s.tight()))
		}
	}
	for r := range m.p.Sides - 1 {
		need := 0.0
		if m.asked != nil {
			need = float64(m.asked[r])
		} else {
			need = x[m.fed[r]]
		}
		if need-served[r] > looseness {
			rows = append(rows, m.fedRow(r+1, sets[r][0], sets[r][1]))
		}
	}
	return rows
}

// looseness is how far a fraction may break a row unnoticed.
const looseness = 1e-6

// takenAt is the helpings of each dish at x.
func (m *model) takenAt(who *company, x []float64) []float64 {
	list := make([]float64, len(m.dishes))
	for i := range list {
		for _, t := range m.takenOf(who, i) {
			list[i] += float64(t.n) * x[t.column]
		}
		list[i] = max(0, list[i])
	}
	return list
}
