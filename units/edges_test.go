package units_test

import (
	"encoding/json"
	"errors"
	"math/big"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"trencher/units"
)

// No number of an amount may have more than 400 digits, wherever it stands; what it
// comes to may have 1,300 bits, which is a few digits less.
func TestNumbersHaveABound(t *testing.T) {
	most, more := strings.Repeat("9", 390), strings.Repeat("9", 401)
	for _, form := range []string{"# g", "0.# g", "1 #/2 g", "1 1/# g", "1/# g", "#/2 g", "1-# g", "2 x # g", "1 kg (# g)"} {
		_, err := units.Parse(strings.ReplaceAll(form, "#", more), units.Metric)
		assert.ErrorContains(t, err, "more than 400 digits", form)
	}
	for _, form := range []string{"# g", "1/# g", "1-# g", "0." + most[1:] + " g"} {
		q, err := units.Parse(strings.ReplaceAll(form, "#", most), units.Metric)
		require.NoError(t, err, form)
		again, err := units.Parse(q.String(), units.NoSystem)
		require.NoError(t, err, form)
		assert.True(t, again.Same(q), form)
	}
	_, err := units.Parse(most+" lb "+most+" oz", units.Metric)
	assert.NoError(t, err)
	_, err = units.Parse(most+" x "+most+" g", units.Metric)
	assert.ErrorContains(t, err, "more than 400 digits", "nor may what they come to")
	_, err = units.Parse(strings.Repeat(" ", 3997)+"1 g", units.Metric)
	assert.NoError(t, err, "4000 characters are read")
}

// A range is converted end by end, or not at all.
func TestRangesOfHeats(t *testing.T) {
	marks, err := units.MustParse("gas mark 1").In(units.Celsius)
	require.NoError(t, err)
	_, err = units.FromRange(marks.Rat(), big.NewRat(180, 1), units.Celsius).In(units.GasMark)
	var between *units.MarkError
	require.ErrorAs(t, err, &between)
	assert.Equal(t, "gas mark 4", between.Nearest.String())
	both, err := units.MustParse("275-300 F").In(units.GasMark)
	require.NoError(t, err)
	assert.Equal(t, "gas mark 1-2", both.String())
	_, err = units.Parse("120 C to 11 gas mark", units.Metric)
	assert.ErrorContains(t, err, "there is no gas mark 11")
	_, err = units.Parse("-2 to 3 g", units.Metric)
	assert.ErrorContains(t, err, "below zero")
}

// What is no amount and what has no unit take part in nothing.
func TestNothingIsNoAmount(t *testing.T) {
	gram, taste := units.MustParse("1 g"), units.ToTaste()
	for _, none := range []units.Quantity{{}, taste} {
		for name, err := range map[string]error{
			"in":       second(none.In(units.Gram)),
			"add":      second(gram.Add(none)),
			"add to":   second(none.Add(gram)),
			"sub":      second(gram.Sub(none)),
			"compare":  second(gram.Compare(none)),
			"compared": second(none.Compare(gram)),
			"float":    second(none.Float64(units.Gram)),
		} {
			assert.ErrorIs(t, err, units.ErrNoAmount, name)
		}
		assert.False(t, none.Equal(gram))
		assert.False(t, gram.Equal(none))
		assert.True(t, none.Scale(big.NewRat(2, 1)).Same(none))
		rounded, exact := none.Rounded(2)
		assert.True(t, exact)
		assert.True(t, rounded.Same(none))
		assert.False(t, none.IsRough())
		_, sized := units.Kitchen{}.Size(none)
		assert.False(t, sized)
	}
	assert.True(t, taste.Equal(units.ToTaste()))
	assert.False(t, taste.Equal(units.Quantity{}))
	assert.False(t, taste.Same(units.Quantity{}))
	_, err := gram.In(units.Unit{})
	assert.EqualError(t, err, "1 g is a mass, not no amount")
	assert.False(t, units.FromRat(big.NewRat(1, 1), units.Unit{}).IsValid())
	assert.False(t, units.FromRange(big.NewRat(1, 1), big.NewRat(2, 1), units.Unit{}).IsValid())
	turned := units.FromRange(big.NewRat(2, 1), big.NewRat(1, 1), units.Gram)
	assert.Equal(t, "1-2 g", turned.String())
	assert.Equal(t, "-2 to -1 C", units.MustParse("1-2 C").Scale(big.NewRat(-1, 1)).String())
	assert.Equal(t, "1-3 g", second2(units.MustParse("4-5 g").Sub(units.MustParse("2-3 g"))).String(), "the least and the most it can be")
	assert.Panics(t, func() { units.MustParse("3 smoots") })
	zero := units.Unit{}
	assert.Empty(t, zero.Name()+zero.Symbol()+zero.Code()+zero.Kind()+zero.Definition()+zero.Note()+zero.Caution()+zero.String())
	assert.False(t, zero.IsValid() || zero.IsRough() || zero.IsPack() || zero.IsBase() || zero.IsSize())
	assert.Equal(t, units.NoSystem, zero.System())
	assert.Equal(t, units.NoDimension, zero.Dimension())
	assert.Equal(t, units.Provenance{}, zero.Origin())
	assert.Equal(t, "dimension 99", units.Dimension(99).String())
	assert.Equal(t, "no dimension", units.NoDimension.String())
	assert.Equal(t, "pressure", units.Pressure.String())
	assert.Equal(t, "dimension 11", (units.Pressure + 1).String())
	_, err = units.ParseUnit("", units.Metric)
	assert.ErrorContains(t, err, "no unit")
	none, err := units.MustParse("to taste").Float64(units.Gram)
	assert.Zero(t, none)
	assert.Error(t, err)
}

