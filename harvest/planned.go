package harvest

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/base32"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/units"
	"trencher/units/strict"
)

// Planned is the plan of a meal, recorded as carried out: all that its dishes
// take out of the lots, in one entry, so that one void takes it back. It is
// filed under the season of the latest lot it takes from.
type Planned struct {
	Header
	ID    string // short; two plans of one stock differ in it if they differ in what they take or make
	Stock string // the fingerprint of the stock it was made from, as [StockList.Fingerprint]
	Makes []Making
	Uses  []Use
	Spots []Spot  // where each of Uses stands in its file; none while it is in none
	Asked []Asked // what was asked for, so that its timetable can be made again
}

// Asked is one field of a question, as it was typed.
type Asked struct{ Field, Says string }

// Making is a dish that a plan makes.
type Making struct {
	Dish     string
	Portions int // whole ones
}

// Use is what one dish of a plan takes of one lot, as lifted.
type Use struct {
	Lot    string // its ID
	Weight units.Quantity
	Dish   string
}

// Kind is "plan".
func (*Planned) Kind() string { return KindPlan }

// NewPlanned is the entry of a plan for a day, made from a stock, with its ID.
func NewPlanned(day time.Time, stock StockList, makes []Making, uses []Use) *Planned {
	p := &Planned{Stock: stock.Fingerprint(), Makes: makes, Uses: uses}
	var text strings.Builder
	fmt.Fprintln(&text, day.Format(time.DateOnly), p.Stock)
	for _, m := range makes {
		fmt.Fprintf(&text, "%q %d\n", m.Dish, m.Portions)
	}
	for _, u := range uses {
		fmt.Fprintf(&text, "%q %q %s\n", u.Lot, u.Dish, grams(u.Weight))
	}
	p.ID = shortMark(text.String(), idLetters)
	return p
}

// Letters of a plan's ID and of a stock's fingerprint. Five tell the plans of
// many years apart, and can be typed.
const (
	idLetters          = 5
	fingerprintLetters = 10
)

// Fingerprint is a short text that is the same for the same lots with the same
// weights, in whatever order they stand.
func (s StockList) Fingerprint() string {
	var lines []string
	for _, l := range s.Lots {
		lines = append(lines, l.ID+" "+l.Weight.String())
	}
	slices.Sort(lines)
	return shortMark(strings.Join(lines, "\n"), fingerprintLetters)
}

func shortMark(text string, letters int) string {
	sum := sha256.Sum256([]byte(text))
	return strings.ToLower(base32.StdEncoding.EncodeToString(sum[:])[:letters])
}

// Season is the year a plan is filed under: that of the latest lot it takes
// from; its own where it takes from none.
func (p *Planned) Season() int {
	season := 0
	for _, u := range p.Uses {
		if year, ok := SeasonOf(u.Lot); ok {
			season = max(season, year)
		}
	}
	if season == 0 {
		return p.At.Year()
	}
	return season
}

// move is a use of the plan as a move of its own, with its place in the file.
func (p *Planned) move(i int) *Move {
	u := p.Uses[i]
	m := &Move{To: KindUse, Lot: u.Lot, Weight: u.Weight, Dish: u.Dish}
	m.Header = Header{At: p.At, File: p.File}
	if i < len(p.Spots) {
		m.Places = PlacesAt(KeyPlace{Spot: p.Spots[i]})
	}
	return m
}

// useAt is the use that a fault is about; -1 where it is about none.
func (p *Planned) useAt(fault *strict.Error) int {
	return slices.IndexFunc(p.Spots, func(at Spot) bool { return p.File == fault.File && at.is(fault) })
}

// without is the plan less the uses that a test picks by their number; nil where
// it picks none.
func (p *Planned) without(picked func(i int) bool) *Planned {
	kept := *p
	kept.Uses, kept.Spots = nil, nil
	for i, u := range p.Uses {
		if picked(i) {
			continue
		}
		kept.Uses = append(kept.Uses, u)
		if i < len(p.Spots) {
			kept.Spots = append(kept.Spots, p.Spots[i])
		}
	}
	if len(kept.Uses) == len(p.Uses) {
		return nil
	}
	return &kept
}

// movesOf lists what an entry takes out of lots: a move itself, the uses of a
// plan, of other entries nothing.
func movesOf(e Entry) []*Move {
	switch e := e.(type) {
	case *Move:
		return []*Move{e}
	case *Planned:
		moves := make([]*Move, len(e.Uses))
		for i := range e.Uses {
			moves[i] = e.move(i)
		}
		return moves
	}
	return nil
}

// plansReaching are the plans among the entries of a later season that stand
// and take from lots of a year, with those uses alone.
func plansReaching(later []Entry, year int) (plans []Entry) {
	standing, _, _ := Correct(later)
	for _, e := range standing {
		if p, ok := e.(*Planned); ok {
			of := p.without(func(i int) bool { y, _ := SeasonOf(p.Uses[i].Lot); return y != year })
			if of != nil && len(of.Uses) > 0 {
				plans = append(plans, of)
			}
		}
	}
	return plans
}

