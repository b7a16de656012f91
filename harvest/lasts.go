package harvest

import (
	"slices"
	"time"

	"github.com/shopspring/decimal"
)

// Lasts is how long what is on hand of a crop lasts a household at its own pace.
type Lasts struct {
	Crop  string
	Grams decimal.Decimal // g fit to eat on hand
	Pace  float64         // g a day to the kitchen
	Since time.Time       // the first day the pace is taken from
	Until time.Time       // the last day there is some
	Lost  decimal.Decimal // g that will be lost before they are eaten, by published figures and the crop's life; whole grams
}

// The stretch a pace is taken from: the last eight weeks, two at least, with
// uses on three days at least. Common practice, no source.
const (
	paceDays  = 56
	leastPace = 14
	leastUses = 3
	furthest  = 730 // days looked ahead
)

// eaten is grams of a lot that went to the kitchen on a day, for a dish where
// that was told.
type eaten struct {
	lot   *Lot
	dish  string
	on    time.Time
	grams decimal.Decimal
}

// paceOf is what a household takes of a crop in a day, by what it took in the
// last weeks; 0 where it took it too seldom to tell.
func (a *Account) paceOf(crop string) (gramsADay float64, since time.Time) {
	begin := a.On.AddDate(0, 0, 1-paceDays)
	sum, used := decimal.Zero, map[time.Time]bool{}
	for _, e := range a.eaten {
		if e.lot.Crop != crop || e.on.Before(begin) {
			continue
		}
		if sum.IsZero() || e.on.Before(since) {
			since = e.on
		}
		sum, used[e.on] = sum.Add(e.grams), true
	}
	days := max(leastPace, a.On.Sub(since).Hours()/24+1)
	if sum.Sign() <= 0 || len(used) < leastUses {
		return 0, time.Time{}
	}
	return sum.InexactFloat64() / days, since
}

// lasting tells how long each crop on hand lasts: day by day the pace is eaten
// from the lot that goes off soonest, each lot shrinks as figures of its store
// say, and what is twice past its life is eaten by nobody.
func (a *Account) lasting(lots []*Lot) (list []Lasts) {
	var crops []string
	for _, l := range lots {
		if l.Condition.Edible() && !l.Past && !slices.Contains(crops, l.Crop) {
			crops = append(crops, l.Crop)
		}
	}
	slices.Sort(crops)
	for _, crop := range crops {
		one := Lasts{Crop: crop}
		if one.Pace, one.Since = a.paceOf(crop); one.Pace <= 0 {
			continue
		}
		var left []portion
		for _, l := range lots {
			if l.Crop == crop && l.Condition.Edible() && !l.Past {
				one.Grams = one.Grams.Add(l.Weight)
				left = append(left, portion{l, l.Weight.InexactFloat64()})
			}
		}
		lost := 0.0
		one.Until, lost = eatUp(left, one.Pace, a.On)
		one.Lost = decimal.NewFromFloat(lost).Round(0)
		list = append(list, one)
	}
	return list
}

// portion is what is left of a lot.
type portion struct {
	*Lot
	grams float64
}

// eatUp eats at a pace from lots that shrink, the soonest to go off first, until
// nothing is there; it returns the last day there was some, and the grams lost.
func eatUp(lots []portion, pace float64, on time.Time) (until time.Time, lost float64) {
	until = on
	for day := on; day.Before(on.AddDate(0, 0, furthest)); day = day.AddDate(0, 0, 1) {
		need := pace
		for i := range lots {
			l := &lots[i]
			if l.grams > 0 && l.goneBy(day) {
				lost, l.grams = lost+l.grams, 0
			}
			take := min(need, l.grams)
			need, l.grams = need-take, l.grams-take
			if loss := l.Loss(); loss != nil {
				shrunk := l.grams * (1 - loss.fitFrom(l.storedDays(day)))
				lost, l.grams = lost+shrunk, l.grams-shrunk
			}
		}
		if need >= pace {
			return until, lost
		}
		until = day
	}
	return until, lost
}

// fitFrom is the share of what is fit on a day that is so on the next.
func (r StoreRow) fitFrom(days float64) float64 {
	if now := r.Fit(days); now > 0 {
		return r.Fit(days+1) / now
	}
	return 0
}

// hurry puts first what the household will not have eaten in time at its own
// pace: from a week before a lot's day on, where there is more of it, with what
// goes off before it, than is eaten until then. Common practice, no source.
func (a *Account) hurry() {
	const ahead = 7
	if len(a.eaten) == 0 {
		return
	}
	lots := slices.Clone(a.Lots)
	sortLots(lots)
	before := map[string]float64{}
	paces := map[string]float64{}
	for _, l := range lots {
		if !l.Condition.Edible() || l.Past || l.Weight.Sign() <= 0 {
			continue
		}
		before[l.Crop] += l.Weight.InexactFloat64()
		pace, known := paces[l.Crop]
		if !known {
			pace, _ = a.paceOf(l.Crop)
			paces[l.Crop] = pace
		}
		days := l.KeepsUntil.Sub(a.On).Hours() / 24
		if pace > 0 && !l.KeepsUntil.IsZero() && days <= ahead && before[l.Crop] > pace*days {
			l.First = true
		}
	}
}
