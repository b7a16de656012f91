package integer

import (
	"cmp"
	"errors"
	"maps"
	"math"
	"math/big"
	"slices"
)

// A patience is how long a search goes on in one way before it does more.
type patience struct {
	try      int // nodes a goal is looked for in the common way, before it is asked for by itself
	tryWhole int // the same, where only whole multiples count
	ask      int // nodes a question may take before it is asked in other ways
	listing  int // nodes in all before sums are listed
	length   int // and before that may take long
	columns  int // from so many on rows are rounded at every root
	copied   int // cells of tableaus that may be kept for the nodes above another
}

// usual is what random problems of a kitchen's and of a village's size are solved
// soonest with: most are settled by the relaxation before anything else would pay.
var usual = patience{try: 3_000, tryWhole: 100, ask: 400, listing: 40, length: 500, columns: 70, copied: 1 << 23}

// racers is how many pulls lead a search by turns, each time for longer.
const racers = 3

// maximise finds the best value of a goal, exactly, or a better one than the
// incumbent's if that will do. Where it is not soon found, the
// largest that the relaxation allows are asked for by themselves: little of the box
// comes to so much.
func (s *session) maximise(a *aim) (*big.Int, error) {
	if s.work.better {
		return s.exceed(a)
	}
	o := a.objective
	nodes := s.work.try
	if o.whole != nil {
		nodes = s.work.tryWhole
	}
	lift := s.work.capped(nodes)
	worth, _, err := s.climb(o, s.x, s.prog.value(o, s.x))
	lift()
	if s.hopeful(err) {
		return s.fromTheTop(a, worth)
	}
	return worth, err
}

// exceed finds a better value of a goal than the incumbent's, if there is one, and
// returns what the incumbent then comes to.
func (s *session) exceed(a *aim) (*big.Int, error) {
	worth := s.prog.value(a.objective, s.x)
	_, err := s.canNarrow(narrowing{aim: a, least: a.objective.above(worth)}, a.objective)
	s.open = nil
	return s.prog.value(a.objective, s.x), err
}

// hopeful reports whether a search stopped only because it was to be short.
func (s *session) hopeful(err error) bool {
	return errors.Is(err, ErrNodeLimit) && !s.work.spent()
}

// fromTheTop asks for what the last search left open, and, while that is not to be
// had, for less, by larger and larger steps.
func (s *session) fromTheTop(a *aim, worth *big.Int) (*big.Int, error) {
	o := a.objective
	unit := o.unit()
	top, step := s.open, unit
	for worth.Cmp(top) < 0 {
		next := new(big.Int).Sub(top, step)
		if next.Add(next, unit); next.Cmp(worth) <= 0 {
			next = o.above(worth)
		}
		found, err := s.canNarrow(narrowing{aim: a, least: next}, o)
		if err != nil {
			s.open = top
			return s.prog.value(o, s.x), err
		}
		if found {
			worth, step = s.prog.value(o, s.x), unit
		} else {
			top, step = next.Sub(next, unit), new(big.Int).Lsh(step, 1)
		}
	}
	return worth, nil
}

// A narrowing is columns as they are to be, within what they are, rows as they are
// to read instead of saying nothing, and what a goal is to come to.
type narrowing struct {
	columns map[int]Column
	rows    map[int]Row
	aim     *aim
	least   *big.Int
}

// canNarrow reports whether there is a solution with what is named narrowed; if so
// it becomes the incumbent. The objective only guides the search. What the strongest
// pull does not soon settle, the strongest are tried on by turns: which is the quicker
// is not known before.
func (s *session) canNarrow(to narrowing, guide objective) (bool, error) {
	for _, c := range to.columns {
		if c.Least > c.Most {
			return false, nil
		}
	}
	defer func(was bool) { s.closely = was }(s.closely)
	s.closely = false
	for nodes := s.work.ask; ; nodes *= 4 {
		found, err := s.race(to, s.pullsFor(to, guide), nodes)
		if !s.hopeful(err) {
			return found, err
		}
		s.closely = true
		s.drawAll(s.base, s.pulls)
		s.narrow()
	}
}

