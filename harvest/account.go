package harvest

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"
)

// Account is one or more seasons drawn up to a day: every lot with where its
// grams went.
type Account struct {
	On       time.Time // the civil day it was drawn up for
	Lots     []*Lot    // in the order they were lifted
	Lifts    []Lifted
	Warnings []Warning

	eaten  []eaten
	dishes map[int][]DishSeason // by year
}

// Lifted is a lift that counts, with the planting it came from and its lots.
type Lifted struct {
	*Lift
	From *Planting // shared, never changed
	Lots []*Lot
}

// Settle draws up the account of the entries up to the end of the civil day
// on. Later entries are not counted. Entries may come in any order.
//
// It returns strict.Errors, all of them at once, when entries contradict the
// plantings or each other. A lot that is overdrawn (two people used it at the
// same time) is a warning, and nothing is lost.
func Settle(plantings []Planting, entries []Entry, on time.Time) (*Account, error) {
	return settle(plantings, slices.Clone(entries), on, true)
}

// settle is Settle of entries that nobody else needs in their order. Where the
// lifts are not to be kept, the account has none: each is let go of once it has its
// lots, so that the lifts of a large journal and its lots are not held at once.
func settle(plantings []Planting, entries []Entry, on time.Time, keepLifts bool) (*Account, error) {
	SortEntries(entries)
	seasons := seasonsAmong(entries)
	c := correct(entries)
	standing, roots, open := c.left(entries), c.roots, c.open
	s := settling{account: &Account{On: dayOf(on)}, plantings: plantedOf(plantings), roots: roots, lots: map[string]*Lot{}, called: map[string]string{}, toCome: map[string]bool{}, drawn: map[string][]int{}}
	s.nameChains(entries)
	s.problems.join(c.problems.err())
	later := func(e Entry) bool { return dayOf(e.When()).After(s.account.On) }
	rest := standing[:0:0]
	for i, e := range standing {
		l, ok := e.(*Lift)
		switch {
		case !ok:
			rest = append(rest, e)
		case later(e):
			s.toCome[l.lotsBegin(roots[l.File])] = true
		default:
			s.lift(l, keepLifts)
		}
		standing[i] = nil
	}
	standing = rest
	for _, e := range slices.DeleteFunc(standing, later) {
		if r, ok := e.(*Reweighed); ok {
			s.reweigh(r)
		}
		_, planned := e.(*Planned)
		for _, m := range movesOf(e) {
			if year, _ := SeasonOf(m.Lot); planned && !seasons[year] {
				continue // a plan may reach into a season that is not asked about
			}
			s.move(m)
		}
	}
	if err := s.problems.err(); err != nil {
		return nil, err
	}
	s.account.Warnings = slices.DeleteFunc(append(open, s.account.Warnings...), func(w Warning) bool { return w == nil })
	s.account.dishes = dishSeasons(standing)
	s.close()
	return s.account, nil
}

// seasonsAmong are the years whose folders the entries lie in, plans apart.
func seasonsAmong(entries []Entry) map[int]bool {
	years := map[int]bool{}
	for _, e := range entries {
		if _, planned := e.(*Planned); !planned {
			years[seasonOf(e)] = true
		}
	}
	return years
}

type settling struct {
	account   *Account
	plantings planted
	roots     map[string]string
	lots      map[string]*Lot
	called    map[string]string // how a lift's lots begin -> how they do by the first of its chain
	toCome    map[string]bool   // how the lots of lifts after the day begin
	drawn     map[string][]int  // by lot as it was named: which warnings tell that it was overdrawn
	listed    map[string]string // by planting: its lots, as an error lists them; nil: nothing had to be listed yet
	problems  problems
}

func (s *settling) lift(l *Lift, keep bool) {
	p, known := s.plantings.standing(l.Planting, l.At)
	switch {
	case !known:
		s.problems.add(l.wrong("planting", fmt.Sprintf("planting %q is not in plantings.yaml", l.Planting),
			"one of "+s.plantings.names))
		return
	case p == nil:
		s.problems.add(l.wrong("at", fmt.Sprintf("%s was lifted on %s, before it was planted", l.Planting, l.At.Format(time.DateOnly)),
			"a day on or after its planted date"))
		return
	}
	lots := l.lots(p, s.roots[l.File])
	for _, lot := range lots {
		if _, taken := s.lots[lot.ID]; taken {
			s.problems.add(l.wrong("", fmt.Sprintf("two lifts make a lot called %s", lot.ID), "another name for one of the two files"))
			return
		}
		s.lots[lot.ID] = lot
	}
	s.account.Lots = append(s.account.Lots, lots...)
	if keep {
		s.account.Lifts = append(s.account.Lifts, Lifted{l, p, lots})
	}
}

