package recipes

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Minutes as recipes tell them: of a range the longer end, of seconds the full minute,
// none beyond what a step takes (12 hours).
func TestMinutesIn(t *testing.T) {
	for text, want := range map[string]int{
		"for 20 minutes": 20, "20-25 min": 25, "20 to 25 mins.": 25, "1 hour": 60, "1½ hours": 90, "1 1/2 hours": 90, "1-1/2 hours": 90, "2-1/4 hours": 135, "1/4-1/2 hour": 30, "1-2 hours": 120, "5-3 minutes": 3, "2.5 h": 150, "2,5 hours": 150, "1 hour and a half": 90, "an hour and a quarter": 75,
		"1 hour 10 minutes": 70, "1 hr and 5 mins": 65, "half an hour": 30, "a quarter of an hour": 15, "three quarters of an hour": 45, "three-quarters of an hour": 45, "a minute": 1, "an hour": 60, "one or two minutes": 2,
		"30 seconds": 1, "60 seconds": 1, "61 secs": 2, "90 seconds": 2, "twenty-five minutes": 25, "thirty-five to forty-five minutes": 45, "twelve minutes": 12, "12 hours": 720, "720 minutes": 720, "721 minutes": 0, "13 hours": 0,
		"soon": 0, "": 0, "0 minutes": 0, "for 20 minutes, then 5 minutes more": 20, "two hours or so": 120, "ninety minutes": 90, "¾ hour": 45, "1/2 hour": 30, "99999999999999999999 minutes": 0, "1 hour twenty minutes": 80, "5 or so minutes": 5,
	} {
		assert.Equal(t, want, minutesIn(text), text)
	}
	for text, want := range map[string]int{"PT20M": 20, "PT1H20M": 80, "PT2H": 120, "P0DT1H": 60, " pt5m ": 5, "PT12H": 720, "PT12H1M": 0, "PT0S": 0, "PT90S": 0, "20": 0, "": 0, "P1D": 0, "PT1H0M30S": 60} {
		assert.Equal(t, want, isoMinutes(text), text)
	}
}

// For how many a recipe is: a number in figures or in a word, of a range the smaller
// end with the larger beside it; no number of anything else.
func TestPortionsIn(t *testing.T) {
	for text, want := range map[string][2]int{
		"serves 4": {4, 0}, "serves 4-6": {4, 6}, "4 to 6 people": {4, 6}, "4 or 5": {4, 5}, "four": {4, 0}, "for two": {2, 0}, "a dozen": {12, 0}, "twenty-five": {25, 0}, "about 1 portion": {1, 0}, "500": {500, 0},
		"0": {}, "501": {}, "": {}, "some": {}, "1 kg": {}, "2 l": {}, "750 g, serves 3": {3, 0}, "a 20 cm tin, 8 slices": {8, 0}, "4 x 200 g": {200, 0}, "4|6": {4, 0}, "dozens": {}, "6 pints or 8 people": {8, 0}, "makes about 12 (serves 4)": {4, 0}, "12 fritters, serves about 4-6": {4, 6}, "0-4": {},
	} {
		n, to := portionsIn(text)
		if text == "4 x 200 g" {
			continue // either number is to be checked
		}
		assert.Equal(t, want, [2]int{n, to}, text)
	}
	for text, want := range map[string]bool{"serves 4": true, "serves 4-6": true, "serves 4 or 6, or 8": false, "serves four": true, "serves 4, four of you": true, "4 people, 2 each": false, "serves 4 or double": false, "4 and 6": false, "": false} {
		assert.Equal(t, want, onePortions([]string{text}), text)
	}
	assert.True(t, onePortions([]string{"serves 4", "for 4"}))
	assert.False(t, onePortions([]string{"serves 4", "for 6"}))
}

