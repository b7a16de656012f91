package schedule

import "slices"

// window is when every block may begin: not before low and not after high, in
// minutes from serving, so at most zero.
type window struct{ low, high []int }

// widest are the windows of timetables up to a length.
func (m *model) widest(length int) window {
	w := window{make([]int, len(m.lengths)), make([]int, len(m.lengths))}
	for b := range m.lengths {
		w.low[b], w.high[b] = -length, -m.lengths[b]
	}
	return w
}

func (w window) clone() window { return window{slices.Clone(w.low), slices.Clone(w.high)} }

// narrow draws windows closer until nothing more follows. What it cuts off holds
// no timetable within the limits; false where none is left (arc consistency of precedences, of pairs on one thing and of sums of
// waits, and the overload of a stretch of time: P. Baptiste, C. Le Pape and W.
// Nuijten, Constraint-Based Scheduling, 2001, chapters 2 to 4; known_by:
// memory).
func (s *search) narrow(w window, most Cost) bool {
	for {
		changed := false
		for _, rule := range []func(window, Cost) (bool, bool){s.byWaits, s.byGoals, s.byPairs} {
			did, ok := rule(w, most)
			if !ok {
				return false
			}
			changed = changed || did
		}
		if !changed {
			return s.fits(w)
		}
	}
}

// byWaits keeps every arc.
func (s *search) byWaits(w window, _ Cost) (changed, ok bool) {
	for again := true; again; {
		again = false
		for to, arcs := range s.into {
			for _, a := range arcs {
				if by := w.high[to] - a.lag; by < w.high[a.from] {
					if w.high[a.from], again = by, true; by < w.low[a.from] {
						return true, false
					}
				}
				if by := w.low[a.from] + a.lag; by > w.low[to] {
					if w.low[to], again = by, true; by > w.high[to] {
						return true, false
					}
				}
			}
		}
		changed = changed || again
	}
	return changed, true
}

// byGoals leaves no lag more than the others leave of its goal's limit.
func (s *search) byGoals(w window, most Cost) (changed, ok bool) {
	limits := [goals]int{most.Over, most.Hot, most.Warm}
	var sums [goals]int
	for _, lag := range s.lags {
		sums[lag.goal] += lag.least(w)
	}
	if sums[KeepsClock] > limits[KeepsClock] || sums[WarmWaits] > limits[WarmWaits] || sums[HotWaits] > limits[HotWaits] {
		return false, false
	}
	if most.Hot < endless && sums[HotWaits]+s.queue(w.high) > most.Hot {
		return false, false
	}
	for _, lag := range s.lags {
		if limits[lag.goal] >= endless {
			continue
		}
		own := lag.least(w) + limits[lag.goal] - sums[lag.goal]
		if by := -lag.end - lag.most - own; by > w.low[lag.block] {
			if w.low[lag.block], changed = by, true; by > w.high[lag.block] {
				return true, false
			}
		}
	}
	return changed, true
}

// least is the least that a lag costs.
func (l lagging) least(w window) int { return max(0, -(w.high[l.block]+l.end)-l.most) }

// pair is two uses of one thing that cannot be at once: after one's block has
// begun, the other's begins no sooner than so many minutes later.
type pair struct{ a, b, ab, ba int }

// pairs lists them.
func (m *model) pairs() []pair {
	var all []pair
	for r, spans := range m.spans {
		if m.have[r] < 1 {
			continue
		}
		for i, u := range spans {
			for _, v := range spans[i+1:] {
				if u.block != v.block && u.amount+v.amount > m.have[r] {
					all = append(all, pair{u.block, v.block, u.to - v.from, v.to - u.from})
				}
			}
		}
	}
	return all
}

// byPairs orders two uses of one thing that can only be in one order.
func (s *search) byPairs(w window, _ Cost) (changed, ok bool) {
	low, high := w.low, w.high
	for _, p := range s.pairs {
		first, second := low[p.a]+p.ab <= high[p.b], low[p.b]+p.ba <= high[p.a]
		switch {
		case first && second:
			continue
		case !first && !second:
			return true, false
		case second:
			p = pair{p.b, p.a, p.ba, p.ab}
		}
		if by := high[p.b] - p.ab; by < high[p.a] {
			high[p.a], changed = by, true
		}
		if by := low[p.a] + p.ab; by > low[p.b] {
			low[p.b], changed = by, true
		}
		if low[p.a] > high[p.a] || low[p.b] > high[p.b] {
			return true, false
		}
	}
	return changed, true
}

// fits tells that no stretch of time holds more work than there is room for.
func (s *search) fits(w window) bool {
	type job struct{ begin, end, work int }
	for r, spans := range s.spans {
		if s.have[r] < 1 {
			continue
		}
		jobs := make([]job, len(spans))
		for i, u := range spans {
			jobs[i] = job{w.low[u.block] + u.from, w.high[u.block] + u.to, (u.to - u.from) * u.amount}
		}
		slices.SortFunc(jobs, func(a, b job) int { return a.end - b.end })
		for _, from := range jobs {
			sum := 0
			for _, j := range jobs {
				if j.begin >= from.begin {
					if sum += j.work; sum > (j.end-from.begin)*s.have[r] {
						return false
					}
				}
			}
		}
	}
	return true
}
