package heat

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

func reasonNamed(t testing.TB, list []units.Reason, figure string) units.Reason {
	for _, r := range list {
		if r.Figure == figure {
			return r
		}
	}
	require.Fail(t, "no reason", "for %s in %v", figure, list)
	return units.Reason{}
}

// Every figure an answer rests on is told with its value, its source and how
// that is known; the values are those reckoned with.
func TestReasonsTellTheFiguresInUse(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	a, err := Question{Crop: waxy, Cut: cut(t, "cube 25 mm"), Until: Tender, Grams: new(1200.0),
		Cool: &Spread{}, RoomC: 20, Equipment: Equipment{PowerW: 1800, Fuel: "propane"},
		Conditions: Conditions{Learned: learn([]reading{{minutes: 10, sensitivity: 0.4, at: 11}, {minutes: 10, sensitivity: 0.4, at: 12}})}}.Answer()
	require.NoError(t, err)
	list := a.Reasons()
	for _, r := range list {
		assert.NotEmpty(t, r.Source, r.Figure)
		assert.NotEmpty(t, r.KnownBy, r.Figure)
		assert.NotContains(t, r.Value+r.Source, "%!", "%s is misprinted", r.Figure)
	}
	for _, row := range []struct{ figure, value, source string }{
		{"steam temperature", "100.0 °C", "IAPWS"},
		{"what the crop is made of", "81 % water, 1.9 protein, 0.1 fat, 13.9 carbohydrate, 2.1 fibre, 1 ash", "USDA"},
		{"thermal properties", "conductivity 0.600 W/mK", "Choi & Okos (1986)"},
		{"heat into the piece", "as slow as a cube of 25 mm", "Carslaw & Jaeger"},
		{"film of condensing steam", "500 W/m²K", "400 to 12000"},
		{"full steam", "once 30 % of the steam escapes", "a choice"},
		{"doneness", "tender at 4.7 minutes of 100 °C at the centre, ten times as fast for 28 K more", "fitted to 9 rows of printed tables"},
		{"the band", "nine times in ten: kitchens 16 % apart, what is called done 37 % of its target, the clock 0.9 min, a piece and a lot 8 % each of the time", "a factor of 1.3 either way"},
		{"this kitchen's minutes", "1.05 times the reckoned (0.86 to 1.29 nine times in ten) for 1.12 times the cooking, and +0.2 min", "2 of this kitchen's knife tests on potato, each under what it was made under"},
		{"an even layer", "covers 75 % of the basket", "hexagonally packed 91 %"},
		{"steam made", "689 W: 45 % of 1800 W reach the pan, less 121 W lost", "10 W/m²K over 80 K outside"},
		{"water", "g a minute, and 1.3 times the longest time, 300 g left, never under 500 g", "2256.5 kJ/kg"},
		{"gas", "1800 W through ", "butane 45.7, propane 46.3, natural gas 47.1 MJ/kg"},
		{"cooling", "11 W/m²K dry (the latest), 18 while moist (expected), on 75 % of the surface", "textbook"},
		{"cool enough to dress", "28 °C", units.NoSource},
		{"ready for the fridge", "35 °C, hand-warm", units.NoSource},
	} {
		r := reasonNamed(t, list, row.figure)
		assert.Contains(t, r.Value, row.value)
		assert.Contains(t, r.Source, row.source, row.figure)
	}
	assert.Len(t, list, 17)
}

// What is not so is not told.
func TestReasonsFollowTheAnswer(t *testing.T) {
	swede := crop(t, "swede", "")
	cubes := cut(t, "cube 20 mm")
	guess, err := Steam(crop(t, "potato", "floury"), cubes, Tender, Conditions{})
	require.NoError(t, err)
	assert.Contains(t, reasonNamed(t, guess.Reasons(), "doneness").Source, "uncalibrated")
	set, err := Steam(crop(t, "carrot", ""), cubes, Tender, Conditions{})
	require.NoError(t, err)
	assert.Contains(t, reasonNamed(t, set.Reasons(), "doneness").Source, "sizes of printed rows are assumed")

	heap, err := Steam(swede, cubes, Tender, Conditions{Heaped: true, LoadGrams: 2000})
	require.NoError(t, err)
	assert.Equal(t, "250 W/m²K", reasonNamed(t, heap.Reasons(), "film of condensing steam").Value)

	electric, err := LoadPlan(swede, cubes, JustTender, 800, Equipment{Fuel: "electric"}, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, "covers 65 % of the basket", reasonNamed(t, electric.Reasons(), "an even layer").Value)
	for _, r := range electric.Reasons() {
		assert.NotEqual(t, "gas", r.Figure, "an electric plate burns none")
	}

	deep, err := Cool(swede, cubes, Spread{Bowl: true, Grams: 500}, 20)
	require.NoError(t, err)
	assert.Equal(t, "a heap as a short cylinder of 650 kg/m³ and 0.35 W/mK: 8 W/m²K (the latest), 11 (expected)", reasonNamed(t, deep.Reasons(), "cooling").Value)
	warm, err := Cool(swede, cubes, Spread{}, 33)
	require.NoError(t, err)
	assert.Equal(t, "36 °C", reasonNamed(t, warm.Reasons(), "cool enough to dress").Value)
	assert.Equal(t, "36 °C, hand-warm", reasonNamed(t, warm.Reasons(), "ready for the fridge").Value)

	assert.Empty(t, Learned{}.Reasons(swede))
}

// An answer without a time of its own still says what its table or its cutting
// plan rests on; one of cooling alone has no time to explain.
func TestReasonsOfTablesAndPlans(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for name, q := range map[string]Question{
		"a table": {Table: []float64{20, 30}, TableShape: Cube},
		"a plan":  {Lots: []SizeClass{{LowMM: 20, HighMM: 45}}},
	} {
		q.Crop, q.Until = waxy, Soft
		a, err := q.Answer()
		require.NoError(t, err, name)
		assert.Contains(t, reasonNamed(t, a.Reasons(), "doneness").Value, "soft at 8.4 minutes", name)
		assert.Nil(t, a.Estimate)
	}
	a, err := Question{Crop: waxy, Table: []float64{20, 30}, TableShape: Cube}.Answer()
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(reasonNamed(t, a.Reasons(), "doneness").Value, "just-tender"), "as soft as nobody asked")
	assert.Contains(t, reasonNamed(t, a.Reasons(), "heat into the piece").Value, "20 mm")
	a, err = Question{Crop: waxy}.Answer()
	require.NoError(t, err)
	assert.Empty(t, a.Reasons())
}
