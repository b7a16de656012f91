package planner

import (
	"math/big"
	"slices"

	"trencher/recipes/planner/integer"
)

// A model is a sharing problem written as an integer program: for each dish one
// column of portions and one that says that it is made; with guests also how
// many helpings adults and children take of it, and the whole portions the
// children's come to. Who takes them is left to [company]: that all helpings
// find a taker is told by rows which are written down as they are broken.
type model struct {
	p        *Problem
	prog     integer.Model
	levels   []Level // what the program's levels are
	dishes   []dishColumns
	column   map[int]int // by dish: its column of portions
	adults   *company
	children *company
	pairs    int // the column of the portions that all children's helpings come to; 0 for none
	totals   []total
	layers   []int    // by class of the steamer's load: its column; 0 for none
	asked    []int64  // by round: the guests to be fed so often in all, summed up; nil where that is a goal
	fed      []int    // by round but the last: the column of what is fed up to it, where that is a goal
	exact    bool     // nothing is over: portions are what is eaten
	supplies []ratRow // the rows of lots and limits
	weighing *weighing
	mended   []mending // scratch: the last
	gramUnit *big.Int
	wishUnit *big.Int
}

// dishColumns are the columns of one dish; 0 where it has none, column 0 being
// the first dish's portions. Helpings are sums of columns: where nothing is over,
// an adult's is a portion and needs no column of its own.
type dishColumns struct {
	dish             int
	least, most      int64
	portions, made   int
	over             int     // portions that nobody takes
	beyond           int     // more than the smallest batch
	shared, odd      int     // portions for children of a dish that adults take too; whether a half of these is left
	eaten            columns // whole portions that are taken, halves rounded up
	pairs            columns // of these, the children's
	adults, children columns // helpings
}

// A wanting is what a model asks for before its goals.
type wanting struct {
	most  map[int]int64 // the dishes that could be made, with the most portions of each
	extra cuts          // rows and pieces found missing before
	fed   []int64       // by round: so many helpings in all; nil: a goal
	over  int64         // with fed: so many portions over, or fewer
	// fewest says that over is known to be as few as can be.
	fewest bool
	start  Plan // a good one to begin from, if any is known
	// wellFed says that no more can be fed than with start, nor less be over.
	wellFed bool
}

