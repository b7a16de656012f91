package render

import (
	"fmt"
	"io"
	"time"

	"trencher/harvest"
	"trencher/units"
)

// StockText lists the lots on hand at 80 columns, what to use first on top.
func StockText(w io.Writer, a harvest.StockList, why bool) error {
	var p page
	p.line("On hand on " + longDate(a.On))
	if len(a.Lots) == 0 {
		p.line("  nothing: `trencher lift` logs a lift")
	}
	var part string
	for _, l := range a.Lots {
		if next := partOf(l); next != part {
			part = next
			p.heading(part)
		}
		p.row("  ", 9, grams(l.Weight), lotLine(l, a.On))
		if months := l.Expect(a.On); len(months) > 0 && !l.Past {
			p.row("  ", 9, "", expectWords(months))
		}
		if err := p.flush(w); err != nil {
			return err
		}
	}
	if len(a.Lasting) > 0 {
		p.heading("At your own pace")
	}
	for _, c := range a.Lasting {
		p.wrapped("  ", LastsWords(c))
	}
	if why {
		reasons(&p, a.Reasons(), why)
	}
	return p.writeTo(w)
}

// expectWords tells how a lot in store shrinks if nobody takes from it.
func expectWords(months []harvest.Expected) string {
	text := "still fit: "
	for i, e := range months {
		if i > 0 {
			text += ", "
		}
		text += grams(e.Grams) + " on " + e.On.Format("2 Jan")
	}
	last := months[len(months)-1]
	return text + fmt.Sprintf(" (%s to %s)", grams(last.Low), grams(last.High))
}

// LastsWords tells until when there is some of a crop.
func LastsWords(c harvest.Lasts) string {
	text := fmt.Sprintf("%s: %s, at %.0f g a day (since %s) until %s", c.Crop, grams(c.Grams), c.Pace, c.Since.Format("2 January"), c.Until.Format("2 January 2006"))
	if c.Lost.Sign() > 0 {
		text += "; about " + grams(c.Lost) + " of it goes off before that"
	}
	return text
}

func partOf(l *harvest.Lot) string {
	switch {
	case !l.Condition.Edible():
		return "Set aside, never to the kitchen"
	case l.Past:
		return "Past keeping: look it over, then `trencher reweigh` or `compost`"
	case l.First:
		return "Use first"
	}
	return "Keeps"
}

func lotLine(l *harvest.Lot, on time.Time) string {
	text := joinWords(l.Variety, l.Crop+",", l.Sizes.String(), string(l.Condition))
	switch {
	case !l.Condition.Edible():
	case l.KeepsUntil.IsZero():
		text += "; no figure for how long it keeps: look at it"
	case l.Past:
		text += "; was to be eaten by " + pastDay(l.KeepsUntil, on)
	case l.Condition == harvest.Damaged:
		text += "; trim, use today"
	case l.Lies().Rot:
		text += "; some was rotten: use first, and look it over again"
	case l.First:
		text += "; best before " + pastDay(l.KeepsUntil, on) + ": look it over"
	default:
		text += "; keeps raw until " + l.KeepsUntil.Format("2 January")
	}
	if lies := l.Lies(); lies.Where != "" {
		text += "; in " + lies.Where
		if lies.Air.IsValid() {
			text += " at " + lies.Air.String()
		}
	}
	return text + "  [" + l.Name + "]"
}

// ReadyText tells which plantings are due and what to look for.
func ReadyText(w io.Writer, a harvest.ReadyList, why bool) error {
	var p page
	if len(a.List) == 0 {
		p.line("Nothing stands in the ground on " + longDate(a.On))
	}
	for _, state := range []harvest.State{harvest.Over, harvest.Due, harvest.Early} {
		for _, r := range a.List {
			if r.State == state {
				readyPart(&p, r)
			}
		}
	}
	reasons(&p, a.Reasons(), why)
	return p.writeTo(w)
}

func readyPart(p *page, r harvest.Readiness) {
	heads := map[harvest.State]string{harvest.Over: "OVER", harvest.Due: "DUE", harvest.Early: "early"}
	p.heading(fmt.Sprintf("%s  %s: %s, %g weeks", heads[r.State], r.Planting.ID,
		joinWords(r.Planting.Variety, r.Planting.Class, r.Planting.Crop), r.Weeks))
	p.wrapped("  window  ", fmt.Sprintf("weeks %g to %g: %s to %s (usual months %s)", r.WeeksFrom, r.WeeksTo,
		r.From.Format("2 January"), r.To.Format("2 January 2006"), r.Window.UsualMonths()))
	if r.OutOfTime {
		p.wrapped("  note    ", fmt.Sprintf("its figures are for what is begun from %s to %s: a guide only", yearDay(r.Window.Between.From), yearDay(r.Window.Between.To)))
	}
	if r.Frosted {
		p.wrapped("  frost   ", "frost has ended it, unless it stood under cover")
	}
	if r.Felt != "" {
		p.wrapped("  felt    ", r.Felt)
	}
	if r.State == harvest.Early {
		return
	}
	for _, check := range r.Check {
		p.wrapped("  look    ", check)
	}
	p.wrapped("  left    ", r.Crop.Left.Says)
}

// yearDay is a date of any year: 20 October.
func yearDay(d units.MonthDay) string { return d.In(2000).Format("2 January") }

// reasons adds the sources of the figures, when they are asked for.
func reasons(p *page, list []units.Reason, why bool) {
	if !why || len(list) == 0 {
		return
	}
	p.heading("Why")
	for _, r := range list {
		p.wrapped("  ", fmt.Sprintf("%s: %s (%s; %s)", r.Figure, r.Value, r.Source, r.KnownBy))
	}
}

// pastDay is a day before the one asked for, with its year where that is another.
func pastDay(day, on time.Time) string {
	if day.Year() != on.Year() {
		return day.Format("2 January 2006")
	}
	return day.Format("2 January")
}
