package keeping

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// A batch by whatever word: a food, a crop, a dish by what is in it, jars for the
// authority, and a food no rule knows under the strictest limits.
func TestFoodsByWhateverWord(t *testing.T) {
	for word, want := range map[string]Named{
		"Boiled Potatoes": {Food: "boiled-potatoes"}, "zucchini": {Food: "cooked-vegetables"}, "French beans": {Food: "cooked-vegetables"},
		"kohlrabi": {Food: "cooked-vegetables"}, "canning": {Food: "home-canned"}, "home canned beans": {Food: "home-canned"}, "bottled tomatoes": {Food: "home-canned"},
		"elvers": {Food: AnythingElse, Called: "elvers"}, "rice salad": {Food: "cooked-rice"}, "potato and tuna salad": {Food: "bound-salad"},
	} {
		got, err := NameFood(word)
		require.NoError(t, err, word)
		assert.Equal(t, want.Food, got.Food, word)
		assert.Equal(t, want.Called, got.Called, word)
	}
	for _, crop := range measures.Crops() {
		got, err := NameFood(crop.Name)
		require.NoError(t, err, crop.Name)
		assert.NotEqual(t, AnythingElse, got.Food, crop.Name)
	}
	for word, meant := range map[string]string{"boild potatoes": "boiled-potatoes", "cofee soop": "", "hummous": "hummus"} {
		got, err := NameFood(word)
		if meant == "" {
			assert.NotEqual(t, "boiled-potatoes", got.Food, word)
			continue
		}
		assert.ErrorContains(t, err, "not a food the rules know", word)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong)
		assert.Contains(t, wrong.Accepted, meant, word)
	}
}

// The strictest general limits of a food no rule knows: 2 h to the fridge, 24 h in
// it, not for vulnerable eaters ("anything-else", a choice of ours: no source).
func TestAFoodNoRuleKnows(t *testing.T) {
	clock := units.Clock{Now: noon.Add(26 * time.Hour), Zone: time.UTC}
	batch, err := Words{Food: "elvers", CookedAt: noon.Format(time.RFC3339), ChilledAt: noon.Add(time.Hour).Format(time.RFC3339)}.Batch(clock, Celsius(4))
	require.NoError(t, err)
	for hours, want := range map[float64]Kind{23.9: EatBy, 24: EatBy, 24.1: Discard} {
		v, err := Judge(batch, UnitedStates, noon.Add(time.Duration(hours*float64(time.Hour))))
		require.NoError(t, err)
		assert.Equal(t, want, v.Kind, hours)
		assert.Contains(t, v.Says(), `No rule knows "elvers"; it has the strictest limits there are. Ask your food authority.`)
	}
	batch.Vulnerable = true
	v, err := Judge(batch, UnitedStates, noon.Add(2*time.Hour))
	require.NoError(t, err)
	assert.Equal(t, Discard, v.Kind)
	assert.True(t, v.NotForThem)
}
