package page

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
	"trencher/units"
)

// latestEntry is one of the entries this device wrote last, with what takes it
// back and what corrects it.
type latestEntry struct {
	Once, File, Says string
	Correct          string // the address of its form, filled in; "" = it is only taken back
}

// enteredEntry is a latest entry on a screen, to which undoing it leads back.
type enteredEntry struct {
	latestEntry
	From string
}

func enter(e latestEntry, from string) enteredEntry { return enteredEntry{e, from} }

// mostLatest are the entries that stand on top of a screen.
const mostLatest = 3

// showsLatest are the screens that something is written on.
var showsLatest = map[string]bool{"/": true, "/weigh": true, "/take": true, "/fridge": true, "/cook": true, "/share": true, "/steam": true}

// latest are the latest entries, for the top of a screen; none where the screen
// writes nothing, or the journal cannot be read: the screen itself says why.
func (p *Page) latest(r *http.Request) (list []latestEntry) {
	if !showsLatest[r.URL.Path] || p.where.Demo || r.Form.Has("correct") {
		return nil
	}
	ledger, err := ask.Ledger(p.ask())
	if err != nil {
		return nil
	}
	entries, err := ledger.Latest(r.Context(), mostLatest, p.now())
	if err != nil {
		return nil
	}
	for _, e := range entries {
		list = append(list, latestEntry{Once: p.written.token(), File: e.Head().File, Says: render.EntryWords(e), Correct: correctAt(e)})
	}
	return list
}

// correctAt is where an entry is corrected.
func correctAt(e harvest.Entry) string {
	path := ""
	switch e.(type) {
	case *harvest.Lift:
		path = "/weigh"
	case *harvest.Move, *harvest.Reweighed:
		path = "/take"
	case *harvest.BatchEvent:
		path = "/fridge"
	default:
		return ""
	}
	return path + "?" + url.Values{"correct": {e.Head().File}}.Encode()
}

// corrected is the entry that a form is to correct, by the file that its address
// or the form names; nil where it is none.
func (p *Page) corrected(ctx context.Context, file string) (harvest.Entry, error) {
	if file == "" {
		return nil, nil
	}
	ledger, err := ask.Ledger(p.ask())
	if err != nil {
		return nil, err
	}
	e, err := ledger.EntryOf(ctx, file)
	if err == nil && e == nil {
		err = errors.New("the entry that was to be corrected is not in the journal")
	}
	return e, err
}

// correctedFile is the file of the entry that a form corrects; "" = none.
func correctedFile(r *http.Request) string {
	if file := typed(r, "replaces"); file != "" {
		return file
	}
	return typed(r, "correct")
}

// lastLift is the lift that this device wrote last; nil where it wrote none
// lately.
func (p *Page) lastLift(ctx context.Context) *harvest.Lift {
	ledger, err := ask.Ledger(p.ask())
	if err != nil {
		return nil
	}
	entries, err := ledger.Latest(ctx, 20, p.now())
	if err != nil {
		return nil
	}
	for _, e := range entries {
		if lift, ok := e.(*harvest.Lift); ok {
			return lift
		}
	}
	return nil
}

// asTyped is an amount as somebody would type it into a box beside a unit: the
// number alone where it is in that unit.
func asTyped(q units.Quantity, unit string) string {
	if !q.IsValid() {
		return ""
	}
	number, _ := strings.CutSuffix(q.String(), " "+unit)
	return number
}

// unitOf is the unit an amount is written in, where it is one that a scale shows.
func unitOf(q units.Quantity) string {
	for _, unit := range weightUnits {
		if strings.HasSuffix(q.String(), " "+unit) {
			return unit
		}
	}
	return weightUnits[0]
}

// keepsTime stands beside the time of an entry that is corrected.
const keepsTime = "Leave it empty if the time was right."

