package schedule

import (
	"cmp"
	"slices"
)

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
	if s.spent.nodes++; s.spent.exceeds(s.patience) {
		return nil, gaveUp
	}
	if s.spent.nodes%64 == 0 {
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
		weaker := s.hold(way.arc)
		begins, end := s.branch(way.window, most)
		s.letGo(way.arc, weaker)
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
			turn := arc{first.block, second.block, first.to - second.from}
			if s.contradicts(turn) {
				continue
			}
			one := way{arc: turn, window: s.clone(w)}
			weaker := s.hold(one.arc)
			if s.narrow(one.window, w, most) {
				one.least = s.costOf(one.high)
				all = append(all, one)
			} else {
				s.drop(one.window)
			}
			s.letGo(one.arc, weaker)
		}
	}
	slices.SortStableFunc(all, func(a, b way) int { return a.least.Compare(b.least) })
	return all
}

// hold adds an arc, in the place of a weaker one between the same blocks, which it
// returns: a search of many hundred turns would come to keep most arcs for nothing.
func (m *model) hold(a arc) (weaker arc) {
	arcs := m.into[a.to]
	at := slices.IndexFunc(arcs, func(b arc) bool { return b.from == a.from })
	if at < 0 {
		m.into[a.to] = append(arcs, a)
		return arc{}
	}
	weaker = arcs[at]
	arcs[at].lag = max(weaker.lag, a.lag)
	return weaker
}

// contradicts tells an arc that one held already makes impossible: each of two blocks
// would have to begin after the other. Windows would find it a minute at a time.
func (m *model) contradicts(a arc) bool {
	return slices.ContainsFunc(m.into[a.from], func(b arc) bool { return b.from == a.to && a.lag+b.lag > 0 })
}

// letGo takes back the last arc held.
func (m *model) letGo(a, weaker arc) {
	arcs := m.into[a.to]
	if weaker == (arc{}) {
		m.into[a.to] = arcs[:len(arcs)-1]
		return
	}
	at := slices.IndexFunc(arcs, func(b arc) bool { return b.from == a.from })
	arcs[at] = weaker
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

// tightest are two uses that meet, of a thing of which there is one: those with the
// least room, of several such the first.
func (s *search) tightest(thing int, w window) (met []span) {
	spans := s.spans[thing]
	from := func(i int) int { return w.high[spans[i].block] + spans[i].from }
	s.met = s.met[:0]
	for i := range spans {
		s.met = append(s.met, i)
	}
	slices.SortFunc(s.met, func(i, j int) int { return cmp.Or(from(i)-from(j), i-j) })
	least, first, second := 0, -1, -1
	for at, i := range s.met {
		until := w.high[spans[i].block] + spans[i].to
		for _, j := range s.met[at+1:] {
			if from(j) >= until {
				break // and all that begin later
			}
			u, v := min(i, j), max(i, j)
			room, meet := s.room(spans[u], spans[v], w)
			if meet && (first < 0 || cmp.Or(room-least, u-first, v-second) < 0) {
				least, first, second = room, u, v
			}
		}
	}
	if first < 0 {
		return nil
	}
	return []span{spans[first], spans[second]}
}

// room is how much there is in either order of two uses of one thing, and whether
// they meet where their blocks begin at their latest.
func (s *search) room(u, v span, w window) (room int, meet bool) {
	fromU, fromV := w.high[u.block]+u.from, w.high[v.block]+v.from
	toU, toV := w.high[u.block]+u.to, w.high[v.block]+v.to
	meet = u.block != v.block && fromU < toV && fromV < toU
	return fromV - (w.low[u.block] + u.to) + fromU - (w.low[v.block] + v.to), meet
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
