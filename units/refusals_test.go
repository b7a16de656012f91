package units_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// What is refused under metric measures, in the words a cook reads, and what
// to write instead.
func TestRefusals(t *testing.T) {
	const anyUnit = "write g, kg, oz, lb, ml, l, tsp, tbsp, cup, pt, mm, cm, m2, C, or a plain number of pieces"
	const oneFraction = "write one fraction: 1½, 1 1/2 or 1.5"
	const falling = "write one dimension from large to small, such as 2 lb 4 oz"
	const numberAndUnit = "write a number and a unit, such as 250 g"
	for _, row := range []struct{ text, says, hint string }{
		{"", `no amount`, `write a number and a unit, such as 250 g, or "to taste"`},
		{"   ", `"   ": no amount`, `write a number and a unit, such as 250 g, or "to taste"`},
		{"2,750 g", `"2,750 g": a comma before three digits may be a thousand or a decimal`, "write 2750 or 2.750"},
		{"2,750.5 g", `"2,750.5 g": a comma before three digits may be a thousand or a decimal`, "write 2750 or 2.750"},
		{"1.250,5 g", `"1.250,5 g": a number with two points or commas`, "write 2750 without a comma, or 2.75 with a point"},
		{"1/0 g", `"1/0 g": a fraction over nought`, oneFraction},
		{"↉ g", `"↉ g": a fraction of nought`, oneFraction},
		{"1 1/2 1/4 g", `"1 1/2 1/4 g": two fractions together`, oneFraction},
		{"½ ¼ g", `"½ ¼ g": two fractions together`, oneFraction},
		{"1.5½ g", `"1.5½ g": a fraction after a decimal`, oneFraction},
		{"1.5 1/2 g", `"1.5 1/2 g": a fraction after a decimal`, oneFraction},
		{"1 5/4 g", `"1 5/4 g": the fraction beside a whole number is one or more`, oneFraction},
		{"1/ g", `"1/ g": a fraction with nothing under it`, oneFraction},
		{"1 000 g", `"1 000 g": two numbers side by side`, "write one number, thousands without a gap; or packs of one size: 2 x 400 g"},
		{"2 400 tins", `"2 400 tins": two numbers side by side`, "write one number, thousands without a gap; or packs of one size: 2 x 400 g"},
		{"-2 g", `"-2 g": below zero`, "write an amount above zero"},
		{"-2", `"-2": below zero`, "write an amount above zero"},
		{"2-1 g", `"2-1 g": the range runs backwards`, "write the smaller end first; one and a half is 1½ or 1 1/2"},
		{"1 - 1/2 cups", `"1 - 1/2 cups": the range runs backwards`, "write the smaller end first; one and a half is 1½ or 1 1/2"},
		{"1 kg to 500 g", `"1 kg to 500 g": the range runs backwards`, "write the smaller end first; one and a half is 1½ or 1 1/2"},
		{"1 g to 2 ml", `"1 g to 2 ml": a range from gram to millilitre`, "write both ends in units of one dimension"},
		{"1-2-3 g", `"1-2-3 g": cannot read "-3 g"`, "write one amount, such as 250 g, 1-2 tbsp or 2 lb 4 oz"},
		{"4 oz 2 lb", `"4 oz 2 lb": pound is not smaller than ounce`, falling},
		{"2 lb 3 ml", `"2 lb 3 ml": pound and millilitre do not add up`, falling},
		{"1½ lb 2 oz", `"1½ lb 2 oz": only the last part may have a fraction`, falling},
		{"2 lb 4", `"2 lb 4": the last number has no unit`, falling},
		{"2 stonez", `"2 stonez": unknown unit "stonez"`, "write stone, if that is meant; else " + strings.TrimPrefix(anyUnit, "write ")},
		{"1e3 g", `"1e3 g": unknown unit "e"`, anyUnit},
		{"kg", `"kg": it does not begin with a number`, numberAndUnit},
		{"some butter", `"some butter": it does not begin with a number`, numberAndUnit},
		{"2 gr", `"2 gr": gr is a grain in Britain and a gram elsewhere: write grain or g`, ""},
		{"2 heaped", `"2 heaped": heaped what? write a heaped teaspoon, dessertspoon, tablespoon or cup`, ""},
		{"1 scant knob", `"1 scant knob": heaped what? write a heaped teaspoon, dessertspoon, tablespoon or cup`, ""},
		{"2 x", `"2 x": packs of what size?`, "write one number, thousands without a gap; or packs of one size: 2 x 400 g"},
		{"2 x 20 C", `"2 x 20 C": a pack holds no temperature`, "write one number, thousands without a gap; or packs of one size: 2 x 400 g"},
		{"200 g/1 lb", `"200 g/1 lb": 200 g and 1 lb are not the same amount`, "write one of the two"},
		{"250 g (9 oz", `"250 g (9 oz": a bracket is not shut`, "write one amount, such as 1 cup (240 ml)"},
		{"180°", `"180°": degrees of which scale: write C or F, such as 180 C`, ""},
		{"minus 2 g", `"minus 2 g": below zero`, "write an amount above zero"},
		{"-300 C", `"-300 C": colder than anything can be`, "write a temperature above -273.15 C"},
		{"-1 K", `"-1 K": colder than anything can be`, "write a temperature above -273.15 C"},
		{"minus", `"minus": it does not begin with a number`, "write a number and a unit, such as 250 g"},
		{"1 tin tomatoes", `"1 tin tomatoes": unknown unit "tin tomatoes"`, "write the unit alone: tin"},
		{"1 sack", `"1 sack": a container has no fixed size: weigh it, or give its volume in litres`, ""},
		{"1 metric pint", `"1 metric pint": there is no metric pint`, "write pt UK or pt US"},
		{"2 metric lb", `"2 metric lb": there is no metric pound`, anyUnit},
		{"2 US dsp", `"2 US dsp": a dessertspoon is not used in the US: write 2 tsp`, "write dsp metric"},
		{"gas mark 11", `"gas mark 11": there is no gas mark 11`, "write gas mark 1/4, 1/2, or a whole mark from 1 to 10"},
		{"20 C 3 F", `"20 C 3 F": temperatures do not add up`, "write one temperature"},
		{strings.Repeat("9", 401) + " g", `"` + strings.Repeat("9", 57) + `...": a number of more than 400 digits`, "write a kitchen's number"},
		{strings.Repeat("x", 4001), `"` + strings.Repeat("x", 57) + `...": too long for an amount`, "write a number and a unit"},
	} {
		t.Run(row.text, func(t *testing.T) {
			_, err := units.Parse(row.text, units.Metric)
			require.EqualError(t, err, row.says)
			var hinted interface{ Hint() string }
			require.True(t, errors.As(err, &hinted))
			assert.Equal(t, row.hint, hinted.Hint())
		})
	}
}