// newModel writes the problem as a program. With guests it asks for the most
// fed and the least over, or, when w.fed says how many are fed, for the levels
// after these.
func (p *Problem) newModel(w wanting) *model {
	m := &model{p: p, column: map[int]int{}, asked: w.fed, exact: w.fed != nil && w.over == 0}
	stores := p.stores(func(d int) bool { _, ok := w.most[d]; return ok })
	m.addDishes(w.most, p.Guests == nil || w.fed != nil || p.MostDishes > 0)
	m.addSupply(stores, w.extra.rows)
	m.addLayers()
	if p.Guests != nil {
		m.addGuests(w)
	}
	m.prog.Separate = m.broken
	switch {
	case p.Guests == nil:
		m.prog.Repair = m.settle
	case w.fed == nil:
		m.prog.Repair = m.mend
	}
	if p.Guests == nil || w.fed != nil {
		m.addFirst(stores, w.extra.pieces)
		m.addRest()
	}
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

// addDishes writes portions, 0 or from the smallest batch to the most, and
// whether each dish is made.
func (m *model) addDishes(most map[int]int64, counted bool) {
	var made []integer.Term
	rank := portionsRank
	if m.p.Guests == nil {
		rank = cropRank
	}
	for d := range m.p.Dishes {
		top, ok := most[d]
		if !ok {
			continue
		}
		c := dishColumns{dish: d, least: int64(m.p.Dishes[d].least()), most: top}
		c.portions = m.addColumn(integer.Column{Most: top, Batch: c.least, Rank: rank})
		if counted {
			c.made = m.addColumn(integer.Column{Most: 1, Rank: signRank})
			m.addRow(integer.AtMost(0, integer.Times(1, c.portions), integer.Times(-top, c.made)))
			m.addRow(integer.AtLeast(0, integer.Times(1, c.portions), integer.Times(-c.least, c.made)))
			made = append(made, integer.Times(1, c.made))
		}
		m.column[d] = c.portions
		m.dishes = append(m.dishes, c)
	}
	if m.p.MostDishes > 0 {
		m.addRow(integer.AtMost(int64(m.p.MostDishes), made...))
	}
	m.orderTwins()
	m.addTotals()
}

// orderTwins asks of dishes that are alike in all but their names for as many
// portions of the one that ties go to first as of the next: any other plan is as
// good as one of these, or loses the tie.
func (m *model) orderTwins() {
	var ahead []dishColumns
	for _, d := range m.p.tieOrder() {
		i := slices.IndexFunc(m.dishes, func(c dishColumns) bool { return c.dish == d })
		if i < 0 {
			continue
		}
		for k := len(ahead) - 1; k >= 0; k-- {
			if m.p.alike(ahead[k].dish, d) {
				m.addRow(integer.AtLeast(0, integer.Times(1, ahead[k].portions), integer.Times(-1, m.dishes[i].portions)))
				if m.dishes[i].made > 0 {
					m.addRow(integer.AtLeast(0, integer.Times(1, ahead[k].made), integer.Times(-1, m.dishes[i].made)))
				}
				break
			}
		}
		ahead = append(ahead, m.dishes[i])
	}
}

// addSupply writes what the lots and the limits allow.
func (m *model) addSupply(stores []*store, extra []ratRow) {
	var rows []ratRow
	for _, s := range stores {
		rows = append(rows, s.supplyRows()...)
	}
	rows = append(append(rows, m.p.limitRows()...), extra...)
	for _, r := range rows {
		m.addRow(r.whole(m.column))
	}
	m.supplies, m.weighing = rows, m.weigh(rows)
}

// addLayers writes that each class of the steamer's load takes whole layers, and
// that there are so many.
func (m *model) addLayers() {
	if m.p.Layers == 0 {
		return
	}
	var all []integer.Term
	for _, r := range m.p.loadRows() {
		row := r.whole(m.column)
		if len(row.Terms) == 0 {
			m.layers = append(m.layers, 0)
			continue
		}
		layers := m.addColumn(integer.Column{Most: int64(m.p.Layers)})
		perLayer := row.Limit // the row's limit is one layer
		row.Limit = new(big.Int)
		row.Terms = append(row.Terms, integer.Term{Column: layers, Coef: new(big.Int).Neg(perLayer)})
		m.addRow(row)
		m.layers = append(m.layers, layers)
		all = append(all, integer.Times(1, layers))
	}
	if len(all) > 0 {
		m.addRow(integer.AtMost(int64(m.p.Layers), all...))
	}
}

// Columns are a sum of columns, each some times; one may stand in it again.
type columns []times

type times struct {
	column int
	n      int64
}

// minus is the negative of a sum.
func minus(s columns) columns {
	negative := make(columns, len(s))
	for i, t := range s {
		negative[i] = times{t.column, -t.n}
	}
	return negative
}

// terms are a sum's columns in their order, each once.
func (m *model) terms(sums ...columns) []integer.Term {
	in := make([]int64, len(m.prog.Columns))
	count := 0
	for _, s := range sums {
		for _, t := range s {
			in[t.column] += t.n
		}
		count += len(s)
	}
	list := make([]integer.Term, 0, count)
	for column, n := range in {
		if n != 0 {
			list = append(list, integer.Times(n, column))
		}
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
	step := new(big.Int).Mul(m.gramUnit, big.NewInt(UseStep))
	goal := integer.Concave{Whole: step}
	for _, pieces := range crops {
		var least integer.Minimum
		for i := range pieces {
			least = append(least, pieces[i].scaledTo(m.gramUnit, m.column))
		}
		goal.Minima = append(goal.Minima, least)
	}
	m.addLevel(UseFirst, goal)
}

// addRest writes the levels after the lots to be used first.
func (m *model) addRest() {
	var made, portions columns
	for _, c := range m.dishes {
		made = append(made, times{c.made, 1})
		portions = append(portions, times{c.portions, 1})
	}
	most := func(s columns) integer.Linear { return integer.Linear{Terms: m.terms(s)} }
	switch {
	case m.p.Guests == nil:
		m.addLevel(Dishes, most(made))
		m.addBalance()
		m.addLevel(Portions, most(portions))
	case m.p.ManyDishes:
		m.addLevel(Dishes, most(made))
		m.addLevel(Portions, most(minus(portions)))
		m.addBalance()
	default:
		m.addLevel(Dishes, most(minus(made)))
		m.addLevel(Portions, most(minus(portions)))
		m.addBalance()
	}
	if !m.p.anyOfEqual {
		m.addTies()
	}
}

// addBalance asks for the largest t with portions ≥ t × wish of every dish that
// is made.
func (m *model) addBalance() {
	var wishes []*big.Rat
	for _, c := range m.dishes {
		wishes = append(wishes, m.p.Dishes[c.dish].Wish.Rat())
	}
	m.wishUnit = commonUnit(wishes...)
	goal := integer.MaxMin{OrZero: true}
	for i, c := range m.dishes {
		goal.Shares = append(goal.Shares, integer.Share{Column: c.portions, Weight: inUnits(wishes[i], m.wishUnit), Sign: c.made})
	}
	m.addLevel(Balance, goal)
}

// addTies asks for more of the dish that is first in the order of ties, then of
// the next.
func (m *model) addTies() {
	var goal integer.InOrder
	for _, d := range m.p.tieOrder() {
		if column, ok := m.column[d]; ok {
			goal.Columns = append(goal.Columns, column)
		}
	}
	m.addLevel(Ties, goal)
}

// tieOrder is the order in which ties go to the dishes.
func (p *Problem) tieOrder() []int {
	if p.Ties != nil {
		return p.Ties
	}
	order := make([]int, len(p.Dishes))
	for d := range order {
		order[d] = d
	}
	return order
}

// scaled is a value of the level in grams, portions, guests or dishes.
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