// Record writes a plan as carried out, dated with the moment given in it, else
// the clock's. What it was made from must still be there: another weight on
// hand, by whatever was logged since, is a [units.FieldError] of plan, and
// nothing is written. The other errors are of on, for a day to come, and those
// of the journal.
func (l *Ledger) Record(ctx context.Context, p *Planned, clock time.Time) error {
	date(p, nil, clock)
	if err := notYet("on", p.At, clock, "a day that has come: a plan for later is recorded when it is cooked"); err != nil && !l.aheadOf(clock) {
		return err
	}
	if len(p.Uses) == 0 {
		return units.WrongField("plan", p.ID, "it takes nothing out of the stock", "a plan that makes something")
	}
	all, err := l.accountWithout(ctx, p.At, nil)
	if err != nil {
		return err
	}
	then := *l
	then.On = p.At
	account, err := then.Account()
	if err != nil {
		return err
	}
	if account.Stock().Fingerprint() != p.Stock {
		return stockChanged(p.ID)
	}
	if err := p.fits(all.Stock()); err != nil {
		return err
	}
	return l.Write(p)
}

// IsStill makes sure that a plan made anew is the one that was shown, by its ID
// and the fingerprint of its stock; "" is any. Its error is a
// [units.FieldError] of plan.
func (p *Planned) IsStill(id, stock string) error {
	switch {
	case stock != "" && stock != p.Stock:
		return stockChanged(cmp.Or(id, p.ID))
	case id != "" && id != p.ID:
		return units.WrongField("plan", id, "the plan is another now: the stock, a dish or the question has changed; nothing was written", "the plan as it is now, "+p.ID)
	}
	return nil
}

func stockChanged(id string) error {
	return units.WrongField("plan", id, "the stock has changed since this plan was made; nothing was written", "the question once more, and the plan as it is then")
}

// aheadOf tells that the plot itself stands after the clock: the clock is
// plainly not the plot's.
func (l *Ledger) aheadOf(clock time.Time) bool {
	return slices.ContainsFunc(l.Plantings, func(p Planting) bool { return p.Planted.After(clock) })
}

// fits makes sure that what a plan takes is left, all told: for a day that is
// past, more may have gone since.
func (p *Planned) fits(left StockList) error {
	took := map[string]decimal.Decimal{}
	for _, u := range p.Uses {
		took[u.Lot] = took[u.Lot].Add(grams(u.Weight))
	}
	for _, l := range left.Lots {
		if took[l.ID].Cmp(l.Weight) <= 0 {
			delete(took, l.ID)
		}
	}
	for _, u := range p.Uses {
		if _, short := took[u.Lot]; short {
			return units.WrongField("on", p.At.Format(time.DateOnly), u.Lot+" was used since, and less is left than the plan takes", "a plan for today")
		}
	}
	return nil
}

// LastPlan is how the latest plan is called where its ID is asked for.
const LastPlan = "last"

// PlanCalled finds a recorded plan that stands, of this season or the last, by
// its ID or a beginning of it; "last" is the latest. Its error is a
// [units.FieldError] of as-planned.
func (l *Ledger) PlanCalled(ctx context.Context, id string, clock time.Time) (*Planned, error) {
	plans, err := l.plans(ctx, clock)
	if err != nil {
		return nil, err
	}
	if len(plans) == 0 {
		return nil, units.WrongField("as-planned", id, "no plan is recorded, this season or the last", "a plan first, recorded with share --take")
	}
	if id == LastPlan {
		return plans[len(plans)-1], nil
	}
	var ids []string
	for _, p := range plans {
		ids = append(ids, p.ID)
	}
	switch found := units.MatchNames(id, ids); len(found) {
	case 1:
		return plans[found[0]], nil
	case 0:
		return nil, units.WrongField("as-planned", id, "no plan of that id is recorded", "last, or one of "+orNone(ids))
	}
	return nil, units.WrongField("as-planned", id, "more than one plan begins so", "one of "+orNone(ids))
}

// plans are the recorded plans that stand, of the clock's season and the one
// before it or, where the clock is not the plot's, of the last two there are.
func (l *Ledger) plans(ctx context.Context, clock time.Time) (plans []*Planned, err error) {
	if err := l.readLatest(ctx, clock); err != nil {
		return nil, err
	}
	standing, _, err := Correct(l.Entries)
	if err != nil {
		return nil, err
	}
	SortEntries(standing)
	for _, e := range standing {
		if p, ok := e.(*Planned); ok {
			plans = append(plans, p)
		}
	}
	return plans, nil
}

// readLatest reads the clock's season and the one before it, and the last two
// there are.
func (l *Ledger) readLatest(ctx context.Context, clock time.Time) error {
	years, err := l.journal.Seasons()
	if err != nil {
		return err
	}
	years = slices.Concat(years[max(0, len(years)-2):], []int{clock.Year() - 1, clock.Year()})
	return l.readSeasons(ctx, years...)
}

// lessUse is a correction of the plan without the use that a fault is about;
// nil where the fault is about none, or the plan would then belong to another
// season.
func (p *Planned) lessUse(fault error) *Planned {
	var at *strict.Error
	if !errors.As(fault, &at) {
		return nil
	}
	use := p.useAt(at)
	less := p.without(func(i int) bool { return i == use })
	if less == nil || less.Season() != p.Season() {
		return nil
	}
	less.Header = Header{At: p.At, Replaces: p.File}
	return less
}