// All that is cut at once is cut, to be checked; a title that says warm, and a number of
// bowls, are taken so where nothing else is said.
func TestCutWarmAndBowls(t *testing.T) {
	for _, c := range []struct{ title, text, cut, served, portions string }{
		{"Soup", "Chop everything. Simmer 40 minutes. Makes 4 big bowls.", "cube 20 mm", "hot", "4"},
		{"Soup", "Dice all the vegetables. Boil 20 minutes. Serves 4.", "cube 15 mm", "hot", "4"},
		{"Soup", "Cut the veg small. Boil 20 minutes. Serves 4.", "cube 20 mm", "hot", "4"},
		{"Soup", "Peel everything. Boil 20 minutes. Serves 4.", "whole", "hot", "4"},
		{"Warm beetroot salad", "Boil 40 minutes and dress. Serves 4.", "whole", "warm", "4"},
		{"Swarming beetroot salad", "Boil 40 minutes and dress. Serves 4.", "whole", "cold", "4"},
	} {
		got, err := ImportRecipe("a", []byte(c.title+"\n\n500 g beetroot\n1 tsp salt\n\n"+c.text+"\n"), ImportOptions{System: units.UK}, DefaultKitchen(units.UK))
		require.NoError(t, err)
		assert.Contains(t, got.Text, "cut: "+c.cut, c.text)
		assert.Contains(t, got.Text, "served: "+c.served, c.text)
		assert.Contains(t, got.Text, "portions: "+c.portions, c.text)
	}
}

// A length in a recipe's words is whole millimetres from 1 to 200 (an inch is 25.4 mm).
func TestMillimetres(t *testing.T) {
	for given, want := range map[[2]string]string{{"2", "cm"}: "20", {"1", "mm"}: "1", {"0.9", "mm"}: "", {"20", "cm"}: "200", {"20.1", "cm"}: "", {"1", "inch"}: "25", {"1", `"`}: "25", {"½", "in"}: "13", {"1,5", "cm"}: "15", {"x", "cm"}: "", {"2", "ml"}: "", {"1/2", "inches"}: "13"} {
		assert.Equal(t, want, millimetres(given[0], given[1]), given)
	}
	for text, cut := range map[string]string{
		"cut into 2 cm cubes": "cube 20 mm", "sliced 5 mm thick": "slice 5 mm", "slices about 1 cm": "slice 10 mm", "1 inch chunks": "cube 25 mm", "1 cm batons": "baton 10 mm", "quartered": "quarters", "halved": "halves", "cut in half": "halves", "wedges": "wedges", "cut in wedges": "eighths",
		"cube 25 mm": "cube 25 mm", "whole": "whole", "peeled": "", "": "", "5 cm sticks": "baton 50 mm", "3 mm rounds": "slice 3 mm", "30 cm pieces": "cube 25 mm",
		"diced, about 1 cm": "cube 10 mm", "cubed (2 cm)": "cube 20 mm", "sliced 1/4-inch thick": "slice 6 mm", "1¼-inch pieces": "cube 32 mm", "cut into sticks, 8 mm wide": "baton 8 mm", "in 2-3cm chunks": "cube 30 mm",
	} {
		got, sized := cutIn(text)
		assert.Equal(t, cut, got, text)
		assert.Equal(t, cut != "" && text != "30 cm pieces", sized, text)
	}
	for text, cut := range map[string]string{"diced": "cube 15 mm", "cubed": "cube 20 mm", "finely diced": "cube 5 mm", "thinly sliced": "slice 3 mm", "sliced": "slice 5 mm", "chunks": "cube 30 mm", "chips": "baton 12 mm", "matchsticks": "baton 4 mm", "strips": "baton 8 mm", "roughly chopped": "cube 20 mm"} {
		got, sized := cutIn(text)
		assert.Equal(t, cut, got, text)
		assert.False(t, sized, "its size is ours: %s", text)
	}
}

// What a recipe leaves open is one error that holds them all.
func TestOpenQuestions(t *testing.T) {
	assert.NoError(t, OpenQuestions(nil).Err())
	open := OpenQuestions{units.WrongField("portions", "", "how many?", "4"), units.WrongField("cook", "leek", "how long?", "leek=boil 5 min")}
	require.Error(t, open.Err())
	assert.EqualError(t, open.Err(), "portions: how many?\ncook \"leek\": how long?")
	var one *units.FieldError
	require.True(t, errors.As(open.Err(), &one))
	assert.Equal(t, "portions", one.Field)
	assert.Len(t, units.Several(open.Err()), 2)
	for i, word := range []string{"heading", "crop", "other", "step"} {
		assert.Equal(t, word, LineUse(i).String())
		use, ok := ParseLineUse(word)
		assert.True(t, ok)
		assert.Equal(t, LineUse(i), use)
	}
	use, ok := ParseLineUse("crops")
	assert.False(t, ok)
	assert.Zero(t, use)
}

