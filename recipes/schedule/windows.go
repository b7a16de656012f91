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

// unseen are windows that none is equal to.
func (m *model) unseen() window {
	return window{slices.Repeat([]int{endless}, len(m.lengths)), slices.Repeat([]int{endless}, len(m.lengths))}
}

// clone is a window of its own, in the room of one that is not needed any more
// where there is one: the search makes hundreds of thousands.
func (s *search) clone(w window) window {
	last := len(s.spare) - 1
	if last < 0 {
		return window{slices.Clone(w.low), slices.Clone(w.high)}
	}
	c := s.spare[last]
	s.spare = s.spare[:last]
	copy(c.low, w.low)
	copy(c.high, w.high)
	return c
}

// drop gives a window's room back.
func (s *search) drop(w window) { s.spare = append(s.spare, w) }

// narrow draws windows closer until nothing more follows. What it cuts off holds
// no timetable within the limits; false where none is left (arc consistency of
// precedences, of pairs on one thing and of sums of waits, and the overload of a
// stretch of time: P. Baptiste, C. Le Pape and W. Nuijten, Constraint-Based
// Scheduling, 2001, chapters 2 to 4; known_by: memory). They are part of wider ones
// that were drawn as close as pairs draw them.
func (s *search) narrow(w, wider window, most Cost) bool {
	copy(s.paired.low, wider.low)
	copy(s.paired.high, wider.high)
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
			drawn, left := w.keep(to, arcs)
			if !left {
				return true, false
			}
			again = again || drawn
		}
		changed = changed || again
	}
	return changed, true
}

// keep draws windows closer by the arcs that lead to a block; left is false where one
// of them closes.
func (w window) keep(to int, arcs []arc) (drawn, left bool) {
	low, high := w.low, w.high
	for _, a := range arcs {
		if by := high[to] - a.lag; by < high[a.from] {
			if high[a.from], drawn = by, true; by < low[a.from] {
				return true, false
			}
		}
		if by := low[a.from] + a.lag; by > low[to] {
			if low[to], drawn = by, true; by > high[to] {
				return true, false
			}
		}
	}
	return drawn, true
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

// pairs lists them by either of their blocks.
func (m *model) pairs() [][]pair {
	all := make([][]pair, len(m.lengths))
	for r, spans := range m.spans {
		if m.have[r] < 1 {
			continue
		}
		for i, u := range spans {
			for _, v := range spans[i+1:] {
				if u.block != v.block && u.amount+v.amount > m.have[r] {
					p := pair{u.block, v.block, u.to - v.from, v.to - u.from}
					all[p.a], all[p.b] = append(all[p.a], p), append(all[p.b], p)
				}
			}
		}
	}
	return all
}

// byPairs orders two uses of one thing that can only be in one order. It looks at
// the pairs of the blocks whose windows are not those it has seen.
func (s *search) byPairs(w window, _ Cost) (changed, ok bool) {
	for block, pairs := range s.pairs {
		if w.low[block] == s.paired.low[block] && w.high[block] == s.paired.high[block] {
			continue
		}
		s.paired.low[block], s.paired.high[block] = w.low[block], w.high[block]
		did, left := w.order(pairs)
		if !left {
			return true, false
		}
		changed = changed || did
	}
	return changed, true
}

// order draws windows closer by pairs that can only be in one order; left is false
// where one can be in none.
func (w window) order(pairs []pair) (drawn, left bool) {
	low, high := w.low, w.high
	for _, p := range pairs {
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
			high[p.a], drawn = by, true
		}
		if by := low[p.a] + p.ab; by > low[p.b] {
			low[p.b], drawn = by, true
		}
		if low[p.a] > high[p.a] || low[p.b] > high[p.b] {
			return true, false
		}
	}
	return drawn, true
}

// job is a use of a thing: no sooner than begin, over by end, with so much work in
// it. The search keeps a list of them to sort in.
type job struct{ begin, end, work int }

// byEnd puts a job in its place among those sorted by their ends.
func byEnd(jobs []job, j job) []job {
	jobs = append(jobs, j)
	at := len(jobs) - 1
	for ; at > 0 && jobs[at-1].end > j.end; at-- {
		jobs[at] = jobs[at-1]
	}
	jobs[at] = j
	return jobs
}

// fits tells that no stretch of time holds more work than there is room for.
func (s *search) fits(w window) bool {
	for r, spans := range s.spans {
		if s.have[r] < 1 {
			continue
		}
		jobs := s.jobs[:0]
		for _, u := range spans {
			jobs = byEnd(jobs, job{w.low[u.block] + u.from, w.high[u.block] + u.to, (u.to - u.from) * u.amount})
		}
		s.jobs = jobs
		for i, from := range jobs {
			seen := slices.ContainsFunc(jobs[:i], func(j job) bool { return j.begin == from.begin })
			if !seen && overloads(jobs, from.begin, s.have[r]) {
				return false
			}
		}
	}
	return true
}

// overloads tells that jobs, sorted by their ends, that begin no sooner than a
// moment are more than a thing can do by one of their ends.
func overloads(jobs []job, begin, have int) bool {
	sum := 0
	for _, j := range jobs {
		if j.begin < begin {
			continue
		}
		if sum += j.work; sum > (j.end-begin)*have {
			return true
		}
	}
	return false
}