func second[T any](_ T, err error) error { return err }

func second2(q units.Quantity, err error) units.Quantity {
	if err != nil {
		panic(err)
	}
	return q
}

// Order: by the low ends, then by the high ends.
func TestCompare(t *testing.T) {
	for _, c := range []struct {
		a, b  string
		order int
	}{
		{"1 kg", "1000 g", 0}, {"1 kg", "999 g", 1}, {"1 kg", "1001 g", -1}, {"1-2 g", "1-3 g", -1}, {"1-3 g", "1-2 g", 1}, {"1-3 g", "2 g", -1}, {"1-2 kg", "1000-2000 g", 0},
	} {
		order, err := units.MustParse(c.a).Compare(units.MustParse(c.b))
		require.NoError(t, err)
		assert.Equal(t, c.order, order, "%s and %s", c.a, c.b)
		assert.Equal(t, c.order == 0, units.MustParse(c.a).Equal(units.MustParse(c.b)), "%s and %s", c.a, c.b)
	}
	_, err := units.MustParse("1 g").Compare(units.MustParse("1 ml"))
	assert.Error(t, err)
	assert.False(t, units.MustParse("1 g").Equal(units.MustParse("1 ml")))
	assert.False(t, units.MustParse("1 kg").Same(units.MustParse("1000 g")))
	assert.False(t, units.MustParse("1-2 g").Same(units.MustParse("1-3 g")))
	assert.False(t, units.MustParse("1 g").Same(units.MustParse("1-2 g")))
	_, err = units.MustParse("20 C").Add(units.MustParse("20 C"))
	assert.ErrorIs(t, err, units.ErrTemperatures)
	assert.Equal(t, -1, units.MustParse("-5 to 2 C").Sign())
	assert.Zero(t, units.MustParse("0 g").Sign())
	assert.Equal(t, 1, units.MustParse("0.1 g").Sign())
}

