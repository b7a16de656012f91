package recipes

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/strict"
)

const dishFile = "../testdata/recipes/crushed-potatoes.yaml"

func readFile(t testing.TB, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return data
}

// One slip is one complaint: what a word that is not known would have asked for
// besides is not missed.
func TestUnknownCookIsOneFault(t *testing.T) {
	_, err := LoadDish("d.yaml", []byte("name: A\nportions: 2\ncrops: [{crop: potato, amount: 1 kg, cook: fry, cut: halves}]\n"), DefaultKitchen(units.Metric))
	require.EqualError(t, err, `d.yaml:3:44: cook "fry": not one of the words known here`)
}

func TestLoadDish(t *testing.T) {
	d, err := LoadDish("dishes/crushed.yaml", readFile(t, dishFile), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Equal(t, "Crushed potatoes with lovage", d.Name)
	assert.Equal(t, "dishes/crushed.yaml", d.File)
	assert.Equal(t, []int{4, 2, 20}, []int{d.Portions, d.Smallest, d.Largest})
	assert.Equal(t, Hot, d.Served)
	assert.Equal(t, "1", d.Wish.String())
	require.Len(t, d.Crops, 1)
	c := d.Crops[0]
	assert.Equal(t, []string{"potato", "720 g", "scrubbed", "", "20-45 mm", "cube 25 mm", "steam", "tender"},
		[]string{c.Crop, c.Amount.String(), c.Prepared, c.Texture, c.Sizes.String(), c.Cut, c.Cook, c.Until})
	require.Len(t, d.Others, 5)
	assert.True(t, d.Others[1].FromPlot)
	assert.Equal(t, "chopped", d.Others[1].State)
	assert.Equal(t, "Welsh onion", d.Others[2].Instead[1].Item)
	assert.True(t, d.Others[3].Optional)
	assert.Equal(t, "1-2 tsp metric", d.Others[3].Amount.String())
	assert.True(t, d.Others[4].Amount.IsToTaste())
	assert.Equal(t, Seasoning, d.Others[4].Scales)
	assert.Empty(t, d.Assumed)
}

// 720 g scrubbed for 4 is 180 g a portion; soil takes 3 % and scrubbing 1 %
// (common practice, no source), so 180 / (0.97 x 0.99) g as lifted.
func TestNeedPerPortion(t *testing.T) {
	d, err := LoadDish("dish.yaml", readFile(t, dishFile), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	need, y, err := d.NeedPerPortion(0)
	require.NoError(t, err)
	assert.Equal(t, "200000/1067", strings.TrimSuffix(need.String(), "/1"))
	assert.Equal(t, "9603/10000", y.Factor.String())
	portions, err := d.PortionsFrom(0, units.MustParse("1.85 kg"))
	require.NoError(t, err)
	assert.Equal(t, "9.869750", portions.FloatString(6)[:8])
	_, _, err = d.NeedPerPortion(1)
	assert.EqualError(t, err, "Crushed potatoes with lovage has no crop line 2")
	_, _, err = Dish{Crops: []CropLine{{}}}.NeedPerPortion(0)
	assert.Error(t, err, "a dish nobody loaded has no weights")
}

func TestLoadDishAssumes(t *testing.T) {
	d, err := LoadDish("dish.yaml", []byte("name: Plain\nportions: 3\ncrops: [{crop: new potatoes, amount: 500 g}]\n"), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Equal(t, []string{
		"smallest batch 1 portion", "largest batch 12 portions, four times the recipe",
		"potato weighed as lifted: the file does not say how it is prepared",
		"potato left whole", "potato steamed until tender", "served hot",
	}, d.Assumed)
	assert.Equal(t, []int{1, 12}, []int{d.Smallest, d.Largest}, "as it is told")
	raw, err := LoadDish("dish.yaml", []byte("name: Raw\nportions: 30\nsmallest: 200\ncrops: [{crop: cucumber, amount: 2 lb, cook: raw, prepared: trimmed}]\n"), DefaultKitchen(units.UK))
	require.NoError(t, err)
	assert.Equal(t, Cold, raw.Served)
	assert.Equal(t, 200, raw.Largest)
	assert.Empty(t, raw.Crops[0].Cut)
}

// A dish weighed as lifted, with a wish and a band of sizes, as plots have
// them; lists need no indent.
func TestLoadDishAsLifted(t *testing.T) {
	d, err := LoadDish("dishes/dish-a.yaml", []byte(`name: Dish A
portions: 4
served: hot
smallest: 4
largest: 12
wish: 2
crops:
- crop: potato
  amount: 700 g
  prepared: as-lifted
  cut: cube 25 mm
  cook: steam
  until: tender
  sizes: 20-45 mm
- crop: beetroot
  amount: 320 g
  prepared: as-lifted
  cut: cube 25 mm
  cook: steam
  until: tender
others:
- item: butter
  amount: 60 g
`), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Equal(t, "2", d.Wish.String())
	assert.Equal(t, units.Band{Low: 20, High: 45}, d.Crops[0].Sizes)
	assert.False(t, d.Crops[1].Sizes.IsGraded())
	for i, want := range []string{"175/1", "80/1"} {
		need, y, err := d.NeedPerPortion(i)
		require.NoError(t, err)
		assert.Equal(t, want, need.String())
		assert.Empty(t, y.Steps, "as weighed")
	}
}

// dishWith is a right dish with one line of it replaced.
func dishWith(t testing.TB, old, new string) string {
	text := string(readFile(t, dishFile))
	require.Contains(t, text, old)
	return strings.Replace(text, old, new, 1)
}

func TestLoadDishWrongInput(t *testing.T) {
	tests := []struct{ old, new, message, hint string }{
		{"name: Crushed potatoes with lovage", "title: x", `d.yaml:1:1: unknown key "title"`, ""},
		{"portions: 4", "portions: 0", `d.yaml:2:11: portions "0": not a whole number from 1 to 500`, "write digits alone, such as 1"},
		{"portions: 4", "portions: 4.5", `d.yaml:2:11: portions "4.5": not a whole number from 1 to 500`, "write digits alone, such as 1"},
		{"portions: 4", "portions: 9000", `d.yaml:2:11: portions "9000": not a whole number from 1 to 500`, "write digits alone, such as 1"},
		{"served: hot", "served: tepid", `d.yaml:3:9: served "tepid": not one of the words known here`, "write hot | warm | cold"},
		{"smallest: 2", "smallest: 30", `d.yaml:4:11: smallest "30": above largest, which is 20`, "write the fewest and the most portions worth making at once"},
		{"wish: 1 ", "wish: 0 ", `d.yaml:6:7: wish "0": out of range`, "write a number above 0, up to 100; 2 asks for twice as many portions"},
		{"wish: 1 ", "wish: -1 ", `d.yaml:6:7: wish "-1": out of range`, "write a number above 0, up to 100; 2 asks for twice as many portions"},
		{"720 g  ", "720 ml ", `d.yaml:9:13: amount "720 ml": a volume where a mass is wanted`, "write kg, g, lb or oz"},
		{"720 g  ", "720 stones ", `d.yaml:9:13: amount "720 stones": more than a tonne in one dish`, "write a weight up to 1000 kg"},
		{"720 g  ", "8 pieces ", `d.yaml:9:13: amount "8 pieces": a count where a mass is wanted`, "write kg, g, lb or oz"},
		{"720 g  ", "700-800 g ", `d.yaml:9:13: amount "700-800 g": a crop is weighed: its amount must be exact`, "write one weight, such as 720 g or 1 lb 9 oz"},
		{"720 g  ", "0 g ", `d.yaml:9:13: amount "0 g": a crop of no weight`, "write a weight above 0 g"},
		{"scrubbed  ", "shelled  ", `d.yaml:10:15: prepared "shelled": no yield is known for potato prepared so`,
			"write as-lifted | washed | scrubbed | peeled | thinly peeled | scrubbed, new skins; or your own figure under `yields` in kitchen.yaml"},
		{"crop: potato", "crop: potatoe", `d.yaml:10:15: prepared "scrubbed": no yield is known for potatoe prepared so`,
			"write crop: potato, if that is meant; else as-lifted; or your own figure under `yields` in kitchen.yaml"},
		{"crop: potato", "crop: oca", `d.yaml:10:15: prepared "scrubbed": no yield is known for oca prepared so`,
			"write as-lifted; or your own figure under `yields` in kitchen.yaml"},
		{"texture: any  ", "texture: soapy  ", `d.yaml:11:14: texture "soapy": not one of the words known here`, "write any | waxy | floury"},
		{"20-45 mm", "45-20 mm", ``, ""},
		{"20-45 mm", "35 mm", `d.yaml:12:12: sizes "35 mm": one size is no band`, "write two riddle sizes, smaller first: 20-45 mm"},
		{"20-45 mm", "2-4.5 mm", `d.yaml:12:12: sizes "2-4.5 mm": sizes are whole millimetres, up to 300`, "write two riddle sizes, smaller first: 20-45 mm"},
		{"20-45 mm", "20-45 g", `d.yaml:12:12: sizes "20-45 g": a mass where a length is wanted`, "write mm, cm, m or in"},
		{"cube 25 mm", "cube 25", `d.yaml:13:10: cut "cube 25": no unit`, "write cube 25 mm"},
		{"cube 25 mm", "cube", `d.yaml:13:10: cut "cube": no size`, ""},
		{"cube 25 mm", "chips", `d.yaml:13:10: cut "chips": not a cut this tool knows`, "write whole, halves, quarters, eighths, cube N mm, slice N mm, baton N mm or box AxBxC mm"},
		{"cube 25 mm", "cube 25 g", `d.yaml:13:10: cut "cube 25 g": "25 g" is no length`, "write whole, halves, quarters, eighths, cube N mm, slice N mm, baton N mm or box AxBxC mm"},
		{"cube 25 mm", "cube 25 cm", `d.yaml:13:10: cut "cube 25 cm": 250 mm is no size for a piece or a tuber; 2 to 200 mm are`, ""},
		{"cube 25 mm", "box 20x30 mm", `d.yaml:13:10: cut "box 20x30 mm": a box has three sides`, ""},
		{"cook: steam", "cook: fry", `d.yaml:14:11: cook "fry": not one of the words known here`, "write steam | boil | blanch | raw | own"},
		{"cook: steam", "cook: raw", `d.yaml:15:12: until "tender": a raw crop is not cooked until anything`, "write no `until` here, or `cook: steam`"},
		{"until: tender", "until: done", `d.yaml:15:12: until "done": not one of the words known here`, "write just-tender | tender | soft"},
		{"60 g", "-60 g", ``, ""},
		{"60 g", "60 C", `d.yaml:18:13: amount "60 C": no amount of an ingredient`, "write a weight, a volume, a number of pieces, or to taste"},
		{"60 g", "0 g", `d.yaml:18:13: amount "0 g": nothing of it`, "write an amount above 0, or drop the line"},
		{"60 g", "1 cubit", ``, ""},
		{"item: butter", "item: chives\n    state: chopped", `d.yaml:20:5: others: chives stands twice`, "write one line with the sum of both"},
		{"from: plot", "from: market", `d.yaml:22:11: from "market": not one of the words known here`, "write plot | shop"},
		{"item: shallot, amount: 1", "item: spring onion, amount: 1", `d.yaml:25:15: instead: spring onion instead of itself`, "write another ingredient that does the same"},
		{"optional: true", "optional: maybe", `d.yaml:28:15: optional "maybe": neither yes nor no`, "write true or false"},
		{"scales: seasoning", "scales: somehow", `d.yaml:31:13: scales "somehow": not one of the words known here`, "write linear | seasoning | fixed"},
		{"optional: true", "contains: wool", `d.yaml:28:15: contains "wool": not an allergen known here`,
			"write none, or a list of: gluten, crustaceans, egg, fish, peanuts, soya, milk, nuts, celery, mustard, sesame, sulphites, lupin, molluscs, meat, honey"},
		{"amount: 60 g", "amount: 60 g\n    contains: none", `d.yaml:19:15: contains "none": butter contains milk, by its item at 17:11`, "write no `contains` here, or a name without that word for what you use"},
		{"    amount: 60 g", "    amount:", `d.yaml:18:12: amount "": nothing is written here`, "write a value, or leave the key out"},
	}
	for _, test := range tests {
		t.Run(test.new, func(t *testing.T) {
			d, err := LoadDish("d.yaml", []byte(dishWith(t, test.old, test.new)), DefaultKitchen(units.Metric))
			var errs strict.Errors
			require.True(t, errors.As(err, &errs), "%v", err)
			assert.Empty(t, d.Name, "nothing of a wrong dish is used")
			if test.message == "" {
				return // the words are the amount reader's own
			}
			var messages []string
			for _, e := range errs {
				messages = append(messages, e.Error())
			}
			assert.Contains(t, messages, test.message)
			for _, e := range errs {
				if e.Error() == test.message && test.hint != "" {
					assert.Equal(t, test.hint, e.Hint())
				}
			}
		})
	}
}

func TestLoadDishWithoutCrop(t *testing.T) {
	for text, message := range map[string]string{
		"name: A\nportions: 2\n":                           `d.yaml:1:1: the key "crops" is missing`,
		"name: A\nportions: 2\ncrops: []\n":                `d.yaml:3:8: crops: the dish has no crop`,
		"name: A\nportions: 2\ncrops: [{amount: 1 kg}]\n":  `d.yaml:3:9: crops: the key "crop" is missing`,
		"name: A\nportions: 2\ncrops: [{crop: potato}]\n":  `d.yaml:3:9: crops: the key "amount" is missing`,
		"crops: [{crop: potato, amount: 1 kg}]\nname: A\n": `d.yaml:1:1: the key "portions" is missing`,
		"name: A\nportions: 2\ncrops: [{crop: potato, amount: 1 kg, cut: halves}, {crop: Potatoes, amount: 2 kg, cut: halves}]\n": `d.yaml:3:52: crops: potato stands twice, prepared and cut alike`,
	} {
		_, err := LoadDish("d.yaml", []byte(text), DefaultKitchen(units.Metric))
		require.Error(t, err, text)
		assert.Contains(t, strings.Split(err.Error(), "\n"), message, text)
	}
}

// Several mistakes are told at once, in the order they stand.
func TestLoadDishCollectsErrors(t *testing.T) {
	_, err := LoadDish("dishes/bad.yaml", []byte("name: Bad\nportions: none\ncrops:\n  - crop: potato\n    amount: 3 stones\n    cut: cube 25\n    colour: red\n"), DefaultKitchen(units.Metric))
	require.Error(t, err)
	assert.Equal(t, []string{
		`dishes/bad.yaml:2:11: portions "none": not a whole number from 1 to 500`,
		`dishes/bad.yaml:6:10: cut "cube 25": no unit`,
		`dishes/bad.yaml:7:5: unknown key "colour"`,
	}, strings.Split(err.Error(), "\n"))
}

// Any dish file that is taken is read and planned in a moment.
func TestDishesHaveABound(t *testing.T) {
	others := func(count int) string {
		var text strings.Builder
		text.WriteString("name: A\nportions: 2\ncrops: [{crop: potato, amount: 1 kg, cut: halves}]\nothers:\n")
		for n := range count {
			fmt.Fprintf(&text, "  - {item: thing %d, amount: 5 g}\n", n)
		}
		return text.String()
	}
	dish, err := LoadDish("d.yaml", []byte(others(1000)), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Len(t, dish.Others, 1000)
	_, err = LoadDish("d.yaml", []byte(others(1001)), DefaultKitchen(units.Metric))
	assert.ErrorContains(t, err, "others: too many lines for a dish")
	var crops strings.Builder
	crops.WriteString("name: A\nportions: 2\ncrops:\n")
	for n := range 51 {
		fmt.Fprintf(&crops, "  - {crop: potato, amount: 1 kg, cut: cube %d mm}\n", 10+n)
	}
	_, err = LoadDish("d.yaml", []byte(crops.String()), DefaultKitchen(units.Metric))
	assert.ErrorContains(t, err, "crops: too many lines for a dish")
}