// A word that is no unit is told from an amount that is wrong, so that what
// follows an amount can be taken for its ingredient.
func TestUnknownUnitsAreToldApart(t *testing.T) {
	for text, unknown := range map[string]bool{
		"3 eggs": true, "2 tbsp mayonnaise": true, "1 smoot": true,
		"1 tin of peas": true, "1 sack of peas": false, "1 heaped": false, "1 pint": false, "250": false, "": false,
	} {
		_, err := units.Parse(text, units.NoSystem)
		assert.Equal(t, unknown, errors.Is(err, units.ErrUnknownUnit), "%q: %v", text, err)
	}
}

// Asking one thing to be another.
func TestWrongDimensions(t *testing.T) {
	for _, row := range []struct{ amount, in, says, hint string }{
		{"5 C", "ml", "5 C is a temperature, not a volume", ""},
		{"3 m", "m2", "3 m is a length, not an area", "write an area such as 2 m2 or 3 sq yd"},
		{"2 tsp", "g", "2 tsp metric is a volume, not a mass", "what it weighs depends on the ingredient: name it"},
		{"2 cloves", "bulb", `2 clove is counted in "clove", not "bulb"`, "what it weighs depends on the ingredient: name it"},
		{"10 min", "g", "10 min is a time, not a mass", ""},
	} {
		to, err := units.ParseUnit(row.in, units.Metric)
		require.NoError(t, err)
		_, err = units.MustParse(row.amount).In(to)
		var wrong *units.DimensionError
		require.ErrorAs(t, err, &wrong)
		assert.EqualError(t, err, row.says)
		assert.Equal(t, row.hint, wrong.Hint())
	}
}

// A rod is a length, but of a plot a square rod is meant.
func TestRodsOfAPlot(t *testing.T) {
	area, err := units.MustParse("10 rods").In(units.SquareMetre)
	require.NoError(t, err)
	assert.Equal(t, "252.9285264 m2", area.String())
	rods, err := units.MustParse("252.9285264 m2").In(units.MustParse("1 rod").Unit())
	require.NoError(t, err)
	assert.Equal(t, "10 sq rod", rods.String())
	length, err := units.MustParse("1 rod").In(units.Metre)
	require.NoError(t, err)
	assert.Equal(t, "5.0292 m", length.String())
}

// A heat between two marks names the nearer; one off the dial names its ends.
func TestHeatsThatAreNoMark(t *testing.T) {
	_, err := units.MustParse("180 C").In(units.GasMark)
	var off *units.MarkError
	require.ErrorAs(t, err, &off)
	assert.True(t, off.IsNear())
	assert.EqualError(t, off, "no gas mark is exactly 180 C; the nearest is gas mark 4, 176.7 C")
	assert.Equal(t, "a gas oven's marks run from 1/4 (107 C) to 10 (260 C)", off.Hint())
	_, err = units.MustParse("30 C").In(units.GasMark)
	require.ErrorAs(t, err, &off)
	assert.False(t, off.IsNear())
}
