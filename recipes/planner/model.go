package planner

import (
	"math/big"
	"slices"
	"strings"
)

// A model is a sharing problem written as an integer program: first one column
// of portions a dish, then at a table one indicator a dish ("beyond its
// smallest batch") and one column of helpings for each kind of guest and dish.
type model struct {
	p        *Problem
	prog     *program
	dishes   []int       // by portions column: the dish
	column   map[int]int // the reverse
	wish     []*big.Rat
	kinds    []kind
	taken    []taking // the helpings columns
	rows     []ratRow // what the program's leading rows say
	fedRow   int      // the row that holds level 1, or -1
	countRow int      // the row that holds level 4
	useFloor int      // the floor that holds level 2, or -1
	useGains []int
	gramUnit *big.Int // the gains' units in a gram
}

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

// newModel writes the problem as a program over the dishes given with the most
// portions each could have. extra are rows and pieces found missing before.
func (p *Problem) newModel(most map[int]int64, extra cuts) *model {
	m := &model{p: p, prog: &program{}, column: map[int]int{}, fedRow: -1, useFloor: -1}
	for d := range p.Dishes {
		top, ok := most[d]
		if !ok {
			continue
		}
		m.column[d] = len(m.dishes)
		m.dishes = append(m.dishes, d)
		m.wish = append(m.wish, p.Dishes[d].Wish.Rat())
		m.prog.columns = append(m.prog.columns, column{most: top, batch: int64(p.Dishes[d].least())})
	}
	stores := p.stores(func(d int) bool { _, ok := most[d]; return ok })
	for _, s := range stores {
		m.rows = append(m.rows, s.supplyRows()...)
	}
	m.rows = append(append(m.rows, p.limitRows()...), extra.rows...)
	m.addSupply()
	if p.Guests != nil {
		m.kinds = p.kindsOf()
		m.addGuests()
	}
	m.addFirst(stores, extra.pieces)
	m.addCount()
	m.prog.addBands()
	return m
}

// addSupply writes the rows that can bind at all.
func (m *model) addSupply() {
	kept := m.rows[:0:0]
	for _, r := range m.rows {
		w := r.whole(m.column)
		m.prog.reachable(&w)
		if m.prog.binds(&w) {
			m.prog.rows = append(m.prog.rows, w)
			kept = append(kept, r)
		}
	}
	m.rows = kept
}

// binds reports whether the box holds a point that breaks the row.
func (p *program) binds(r *row) bool {
	var sum, term big.Int
	for k, j := range r.cols {
		at := p.columns[j].least
		if r.coefs[k].Sign() > 0 {
			at = p.columns[j].most
		}
		sum.Add(&sum, term.Mul(r.coefs[k], term.SetInt64(at)))
	}
	return sum.Cmp(r.limit) > 0
}

// mostSums is the most sums reachable will look at.
const mostSums = 1 << 17

// reachable lowers the row's limit to the largest sum up to it that whole
// numbers can make (the subset-sum recursion; Martello and Toth, Knapsack
// Problems, Wiley 1990, 4.2). Its coefficients must not be negative.
func (p *program) reachable(r *row) {
	var unit, step big.Int
	for _, c := range r.coefs {
		unit.GCD(nil, nil, &unit, c)
	}
	if unit.Sign() == 0 {
		return
	}
	limit := new(big.Int).Quo(r.limit, &unit)
	if !limit.IsInt64() || limit.Int64() > mostSums {
		return
	}
	room := uint(limit.Int64()) + 1
	full := new(big.Int).Sub(new(big.Int).Lsh(big.NewInt(1), room), big.NewInt(1))
	sums := big.NewInt(1) // the bit i is set when i can be made
	for k, j := range r.cols {
		if step.Quo(r.coefs[k], &unit); step.Int64() < int64(room) && step.Sign() > 0 {
			sums = p.columns[j].sums(sums, full, uint(step.Int64()), room)
		}
	}
	r.limit = unit.Mul(&unit, big.NewInt(int64(sums.BitLen()-1)))
}

// sums adds to each of the sums what the column's values, times step, make.
func (c column) sums(sums, full *big.Int, step, room uint) *big.Int {
	first := max(1, c.batch, c.least)
	with := new(big.Int)
	if first <= c.most && uint(first)*step < room {
		with.Lsh(sums, uint(first)*step)
		more := uint(c.most - first)
		for n := uint(1); more > 0; n *= 2 {
			n = min(n, more)
			more -= n
			if n*step >= room {
				break // all that fits is there
			}
			with.Or(with, new(big.Int).Lsh(with, n*step))
			with.And(with, full)
		}
		with.And(with, full)
	}
	if c.least > 0 {
		return with
	}
	return with.Or(with, sums)
}

// addRow appends a row of small numbers given as column, coefficient pairs.
func (p *program) addRow(limit int64, pairs ...int64) int {
	r := row{limit: big.NewInt(limit)}
	for i := 0; i < len(pairs); i += 2 {
		r.cols = append(r.cols, int(pairs[i]))
		r.coefs = append(r.coefs, big.NewInt(pairs[i+1]))
	}
	p.rows = append(p.rows, r)
	return len(p.rows) - 1
}

