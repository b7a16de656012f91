package recipes

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// A pan of stated size, and the grower's own minutes, no longer fit every batch:
// twice as much lies as deep in a pan 1.41 times as wide.
func TestCautionsAboutPansAndTimes(t *testing.T) {
	dish, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\nserved: hot\nsmallest: 1\nlargest: 16\ncrops:\n  - {crop: potato, amount: 1 kg, prepared: scrubbed, cut: whole, cook: own, takes: 40 min, uses: oven}\n"+
		"method:\n  - Tip into a 20 cm round tin and bake.\n  - Serve.\n"), DefaultKitchen(units.UK))
	require.NoError(t, err)
	at := func(portions int64) []string {
		return dish.ScaleTo(big.NewRat(portions, 1), DefaultKitchen(units.UK)).Cautions
	}
	assert.Empty(t, at(4))
	assert.Empty(t, at(5), "a quarter more goes into the same tin")
	require.Len(t, at(8), 2)
	assert.Contains(t, at(8)[0], "the 20 cm tin: as deep, 2 times as much needs one 28 cm wide")
	assert.Contains(t, at(8)[1], "your own minutes for potato")
	require.Len(t, at(2), 1)
	assert.Contains(t, at(2)[0], "0.5 times as much needs one 14 cm wide")
}

// A pan has its size by its width, its sides, what it holds or what loaf it is for;
// a number of tins is no size.
func TestPansOfStatedSize(t *testing.T) {
	for step, want := range map[string][2]string{ // at 2 and at 1/4 times as much
		"Grease a 20 cm round tin.":                   {"28 cm wide", "10 cm wide"},
		"Spoon into a 9x13 inch baking pan.":          {"13 x 18 inch", "4 x 6 inch"},
		"Bake in a 23 x 33 cm tin.":                   {"33 x 47 cm", "12 x 16 cm"},
		`Line an 8" springform tin.`:                  {"11 inch wide", "4 inch wide"},
		"Tip into a 1.5-litre ovenproof dish.":        {"of 3 litre", "of 0.38 litre"},
		"Use a 2 lb loaf tin.":                        {"of 4 lb", "of 0.5 lb"},
		"Layer in a 2 qt. casserole and bake.":        {"of 4 quart", "of 0.5 quart"},
		"Open 2 tins of beans.":                       {},
		"Drain the 400 g tin.":                        {},
		"Butter a 9x13 pan":                           {"13 x 18", "4 x 6"},
		"Turn 3 times in the pan, then into the dish": {},
	} {
		found := pansIn(step)
		if want[0] == "" {
			assert.Empty(t, found, step)
			continue
		}
		require.Len(t, found, 1, step)
		assert.Equal(t, want, [2]string{found[0].times(2), found[0].times(0.25)}, step)
	}
}