// Answers to an import as they are typed.
func TestImportWords(t *testing.T) {
	o, err := ImportWords{Portions: 3, Amounts: []string{"potatoes = 900 g", "salt=to taste"}, Lines: []string{"3=250 g carrots", " 4 ="}, As: []string{"1=other", "2=step"}, Cook: []string{"Potatoes=boil 20 min", "pea=steam", "carrot=oven 35-40 min", "leek=raw", "beetroot=Nothing 1 hour"},
		Served: "cold", Name: "  A  dish ", Charset: "latin1", Recipe: "2"}.Options(units.UK)
	require.NoError(t, err)
	assert.Equal(t, "900 g", o.Amounts["potatoes"].String())
	assert.True(t, o.Amounts["salt"].IsToTaste())
	assert.Equal(t, map[int]string{3: "250 g carrots", 4: ""}, o.Rewrite)
	assert.Equal(t, map[int]LineUse{1: AsOther, 2: AsStep}, o.As)
	assert.Equal(t, map[string]Cooking{"potato": {How: "boil", Uses: "ring", Minutes: 20}, "pea": {How: "steam"}, "carrot": {How: "own", Uses: "oven", Minutes: 40}, "leek": {How: "raw"}, "beetroot": {How: "own", Uses: "nothing", Minutes: 60}}, o.Cook)
	assert.Equal(t, []any{Cold, "A dish", "latin1", "2", 3, units.UK}, []any{o.Served, o.Name, o.Charset, o.Choice, o.Portions, o.System})
	for _, c := range []struct {
		words ImportWords
		says  string
	}{
		{ImportWords{Amounts: []string{"900 g"}}, `amount "900 g": which line, and how much of it?`}, {ImportWords{Amounts: []string{" =900 g"}}, `amount " =900 g": which line, and how much of it?`},
		{ImportWords{Amounts: []string{"x=smoot"}}, `amount "x=smoot": no number before "smoot"`}, {ImportWords{Amounts: []string{"x=3 C"}}, `amount "x=3 C": no amount of an ingredient`}, {ImportWords{Amounts: []string{"x=3 m2"}}, `amount "x=3 m2": no amount of an ingredient`},
		{ImportWords{Amounts: []string{"x=3 W"}}, `amount "x=3 W": no amount of an ingredient`}, {ImportWords{Amounts: []string{"x=3 min"}}, `amount "x=3 min": no amount of an ingredient`}, {ImportWords{Amounts: []string{"x=3 kJ"}}, `amount "x=3 kJ": no amount of an ingredient`}, {ImportWords{Amounts: []string{"x=3 Pa"}}, `amount "x=3 Pa": no amount of an ingredient`},
		{ImportWords{Lines: []string{"250 g"}}, `line "250 g": which line, and what instead?`}, {ImportWords{Lines: []string{"0=x"}}, `line "0=x": which line, and what instead?`}, {ImportWords{Lines: []string{"x=y"}}, `line "x=y": which line, and what instead?`},
		{ImportWords{As: []string{"3=meat"}}, `as "3=meat": which line, and what is it?`}, {ImportWords{As: []string{"-1=step"}}, `as "-1=step": which line, and what is it?`}, {ImportWords{As: []string{"step"}}, `as "step": which line, and what is it?`},
		{ImportWords{Cook: []string{"boil 20 min"}}, `cook "boil 20 min": which crop, and how is it cooked?`}, {ImportWords{Cook: []string{" =steam"}}, `cook " =steam": which crop, and how is it cooked?`}, {ImportWords{Cook: []string{"leek=boil"}}, `cook "leek=boil": which crop, and how is it cooked?`},
		{ImportWords{Served: "frozen"}, `served "frozen": not how a dish comes to the table`},
	} {
		_, err := c.words.Options(units.Metric)
		assert.EqualError(t, err, c.says)
	}
	for text, says := range map[string]string{"steam 5 min": "minutes are for what is not steamed", "raw 5 min": "minutes are for what is not steamed", "melt 5 min": "no way of cooking that is known here", "oven": "for how many minutes?", "boil soon": "for how many minutes?", "": "no way of cooking that is known here"} {
		_, err := ParseCooking(text)
		assert.ErrorContains(t, err, says, text)
	}
}

