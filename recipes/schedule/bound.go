package schedule

import "slices"

// headsOf reckons how long at least it takes from the first step to each block.
func (m *model) headsOf() {
	m.heads = make([]int, len(m.lengths))
	for moved := true; moved; {
		moved = false
		for to, arcs := range m.into {
			for _, a := range arcs {
				if by := m.heads[a.from] + a.lag; by > m.heads[to] {
					m.heads[to], moved = by, true
				}
			}
		}
	}
}

// costOf is the least that any timetable costs in which every block begins at or
// before these moments.
func (s *search) costOf(latest []int) Cost {
	var by [goals]int
	for _, lag := range s.lags {
		by[lag.goal] += max(0, -(latest[lag.block]+lag.end)-lag.most)
	}
	c := Cost{by[KeepsClock], by[HotWaits] + s.queue(latest), by[WarmWaits], 0}
	for _, at := range latest {
		c.Length = max(c.Length, -at)
	}
	for r, spans := range s.spans {
		if s.have[r] > 0 {
			c.Length = max(c.Length, s.work(spans, s.have[r], latest))
		}
	}
	return c
}

// work is the least length of a timetable by one thing alone: of all that ends
// some time before serving, the work there is, shared by as many as there are.
func (s *search) work(spans []span, have int, latest []int) int {
	jobs := s.jobs[:0] // by their latest ends, the soonest first
	for _, u := range spans {
		jobs = byEnd(jobs, job{s.heads[u.block] + u.from, latest[u.block] + u.to, (u.to - u.from) * u.amount})
	}
	s.jobs = jobs
	longest, sum, before := 0, 0, 1<<30
	for _, u := range jobs {
		sum += u.work
		before = min(before, u.begin)
		longest = max(longest, before+(sum+have-1)/have-u.end)
	}
	return longest
}

// queue is how much longer hot food waits at least than its own latest moments
// say, for one steamer cannot end all fillings at once: the shortest remaining
// time first leaves the least sum of waits where work could be interrupted, and
// interrupting only helps (L. Schrage, Operations Research 16, 1968; known_by:
// memory). Time runs backward from serving here.
func (s *search) queue(latest []int) int {
	waiting, sum := s.hotFillings(latest)
	for now := 0; len(waiting) > 0; {
		next, change := -1, 1<<30
		for i, f := range waiting {
			switch {
			case f.release > now:
				change = min(change, f.release)
			case next < 0 || f.left < waiting[next].left:
				next = i
			}
		}
		if next < 0 {
			now = change
			continue
		}
		until := min(now+waiting[next].left, change)
		waiting[next].left -= until - now
		now = until
		if waiting[next].left == 0 {
			sum += now
			waiting = slices.Delete(waiting, next, next+1)
		}
	}
	return sum
}

// filling is a use of the steamer: from when it may have it, and for how long yet.
type filling struct{ release, left int }

// hotFillings are the fillings of hot food, and, negative, what their own latest
// moments say that they wait.
func (s *search) hotFillings(latest []int) (waiting []filling, sum int) {
	counted := map[int]bool{}
	for _, lag := range s.lags {
		at := slices.IndexFunc(s.spans[steamer], func(u span) bool { return u.block == lag.block })
		if lag.goal != HotWaits || lag.most > 0 || at < 0 || counted[lag.block] {
			continue
		}
		u := s.spans[steamer][at]
		counted[lag.block] = true
		waiting = append(waiting, filling{-(latest[lag.block] + u.to), u.to - u.from})
		sum += latest[lag.block] + u.from
	}
	return waiting, sum
}
