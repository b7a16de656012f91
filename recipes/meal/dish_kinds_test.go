package meal_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/units"
)

// Near 200 dishes labelled by hand with the food that names them, what else must be
// found in them and what must not (the dishes invented; how cooks write is common
// practice, no source). No dish is judged milder than its label: the label's food
// and all the others are found, so that their limits hold. At most two in a hundred
// are judged stricter: another food names them, or one is found that is not there.
func TestDishesAreJudgedByTheirFoods(t *testing.T) {
	var rows [][]string
	for _, name := range []string{"dish-kinds.csv", "dish-kinds-2.csv", "dish-kinds-3.csv"} { // the second and third written before they were first run
		file, err := os.Open("../../testdata/keeping/" + name)
		require.NoError(t, err)
		defer file.Close()
		more, err := csv.NewReader(file).ReadAll()
		require.NoError(t, err)
		rows = append(rows, more[1:]...)
	}
	require.GreaterOrEqual(t, len(rows), 190)
	var stricter []string
	for _, row := range rows {
		kinds := meal.KindsOf(labelledDish(t, row))
		list := func(cell string) []string {
			return strings.FieldsFunc(cell, func(r rune) bool { return r == ',' })
		}
		for _, food := range append(list(row[6]), row[5]) {
			assert.Contains(t, kinds.Foods, food, "%s (%s) is judged milder: %v", row[0], row[3], kinds.Foods)
		}
		more := kinds.Foods[0] != row[5] || slices.ContainsFunc(list(row[7]), func(food string) bool { return slices.Contains(kinds.Foods, food) })
		if more {
			stricter = append(stricter, fmt.Sprintf("%s: %v, not %s", row[0], kinds.Foods, row[5]))
		}
	}
	assert.LessOrEqual(t, len(stricter)*100, len(rows)*2, "stricter: %s", strings.Join(stricter, "\n"))
}

// labelledDish is the dish file of a row: name, crops, served, other items, steps.
func labelledDish(t *testing.T, row []string) recipes.Dish {
	t.Helper()
	text := fmt.Sprintf("name: %q\nportions: 4\nserved: %s\ncrops:\n", row[0], row[2])
	for _, crop := range strings.Split(row[1], "; ") {
		text += fmt.Sprintf("- {crop: %s, amount: 400 g, prepared: as-lifted, cut: halves}\n", crop)
	}
	if row[3] != "" {
		text += "others:\n"
	}
	for _, item := range strings.FieldsFunc(row[3], func(r rune) bool { return r == ';' }) {
		text += fmt.Sprintf("- {item: %q, amount: 20 g}\n", strings.TrimSpace(item))
	}
	if row[4] != "" {
		text += fmt.Sprintf("method: [%q]\n", row[4])
	}
	dish, err := recipes.LoadDish("d.yaml", []byte(text), recipes.DefaultKitchen(units.Metric))
	require.NoError(t, err, text)
	return dish
}

// A food that only a step or the name of a dish has, and no table knows, is a food
// no rule knows: the strictest limits hold.
func TestAFoodNobodyKnowsInAStepIsAnythingElse(t *testing.T) {
	for _, row := range [][]string{
		{"Potatoes with grumbold", "potato", "hot", "", "Steam.", "", "", ""},
		{"Potatoes", "potato", "hot", "", "Steam. Serve with grumbolds.", "", "", ""},
		{"Potatoes", "potato", "hot", "", "Steam. Serve over lumbang.", "", "", ""},
	} {
		assert.Contains(t, meal.KindsOf(labelledDish(t, row)).Foods, "anything-else", row[4])
	}
	assert.NotContains(t, meal.KindsOf(labelledDish(t, []string{"Potatoes", "potato", "hot", "parsley", "Steam in a pan with the lid on. Serve with parsley.", "", "", ""})).Foods, "anything-else")
}
