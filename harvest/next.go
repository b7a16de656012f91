package harvest

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"time"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// NextSeason is what to plant for what is really eaten.
type NextSeason struct {
	Year     int
	Seasons  []int   // those it rests on
	People   float64 // who will eat over who ate so far; 1: as many
	Crops    []NextCrop
	Warnings []Warning
}

// NextCrop is what to plant of one crop, of one class where it has classes.
type NextCrop struct {
	Crop, Class string
	Seasons     int             // that gave any of it
	Eaten       decimal.Decimal // g a season, to the kitchen
	Portions    float64         // eaten of dishes it went into, a season; 0 where nobody logged them
	Given       decimal.Decimal // g a season
	Lost        decimal.Decimal // g a season: composted, or never fit to eat
	Left        decimal.Decimal // g a season: in store or on hand when it was drawn up
	Short       bool            // all of it was eaten in some season: more may be wanted
	PerPlant    Estimate        // g a plant next season
	Plants      Estimate        // how many
	Seed        int             // tubers, sets or cloves, or seeds to sow
	M2, Litres  float64         // of bed, or of tub
	Row         CropRow
	Sowings     []time.Time     // when to begin, spread where the crop asks for it
	Begin       Dates           // the dates its figures are meant for, after the last frost of spring where it is tender
	Appetite    *Appetite       // what is to be eaten, where that was said; nil: what the journal says
	Want        decimal.Decimal // g as lifted for that
	Guessed     []Guess         // what the journal could not tell
	published   Usual
}

// Estimate is a figure that nobody can know, with the range it lies in nine
// times out of ten.
type Estimate struct{ Likely, Low, High float64 }

// Guess is what a plan had to take from elsewhere than the journal.
type Guess int

// What is guessed.
const (
	GuessOneSeason Guess = iota // a single season: how much they differ is not seen
	GuessLeft                   // nothing eaten was logged: half of what is left is taken
	GuessYield                  // no planting tells how many plants stood: the published yield
	GuessNoYield                // nor is there a published one: no number of plants
)

// What is taken where seasons are few: common practice, no source.
const (
	usualSpread   = 0.30 // of a plot's yield from year to year, as a share
	usualAppetite = 0.20 // of what is eaten from year to year
	usualLoss     = 0.10 // of what is harvested, on the way to the kitchen
	worth         = 3.0  // seasons of one's own that these weigh as much as
	nineInTen     = 1.645
	shortBy       = 1.15 // appetite over what there was, where all was eaten
)

// Next plans a season from all seasons before it: what was eaten, how much was
// lost, and what this plot really gives a plant, shrunk towards the published
// yield where seasons are few. What was given away or composted is no appetite.
// Where other people will eat, all appetite is that many times what it was; a
// crop in eat is planned for what is said there instead.
func (l *Ledger) Next(ctx context.Context, q NextQuestion) (NextSeason, error) {
	years, err := l.readBefore(ctx, q.Year)
	if err != nil {
		return NextSeason{}, err
	}
	account, err := l.Account()
	if err != nil {
		return NextSeason{}, err
	}
	next := NextSeason{Year: q.Year, People: cmp.Or(q.People, 1), Warnings: account.Warnings}
	records := map[string]*record{}
	for _, y := range years {
		season := account.Season(y)
		if len(season.Rows) > 0 {
			next.Seasons = append(next.Seasons, y)
		}
		for _, row := range season.Rows {
			key := row.Planting.Crop + "/" + row.Planting.Class
			if records[key] == nil {
				records[key] = &record{crop: row.Planting.Crop, class: row.Planting.Class, people: next.People}
			}
			records[key].add(y, row)
		}
	}
	if len(next.Seasons) == 0 && len(q.Eat) == 0 {
		return NextSeason{}, units.WrongField("season", strconv.Itoa(q.Year), "nothing was lifted before it", "a season after one with lifts in the journal")
	}
	next.Crops = cropsOf(records, q.Eat, eatenPortions(l.Plantings, l.Entries))
	for i := range next.Crops {
		next.Crops[i].layOut(q.Year, l.Site.Known())
	}
	slices.SortFunc(next.Crops, func(a, b NextCrop) int { return cmp.Or(cmp.Compare(a.Crop, b.Crop), cmp.Compare(a.Class, b.Class)) })
	return next, nil
}