// What is written as JSON is read as JSON; what nobody wrote is refused.
func TestQuantityJSONRefuses(t *testing.T) {
	for text, says := range map[string]string{
		`"3 smoots"`: "unknown unit", `"1 pint"`: "may be", `3`: "cannot unmarshal", `{"value":"1","unit":"smoot"}`: "not a unit's code", `{"value":"x","unit":"g"}`: "not a number", `{"value":"1e3","unit":"g"}`: "not a number",
		`{"value":"1","ratio":"1e3","unit":"g"}`: "not a number", `{"value":"1","ratio":"x","unit":"g"}`: "not a number", `{"value":"1","ratio":"0x1p2","unit":"g"}`: "not a number", `{"value":"1","ratio":"1/0","unit":"g"}`: "not a number",
		`{"low":"x","high":"2","unit":"g"}`: "not a number", `{"low":"1","high":"x","unit":"g"}`: "not a number", `{"low":"2","high":"1","unit":"g"}`: "the range runs backwards",
		`{"value":"` + strings.Repeat("1", 4001) + `","unit":"g"}`: "not a number", `{"value":"1","ratio":"` + strings.Repeat("1", 4001) + `","unit":"g"}`: "not a number",
	} {
		q := units.MustParse("7 g")
		err := json.Unmarshal([]byte(text), &q)
		require.ErrorContains(t, err, says, text)
		assert.Equal(t, "7 g", q.String(), "what was there stays: %s", text)
	}
	for text, want := range map[string]string{
		`null`: "", `"1 pt UK"`: "1 pt UK", `""`: "", `{"to_taste":true}`: "to taste", `{"value":"1.5","unit":"mL"}`: "1.5 ml", `{"value":"0.3","ratio":"1/3","unit":"g"}`: "1/3 g",
		`{"value":"2","unit":"pinch"}`: "2 pinch", `{"low":"1","high":"2","unit":"g"}`: "1-2 g", `{"low":"1","high":"1","unit":"g"}`: "1 g", `{"value":"2","unit":"tablespoon (AU)"}`: "2 tbsp AU",
	} {
		var q units.Quantity
		require.NoError(t, json.Unmarshal([]byte(text), &q), text)
		assert.Equal(t, want, q.String(), text)
	}
	assert.Error(t, new(units.Quantity).UnmarshalJSON([]byte(`"x`)))
}

// Errors without the text they were found in, and words with one reading.
func TestErrorsByThemselves(t *testing.T) {
	one := &units.AmbiguousError{Word: "dessertspoon", Readings: []units.Reading{{System: units.Metric, Unit: units.Tablespoon}}}
	assert.EqualError(t, one, "a dessertspoon is 15 ml (metric)")
	one.Note = "not used in the US"
	assert.EqualError(t, one, "a dessertspoon is 15 ml (metric); not used in the US")
	one.Input = "2 dsp"
	assert.EqualError(t, one, `"2 dsp": a dessertspoon is 15 ml (metric); not used in the US`)
	assert.Empty(t, (&units.ParseError{Reason: "no"}).Hint())
	assert.False(t, errors.Is(&units.ParseError{Reason: "no"}, units.ErrUnknownUnit))
	pieces := &units.DimensionError{Quantity: units.MustParse("2 cloves"), From: units.MustParse("2 cloves").Unit(), To: units.Piece}
	assert.EqualError(t, pieces, `2 clove is counted in "clove", not pieces`)
	assert.True(t, pieces.Crosses())
	assert.False(t, (&units.DimensionError{From: units.Gram, To: units.Metre}).Crosses())
	assert.False(t, (&units.DimensionError{From: units.Metre, To: units.Gram}).Crosses())
	assert.Empty(t, (&units.DimensionError{From: units.SquareMetre, To: units.Metre}).Hint())
	_, err := units.MustParse("3 kJ").In(units.SquareMetre)
	assert.EqualError(t, err, "3 kJ is an energy, not an area")
	_, err = units.MustParse("3 W").In(units.Minute)
	assert.EqualError(t, err, "3 W is a power, not a time")
	long := strings.Repeat("é", 60)
	_, err = units.Parse(long, units.Metric)
	assert.ErrorContains(t, err, `"`+strings.Repeat("é", 28)+`..."`)
	_, err = units.Parse(strings.Repeat("x", 60), units.Metric)
	assert.ErrorContains(t, err, `"`+strings.Repeat("x", 60)+`"`, "sixty letters are told whole")
}

