package keeping

import (
	"cmp"
	"slices"
	"time"
)

// stretch is a spell on a clock: each of its minutes counts weight times (1,
// or 2 in hot air). A zero to means that it is still going on.
type stretch struct {
	from, to time.Time
	weight   int
	back     bool // it ends by being put back into the fridge
}

// clock adds stretches up. Where several overlap, the heaviest counts, once,
// so that the order and the overlap of the stretches do not matter.
type clock struct{ stretches []stretch }

// add puts a stretch on the clock, cut off at the moment after; one that has
// nothing after it is left out.
func (c *clock) add(s stretch, after time.Time) {
	if s.from.Before(after) {
		s.from = after
	}
	if !s.to.IsZero() && !s.to.After(s.from) {
		return
	}
	c.stretches = append(c.stretches, s)
}

// running is the weight of the stretches still going on; 0 when none is.
func (c *clock) running() int {
	weight := 0
	for _, s := range c.stretches {
		if s.to.IsZero() {
			weight = max(weight, s.weight)
		}
	}
	return weight
}

// marks are the moments at which the weight may change, in order.
func (c *clock) marks() []time.Time {
	var marks []time.Time
	for _, s := range c.stretches {
		marks = append(marks, s.from)
		if !s.to.IsZero() {
			marks = append(marks, s.to)
		}
	}
	slices.SortFunc(marks, time.Time.Compare)
	return slices.CompactFunc(marks, time.Time.Equal)
}

// weightAt is the weight right after the moment t.
func (c *clock) weightAt(t time.Time) int {
	weight := 0
	for _, s := range c.stretches {
		if !s.from.After(t) && (s.to.IsZero() || s.to.After(t)) {
			weight = max(weight, s.weight)
		}
	}
	return weight
}

// used is the weighted time on the clock up to the moment t.
func (c *clock) used(t time.Time) time.Duration {
	var sum time.Duration
	marks := c.marks()
	for i, from := range marks {
		if !from.Before(t) {
			break
		}
		to := t
		if i+1 < len(marks) && marks[i+1].Before(t) {
			to = marks[i+1]
		}
		sum += time.Duration(c.weightAt(from)) * to.Sub(from)
	}
	return sum
}

// reaches is the last moment at which the clock has not passed the limit, if it
// runs on as it does; zero when it stands still before that.
func (c *clock) reaches(limit time.Duration) time.Time {
	var sum time.Duration
	marks := c.marks()
	for i, from := range marks {
		weight := time.Duration(c.weightAt(from))
		if weight == 0 {
			continue
		}
		at := from.Add((limit - sum) / weight)
		if i+1 == len(marks) || at.Before(marks[i+1]) {
			return at
		}
		sum += weight * marks[i+1].Sub(from)
	}
	return time.Time{}
}

// putBack lists the moments at which the food went back into the fridge: the end
// of every spell that has one. Of spells that overlap or touch the last end is it.
// Where the last goes on still, the two contradict each other, and the end that was
// told is believed, the stricter of the two.
func (c *clock) putBack() []time.Time {
	var ends []time.Time
	for _, s := range c.stretches {
		if s.back && !s.to.IsZero() && !c.outlasts(s.to) {
			ends = append(ends, s.to)
		}
	}
	slices.SortFunc(ends, time.Time.Compare)
	return ends
}

// outlasts tells that a spell that was on at a moment ended later by being put back.
func (c *clock) outlasts(t time.Time) bool {
	return slices.ContainsFunc(c.stretches, func(s stretch) bool { return s.back && !s.from.After(t) && s.to.After(t) })
}

// inOrder sorts spells as time went, whatever order they were told in.
func inOrder(spells []Spell) []Spell {
	return slices.SortedStableFunc(slices.Values(spells), func(a, b Spell) int {
		return cmp.Or(a.From.Compare(b.From), a.To.Compare(b.To), cmp.Compare(a.Air.C, b.Air.C))
	})
}

// merged joins spells that overlap or touch.
func merged(spells []Spell) []Spell {
	sorted := slices.Clone(spells)
	slices.SortFunc(sorted, func(a, b Spell) int { return a.From.Compare(b.From) })
	var joined []Spell
	for _, s := range sorted {
		last := len(joined) - 1
		if last < 0 || !joined[last].To.IsZero() && joined[last].To.Before(s.From) {
			joined = append(joined, Spell{From: s.From, To: s.To})
			continue
		}
		if !joined[last].To.IsZero() && (s.To.IsZero() || s.To.After(joined[last].To)) {
			joined[last].To = s.To
		}
	}
	return joined
}
