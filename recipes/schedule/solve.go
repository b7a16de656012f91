package schedule

import (
	"cmp"
	"context"
	"math"
)

// Solve places every step as late as it can be so that all is ready at the
// serving time, nothing is kept busy beyond what there is, and every step
// follows those it waits for. Of all such timetables it takes the one of the
// least [Cost].
//
// Goal by goal it closes in on the least cost from both sides: is there a
// timetable that costs no more than this? Each such question is a branch and
// bound over precedences on windows: when every step may begin, drawn closer by
// all that follows from the limits (for example C. Artigues, S. Demassey and E.
// Neron, Resource-Constrained Project Scheduling, 2008, chapters 1 to 3;
// known_by: memory). Beyond the node limit the best found is handed out with a
// bound.
//
// The same problem has the same answer. The errors are [ErrCircle],
// [ErrUnknownStep], [ErrTooLittle] and the context's.
func Solve(ctx context.Context, p Problem) (Timetable, error) {
	m, err := newModel(p)
	if err != nil {
		return Timetable{}, err
	}
	s := &search{model: m, ctx: ctx, pairs: m.pairs(), paired: m.unseen(), patience: effort{endless, math.MaxInt}}
	root := s.widest(s.longest)
	if !s.narrow(root, m.unseen(), unlimited) {
		return Timetable{}, ErrCircle
	}
	m.headsOf()
	begins, end := s.branch(root, unlimited)
	if s.err != nil {
		return Timetable{}, s.err
	}
	if end != found {
		return Timetable{}, ErrCircle
	}
	s.limit = effort{s.spent.nodes + cmp.Or(p.NodeLimit, DefaultNodes), s.spent.looks + mostLooks}
	t := s.best(begins, s.costOf(root.high))
	if s.err != nil {
		return Timetable{}, s.err
	}
	t.Steps = m.timed(p.Serve, s.begins)
	return t, nil
}

// endless is more nodes than any search has, and more minutes than any goal
// counts.
const endless = 1 << 29

// unlimited allows every timetable.
var unlimited = Cost{endless, endless, endless, endless}

// effort is what a search takes: the orders it tries, and how often it looks at whether
// two blocks can be in an order. An evening's order takes some hundred looks to a few
// thousand; where hundreds of steps wait for the same hands it takes a hundred thousand.
type effort struct{ nodes, looks int }

// mostLooks is the search's patience beside [DefaultNodes], ten times what the longest
// evenings take: a second or less.
const mostLooks = 100_000_000

func (e effort) exceeds(most effort) bool { return e.nodes > most.nodes || e.looks > most.looks }

// half is half of what is left of an effort.
func (e effort) half(limit effort) effort {
	return effort{e.nodes + (limit.nodes-e.nodes+1)/2, e.looks + (limit.looks-e.looks+1)/2}
}

// search is a problem being solved.
type search struct {
	*model
	ctx      context.Context
	pairs    [][]apart // by block
	paired   window    // as byPairs saw it last
	spent    effort
	patience effort // at which the question asked is given up
	limit    effort // at which all is
	begins   []int  // the best found: the beginning of every block, in minutes from serving
	err      error

	spare []window // room for windows
	jobs  []job    // room to sort in
	met   []int    // room to sort in
	load  load
}

// best is the timetable of the least cost, goal after goal, from a first one and
// what none costs less than.
func (s *search) best(first []int, bound Cost) Timetable {
	s.begins = first
	t := Timetable{Cost: s.costOf(first), Bound: bound, Proven: true}
	most := unlimited
	for g := range t.Cost.goals() {
		least := s.close(g, most, &t.Cost)
		if t.Proven { // else nothing is proven of the goals that come after
			*t.Bound.goals()[g] = least
			t.Proven = least >= *t.Cost.goals()[g]
		}
		*most.goals()[g] = *t.Cost.goals()[g]
	}
	t.Nodes = s.spent.nodes
	return t
}

// close brings the cost of the best found down by one goal, within what the
// goals before it cost, and tells what it can cost at least. Each question may
// take half of the patience that is left.
func (s *search) close(g int, most Cost, cost *Cost) (least int) {
	root := s.widest(s.longest)
	s.narrow(root, s.unseen(), most) // the best found keeps these limits
	bound := s.costOf(root.high)
	least = *bound.goals()[g]
	untried := least
	for at := least; untried < *cost.goals()[g] && s.err == nil && s.spent.nodes < s.limit.nodes && s.spent.looks < s.limit.looks; at = (untried + *cost.goals()[g]) / 2 {
		*most.goals()[g] = at
		s.patience = s.spent.half(s.limit)
		switch begins, end := s.within(most); end {
		case found:
			s.begins, *cost = begins, s.costOf(begins)
		case none:
			least, untried = at+1, at+1
		default:
			untried = at + 1
		}
	}
	return least
}
