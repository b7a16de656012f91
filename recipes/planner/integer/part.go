package integer

import (
	"context"
	"math/big"
	"slices"
)

// A part is a piece of a model that shares nothing with the other pieces but
// the levels.
type part struct {
	*session
	columns []int        // by column of the part: the model's
	aims    []aim        // by level
	settled map[int]bool // by row that holds a goal: no more can be had of it
}

// An aim is what a level asks of one part.
type aim struct {
	objective objective
	terms     []Term // of a linear goal
	row       int    // the row that will hold a linear goal, or -1
	floor     int    // the floor that will hold a concave one, or -1
	shares    []Share
	links     []int // by share: the row sign × floor ≤ column, or -1
	counts    []count
	order     []int
}

// empty reports whether the level asks nothing of the part.
func (a *aim) empty() bool { return a.row < 0 && a.floor < 0 }

// A builder writes the program of one part of a model.
type builder struct {
	model *Model
	local []int // by column of the model: the part's, or -1
	part  *part
	prog  *program
}

// newPart writes the program of the columns given, and takes it to the start.
func newPart(ctx context.Context, m *Model, columns []int, work *budget) *part {
	b := &builder{model: m, local: make([]int, len(m.Columns)), part: &part{columns: columns, settled: map[int]bool{}},
		prog: &program{repair: m.Repair, separate: m.Separate, asked: -1}}
	for j := range b.local {
		b.local[j] = -1
	}
	for k, j := range columns {
		b.local[j] = k
		b.prog.columns = append(b.prog.columns, m.Columns[j])
	}
	for _, r := range m.Rows {
		if b.local[r.Terms[0].Column] >= 0 {
			b.prog.rows = append(b.prog.rows, Row{b.terms(r.Terms), r.Limit})
		}
	}
	for i := range m.Levels {
		b.part.aims = append(b.part.aims, b.aim(i))
	}
	b.prog.addSpans()
	b.prog.addLids()
	var start []int64
	if m.Start != nil {
		for _, j := range columns {
			start = append(start, m.Start[j])
		}
	}
	b.part.session = newSession(ctx, b.prog, work, start)
	return b.part
}

// link writes a row that says nothing yet, and will say n × sign ≤ column for what
// a share asks of the column; -1 where there is no sign.
func (b *builder) link(column, sign int) int {
	if sign <= 0 || b.local[sign] < 0 {
		return -1
	}
	b.prog.rows = append(b.prog.rows, AtMost(0, Times(0, b.local[sign]), Times(0, column)))
	return len(b.prog.rows) - 1
}

// counts writes, for every row of at least two linked columns that no column eases,
// one that says nothing yet and will say how many of these can be made.
func (b *builder) counts(links []int) []count {
	signs := map[int]int{}
	for _, row := range links {
		if row >= 0 {
			signs[b.prog.rows[row].Terms[1].Column] = b.prog.rows[row].Terms[0].Column
		}
	}
	var list []count
	for i := range b.prog.rows {
		var terms []Term
		eased := false
		for _, t := range b.prog.rows[i].Terms {
			eased = eased || t.Coef.Sign() <= 0
			if sign, ok := signs[t.Column]; ok {
				terms = append(terms, Times(0, sign))
			}
		}
		if !eased && len(terms) > 1 {
			list = append(list, count{i, len(b.prog.rows)})
			b.prog.rows = append(b.prog.rows, AtMost(0, terms...))
		}
	}
	return list
}

// terms are the terms that lie in the part, over its own columns.
func (b *builder) terms(terms []Term) []Term {
	var own []Term
	for _, t := range terms {
		if k := b.local[t.Column]; k >= 0 && t.Coef.Sign() != 0 {
			own = append(own, Term{k, t.Coef})
		}
	}
	return own
}

// aim writes what level i asks of the part.
func (b *builder) aim(i int) aim {
	a := aim{row: -1, floor: -1}
	switch g := b.model.Levels[i].Goal.(type) {
	case Linear:
		b.linear(&a, b.terms(g.Terms))
	case Concave:
		b.concave(&a, g)
	case MaxMin:
		for _, s := range g.Shares {
			if k := b.local[s.Column]; k >= 0 {
				a.shares = append(a.shares, Share{Column: k, Weight: s.Weight})
				a.links = append(a.links, b.link(k, s.Sign))
			}
		}
		a.counts = b.counts(a.links)
	case InOrder:
		for _, j := range g.Columns {
			if k := b.local[j]; k >= 0 {
				a.order = append(a.order, k)
			}
		}
	}
	return a
}

// linear writes the row that will hold Σ terms from below: it says that the sum
// is at least what it is at the worst corner of the box, which all points keep.
// A goal that was there before keeps its row.
func (b *builder) linear(a *aim, terms []Term) {
	if len(terms) == 0 {
		return
	}
	for _, o := range b.part.aims {
		if o.row >= 0 && slices.EqualFunc(o.terms, terms, Term.equal) {
			a.objective, a.terms, a.row = o.objective, o.terms, o.row
			return
		}
	}
	a.objective, a.terms = over(len(b.prog.columns), terms), terms
	r := Row{Limit: new(big.Int)}
	for _, t := range terms {
		r.Terms = append(r.Terms, Term{t.Column, new(big.Int).Neg(t.Coef)})
	}
	least, _ := b.prog.slackRange(&r)
	r.Limit.Neg(least)
	a.row = len(b.prog.rows)
	b.prog.rows = append(b.prog.rows, r)
}

// concave writes the minima that lie in the part, and the floor that will hold
// them. Those without columns lie in the first part.
func (b *builder) concave(a *aim, g Concave) {
	f := floor{least: new(big.Int)}
	for _, minimum := range g.Minima {
		home := 0
		if terms := minimum.terms(); len(terms) > 0 {
			home = terms[0].Column
		}
		if b.local[home] < 0 {
			continue
		}
		var own Minimum
		for _, r := range minimum {
			own = append(own, Row{b.terms(r.Terms), r.Limit})
		}
		f.minima = append(f.minima, len(b.prog.minima))
		b.prog.minima = append(b.prog.minima, own)
		low, _ := b.prog.minimumRange(own)
		f.least.Add(f.least, low)
	}
	if f.minima == nil {
		return
	}
	a.floor = len(b.prog.floors)
	a.objective = objective{minima: f.minima, floor: a.floor, whole: g.Whole}
	b.prog.floors = append(b.prog.floors, f)
}
