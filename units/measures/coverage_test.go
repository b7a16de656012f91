package measures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units"
	"trencher/units/measures"
)

// everyday are the measures a recipe gives an ingredient in: a spoon, pieces and
// parts, packs.
var everyday = []string{"1 tbsp", "1", "1 slice", "1 leaf", "1 head", "1 sprig", "1 handful", "1 clove", "1 rasher", "1 ball", "1 cube",
	"1 tin", "1 jar", "1 packet", "1 sachet", "1 tub", "1 pot", "1 bag", "1 block", "1 bunch"}

// converts tells whether any everyday measure of a food has a weight, with no
// state named.
func converts(table measures.Table, food string) bool {
	for _, measure := range everyday {
		if _, err := table.Convert(units.MustParse(measure), units.Gram, food, ""); err == nil {
			return true
		}
	}
	return false
}

// Of every hundred ingredients that have a row, and of every hundred foods that
// have a name, at least 95 convert a spoon, a piece or a pack as they stand.
func TestIngredientsConvert(t *testing.T) {
	table := measures.Default().For(units.UK)
	var foods []string
	for _, row := range nameRows(t) {
		if row["kind"] == "food" {
			foods = append(foods, row["name"])
		}
	}
	for what, names := range map[string][]string{"rows": table.Ingredients(), "foods": foods} {
		good := 0
		for _, name := range names {
			if converts(table, name) {
				good++
			} else {
				t.Logf("%s: no everyday measure of %s", what, name)
			}
		}
		t.Logf("%s: %d of %d convert", what, good, len(names))
		assert.GreaterOrEqual(t, 100*good, 95*len(names), what)
	}
}

// Every food that is weighed as another names one that has rows.
func TestWeighedAsLeadsToRows(t *testing.T) {
	table := measures.Default()
	for _, row := range nameRows(t) {
		if isFood(row) && row["kind"] != "same" && row["weighs_as"] != "" {
			assert.True(t, table.Has(row["weighs_as"]), "%s is weighed as %s, which has no row", row["name"], row["weighs_as"])
		}
	}
}
