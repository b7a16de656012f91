package saved

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Ingredients that stand one behind the other are parted at what is between their
// amounts; what is only said of one stays with it.
func TestManyAmountsOnALine(t *testing.T) {
	for text, want := range map[string]string{
		"175 g flour, 85 g butter, 1 egg yolk": "175 g flour|85 g butter|1 egg yolk", "175 g flour, 85 g butter": "175 g flour|85 g butter", "Pastry: 175 g flour, 85 g butter, 1 egg yolk.": "Pastry:|175 g flour|85 g butter|1 egg yolk", "175 g flour; 85 g butter; salt": "175 g flour|85 g butter|salt", "175 g flour, 85 g butter, 1 egg yolk, beaten": "175 g flour|85 g butter|1 egg yolk, beaten", "175 g flour, 85 g butter, 1 egg yolk, from your own hens": "175 g flour|85 g butter|1 egg yolk, from your own hens",
		"175 g flour, 85 g butter, 1 egg yolk, salt": "175 g flour|85 g butter|1 egg yolk|salt", "175 g flour (plain, white), 85 g butter, 1 egg yolk": "175 g flour (plain, white)|85 g butter|1 egg yolk", "175 g flour, sifted": "", "175 g flour": "", "flour, 85 g butter, 1 egg yolk": "", "175 g flour, 85 g butter. Mix": "", "175 g flour, 85 g butter!": "", "Method: 175 g flour, 85 g butter, 1 egg yolk": "", "Title: 175 g flour, 85 g butter, 1 egg yolk": "", "one two three four: 175 g flour, 85 g butter, 1 egg yolk": "one two three four:|175 g flour|85 g butter|1 egg yolk", "one two three four five: 175 g flour, 85 g butter, 1 egg yolk": "",
		"175 g flour, 100 g, 85 g for later": "", "175 g flour, 85 g butter, salt": "", "175 g flour, 85 g butter, 2 large eggs, salt": "175 g flour|85 g butter|2 large eggs|salt", strings.Repeat("1 egg yolk, ", 67) + "1 egg yolk": "", strings.Repeat("1 egg yolk; ", 65) + "1 leek leaf": strings.Repeat("1 egg yolk|", 65) + "1 leek leaf",
	} {
		assert.Equal(t, want, strings.Join(manyAmounts(text), "|"), text)
	}
	for text, want := range map[string]string{"a, b": "a|b", "a, b; c": "a, b|c", "a (b, c), d": "a (b, c)|d", "a": "a", "a, ": "a|", "a) , b": "a)|b"} {
		parts, semicolons := apart(text)
		assert.Equal(t, want, strings.Join(parts, "|"), text)
		assert.Equal(t, strings.Contains(text, ";"), semicolons, text)
	}
	for text, want := range map[string]string{"400 g leeks, 2 eggs, salt": "400 g leeks|2 eggs|salt", "400 g leeks, trimmed, 2 eggs.": "400 g leeks, trimmed|2 eggs", "leeks; 2 eggs,": "leeks|2 eggs", ", ,": "", "400 g leeks, the green parts, too": "400 g leeks, the green parts, too"} {
		assert.Equal(t, want, strings.Join(runOn(text), "|"), text)
	}
}

// A heading with what it is about on its line.
func TestHeadingsInLine(t *testing.T) {
	for text, want := range map[string]string{
		"Ingredients: 400 g leeks, 2 eggs": "Ingredients:|400 g leeks|2 eggs", "Method: Boil the leeks well.": "Method:|Boil the leeks well.", "Method: boil them well": "", "Method:": "", "Method": "", "Sauce: 50 g butter": "", "Time: 20 min to cook it": "", "You will need: 1 egg": "You will need:|1 egg", "Method: boil them very well": "Method:|boil them very well",
	} {
		head, items, ok := headedInLine(text)
		got := ""
		if ok {
			got = strings.Join(append([]string{head.text}, items...), "|")
		}
		assert.Equal(t, want, got, text)
	}
}

