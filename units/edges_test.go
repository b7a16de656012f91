package units_test

import (
	"encoding/json"
	"errors"
	"math/big"
	"strings"
	"testing"

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