// fillFrom fills an empty form from a lift: all of it, where it is to be
// corrected; else what is likely the same again: the planting, the unit and the
// bowl.
func (form *weighForm) fillFrom(lift *harvest.Lift, whole bool) {
	last := lift.Weighings[len(lift.Weighings)-1]
	unit := unitOf(last.Gross)
	form.Planting.Value, form.Unit.Value = lift.Planting, unit
	if !whole {
		form.Bowls[0].Empty.Value = asTyped(last.Tare, unit)
		return
	}
	form.At.Hint = keepsTime
	form.Bowls, form.Grades = nil, nil
	for i, w := range lift.Weighings {
		b := newBowl(i + 1)
		b.Full.Value, b.Empty.Value = asTyped(w.Gross, unit), asTyped(w.Tare, unit)
		form.Bowls = append(form.Bowls, b)
	}
	for i := range max(len(lift.Grades), leastGrades) {
		g := newGrade(i + 1)
		if i < len(lift.Grades) {
			g.fill(lift.Grades[i], unit)
		}
		form.Grades = append(form.Grades, g)
	}
}

func (g *grade) fill(of harvest.Grade, unit string) {
	g.Weight.Value, g.Condition.Value = asTyped(of.Weight, unit), string(of.Condition)
	if of.Sizes != (units.Band{}) {
		g.Low.Value, g.High.Value = strconv.Itoa(of.Sizes.Low), strconv.Itoa(of.Sizes.High)
	}
	if of.Count > 0 {
		g.Count.Value = strconv.Itoa(of.Count)
	}
}

// keepRest has a corrected lift keep what its form has no box for.
func keepRest(q *harvest.LiftWords, of harvest.Entry) {
	lift, ok := of.(*harvest.Lift)
	if !ok {
		return
	}
	q.Replaces, q.Left, q.Lies, q.Says = lift.File, lift.Left, lift.Where, lift.Says
	if lift.Mothers.IsValid() {
		q.Mothers = lift.Mothers.String()
	}
	if lift.Soil.IsValid() {
		q.Soil = lift.Soil.String()
	}
}

// sameBowl gives every bowl that was weighed full, and not empty, the empty
// weight of the one before it.
func (form *weighForm) sameBowl() {
	tare := ""
	for i := range form.Bowls {
		b := &form.Bowls[i]
		if b.Empty.Value == "" && b.Full.Value != "" {
			b.Empty.Value = tare
		}
		tare = b.Empty.Value
	}
}

// addUp tells the net weight of what was typed so far.
func (form *weighForm) addUp(where ask.PlotRef) {
	q := form.question(where)
	if len(wrongs(form.boxes()...)) > 0 || len(q.Weighings) == 0 {
		return
	}
	q.Grades = nil // they may not be weighed yet
	if lift, err := ask.Weighed(q); err == nil && lift.Net().GreaterThan(decimal.Zero) {
		form.Net = render.Weight(lift.Net())
	}
}

// fillFrom fills an empty form from what was taken out, to be corrected.
func (form *takeForm) fillFrom(e harvest.Entry) {
	switch e := e.(type) {
	case *harvest.Move:
		unit := unitOf(e.Weight)
		form.To.Value, form.Unit.Value, form.Weight.Value = e.To, unit, asTyped(e.Weight, unit)
		form.Detail.Value = e.Dish + e.Whom + e.Where + e.Reason
	case *harvest.Reweighed:
		unit := unitOf(e.Weight)
		form.To.Value, form.Unit.Value, form.Weight.Value, form.Rotten.Value, form.Detail.Value = harvest.KindReweighed, unit, asTyped(e.Weight, unit), asTyped(e.Rotten, unit), e.Where
	}
	lot := harvest.LotOf(e)
	if form.Lot.Value = lot; notAmong(form.Lot) != "" {
		form.Lot.Options = append(form.Lot.Options, option{lot, lot})
	}
	form.When.Hint = keepsTime
}

// fillFrom fills an empty form from an event, to be corrected.
func (view *fridgeScreen) fillFrom(e *harvest.BatchEvent) {
	view.Name.Value, view.Event.Value, view.Food.Value, view.At.Hint = e.Name, e.Event, e.Food, keepsTime
	if e.Amount.IsValid() {
		view.Amount.Value = e.Amount.String()
	}
}
