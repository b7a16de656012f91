package recipes

import (
	"fmt"
	"hash/crc32"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Every clause of the corpora's steps, as it was read when somebody last read the
// difference: what the dish files made of them do not show where it decided nothing.
func TestEveryClauseIsReadAsReviewed(t *testing.T) {
	all, err := corpora()
	require.NoError(t, err)
	var out strings.Builder
	for _, name := range slices.Sorted(maps.Keys(all)) {
		fmt.Fprintf(&out, "===== %s\n", name)
		im := importer{result: all[name].Imported}
		for _, c := range im.clauses() {
			writeClause(&out, c)
		}
	}
	goldenLines(t, "../testdata/recipes/clauses.txt", out.String())
}

func writeClause(out *strings.Builder, c clause) {
	fmt.Fprint(out, c.text[:min(len(c.text), 48)])
	for _, fact := range []struct {
		is   bool
		word string
	}{
		{c.how != "", " |" + c.how + " " + c.uses}, {c.minutes != 0, fmt.Sprint(" |", c.minutes, " min")}, {c.until != "", " |" + c.until}, {c.plain, " plain"}, {c.unsure, " unsure"}, {c.last, " last"}, {c.more, " more"},
		{c.apart, " apart"}, {c.elsewhere, " elsewhere"}, {c.unclear(), " unclear"}, {c.ofUnnamed(), " unnamed"}, {len(c.things) > 0, " [" + strings.Join(c.things, ", ") + "]"},
	} {
		if fact.is {
			fmt.Fprint(out, fact.word)
		}
	}
	if cut, sized := cutIn(c.text); cut != "" {
		fmt.Fprintf(out, " cut %s %t", cut, sized)
	}
	if how, _ := wayIn(c.text); how != c.how {
		fmt.Fprint(out, " way ", how)
	}
	fmt.Fprintln(out)
}

// Some recipes of the corpora once more, with answers to what they leave open and
// corrections of what they say.
func TestAnswersAreTakenAsReviewed(t *testing.T) {
	all, err := corpora()
	require.NoError(t, err)
	var out strings.Builder
	for _, name := range slices.Sorted(maps.Keys(all)) {
		number := int(crc32.ChecksumIEEE([]byte(name)) % 720)
		if number%6 != 0 {
			continue
		}
		data, err := os.ReadFile(filepath.Join("../testdata/recipes", name))
		require.NoError(t, err)
		words := answersFor(all[name].Imported, number/6)
		system := units.System(1 + number/6%4)
		o, err := words.Options(system)
		require.NoError(t, err)
		if number%12 == 0 {
			o.Grown = []string{"potato", "leek", "carrot"}
		}
		fmt.Fprintf(&out, "===== %s %s %v\n", name, system, words)
		one := corpusRecipe{name: name}
		one.Imported, one.err = ImportRecipe(filepath.Base(name), data, o, DefaultKitchen(system))
		writeImported(&out, one)
	}
	goldenLines(t, "../testdata/recipes/answered.txt", out.String())
}

// answersFor are answers of one of several kinds.
func answersFor(im Imported, kind int) (w ImportWords) {
	var ingredient, step int
	for _, l := range im.Lines {
		switch {
		case l.As == AsOther && (ingredient == 0 || kind%3 == 0):
			ingredient = l.Number
		case l.As == AsStep:
			step = l.Number
		}
	}
	for _, q := range im.Open {
		switch q.Field {
		case "portions":
			w.Portions = 3
		case "cook":
			w.Cook = append(w.Cook, q.Value+"=oven 40 min")
		case "amount":
			w.Amounts = append(w.Amounts, "potatoes=900 g")
		}
	}
	switch kind % 6 {
	case 0:
		w.Lines = []string{fmt.Sprintf("%d=2 cups grated carrots", ingredient)}
	case 1:
		w.As = []string{fmt.Sprintf("%d=heading", ingredient), fmt.Sprintf("%d=other", step)}
	case 2:
		w.Amounts = append(w.Amounts, "butter=1 tbsp")
	case 3:
		w.Lines, w.Served, w.Name = []string{fmt.Sprintf("%d=", step)}, "warm", "Another name"
	case 4:
		w.As, w.Portions = []string{fmt.Sprintf("%d=crop", ingredient)}, 7
	case 5:
		for _, c := range im.Dish.Crops {
			w.Cook = append(w.Cook, c.Crop+"=boil 12 min")
		}
	}
	return w
}