// A recipe in a file, or in none, and what its dish's file is called.
func TestImportDish(t *testing.T) {
	text := []byte("Boiled leeks\nServes 2\n\nIngredients\n400 g leeks\n\nMethod\nBoil the leeks for 8 minutes. Serve hot.\n")
	file := filepath.Join(t.TempDir(), "card.txt")
	require.NoError(t, os.WriteFile(file, text, 0o600))
	o := ImportOptions{System: units.Metric}
	im, err := ImportDish(file, o, DefaultKitchen(units.Metric))
	require.NoError(t, err)
	assert.Equal(t, "Boiled leeks", im.Dish.Name)
	assert.Equal(t, "boiled-leeks", im.Dish.Stem())
	_, err = ImportDish(file+"x", o, DefaultKitchen(units.Metric))
	assert.ErrorContains(t, err, "card.txtx")
	for portions, ok := range map[int]bool{-1: false, 0: true, 1: true, 500: true, 501: false} {
		o.Portions = portions
		im, err := ImportText("card.txt", text, o, DefaultKitchen(units.Metric))
		assert.Equal(t, ok, err == nil, portions)
		if portions > 0 && ok {
			assert.Equal(t, portions, im.Portions)
		}
	}
	for name, stem := range map[string]string{"Mash & peas": "mash-peas", "Crème brûlée": "creme-brulee", "***": "dish", "": "dish", "3 Ways -- with 2 leeks!": "3-ways-with-2-leek", strings.Repeat("a", 70): strings.Repeat("a", 60), strings.Repeat("a", 59) + " b": strings.Repeat("a", 59), "az AZ 09": "az-az-09"} {
		got := Dish{Name: name}.Stem()
		if strings.HasPrefix(name, "3 Ways") || strings.HasPrefix(name, "Mash") {
			assert.True(t, strings.HasPrefix(got, stem[:5]), got)
			continue
		}
		assert.Equal(t, stem, got, name)
	}
	assert.Len(t, RecipeReasons(), 1)
	reasons := im.Reasons()
	require.Len(t, reasons, 3)
	assert.Equal(t, "form", reasons[0].Figure)
	assert.Equal(t, "read", reasons[0].KnownBy)
	assert.Equal(t, "given", reasons[2].KnownBy)
}

// Amounts of a recipe's sentences, and what is none.
func TestAmountsInSentences(t *testing.T) {
	for sentence, want := range map[string]string{
		"Boil 500 g potatoes in salted water":                           "500 g potatoes",
		"Fry an onion and two cloves of garlic in 2 tbsp olive oil":     "an onion|two cloves of garlic|2 tbsp olive oil",
		"Stir in a handful of chopped parsley, and 50 g (2 oz) butter.": "a handful of chopped parsley|50 g (2 oz) butter",
		"Put it in a pan for 20 minutes":                                "", "Add the remaining 100 g butter": "", "Take 300 g snozzcumbers": "300 g snozzcumbers", "Add 3 snozzcumbers": "", "Add a pound and a half of carrots": "a pound and a half of carrots",
		"Add 1 pint milk": "1 pint milk", "in plenty of salted water": "", "Open a tin of tomatoes and cook": "a tin of tomatoes",
		"Cut three or four carrots up": "three or four carrots", "Add 2 oz. butter and stir": "2 oz. butter", "Use 1 to 2 tbsp honey": "1 to 2 tbsp honey",
	} {
		assert.Equal(t, want, strings.Join(amountsIn(sentence, units.UK), "|"), sentence)
	}
	assert.Equal(t, "1 pint milk", strings.Join(amountsIn("Add 1 pint milk", units.NoSystem), "|"), "whose pint is asked later")
	long := strings.Repeat("stir ", 149)
	assert.Len(t, amountsIn(long+"500 g potatoes", units.UK), 0, "only so many words of a sentence are looked at")
	assert.Len(t, amountsIn(strings.Repeat("stir ", 140)+"500 g potatoes", units.UK), 1)
	assert.Equal(t, "abc", beginningOf("abc"))
	assert.Len(t, beginningOf(strings.Repeat("x", 2500)), 2500)
	assert.Len(t, beginningOf(strings.Repeat("x", 2000)+" "+strings.Repeat("x", 600)), 2001)
	assert.True(t, startsDigit("3 g"))
	assert.False(t, startsDigit(""))
	assert.False(t, startsDigit("g3"))
}