// What was typed is put where it lacks, in that field's error alone.
func TestAsTyped(t *testing.T) {
	assert.EqualError(t, units.AsTyped(units.WrongField("for", "", "not who eats", ""), "for", "nobody"), `for "nobody": not who eats`)
	assert.EqualError(t, units.AsTyped(units.WrongField("for", "us", "not who eats", ""), "for", "nobody"), `for "us": not who eats`)
	assert.EqualError(t, units.AsTyped(units.WrongField("on", "", "not a day", ""), "for", "nobody"), "on: not a day")
	plain := errors.New("no")
	assert.Equal(t, plain, units.AsTyped(plain, "for", "nobody"))
	_, ambiguous := units.Parse("1 pint", units.NoSystem)
	var told *units.FieldError
	require.ErrorAs(t, units.InField("limit", "1 pint", ambiguous), &told)
	assert.Equal(t, "pt UK or pt US, or set the kitchen's measures", told.Accepted)
	assert.Contains(t, told.Problem, "a pint may be")
	assert.NotContains(t, told.Problem, `"1 pint"`)
}

// Control characters, and the marks that turn the direction of writing, by the Unicode
// standard's general category Cc and its bidirectional controls (Unicode Annex 9).
func TestHidden(t *testing.T) {
	for _, c := range []rune{0, '\a', '\r', 0x1b, 0x7f, 0x85, 0x9f, 0x202a, 0x202b, 0x202e, 0x2066, 0x2067, 0x2069} {
		assert.True(t, units.Hidden(c), "%U", c)
	}
	for _, c := range []rune{'\n', '\t', ' ', '~', 0xa0, 'é', 0x2029, 0x202f, 0x2065, 0x206a} {
		assert.False(t, units.Hidden(c), "%U", c)
	}
}

// Dates of the year stand in files as they are typed.
func TestMonthDayOfAFile(t *testing.T) {
	var file struct{ Frost units.MonthDay }
	require.NoError(t, yaml.Unmarshal([]byte("frost: 10-20"), &file))
	assert.Equal(t, "10-20", file.Frost.String())
	assert.Error(t, yaml.Unmarshal([]byte("frost: october"), &file))
	assert.Equal(t, "2031-03-01", units.MonthDay{Month: 3, Day: 1}.In(2031).Format("2006-01-02"))
	assert.Equal(t, "03-01", units.MonthDay{Month: 3, Day: 1}.String())
}

// The distance of words, by hand: kitten and sitting are three apart (the textbook
// example of Levenshtein's distance).
func TestLettersApart(t *testing.T) {
	long := strings.Repeat("ab", 40)
	for _, c := range []struct {
		a, b string
		far  int
	}{
		{"kitten", "sitting", 3}, {"", "abc", 3}, {"abc", "", 3}, {"abc", "abc", 0}, {"abc", "abd", 1}, {"abc", "ab", 1}, {"ab", "xab", 1}, {"ab", "ba", 2},
		{long, long, 0}, {long, long[1:], 1}, {"", long, 80}, {strings.Repeat("a", 63), strings.Repeat("b", 63), 63}, {strings.Repeat("a", 64), strings.Repeat("b", 64), 64}, {"x", strings.Repeat("y", 65), 65},
	} {
		assert.Equal(t, c.far, units.LettersApart(c.a, c.b), "%s %s", c.a, c.b)
	}
}

// A kitchen without figures measures by those of its system; one that measures nothing
// of a kind passes it on.
func TestKitchenPassesOn(t *testing.T) {
	q := units.MustParse("3 J")
	m := units.Kitchen{}.Measure(q, units.MeasureOptions{})
	assert.Equal(t, "3 J", m.Text)
	assert.True(t, m.Value.Same(q))
	m = units.Kitchen{}.Measure(units.MustParse("20-25 C"), units.MeasureOptions{Style: units.ByJug})
	assert.Equal(t, "20 C to 25 C", m.Text)
	assert.Zero(t, m.ErrorPercent.Sign())
	m = units.Kitchen{}.Measure(units.MustParse("0-5 g"), units.MeasureOptions{})
	assert.Equal(t, "0-5 g", m.Text, "from nothing on there is nothing to round")
}

