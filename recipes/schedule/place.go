package schedule

import (
	"cmp"
	"slices"
	"time"
)

// timed gives every step its moment, and those on the stove their ring.
func (m *model) timed(serve time.Time, begins []int) []Timed {
	all := make([]Timed, len(m.steps))
	order := make([]int, len(m.steps))
	for i, step := range m.steps {
		at := begins[m.block[i]] + m.offset[i]
		all[i] = Timed{Step: step, At: serve.Add(time.Duration(at) * time.Minute)}
		order[i] = i
	}
	m.hurry(all)
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

// hurry moves what is better done soon to the first moment at which all that it
// waits for has ended and hands are free for it.
func (m *model) hurry(all []Timed) {
	for i, step := range all {
		if !step.Soon {
			continue
		}
		ready := readyFor(step, all)
		for at := ready; !ready.IsZero() && at.Before(step.At); at = at.Add(time.Minute) {
			if m.handsFree(all, i, at) {
				all[i].At = at
				break
			}
		}
	}
}

// readyFor is when all that a step waits for has ended; zero where it waits for
// nothing.
func readyFor(step Timed, all []Timed) (ready time.Time) {
	for _, other := range all {
		if slices.Contains(step.After, other.ID) && other.End().After(ready) {
			ready = other.End()
		}
	}
	return ready
}

// handsFree tells that a step could begin at a moment, for its hands.
func (m *model) handsFree(all []Timed, i int, at time.Time) bool {
	for now := at; now.Before(at.Add(all[i].Length)); now = now.Add(time.Minute) {
		busy := all[i].Hands
		for j, other := range all {
			if j != i && !other.At.After(now) && now.Before(other.End()) {
				busy += other.Hands
			}
		}
		if busy > m.have[hands] {
			return false
		}
	}
	return true
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
