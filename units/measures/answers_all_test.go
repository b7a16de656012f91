package measures

import (
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/spelled"
)

// reviewed compares with a golden file, which notices what moves and is no authority.
// `go test ./units/measures -run Reviewed -update` writes it anew.
func reviewed(t *testing.T, name, got string) {
	t.Helper()
	path := "../../testdata/units/" + name
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, spelled.Difference(string(want), got))
}

func writeWrong(out *strings.Builder, err error) {
	var told *units.FieldError
	if !errors.As(err, &told) {
		fmt.Fprintln(out, "!", err)
		return
	}
	fmt.Fprintf(out, "! %s | %s\n", told, told.Hint())
}

// crossings are what a measure of any ingredient may be asked for.
var crossings = [][2]string{{"1 tbsp metric", "gram"}, {"100 g", "teaspoon (metric)"}, {"1", "gram"}, {"2 cup US", "ounce"}, {"500 g", "piece"}, {"1 large", "gram"}, {"1 bunch", "millilitre"}, {"1-2 handful", "gram"}, {"1 tin", "gram"}, {"3 clove", "teaspoon (metric)"}, {"1 pt UK", "pound"}, {"2 slice", "gram"}, {"1 bu US", "kilogram"}}

// Every ingredient of the table in two measures, as when somebody last read it: the rows
// are checked by their sources elsewhere.
func TestEveryIngredientIsConvertedAsReviewed(t *testing.T) {
	var out strings.Builder
	for i, name := range Default().Ingredients() {
		states := append([]string{"", "chopped", "raw", "no such state"}, Default().States(name)...)
		for k := range 2 {
			system, state, cross := units.System(1+(i+k)%4), states[(i/2+k)%len(states)], crossings[(i+k*5)%len(crossings)]
			to, err := units.ParseUnit(cross[1], units.Metric)
			require.NoError(t, err)
			table := Default().For(system)
			q, err := units.Parse(cross[0], system)
			require.NoError(t, err)
			fmt.Fprintf(&out, "%s of %s, %s (%s): ", q, name, state, system)
			c, err := table.Convert(q, to, name, state)
			if err != nil {
				writeWrong(&out, err)
				continue
			}
			rounded, _ := c.Quantity.Rounded(6)
			fmt.Fprintf(&out, "%s %t %s", rounded, c.Crossed, c.Row.Name())
			if c.Via.Measure.IsValid() {
				fmt.Fprint(&out, " via ", c.Via.Name())
			}
			if len(c.Assumed) > 0 {
				fmt.Fprint(&out, " ", c.Assumed)
			}
			fmt.Fprintln(&out)
		}
		if i%8 == 0 {
			density, row, err := Default().Density(name, "")
			fmt.Fprintf(&out, "  density %v %q %v; states %q\n", density, row.Measure, err, Default().States(name))
		}
	}
	reviewed(t, "converted.txt", out.String())
}

// asked are questions in a cook's words, parted by "|".
var asked = []string{"2 lb 4 oz|kg", "2 lb 4 oz to kg", "1 pint|ml", "3 eggs|g", "3 eggs", "a knob of butter", "a knob|g", "2 cups|flour", "2 cups flour|g", "2 cups of flour, sifted|g", "180 C|gas mark", "gas mark 6|C", "30 C|gas mark", "350 F", "1 T|ml", "1 t|ml", "5 oz|ml", "1 gill|ml", "1 pinch|ml", "1 pinch", "a handful of walnuts|g",
	"100 g butter|tbsp", "100 g butter|cup us", "1 cup butter|cup metric", "2 onions|cup us", "3 cloves garlic|tsp", "1 tbsp|moonstone", "1 peck of apples|kg", "1 bushel of wheat|lb", "1 coomb of barley|kg", "10 rods|m2", "10 rods", "3 ft", "2 h", "1 kW", "1 bar", "1 kcal", "2 dozen eggs|kg", "juice of ½ lemon|ml", "zest of 1 lemon|tsp", "1 tin tomatoes|g", "1 tin of peas|g", "2 large potatoes|g", "1 medium onion, chopped|cup us", "2 oz flour = g",
	"to|g", "butter", "", "3 unicorns|g", "1 sack of coal|kg", "1 g|1 kg", "1 g|into", "1 g|in to kg", "20 kg|lb", "6 l|gal uk", "0 g|oz", "1-2 tbsp honey|g", "to taste salt|g", "salt to taste|g", "1 pottle of strawberries|l", "½ pint cream|g", "a dozen|piece", "4 slices bread|g", "4 leaves|g", "1 leaf basil|g", "1 stick butter|g", "1 knob ginger|g", "250 ml milk|g", "1 l water|kg", "1 cup sugar, packed|g", "1 cup brown sugar|g", "1 cup rice, cooked|g"}

