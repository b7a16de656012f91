package planner

import "slices"

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
