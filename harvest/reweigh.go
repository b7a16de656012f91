package harvest

import (
	"context"
	"fmt"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// Reweighed is a lot put on the scale again: what is there now, and what had to
// be thrown out. What the account had beyond that has dried away.
type Reweighed struct {
	Header
	Lot    string
	Weight units.Quantity // what is there and fit
	Rotten units.Quantity // thrown out as it was weighed
	Where  string         // where it lies; "" as before
	Air    units.Quantity // how warm it is there; none: nobody said
}

// Kind is "reweighed".
func (*Reweighed) Kind() string { return KindReweighed }

// apply brings a lot to what the scale says. Where there is more than the
// account had, an earlier weight was wrong: what dried away is then below
// nothing, so that every gram still adds up.
func (r *Reweighed) apply(lot *Lot) {
	now, rotten := grams(r.Weight), grams(r.Rotten)
	w := &lot.Went
	w.Dried = w.Dried.Add(w.OnHand.Add(w.Stored).Sub(now).Sub(rotten))
	w.Compost = w.Compost.Add(rotten)
	if w.Stored.Sign() > 0 {
		w.Stored, w.OnHand = now, decimal.Zero
	} else {
		w.OnHand = now
	}
	lies := lot.Lies()
	lies.Looked, lies.Rot = r.At, rotten.Sign() > 0
	if r.Where != "" {
		lies.Where, lies.Air = r.Where, units.Quantity{}
	}
	if r.Air.IsValid() {
		lies.Air = r.Air
	}
	lot.move(lies)
}

// LoggedReweighed is a second weighing as it stands in the journal.
type LoggedReweighed struct {
	*Reweighed
	Of       *Lot            // as it is after it
	Had      decimal.Decimal // g that the account had
	Rot      decimal.Decimal // g thrown out
	Dried    decimal.Decimal // g that dried away since it was last weighed; below 0: an earlier weight was wrong
	Usual    decimal.Decimal // g that figures say dries away in that time; 0: nothing is published
	Warnings []Warning
}

// MoreThanHad is a lot that weighs more than the account has of it.
type MoreThanHad struct {
	Lot      string
	Now, Had decimal.Decimal // g
}

// Shrunk is a lot that lost more than drying away explains.
type Shrunk struct {
	Lot              string
	Gone, Had, Usual decimal.Decimal // g
}

func (MoreThanHad) warning() {}
func (Shrunk) warning()      {}
func (MoreThanHad) doubt()   {}
func (Shrunk) doubt()        {}

// String gives both weights.
func (d MoreThanHad) String() string {
	return fmt.Sprintf("%s of %s, with what was thrown out? The journal has only %s: is the tare still in it, or was a use logged that was none?", weightWords(d.Now), d.Lot, weightWords(d.Had))
}

// String says what to log first.
func (d Shrunk) String() string {
	return fmt.Sprintf("%s of %s dried away from %s? What was eaten, given or thrown out is logged first", weightWords(d.Gone), weightWords(d.Had), d.Lot)
}

// mostDried is the share of a lot that may dry away before it is asked about,
// where figures do not say more: a rule chosen, no source.
var mostDried = decimal.RequireFromString("0.25")

// Reweigh checks a lot's second weighing and writes it. The lot goes by a name
// as [StockList.Find] reads one. Its errors are [units.FieldError] of lot,
// weight, rotten, at or replaces, and [Unsure].
func (l *Ledger) Reweigh(ctx context.Context, r *Reweighed, lot string, clock time.Time) (LoggedReweighed, error) {
	original, _, err := l.original(ctx, r)
	if err != nil {
		return LoggedReweighed{}, err
	}
	date(r, original, clock)
	account, err := l.accountWithout(ctx, r.At, original)
	if err != nil {
		return LoggedReweighed{}, err
	}
	of, err := account.Stock().Find(lot)
	if err != nil {
		return LoggedReweighed{}, err
	}
	if err := r.check(of, clock); err != nil {
		return LoggedReweighed{}, err
	}
	r.Lot = of.ID
	logged := LoggedReweighed{Reweighed: r, Of: of, Had: of.Weight, Rot: grams(r.Rotten)}
	logged.Dried = of.Weight.Sub(grams(r.Weight)).Sub(logged.Rot)
	logged.Usual = of.usuallyDried(r.At)
	asked, err := l.ask(slices.Concat(doubtName(lot, of, account.Stock()), logged.doubts()))
	if err != nil {
		return LoggedReweighed{}, err
	}
	if err := l.Write(r); err != nil {
		return LoggedReweighed{}, err
	}
	r.apply(of)
	of.close(r.At, &figures{})
	logged.Warnings = slices.Concat(l.Warnings, asked)
	return logged, nil
}

func (r *Reweighed) check(of *Lot, clock time.Time) error {
	if !r.Weight.IsValid() {
		return units.WrongField("weight", "", "missing", "what is there of "+of.Name+" now, such as 4.2 kg")
	}
	for _, each := range []struct {
		field string
		q     units.Quantity
	}{{"weight", r.Weight}, {"rotten", r.Rotten}} {
		if g, ok := Grams(each.q); !ok || g.Sign() < 0 {
			return units.WrongField(each.field, each.q.String(), "not one weight", "one weight in kg, g, lb or oz")
		}
	}
	if of.isStillToCome(r.At) {
		return units.WrongField("at", r.At.Format(time.DateOnly), "before "+of.Name+" was lifted", "a time after that")
	}
	return notYet("at", r.At, clock, "when it was weighed again")
}

// usuallyDried is what figures say has dried away of a lot since somebody last
// weighed it, in grams.
func (l *Lot) usuallyDried(at time.Time) decimal.Decimal {
	row, ok := StoreLoss(l.Crop, l.Lies().Place)
	if !ok {
		return decimal.Zero
	}
	before := 1 - row.Dried(l.storedDays(l.lastWeighed()))
	share := 1 - (1-row.Dried(l.storedDays(at)))/before
	return l.Weight.Mul(decimal.NewFromFloat(max(0, share))).Round(0)
}

func (r LoggedReweighed) doubts() []Doubt {
	most := decimal.Max(r.Had.Mul(mostDried), r.Usual.Mul(decimal.NewFromInt(beyond)))
	switch {
	case r.Dried.Sign() < 0:
		return []Doubt{MoreThanHad{r.Of.Name, grams(r.Weight).Add(r.Rot), r.Had}}
	case r.Dried.GreaterThan(most):
		return []Doubt{Shrunk{r.Of.Name, r.Dried, r.Had, r.Usual}}
	}
	return nil
}

// Reasons says what a second weighing rests on.
func (r LoggedReweighed) Reasons() []units.Reason {
	list := []units.Reason{
		units.Why("dried away", r.Dried.String()+" g", "what the journal had, less what is there and what was thrown out", "computed"),
		WhenReason(r.At),
	}
	if r.Of.Loss() != nil {
		list = append(list, r.Of.lossReason())
	}
	return append(list, r.Of.reasons()...)
}

// lossReason says what the expected loss rests on.
func (l *Lot) lossReason() units.Reason {
	loss := l.Loss()
	return units.Reason{Figure: l.Crop + ", " + string(l.Lies().Place) + ": still fit after 1, 3 and 6 months",
		Value: fmt.Sprintf("%.0f, %.0f and %.0f %%", 100*loss.Fit(30), 100*loss.Fit(91), 100*loss.Fit(183)), Provenance: loss.Provenance}
}
