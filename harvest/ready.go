package harvest

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"
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
	Window             Window
	Crop               CropRow
	Check              []string
	Felt               string // what to do about the size felt, if one was given
}

// forgotten is how many days past its window a planting is no longer asked
// about: nothing annual still stands then, whatever the journal says.
const forgotten = 180

// Ready tells how each planting stands on the civil day on. Plantings planted
// after it, lifted whole by then, or long past their window are left out. unknown names the plantings
// no row tells about, and why.
func Ready(plantings []Planting, entries []Entry, on time.Time) (list []Readiness, unknown []string) {
	for _, p := range plantings {
		if dayOf(p.Planted).After(dayOf(on)) || replanted(plantings, p, on) {
			continue
		}
		row, ok := LookupCrop(p.Crop)
		if !ok {
			unknown = append(unknown, fmt.Sprintf("%s: the table has no row for %s", p.ID, p.Crop))
			continue
		}
		w, ok := row.window(p.Class)
		if !ok {
			unknown = append(unknown, fmt.Sprintf("%s: give its class in plantings.yaml (%s)", p.ID, orNone(row.Classes())))
			continue
		}
		if row.Cropping == "once" && liftedWhole(p, plantings, entries, on) {
			continue
		}
		r := stand(p, row, w, on)
		if dayOf(on).After(r.To.AddDate(0, 0, forgotten)) {
			continue
		}
		list = append(list, r)
	}
	slices.SortStableFunc(list, func(a, b Readiness) int { return a.From.Compare(b.From) })
	return list, unknown
}

func stand(p Planting, row CropRow, w Window, on time.Time) Readiness {
	planted := dayOf(p.Planted)
	days := dayOf(on).Sub(planted).Hours() / 24
	last := w.Days.High + w.Stands
	r := Readiness{Planting: p, Weeks: inWeeks(days), WeeksFrom: inWeeks(float64(w.Days.Low)), WeeksTo: inWeeks(float64(last)), Window: w, Crop: row,
		From: planted.AddDate(0, 0, w.Days.Low), To: planted.AddDate(0, 0, last)}
	switch {
	case dayOf(on).Before(r.From):
		r.State = Early
	case dayOf(on).After(r.To):
		r.State = Over
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
func replanted(plantings []Planting, p Planting, on time.Time) bool {
	last, _ := Standing(plantings, p.ID, on)
	return last != nil && !last.Planted.Equal(p.Planted)
}

// liftedWhole tells whether a crop that is lifted once has its last lift behind
// it.
func liftedWhole(p Planting, plantings []Planting, entries []Entry, on time.Time) bool {
	return slices.ContainsFunc(entries, func(e Entry) bool {
		l, ok := e.(*Lift)
		if !ok || l.Planting != p.ID || dayOf(l.At).After(dayOf(on)) {
			return false
		}
		from, _ := Standing(plantings, l.Planting, l.At)
		return from != nil && from.Planted.Equal(p.Planted) && l.emptied(p)
	})
}

// Advise turns the size of the biggest piece felt near the surface, in
// millimetres, into what to do.
func (r *Readiness) Advise(mm float64) error {
	s := r.Crop.Size
	if s == nil {
		return fmt.Errorf("%s is not judged by size", r.Crop.Crop)
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
