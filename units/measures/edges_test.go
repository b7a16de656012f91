package measures

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Names are near by the letters between them, up to one and one in four; or, with a word
// in common, by the words of the known name that are strange.
func TestClosenessOfNames(t *testing.T) {
	for _, c := range []struct {
		asked, known string
		far          int
	}{
		{"butter", "butter", 0}, {"buter", "butter", 1}, {"buttr", "butter", 1}, {"btr", "butter", 100}, {"abcd", "abxy", 2}, {"abcd", "axyz", 100}, {"abc", "ab", 1}, {"abc", "a", 100}, {"abcdefgh", "abcdexyz", 3}, {"abcdefgh", "abcdwxyz", 100},
		{"red cabbage", "cabbage", 10}, {"cabbage", "red cabbage", 11}, {"cabbages", "white cabbage", 11}, {"red onions", "red cabbage", 11}, {"an egg", "an", 100}, {"oil of olives", "olive oil, extra virgin", 13}, {"olives", "olive", 1},
	} {
		assert.Equal(t, c.far, closeness(c.asked, c.known), "%s %s", c.asked, c.known)
	}
	for typed, want := range map[string]string{"buttr": "butter", "mayonaise": "mayonnaise"} {
		near := Default().Nearest(typed)
		require.NotEmpty(t, near, typed)
		assert.Equal(t, want, near[0])
		assert.LessOrEqual(t, len(near), 5)
	}
	assert.Len(t, Default().Nearest("moon cheese"), 5, "five at most")
	assert.Empty(t, Default().Nearest("qqqqqqqqqqqqqqqq"))
	assert.Nil(t, Table{}.Nearest("butter"))
}

// What a word may be the plural of, and one form for single and plural.
func TestSingularsAndStems(t *testing.T) {
	for name, want := range map[string]string{"berries": "berries berry berrie", "leaves": "leaves leaf leave", "potatoes": "potatoes potato potatoe", "radishes": "radishes radish radishe", "peaches": "peaches peach peache", "eggs": "eggs egg", "cress": "cress", "egg": "egg", "s": "s", "as": "as", "ies": "ies ie", "": ""} {
		assert.Equal(t, want, strings.Join(Singulars(name), " "), name)
	}
	for _, pair := range [][2]string{{"olive", "olives"}, {"leaf", "leaves"}, {"quiche", "quiches"}, {"berry", "berries"}, {"radish", "radishes"}, {"potato", "potatoes"}, {"egg", "eggs"}, {"cookie", "cookies"}, {"mousse", "mousses"}, {"axe", "axes"}} {
		assert.Equal(t, Stem(pair[0]), Stem(pair[1]), pair)
	}
	for name, want := range map[string]string{"  Crème   Brûlée. ": "creme brulee", "JALAPEÑO": "jalapeno", "a\tb": "a b", "o’clock": "o'clock", "plain": "plain", "": "", ".": "", "é": "e", "a\u00a0b": "a b"} {
		assert.Equal(t, want, Fold(name), name)
	}
	for name, want := range map[string]string{"sun-dried": "sun dried", "a - b": "a b", "plain": "plain", " - ": ""} {
		assert.Equal(t, want, lookupKey(name), name)
	}
}

// States by their words, each in one form.
func TestStatesByTheirWords(t *testing.T) {
	for state, want := range map[string]string{"cubes": "diced", "Cut in strips": "cut in sliced", "peeled and diced": "peeled diced", "canned, drained": "tinned drained", "": "", "beaten": "raw", "puree": "pureed", "with salt or oil": "with salt oil"} {
		assert.Equal(t, want, strings.Join(stateWords(state), " "), state)
	}
	row := Row{State: "raw, chopped", Size: "large"}
	for asked, is := range map[string]bool{"": true, "chopped": true, "large": true, "raw chopped": true, "sliced": false, "chopped sliced": false} {
		assert.Equal(t, is, row.inState(stateWords(asked)), asked)
	}
	for state, is := range map[string]bool{"boiled": true, "raw": false, "": false, "chopped, frozen": true, "tinned": true} {
		assert.Equal(t, is, isChanged(state), state)
	}
	spoon, cup := Row{Measure: units.MustParse("1 tbsp")}, Row{Measure: units.MustParse("1 cup")}
	chosen := spoon
	chosen.chosen = true
	assert.True(t, better(cup, spoon), "the larger was rounded least")
	assert.False(t, better(spoon, cup))
	assert.False(t, better(spoon, spoon))
	assert.True(t, better(chosen, cup))
	assert.False(t, better(cup, chosen))
	assert.False(t, better(Row{Measure: units.MustParse("1 clove")}, spoon), "what cannot be compared is not better")
}