// Steps with a number and no dot count on from the first; what counts something is none.
func TestBareSteps(t *testing.T) {
	for _, c := range []struct {
		text string
		next int
		is   bool
	}{
		{"1 Boil the leeks well", 1, true}, {"1 Boil the leeks", 1, true}, {"1 Boil leeks", 1, false}, {"1 boil the leeks well", 1, false}, {"2 Boil the leeks well", 1, false}, {"1 Leek in the pan", 1, false}, {"1 Cup the leeks in hand", 1, false}, {"Boil the leeks well", 1, false}, {"3 Drizzle with the vinegar", 3, true}, {"1 Drizzle of the vinegar", 1, false}, {"12 Boil the leeks well", 12, true}, {"123 Boil the leeks well", 123, false},
	} {
		assert.Equal(t, c.is, startsBareStep(c.text, c.next), c.text)
	}
	for text, want := range map[string]string{"1. Boil": "Boil", "2) Boil": "Boil", "3 - Boil": "Boil", "Step 4: Boil": "Boil", "Step 4 Boil": "Boil", "step 4": "step 4", "1.": "1.", "1.5 kg": "1.5 kg", "12: Boil": "Boil", "123. Boil": "123. Boil", "Boil": "Boil"} {
		assert.Equal(t, want, dropNumber(text), text)
	}
	for text, is := range map[string]bool{"2. Boil": true, "1. Boil": true, "3. Boil": false, "Boil": true} {
		assert.Equal(t, is, isNumber(text, 2), text)
	}
}

// For how many, behind a title or a heading on its line.
func TestYieldsBehindTitles(t *testing.T) {
	for text, want := range map[string]string{
		"Leek pie (serves 4)": "Leek pie|serves 4", "Leek pie, serves 4": "Leek pie|serves 4", "Leek pie - for 4": "Leek pie|for 4", "Leek pie serves 4": "Leek pie|serves 4", "Leek pie (for 4-6 people)": "Leek pie|for 4-6 people", "Leek pie (4-6)": "Leek pie|4-6", "Leek pie, 4-6": "", "Leek pie for 4": "Leek pie|for 4", "Simmer for 4": "", "Boil, makes 2": "Boil|makes 2", "400 g leeks, serves 4": "", "Serves 4, makes 2": "", "Crisps (snack for 4)": "Crisps|for 4", "Leek pie": "", "Leek: serves 4": "Leek|serves 4", strings.Repeat("x", 92) + " serves 4": "", strings.Repeat("x", 91) + " serves 4": strings.Repeat("x", 91) + "|serves 4",
	} {
		lines := withYieldApart(plainLine{text: text}, text, true)
		got := ""
		if len(lines) == 2 {
			got = lines[0].text + "|" + lines[1].text
			assert.Equal(t, Yield, lines[1].role)
			assert.True(t, lines[1].settled && !lines[0].settled)
		}
		assert.Equal(t, want, got, text)
	}
	assert.Len(t, withYieldApart(plainLine{text: "Stock for 4"}, "Stock for 4", false), 1, "not the first line")
	assert.Len(t, withYieldApart(plainLine{text: "Stock for 4"}, "Stock     for 4", false), 2, "set apart by a wide gap")
	assert.Len(t, withYieldApart(plainLine{text: "Leek pie serves 4", mark: bulletMark}, "", true), 1)
	assert.Len(t, withYieldApart(plainLine{text: "(4-5 portions)"}, "(4-5 portions)", false), 1, "it is all yield")
}

