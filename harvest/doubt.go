package harvest

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// Doubt is something about a new entry that is hardly meant, though it could
// be: what a person is asked before it is written. A program goes by its type;
// String is the question.
type Doubt interface {
	Warning
	doubt()
}

// Unsure is the error for an entry in doubt. Nothing is written and nothing is
// changed; the same entry with [Ledger.Sure] set is written as it is.
type Unsure struct{ Doubts []Doubt }

// Error asks every question.
func (u *Unsure) Error() string {
	var asked []string
	for _, d := range u.Doubts {
		asked = append(asked, d.String())
	}
	return strings.Join(asked, "\n")
}

// Mark is a short name of just these doubts: somebody who said that they are
// none has not said so of others.
func (u *Unsure) Mark() string {
	data, _ := json.Marshal(u.Doubts) // plain values, which always marshal
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:8])
}

// Hint says what to do.
func (u *Unsure) Hint() string {
	return "nothing was written: mend it, or say that it is right as it is"
}

// Slip is the mistake that most likely made a weight implausible.
type Slip int

// The usual slips, in the order they are suspected.
const (
	SlipUnknown   Slip = iota
	SlipKilograms      // grams read as kilograms
	SlipGrams          // kilograms read as grams
	SlipPounds         // pounds read as kilograms
)

// Implausible is more, or less, than three times what gardens give.
type Implausible struct {
	Planting, Crop string
	Grams          decimal.Decimal // over the season, this entry in it
	Low, High      float64         // g that gardens give of such a planting
	Slip           Slip
}

// Untared is a bowl weighed without its tare, where others have one.
type Untared struct {
	Bowl  int // from 1
	Gross units.Quantity
}

// Again is a lift that weighs just what another of the planting weighed minutes
// before or after it.
type Again struct {
	Planting, File string
	Apart          time.Duration
}

// Overeaten is more taken of a batch than is left of it.
type Overeaten struct {
	Batch        string
	Amount, Left units.Quantity
}

// Unlifted is grams that leave a lot before it was lifted.
type Unlifted struct {
	File, Lot  string // File is "" while it is not written
	At, Lifted time.Time
}

// BeforePlan is a batch cooked before the plan that it is of was written down.
type BeforePlan struct {
	Batch, Plan string
	At, Written time.Time
}

// TwoLots is a name that lots of two lifts have a claim to.
type TwoLots struct{ Name, Taken, Other string }

func (Implausible) warning() {}
func (Untared) warning()     {}
func (Again) warning()       {}
func (Overeaten) warning()   {}
func (Unlifted) warning()    {}
func (BeforePlan) warning()  {}
func (TwoLots) warning()     {}
func (Implausible) doubt()   {}
func (Untared) doubt()       {}
func (Again) doubt()         {}
func (Overeaten) doubt()     {}
func (Unlifted) doubt()      {}
func (BeforePlan) doubt()    {}
func (TwoLots) doubt()       {}

// String asks with what is usual and the likeliest slip.
func (d Implausible) String() string {
	suspect := map[Slip]string{SlipUnknown: "is the tare still in it, or is it two plantings in one bowl", SlipKilograms: "grams for kilograms",
		SlipGrams: "kilograms for grams", SlipPounds: "pounds for kilograms"}[d.Slip]
	return fmt.Sprintf("%s from %s this season? Gardens give %s to %s of %s there: %s?", weightWords(d.Grams), d.Planting,
		weightWords(decimal.NewFromFloat(math.Round(d.Low))), weightWords(decimal.NewFromFloat(math.Round(d.High))), d.Crop, suspect)
}

// String asks for the tare.
func (d Untared) String() string {
	return fmt.Sprintf("bowl %d, %s, without a tare? The others have one (write \"%s - 0 g\" for a bag)", d.Bowl, d.Gross, d.Gross)
}

// String names the other lift.
func (d Again) String() string {
	when := "at the same minute"
	if minutes := int(d.Apart.Minutes()); minutes > 0 {
		when = fmt.Sprintf("%d min apart", minutes)
	}
	return fmt.Sprintf("the same weights from %s twice, %s? They stand in %s already", d.Planting, when, d.File)
}

// String gives both amounts.
func (d Overeaten) String() string {
	return fmt.Sprintf("%s of %s? Only %s is left of it", d.Amount, d.Batch, d.Left)
}

// String gives both moments.
func (d Unlifted) String() string {
	const form = "2006-01-02 15:04"
	if d.File != "" {
		return fmt.Sprintf("%s takes from %s on %s, before it was lifted on %s: it is counted; `trencher journal mend` dates it with the lift", d.File, d.Lot, d.At.Format(form), d.Lifted.Format(form))
	}
	return fmt.Sprintf("from %s at %s? It was lifted at %s, after that", d.Lot, d.At.Format(form), d.Lifted.Format(form))
}

// String gives both moments.
func (d BeforePlan) String() string {
	const form = "2006-01-02 15:04"
	return fmt.Sprintf("%s cooked at %s? Its plan, %s, was written down at %s, after that", d.Batch, d.At.Format(form), d.Plan, d.Written.Format(form))
}

