package meal

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/schedule"
	"trencher/units"
)

// What goes into the fridge, for however short, lies on the tray until it may; what does
// not, until it can be dressed or has to be eaten.
func TestHowLongOnTheTray(t *testing.T) {
	spread := heat.Cooling{FridgeLatest: 7, DressLatest: 3}
	assert.Equal(t, 7.0, cooled{spread: spread, chill: 0.5, most: 99}.onTray())
	assert.Equal(t, 3.0, cooled{spread: spread, most: 99}.onTray())
	assert.Equal(t, 2.0, cooled{spread: spread, most: 2}.onTray())
	assert.Zero(t, cooled{spread: spread, most: -1}.onTray())
}

// Of two places in the steamer that are as slow, the first's times count; of the grams
// at once, the most.
func TestTheSlowestPlace(t *testing.T) {
	var s Steaming
	for _, place := range []struct {
		fromLoading, minutes, grams float64
		counts, atOnce              float64
	}{{10, 3, 500, 3, 500}, {10, 4, 300, 3, 500}, {11, 5, 700, 5, 700}, {9, 6, 600, 5, 700}} {
		s.slowest(heat.Estimate{FreeFirst: true, FromLoading: place.fromLoading, Minutes: place.minutes}, place.grams)
		assert.Equal(t, []float64{place.counts, place.atOnce}, []float64{s.Minutes, s.AtOnceG})
	}
}

// A kilogram of ice takes up 334 kJ in melting, and 4.186 kJ for each degree after that
// (known_by: memory); what leaks into a box in an hour is 0.3 W for each degree, and a
// hair's breadth less ice than that takes is too little.
func TestHowMuchIceMelts(t *testing.T) {
	serve := time.Date(2031, 7, 12, 18, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		holds, ice float64
		melts      bool
	}{{0, 10800.0 / 334.0005, true}, {0, 10800.0 / 333.9999, false}, {5, 5400 / 354.9302, true}, {5, 5400 / 354.9298, false}, {12, 0, false}} {
		check := &check{plan: Plan{AirC: 10, ServeAt: serve, Steps: []Step{{Timed: schedule.Timed{Step: schedule.Step{Kind: schedule.ColdBox}, At: serve.Add(-time.Hour)}}},
			Kitchen: recipes.Kitchen{ColdBox: recipes.ColdBox{There: true, IceG: c.ice, HoldsC: c.holds}}}}
		check.ice()
		assert.Equal(t, c.melts, len(check.found) > 0, "%g g at %g °C", c.ice, c.holds)
	}
}

// What a dish is made of is the same whether it was read ahead or is read now.
func TestMakeupsReadAhead(t *testing.T) {
	d, err := recipes.LoadDish("d.yaml", []byte("name: Mash\nportions: 2\nserved: hot\ncrops: [{crop: potato, amount: 300 g, prepared: peeled, cut: whole, cook: steam, until: soft}]\nothers: [{item: butter, amount: 10 g}]\nmethod: [Mash it.]\n"),
		recipes.DefaultKitchen(units.Metric))
	require.NoError(t, err)
	q := Question{Dishes: []recipes.Dish{{}, d}}
	now := q.makeup(1)
	assert.Equal(t, MakeupOf(d), now)
	assert.NotEmpty(t, now.Kinds.Foods)
	q.makeups = makeupsOf(q.Dishes)
	readAhead(q.makeups)()
	assert.Equal(t, now, q.makeup(1))
}

// What lies highest in the steamer is told first, in whatever order it went in.
func TestTheHighestTierFirst(t *testing.T) {
	now := time.Date(2031, 7, 12, 18, 0, 0, 0, time.UTC)
	c := Cooking{Now: now}
	for i, tier := range []int{2, 1, 3, 2} {
		c.Plan.Steps = append(c.Plan.Steps, Step{Timed: schedule.Timed{At: now.Add(-time.Minute),
			Step: schedule.Step{ID: fmt.Sprint("s", i), Kind: schedule.Steam, Length: time.Hour, Tier: tier}}})
	}
	var told []string
	for _, tier := range c.Tiers() {
		told = append(told, fmt.Sprint(tier.Number, " ", len(tier.Steams)))
	}
	assert.Equal(t, []string{"3 1", "2 2", "1 1"}, told)
}
