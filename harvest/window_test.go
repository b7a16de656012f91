package harvest

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// monthsOf reads September-March as the months it names.
func monthsOf(t testing.TB, text string) map[time.Month]bool {
	t.Helper()
	names := map[string]time.Month{}
	for m := time.January; m <= time.December; m++ {
		names[m.String()] = m
	}
	first, last, isRange := strings.Cut(text, "-")
	if !isRange {
		last = first
	}
	from, to := names[first], names[last]
	require.True(t, from > 0 && to > 0, text)
	months := map[time.Month]bool{from: true}
	for m := from; m != to; {
		m = m%12 + 1
		months[m] = true
	}
	return months
}

// near widens months by one on either side.
func near(months map[time.Month]bool) map[time.Month]bool {
	wide := map[time.Month]bool{}
	for m := range months {
		wide[(m+10)%12+1], wide[m], wide[m%12+1] = true, true, true
	}
	return wide
}

// Whatever day a crop is begun on, of those its window is meant for: on every
// day it is called due, the month is at most one away from the months that its
// publication prints, and never outside those its figures make; and it is due
// at some time. Over all crops and two years of days.
func TestReadyKeepsToTheUsualMonths(t *testing.T) {
	windows := 0
	for _, row := range Crops() {
		for _, w := range row.Windows {
			windows++
			usual := near(monthsOf(t, w.Months))
			printed := usual
			if w.PrintedIn != "" {
				printed = near(monthsOf(t, w.Printed.String()))
			}
			begun := w.Between.From.In(2031)
			for end := w.Between.To.OnOrAfter(begun); !begun.After(end); begun = begun.AddDate(0, 0, 15) {
				p := Planting{ID: "a", Crop: row.Crop, Class: w.Class, Planted: begun, Sown: w.Since == SinceSowing}
				everDue := false
				for on := begun; on.Before(begun.AddDate(2, 0, 0)); on = on.AddDate(0, 0, 1) {
					if stand(p, row, w, Site{}, on).State != Due {
						continue
					}
					everDue = true
					if !usual[on.Month()] || !printed[on.Month()] {
						require.Failf(t, "out of its months", "%s %s begun %s is due on %s; usual months %s, printed %s",
							w.Class, row.Crop, begun.Format(time.DateOnly), on.Format(time.DateOnly), w.Months, w.Printed)
					}
				}
				require.True(t, everDue, "%s %s begun %s is never due", w.Class, row.Crop, begun.Format(time.DateOnly))
			}
		}
	}
	assert.GreaterOrEqual(t, windows, 120)
}

// How plantings stand on a day by what is published; each row names where.
func TestStatesAgreeWithTheSources(t *testing.T) {
	rows := 0
	for _, want := range table(t, "season.csv") {
		if want["kind"] != "state" {
			continue
		}
		rows++
		part := strings.Split(want["given"], "; ")
		require.Len(t, part, 3, want)
		class := strings.TrimPrefix(part[0], "class ")
		if class == "none" {
			class = ""
		}
		event, date, _ := strings.Cut(part[1], " ")
		p := Planting{ID: "a", Crop: CropName(want["crop"]), Class: class, Sown: event == "sown", Planted: day(date)}
		list, untold := Ready([]Planting{p}, nil, Site{}, day(strings.TrimPrefix(part[2], "on ")))
		require.Empty(t, untold)
		require.Len(t, list, 1, want)
		assert.Equal(t, want["expect"], string(list[0].State), "%s: %v", want["source"], want)
	}
	assert.Equal(t, 12, rows)
}

