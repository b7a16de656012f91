package recipes

import (
	"fmt"
	"maps"
	"os"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/recipes/saved"
	"trencher/units"
)

// largeRecipes are recipes of every shape that might take a reader long, of so many
// parts: lines, tags, steps, brackets. At most is the largest size that is taken.
var largeRecipes = map[string]struct {
	most int
	text func(n int) string
}{
	"unknown ingredients": {950, func(n int) string {
		return "Soup\nServes 4\nIngredients\n" + lined(n, "%d g thing number chopped finely and stirred and folded") + "Method\nBoil it for 5 minutes.\n"
	}},
	"one crop over and over": {750, func(n int) string {
		return "Soup\nServes 4\nIngredients\n" + lined(n, "%d g potatoes, cut thinly") + "Method\n" + lined(n/5, "Boil the potatoes with %d leeks.")
	}},
	"steps": {950, func(n int) string {
		return "Soup\nServes 4\n500 g potatoes\nMethod\n" + lined(n, "Boil the potatoes, fry them %d times and stir.")
	}},
	"one long step": {40_000, func(n int) string {
		return "Soup\nServes 4\n500 g potatoes\nMethod\nBoil " + strings.Repeat("and boil the potatoes, ", n)
	}},
	"one long line": {100_000, func(n int) string { return "Mash\n" + strings.Repeat("potato ", n) }},
	"brackets": {950, func(n int) string {
		return "Soup\nIngredients\n" + strings.Repeat(strings.Repeat("1 (", 100)+"x"+strings.Repeat(")", 90)+"\n", n)
	}},
	"giant fractions": {950, func(n int) string {
		return "Soup\nIngredients\n" + strings.Repeat(strings.Repeat("1/", 190)+" g salt\n", n)
	}},
	"giant numbers": {950, func(n int) string {
		return "Soup\nIngredients\n" + strings.Repeat(strings.Repeat("9", 380)+" g salt\n", n)
	}},
	"alternatives": {950, func(n int) string {
		return "Soup\nIngredients\n" + strings.Repeat(strings.Repeat("1 g a or ", 40)+"salt\n", n)
	}},
	"sums": {950, func(n int) string {
		return "Soup\nIngredients\n" + strings.Repeat(strings.Repeat("1 g plus ", 40)+"salt\n", n)
	}},
	"run on": {950, func(n int) string { return "Soup\nIngredients: " + strings.Repeat("1 g salt, ", n) }},
	"tags":   {950, func(n int) string { return "<html>" + strings.Repeat("<li>1 g salt</li>", n) }},
	"marked tags": {950, func(n int) string {
		return "<html><div itemscope itemtype='https://schema.org/Recipe'>" + strings.Repeat("<p itemprop=recipeIngredient>1 g salt</p>", n)
	}},
	"references": {950, func(n int) string {
		return "<html><div itemscope itemtype='https://schema.org/Recipe' itemref='" + strings.Repeat("a ", n) + "'></div><p id=a><b itemprop=recipeIngredient>1 g salt</b></p>"
	}},
	"an ocean of <": {900_000, func(n int) string {
		return `{"@type":"Recipe","name":"x","recipeIngredient":["1 g salt"],"recipeInstructions":"` + strings.Repeat("<", n) + `"}`
	}},
	"entities": {180_000, func(n int) string {
		return `{"@type":"Recipe","name":"x","recipeIngredient":["1 g salt"],"recipeInstructions":"` + strings.Repeat("&amp;", n) + `"}`
	}},
	"many recipes": {190, func(n int) string {
		return "[" + strings.Repeat(`{"@type":"Recipe","name":"x","recipeIngredient":["1 g salt"]},`, n) + "]"
	}},
	"parts of letters": {30_000, func(n int) string {
		return "From: a@example.org\nSubject: x\nContent-Type: multipart/mixed; boundary=\"b\"\n\n" + strings.Repeat("--b\nContent-Type: text/html\n\n<p>x\n", n)
	}},
}

func lined(n int, form string) string {
	var out strings.Builder
	for i := range n {
		fmt.Fprintf(&out, form+"\n", i%90+1)
	}
	return out.String()
}

func importAllocates(text string) (megabytes float64) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, _ = ImportRecipe("a", []byte(text), ImportOptions{System: units.UK}, DefaultKitchen(units.UK))
	runtime.ReadMemStats(&after)
	return float64(after.TotalAlloc-before.TotalAlloc) / 1e6
}

// partOfLargest is the part of the largest recipe that is tried: a quarter, with
// TRENCHER_LONG all of it.
func partOfLargest() int {
	if os.Getenv("TRENCHER_LONG") != "" {
		return 1
	}
	return 4
}

// However a recipe is built, reading it allocates no more than in step with its
// size, and 200 MB at most for the largest that is taken.
func TestBoundsOfRecipes(t *testing.T) {
	part := partOfLargest()
	for at, name := range slices.Sorted(maps.Keys(largeRecipes)) {
		if part > 1 && at%3 > 0 {
			continue // with TRENCHER_LONG every shape
		}
		shape := largeRecipes[name]
		t.Run(name, func(t *testing.T) {
			importAllocates(shape.text(10)) // what is read once
			small, large := importAllocates(shape.text(shape.most/part/4)), importAllocates(shape.text(shape.most/part))
			t.Logf("%.1f MB for a quarter, %.1f MB for all", small, large)
			if !raced {
				assert.Less(t, large, 200.0/float64(part), "MB")
			}
			assert.Less(t, large, 6*small+20/float64(part), "in step")
		})
	}
}

// References among a few things multiply without end; nesting goes deep: neither
// is followed further than a recipe needs.
func TestEndlessRecipes(t *testing.T) {
	part := partOfLargest()
	var things strings.Builder
	for i := range 40 {
		fmt.Fprintf(&things, `{"@id":"#%d","itemListElement":[{"@id":"#%d"},{"@id":"#%d"}]},`, i, i+1, i+1)
	}
	for name, text := range map[string]string{
		"references":     `{"@graph":[` + things.String() + `{"@type":"Recipe","name":"x","recipeIngredient":["1 g salt"],"recipeInstructions":{"@id":"#0"}}]}`,
		"deep lists":     strings.Repeat("[", 100_000/part) + strings.Repeat("]", 100_000/part),
		"deep things":    strings.Repeat(`{"@graph":`, 50_000/part) + "1" + strings.Repeat("}", 50_000/part),
		"deep tags":      "<html>" + strings.Repeat("<div>", 100_000/part),
		"deep bold tags": "<html>" + strings.Repeat("<b><p>", 50_000/part),
		"a megabyte":     strings.Repeat("1 g salt\n", saved.MostText/9+1),
		"sentences":      "Potatoes\n\n" + strings.Repeat("Boil 500 g potatoes with 1 tsp salt, then stir in 20 g butter. ", 14_000/part),
		"one sentence":   "Potatoes\n\n" + strings.Repeat("Boil 500 g potatoes with 1 tsp salt and é ", 20_000/part),
	} {
		allocated := importAllocates(text)
		if !raced {
			assert.Less(t, allocated, 200.0/float64(part), name)
		}
	}
}

// BenchmarkLargest reads the largest recipe of each shape that is taken.
func BenchmarkLargest(b *testing.B) {
	for name, shape := range largeRecipes {
		text := []byte(shape.text(shape.most))
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				_, _ = ImportRecipe("a", text, ImportOptions{System: units.UK}, DefaultKitchen(units.UK))
			}
		})
	}
}