// CheckSeasons refuses years that no journal here is of: a slip, such as 26. Its
// error is a [units.FieldError] of season.
func CheckSeasons(years ...int) error {
	for _, year := range years {
		if year < 1900 || year > 2999 {
			return units.WrongField("season", strconv.Itoa(year), "no year of a harvest", "the year in full, as 2031")
		}
	}
	return nil
}

// readBefore reads the seasons before a year, and lists them.
func (l *Ledger) readBefore(ctx context.Context, year int) ([]int, error) {
	years, err := l.journal.Seasons()
	if err != nil {
		return nil, err
	}
	years = slices.DeleteFunc(years, func(y int) bool { return y >= year })
	if err := l.readSeasons(ctx, years...); err != nil {
		return nil, err
	}
	if l.On.IsZero() || len(years) > 0 {
		l.On = lastOf(l.Entries, l.On)
	}
	return years, nil
}

// cropsOf plans each crop: for what is to be eaten of it where that is said, else for
// what was.
func cropsOf(records map[string]*record, eat []Appetite, portions map[string]float64) (crops []NextCrop) {
	for _, key := range slices.Sorted(maps.Keys(records)) {
		r := records[key]
		crop := r.plan()
		crop.Portions = portions[r.crop] / float64(crop.Seasons)
		if i := slices.IndexFunc(eat, func(a Appetite) bool { return a.Crop == r.crop && (a.Class == r.class || a.Class == "") }); i >= 0 {
			said := eat[i]
			said.Class = r.class
			crop = said.plan(*r, crop)
			eat = slices.Delete(slices.Clone(eat), i, i+1)
		}
		crops = append(crops, crop)
	}
	for _, a := range eat {
		crops = append(crops, a.plan(record{class: a.Class}, NextCrop{Crop: a.Crop, Class: a.Class}))
	}
	return crops
}

// NextQuestion asks what to plant.
type NextQuestion struct {
	Year   int
	People float64    // who will eat over who ate so far; 0: as many
	Eat    []Appetite // crops to plan for what is said, not for what was eaten
}

// Reasons says what a plan rests on.
func (n NextSeason) Reasons() []units.Reason {
	list := []units.Reason{
		units.Why("seasons", fmt.Sprint(n.Seasons), "this plot's journal", given),
		units.Why("how yields differ from year to year", fmt.Sprintf("%g %%", 100*usualSpread), "common practice, no source; this plot's own seasons take its place as they come", "practice"),
		units.Why("how appetite differs from year to year", fmt.Sprintf("%g %%", 100*usualAppetite), "common practice, no source; this plot's own seasons take its place as they come", "practice"),
		units.Why("range", "nine times out of ten", "both spreads together, on a scale of ratios", "computed"),
	}
	for _, c := range n.Crops {
		list = append(list, c.Reasons()...)
	}
	return list
}

// Reasons says what the figures of one crop rest on.
func (n NextCrop) Reasons() []units.Reason {
	list := []units.Reason{units.Why(n.Crop+": eaten a season", n.Eaten.String()+" g", "this plot's journal", given)}
	if a := n.Appetite; a != nil {
		list = []units.Reason{units.Why(n.Crop+": to be eaten", fmt.Sprintf("%g times a week for %g weeks, %g helpings each time", a.Times, a.Weeks, a.Helpings), "as asked", given),
			{Figure: n.Crop + ": a helping", Value: fmt.Sprintf("%g g", a.Portion.Grams), Provenance: a.Portion.Provenance},
			units.Why(n.Crop+": on the plate of a gram lifted", fmt.Sprintf("%.2f g", a.Prepared), "the kitchen's yields, by `trencher dish --why`", "computed")}
	}
	if n.published.Per != "" {
		list = append(list, units.Reason{Figure: n.Crop + ": published yield", Value: n.published.Grams.String() + " g a plant", Provenance: n.published.Provenance})
	}
	if n.Row.Crop != "" {
		list = append(list, units.Reason{Figure: n.Crop + ": spacing", Value: fmt.Sprintf("%g x %g cm", n.Row.Spacing.InRowCM, n.Row.Spacing.RowsCM), Provenance: n.Row.Spacing.Provenance})
	}
	return list
}
