package harvest

import (
	"context"
	"fmt"
	"path"
	"slices"
	"strconv"
	"time"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// LoggedLift is a lift as it stands in the journal.
type LoggedLift struct {
	Lifted
	Warnings []Warning
}

// Lift checks a weighed lift against the plantings, the clock and what it
// corrects, and writes it. A lift without a time is of now, or of the moment of
// the lift it replaces.
//
// A time after the clock is refused, except where the planting itself was
// planted after it: then the clock is plainly not the plot's. Its errors are
// [units.FieldError] of planting, at, replaces, weighing, grade, mothers or
// soil; [strict.Errors] where what was used of the corrected lift would lose
// its lot; and those of the journal.
func (l *Ledger) Lift(ctx context.Context, lift *Lift, clock time.Time) (LoggedLift, error) {
	if err := lift.Check(); err != nil {
		return LoggedLift{}, err
	}
	original, season, err := l.original(ctx, lift)
	if err != nil {
		return LoggedLift{}, err
	}
	date(lift, original, clock)
	p, warnings, err := l.standing(lift, clock)
	if err != nil {
		return LoggedLift{}, err
	}
	root := ""
	if original != nil {
		if root, err = l.inPlaceOf(original, season, lift); err != nil {
			return LoggedLift{}, err
		}
	}
	asked, err := l.ask(l.beside(ctx, lift, p, original, root))
	if err != nil {
		return LoggedLift{}, err
	}
	if err := l.Write(lift); err != nil {
		return LoggedLift{}, err
	}
	lots := lift.Lots(p, root)
	for _, lot := range lots {
		lot.Name = lot.ShortName()
	}
	return LoggedLift{Lifted{lift, &p, lots}, slices.Concat(warnings, asked)}, nil
}

// beside looks at what a lift stands beside in its season and the one before:
// it gives its lots a word of their own where others have their names, and
// returns what there is to ask. A season that cannot be read keeps no weight
// out; nothing is then asked, and the word is the day.
func (l *Ledger) beside(ctx context.Context, lift *Lift, p Planting, original Entry, root string) []Doubt {
	file := lift.File
	lift.File = Beside(notWrittenIn(lift.At), notWrittenYet)
	defer func() { lift.File = file }()
	lots := lift.Lots(p, root)
	account, err := l.accountWithout(ctx, lift.At, original)
	if err != nil {
		lift.Called = dayWord(lift.At)
		return nil
	}
	if before, ok := original.(*Lift); ok {
		lift.Called = before.Called
	}
	lift.Called = distinct(lots, lift.Called, lift.At, account.Lots)
	var others []*Lift
	for _, other := range account.Lifts {
		others = append(others, other.Lift)
	}
	return lift.doubts(p, others)
}

// notWrittenIn is a path in the season of a moment.
func notWrittenIn(at time.Time) string { return fmt.Sprintf("journal/%d/x.yaml", at.Year()) }

// date gives an entry without a time that of the entry it replaces, else now,
// in whole seconds.
func date(e, original Entry, clock time.Time) {
	head := e.Head()
	switch {
	case !head.At.IsZero():
	case original != nil:
		head.At = original.When().In(clock.Location())
	default:
		head.At = clock.Truncate(time.Second)
	}
}

// standing finds the planting a lift is of.
func (l *Ledger) standing(lift *Lift, clock time.Time) (Planting, []Warning, error) {
	id, err := FindPlanting(l.Plantings, lift.Planting)
	if err != nil {
		return Planting{}, nil, err
	}
	lift.Planting = id
	p, _ := Standing(l.Plantings, lift.Planting, lift.At)
	if p == nil {
		return Planting{}, nil, units.WrongField("at", lift.At.Format(time.DateOnly), "before "+lift.Planting+" was planted",
			"when it was lifted, as 2031-07-12T16:40, or mend the planted date in plantings.yaml")
	}
	err = notYet("at", lift.At, clock, "the moment it was lifted")
	if err != nil && p.Planted.After(clock) {
		return *p, []Warning{ClockBehind{clock, p.ID + " was planted"}}, nil
	}
	return *p, nil, err
}

// notWrittenYet names an entry that is tried among those of its season.
const notWrittenYet = "not-yet-written"

// inPlaceOf makes sure that correcting a lift leaves no use of it without its
// lot, and returns the file after which the lots are named.
func (l *Ledger) inPlaceOf(original Entry, season []Entry, lift *Lift) (root string, err error) {
	if original.When().Year() != lift.At.Year() {
		return "", units.WrongField("at", lift.At.Format(time.DateOnly), "in another season than "+original.Head().File,
			"a time of the same year, or void that entry and log the lift anew")
	}
	lift.File = Beside(original.Head().File, notWrittenYet)
	defer func() { lift.File = "" }()
	with := append(slices.Clone(season), lift)
	if err := l.breaks(season, lift, lift.At); err != nil {
		return "", err
	}
	_, roots, err := Correct(with)
	return roots[lift.File], err
}

// LoggedMove is a move as it stands in the journal, with the lot as it was
// before and what is left of it.
type LoggedMove struct {
	*Move
	From     *Lot
	Grams    decimal.Decimal
	Left     decimal.Decimal // g
	Warnings []Warning
}

// Move checks what is to leave a lot against all that has left it, and writes
// it. The lot goes by a name as [StockList.Find] reads one; a move without a
// weight takes all there is, and one without a time is of now, or of the moment
// of the move it replaces.
//
// Its errors are [units.FieldError] of lot, weight, at or replaces, and those
// of Account.
func (l *Ledger) Move(ctx context.Context, m *Move, lot string, clock time.Time) (LoggedMove, error) {
	original, _, err := l.original(ctx, m)
	if err != nil {
		return LoggedMove{}, err
	}
	date(m, original, clock)
	account, err := l.accountWithout(ctx, m.At, original)
	if err != nil {
		return LoggedMove{}, err
	}
	stock := account.Stock()
	from, err := stock.Find(lot)
	if err != nil {
		return LoggedMove{}, err
	}
	warnings, err := m.checkMoment(from, clock)
	if err != nil {
		return LoggedMove{}, err
	}
	if original != nil && from.Lifted.Year() != seasonOf(original) {
		return LoggedMove{}, units.WrongField("replaces", m.Replaces, "of another season's lot", "void it and log the new one by itself")
	}
	if err := m.draw(from); err != nil {
		return LoggedMove{}, err
	}
	asked, err := l.ask(append(doubtName(lot, from, stock), m.doubtMoment(from)...))
	if err != nil {
		return LoggedMove{}, err
	}
	if err := l.Write(m); err != nil {
		return LoggedMove{}, err
	}
	took := grams(m.Weight)
	return LoggedMove{m, from, took, from.Weight.Sub(took), slices.Concat(l.Warnings, warnings, asked)}, nil
}

// accountWithout is what an entry of a moment stands beside: the lots of its
// year and the year before with everything that ever left them, but without the
// entry it corrects.
func (l *Ledger) accountWithout(ctx context.Context, at time.Time, original Entry) (*Account, error) {
	if err := l.readSeasons(ctx, at.Year()-1, at.Year()); err != nil {
		return nil, err
	}
	without := *l
	without.On = lastOf(l.Entries, at)
	without.Entries = slices.Clone(l.Entries)
	if original != nil {
		without.Entries = append(without.Entries, voiding(original, at, ""))
	}
	account, err := without.Account()
	l.Warnings = without.Warnings
	return account, err
}

// doubtMoment asks about grams that leave a lot before it was lifted.
func (m *Move) doubtMoment(from *Lot) []Doubt {
	if !from.isStillToCome(m.At) {
		return nil
	}
	return []Doubt{Unlifted{"", from.Name, m.At, from.Lifted}}
}

// isStillToCome tells a moment before the lot was lifted.
func (l *Lot) isStillToCome(at time.Time) bool { return isBefore(at, l.Lifted) }

// isBefore tells a moment before another; where one of the two stands for its day,
// only another day is before it.
func isBefore(at, other time.Time) bool {
	sameDay := dayOf(at).Equal(dayOf(other))
	return at.Before(other) && !(sameDay && (isNoon(at) || isNoon(other)))
}

// isNoon tells a moment that stands for its day: see [units.Clock.MomentOrDay].
func isNoon(at time.Time) bool { return at.Hour() == 12 && at.Minute() == 0 && at.Second() == 0 }

// checkMoment keeps a move before the clock and out of the years before the
// lift. Where the lot was lifted after the
// clock, the clock is plainly not the plot's.
func (m *Move) checkMoment(from *Lot, clock time.Time) ([]Warning, error) {
	if m.At.Year() < from.Lifted.Year() {
		lifted := from.Lifted.Format(time.DateOnly)
		return nil, units.WrongField("at", m.At.Format(time.DateOnly), "before "+from.Name+" was lifted, on "+lifted,
			"a time after that, as "+lifted+"T18:00")
	}
	err := notYet("at", m.At, clock, "when it left the plot")
	if err != nil && from.Lifted.After(clock) {
		return []Warning{ClockBehind{clock, from.Name + " was lifted"}}, nil
	}
	return nil, err
}

// draw settles which lot the move is of, and how much leaves it: the weight
// given, or all there is.
func (m *Move) draw(from *Lot) error {
	m.Lot = from.ID
	if !m.Weight.IsValid() {
		m.Weight = units.New(from.Weight, units.Gram)
	}
	g, ok := Grams(m.Weight)
	switch {
	case m.To == KindUse && !from.Condition.Edible():
		return units.WrongField("lot", from.Name, string(from.Condition)+": it never goes to the kitchen", "another lot; this one is for the compost only")
	case !ok || g.Sign() <= 0:
		return units.WrongField("weight", m.Weight.String(), "no weight to take", "what leaves "+from.Name+", such as 800 g")
	case g.Cmp(from.Weight) > 0:
		return units.WrongField("weight", m.Weight.String(), fmt.Sprintf("more than the %s g there is of %s", from.Weight, from.Name),
			"a smaller one, or leave it out to take all there is")
	}
	return nil
}

// seasonOf is the year of the folder an entry lies in.
func seasonOf(e Entry) int {
	year, _ := strconv.Atoi(path.Base(path.Dir(e.Head().File)))
	return year
}

// Write files an entry that rests on no other: a tasting note, or a batch event
// that [Ledger.Fits].
func (l *Ledger) Write(e Entry) error {
	l.Author.Sign(e.Head())
	l.Author.Now = l.Author.Now.Add(time.Millisecond) // what is written in one go keeps its order
	if _, err := l.journal.Write(e); err != nil {
		return err
	}
	if l.read[seasonOf(e)] {
		l.Entries = append(l.Entries, e)
	}
	return nil
}
