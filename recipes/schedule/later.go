package schedule

import (
	"slices"
	"time"
)

// Progress is how far a timetable has been worked through.
type Progress struct {
	// Began are the steps that are under way or over, by ID: they keep their
	// moment.
	Began map[string]bool
	// Ended is when a step was over, where that is known.
	Ended map[string]time.Time
	// Longer is by how much a step takes more time than planned.
	Longer map[string]time.Duration
}

// Later puts off what has not begun, by so much, and by more where it waits for
// what is over later than planned or where what it wants is in use. The order of
// the steps stays. What follows another at once still does, unless that one is
// over already: then it is due from that moment. No step begins sooner than
// planned but such a one. Steps are in the order of their starts, and stay so.
func Later(steps []Timed, have Have, p Progress, by time.Duration) []Timed {
	l := &later{all: slices.Clone(steps), have: have, progress: p, by: by, at: map[string]int{},
		root: make([]int, len(steps)), placed: make([]bool, len(steps)), begun: make([]bool, len(steps))}
	for i := range l.all {
		step := &l.all[i]
		step.Length += p.Longer[step.ID]
		if end, over := p.Ended[step.ID]; over {
			step.Length = max(0, end.Sub(step.At))
		}
		l.at[step.ID], l.placed[i] = i, p.Began[step.ID]
	}
	for i := range l.all {
		l.root[i] = l.rootOf(i)
	}
	for i, step := range l.all {
		if _, over := p.Ended[step.AtOnce]; over {
			l.place(i) // it is due, whatever else is
		}
	}
	for i := range l.all {
		l.place(i)
	}
	slices.SortStableFunc(l.all, func(a, b Timed) int { return a.At.Compare(b.At) })
	return l.all
}

// later is a timetable in which some steps have their new places.
type later struct {
	all      []Timed
	have     Have
	progress Progress
	by       time.Duration
	at       map[string]int // by ID
	root     []int          // the step that a chain of tied steps begins with
	placed   []bool
	begun    []bool // its place is being looked for
}

// tiedTo are the steps without a place that are tied in time to one, itself
// among them, in their order: with no step that has its place between them.
func (l *later) tiedTo(first int) []int {
	group := []int{first}
	for n := 0; n < len(group); n++ {
		of := l.all[group[n]]
		for i, step := range l.all {
			if l.placed[i] || l.root[i] != l.root[first] || slices.Contains(group, i) {
				continue
			}
			if step.AtOnce == of.ID || step.Beside == of.ID || of.AtOnce == step.ID || of.Beside == step.ID {
				group = append(group, i)
			}
		}
	}
	slices.Sort(group)
	return group
}

// place gives a step its place, with all that is tied to it, once what they wait
// for has one.
func (l *later) place(first int) {
	if l.placed[first] || l.begun[first] {
		return
	}
	group := l.tiedTo(first)
	for _, i := range group {
		l.begun[i] = true
	}
	for _, i := range group {
		for _, id := range append(slices.Clone(l.all[i].After), l.all[i].AtOnce, l.all[i].Beside) {
			if before := l.index(id); before >= 0 {
				l.place(before)
			}
		}
	}
	l.move(group)
	for _, i := range group {
		l.placed[i] = true
	}
}

// move moves a group of steps, together, to the first moment that none of them
// is too soon at and nothing it wants is in use. What follows at once on a step
// that is over does not wait for hands: whoever said so has them there.
func (l *later) move(group []int) {
	put := l.by
	due, known := l.due(group)
	if known {
		put = due
	} else if l.followsPlaced(group) {
		put = 0 // what it follows goes on as it was
	}
	for _, i := range group {
		if ready := l.earliest(i); !ready.IsZero() && ready.Sub(l.all[i].At) > put {
			put, known = ready.Sub(l.all[i].At), false
		}
	}
	l.putOff(group, put)
	for n := 0; n < longestWait && !known && l.taken(group); n++ {
		l.putOff(group, time.Minute)
	}
}

func (l *later) putOff(group []int, by time.Duration) {
	for _, i := range group {
		l.all[i].At = l.all[i].At.Add(by)
	}
}

// longestWait bounds the minutes that a group waits for what it wants.
const longestWait = 24 * 60

// followsPlaced tells that a group hangs on a step that has its place.
func (l *later) followsPlaced(group []int) bool {
	return slices.ContainsFunc(group, func(i int) bool {
		once, beside := l.index(l.all[i].AtOnce), l.index(l.all[i].Beside)
		return once >= 0 && l.placed[once] || beside >= 0 && l.placed[beside]
	})
}

// due is by how much a group moves because the step it follows at once is over.
func (l *later) due(group []int) (put time.Duration, known bool) {
	for _, i := range group {
		if end, over := l.progress.Ended[l.all[i].AtOnce]; over && l.all[i].AtOnce != "" {
			return end.Sub(l.all[i].At), true
		}
	}
	return 0, false
}

// earliest is when all that a step waits for outside its group has ended; zero
// where it waits for nothing that has its place.
func (l *later) earliest(i int) (ready time.Time) {
	step := l.all[i]
	wait := func(at time.Time) {
		if at.After(ready) {
			ready = at
		}
	}
	for _, id := range append(slices.Clone(step.After), step.AtOnce) {
		if j := l.index(id); j >= 0 && l.placed[j] {
			wait(l.all[j].End())
		}
	}
	if j := l.index(step.Beside); j >= 0 && l.placed[j] {
		wait(l.all[j].At.Add(step.Offset))
	}
	return ready
}

// taken tells that a step of a group wants what another step keeps busy then.
func (l *later) taken(group []int) bool {
	return slices.ContainsFunc(group, l.isTaken)
}

func (l *later) isTaken(i int) bool {
	step := l.all[i]
	hands, trays := step.Hands, step.Tray
	for j, other := range l.all {
		if !l.placed[j] || !overlap(step, other) {
			continue // those of the group keep their distance, wherever it goes
		}
		hands += other.Hands
		trays += other.Tray
		if l.root[i] != l.root[j] && shareAThing(step, other) { // tied steps share theirs
			return true
		}
	}
	tooManyHands := step.Hands > 0 && hands > max(l.have.Hands, step.Hands)
	return tooManyHands || step.Tray > 0 && l.have.Trays > 0 && trays > max(l.have.Trays, step.Tray)
}

// shareAThing tells that two steps want the same steamer, ring or place.
func shareAThing(a, b Timed) bool {
	return a.Steamer && b.Steamer || a.Ring > 0 && a.Ring == b.Ring || a.Place != "" && a.Place == b.Place
}

// rootOf is the step that a chain of tied steps begins with.
func (l *later) rootOf(i int) int {
	for range l.all {
		next := l.index(l.all[i].AtOnce)
		if next < 0 {
			next = l.index(l.all[i].Beside)
		}
		if next < 0 {
			return i
		}
		i = next
	}
	return i
}

// index is where a step stands; -1 where there is none of that ID.
func (l *later) index(id string) int {
	if i, ok := l.at[id]; ok {
		return i
	}
	return -1
}

func overlap(a, b Timed) bool { return a.At.Before(b.End()) && b.At.Before(a.End()) }