// Times and yields that share a line, side by side ingredients, rows of cells.
func TestLinesThatHoldSeveral(t *testing.T) {
	for text, want := range map[string]int{"Prep: 10 min. Portions: 4.": 2, "Prep: 10 min | Cook: 20 min | Serves 4": 3, "Prep: 10 min. Cook: 20 min.": 1, "Serves 4. Prep: 10 min.": 1, "Prep: 10 min": 1, "Prep: 10 min. Salt. Serves 4": 1, "Prep: 10 min. Serves 4. Makes 2": 1, "Prep: 10 min. Serves 4" + strings.Repeat(" ", 0): 2, "Prep: 10 min, serves " + strings.Repeat("4", 180): 1} {
		assert.Len(t, timesApart(plainLine{text: text}, false), want, text)
	}
	for text, want := range map[string]string{"400 g leeks    2 eggs": "400 g leeks|2 eggs", "400 g leeks\t2 eggs": "400 g leeks|2 eggs", "400 g leeks  2 eggs": "", "leeks    2 eggs": "", "400 g leeks    salt": "", "400 g leeks    2": "", "400 g    2 eggs": "400 g|2 eggs", "1 egg    2 eggs    3 eggs": "", "- 400 g leeks    - 2 eggs": "- 400 g leeks|- 2 eggs"} {
		assert.Equal(t, want, strings.Join((&splitting{}).sideBySide(text), "|"), text)
	}
	assert.Equal(t, []string{"400 g leeks", "salt"}, (&splitting{columns: true}).sideBySide("400 g leeks    salt"))
	assert.Nil(t, (&splitting{columns: true}).sideBySide("400 g leeks    salt and some pepper"))
	assert.True(t, inColumns("x\n400 g leeks    2 eggs\n"))
	assert.False(t, inColumns("x\n400 g leeks\n2 eggs\n"))
	assert.False(t, inColumns("400 g leeks    2 eggs"+strings.Repeat("s", 180)))
	for text, want := range map[string]string{"leeks\t400 g": "leeks: 400 g", "leeks\t400 g\tsliced": "leeks: 400 g, sliced", "leeks    400 g    sliced": "leeks: 400 g, sliced", "leeks 400 g": "", "leeks\tsliced": "", "2 leeks\t400 g": "", "leeks\t4 portions": "", "leeks\t400 g\ta\tb": "", "one two three four five\t400 g": "one two three four five: 400 g", "one two three four five six\t400 g": "", "leeks\t1 2 3 4": "leeks: 1 2 3 4", "leeks\t1 2 3 4 5": ""} {
		if want == "" {
			want = text
		}
		assert.Equal(t, want, inCells(text), text)
	}
	before, after, ok := cutGap("  Leek pie     Gran ")
	require.True(t, ok)
	assert.Equal(t, "Leek pie|Gran", before+"|"+after)
	_, _, ok = cutGap("Leek  pie")
	assert.False(t, ok)
}

// What a person wrote around a recipe, their regards and their name, is none of it.
func TestWhoWroteIt(t *testing.T) {
	for last, settled := range map[string]bool{"Pat": true, "Pat Smith": true, "Pat x": true, "Pat of the Hill": false, "Serves 4": false, "2 eggs": false, "Boil.": false} {
		lines := plainLines("Leek pie\n\n400 g leeks\n2 eggs\n\nBoil the leeks.\n\n" + last + "\n")
		require.NotEmpty(t, lines)
		assert.Equal(t, settled, lines[len(lines)-1].settled, last)
	}
	for text, settled := range map[string]int{"Leek pie\n400 g leeks\nBoil.\nWith love,\nPat": 2, "Leek pie\n400 g leeks\nBoil.\nWith love,\nPat and all of us": 0, "Love\nPat": 0, "x\nLove\nPat": 2} {
		count := 0
		for _, l := range plainLines(text) {
			if l.settled {
				count++
			}
		}
		assert.Equal(t, settled, count, text)
	}
	forwarded := plainLines("Hi Pat!\nFrom: a@b.example 1\nLeek pie\n400 g leeks")
	require.Len(t, forwarded, 4)
	assert.True(t, forwarded[0].settled && forwarded[1].settled)
	assert.False(t, forwarded[2].settled)
	first := plainLines("From: a@b.example 1\nLeek pie")
	assert.False(t, first[0].settled, "the first line is no head of a message passed on")
	for raw, want := range map[string]plainLine{"*Leek pie*": {text: "Leek pie"}, "_Leek pie_": {text: "Leek pie"}, "== Leek pie ==": {text: "Leek pie"}, "# Leek pie": {text: "Leek pie", gap: true}, "• 2 eggs": {text: "2 eggs", mark: bulletMark}, "-1 C": {text: "-1 C"}, "1. Boil": {text: "1. Boil", mark: numberMark}, "Step 1 Boil": {text: "Step 1 Boil", mark: numberMark}, "[x] 2 eggs": {text: "2 eggs", mark: bulletMark}, "**bold**": {text: "bold"}, "> 2 eggs": {text: "2 eggs"}, "  2 eggs": {text: "2 eggs", inward: true}, " 2 eggs": {text: "2 eggs"}, "\t2 eggs": {text: "2 eggs", inward: true}, "1️⃣ Boil": {text: "1. Boil", mark: numberMark}, "[12.7.31, 10:02] Pat: 2 eggs": {text: "2 eggs", stamped: true}, "| 2 eggs |": {text: "2 eggs"}} {
		lines := plainLines(raw)
		require.Len(t, lines, 1, raw)
		want.number = 1
		assert.Equal(t, want, lines[0], raw)
	}
	for raw, want := range map[string]int{"---": 0, "===": 0, "* * *": 0, "": 0, "· ·": 0} {
		assert.Len(t, plainLines(raw), want, raw)
	}
}