// Each of them in four kitchens: the answer with what it rests on and what a cook should
// know of it.
func TestEveryQuestionIsAnsweredAsReviewed(t *testing.T) {
	var out strings.Builder
	for i, words := range asked {
		for k := range 2 {
			system := units.System(1 + (i+2*k+k)%4)
			kitchen := units.Kitchen{System: system, Vague: map[string]units.Quantity{"knob": units.MustParse("20 g")}}
			q := Question{Words: strings.Split(words, "|")}
			if i%5 == 4 && k == 1 {
				q.Of, q.State = "butter", "melted"
			}
			fmt.Fprintf(&out, "%s (%s) %s %s\n  ", words, system, q.Of, q.State)
			a, err := Default().For(system).Answer(q, kitchen)
			if err != nil {
				writeWrong(&out, err)
				continue
			}
			fmt.Fprintf(&out, "%s = %s of %q exactly %t, %s; %s\n", a.Asked, a.Given, a.Of, a.Exact, a.Kitchen.Text, a.System)
			for _, r := range a.Remarks {
				fmt.Fprintf(&out, "  remark %d %v %q %s %t\n", r.Kind, r.Assumed, r.Letter, r.Unit, r.Row != nil)
			}
			for _, r := range a.Reasons {
				fmt.Fprintf(&out, "  %s is %s: %s, %s\n", r.Figure, r.Value, r.Provenance, r.KnownBy)
			}
		}
	}
	reviewed(t, "answered.txt", out.String())
}

// writtenOtherwise are ways in which the same line may be written.
var writtenOtherwise = []func(string) string{
	func(s string) string { return "• " + s }, strings.ToUpper, func(s string) string { return s + " (optional)" }, func(s string) string { return s + ", plus extra to serve" }, func(s string) string { return "about " + s }, func(s string) string { return s + " or 2 eggs" },
	func(s string) string { return s + ":" }, func(s string) string { return s + ", finely chopped" }, func(s string) string { return "2 x " + s }, func(s string) string { return s + " (about 200 g)" }, func(s string) string { return s + ", 3 of them" }, func(s string) string { return "a few " + s },
	func(s string) string {
		if first, rest, ok := strings.Cut(s, " "); ok {
			return rest + ", " + first
		}
		return s
	},
	func(s string) string {
		if i := strings.LastIndexByte(s, ' '); i > 0 {
			return s[i+1:] + ": " + s[:i]
		}
		return s
	},
	func(s string) string { return strings.ReplaceAll(s, ",", "") }, func(s string) string { return "heaped " + s }, func(s string) string { return "juice of " + s }, func(s string) string { return s + " each" }, func(s string) string { return s + " / 3 oz" }, func(s string) string { return "1 tin " + s },
	func(s string) string { return s + " and salt" }, func(s string) string { return "some " + s }, func(s string) string { return "l" + s }, func(s string) string { return s + ", for frying" },
}