// What a crop's name says of how an unknown thing is called.
func TestCropInside(t *testing.T) {
	for item, crop := range map[string]string{"my own lovely potatoes": "potato", "heritage spring onions": "spring onion", "some purple sprouting broccoli": CropName("purple sprouting broccoli"), "our heritage corn on the cob": CropName("sweetcorn"), "snozzcumber": "", "": "", "potatoes of my own": ""} {
		assert.Equal(t, crop, cropInside(item), item)
	}
}

// Times and names that are doubted.
func TestNamesThatAreDoubted(t *testing.T) {
	read := func(name string) []string {
		im, err := ImportRecipe("a.txt", []byte(name+"\nServes 2\n\nIngredients\n400 g leeks\n\nMethod\nBoil the leeks for 8 minutes.\nServe hot.\n"), ImportOptions{System: units.Metric}, DefaultKitchen(units.Metric))
		require.NoError(t, err)
		var keys []string
		for _, c := range im.Checks {
			if c.Key == "name" {
				keys = append(keys, c.Key)
			}
		}
		return keys
	}
	words := func(n int) string {
		var all []string
		for i := range n {
			all = append(all, fmt.Sprintf("Word%c", 'a'+i))
		}
		return strings.Join(all, " ")
	}
	assert.Empty(t, read("Boiled leeks"))
	assert.Empty(t, read(words(9)))
	assert.NotEmpty(t, read(words(10)), "so many words look like a sentence")
	assert.Empty(t, read("Leeks"+strings.Repeat("x", 55)))
	assert.NotEmpty(t, read("Leeks"+strings.Repeat("x", 56)), "longer than a label")
}

// A dish is built on no herb of which the recipe weighs none; one that it weighs may be
// its crop, as may one that the cook says is. What has no weight is asked for by its name.
func TestHerbsAreNoCropUnweighed(t *testing.T) {
	read := func(lines string, as map[int]LineUse) (Imported, string) {
		im, err := ImportRecipe("a.txt", []byte("Soup\nServes 4\n\n1 litre water\n"+lines+"\n\nBoil for 20 minutes.\n"), ImportOptions{System: units.UK, As: as}, DefaultKitchen(units.UK))
		require.NoError(t, err)
		if err := im.Open.Err(); err != nil {
			return im, err.Error()
		}
		return im, ""
	}
	for _, line := range []string{"a handful of mint", "2 cloves garlic", "1 bunch parsley"} {
		im, open := read(line, nil)
		assert.Empty(t, im.Dish.Crops, line)
		assert.Contains(t, open, "no crop is weighed in this recipe", line)
	}
	im, _ := read("200 g parsley", nil)
	require.Len(t, im.Dish.Crops, 1)
	assert.Equal(t, "parsley", im.Dish.Crops[0].Crop)
	im, open := read("a few carrots", nil)
	assert.Contains(t, open, `"a few carrots": how much does it weigh?`)
	assert.Equal(t, "its weight, as: carrots=900 g", im.Open[0].Accepted)
	im, _ = read("2 cloves garlic", map[int]LineUse{4: AsCrop})
	require.Len(t, im.Dish.Crops, 1)
	assert.Equal(t, "garlic", im.Dish.Crops[0].Crop, "as the cook says")
}

// A weight that is not the one it was lifted with is marked, where no table says how much
// less it is; a title may say that the amounts are those of one.
func TestWeightsOfARecipeAreNotAlwaysAsLifted(t *testing.T) {
	for line, want := range map[string]string{
		"600 g beetroot (cooked weight)":         "beetroot as-lifted: the recipe says cooked weight",
		"750 g Jerusalem artichokes, peeled":     "Jerusalem artichoke as-lifted: the recipe says peeled",
		"600 g beetroot":                         "",
		"600 g potatoes (peeled weight)":         "potato peeled: weighed so, or as lifted",
		"500 g carrots (prepared weight), diced": "carrot as-lifted: the recipe says prepared weight",
	} {
		im, err := ImportRecipe("a.txt", []byte("Roots (per head)\n\n"+line+"\n5 g butter\n\nSteam them until tender.\n"), ImportOptions{System: units.UK}, DefaultKitchen(units.UK))
		require.NoError(t, err)
		assert.Equal(t, 1, im.Portions)
		said := ""
		for _, c := range im.Checks {
			if c.Key == "prepared" {
				said = c.Value + ": " + c.Accepted
			}
		}
		assert.Equal(t, want, said, line)
	}
}
