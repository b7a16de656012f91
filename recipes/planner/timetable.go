package planner

import (
	"cmp"
	"slices"
	"time"
)

// Resource is what a task keeps busy.
type Resource string

// The two things that cannot do two jobs at once. A task that uses neither
// (cooling, chilling) runs beside everything.
const (
	Nothing Resource = ""
	Cook    Resource = "cook"
	Steamer Resource = "steamer"
)

// Step is one thing to do, with how long it takes.
type Step struct {
	Do   string
	Long time.Duration
	Uses Resource
}

// Job is one dish as a chain of work: Before (washing, cutting) in order, then
// Steam, then After (cooling, chilling, dressing) in order. After may wait for
// the herbs, see Herbs.
type Job struct {
	Dish   string
	Before []Step
	Steam  []Step // rounds of the steamer, one after the other
	After  []Step
	Herbs  bool // the last step of After wants what is picked from the plot
	Rank   int  // of jobs that could go either way the lower rank is done earlier: cold 0, warm 1, hot 2
}

// Kitchen is the work that all jobs share.
type Kitchen struct {
	Boil time.Duration // bringing the steamer to the boil, before the first round
	Pick Step          // picking herbs and salad; no length = nothing to pick
}

// Task is a step with its place in time.
type Task struct {
	Step
	Dish string // "" for shared work
	At   time.Time
}

// End is when the task is over.
func (t Task) End() time.Time { return t.At.Add(t.Long) }

// node is a step while the timetable is being drawn up.
type node struct {
	Task
	rank   int
	order  int // in which it was given, to decide ties
	next   []*node
	placed bool
}

// Timetable places every step as late as it can be, so that all jobs end at
// the serving time, nothing uses the cook or the steamer twice at once, and
// every step follows those it waits for. It works backward: of the steps whose
// followers all have their place, the one that may end last comes next, and
// takes the latest free slot. Tasks are returned in the order of their start.
func Timetable(jobs []Job, kitchen Kitchen, serve time.Time) []Task {
	nodes := nodesOf(jobs, kitchen)
	busy := map[Resource][]*node{}
	for range nodes {
		n := lastToPlace(nodes, serve)
		end := latestEnd(n, serve)
		if n.Uses != Nothing {
			end = latestSlot(busy[n.Uses], n.Long, end)
			busy[n.Uses] = append(busy[n.Uses], n)
		}
		n.At, n.placed = end.Add(-n.Long), true
	}
	nodes = append(nodes, reboils(busy[Steamer], kitchen.Boil)...)
	tasks := make([]Task, 0, len(nodes))
	slices.SortStableFunc(nodes, func(a, b *node) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.order, b.order))
	})
	for _, n := range nodes {
		tasks = append(tasks, n.Task)
	}
	return tasks
}

// nodesOf chains the steps of every job and ties the shared work to them.
func nodesOf(jobs []Job, kitchen Kitchen) []*node {
	var nodes []*node
	add := func(step Step, dish string, rank int) *node {
		n := &node{Task: Task{Step: step, Dish: dish}, rank: rank, order: len(nodes)}
		nodes = append(nodes, n)
		return n
	}
	var boil, pick *node
	if kitchen.Pick.Long > 0 {
		pick = add(kitchen.Pick, "", 0)
	}
	if kitchen.Boil > 0 {
		boil = add(Step{Do: "Bring the steamer to the boil", Long: kitchen.Boil, Uses: Steamer}, "", 0)
	}
	for _, job := range jobs {
		var last *node
		chain := func(step Step) *node {
			n := add(step, job.Dish, job.Rank)
			if last != nil {
				last.next = append(last.next, n)
			}
			last = n
			return n
		}
		for _, step := range job.Before {
			chain(step)
		}
		for _, step := range job.Steam {
			n := chain(step)
			if boil != nil {
				boil.next = append(boil.next, n)
			}
		}
		for i, step := range job.After {
			n := chain(step)
			if job.Herbs && pick != nil && i == len(job.After)-1 {
				pick.next = append(pick.next, n)
			}
		}
	}
	return nodes
}

// coolsAfter is how long the steamer may stand between rounds before it has to
// be brought back to the boil (common practice, no source).
const coolsAfter = 10 * time.Minute

// reboils bring the steamer back to the boil after every long pause.
func reboils(rounds []*node, boil time.Duration) []*node {
	rounds = slices.Clone(rounds)
	slices.SortFunc(rounds, func(a, b *node) int { return a.At.Compare(b.At) })
	var again []*node
	for i := 1; i < len(rounds) && boil > 0; i++ {
		pause := rounds[i].At.Sub(rounds[i-1].End())
		if pause <= coolsAfter {
			continue
		}
		long := min(boil, pause)
		again = append(again, &node{order: rounds[i].order, Task: Task{At: rounds[i].At.Add(-long),
			Step: Step{Do: "Bring the steamer back to the boil; see that there is water enough", Long: long, Uses: Steamer}}})
	}
	return again
}

// lastToPlace is, of the nodes whose followers are all placed, the one that
// may end last; of equals the higher rank, then the later given.
func lastToPlace(nodes []*node, serve time.Time) *node {
	var best *node
	for _, n := range nodes {
		if n.placed || slices.ContainsFunc(n.next, func(f *node) bool { return !f.placed }) {
			continue
		}
		if best == nil || laterThan(n, best, serve) {
			best = n
		}
	}
	return best
}

func laterThan(a, b *node, serve time.Time) bool {
	return cmp.Or(latestEnd(a, serve).Compare(latestEnd(b, serve)), cmp.Compare(a.rank, b.rank), cmp.Compare(a.order, b.order)) > 0
}

// latestEnd is the start of the first follower, or the serving time.
func latestEnd(n *node, serve time.Time) time.Time {
	end := serve
	for _, follower := range n.next {
		if follower.At.Before(end) {
			end = follower.At
		}
	}
	return end
}

// latestSlot is the latest end, at or before the one given, at which a step of
// that length meets none of the busy ones.
func latestSlot(busy []*node, long time.Duration, end time.Time) time.Time {
	for moved := true; moved; {
		moved = false
		for _, b := range busy {
			if b.At.Before(end) && b.End().After(end.Add(-long)) {
				end, moved = b.At, true
			}
		}
	}
	return end
}
