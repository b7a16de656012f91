package meal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/recipes"
	"trencher/units"
)

// What is fetched is never less than what is measured out: up to the next gram,
// or the next 5 ml.
func TestEnough(t *testing.T) {
	for sum, want := range map[string]string{
		"7.3 g": "8 g", "80 g": "80 g", "0.0801 kg": "81 g", "12 ml": "15 ml", "5 ml": "5 ml", "1 tbsp": "15 ml", "10-12.5 g": "13 g",
		"100 g": "100 g", "100.5 g": "110 g", "1000 g": "1000 g", "1000.5 g": "1050 g", "100 ml": "100 ml", "100.5 ml": "110 ml", "1000 ml": "1000 ml", "1.001 l": "1050 ml",
	} {
		have := enough(units.MustParse(sum), units.Metric)
		assert.Equal(t, want, have.Text, sum)
		less, err := have.Value.Compare(units.MustParse(sum).High())
		assert.NoError(t, err)
		assert.GreaterOrEqual(t, less, 0, sum)
	}
	assert.Equal(t, "3", enough(units.MustParse("3"), units.Metric).Text, "pieces as they are")
}

// What is wanted of one good: amounts added, what is to taste told beside them, the
// state only where all have it, each dish once. What is only optional stays apart.
func TestOneLineOfAGood(t *testing.T) {
	want := func(exact, dish string, change ...func(*Want)) Want {
		q := units.MustParse(exact)
		w := Want{Item: "butter", Dishes: []string{dish}, Exact: q, Sum: q, good: "butter"}
		for _, c := range change {
			c(&w)
		}
		return w
	}
	optional := func(w *Want) { w.Optional = true }
	soft := func(w *Want) { w.State = "soft" }
	other := func(w *Want) { w.Item, w.good = "lard", "lard" }
	kitchen := recipes.DefaultKitchen(units.Metric)
	for _, c := range []struct {
		about string
		all   []Want
		lines []string
	}{
		{"added", []Want{want("20 g", "A"), want("0.03 kg", "B")}, []string{"50 g AB"}},
		{"a dish twice", []Want{want("20 g", "A"), want("30 g", "A")}, []string{"50 g A"}},
		{"to taste beside", []Want{want("20 g", "A"), want("to taste", "B")}, []string{"20 g AB and to taste"}},
		{"to taste before", []Want{want("to taste", "A"), want("20 g", "B")}, []string{"20 g AB and to taste"}},
		{"to taste alone", []Want{want("to taste", "A"), want("to taste", "B")}, []string{"to taste AB"}},
		{"to taste, and more", []Want{want("20 g", "A"), want("to taste", "B"), want("30 g", "C")}, []string{"50 g ABC and to taste"}},
		{"weighed", []Want{want("20 g", "A"), want("1 US cup", "B")}, []string{"247 g AB weighed"}}, // 227 g a US cup (USDA SR28, NDB 01001 seq 1)
		{"optional", []Want{want("20 g", "A"), want("30 g", "B", optional), want("5 g", "C", optional)}, []string{"20 g A", "35 g BC"}},
		{"of one state", []Want{want("20 g", "A", soft), want("30 g", "B", soft)}, []string{"50 g AB, soft"}},
		{"of two states", []Want{want("20 g", "A", soft), want("30 g", "B")}, []string{"50 g AB"}},
		{"of two goods", []Want{want("20 g", "A"), want("30 g", "B", other)}, []string{"20 g A", "30 g B"}},
	} {
		var list []Want
		for _, w := range c.all {
			list = put(list, w, kitchen)
		}
		var lines []string
		for _, w := range list {
			rounded, _ := w.Exact.Rounded(6)
			line := rounded.String() + " " + strings.Join(w.Dishes, "")
			if w.AndTaste {
				line += " and to taste"
			}
			if w.Weighed {
				line += " weighed"
			}
			if w.State != "" {
				line += ", " + w.State
			}
			lines = append(lines, line)
		}
		assert.Equal(t, c.lines, lines, c.about)
		assert.Len(t, c.all[0].Dishes, 1, "what was given is as it was")
	}
}

// What most kitchens have is looked for there first: little of it, a pinch, to taste.
func TestWhatIsInTheCupboard(t *testing.T) {
	for amount, in := range map[string]bool{"100 g": true, "100.1 g": false, "0.1 kg": true, "100 ml": true, "101 ml": false, "2 tbsp": true, "to taste": true, "a pinch": true, "50-101 g": false, "3": false} {
		assert.Equal(t, in, inCupboard(Want{Item: "salt", Exact: units.MustParse(amount)}), amount)
	}
	assert.False(t, inCupboard(Want{Item: "butter", Exact: units.MustParse("5 g")}))
	p := Plan{Buy: []Want{{Item: "butter"}, {Item: "salt", Cupboard: true}, {Item: "milk"}}}
	assert.Equal(t, []Want{p.Buy[0], p.Buy[2]}, p.ToBuy())
	assert.Equal(t, []Want{p.Buy[1]}, p.InCupboard())
}