// An amount said twice may differ by a third, as kitchens round; more is doubted.
func TestAmountsSaidTwice(t *testing.T) {
	for text, sure := range map[string]bool{"300 g leeks (400 g)": true, "300 g leeks (401 g)": false, "400 g leeks (300 g)": true, "400 g leeks (299 g)": false, "300-400 g leeks (533 g)": true, "300-400 g leeks (534 g)": false, "300 g leeks (about 3)": true, "300 g leeks (300 ml)": true} {
		assert.Equal(t, sure, ReadLine(text, units.Metric).Sure(), "%s: %s", text, ReadLine(text, units.Metric).Why())
	}
	for text, sure := range map[string]bool{"1 chilli powder": false, "1 tsp chilli powder": true, "1 onion": true, "2 soy sauce": false, "1 cube butter": false, "2 Kestrel potatoes": true} {
		assert.Equal(t, sure, ReadLine(text, units.Metric).Sure(), "%s: %s", text, ReadLine(text, units.Metric).Why())
	}
	for item, is := range map[string]bool{"can of butter beans": true, "wonky can of beans": true, "very wonky can of beans": false, "can": false, "of g": false, "large egg": false} {
		assert.Equal(t, is, holdsUnit(item), item)
	}
	long := "500 g potatoes" + strings.Repeat("x", 386)
	assert.Equal(t, 400, len(long))
	assert.NotContains(t, ReadLine(long, units.Metric).Why(), "too long")
	assert.Contains(t, ReadLine(long+"x", units.Metric).Why(), "too long")
	assert.Equal(t, Blank, ReadLine(" - ", units.Metric).Kind)
	for text, kind := range map[string]LineKind{"For the sauce:": Heading, "Sauce:": Heading, "Sauce: 2": Ingredient, "For the sauce": Heading, "For the sauce, more": Ingredient, "To make the crust": Heading, "½:": Ingredient} {
		assert.Equal(t, kind, ReadLine(text, units.Metric).Kind, text)
	}
}

// Ingredients are listed by the alphabet, a kitchen's own among them, each once.
func TestIngredientsByTheAlphabet(t *testing.T) {
	own := func(name string) Row {
		row, err := NewRow(name, "", units.MustParse("1 tbsp"), units.MustParse("9 g"))
		require.NoError(t, err)
		return row
	}
	names := Default().With(own("0 leaf"), own("zzz leaf"), own("moonleaf"), own("butter")).Ingredients()
	require.Greater(t, len(names), 300)
	assert.Equal(t, "0 leaf", names[0])
	assert.Equal(t, "zzz leaf", names[len(names)-1])
	for i := range names[1:] {
		assert.Less(t, lookupKey(names[i]), lookupKey(names[i+1]), "%s, %s", names[i], names[i+1])
	}
}

// A word of what is done to a food is no name, however it is joined.
func TestStatesBeforeUnknownNames(t *testing.T) {
	for text, want := range map[string]string{"3 g pan-fried moonleaf": "pan-fried moonleaf|", "3 g chopped moonleaf": "moonleaf|chopped", "3 g finely chopped moonleaf": "moonleaf|finely chopped", "3 g moonleaf": "moonleaf|", "3 g sun-dried moonleaf": "sun-dried moonleaf|", "3 g pan-fried moonleaf root": "x"} {
		l := ReadLine(text, units.Metric)
		assert.False(t, l.Known, text)
		if want != "x" {
			assert.Equal(t, want, l.Item+"|"+l.State, text)
		}
		assert.NotEmpty(t, l.Item, text)
	}
}
