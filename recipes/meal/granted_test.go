package meal

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"trencher/recipes"
)

// What a meal takes for granted where nobody says otherwise (common practice, no
// source, but for what the doc comments name): every one of these moves an evening by
// minutes, and a change of one has to be meant.
func TestWhatAMealTakesForGranted(t *testing.T) {
	assert.Equal(t, []float64{6, 12, 6, 5}, []float64{scrubPerKilo, peelPerKilo, cutPerKilo, leastPrepare}, "minutes: to prepare")
	assert.Equal(t, []float64{2, 1, 2, 1, 1, 3}, []float64{loadSteamer, unloadSteamer, spreadOnTray, topUpPan, stillBoils, changeGas}, "minutes: at the steamer")
	assert.Equal(t, []float64{4, 4, 10, 3, 2, 1}, []float64{finishHot, dressWarm, dressCold, pickAtLeast, pickEachPlant, toTable}, "minutes: to dress and serve")
	assert.Equal(t, []float64{60, 300, 500, 1.3}, []float64{panDepthMM, panLeftML, panLeastML, spare}, "the pan")
	assert.Equal(t, []float64{1.5, 750, 98}, []float64{potPerGram, potLeastML, straightFromThePot}, "the pot")
	assert.Equal(t, []float64{7.5, 0.1, 4, 8, 45, 30, 10}, []float64{warmestFridge, coldestFridge, usualFridge, coldC, hottestRoom, toTheTable, leastChill}, "what cools")
	assert.Equal(t, []float64{33, 1.25, 0.8}, []float64{hotAirC, boxPerGram, smaller})
	assert.Equal(t, []time.Duration{10 * time.Minute, 30 * time.Minute, 10 * time.Minute}, []time.Duration{hotWait, warmWait, coolsAfter}, "what may wait")
	assert.Equal(t, []time.Duration{5 * time.Minute, 3 * time.Minute, 30 * time.Second, 5 * time.Minute}, []time.Duration{lateBy, knifeAgain, leastTest, worthIt}, "while it is cooked")
	assert.Equal(t, []time.Duration{18 * time.Hour, 24 * time.Hour, 30 * time.Minute, 12 * time.Hour}, []time.Duration{supper, planIsFresh, soon, nextDay}, "of the day")
	assert.Equal(t, []int{3, 300, 8, 3, 5}, []int{mostHelps, quickLook, mostPlacings, worthMinding, mostRungs}, "how hard is tried")
	assert.Equal(t, []int{8, 50, 20_000, 20, 100, 20, 100, 2, 120, -30, 55}, []int{mostHands, leastCanisterG, mostCanisterG, mostSides, mostDishes, mostRounds, mostLayers, usualSides, longestBatch, coldestAir, hottestAir}, "what is taken at its word")
	assert.Equal(t, []int{9, 1, 3}, []int{flowPlaces, layerPlaces, usePlaces}, "decimals of a gram")
	assert.Equal(t, []string{"100", "0.000001"}, []string{aCupboard.RatString(), leastLeft.String()}, "grams")
	assert.Equal(t, map[recipes.Served]int{recipes.Cold: 0, recipes.Warm: 1, recipes.Hot: 2}, servedOrder)
	assert.Equal(t, [...]float64{500, 1000, 2000}, loadsReckoned)
}
