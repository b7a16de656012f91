package harvest

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"trencher/units"
)

// Window is when a crop (of a class, where classes differ) is fit to gather. It
// is told in days since sowing or planting, or by two dates of the year.
type Window struct {
	Class            string         `yaml:"class"`
	Since            string         `yaml:"since"`   // SinceSowing or SincePlanting
	Between          Dates          `yaml:"between"` // the sowings or plantings it is meant for
	Days             Range          `yaml:"days"`    // zero: told by Opens and Closes
	Stands           int            `yaml:"stands"`  // days it stays good after that
	Until            units.MonthDay `yaml:"until"`   // past which it is not good whatever the days
	Opens            units.MonthDay `yaml:"opens"`
	Closes           units.MonthDay `yaml:"closes"`
	SecondSpring     bool           `yaml:"second_spring"` // nothing is taken in the first year
	Months           string         `yaml:"months"`        // that follow from the above, in Britain
	Printed          Months         `yaml:"printed"`       // those a publication gives, if any
	PrintedIn        string         `yaml:"printed_in"`
	units.Provenance `yaml:",inline"`
}

// What days are counted from.
const (
	SinceSowing   = "sowing"
	SincePlanting = "planting"
)

// Dates is a stretch of the year, both ends in it; it may run over new year.
type Dates struct{ From, To units.MonthDay }

// String writes the stretch as it stands in the table.
func (d Dates) String() string { return d.From.String() + ".." + d.To.String() }

// has tells whether a day of any year lies in the stretch.
func (d Dates) has(day time.Time) bool {
	last := d.To.OnOrAfter(dayOf(day))
	return !d.From.OnOrAfter(last.AddDate(-1, 0, 1)).After(dayOf(day))
}

// Months is a stretch of months, which may run over new year. The zero value is
// none.
type Months struct{ From, To time.Month }

// String writes the stretch as it is read; "" where there is none.
func (m Months) String() string {
	switch {
	case m.From == 0:
		return ""
	case m.From == m.To:
		return m.From.String()
	}
	return m.From.String() + "-" + m.To.String()
}

// near tells whether a day lies in the months or in the one before or after.
func (m Months) near(day time.Time) bool {
	return m.From == 0 || (day.Month()-m.From+1+24)%12 <= (m.To-m.From+12)%12+2 || (m.To-m.From+12)%12 >= 9
}

// hold keeps an opening within a month of the months: days are counted from one
// date, the months are what was seen.
func (m Months) hold(o *opening) {
	for !m.near(o.from) && o.from.Before(o.to) {
		o.from = time.Date(o.from.Year(), o.from.Month()+1, 1, 0, 0, 0, 0, time.UTC)
	}
	for !m.near(o.to) && o.from.Before(o.to) {
		o.to = time.Date(o.to.Year(), o.to.Month(), 0, 0, 0, 0, 0, time.UTC)
		o.frost = false
	}
}

// UsualMonths are the months a publication gives, else those that follow from
// the window.
func (w Window) UsualMonths() string { return cmp.Or(w.Printed.String(), w.Months) }

// Frost is how a crop meets the cold.
type Frost struct {
	Ends             FrostEnd `yaml:"ends"`
	StandsTo         float64  `yaml:"stands_to"` // the air it stands, Celsius
	units.Provenance `yaml:",inline"`
}

// FrostEnd is the frost that ends a crop.
type FrostEnd string

// The frosts that end crops.
const (
	EndsFirst FrostEnd = "first"   // the first air frost of autumn
	EndsHard  FrostEnd = "hard"    // the first night colder than it stands
	EndsNever FrostEnd = "nothing" // none does
)

// Site is where the plot lies, as far as frost goes. The zero value is a site
// that nobody told about: see [Site.Known].
type Site struct {
	FirstFrost units.MonthDay // the usual one of autumn
	LastFrost  units.MonthDay // the usual one of spring
}

// UsualSite is taken where kitchen.yaml gives no frosts: 20 October and 10 May,
// inland in England (common practice, no source).
func UsualSite() Site {
	return Site{units.MonthDay{Month: time.October, Day: 20}, units.MonthDay{Month: time.May, Day: 10}}
}

// Known is the site with what is not told taken from [UsualSite].
func (s Site) Known() Site {
	if s.FirstFrost.IsZero() {
		s.FirstFrost = UsualSite().FirstFrost
	}
	if s.LastFrost.IsZero() {
		s.LastFrost = UsualSite().LastFrost
	}
	return s
}

// hardFrost is how many days after the first frost a hard one comes: common
// practice, no source.
const hardFrost = 30

