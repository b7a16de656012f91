package recipes_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/units"
)

// More than 200 phrases of guests, labelled by hand with what must be read into
// them (the phrases invented, in words that the table of sayings mostly does not
// have; the allergens those of Regulation (EU) No 1169/2011, Annex II; common
// practice, no source, else). "ask" is a plan with a question, "decline" and
// "unread" are an error. At least 95 in 100 are read as labelled, and none is
// misread: taken for less than it rules out.
func TestGuestsPhrases(t *testing.T) {
	rows := labelled(t, "phrases")
	require.GreaterOrEqual(t, len(rows), 260)
	right := 0
	for _, row := range rows {
		groups, err := recipes.ParseGuests(row[0])
		if row[1] == "decline" || row[1] == "unread" {
			assert.Error(t, err, "%s is misread: %v", row[0], groups)
			if err != nil {
				right++
			}
			continue
		}
		if err != nil {
			t.Logf("%s: %v", row[0], err)
			continue
		}
		g := groups[len(groups)-1]
		exact := true
		for _, a := range allergenNames {
			want := slices.Contains(strings.Split(row[2], ";"), a)
			got := avoids(t, g, a)
			assert.False(t, want && !got, "%s is misread: has %s", row[0], a)
			exact = exact && want == got
		}
		for _, food := range strings.FieldsFunc(row[3], func(r rune) bool { return r == ';' }) {
			suits, _ := dishWith(t, food).Suits(g.Diet)
			assert.False(t, suits, "%s is misread: gets %s", row[0], food)
		}
		if row[4] != "" {
			assert.Contains(t, g.Label(), row[4], row[0])
		} else {
			exact = exact && !g.Diet.Weak()
		}
		if asked := g.Ask != ""; exact && asked == (row[1] == "ask") {
			right++
		} else {
			t.Logf("%s: %s, asks %q", row[0], g.Label(), g.Ask)
		}
	}
	assert.GreaterOrEqual(t, right*100, len(rows)*95, "read as labelled: %d of %d", right, len(rows))
	t.Logf("%d of %d as labelled", right, len(rows))
}

// allergenNames are the marks a label may name: the fourteen, meat and honey.
var allergenNames = []string{"gluten", "crustaceans", "egg", "fish", "peanuts", "soya", "milk", "nuts", "celery", "mustard", "sesame", "sulphites", "lupin", "molluscs", "meat", "honey"}

// avoids tells that a guest is not given what is said to hold a thing.
func avoids(t *testing.T, g recipes.Guests, thing string) bool {
	t.Helper()
	text := fmt.Sprintf("name: D\nportions: 4\ncrops: [{crop: swede, amount: 800 g, prepared: as-lifted, cut: halves}]\nothers: [{item: moonleaf, amount: 10 g, contains: [%s]}]\n", thing)
	dish, err := recipes.LoadDish("d.yaml", []byte(text), recipes.DefaultKitchen(units.Metric))
	require.NoError(t, err)
	suits, why := dish.Suits(g.Diet)
	return !suits && strings.Contains(why, "contains")
}

func dishWith(t *testing.T, item string) recipes.Dish {
	t.Helper()
	text := fmt.Sprintf("name: D\nportions: 4\ncrops: [{crop: swede, amount: 800 g, prepared: as-lifted, cut: halves}]\nothers: [{item: %q, amount: 10 g}]\n", item)
	dish, err := recipes.LoadDish("d.yaml", []byte(text), recipes.DefaultKitchen(units.Metric))
	require.NoError(t, err)
	return dish
}
