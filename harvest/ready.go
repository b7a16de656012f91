package harvest

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"trencher/units"
)

// State is how a planting stands against its window.
type State string

// The states of a planting on a day.
const (
	Early State = "early" // the window has not opened
	Due   State = "due"
	Over  State = "over" // past the window: lift what is left
)

// Readiness is when one planting is fit to lift and what to look for first.
type Readiness struct {
	Planting Planting
	Weeks    float64 // since planting, one decimal
	From, To time.Time
	// WeeksFrom and WeeksTo are From and To in weeks since planting.
	WeeksFrom, WeeksTo float64
	State              State
	Frosted            bool // it is over because frost has ended it
	OutOfTime          bool // sown or planted outside the dates its window is meant for
	Window             Window
	Crop               CropRow
	Check              []string
	Felt               string // what to do about the size felt, if one was given
}

// forgotten is how many days past its window a planting is no longer asked
// about: nothing annual still stands then, whatever the journal says.
const forgotten = 180

// Ready tells how each planting stands on the civil day on, at a site with its
// frosts. Plantings planted after it, lifted whole by then, or long past their
// window are left out; those no row tells about are warnings.
func Ready(plantings []Planting, entries []Entry, site Site, on time.Time) (list []Readiness, untold []Warning) {
	known := plantedOf(plantings)
	whole := liftedWhole(known, entries, on)
	for _, p := range plantings {
		if dayOf(p.Planted).After(dayOf(on)) || known.replanted(p, on) {
			continue
		}
		row, ok := LookupCrop(p.Crop)
		if !ok {
			untold = append(untold, Untold{p.ID, "the table has no row for " + p.Crop})
			continue
		}
		w, ok := row.window(p)
		if !ok {
			untold = append(untold, Untold{p.ID, "give its class in plantings.yaml (" + orNone(row.Classes()) + ")"})
			continue
		}
		if row.Cropping == "once" && whole[p.key()] {
			continue
		}
		r := stand(p, row, w, site, on)
		if !row.Perennial && dayOf(on).After(r.To.AddDate(0, 0, forgotten)) {
			continue
		}
		list = append(list, r)
	}
	slices.SortStableFunc(list, func(a, b Readiness) int { return a.From.Compare(b.From) })
	return list, untold
}

func stand(p Planting, row CropRow, w Window, site Site, on time.Time) Readiness {
	planted := dayOf(p.Planted)
	weeks := func(day time.Time) float64 { return inWeeks(day.Sub(planted).Hours() / 24) }
	open := w.openAbout(row, site, planted, dayOf(on))
	r := Readiness{Planting: p, Weeks: weeks(dayOf(on)), WeeksFrom: weeks(open.from), WeeksTo: weeks(open.to), Window: w, Crop: row,
		From: open.from, To: open.to, OutOfTime: !w.Between.has(planted)}
	switch {
	case dayOf(on).After(r.To): // before it opened, where frost came first
		r.State, r.Frosted = Over, open.frost
	case dayOf(on).Before(r.From):
		r.State = Early
	default:
		r.State = Due
	}
	for _, s := range row.Signs {
		if len(s.Classes) == 0 || slices.Contains(s.Classes, w.Class) {
			r.Check = append(r.Check, s.Says)
		}
	}
	return r
}

// inWeeks turns days into weeks with one decimal.
func inWeeks(days float64) float64 { return math.Round(days/7*10) / 10 }

// replanted tells whether a later planting of the same name stands by then.
func (a planted) replanted(p Planting, on time.Time) bool {
	last, _ := a.standing(p.ID, on)
	return last != nil && !last.Planted.Equal(p.Planted)
}

// aPlanting tells plantings of one name apart by the moment they were planted.
type aPlanting struct {
	id string
	at int64
}

func (p Planting) key() aPlanting { return aPlanting{p.ID, p.Planted.UnixNano()} }

// liftedWhole are the plantings that a lift has emptied: those of a crop that is
// lifted once have their last lift behind them.
func liftedWhole(plantings planted, entries []Entry, on time.Time) map[aPlanting]bool {
	whole := map[aPlanting]bool{}
	for _, e := range entries {
		if l, ok := e.(*Lift); ok && !dayOf(l.At).After(dayOf(on)) {
			if from, _ := plantings.standing(l.Planting, l.At); from != nil && l.emptied(*from) {
				whole[from.key()] = true
			}
		}
	}
	return whole
}

// ReadyList is how the plantings stand on a day, by the day they are due.
type ReadyList struct {
	On       time.Time
	List     []Readiness
	Warnings []Warning
}

// largestFelt is beyond any piece of a crop, in millimetres.
const largestFelt = 1000

// Feel takes in the size of the biggest piece of a planting felt near the
// surface, in millimetres, and says in its Felt what to do. Its error is a
// [units.FieldError] of felt.
func (r *ReadyList) Feel(planting string, mm float64) error {
	if mm <= 0 || mm > largestFelt {
		return units.WrongField("felt", "", "no size of a crop", "the size of the biggest one felt, such as 38 mm")
	}
	var ids, candidates []string
	for i := range r.List {
		ids = append(ids, r.List[i].Planting.ID)
	}
	found := units.MatchNames(planting, ids)
	for _, i := range found {
		candidates = append(candidates, ids[i])
	}
	switch len(found) {
	case 0:
		return units.WrongField("felt", "", "no planting of that name stands", "one of "+strings.Join(ids, ", "))
	case 1:
		return r.List[found[0]].feel(mm)
	}
	return units.WrongField("felt", "", "more than one planting begins so", "one of "+strings.Join(candidates, ", "))
}

// FeelEach takes in sizes as they were typed, "tub-3=38 mm". Its error is as
// Feel's, with what was typed.
func (r *ReadyList) FeelEach(felt []string) error {
	for _, text := range felt {
		planting, mm, err := ParseFelt(text)
		if err == nil {
			err = r.Feel(planting, mm)
		}
		var wrong *units.FieldError
		if errors.As(err, &wrong) && wrong.Value == "" {
			wrong.Value = text
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (r *Readiness) feel(mm float64) error {
	s := r.Crop.Size
	if s == nil {
		return units.WrongField("felt", "", r.Crop.Crop+" is not judged by size", "another planting, or go by the signs listed")
	}
	how := cmp.Or(s.Measured, "across")
	switch {
	case mm < float64(s.Small):
		r.Felt = fmt.Sprintf("%g mm %s: wait a week and feel again (%s)", mm, how, s.Says)
	case mm < float64(s.Good):
		r.Felt = fmt.Sprintf("%g mm %s: nearly; lift one plant and judge the rest by it", mm, how)
	case mm <= float64(s.Large):
		r.Felt = fmt.Sprintf("%g mm %s: good; lift what you will eat", mm, how)
	default:
		r.Felt = fmt.Sprintf("%g mm %s: large already; lift now (%s)", mm, how, r.Crop.Left.Says)
	}
	return nil
}
