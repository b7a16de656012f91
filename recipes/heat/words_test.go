package heat_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/heat"
	"trencher/units"
)

func requireWrong(t *testing.T, field string, err error, text string) {
	t.Helper()
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong, text)
	assert.Equal(t, field, wrong.Field, text)
}

func TestSpansOfSizes(t *testing.T) {
	for text, want := range map[string][]float64{
		"":             nil,
		"20..30":       {20, 25, 30},
		"6..10:2":      {6, 8, 10},
		" 20..25 mm":   {20, 25},
		"20..21:0.5mm": {20, 20.5, 21},
	} {
		sizes, err := heat.ParseSpan(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, sizes, text)
	}
	for _, text := range []string{"20", "30..20", "20..30:0", "20..30:x", "0..30", "20..9000", "NaN..30", "20..NaN"} {
		_, err := heat.ParseSpan(text)
		requireWrong(t, "sizes", err, text)
	}
}

func TestLotsOfSizes(t *testing.T) {
	potato, err := heat.LookupCrop("potato", "")
	require.NoError(t, err)
	for text, want := range map[string]heat.SizeClass{
		"20-45 mm":       {LowMM: 20, HighMM: 45},
		"2-4.5 cm 820 g": {LowMM: 20, HighMM: 45, Grams: 820},
		"820 g 9 pieces": {Grams: 820, Count: 9},
		"820 g 9":        {Grams: 820, Count: 9},
	} {
		class, err := heat.ParseSizeClass(text, potato, units.Metric)
		require.NoError(t, err, text)
		assert.Equal(t, want, class, text)
	}
	for _, text := range []string{"", "many", "820 g", "820 g 9.5 pieces", "3 C 9 pieces", "9000 m 1 kg"} {
		_, err := heat.ParseSizeClass(text, potato, units.Metric)
		requireWrong(t, "lot", err, text)
	}
}

func TestFoundByTheKnife(t *testing.T) {
	for text, want := range map[string]heat.Found{
		"9 min just-tender":          {Until: heat.JustTender},
		"9 min just tender":          {Until: heat.JustTender},
		"0.15 h soft":                {Until: heat.Soft},
		"9 min Tender":               {Until: heat.Tender},
		"9 min just-right tender":    {Until: heat.Tender},
		"9 min not-yet just-tender":  {Until: heat.JustTender, Said: heat.NotYet},
		"9 min not yet just tender":  {Until: heat.JustTender, Said: heat.NotYet},
		"9 min over tender":          {Until: heat.Tender, Said: heat.Over},
		" 9 min   over   soft ":      {Until: heat.Soft, Said: heat.Over},
		"9 min NOT-YET soft":         {Until: heat.Soft, Said: heat.NotYet},
		"9 minutes just right  soft": {Until: heat.Soft},
	} {
		found, err := heat.ParseFound(text)
		require.NoError(t, err, text)
		assert.InDelta(t, 9, found.Minutes, 1e-9, text)
		found.Minutes = 0
		assert.Equal(t, want, found, text)
	}
	for _, text := range []string{"", "9", "9 min", "9 min done", "9 g soft", "0.4 min soft", "181 min soft", "9-10 min soft", "9 min over", "9 min not-yet", "over tender", "9 min under tender", "9 min over over tender", "tender 9 min"} {
		_, err := heat.ParseFound(text)
		requireWrong(t, "found", err, text)
	}
}

func TestSpreadsAndTubers(t *testing.T) {
	for text, want := range map[string]heat.Spread{"tray": {}, "bowl": {Bowl: true}, "bowl 6 cm": {Bowl: true, DepthMM: 60},
		"cold water": {In: heat.ColdWater}, "Ice  water": {In: heat.IceWater}, "bowl in ice water": {Bowl: true, In: heat.IceWater}, "bowl 60 mm in cold water": {Bowl: true, DepthMM: 60, In: heat.ColdWater}} {
		spread, err := heat.ParseSpread(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, spread, text)
	}
	for _, text := range []string{"", "bucket", "bowl deep", "bowl 3 g", "tray in ice water", "water", "in cold water"} {
		_, err := heat.ParseSpread(text)
		requireWrong(t, "cool", err, text)
	}
	potato, err := heat.LookupCrop("potato", "")
	require.NoError(t, err)
	mm, assumed, err := heat.ParseTuber("4.5 cm", potato, units.Metric)
	require.NoError(t, err)
	assert.InDelta(t, 45, mm, 1e-9)
	assert.Empty(t, assumed)
	_, assumed, err = heat.ParseTuber("120 g", potato, units.Metric)
	require.NoError(t, err)
	assert.Len(t, assumed, 1, "its thickness is reckoned, and said")
	_, _, err = heat.ParseTuber("40-50 mm", potato, units.Metric)
	requireWrong(t, "tuber", err, "40-50 mm")
}

// What is not written stays as the kitchen has it.
func TestWordsOverAKitchen(t *testing.T) {
	kitchen := heat.Question{RoomC: 21, Conditions: heat.Conditions{AltitudeM: 40}}
	q, _, err := heat.Words{Crop: "potato", Cut: "cube 25 mm", Load: "1.2 kg", Cool: "tray", Room: "25 C"}.Read(kitchen, units.Metric, 6)
	require.NoError(t, err)
	assert.InDelta(t, 25, q.RoomC, 0)
	assert.InDelta(t, 40, q.Conditions.AltitudeM, 0)
	assert.Equal(t, heat.Spread{Grams: 1200, FridgeC: 6}, *q.Cool)
	assert.Equal(t, heat.JustTender, q.Until)
	_, _, err = heat.Words{Crop: "potato"}.Read(kitchen, units.Metric, 0)
	requireWrong(t, "cut", err, "no cut")
	_, _, err = heat.Words{Crop: "potato", Sizes: "20..30", Cut: "cube", Curve: true}.Read(kitchen, units.Metric, 0)
	requireWrong(t, "chart", err, "a table")
}

// A height may be below the sea, and one that cannot be read is told with those that
// are reckoned with.
func TestWordsOfAHeight(t *testing.T) {
	read := func(height string) (float64, error) {
		q, _, err := heat.Words{Crop: "potato", Cut: "cube 25 mm", Altitude: height}.Read(heat.Question{}, units.Metric, 0)
		return q.Conditions.AltitudeM, err
	}
	for text, want := range map[string]float64{"60 m": 60, "-400 m": -400, "− 0.4 km": -400, "minus 100 ft": -30.48, "9 km": 9000} {
		m, err := read(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, m, 1e-9, text)
	}
	for _, text := range []string{"-9 l", "high", "--9 m", "-", "10-20 m"} {
		_, err := read(text)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, text)
		assert.Equal(t, []string{"altitude", text, "write a height of -430 to 5500 m, such as 60 m"}, []string{wrong.Field, wrong.Value, wrong.Hint()})
	}
}
