package planner

import (
	"math"
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

// plates deals the helpings of a solution out to the guests, in the order of the
// groups. As many as can be get one, then as many as can be get two, and so on;
// guests of one kind get as many as each other, give or take one, and no dish
// twice: each dish goes to the next guests round the table.
func (m *model) plates(x []int64) []Plate {
	at := make([]float64, len(x))
	for j, v := range x {
		at[j] = float64(v)
	}
	plates := m.p.emptyPlates()
	for _, who := range []*company{m.adults, m.children} {
		s := who.seat(m.takenAt(who, at), m.p.Sides)
		for k := range who.kinds {
			m.deal(s, k, plates)
		}
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
func (m *model) deal(s *seating, k int, plates []Plate) {
	var seats []*Plate
	for i := range plates {
		if slices.Contains(s.kinds[k].groups, plates[i].Group) {
			seats = append(seats, &plates[i])
		}
	}
	next := 0
	for i := range s.taken {
		for range int(math.Round(s.taken[i][k])) {
			p := seats[next%len(seats)]
			p.Dishes = append(p.Dishes, m.dishes[i].dish)
			next++
		}
	}
}