// ends is the first frost on or after a day that ends the crop; ok is false
// where none does.
func (f Frost) ends(site Site, day time.Time) (at time.Time, ok bool) {
	first := site.Known().FirstFrost
	switch f.Ends {
	case EndsFirst:
		return first.OnOrAfter(day), true
	case EndsHard:
		return first.OnOrAfter(day.AddDate(0, 0, -hardFrost)).AddDate(0, 0, hardFrost), true
	}
	return time.Time{}, false
}

// opening is one stretch in which a planting is fit to gather.
type opening struct {
	from, to time.Time
	frost    bool // frost ends it
}

// openAbout is the opening that matters on a day: the one it lies in, else for
// what lives on the next one, else the only one there is.
func (w Window) openAbout(c CropRow, site Site, planted, on time.Time) opening {
	open := w.firstOpening(c, site, planted)
	for c.Perennial && on.After(open.to) {
		open = w.dated(c, site, open.from.AddDate(0, 0, 1))
	}
	return open
}

// firstOpening is the first opening of what was sown or planted on a day.
func (w Window) firstOpening(c CropRow, site Site, planted time.Time) opening {
	if !w.Opens.IsZero() {
		return w.dated(c, site, w.notBefore(planted))
	}
	open := opening{from: planted.AddDate(0, 0, w.Days.Low), to: planted.AddDate(0, 0, w.Days.High+w.Stands)}
	if !w.Until.IsZero() {
		until := w.Until.OnOrAfter(open.from)
		if w.Stands == 0 || until.Before(open.to) {
			open.to = until
		}
	}
	open = open.before(c, site, planted)
	if w.Between.has(planted) {
		w.Printed.hold(&open)
	}
	return open
}

// notBefore is the day before which nothing is taken: what is planted in spring
// gives nothing in its year, and what is planted in autumn nothing in the
// spring after it.
func (w Window) notBefore(planted time.Time) time.Time {
	switch {
	case !w.SecondSpring:
		return planted
	case planted.Month() >= time.July:
		return time.Date(planted.Year()+2, time.January, 1, 0, 0, 0, 0, time.UTC)
	}
	return time.Date(planted.Year()+1, time.January, 1, 0, 0, 0, 0, time.UTC)
}

// dated is the next opening by the dates of the year, on or after a day.
func (w Window) dated(c CropRow, site Site, day time.Time) opening {
	from := w.Opens.OnOrAfter(day)
	return opening{from: from, to: w.Closes.OnOrAfter(from)}.before(c, site, from)
}

// before ends an opening the day before the frost that ends the crop. A frost
// that comes before it opens ends it on the day it would have opened.
func (o opening) before(c CropRow, site Site, alive time.Time) opening {
	if end, ok := c.Frost.ends(site, alive); ok && !end.After(o.to) {
		o.to, o.frost = end.AddDate(0, 0, -1), true
	}
	return o
}

// window finds the row of a planting: of its class, else the one for all
// classes, counted from the event whose date it has; of several, the one meant
// for that date. What is told only from the other event is counted from the
// grower's date all the same: it is all there is.
func (c CropRow) window(p Planting) (Window, bool) {
	since := SincePlanting
	if p.Sown {
		since = SinceSowing
	}
	rows := c.windowsOf(p.Class)
	same := only(rows, func(w Window) bool { return w.Since == since })
	if len(same) == 0 && p.Sown && p.Class == "" { // told of its classes alone
		same = only(c.Windows, func(w Window) bool { return w.Since == since && w.Between.has(p.Planted) })
		if len(same) > 1 {
			return Window{}, false
		}
	}
	for _, fewer := range [][]Window{same, only(same, func(w Window) bool { return w.Between.has(p.Planted) })} {
		if len(fewer) > 0 {
			rows = fewer
		}
	}
	if len(rows) == 0 {
		return Window{}, false
	}
	return rows[0], true
}

// only keeps the rows that a test holds for.
func only(rows []Window, holds func(Window) bool) (kept []Window) {
	for _, w := range rows {
		if holds(w) {
			kept = append(kept, w)
		}
	}
	return kept
}

// windowsOf lists the rows of a class, else those for all classes.
func (c CropRow) windowsOf(class string) []Window {
	for _, class := range []string{class, ""} {
		var rows []Window
		for _, w := range c.Windows {
			if strings.EqualFold(w.Class, class) {
				rows = append(rows, w)
			}
		}
		if len(rows) > 0 {
			return rows
		}
	}
	return nil
}

// When says the window as the table tells it.
func (w Window) When() string {
	if w.Opens.IsZero() {
		return fmt.Sprintf("%s days from %s", w.Days, w.Since)
	}
	return fmt.Sprintf("%s to %s each year", w.Opens, w.Closes)
}
