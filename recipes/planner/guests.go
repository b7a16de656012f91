package planner

import (
	"context"
	"math/big"
	"slices"
)

// A Plate is what one guest gets.
type Plate struct {
	Group  int   // index into Problem.Guests
	Number int   // which guest of the group, from 0
	Dishes []int // the dishes, in dish order; each is one helping
	Short  int   // helpings short of Sides
}

// emptyPlates gives every guest nothing.
func (p *Problem) emptyPlates() []Plate {
	var plates []Plate
	for g := range p.Guests {
		for n := range p.Guests[g].Count {
			plates = append(plates, Plate{Group: g, Number: n, Short: p.Sides})
		}
	}
	return plates
}

// plates deals the helpings y, one number a taking, out to the guests, in the order of the groups.
// Within a kind every guest gets as many helpings as any other, give or take
// one, and no dish twice: each dish goes to the next guests round the table
// among those with the fewest so far.
func (m *model) plates(y []int64) []Plate {
	plates := m.p.emptyPlates()
	for k := range m.kinds {
		m.deal(k, y, plates)
	}
	for i := range plates {
		slices.Sort(plates[i].Dishes)
		plates[i].Short = m.p.Sides - len(plates[i].Dishes)
	}
	return plates
}

// deal gives the guests of kind k their helpings, round the table: no dish has
// more helpings than there are guests of the kind, so none gets it twice, and
// all helpings together are at most Sides rounds.
func (m *model) deal(k int, y []int64, plates []Plate) {
	var seats []*Plate
	for i := range plates {
		if slices.Contains(m.kinds[k].groups, plates[i].Group) {
			seats = append(seats, &plates[i])
		}
	}
	next := 0
	for i, t := range m.taken {
		if t.kind != k {
			continue
		}
		for range y[i] {
			s := seats[next%len(seats)]
			s.Dishes = append(s.Dishes, t.dish)
			next++
		}
	}
}

// seating decides who eats what of the portions of x: all helpings of level 1,
// and as evenly as they allow, so that nobody goes without a first helping while
// another has a second. It depends on the portions and the guests alone, and
// starts from what x itself says. It returns one number of helpings a taking.
func (m *model) seating(ctx context.Context, work *budget, x []int64) []int64 {
	p := &program{}
	y := make([]int64, len(m.taken))
	for i, t := range m.taken {
		y[i] = x[t.column]
		p.columns = append(p.columns, column{most: m.prog.columns[t.column].most})
	}
	m.seatDishes(p, x)
	var fed []int64
	for i := range m.taken {
		fed = append(fed, int64(i), -1)
	}
	all := p.addRow(0, fed...)
	share := make([]int, len(m.kinds))
	for k := range m.kinds {
		share[k] = m.seatKind(p, k)
	}
	s := newSession(ctx, p, work, y)
	total, err := s.maximise(minus(p, all))
	if err != nil {
		return s.x
	}
	s.holdRow(all, total.Neg(total))
	for round := 1; round <= m.p.Sides && s.evenOut(m, share, round); round++ {
	}
	return s.x
}

// seatDishes writes that the portions cover the helpings and none is cooked
// beyond them.
func (m *model) seatDishes(p *program, x []int64) {
	for c, d := range m.dishes {
		var eaten, less []int64
		for i, t := range m.taken {
			if t.dish == d {
				h := m.kinds[t.kind].halves()
				eaten, less = append(eaten, int64(i), h), append(less, int64(i), -h)
			}
		}
		p.addRow(2*x[c], eaten...)
		if x[c] > int64(m.p.Dishes[d].least()) {
			p.addRow(1-2*x[c], less...)
		}
	}
}

// seatKind writes that a kind eats at most Sides helpings each, and adds the row
// that will hold how many it gets at least.
func (m *model) seatKind(p *program, k int) int {
	var most, least []int64
	for i, t := range m.taken {
		if t.kind == k {
			most, least = append(most, int64(i), 1), append(least, int64(i), -1)
		}
	}
	p.addRow(int64(m.kinds[k].count)*int64(m.p.Sides), most...)
	return p.addRow(0, least...)
}

// evenOut gives each kind in turn as much as it can of so many helpings for each
// of its guests. It reports whether any kind could still take more.
func (s *session) evenOut(m *model, share []int, round int) bool {
	more := false
	for k, r := range share {
		want := big.NewInt(int64(m.kinds[k].count) * int64(round))
		got, err := s.maximise(minus(s.prog, r))
		if err != nil {
			return false
		}
		if got.Cmp(want) > 0 {
			got.Set(want)
			more = true
		}
		s.holdRow(r, got.Neg(got))
	}
	return more
}
