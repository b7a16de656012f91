package schedule

import (
	"fmt"
	"slices"
	"time"
)

// The things that steps keep busy, in the order in which the search settles who
// has them when: the steamer is the bottleneck. Steps of a block share the first two.
const (
	steamer = iota
	rings
	trays
	hands
	places // the first of those that have a name
)

// span is a step's use of one thing, in minutes from the beginning of its block.
type span struct {
	block, from, to, amount int
}

// lagging is a lag in minutes: the step ends so long after its block begins.
type lagging struct {
	block, end, most int
	goal             Goal
}

// arc says that a block begins at least lag minutes after another.
type arc struct{ from, to, lag int }

// model is a problem in whole minutes before serving. Steps that are tied to
// each other make a block, which moves as one.
type model struct {
	steps   []Step
	block   []int    // of each step
	offset  []int    // of each step, from the beginning of its block
	lengths []int    // of each block
	spans   [][]span // by thing
	have    []int    // by thing
	lags    []lagging
	into    [][]arc  // by the block they lead to
	heads   []int    // the least minutes from the first step to a block
	named   []string // the places, in the order of their things
	longest int      // more than any sensible timetable takes
}

func wholeMinutes(d time.Duration) int { return int((d + time.Minute - 1) / time.Minute) }

// newModel ties steps into blocks and puts the rest into arcs between them.
func newModel(p Problem) (*model, error) {
	m := &model{steps: p.Steps, have: []int{1, max(1, p.Have.Rings), p.Have.Trays, max(1, p.Have.Hands)}}
	m.name()
	byID := make(map[string]int, len(p.Steps))
	for i, step := range p.Steps {
		byID[step.ID] = i
		m.longest += wholeMinutes(step.Length) + wholeMinutes(step.Offset)
	}
	if err := m.tie(byID); err != nil {
		return nil, err
	}
	m.into = make([][]arc, len(m.lengths))
	for i := range p.Steps {
		if err := m.wait(i, byID); err != nil {
			return nil, err
		}
	}
	for _, lag := range p.Lags {
		at, ok := byID[lag.Step]
		if !ok {
			return nil, fmt.Errorf("a lag of %s: %w", lag.Step, ErrUnknownStep)
		}
		m.lags = append(m.lags, lagging{m.block[at], m.end(at), wholeMinutes(lag.Most), lag.Goal})
	}
	return m, m.occupy()
}

// wait puts what a step waits for into arcs between blocks.
func (m *model) wait(i int, byID map[string]int) error {
	step := m.steps[i]
	for _, id := range step.After {
		before, ok := byID[id]
		if !ok {
			return fmt.Errorf("%s waits for %s: %w", step.ID, id, ErrUnknownStep)
		}
		a := arc{m.block[before], m.block[i], m.end(before) - m.offset[i]}
		if a.from == a.to && a.lag > 0 {
			return fmt.Errorf("%s and %s: %w", step.ID, id, ErrCircle)
		}
		if a.from != a.to {
			m.into[a.to] = append(m.into[a.to], a)
		}
	}
	return nil
}

// end is how long after its block begins a step ends.
func (m *model) end(step int) int { return m.offset[step] + wholeMinutes(m.steps[step].Length) }

// tie follows the ties from every step to the one that leads its block, and
// then lets every block begin with its first step.
func (m *model) tie(byID map[string]int) error {
	n := len(m.steps)
	m.block, m.offset = make([]int, n), make([]int, n)
	blockOf := map[int]int{}
	for i := range m.steps {
		at, offset := i, 0
		for hops := 0; m.steps[at].AtOnce != "" || m.steps[at].Beside != ""; hops++ {
			step := m.steps[at]
			lead, ok := byID[step.AtOnce+step.Beside]
			switch {
			case !ok:
				return fmt.Errorf("%s follows %s: %w", step.ID, step.AtOnce+step.Beside, ErrUnknownStep)
			case hops > n:
				return fmt.Errorf("%s: %w", step.ID, ErrCircle)
			case step.AtOnce != "":
				offset += wholeMinutes(m.steps[lead].Length)
			default:
				offset += int(step.Offset / time.Minute)
			}
			at = lead
		}
		if _, ok := blockOf[at]; !ok {
			blockOf[at] = len(m.lengths)
			m.lengths = append(m.lengths, 0)
		}
		m.block[i], m.offset[i] = blockOf[at], offset
	}
	first := make([]int, len(m.lengths))
	for i, b := range m.block {
		first[b] = min(first[b], m.offset[i])
	}
	for i, b := range m.block {
		m.offset[i] -= first[b]
		m.lengths[b] = max(m.lengths[b], m.end(i))
	}
	return nil
}

// occupy lists what keeps what busy, block by block.
func (m *model) occupy() error {
	m.spans = make([][]span, len(m.have))
	for r := range m.have {
		if r == trays && m.have[r] < 1 {
			continue
		}
		for _, of := range m.uses(r) {
			if r == rings {
				of = whole(of)
			}
			m.spans[r] = append(m.spans[r], levels(of, r <= rings)...)
		}
		for _, u := range m.spans[r] {
			if u.amount > m.have[r] {
				return fmt.Errorf("%s: %w", m.steps[slices.Index(m.block, u.block)].ID, ErrTooLittle)
			}
		}
	}
	return nil
}

// uses are when a thing is kept busy, by block.
func (m *model) uses(thing int) [][]span {
	uses := make([][]span, len(m.lengths))
	for i, step := range m.steps {
		if amount := m.wants(step, thing); amount > 0 && step.Length > 0 {
			b := m.block[i]
			uses[b] = append(uses[b], span{b, m.offset[i], m.end(i), amount})
		}
	}
	return uses
}

// name lists the places that steps keep; there is one of each.
func (m *model) name() {
	for _, step := range m.steps {
		if step.Place != "" && !slices.Contains(m.named, step.Place) {
			m.named, m.have = append(m.named, step.Place), append(m.have, 1)
		}
	}
}

// wants is how much of a thing a step keeps busy.
func (m *model) wants(s Step, thing int) int {
	switch {
	case thing >= places && s.Place == m.named[thing-places]:
		return 1
	case thing == steamer && s.Steamer:
		return 1
	case thing == rings:
		return min(1, s.Ring)
	case thing == trays:
		return s.Tray
	case thing == hands:
		return s.Hands
	}
	return 0
}

// whole is a ring's use by one block without its pauses: its pan stays on it.
func whole(uses []span) []span {
	if len(uses) == 0 {
		return nil
	}
	all := uses[0]
	for _, u := range uses {
		all.from, all.to = min(all.from, u.from), max(all.to, u.to)
	}
	return []span{all}
}

// levels are the uses of one thing by one block, cut where they change, added up
// where they meet or, of a shared thing, the most of them.
func levels(uses []span, shared bool) []span {
	var cuts []int
	for _, u := range uses {
		cuts = append(cuts, u.from, u.to)
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	var all []span
	for i := 1; i < len(cuts); i++ {
		level := span{from: cuts[i-1], to: cuts[i]}
		for _, u := range uses {
			level.block = u.block
			switch {
			case u.from > level.from || u.to < level.to:
			case shared:
				level.amount = max(level.amount, u.amount)
			default:
				level.amount += u.amount
			}
		}
		last := len(all) - 1
		switch {
		case level.amount == 0:
		case last >= 0 && all[last].to == level.from && all[last].amount == level.amount:
			all[last].to = level.to
		default:
			all = append(all, level)
		}
	}
	return all
}
