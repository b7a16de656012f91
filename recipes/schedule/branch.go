package schedule

import (
	"cmp"
	"slices"
	"time"
)

// branch looks for a timetable in which every block begins at or before the
// latest moments, which cost that much at least.
func (s *search) branch(latest []int, least Cost) {
	if s.err != nil {
		return
	}
	if s.best != nil && least.Compare(s.cost) >= 0 {
		return
	}
	if s.nodes >= s.limit && s.best != nil {
		s.nodes = s.limit + 1
		if least.Compare(s.bound) < 0 {
			s.bound = least
		}
		return
	}
	if s.nodes++; s.nodes%256 == 0 {
		if s.err = s.ctx.Err(); s.err != nil {
			return
		}
	}
	clash := s.clash(latest)
	if clash == nil {
		s.best, s.cost = slices.Clone(latest), least
		return
	}
	for _, way := range s.ways(latest, clash) {
		s.into[way.to] = append(s.into[way.to], way.arc)
		s.branch(way.latest, way.least)
		s.into[way.to] = s.into[way.to][:len(s.into[way.to])-1]
	}
}

// way is one way out of a clash: one use has to end before another begins.
type way struct {
	arc
	latest []int
	least  Cost
}

// ways are the ways out of a clash that can be, the cheapest first.
func (s *search) ways(latest []int, clash []span) []way {
	var all []way
	for i, first := range clash {
		for j, second := range clash {
			if i == j || first.block == second.block {
				continue
			}
			w := way{arc: arc{first.block, second.block, first.to - second.from}, latest: slices.Clone(latest)}
			s.into[w.to] = append(s.into[w.to], w.arc)
			if s.settle(w.latest, w.to) {
				w.least = s.costOf(w.latest)
				all = append(all, w)
			}
			s.into[w.to] = s.into[w.to][:len(s.into[w.to])-1]
		}
	}
	slices.SortStableFunc(all, func(a, b way) int { return a.least.Compare(b.least) })
	return all
}

// clash finds uses of one thing that are more at once than there is of it, no
// more of them than it takes: the scarcest thing first, then the last moment
// before serving. It is nil where there are none.
func (s *search) clash(latest []int) []span {
	for r, spans := range s.spans {
		if s.have[r] < 1 {
			continue
		}
		var found []span
		at := -1 << 30
		for _, last := range spans {
			moment := latest[last.block] + last.to - 1
			if moment <= at {
				continue
			}
			busy, sum := []span{last}, last.amount
			for _, u := range spans {
				begin := latest[u.block]
				if sum <= s.have[r] && u.block != last.block && begin+u.from <= moment && moment < begin+u.to {
					busy, sum = append(busy, u), sum+u.amount
				}
			}
			if sum > s.have[r] {
				found, at = busy, moment
			}
		}
		if found != nil {
			return found
		}
	}
	return nil
}

// timed gives every step its moment, and those on the stove their ring.
func (m *model) timed(serve time.Time, begins []int) []Timed {
	all := make([]Timed, len(m.steps))
	order := make([]int, len(m.steps))
	for i, step := range m.steps {
		at := begins[m.block[i]] + m.offset[i]
		all[i] = Timed{Step: step, At: serve.Add(time.Duration(at) * time.Minute)}
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return all[a].At.Compare(all[b].At) })
	m.numberRings(all, order)
	sorted := make([]Timed, 0, len(all))
	for _, i := range order {
		sorted = append(sorted, all[i])
	}
	slices.SortStableFunc(sorted, func(a, b Timed) int {
		return cmp.Or(a.At.Compare(b.At), a.End().Compare(b.End()))
	})
	return sorted
}

// numberRings gives every step on the stove a ring that is free for all of it,
// the steamer the lowest and what is small the highest.
func (m *model) numberRings(all []Timed, order []int) {
	have := m.have[rings]
	free := make([]time.Time, have+1)
	of := map[int]int{} // by block
	until := map[int]time.Time{}
	for i, step := range all {
		if b := m.block[i]; step.Ring > 0 && step.End().After(until[b]) {
			until[b] = step.End()
		}
	}
	for _, i := range order {
		b := m.block[i]
		if all[i].Ring > 0 && of[b] == 0 {
			of[b] = freeRing(free, all[i])
			free[of[b]] = until[b]
		}
		all[i].Ring = min(1, all[i].Ring) * of[b]
	}
}

// freeRing is a ring that is free when a step begins; the rings are numbered
// from 1.
func freeRing(free []time.Time, step Timed) int {
	for n := range len(free) - 1 {
		ring := n + 1
		if !step.Steamer {
			ring = len(free) - ring
		}
		if !free[ring].After(step.At) {
			return ring
		}
	}
	return 1
}
