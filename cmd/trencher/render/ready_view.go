package render

import (
	"fmt"
	"time"

	"trencher/harvest"
)

// ReadyView is how one planting stands, for a screen.
type ReadyView struct {
	ID, What, State string
	Bar             *SeasonBar
	Notes, Look     []string
	Lift            bool // it is time to weigh it in
}

// SeasonBar is the time of one planting from left to right, in percent: its
// window, and today.
type SeasonBar struct{ Says, From, Width, Now string }

var readyWords = map[harvest.State]string{harvest.Over: "Past its time: lift it now, and look it over.", harvest.Due: "Due.", harvest.Early: "Not yet."}

// Readiness lists the plantings as [ReadyText] does, what is over first.
func Readiness(a harvest.ReadyList) (views []ReadyView) {
	for _, state := range []harvest.State{harvest.Over, harvest.Due, harvest.Early} {
		for _, r := range a.List {
			if r.State == state {
				views = append(views, readyView(r, a.On))
			}
		}
	}
	return views
}

func readyView(r harvest.Readiness, on time.Time) ReadyView {
	view := ReadyView{ID: r.Planting.ID, What: r.Planting.ID + ": " + joinWords(r.Planting.Variety, r.Planting.Class, r.Planting.Crop),
		State: readyWords[r.State], Bar: drawSeason(r, on), Lift: r.State != harvest.Early}
	if r.OutOfTime {
		view.Notes = append(view.Notes, fmt.Sprintf("Its figures are for what is begun from %s to %s: a guide only.", yearDay(r.Window.Between.From), yearDay(r.Window.Between.To)))
	}
	if r.Frosted {
		view.Notes = append(view.Notes, "Frost has ended it, unless it stood under cover.")
	}
	if view.Lift {
		for _, check := range r.Check {
			view.Look = append(view.Look, sentence(check))
		}
		view.Look = append(view.Look, sentence(r.Crop.Left.Says))
	}
	return view
}

// drawSeason draws from the planting to some weeks past the later of its window's
// end and today.
func drawSeason(r harvest.Readiness, on time.Time) *SeasonBar {
	end := r.To
	if on.After(end) {
		end = on
	}
	whole := end.Sub(r.Planting.Planted) * 21 / 20
	if whole <= 0 {
		return nil
	}
	at := func(t time.Time) float64 { return 100 * float64(t.Sub(r.Planting.Planted)) / float64(whole) }
	return &SeasonBar{
		Says: fmt.Sprintf("In the ground since %s, %g weeks; its window is %s to %s (weeks %g to %g); today %s.", r.Planting.Planted.Format("2 January"), r.Weeks,
			r.From.Format("2 January"), r.To.Format("2 January 2006"), r.WeeksFrom, r.WeeksTo, on.Format("2 January")),
		From: fmt.Sprintf("%.1f", at(r.From)), Width: fmt.Sprintf("%.1f", at(r.To)-at(r.From)), Now: fmt.Sprintf("%.1f", at(on))}
}
