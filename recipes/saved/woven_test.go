package saved

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// wovenLines are lines that stand at the edges of what is asked of one: with as many
// words as decide it, and one more or less; with and without what ends or begins it.
var wovenLines = []string{
	"Leek pie", "LEEK PIE", "Our best leek pie, the one that everybody asks for each and every", "Leek pie (serves 4)", "Leek pie - serves 4", "Leek pie for 4", "Leek pie    Gran", "Title: Leek pie", "Recipe of the week", "*Leek pie*", "# Leek pie", "== Leek pie ==", "Leek pie.", "Leek pie, 1987", "Simmer for two", "Hi there!", "leek pie, as promised",
	"Serves 4", "4 portions", "(enough for 4)", "Makes 2 jars", "for 4-6", "Serves 4. Prep: 10 min.", "Prep: 10 min. Portions: 4.", "Prep: 10 min | Serves 4 | Oven 200 C", "Time: 20 min", "Prep: 10 min. Cook: 20 min.", "20 minutes", "12 June 1987", "Saturday 3rd May",
	"Ingredients", "Ingredients:", "You will need (for 4)", "Ingredients: 400 g leeks, 2 eggs", "Amount Ingredient", "Method", "Method: Boil the leeks in salted water.", "Method: boil it", "Directions", "To serve", "For the sauce", "For the sauce:", "For the sauce: 50 g butter, 50 g flour", "Notes", "Tip: keep cool", "P.S.", "The sauce", "To finish",
	"400 g leeks", "400 g leeks, trimmed and", "400 g leeks, sliced,", "- 400 g leeks", "• 2 eggs", "[ ] 2 eggs", "1. 400 g leeks", "leeks 400 g", "leeks, 400 g", "Leeks: 400 g", "leeks ... 400 g", "400 g leeks    2 eggs", "400 g leeks    salt", "leeks\t400 g\tsliced", "| 400 g | leeks |", "| leeks |", "salt", "salt to taste", "pinch of salt", "a handful of parsley", "juice of 1 lemon", "l½ lb leeks", "175 g flour, 85 g butter, 1 egg", "175 g flour, 85 g butter", "175 g flour; 85 g butter", "Pastry: 175 g flour, 85 g butter, 1 egg yolk.", "2 eggs, beaten", "3 leeks (or 4, if small)", "oil for frying", "    400 g leeks", "butter and", "finely", "chopped parsley",
	"Boil the leeks.", "Boil the leeks", "boil", "Boil the leeks for 8 minutes and drain them well", "1. Boil the leeks.", "2) Bake them.", "3 - Serve", "1 Boil the leeks until tender.", "2 Drain them in a sieve.", "1 slice of the bread goes in", "1 Boil leeks", "1 boil the leeks now", "Step 1: Boil the leeks.", "Step 2", "1. Boil. 2. Bake it.", "The leeks go in now.", "The leeks go in now, and then the eggs and the cheese", "Oven on 200 C.", "Hot oven.", "and bake for 20 minutes.", "bake for 20 minutes.", "3 minutes later, squeeze over the lemon.", "2 eggs go in at the end of it all.", "Bring 1 l water to the boil with 2 tsp salt", "grate of nutmeg", "Boil! Then eat.",
	"Boil 500 g leeks in salted water, then toss with 50 g butter.", "LEEKS. Boil 2 lb of them until they are soft and serve.", "Leeks in cream. Boil 500 g of leeks and serve them hot.", "We love this one.", "Love, Pat", "With love", "Pat", "Pat x", "--", "From: a@b.example 12", "Subject: Fwd: Chard", "---- Forwarded message ----", "[12.7.31, 10:02] Pat: 2 eggs", "> 2 eggs", "😀 2 eggs", "★ Print", "Home | Recipes", "http://x.example", "", "", "",
}

// Lines in every company: each text is some of them, one after the other, and what it is
// taken apart into is a letter a line, as when somebody last read the difference.
func TestWovenTexts(t *testing.T) {
	var out strings.Builder
	random := rand.New(rand.NewPCG(20, 16))
	for n := range 1600 {
		var lines []string
		for range 3 + random.IntN(6) {
			lines = append(lines, wovenLines[random.IntN(len(wovenLines))])
		}
		if n%3 == 0 {
			lines = append([]string{"Leek pie", ""}, lines...)
		}
		if n%4 == 1 {
			lines = append(lines[:2:2], append([]string{"Ingredients", "400 g leeks", "Method", "Boil the leeks."}, lines[2:]...)...)
		}
		r := fromPlain(strings.Join(lines, "\n"))
		roles, letters := "", 0
		for _, l := range r.Lines {
			roles += string("ntyhis"[l.Role])
			letters += len(l.Text)
		}
		fmt.Fprintf(&out, "%d %.12s %s %d", n, r.Name, roles, letters)
		for _, unsure := range []struct {
			is   bool
			what string
		}{{r.NameUnsure, "n"}, {r.StepsUnsure, "s"}, {r.ListUnsure, "l"}} {
			if unsure.is {
				fmt.Fprint(&out, " ", unsure.what)
			}
		}
		fmt.Fprintln(&out)
	}
	reviewed(t, "../../testdata/recipes/woven.txt", out.String())
}