// Every ingredient of the corpora, written otherwise, and the goods that shops know it
// by.
func TestIngredientsWrittenOtherwiseAreReadAsReviewed(t *testing.T) {
	file, err := os.Open("../../testdata/recipes/lines.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	var out strings.Builder
	for i, row := range rows[1:] {
		for k := range 2 {
			text := writtenOtherwise[(i+11*k)%len(writtenOtherwise)](row[2])
			writeRead(&out, text, units.System((i+k)%5))
		}
		item, state := row[5], row[6]
		fmt.Fprintf(&out, "  good %q, shop %q, cupboard %t, %q %q\n", GoodOf(item), ShopGood(item, state), KeptInCupboard(item), Singulars(Fold(item)), Stem(Fold(item)))
	}
	reviewed(t, "written-otherwise.txt", out.String())
}

// What a shop knows two lines by: what was done to a food before it was bought parts
// goods, what is done at home does not (common practice, no source).
func TestShopGoods(t *testing.T) {
	for _, same := range [][4]string{{"carrot", "chopped", "carrots", "peeled"}, {"pea", "frozen", "peas", "frozen, thawed"}, {"onion", "", "large onions", "diced"}} {
		assert.Equal(t, ShopGood(same[0], same[1]), ShopGood(same[2], same[3]), same)
	}
	for _, apart := range [][4]string{{"pea", "frozen", "pea", ""}, {"apricot", "dried", "apricot", ""}, {"tomato", "tinned", "tomato", ""}, {"coriander", "ground", "coriander", ""}, {"pea", "", "bean", ""}, {"waxy potato", "", "floury potato", ""}} {
		assert.NotEqual(t, ShopGood(apart[0], apart[1]), ShopGood(apart[2], apart[3]), apart)
	}
	for item, kept := range map[string]bool{"salt": true, "olive oil": true, "plain flour": true, "caster sugar": true, "butter": false, "carrot": false, "moonstone": false, "": false} {
		assert.Equal(t, kept, KeptInCupboard(item), item)
	}
	assert.True(t, SameGood("carrots", "carrot"))
	assert.False(t, SameGood("carrot", "parsnip"))
}

// A table without rows converts nothing and knows nobody; one with the kitchen's own
// rows alone knows them.
func TestTablesOfAKitchen(t *testing.T) {
	var none Table
	_, err := none.Convert(units.MustParse("1 tbsp"), units.Gram, "butter", "")
	assert.ErrorContains(t, err, "no row says what a measure of it weighs")
	assert.Empty(t, none.Ingredients())
	assert.Empty(t, none.Rows("butter"))
	assert.False(t, none.Has("butter"))
	_, _, err = none.Density("butter", "")
	assert.Error(t, err)
	own, err := NewRow("moonleaf", "dried", units.MustParse("2 tbsp"), units.MustParse("6 g"))
	require.NoError(t, err)
	mine := none.With(own)
	got, err := mine.Convert(units.MustParse("1 tbsp"), units.Gram, "moonleaves", "")
	require.NoError(t, err)
	assert.Equal(t, "3 g", got.Quantity.String())
	assert.Equal(t, []string{"moonleaf"}, mine.Ingredients())
	assert.Equal(t, []string{"dried"}, mine.States("Moonleaf"))
	more, err := NewRow("Butter", "", units.MustParse("1 tbsp"), units.MustParse("20 g"))
	require.NoError(t, err)
	both := Default().With(own).With(more)
	for of, want := range map[string]string{"butter": "20 g", "moonleaf": "3 g"} {
		got, err := both.Convert(units.MustParse("1 tbsp"), units.Gram, of, "")
		require.NoError(t, err, of)
		assert.Equal(t, want, got.Quantity.String(), of)
	}
	assert.Equal(t, "this kitchen's own", both.Rows("butter")[0].Source)
	for _, c := range []struct{ measure, weight, field string }{{"1 tbsp", "3 ml", "weight"}, {"1 C", "3 g", "measure"}, {"1 g", "3 g", "measure"}, {"0 tbsp", "3 g", "weight"}, {"1 tbsp", "0 g", "weight"}, {"1 m", "3 g", "measure"}} {
		_, err := NewRow("x", "", units.MustParse(c.measure), units.MustParse(c.weight))
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, c)
		assert.Equal(t, c.field, wrong.Field, c)
	}
	assert.Panics(t, func() { MustCrop("moonleaf") })
	assert.Equal(t, "potato", MustCrop("potato").ID)
	assert.Equal(t, "moonleaf", CropID("Moonleaf"))
}
