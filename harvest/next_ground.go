package harvest

import (
	"math"
	"time"

	"trencher/units"
)

// layOut turns plants into seed, ground and dates.
func (n *NextCrop) layOut(year int, site Site) {
	plants := math.Ceil(n.Plants.Likely)
	if n.Row.Crop == "" || plants == 0 {
		return
	}
	n.M2 = plants / n.Row.Spacing.PlantsPerM2()
	n.Litres = plants * n.Row.Tub.Litres
	w, ok := n.Row.window(Planting{Class: n.Class})
	if !ok {
		return
	}
	n.Seed = int(plants)
	if w.Since == SinceSowing {
		n.Seed = int(math.Ceil(plants * seedsForPlant))
	}
	first, last := w.begin(n.Row, year, site)
	n.Begin = Dates{monthDay(first), monthDay(last)}
	every := n.Row.SowAgain.Days.High
	for at := first; ; at = at.AddDate(0, 0, every) {
		n.Sowings = append(n.Sowings, at)
		if every == 0 || at.AddDate(0, 0, every).After(last) || float64(len(n.Sowings)) >= plants {
			return
		}
	}
}

// begin is the first and the last day to begin a crop in a year: as the table has
// it, but nothing tender is planted out before the last frost of spring, and a
// sowing that frost would end before it gives anything comes too late.
func (w Window) begin(c CropRow, year int, site Site) (first, last time.Time) {
	first = w.Between.From.In(year)
	last = w.Between.To.OnOrAfter(first)
	if c.Frost.Ends != EndsFirst || c.Perennial {
		return first, last
	}
	if spring := site.LastFrost.In(year); w.Since == SincePlanting && spring.After(first) {
		first = spring
	}
	autumn := site.FirstFrost.OnOrAfter(first)
	if late := autumn.AddDate(0, 0, -w.Days.Low-gatherDays); w.Days.Low > 0 && late.Before(last) {
		last = late
	}
	if last.Before(first) {
		last = first
	}
	return first, last
}

// gatherDays is how long one wants to gather of a late sowing: common practice,
// no source.
const gatherDays = 14

func monthDay(day time.Time) units.MonthDay {
	return units.MonthDay{Month: day.Month(), Day: day.Day()}
}

// seedsForPlant is how many seeds are sown for a plant that stays: common
// practice, no source.
const seedsForPlant = 1.5
