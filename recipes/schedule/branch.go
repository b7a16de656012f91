package schedule

import "slices"

// outcome is what a search for a timetable within limits ended with.
type outcome uint8

const (
	found outcome = iota
	none
	gaveUp
)

// within looks for a timetable that costs no more than the limits, field by
// field.
func (s *search) within(most Cost) ([]int, outcome) {
	w := s.widest(min(most.Length, s.longest))
	if !s.narrow(w, s.unseen(), most) {
		return nil, none
	}
	return s.branch(w, most)
}

// branch looks for a timetable in windows that have been narrowed. Where every
// block can begin as late as its window says, that is one; where something is
// then wanted twice, one of the two ends before the other begins, and both are
// tried.
func (s *search) branch(w window, most Cost) ([]int, outcome) {
	if s.nodes++; s.nodes > s.patience {
		return nil, gaveUp
	}
	if s.nodes%64 == 0 {
		if s.err = s.ctx.Err(); s.err != nil {
			return nil, gaveUp
		}
	}
	clash := s.clash(w)
	if clash == nil {
		return w.high, found
	}
	ways := s.ways(w, clash, most)
	for _, way := range ways {
		s.into[way.to] = append(s.into[way.to], way.arc)
		begins, end := s.branch(way.window, most)
		s.into[way.to] = s.into[way.to][:len(s.into[way.to])-1]
		if end != none {
			return begins, end
		}
	}
	for _, way := range ways {
		s.drop(way.window)
	}
	return nil, none
}

// way is one way out of a clash: one use has to end before another begins.
type way struct {
	arc
	window
	least Cost
}

// ways are the ways out of a clash that can be within the limits, the cheapest
// first.
func (s *search) ways(w window, clash []span, most Cost) []way {
	var all []way
	for i, first := range clash {
		for j, second := range clash {
			if i == j || first.block == second.block {
				continue
			}
			one := way{arc: arc{first.block, second.block, first.to - second.from}, window: s.clone(w)}
			s.into[one.to] = append(s.into[one.to], one.arc)
			if s.narrow(one.window, w, most) {
				one.least = s.costOf(one.high)
				all = append(all, one)
			} else {
				s.drop(one.window)
			}
			s.into[one.to] = s.into[one.to][:len(s.into[one.to])-1]
		}
	}
	slices.SortStableFunc(all, func(a, b way) int { return a.least.Compare(b.least) })
	return all
}

// clash finds uses of one thing that are more at once than there is of it where
// every block begins at its latest; nil where there are none. Of a thing of
// which there is one it is the two that have least room in either order: what
// they leave to be settled is least.
func (s *search) clash(latest window) []span {
	for r := range s.spans {
		var found []span
		if s.have[r] == 1 {
			found = s.tightest(r, latest)
		} else if s.have[r] > 1 {
			found = s.crowd(r, latest.high)
		}
		if found != nil {
			return found
		}
	}
	return nil
}

// tightest are two uses that meet, of a thing of which there is one.
func (s *search) tightest(thing int, w window) (met []span) {
	least := 0
	spans := s.spans[thing]
	for i, u := range spans {
		for _, v := range spans[i+1:] {
			fromU, fromV := w.high[u.block]+u.from, w.high[v.block]+v.from
			toU, toV := w.high[u.block]+u.to, w.high[v.block]+v.to
			if u.block == v.block || fromU >= toV || fromV >= toU {
				continue
			}
			room := fromV - (w.low[u.block] + u.to) + fromU - (w.low[v.block] + v.to)
			if met == nil || room < least {
				met, least = []span{u, v}, room
			}
		}
	}
	return met
}

// crowd are uses at the last moment before serving at which they are too many,
// no more of them than it takes.
func (s *search) crowd(thing int, latest []int) (found []span) {
	at := -1 << 30
	for _, last := range s.spans[thing] {
		moment := latest[last.block] + last.to - 1
		if moment <= at {
			continue
		}
		busy, sum := []span{last}, last.amount
		for _, u := range s.spans[thing] {
			begin := latest[u.block]
			if sum <= s.have[thing] && u.block != last.block && begin+u.from <= moment && moment < begin+u.to {
				busy, sum = append(busy, u), sum+u.amount
			}
		}
		if sum > s.have[thing] {
			found, at = busy, moment
		}
	}
	return found
}