// The bounds are those that are told: 4 MB a file, 1 MB a text.
func TestBoundsAreAsTold(t *testing.T) {
	assert.Equal(t, 4*1024*1024, MostBytes)
	assert.Equal(t, 1024*1024, MostText)
	assert.Equal(t, 1000, mostLines)
	assert.Equal(t, 200, mostRecipes)
}

// What people write around a recipe: strokes behind the numbers of steps, words to find it
// by behind its name, and "abt.".
func TestHabitsOfWriters(t *testing.T) {
	read := func(text string) Recipe {
		r, err := Read("a.txt", []byte(text), Options{})
		require.NoError(t, err)
		return r
	}
	const list = "Serves 2\n\n500 g leeks\n1/2 lemon\n1 / 2 tsp salt\n"
	r := read("Leek dip #allotment #early_summer\n" + list + "\n1/ Boil the leeks 8 min.\n2/ Mash them.\n")
	assert.Equal(t, "Leek dip", r.Name)
	assert.Equal(t, []string{"Boil the leeks 8 min.", "Mash them."}, r.Of(Step))
	assert.Equal(t, []string{"500 g leeks", "1/2 lemon", "1 / 2 tsp salt"}, r.Of(Ingredient))
	assert.Equal(t, "Dip #1", read("Dip #1\n"+list+"\nBoil the leeks.\n").Name, "a number, by which it is told from others")
	r = read("Buttered leeks\n" + list + "\n1️⃣ Steam the leeks 12 mins\n2️⃣ Toss with the salt\n3️⃣ Eat!\n")
	assert.Equal(t, []string{"Steam the leeks 12 mins", "Toss with the salt", "Eat!"}, r.Of(Step))
	for _, yield := range []string{"Makes enough for 6 as a side", "Pour 4 personnes"} {
		assert.Equal(t, []string{yield}, read("Leek dip\n"+yield+"\n\n500 g leeks\n1/2 lemon\n\nBoil the leeks.\n").Of(Yield))
	}
	assert.Equal(t, []string{"Serves 4"}, read("Leek soup\nVegan · Serves 4 · 196 kcal per portion\n\n500 g leeks\n1/2 lemon\n\nBoil the leeks.\n").Of(Yield))
	assert.Equal(t, []string{"500 g leeks", "1/2 lemon"}, read("Leek soup\nVegan · Serves 4 · 196 kcal per portion\n\n500 g leeks\n1/2 lemon\n\nBoil the leeks.\n").Of(Ingredient))
	r = read("Stuffed marrow\nServes 2\n\n1 marrow\nFILLING\n200 g leeks\nSALT\n1 egg\n\nBake it for an hour.\n")
	assert.Equal(t, []string{"1 marrow", "200 g leeks", "SALT", "1 egg"}, r.Of(Ingredient))
	assert.Contains(t, r.Of(Heading), "FILLING")
	r = read("Pickled beetroot\n\n2 lb beetroot\n1 pt vinegar\n\nBoil the beetroot for an hour.\nMakes abt. 3 jars.\n")
	assert.Equal(t, []string{"Makes abt. 3 jars."}, r.Of(Yield))
}

// What stands beside a recipe and is no part of it needs no second look.
func TestAsides(t *testing.T) {
	for text, aside := range map[string]bool{"Prep time: 10 mins": true, "Ready in 25 min": true, "Vegan": true, "196 kcal per portion": true, "gluten-free": true,
		"From the kitchen of the allotment society": false, "2 eggs": false, "Boil for 10 minutes.": false, "": false} {
		assert.Equal(t, aside, IsAside(text), text)
	}
}