// addGuests writes who eats what: a guest eats a dish at most once and at most
// Sides helpings, the helpings of a dish are covered by its portions, and a
// dish beyond its smallest batch is not cooked past what is eaten of it,
// rounded up to a whole portion.
func (m *model) addGuests() {
	p := m.prog
	eaten := make([][]int64, len(m.dishes)) // half portions taken of each dish, as pairs
	var fed []int64
	for k := range m.kinds {
		var taken []int64
		for c, d := range m.dishes {
			if !m.kinds[k].suits[d] {
				continue
			}
			j := len(p.columns)
			p.columns = append(p.columns, column{most: int64(m.kinds[k].count), rank: 2})
			m.taken = append(m.taken, taking{j, k, d})
			taken = append(taken, int64(j), 1)
			fed = append(fed, int64(j), -1)
			eaten[c] = append(eaten[c], int64(j), m.kinds[k].halves())
		}
		if len(taken)/2 > m.p.Sides {
			p.addRow(int64(m.kinds[k].count)*int64(m.p.Sides), taken...)
		}
	}
	for c, d := range m.dishes {
		m.addEaters(int64(c), int64(m.p.Dishes[d].least()), eaten[c])
	}
	m.fedRow = p.addRow(0, fed...)
}

// addEaters ties the portions of column c to the half portions eaten of it.
func (m *model) addEaters(c, batch int64, eaten []int64) {
	p := m.prog
	p.addRow(0, append([]int64{c, -2}, eaten...)...)
	most := p.columns[c].most
	if most <= batch {
		return
	}
	beyond := int64(len(p.columns))
	p.columns = append(p.columns, column{most: 1, rank: 1, indicator: true, follows: int(c), above: batch})
	p.addRow(batch, c, 1, beyond, batch-most)
	cover := []int64{c, 2, beyond, 2*batch - 1}
	for i := 0; i < len(eaten); i += 2 {
		cover = append(cover, eaten[i], -eaten[i+1])
	}
	p.addRow(2*batch, cover...)
}

// addFirst writes what is taken from the lots to be used today, one gain a crop.
func (m *model) addFirst(stores []*store, extra []ratRow) {
	var gains [][]ratRow
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
		gains = append(gains, pieces)
	}
	if len(gains) == 0 {
		return
	}
	m.gramUnit = commonUnit(numbers...)
	for _, pieces := range gains {
		var g gain
		for i := range pieces {
			g = append(g, pieces[i].scaledTo(m.gramUnit, m.column))
		}
		m.useGains = append(m.useGains, len(m.prog.gains))
		m.prog.gains = append(m.prog.gains, g)
	}
	m.useFloor = len(m.prog.floors)
	m.prog.floors = append(m.prog.floors, floor{gains: m.useGains, least: new(big.Int)})
}

// addCount writes the row that will hold the number of portions.
func (m *model) addCount() {
	var pairs []int64
	sign, limit := int64(-1), int64(0)
	if m.fedRow >= 0 {
		sign = 1
	}
	for c := range m.dishes {
		pairs = append(pairs, int64(c), sign)
		if sign > 0 {
			limit += m.prog.columns[c].most
		}
	}
	m.countRow = m.prog.addRow(limit, pairs...)
}

// minus is the objective that the row bounds from below: minus its sum.
func minus(p *program, row int) objective {
	o := objective{coefs: make([]*big.Int, len(p.columns))}
	for j := range o.coefs {
		o.coefs[j] = new(big.Int)
	}
	r := p.rows[row]
	for k, j := range r.cols {
		o.coefs[j].Neg(r.coefs[k])
	}
	return o
}

// helpings counts the helpings served.
func (m *model) helpings() objective { return minus(m.prog, m.fedRow) }

// portions counts the portions, at a table negatively.
func (m *model) portions() objective { return minus(m.prog, m.countRow) }

// read adds the values of all levels at x to l.
func (m *model) read(x []int64, l *Levels) {
	if t := m.balanceOf(x); l.Balance == nil || t.Cmp(l.Balance) < 0 {
		l.Balance = t
	}
	for k := range m.dishes {
		l.Portions += int(x[k])
	}
	for _, t := range m.taken {
		l.Fed += int(x[t.column])
	}
	if m.useFloor >= 0 {
		l.UseFirst.Add(l.UseFirst, new(big.Rat).SetFrac(m.prog.gained(m.useGains, x), m.gramUnit))
	}
}

// parts splits the dishes into groups that share no row that can bind and no
// lot to be used today. Guests tie everything together.
func (m *model) parts() [][]int {
	if m.p.Guests != nil {
		return [][]int{m.dishes}
	}
	leader := make([]int, len(m.prog.columns))
	for c := range leader {
		leader[c] = c
	}
	find := func(c int) int {
		for leader[c] != c {
			c = leader[c]
		}
		return c
	}
	tie := func(cols []int) {
		for _, c := range cols {
			a, b := find(cols[0]), find(c)
			leader[max(a, b)] = min(a, b)
		}
	}
	for _, r := range m.prog.rows[:m.countRow] {
		tie(r.cols)
	}
	for _, g := range m.prog.gains {
		var all []int
		for _, piece := range g {
			all = append(all, piece.cols...)
		}
		if len(all) > 0 {
			tie(all)
		}
	}
	groups := make([][]int, len(leader))
	for c, d := range m.dishes {
		groups[find(c)] = append(groups[find(c)], d)
	}
	return slices.DeleteFunc(groups, func(g []int) bool { return len(g) == 0 })
}
