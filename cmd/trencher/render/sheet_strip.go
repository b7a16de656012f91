package render

import (
	"fmt"
	"strconv"
	"time"

	"trencher/recipes/meal"
)

// rem is a length in sixteenths of the reader's letters: a pixel where those are
// as large as browsers make them.
type rem int

// String is the length as a picture has it, so that it grows with its text.
func (r rem) String() string { return strconv.FormatFloat(float64(r)/16, 'f', -1, 64) + "rem" }

// The clock strip lays the timetable out along the clock, one lane for each
// thing in use. Places along the clock are percentages, so that the strip
// fits any width with its text unscaled.
const (
	rowHeight   = 19
	laneHeading = 16
	laneGap     = 4
	axisHeight  = 18

	// numberWidth is the room, in percent, that a bar's number needs on a
	// 360-pixel screen; leastBar keeps a moment's step visible.
	numberWidth = 5.5
	leastBar    = 0.6
)

// stripView is the strip, laid out.
type stripView struct {
	Height, Floor rem // whole height; where the lanes end and the hours stand
	HoursY        rem
	Ticks         []tickView
	Lanes         []laneView
	Serve         *tickView
	Now           *tickView // nil but on a screen, see nowOn
	Says          string
}

type tickView struct{ X, Label string }

type laneView struct {
	Name, Kind  string
	HeadingY    rem
	Bars        []barView
	placedUntil []float64 // percent taken in each row
}

type barView struct {
	X, Width, NumberX string
	Y, NumberY        rem
	Number            int
	Beside            string // "after" or "before" the bar; "" inside it
	NumberShift       rem    // from NumberX
	from, to          float64
}

// viewStrip lays out the timetable; nil when there is none.
func viewStrip(p meal.Plan) *stripView {
	if len(p.Steps) == 0 {
		return nil
	}
	stretch := spanOf(p)
	strip := &stripView{Ticks: stretch.ticks()}
	y := rem(0)
	for _, kind := range []string{laneSteamer, laneCook, laneWait} {
		placed := placeLane(p.Steps, kind, stretch, y)
		if len(placed.Bars) == 0 {
			continue
		}
		strip.Lanes = append(strip.Lanes, placed)
		y += laneHeading + rowHeight*rem(len(placed.placedUntil)) + laneGap
	}
	strip.Floor, strip.HoursY, strip.Height = y, y+axisHeight-4, y+axisHeight
	if !p.ServeAt.IsZero() {
		strip.Serve = &tickView{X: percent(stretch.place(p.ServeAt)), Label: clock(p.ServeAt)}
	}
	strip.Says = fmt.Sprintf("Clock strip from %s to %s; the numbers are those of the list below.",
		clock(stretch.from), clock(stretch.to))
	return strip
}

// placeLane puts the steps of one kind into rows so that neither bars nor
// their numbers cover each other.
func placeLane(steps []meal.Step, kind string, stretch clockSpan, top rem) laneView {
	placed := laneView{Name: laneWords[kind], Kind: kind, HeadingY: top + laneHeading - 4}
	for i, step := range steps {
		if lane(step) != kind {
			continue
		}
		bar := placeBar(stretch.place(step.At), stretch.place(step.End()))
		bar.Number = i + 1
		bar.Y = top + laneHeading + rowHeight*rem(placed.row(bar))
		bar.NumberY = bar.Y + 12
		placed.Bars = append(placed.Bars, bar)
	}
	return placed
}

// placeBar puts a bar along the clock, with its number inside where that
// fits, else beside it.
func placeBar(from, to float64) barView {
	from = min(from, 100-leastBar)
	to = max(to, from+leastBar)
	bar := barView{X: percent(from), Width: percent(to - from), from: from, to: to}
	switch {
	case to-from >= numberWidth:
		bar.NumberX = percent((from + to) / 2)
	case to+numberWidth <= 100:
		bar.Beside, bar.NumberX, bar.NumberShift = "after", percent(to), 3
		bar.to += numberWidth
	default:
		bar.Beside, bar.NumberX, bar.NumberShift = "before", percent(from), -3
		bar.from -= numberWidth
	}
	return bar
}

// row finds the first row with room for a bar and its number, and takes it.
func (l *laneView) row(bar barView) int {
	for i, until := range l.placedUntil {
		if until <= bar.from {
			l.placedUntil[i] = bar.to
			return i
		}
	}
	l.placedUntil = append(l.placedUntil, bar.to)
	return len(l.placedUntil) - 1
}

// clockSpan is the stretch of time the strip shows.
type clockSpan struct{ from, to time.Time }

func spanOf(p meal.Plan) clockSpan {
	span := clockSpan{from: p.Steps[0].At, to: p.Steps[0].End()}
	include := func(at time.Time) {
		if at.Before(span.from) {
			span.from = at
		}
		if at.After(span.to) {
			span.to = at
		}
	}
	for _, step := range p.Steps {
		include(step.At)
		include(step.End())
	}
	if !p.ServeAt.IsZero() {
		include(p.ServeAt)
	}
	if span.to.Sub(span.from) < 10*time.Minute {
		span.to = span.from.Add(10 * time.Minute)
	}
	return span
}

// place is where a time stands along the strip, in percent.
func (s clockSpan) place(at time.Time) float64 {
	return 100 * float64(at.Sub(s.from)) / float64(s.to.Sub(s.from))
}

// ticks are at most seven clock times at a round distance.
func (s clockSpan) ticks() []tickView {
	step := 5 * time.Minute
	for _, wider := range []time.Duration{10, 15, 20, 30, 60, 120, 180, 240, 360, 720, 1440} {
		if s.to.Sub(s.from) <= 6*step {
			break
		}
		step = wider * time.Minute
	}
	year, month, date := s.from.Date()
	at := time.Date(year, month, date, 0, 0, 0, 0, s.from.Location())
	var ticks []tickView
	for ; !at.After(s.to); at = at.Add(step) {
		place := s.place(at)
		if place >= 0 {
			ticks = append(ticks, tickView{X: percent(place), Label: tickLabel(at, place)})
		}
	}
	return ticks
}

// tickLabel leaves out a label that would be cut off at the strip's ends.
func tickLabel(at time.Time, place float64) string {
	if place < 4 || place > 96 {
		return ""
	}
	return clock(at)
}

func percent(place float64) string { return fmt.Sprintf("%.2f%%", place) }