// pullsFor lists the pulls that may lead a search with what is named narrowed: the
// goal that is asked for before all, then the strongest, and with them the guide,
// which comes first where no pull holds even one column.
func (s *session) pullsFor(to narrowing, guide objective) []pull {
	pulls := slices.Clone(s.pulls)
	if to.aim != nil {
		pulls = append(pulls, pull{goal: to.aim.objective, least: to.least, row: to.aim.row, held: math.MaxFloat64})
	} else {
		pulls = append(pulls, pull{goal: guide, row: -1, held: 1})
	}
	slices.SortStableFunc(pulls, func(a, b pull) int { return cmp.Compare(b.held, a.held) })
	return pulls
}

// race lets the strongest pull lead a search for so many nodes, and where one looks
// closely then others; for as long as it takes, if there is no other.
func (s *session) race(to narrowing, pulls []pull, nodes int) (found bool, err error) {
	runners := 1
	if s.closely {
		for runners = 0; runners < min(racers, len(pulls)) && pulls[runners].held > 0; {
			runners++
		}
		if runners == 1 {
			nodes = math.MaxInt32 / 2
		}
	}
	for i := range runners {
		lift := s.work.capped(nodes)
		found, err = s.look(to, pulls, i)
		lift()
		if !s.hopeful(err) {
			break
		}
	}
	return found, err
}

// look searches for a solution with what is named narrowed, led by one pull, after
// all of them have narrowed the columns too if it is to look closely.
func (s *session) look(to narrowing, pulls []pull, leader int) (bool, error) {
	by := &pulls[leader]
	run := s.search(by.goal)
	s.work.asked++
	run.columns, run.any = slices.Clone(s.prog.columns), true
	root := s.root(run)
	for _, j := range slices.Sorted(maps.Keys(to.columns)) {
		run.columns[j] = to.columns[j]
		root.confine(j, run.columns[j])
	}
	defer s.write(root, to.rows)()
	defer s.require(root, to.aim, to.least)()
	defer func() {
		for j := range to.columns {
			root.shape.batch[j] = s.prog.columns[j].Batch
		}
	}()
	if s.closely {
		if !s.drawAll(root, pulls) {
			return false, nil
		}
		root.aim(by.goal)
	}
	s.loosen(root, by)
	if by.least != nil {
		run.worth = new(big.Int).Sub(by.least, big.NewInt(1))
	}
	err := run.explore(root, 0)
	if run.best == nil {
		return false, err
	}
	s.x = run.best
	return true, nil
}

// require asks a goal for at least so much, in the relaxation given, and returns what
// withdraws that.
func (s *session) require(t *tableau, a *aim, least *big.Int) (withdraw func()) {
	switch {
	case a == nil:
		return func() {}
	case a.floor >= 0:
		f := &s.prog.floors[a.floor]
		was := f.least
		f.least = least
		t.tighten(slices.Index(t.shape.floorOf, a.floor), new(big.Int).Neg(least))
		return func() { f.least = was }
	}
	row := &s.prog.rows[a.row]
	was := row.Limit
	row.Limit, s.prog.asked = new(big.Int).Neg(least), a.row
	t.tighten(a.row, row.Limit)
	return func() { row.Limit, s.prog.asked = was, -1 }
}

// write makes rows that said nothing read as given, for a relaxation in which they
// do not stand yet, and returns what makes them say nothing again.
func (s *session) write(t *tableau, rows map[int]Row) (lift func()) {
	said := map[int]Row{}
	for i, row := range rows {
		said[i] = s.prog.rows[i]
		s.prog.rows[i] = row
		t.reread(i)
	}
	return func() {
		for i, row := range said {
			s.prog.rows[i] = row
			t.reread(i)
		}
	}
}