// The grower's own frost ends a tender crop, not the usual one; a hardy one
// stands whatever the frost.
func TestOwnFrostEndsTenderCrops(t *testing.T) {
	mild := Site{FirstFrost: units.MonthDay{Month: time.November, Day: 20}}
	on := day("2031-11-01")
	state := func(crop string, site Site) Readiness {
		list, _ := Ready([]Planting{{ID: "a", Crop: crop, Planted: day("2031-05-20"), Sown: true}}, nil, site, on)
		require.Len(t, list, 1)
		return list[0]
	}
	assert.Equal(t, Over, state("runner bean", Site{}).State)
	assert.True(t, state("runner bean", Site{}).Frosted)
	assert.Equal(t, "2031-10-19", state("runner bean", Site{}).To.Format(time.DateOnly), "the day before it")
	assert.Equal(t, Due, state("kale", Site{}).State)
	assert.False(t, state("kale", Site{}).Frosted)
	assert.True(t, state("runner bean", mild).To.After(state("runner bean", Site{}).To))
}

// What is sown and what is planted each count in the window of its own.
func TestSownAndPlantedCountApart(t *testing.T) {
	from := func(crop string, sown bool, begun string) string {
		list, untold := Ready([]Planting{{ID: "a", Crop: crop, Planted: day(begun), Sown: sown}}, nil, Site{}, day(begun))
		require.Empty(t, untold)
		require.Len(t, list, 1)
		return list[0].Window.Since
	}
	for _, crop := range []string{"courgette", "calabrese", "winter squash", "Brussels sprout"} {
		assert.Equal(t, SinceSowing, from(crop, true, "2031-05-10"), crop)
		assert.Equal(t, SincePlanting, from(crop, false, "2031-06-01"), crop)
	}
	assert.Equal(t, SinceSowing, from("carrot", false, "2031-05-10"), "there is no other")
}

// How long things keep at 5 C is published: what is counted for a fridge is no
// longer than the longest of it and no less than a quarter of the shortest.
func TestFridgeLivesAgreeWithTheSources(t *testing.T) {
	rows := 0
	for _, want := range table(t, "season.csv") {
		if want["kind"] != "life" {
			continue
		}
		rows++
		k, ok := KeptRaw(want["crop"], "", Sound, InFridge)
		require.True(t, ok, want)
		assert.LessOrEqual(t, float64(k.Days.Low), number(t, want["high"]), "%s: %s", want["crop"], want["source"])
		assert.GreaterOrEqual(t, float64(k.Days.Low), number(t, want["low"])/4, "%s: %s", want["crop"], want["source"])
	}
	assert.Equal(t, 9, rows)
}

// A place never lengthens what a class allows: new potatoes keep days in a
// cellar too (common practice, no source), maincrops less in a fridge.
func TestKeepingByPlace(t *testing.T) {
	kept := func(crop, class string, place Keeping) int {
		k, ok := KeptRaw(crop, class, Sound, place)
		require.True(t, ok)
		return k.Days.Low
	}
	assert.Equal(t, 3, kept("potato", "first early", CoolDark))
	assert.Equal(t, 3, kept("potato", "", InClamp), "of no class told: counted as new")
	assert.Equal(t, 120, kept("potato", "late maincrop", ""))
	assert.Equal(t, 14, kept("potato", "late maincrop", InFridge))
	assert.Equal(t, 90, kept("carrot", "", InSand))
	place, ok := KeepingPlace("Cellar")
	assert.True(t, ok)
	assert.Equal(t, CoolDark, place)
	_, ok = KeepingPlace("the fridge at number 12")
	assert.False(t, ok, "a place is known by its whole name")
}

// A metre of row gives what is published within a factor of three of the
// garden figure, low to high.
func TestYieldsOfARowAgreeWithTheSources(t *testing.T) {
	rows := 0
	for _, want := range table(t, "season.csv") {
		if want["kind"] != "yield" {
			continue
		}
		rows++
		row, ok := LookupCrop(want["crop"])
		require.True(t, ok, want)
		u, ok := row.usual("", PerMetre)
		require.True(t, ok, want)
		assert.LessOrEqual(t, float64(u.Grams.Low)/3, number(t, want["high"]), want)
		assert.GreaterOrEqual(t, float64(u.Grams.High)*3, number(t, want["low"]), want)
	}
	assert.Equal(t, 11, rows)
}
