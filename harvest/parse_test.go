package harvest

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

func ExampleParseWeighing() {
	w, _ := ParseWeighing("1.46 kg - 0.31 kg", units.Metric)
	l := Lift{Weighings: []Weighing{w}}
	fmt.Println(l.Net(), "g")
	// Output: 1150 g
}

func ExampleParseGrade() {
	g, _ := ParseGrade("820 g 20-45 mm 9 pieces scabby", units.Metric)
	fmt.Println(g.Weight, g.Sizes, g.Count, g.Condition)
	// Output: 820 g 20-45 mm 9 scabby
}

func TestParseWeighing(t *testing.T) {
	for text, want := range map[string]string{
		"1.46 kg - 0.31 kg":   "1150",
		"1.46kg-310g":         "1150",
		"2.29 kg - 0.31":      "1980",
		"2.29 - 0.31 kg":      "1980",
		"2290-310 g":          "1980",
		"2.29 - .31 kg":       "1980",
		"2½ kg - ½":           "2000",
		"1 1/2 - 1/4 kg":      "1250",
		"0,98 kg − 0,31 kg":   "670",
		"980 g – 310 g":       "670",
		"2 lb 4 oz - 8 oz":    "793.7866475",
		"1460 g":              "1460",
		" 310 g - 310 g ":     "0",
		"1 1/2 kg - 1/4 kg":   "1250",
		"1.46 kilograms-0 kg": "1460",
	} {
		w, err := ParseWeighing(text, units.Metric)
		if assert.NoError(t, err, text) {
			assert.Equal(t, want, (&Lift{Weighings: []Weighing{w}}).Net().String(), text)
		}
	}
	for text, says := range map[string]string{
		"":                          "lacks a weight",
		"1.46 kg -":                 "lacks a weight",
		"- 0.31 kg":                 "lacks a weight",
		"1.46 kg - 0.31 kg - 40 g":  "more than gross less tare",
		"0.31 kg - 1.46 kg":         "weighs more than the full one",
		"0 kg":                      "without a gross weight",
		"1.46 l - 0.31 l":           "not one weight",
		"1.46 - 0.31":               "not one weight",
		"2 lb 4 oz - 8":             "not one weight",
		"1.46 - 0.31 l":             "not one weight",
		"2 tonne - 1 kg":            "beyond any scale",
		"a lot - 0.31 kg":           "a lot",
		"1/3 kg - 0.1 kg":           "not one weight",
		"1.46 kg to 2 kg - 0.31 kg": "not one weight",
	} {
		_, err := ParseWeighing(text, units.Metric)
		err = units.InField("weighing", text, err)
		require.ErrorContains(t, err, says, text)
		var hinted interface{ Hint() string }
		require.ErrorAs(t, err, &hinted, text)
		assert.NotEmpty(t, hinted.Hint())
	}
}

