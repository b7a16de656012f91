package schedule

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"
)

// Problem is the steps of a meal and when it is to be on the table.
type Problem struct {
	Steps []Step
	Serve time.Time
	// Reboil is how long a ring takes to bring its pan back to the boil after a
	// long pause between two steps that steam on it; 0 = it never has to.
	Reboil time.Duration
}

// ErrCircle is wrapped when steps wait for each other.
var ErrCircle = errors.New("steps wait for each other")

// ErrUnknownStep is wrapped when a step waits for one that is not there.
var ErrUnknownStep = errors.New("no such step")

// Backward places every step as late as it can be, so that all end at the
// serving time, nobody and no ring has two things to do at once, and every step
// follows those it waits for. Of the steps whose followers all have their place
// the one that may end last comes next, and takes the latest free slot. Long
// pauses between steps on a ring get a step that brings the pan back to the
// boil.
//
// The timetable is in the order of the starts, the same for the same problem.
// It is a good one, not proven the best. The errors are [ErrCircle] and
// [ErrUnknownStep].
func Backward(p Problem) ([]Timed, error) {
	nodes, err := link(p.Steps)
	if err != nil {
		return nil, err
	}
	var placed []*node
	for len(placed) < len(nodes) {
		next := lastToPlace(nodes, p.Serve)
		if next == nil {
			return nil, ErrCircle
		}
		placed = append(placed, place(next, placed, latestEnd(next, p.Serve))...)
	}
	placed = append(placed, reboils(nodes, p.Reboil)...)
	slices.SortStableFunc(placed, func(a, b *node) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.order, b.order))
	})
	timed := make([]Timed, len(placed))
	for i, n := range placed {
		timed[i] = n.Timed
	}
	return timed, nil
}

// node is a step while it is being placed.
type node struct {
	Timed
	order  int     // in which it was given, to decide ties
	next   []*node // the steps that wait for it
	tails  []*node // the steps that follow it without a gap, one after the other
	isTail bool
	placed bool
}

// link ties every step to those that wait for it.
func link(steps []Step) ([]*node, error) {
	byID := make(map[string]*node, len(steps))
	nodes := make([]*node, len(steps))
	for i, step := range steps {
		nodes[i] = &node{Timed: Timed{Step: step}, order: i}
		byID[step.ID] = nodes[i]
	}
	for _, n := range nodes {
		for _, id := range n.After {
			before, ok := byID[id]
			if !ok {
				return nil, fmt.Errorf("%s waits for %s: %w", n.ID, id, ErrUnknownStep)
			}
			before.next = append(before.next, n)
		}
		if n.StraightFrom == "" {
			continue
		}
		from, ok := byID[n.StraightFrom]
		if !ok {
			return nil, fmt.Errorf("%s follows %s: %w", n.ID, n.StraightFrom, ErrUnknownStep)
		}
		from.tails, n.isTail = append(from.tails, n), true
	}
	return nodes, nil
}

// place gives a step, and those that follow it without a gap, the latest slot
// that ends by then, and returns them.
func place(n *node, placed []*node, end time.Time) []*node {
	chain := append([]*node{n}, n.tails...)
	slices.Reverse(chain)
	for fits := false; !fits; {
		fits = true
		partEnd := end
		for _, part := range chain {
			if free := latestSlot(part, placed, partEnd); free.Before(partEnd) {
				end, fits = end.Add(free.Sub(partEnd)), false
				break
			}
			partEnd = partEnd.Add(-part.Length)
		}
	}
	for _, part := range chain {
		part.At, part.placed = end.Add(-part.Length), true
		end = part.At
	}
	return chain
}

// latestSlot is the latest end, at or before the one given, at which a step
// meets none of the placed ones that keep the same thing busy.
func latestSlot(n *node, placed []*node, end time.Time) time.Time {
	for moved := true; moved; {
		moved = false
		for _, other := range placed {
			if n.clashes(other) && other.At.Before(end) && other.End().After(end.Add(-n.Length)) {
				end, moved = other.At, true
			}
		}
	}
	return end
}

// clashes tells that two steps keep the same thing busy: the one cook, or one
// ring.
func (n *node) clashes(other *node) bool {
	return n.Hands > 0 && other.Hands > 0 || n.Ring > 0 && n.Ring == other.Ring
}

// coolsAfter is how long a steamer may stand between rounds before it has to be
// brought back to the boil (common practice, no source).
const coolsAfter = 10 * time.Minute

// reboils bring the pan back to the boil after every long pause on a ring. A
// pause shorter than that takes is used whole.
func reboils(nodes []*node, long time.Duration) []*node {
	var rounds []*node
	for _, n := range nodes {
		if n.Ring > 0 {
			rounds = append(rounds, n)
		}
	}
	slices.SortFunc(rounds, func(a, b *node) int { return a.At.Compare(b.At) })
	var again []*node
	for i := 1; i < len(rounds) && long > 0; i++ {
		pause := rounds[i].At.Sub(rounds[i-1].End())
		if pause <= coolsAfter {
			continue
		}
		length := min(long, pause)
		boil := Step{ID: fmt.Sprintf("%s-boil", rounds[i].ID), Kind: Boil, Run: rounds[i].Run, Length: length, Ring: rounds[i].Ring}
		again = append(again, &node{order: rounds[i].order, Timed: Timed{Step: boil, At: rounds[i].At.Add(-length)}})
	}
	return again
}

// lastToPlace is, of the nodes whose followers are all placed, the one to place
// next: what is on a ring first, the highest rank before others, since the ring
// is the bottleneck; then what may end last; then the later given. It is nil
// where none is left to place, or all that are left wait for each other.
func lastToPlace(nodes []*node, serve time.Time) *node {
	var best *node
	for _, n := range nodes {
		if n.placed || n.isTail || slices.ContainsFunc(n.followers(), func(f *node) bool { return !f.placed }) {
			continue
		}
		if best == nil || placeBefore(n, best, serve) {
			best = n
		}
	}
	return best
}

func placeBefore(a, b *node, serve time.Time) bool {
	return cmp.Or(cmp.Compare(a.ringRank(), b.ringRank()), latestEnd(a, serve).Compare(latestEnd(b, serve)),
		cmp.Compare(a.Rank, b.Rank), cmp.Compare(a.order, b.order)) > 0
}

// ringRank orders what is on a ring; other steps come after it.
func (n *node) ringRank() int {
	if n.Ring > 0 {
		return n.Rank
	}
	return -1
}

// followers are the steps that wait for this one and for its tails.
func (n *node) followers() []*node {
	var list []*node
	for _, f := range n.next {
		if !slices.Contains(n.tails, f) {
			list = append(list, f)
		}
	}
	for _, tail := range n.tails {
		list = append(list, tail.next...)
	}
	return list
}

// latestEnd is the start of the first follower, or the serving time; of a step
// with tails it is the end of the last of them.
func latestEnd(n *node, serve time.Time) time.Time {
	end := serve
	for _, follower := range n.followers() {
		if follower.At.Before(end) {
			end = follower.At
		}
	}
	return end
}
