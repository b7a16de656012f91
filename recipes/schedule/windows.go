package schedule

import (
	"iter"
	"slices"
	"sort"
)

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
			s.spent.looks += len(arcs)
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

// apart are two blocks with uses of one thing that cannot be at once. For each two of
// those uses, after a has begun b begins at least so many minutes later, or after b has
// begun a does. Both are sorted, with the most of the other there is from there on.
type apart struct {
	a, b           int
	mostAB, mostBA int // of the delays
	ab, ba         []delay
}

// delay is a pair of uses in one order, and the longest delay in the other order of all
// pairs whose own is as long or longer.
type delay struct{ own, other int }

// pairs lists what cannot be at once by either of the blocks.
func (m *model) pairs() [][]apart {
	of, list := map[[2]int]*apart{}, []*apart(nil)
	for r, spans := range m.spans {
		for u, v := range clashing(spans, m.have[r]) {
			blocks := [2]int{u.block, v.block}
			p := of[blocks]
			if p == nil {
				p = &apart{a: u.block, b: v.block}
				of[blocks], list = p, append(list, p)
			}
			p.ab, p.ba = append(p.ab, delay{u.to - v.from, v.to - u.from}), append(p.ba, delay{v.to - u.from, u.to - v.from})
		}
	}
	all := make([][]apart, len(m.lengths))
	for _, p := range list {
		p.mostAB, p.mostBA = sortDelays(p.ab), sortDelays(p.ba)
		all[p.a], all[p.b] = append(all[p.a], *p), append(all[p.b], *p)
	}
	return all
}

// clashing are each two uses of one thing, by different blocks, that are more than there
// is of it; none where there is no end of it.
func clashing(spans []span, have int) iter.Seq2[span, span] {
	return func(yield func(u, v span) bool) {
		for i, u := range spans {
			for _, v := range spans[i+1:] {
				if u.block == v.block || have < 1 || u.amount+v.amount <= have {
					continue
				}
				if first, second := inOrder(u, v); !yield(first, second) {
					return
				}
			}
		}
	}
}

// inOrder puts the use of the block that is listed first first.
func inOrder(u, v span) (span, span) {
	if v.block < u.block {
		return v, u
	}
	return u, v
}

// sortDelays sorts them, and gives the longest.
func sortDelays(list []delay) (most int) {
	slices.SortFunc(list, func(a, b delay) int { return a.own - b.own })
	for i := len(list) - 2; i >= 0; i-- {
		list[i].other = max(list[i].other, list[i+1].other)
	}
	return list[len(list)-1].own
}

// longer is the longest delay in the other order of all that are longer than there is
// room for in their own, of which there has to be one.
func longer(list []delay, room int) (other int) {
	return list[sort.Search(len(list), func(i int) bool { return list[i].own > room })].other
}

// byPairs orders two uses of one thing that can only be in one order. It looks at
// the pairs of the blocks whose windows are not those it has seen.
func (s *search) byPairs(w window, _ Cost) (changed, ok bool) {
	for block, pairs := range s.pairs {
		if w.low[block] == s.paired.low[block] && w.high[block] == s.paired.high[block] {
			continue
		}
		s.paired.low[block], s.paired.high[block] = w.low[block], w.high[block]
		s.spent.looks += len(pairs)
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
func (w window) order(pairs []apart) (drawn, left bool) {
	for i := range pairs {
		p := &pairs[i]
		if room := w.high[p.b] - w.low[p.a]; room < p.mostAB { // a cannot begin so long before b
			did, left := w.follow(p.b, p.a, longer(p.ab, room))
			if drawn = drawn || did; !left {
				return true, false
			}
		}
		if room := w.high[p.a] - w.low[p.b]; room < p.mostBA {
			did, left := w.follow(p.a, p.b, longer(p.ba, room))
			if drawn = drawn || did; !left {
				return true, false
			}
		}
	}
	return drawn, true
}

// follow draws the windows of two blocks closer, of which the second begins so many
// minutes after the first at least.
func (w window) follow(first, second, lag int) (drawn, left bool) {
	if by := w.high[second] - lag; by < w.high[first] {
		w.high[first], drawn = by, true
	}
	if by := w.low[first] + lag; by > w.low[second] {
		w.low[second], drawn = by, true
	}
	return drawn, w.low[first] <= w.high[first] && w.low[second] <= w.high[second]
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
		if s.load.exceeds(jobs, s.have[r]) {
			return false
		}
	}
	return true
}

// load finds stretches of time that hold more work than there is room for. It is a
// tree over jobs in the order of their beginnings: of each node the work below it,
// and how full time is by it at the least when it is all begun as soon as it can be
// (P. Vilim, O(n log n) filtering algorithms for unary resource constraint, 2004;
// known_by: memory).
type load struct {
	order []int // of the jobs, by their beginnings
	place []int // in that order, of each job
	work  []int
	full  []int
}

// never is sooner than anything is full.
const never = -endless

// exceeds tells that jobs, sorted by their ends, that begin no sooner than a moment
// are more than so many can do by one of their ends.
func (l *load) exceeds(jobs []job, have int) bool {
	l.sort(jobs)
	leaves := 1
	for leaves < len(jobs) {
		leaves *= 2
	}
	l.work, l.full = repeat(l.work, 2*leaves, 0), repeat(l.full, 2*leaves, never)
	for i, j := range jobs {
		at := leaves + l.place[i]
		l.work[at], l.full[at] = j.work, have*j.begin+j.work
		for at /= 2; at > 0; at /= 2 {
			l.work[at] = l.work[2*at] + l.work[2*at+1]
			l.full[at] = max(l.full[2*at+1], l.full[2*at]+l.work[2*at+1])
		}
		if l.full[1] > have*j.end {
			return true
		}
	}
	return false
}

// sort puts jobs in the order of their beginnings.
func (l *load) sort(jobs []job) {
	l.order, l.place = l.order[:0], repeat(l.place, len(jobs), 0)
	for i := range jobs {
		l.order = append(l.order, i)
	}
	slices.SortFunc(l.order, func(a, b int) int { return jobs[a].begin - jobs[b].begin })
	for place, i := range l.order {
		l.place[i] = place
	}
}

// repeat is a list of one value in the room of another.
func repeat(room []int, n, value int) []int {
	room = slices.Grow(room[:0], n)[:n]
	for i := range room {
		room[i] = value
	}
	return room
}
