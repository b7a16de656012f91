package units_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Packs of a stated size, sums, the same amount in two units, and vague spoons,
// as recipes write them.
func TestAmountsAsRecipesWriteThem(t *testing.T) {
	for text, want := range map[string]string{
		"2 x 400 g tins": "800 g", "2x400g": "800 g", "2 × 400 g": "800 g", "1 (14 oz) can": "14 oz", "2 (14-ounce) cans": "28 oz",
		"2 400 g tins": "800 g", "1 14-oz can": "14 oz", "400 g tin": "400 g", "2-3 x 400 g tins": "800-1200 g", "3 x large": "3 large",
		"2 x 5 cm pieces": "10 cm", "a 15 g bunch": "15 g",
		"1 1/2 cups plus 2 tbsp": "1.62 cup metric", "1 lb + 4 oz": "1.25 lb", "1 cup and 1 tbsp": "1.06 cup metric",
		"200 ml/7 fl oz UK": "200 ml", "50 g / 2 oz": "50 g", "1 kg (2 lb 4 oz)": "1 kg", "1 cup (about 240 ml)": "1 cup metric",
		"2 tins": "2 tin", "a thumb-sized piece": "1 thumb", "2 heaped tbsp": "2 heaped tbsp metric", "1 scant cup": "1 scant cup metric",
		"1 US heaping tsp": "1 heaped tsp US", "3 glugs": "3 glug", "2 drops": "2 drop", "1 pt (UK)": "1 pt UK",
	} {
		q, err := units.Parse(text, units.Metric)
		require.NoError(t, err, text)
		assert.Equal(t, want, q.String(), text)
		again, err := units.Parse(q.String(), units.NoSystem)
		require.NoError(t, err, "what is written reads back: %s", q)
		assert.True(t, again.Same(q), text)
	}
}

// A heaped spoon is rough, and says so; a tin is a pack.
func TestVagueSpoonsAndPacks(t *testing.T) {
	assert.True(t, units.MustParse("1 heaped tsp").IsRough())
	assert.NotEmpty(t, units.MustParse("1 heaped tsp").Unit().Caution())
	assert.True(t, units.MustParse("1 tin").Unit().IsPack())
	assert.False(t, units.MustParse("1 clove").Unit().IsPack())
	ml, err := units.MustParse("2 heaped tbsp").In(units.Millilitre)
	require.NoError(t, err)
	assert.Equal(t, "45 ml", ml.String(), "one and a half level ones each: common practice, no source")
}