// The vulgar fractions by their numeric values in the Unicode Character Database.
func TestVulgarFractions(t *testing.T) {
	for sign, value := range map[string]*big.Rat{"½": big.NewRat(1, 2), "¼": big.NewRat(1, 4), "¾": big.NewRat(3, 4), "⅓": big.NewRat(1, 3), "⅔": big.NewRat(2, 3), "⅛": big.NewRat(1, 8), "⅜": big.NewRat(3, 8), "⅝": big.NewRat(5, 8), "⅞": big.NewRat(7, 8), "⅕": big.NewRat(1, 5), "⅖": big.NewRat(2, 5), "⅗": big.NewRat(3, 5), "⅘": big.NewRat(4, 5), "⅙": big.NewRat(1, 6), "⅚": big.NewRat(5, 6), "⅐": big.NewRat(1, 7), "⅑": big.NewRat(1, 9), "⅒": big.NewRat(1, 10)} {
		assert.Zero(t, value.Cmp(units.MustParse(sign+" g").Rat()), sign)
		assert.Zero(t, new(big.Rat).Add(value, big.NewRat(3, 1)).Cmp(units.MustParse("3"+sign+" g").Rat()), sign)
	}
	for word, value := range map[string]int64{"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12} {
		assert.Zero(t, big.NewRat(value, 1).Cmp(units.MustParse(word+" g").Rat()), word)
	}
	for word, value := range map[string]*big.Rat{"half": big.NewRat(1, 2), "quarter": big.NewRat(1, 4), "third": big.NewRat(1, 3), "three halves": big.NewRat(3, 2), "two thirds": big.NewRat(2, 3), "three quarters": big.NewRat(3, 4), "one and a third": big.NewRat(4, 3), "two and a half": big.NewRat(5, 2)} {
		assert.Zero(t, value.Cmp(units.MustParse(word+" lb").Rat()), word)
	}
	_, err := units.Parse("1 .5 g", units.Metric)
	assert.EqualError(t, err, `"1 .5 g": cannot read ".5 g"`)
	_, err = units.Parse("1 ,5 g", units.Metric)
	assert.EqualError(t, err, `"1 ,5 g": unknown unit ","`)
}

// A decimal of up to forty signs is written as one, a longer one as a fraction.
func TestLongDecimalsAreFractions(t *testing.T) {
	at := func(places int64) units.Quantity {
		return units.FromRat(new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(places), nil)), units.Gram)
	}
	assert.Equal(t, "0."+strings.Repeat("0", 37)+"1 g", at(38).String())
	assert.Equal(t, "1/1"+strings.Repeat("0", 39)+" g", at(39).String())
	assert.Equal(t, "1"+strings.Repeat("0", 50)+" g", units.FromRat(new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(50), nil)), units.Gram).String(), "a whole number stays")
	assert.Equal(t, "-1/3 C", units.FromRat(big.NewRat(-1, 3), units.Celsius).String())
	assert.Equal(t, "-2 1/3 C", units.FromRat(big.NewRat(-7, 3), units.Celsius).String())
	_, err := units.ParseUnit("[foz_us]s", units.Metric)
	assert.Error(t, err, "a code has no plural")
	_, err = units.ParseUnit("{clove}s", units.Metric)
	assert.Error(t, err)
}

