package harvest

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// seasonOf31 is the season of 2031 at its end.
func seasonOf31(t *testing.T, plantings []Planting, entries ...Entry) Season {
	t.Helper()
	account, err := Settle(plantings, entries, day("2031-12-31"))
	require.NoError(t, err)
	return account.Season(2031)
}

// By hand: 1820 g net; 1820/3 = 606.666667 g a seed tuber, 1820/30 = 60.666667
// g a litre, 1820/190 = 9.578947 times the seed; 60 g of it are green.
func TestTally(t *testing.T) {
	lift := usualLift()
	lift.Mothers, lift.Soil = units.MustParse("120 g"), units.MustParse("300 g")
	season := seasonOf31(t, plot(), lift,
		moveOf(KindUse, "2031-07-13 12:00", usual, "320 g"),
		moveOf(KindCompost, "2031-07-13 12:00", "tub-3/2031-0712-1640/ungraded-green", "60 g"))
	require.Len(t, season.Rows, 1)
	y := season.Rows[0]
	assert.Equal(t, "1820 1760 60 0", fmt.Sprint(y.Net, y.ToEat, y.Green, y.Rotten))
	assert.Equal(t, "120 300", fmt.Sprint(y.Mothers, y.Soil), "weighed apart, in no net")
	assert.Equal(t, "606.666667 60.666667 9.578947", fmt.Sprint(y.PerSeed.Decimal, y.PerLitre.Decimal, y.Multiplied.Decimal))
	assert.False(t, y.PerM2.Valid)
	assert.Equal(t, 1, y.Lifts)
	assert.Equal(t, Range{40, 80}, y.Usual.Grams)
	assert.Equal(t, "320 0 0 60 1440 1820", fmt.Sprint(y.Went.Kitchen, y.Went.Stored, y.Went.Given, y.Went.Compost, y.Went.OnHand, y.Went.Sum()))
	var graded []string
	for _, g := range y.Graded {
		graded = append(graded, fmt.Sprintf("%s %s %s%%", g.Name(), g.Grams, g.Percent))
	}
	assert.Equal(t, []string{"45-65 mm sound 700 38.5%", "ungraded sound 150 8.2%", "20-45 mm scabby 820 45.1%",
		"ungraded damaged 90 4.9%", "ungraded green 60 3.3%"}, graded)
	assert.Equal(t, "30", y.SpentLitres.String())
	assert.Contains(t, y.SpentFor, "not for potatoes")
}

// Every lift of a planting counts, by its own year and planting, in the order of
// plantings.yaml.
func TestTallyCountsLifts(t *testing.T) {
	p := func(id string, line int) Planting {
		p := Planting{ID: id, Crop: "beetroot", Planted: day("2031-04-01")}
		p.Place.Line = line
		return p
	}
	season := seasonOf31(t, []Planting{p("b", 1), p("a", 2), p("never", 3)},
		liftOf("a", "2031-07-01 09:00", "1 kg"), liftOf("b", "2031-07-02 09:00", "2 kg"), liftOf("a", "2031-08-01 09:00", "3 kg"),
		liftOf("a", "2031-08-01 09:30", "500 g"))
	var told []string
	for _, y := range season.Rows {
		told = append(told, fmt.Sprintln(y.Planting.ID, y.Lifts, y.Net))
	}
	assert.Equal(t, []string{"b 1 2000\n", "a 3 4500\n"}, told)
}

// Published yields, recomputed through a planting, a lift and the tally.
func TestYieldsAgreeWithPublishedOnes(t *testing.T) {
	for _, want := range table(t, "yields.csv") {
		t.Run(want["name"], func(t *testing.T) {
			p := Planting{ID: "p", Crop: want["crop"], Planted: day("2031-04-01")}
			for field, into := range map[string]*units.Quantity{"bed": &p.Bed, "tub": &p.Tub, "seed": &p.SeedWeight} {
				if want[field] != "" {
					*into = units.MustParse(want[field])
				}
			}
			season := seasonOf31(t, []Planting{p}, liftOf("p", "2031-09-01 09:00", want["net"]))
			y := season.Rows[0]
			if want["per_m2_kg"] != "" {
				assert.InDelta(t, number(t, want["per_m2_kg"]), y.PerM2.Decimal.InexactFloat64()/1000, 0.006, want["source"])
			}
			if want["per_litre_g"] != "" {
				assert.Equal(t, want["per_litre_g"], y.PerLitre.Decimal.String(), want["source"])
				assert.Equal(t, want["multiplied"], y.Multiplied.Decimal.StringFixed(1), want["source"])
			}
		})
	}
}

// The parts of a season add up to what was lifted, and stand in one order.
func TestTotal(t *testing.T) {
	bed := liftOf("bed-1", "2031-07-20 09:00", "1200 g", "200 g rotten")
	season := seasonOf31(t, plot(), usualLift(), bed,
		moveOf(KindUse, "2031-07-13 12:00", usual, "320 g"), moveOf(KindGive, "2031-07-21 12:00", "bed-1/2031-0720-0900/ungraded-sound", "500 g"),
		moveOf(KindStore, "2031-07-21 13:00", "bed-1/2031-0720-0900/ungraded-sound", "400 g"), moveOf(KindCompost, "2031-07-21 14:00", "bed-1/2031-0720-0900/ungraded-rotten", "200 g"))
	all := season.Total()
	assert.Equal(t, "3020 2760", fmt.Sprint(all.Net, all.ToEat), "1820 g and 1200 g, less 60 g green and 200 g rotten")
	var parts []string
	sum := decimal.Zero
	for i, part := range all.Went.Parts() {
		assert.Equal(t, Fate(i), part.Fate)
		parts = append(parts, part.Grams.String())
		sum = sum.Add(part.Grams)
	}
	assert.Equal(t, []string{"320", "400", "500", "200", "0", "1600"}, parts)
	assert.True(t, sum.Equal(all.Net))
	assert.Equal(t, "1820", Tally{Seasons: []Season{season}}.Heaviest().String())
	assert.True(t, Tally{}.Heaviest().IsZero())
}

func TestPercent(t *testing.T) {
	for _, row := range []struct{ part, whole, want string }{
		{"1", "3", "33.3"}, {"2", "3", "66.7"}, {"3", "3", "100"}, {"0", "3", "0"}, {"-1", "3", "0"}, {"1", "0", "0"},
	} {
		got := Percent(decimal.RequireFromString(row.part), decimal.RequireFromString(row.whole))
		assert.Equal(t, row.want, got.String(), row)
	}
}

// Seasons side by side: a crop that a season has not is nothing there.
func TestSeasonsSideBySide(t *testing.T) {
	account, err := Settle(plot(), []Entry{usualLift(), liftOf("bed-1", "2031-07-20 09:00", "1200 g"), liftOf("tub-3", "2030-07-20 09:00", "300 g"),
		liftOf("tub-3", "2031-07-20 09:00", "80 g")}, day("2031-12-31"))
	require.NoError(t, err)
	table := Compare(account.Tally(2030, 2031).Seasons)
	assert.Equal(t, []int{2030, 2031}, table.Years)
	var rows []string
	for _, row := range table.Crops {
		rows = append(rows, fmt.Sprint(row.Name, row.Net))
	}
	assert.Equal(t, []string{"beetroot[0 1200]", "carrot[300 0]", "potato[0 1900]"}, rows)
	assert.Empty(t, Compare(nil).Crops)
}