// nameChains notes the names that the lots of a corrected lift had on a device
// that had only part of its corrections.
func (s *settling) nameChains(entries []Entry) {
	for _, e := range entries {
		if l, ok := e.(*Lift); ok && s.roots[l.File] != "" {
			s.called[l.lotsBegin("")] = l.lotsBegin(s.roots[l.File])
		}
	}
}

// lotOf is the lot of that ID. Without one it notes the fault at the entry,
// unless the lot's lift is only to come.
func (s *settling) lotOf(id string, e Entry) (*Lot, bool) {
	lot, ok := s.lots[id]
	begins, grade := path.Split(id)
	if !ok {
		lot, ok = s.lots[s.called[begins]+grade]
	}
	if !ok && !s.toCome[begins] && !s.toCome[s.called[begins]] { // else it is counted once its lift is
		s.problems.add(e.Head().wrong("lot", fmt.Sprintf("there is no lot %s on %s", id, e.When().Format(time.DateOnly)), s.lotsOf(id)))
	}
	return lot, ok
}

// reweigh brings a lot to what the scale said. What was overdrawn before is
// settled by it.
func (s *settling) reweigh(r *Reweighed) {
	lot, ok := s.lotOf(r.Lot, r)
	if !ok {
		return
	}
	r.apply(lot)
	for _, i := range s.drawn[r.Lot] {
		s.account.Warnings[i] = nil
	}
	delete(s.drawn, r.Lot)
}

func (s *settling) move(m *Move) {
	lot, ok := s.lotOf(m.Lot, m)
	switch {
	case !ok:
		return
	case m.To == KindUse && !lot.Condition.Edible():
		s.problems.add(m.wrong("lot", fmt.Sprintf("%s is %s: it never goes to the kitchen", m.Lot, lot.Condition), "kind: compost, or void the entry"))
		return
	}
	if dayOf(m.At).Before(dayOf(lot.Lifted)) {
		s.account.Warnings = append(s.account.Warnings, Unlifted{m.File, lot.ID, m.At, lot.Lifted})
	}
	before := lot.Went.OnHand.Add(lot.Went.Stored)
	g := grams(m.Weight)
	lot.Went.take(m.To, g)
	if m.Where != "" && m.To == KindStore {
		lies := lot.Lies()
		lies.Where, lies.Air = m.Where, m.Air
		lot.move(lies)
	}
	if m.To == KindUse {
		s.account.eaten = append(s.account.eaten, eaten{lot, m.Dish, dayOf(m.At), g})
	}
	if g.Cmp(before) > 0 {
		s.drawn[m.Lot] = append(s.drawn[m.Lot], len(s.account.Warnings))
		s.account.Warnings = append(s.account.Warnings, Overdrawn{m.File, m.Lot, g, decimal.Max(before, decimal.Zero)})
	}
}

// lotsOf lists the lots a mistaken lot name may have meant. It is asked once all
// lifts have their lots.
func (s *settling) lotsOf(id string) string {
	if s.listed == nil {
		s.listed = listLots(s.account.Lots)
	}
	planting, _, _ := strings.Cut(id, "/")
	if same, ok := s.listed[planting]; ok {
		return same
	}
	return s.listed[""]
}

// listLots lists lots by planting; under no planting, all of them.
func listLots(lots []*Lot) map[string]string {
	ids := map[string][]string{"": nil}
	for _, l := range lots {
		ids[""] = append(ids[""], l.ID)
		ids[l.Planting.ID] = append(ids[l.Planting.ID], l.ID)
	}
	listed := map[string]string{}
	for planting, same := range ids {
		listed[planting] = "one of " + orNone(same)
	}
	return listed
}

const mostListed = 12

func orNone(names []string) string {
	switch {
	case len(names) == 0:
		return "(none yet)"
	case len(names) > mostListed:
		return fmt.Sprintf("%s and %d more", strings.Join(names[:mostListed], ", "), len(names)-mostListed)
	}
	return strings.Join(names, ", ")
}

// close works out what is on hand and how long it keeps.
func (s *settling) close() {
	var f figures
	for _, l := range s.account.Lots {
		l.close(s.account.On, &f)
	}
	s.account.hurry()
	nameLots(s.account.Lots)
	slices.SortStableFunc(s.account.Lots, func(a, b *Lot) int {
		return cmp.Or(a.Lifted.Compare(b.Lifted), cmp.Compare(a.Planting.ID, b.Planting.ID))
	})
}

// CheckClock returns strict.Errors naming every entry dated after the day of
// now: without a day asked for, such an entry means a wrong date or a wrong
// clock.
func CheckClock(entries []Entry, now time.Time) error {
	var p problems
	for _, e := range entries {
		if day := e.When(); dayOf(day).After(dayOf(now)) {
			p.add(e.Head().wrong("at", fmt.Sprintf("%s is after today, %s", day.Format(time.DateOnly), now.Format(time.DateOnly)),
				fmt.Sprintf("the true date, or ask for that day with --on %s", day.Format(time.DateOnly))))
		}
	}
	return p.err()
}