// Where one measure gives way to another, to the step (common practice, no source: the
// steps are those of [TestMeasure]).
func TestWhereMeasuresGiveWay(t *testing.T) {
	jug := units.Kitchen{JugStep: units.MustParse("333 ml")}
	dense := units.MeasureOptions{Density: big.NewRat(1, 1)}
	for _, c := range []struct {
		kitchen units.Kitchen
		amount  string
		options units.MeasureOptions
		text    string
	}{
		{jug, "999 ml", units.MeasureOptions{}, "999 ml"}, {units.Kitchen{}, "1 l", units.MeasureOptions{}, "1 l"}, {units.Kitchen{}, "999 g", units.MeasureOptions{}, "1 kg"}, {units.Kitchen{ScaleStep: units.MustParse("333 g")}, "999 g", units.MeasureOptions{}, "999 g"},
		{units.Kitchen{}, "2 2/9 g", dense, "2 g"}, {units.Kitchen{}, "1.99 g", dense, "⅜ tsp"}, {units.Kitchen{}, "2.49 g", dense, "½ tsp"}, {units.Kitchen{}, "5 g", dense, "5 g"}, {units.Kitchen{ScaleStep: units.MustParse("0.5 g")}, "1.5 g", dense, "1.5 g"}, {units.Kitchen{ScaleStep: units.MustParse("1 g")}, "1.5 g", dense, "¼ tsp + a pinch"},
		{units.Kitchen{}, "49.4 g", units.MeasureOptions{}, "49 g"}, {units.Kitchen{}, "52 g", units.MeasureOptions{}, "50 g"}, {units.Kitchen{}, "499 g", units.MeasureOptions{}, "500 g"}, {units.Kitchen{}, "504 g", units.MeasureOptions{}, "500 g"}, {units.Kitchen{}, "506 g", units.MeasureOptions{}, "510 g"}, {units.Kitchen{}, "1996 g", units.MeasureOptions{}, "2 kg"}, {units.Kitchen{}, "2024 g", units.MeasureOptions{}, "2 kg"}, {units.Kitchen{}, "2025 g", units.MeasureOptions{}, "2.05 kg"},
		{units.Kitchen{}, "14.9 ml", units.MeasureOptions{}, "1 tbsp"}, {units.Kitchen{}, "15 ml", units.MeasureOptions{}, "15 ml"}, {units.Kitchen{}, "97 ml", units.MeasureOptions{}, "95 ml"}, {units.Kitchen{}, "104 ml", units.MeasureOptions{}, "100 ml"}, {units.Kitchen{}, "60 ml", units.MeasureOptions{Style: units.BySpoon}, "4 tbsp"}, {units.Kitchen{}, "60.1 ml", units.MeasureOptions{Style: units.BySpoon}, "60 ml"},
		{units.Kitchen{System: units.UK}, "15.6 oz", units.MeasureOptions{}, "15½ oz"}, {units.Kitchen{System: units.UK}, "7.9 oz", units.MeasureOptions{}, "8 oz"}, {units.Kitchen{System: units.UK}, "8.2 oz", units.MeasureOptions{}, "8 oz"}, {units.Kitchen{System: units.UK}, "16.4 oz", units.MeasureOptions{}, "1 lb"}, {units.Kitchen{System: units.UK}, "65 oz", units.MeasureOptions{}, "4 lb"}, {units.Kitchen{System: units.UK}, "66 oz", units.MeasureOptions{}, "4 lb 4 oz"},
		{units.Kitchen{}, "19 mm", units.MeasureOptions{}, "19 mm"}, {units.Kitchen{}, "21 mm", units.MeasureOptions{}, "20 mm"}, {units.Kitchen{}, "23 mm", units.MeasureOptions{}, "25 mm"}, {units.Kitchen{}, "0.1 mm", units.MeasureOptions{}, "1 mm"},
		{units.Kitchen{}, "1.1", units.MeasureOptions{Knife: 2}, "1"}, {units.Kitchen{}, "1.3", units.MeasureOptions{Knife: 2}, "1½"}, {units.Kitchen{}, "1.3", units.MeasureOptions{Knife: 4}, "1¼"}, {units.Kitchen{}, "1.3", units.MeasureOptions{}, "1"}, {units.Kitchen{}, "3.25", units.MeasureOptions{Knife: 4}, "3"},
	} {
		q := units.MustParse(c.amount)
		assert.Equal(t, c.text, c.kitchen.Measure(q, c.options).Text, "%s in %v", c.amount, c.kitchen.JugStep)
	}
}

// A kitchen's own size of a pinch counts where it has one; now may be said as no minutes.
func TestOwnSizesThatAreNone(t *testing.T) {
	size, ok := units.Kitchen{Vague: map[string]units.Quantity{"pinch": {}}}.Size(units.MustParse("2 pinches"))
	require.True(t, ok)
	assert.Equal(t, "0.625 ml", size.String(), "a size without a number is none")
	at := time.Date(2031, 7, 12, 16, 40, 25, 0, time.UTC)
	soon, err := units.Clock{Now: at, Zone: time.UTC}.OnDay("serve-at", "in 0 min", at)
	require.NoError(t, err)
	assert.Equal(t, "16:40", soon.Format("15:04"))
}