// String names both lots.
func (d TwoLots) String() string {
	return fmt.Sprintf("%s is a name of two lots: is %s meant, or %s?", d.Name, d.Taken, d.Other)
}

// weightWords is a weight as people say it: 820 g, 14.29 kg.
func weightWords(g decimal.Decimal) string {
	if g.LessThan(decimal.NewFromInt(1000)) {
		return g.String() + " g"
	}
	return g.Shift(-3).String() + " kg"
}

// beyond is how far from what gardens give a weight is asked about: a rule
// chosen, no source.
const beyond = 3

// plausible is the grams that gardens give of a planting in a season, by its
// plants, its tub or its bed, whichever allows most; ok is false where nothing
// tells.
func (p Planting) plausible() (low, high float64, ok bool) {
	row, known := LookupCrop(p.Crop)
	if !known {
		return 0, 0, false
	}
	for _, measure := range []struct {
		per  string
		many float64
	}{{PerPlant, float64(p.SeedCount)}, {PerLitre, many(p.Tub, units.Litre)}, {PerM2, many(p.Bed, units.SquareMetre)}} {
		usual, told := row.usual(p.Class, measure.per)
		if !told || measure.many <= 0 {
			continue
		}
		least, most := float64(usual.Grams.Low)*measure.many, float64(usual.Grams.High)*measure.many
		if !ok || least < low {
			low = least
		}
		high, ok = max(high, most), true
	}
	return low, high, ok
}

func many(q units.Quantity, u units.Unit) float64 {
	amount, _ := amountIn(q, u)
	return amount.InexactFloat64()
}

// doubtYield asks about a season's sum of a planting that no garden gives. Too
// little is asked about only where the grower says that nothing is left.
func doubtYield(p Planting, sum decimal.Decimal, finished bool) []Doubt {
	low, high, ok := p.plausible()
	g := sum.InexactFloat64()
	if !ok || g <= beyond*high && (g >= low/beyond || !finished) {
		return nil
	}
	return []Doubt{Implausible{p.ID, p.Crop, sum, low, high, slipOf(g, low, high)}}
}

// slipOf is the slip that would put a weight where gardens have it.
func slipOf(g, low, high float64) Slip {
	const pound = 2.2046
	fits := func(g float64) bool { return low/beyond <= g && g <= high*beyond }
	switch {
	case fits(g / 1000):
		return SlipKilograms
	case fits(g * 1000):
		return SlipGrams
	case g > high && fits(g/pound):
		return SlipPounds
	}
	return SlipUnknown
}

// tared is after how many bowls, all with a tare, one without is asked about.
const tared = 3

// doubtTares asks about bowls without a tare among others with one: of this
// lift, or of the season where all had one.
func (l *Lift) doubtTares(others []*Lift) (doubts []Doubt) {
	with, without := 0, 0
	count := func(lift *Lift) {
		for _, w := range lift.Weighings {
			if w.Tare.IsValid() {
				with++
			} else {
				without++
			}
		}
	}
	count(l)
	usual := with > 0
	if !usual {
		with, without = 0, 0
		for _, other := range others {
			count(other)
		}
		usual = with >= tared && without == 0
	}
	for i, w := range l.Weighings {
		if usual && !w.Tare.IsValid() {
			doubts = append(doubts, Untared{i + 1, w.Gross})
		}
	}
	return doubts
}

// withinMinutes is how close two lifts of the same weights are asked about.
const withinMinutes = 10 * time.Minute

// doubtAgain asks about a lift that stands in the journal already.
func (l *Lift) doubtAgain(others []*Lift) []Doubt {
	for _, other := range others {
		apart := l.At.Sub(other.At).Abs()
		if other.Planting == l.Planting && apart <= withinMinutes && slices.EqualFunc(l.Weighings, other.Weighings, Weighing.same) {
			return []Doubt{Again{l.Planting, other.File, apart}}
		}
	}
	return nil
}

// same tells whether two bowls weigh the same, full and empty.
func (w Weighing) same(o Weighing) bool {
	return grams(w.Gross).Equal(grams(o.Gross)) && grams(w.Tare).Equal(grams(o.Tare))
}

// doubts is what to ask about a lift of a planting, beside the lifts that count
// and are not replaced by it.
func (l *Lift) doubts(p Planting, others []*Lift) []Doubt {
	sum := l.Net()
	for _, other := range others {
		if other.Planting == p.ID && other.At.Year() == l.At.Year() && !dayOf(other.At).Before(dayOf(p.Planted)) {
			sum = sum.Add(other.Net())
		}
	}
	doubts := doubtYield(p, sum, l.Left == LeftNone)
	doubts = append(doubts, l.doubtTares(others)...)
	return append(doubts, l.doubtAgain(others)...)
}

// ask stops an entry that is in doubt, unless it was said to be right; then the
// doubts are only told.
func (l *Ledger) ask(doubts []Doubt) ([]Warning, error) {
	if len(doubts) > 0 && !l.Sure {
		return nil, &Unsure{doubts}
	}
	var told []Warning
	for _, d := range doubts {
		told = append(told, d)
	}
	return told, nil
}
