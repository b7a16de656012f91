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
	// Round is the number of a steamer round that several jobs share; each of
	// them gives the same step. 0 = the job's own.
	Round int
}

// Job is one dish as a chain of work: Before (washing, cutting) in order, then
// Steam, then After (cooling, chilling, dressing) in order. After may wait for
// the herbs, see Herbs.
type Job struct {
	Dish   string
	Before []Step
	Steam  []Step // rounds of the steamer, one after the other; shared ones by rising Round
	AtOnce bool   // the first step of After comes straight from the steamer
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
	tails  []*node // the steps that must follow at once, one after the other
	isTail bool
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
	for {
		n := lastToPlace(nodes, serve)
		if n == nil {
			break
		}
		place(n, busy, latestEnd(n, serve))
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

// place gives a step, and those that must follow it at once, the latest slot
// that ends by then.
func place(n *node, busy map[Resource][]*node, end time.Time) {
	parts := append([]*node{n}, n.tails...)
	slices.Reverse(parts)
	for fits := false; !fits; {
		fits = true
		partEnd := end
		for _, part := range parts {
			if part.Uses != Nothing {
				if free := latestSlot(busy[part.Uses], part.Long, partEnd); free.Before(partEnd) {
					end, fits = end.Add(free.Sub(partEnd)), false
					break
				}
			}
			partEnd = partEnd.Add(-part.Long)
		}
	}
	for _, part := range parts {
		part.At, part.placed = end.Add(-part.Long), true
		busy[part.Uses] = append(busy[part.Uses], part)
		end = part.At
	}
}

// graph is the steps of all jobs, tied to those they wait for.
type graph struct {
	nodes      []*node
	boil, pick *node
	rounds     map[int]*node // shared rounds of the steamer
}

// nodesOf chains the steps of every job and ties the shared work to them.
func nodesOf(jobs []Job, kitchen Kitchen) []*node {
	g := &graph{rounds: map[int]*node{}}
	if kitchen.Pick.Long > 0 {
		g.pick = g.add(kitchen.Pick, "", 0)
	}
	if kitchen.Boil > 0 {
		g.boil = g.add(Step{Do: "Bring the steamer to the boil", Long: kitchen.Boil, Uses: Steamer}, "", 0)
	}
	for _, job := range jobs {
		g.chain(job)
	}
	return g.nodes
}

func (g *graph) add(step Step, dish string, rank int) *node {
	n := &node{Task: Task{Step: step, Dish: dish}, rank: rank, order: len(g.nodes)}
	g.nodes = append(g.nodes, n)
	return n
}

// round is the node of a steamer round, shared or the job's own.
func (g *graph) round(step Step, job Job) *node {
	if n := g.rounds[step.Round]; n != nil && step.Round != 0 {
		n.rank, n.Dish = max(n.rank, job.Rank), ""
		return n
	}
	n := g.add(step, job.Dish, job.Rank)
	g.rounds[step.Round] = n
	if g.boil != nil {
		g.boil.next = append(g.boil.next, n)
	}
	return n
}

// chain ties the steps of one job together.
func (g *graph) chain(job Job) {
	var last *node
	follow := func(n *node) {
		if last != nil && last != n {
			last.next = append(last.next, n)
		}
		last = n
	}
	for _, step := range job.Before {
		follow(g.add(step, job.Dish, job.Rank))
	}
	for _, step := range job.Steam {
		follow(g.round(step, job))
	}
	for i, step := range job.After {
		steamed := last
		n := g.add(step, job.Dish, job.Rank)
		follow(n)
		if i == 0 && job.AtOnce && len(job.Steam) > 0 {
			steamed.tails, n.isTail = append(steamed.tails, n), true
		}
		if job.Herbs && g.pick != nil && i == len(job.After)-1 {
			g.pick.next = append(g.pick.next, n)
		}
	}
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

// lastToPlace is, of the nodes whose followers are all placed, the one to place
// next: rounds of the steamer first, those of the highest rank before others,
// since they are the bottleneck; then what may end last; then the later given.
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
	return cmp.Or(cmp.Compare(a.steamRank(), b.steamRank()), latestEnd(a, serve).Compare(latestEnd(b, serve)),
		cmp.Compare(a.rank, b.rank), cmp.Compare(a.order, b.order)) > 0
}

// steamRank orders the rounds of the steamer; other steps come after them.
func (n *node) steamRank() int {
	if n.Uses == Steamer {
		return n.rank
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