func TestParseGrade(t *testing.T) {
	for text, want := range map[string]Grade{
		"820 g 20-45 mm scabby":            {Sizes: units.Band{Low: 20, High: 45}, Weight: units.MustParse("820 g"), Condition: Scabby},
		"scabby, 820 g, 20 to 45 mm":       {Sizes: units.Band{Low: 20, High: 45}, Weight: units.MustParse("820 g"), Condition: Scabby},
		"6 tubers 0.7 kg 45–65mm":          {Sizes: units.Band{Low: 45, High: 65}, Weight: units.MustParse("0.7 kg"), Count: 6, Condition: Sound},
		"90 g damaged":                     {Weight: units.MustParse("90 g"), Condition: Damaged},
		"GREEN 2 oz":                       {Weight: units.MustParse("2 oz"), Condition: Green},
		"1.2kg":                            {Weight: units.MustParse("1.2 kg"), Condition: Sound},
		"45 mm-65 mm 9 pieces 1 lb rotten": {Sizes: units.Band{Low: 45, High: 65}, Weight: units.MustParse("1 lb"), Count: 9, Condition: Rotten},
	} {
		g, err := ParseGrade(text, units.Metric)
		if assert.NoError(t, err, text) {
			assert.True(t, want.Weight.Equal(g.Weight), text)
			assert.Equal(t, want.Sizes, g.Sizes, text)
			assert.Equal(t, want.Count, g.Count, text)
			assert.Equal(t, want.Condition, g.Condition, text)
		}
	}
	for text, says := range map[string]string{
		"":                       "lacks a weight",
		"scabby":                 "lacks a weight",
		"820 g 45-20 mm":         "run from large to small",
		"820 g 45-45 mm":         "no width",
		"820 g 20-900 mm":        "beyond any riddle",
		"820 g 20-45":            "820 g 20-45",
		"820 g scabby green":     "two conditions are named",
		"820 g wormy":            "wormy",
		"0 g sound":              "weighs nothing",
		"820 ml":                 "not one weight",
		"5 tonne sound":          "beyond any scale",
		"820 g 20-45 mm 3-5 kg":  "820 g",
		"820 g 20-45 cm scabby":  "20-45 cm",
		"-820 g":                 "-820 g",
		"820 g 20-45 mm 2 trugs": "trugs",
	} {
		_, err := ParseGrade(text, units.Metric)
		err = units.InField("grade", text, err)
		require.ErrorContains(t, err, says, text)
		var hinted interface{ Hint() string }
		require.ErrorAs(t, err, &hinted, text)
	}
}

func TestBands(t *testing.T) {
	small, wide := units.Band{Low: 20, High: 45}, units.Band{Low: 20, High: 65}
	assert.True(t, small.Within(wide))
	assert.True(t, small.Within(small), "ends included")
	assert.False(t, wide.Within(small), "the whole band must lie within")
	assert.True(t, units.Band{}.Within(small), "an ungraded lot is accepted by any dish")
	assert.True(t, small.Within(units.Band{}))
	assert.Equal(t, "20-45 mm", small.String())
}

func TestConditions(t *testing.T) {
	for c, trim := range map[Condition]string{Sound: "1", Scabby: "1", Damaged: "0.85", Green: "0", Rotten: "0"} {
		assert.Equal(t, trim, c.Trim().String())
		assert.Equal(t, trim != "0", c.Edible())
	}
	_, err := ParseCondition("wormy")
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "sound, scabby, damaged, green, rotten", wrong.Accepted)
}

// Whatever is read as a grade can be written and read again.
func FuzzParseGrade(f *testing.F) {
	for _, seed := range []string{"820 g 20-45 mm scabby", "6 pieces 700 g 45-65 mm", "90 g damaged", "2 lb 4 oz", "20 to 45 mm", "1e9 g", "½ kg green", "0,5kg 35–45mm"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		g, err := ParseGrade(text, units.Metric)
		if err != nil {
			return
		}
		if g.Weight.Sign() <= 0 || g.Count < 0 || g.Sizes.Low > g.Sizes.High {
			t.Fatalf("%q was read as %+v", text, g)
		}
		again := fmt.Sprintf("%s %s %s", g.Weight, g.Sizes, g.Condition)
		second, err := ParseGrade(again, units.Metric)
		if err != nil || !second.Weight.Equal(g.Weight) || second.Sizes != g.Sizes || second.Condition != g.Condition {
			t.Fatalf("%q was read as %q and that as %+v (%v)", text, again, second, err)
		}
	})
}

// A bowl is read with its tare at most its gross, or not at all.
func FuzzParseWeighing(f *testing.F) {
	for _, seed := range []string{"1.46 kg - 0.31 kg", "980 g–310 g", "2 lb 4 oz - 8 oz", "-", "1 kg", "1-2 kg"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		w, err := ParseWeighing(text, units.Metric)
		var hinted interface{ Hint() string }
		switch net := (&Lift{Weighings: []Weighing{w}}).Net(); {
		case err != nil && !errors.As(err, &hinted):
			t.Fatalf("%q: no hint in %v", text, err)
		case err == nil && net.Sign() < 0:
			t.Fatalf("%q was read as %s g", text, net)
		}
	})
}
