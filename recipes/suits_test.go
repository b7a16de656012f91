package recipes

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

func dishOf(t testing.TB, others string) Dish {
	t.Helper()
	text := "name: D\nportions: 4\ncrops: [{crop: potato, amount: 800 g, prepared: scrubbed, cut: halves}]\n"
	if others != "" {
		text += "others:\n" + others
	}
	d, err := LoadDish("d.yaml", []byte(text), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	return d
}

func TestSuits(t *testing.T) {
	tests := []struct{ name, others, diet, reason string }{
		{"nothing in the way", "- {item: butter, amount: 50 g}", "", ""},
		{"butter is milk", "- {item: butter, amount: 50 g}", "no milk", "butter contains milk"},
		{"butter is no egg", "- {item: butter, amount: 50 g}", "no egg", ""},
		{"butter is vegetarian", "- {item: butter, amount: 50 g}", "vegetarian", ""},
		{"butter is not vegan", "- {item: butter, amount: 50 g}", "vegan", "butter contains milk"},
		{"mayonnaise", "- {item: mayonnaise, amount: 50 g}", "no egg, mustard", "mayonnaise contains egg and may contain mustard"},
		{"two in the way", "- {item: butter, amount: 5 g}\n- {item: bacon, amount: 50 g}", "vegan", "butter contains milk; bacon contains meat and may contain milk"},
		{"wine vinegar", "- {item: white wine vinegar, amount: 1 tbsp}", "no sulphites", "white wine vinegar contains sulphites"},
		{"lovage for who avoids celery", "- {item: lovage, amount: 1 tbsp}", "no celery", "lovage may contain celery"},
		{"unknown, any diet", "- {item: grandmother's sauce, amount: 1 tbsp}", "no lupin", "grandmother's sauce is not in the table and may contain anything: add `contains:` to its line"},
		{"mistyped", "- {item: mayonaise, amount: 1 tbsp}", "no lupin", "mayonaise is not in the table and may contain anything: write mayonnaise if that is meant, else add `contains:` to its line"},
		{"unknown, vegetarian", "- {item: grandmother's sauce, amount: 1 tbsp}", "vegetarian", "grandmother's sauce is not in the table and may contain anything: add `contains:` to its line"},
		{"unknown, eats anything", "- {item: grandmother's sauce, amount: 1 tbsp}", "", ""},
		{"unknown but said to hold none", "- {item: grandmother's sauce, amount: 1 tbsp, contains: none}", "vegan no gluten", ""},
		{"unknown but named", "- {item: grandmother's sauce, amount: 1 tbsp, contains: [mustard, honey]}", "vegan", "grandmother's sauce contains honey"},
		{"label read", "- {item: capers, amount: 1 tbsp, contains: none}", "no sulphites", ""},
		{"label read, one word", "- {item: capers, amount: 1 tbsp, contains: sulphites}", "no sulphites", "capers contains sulphites"},
		{"optional counts", "- {item: feta, amount: 50 g, optional: true}", "no milk", "feta (optional) contains milk"},
		{"an alternative counts", "- {item: olive oil, amount: 1 tbsp, instead: [{item: butter, amount: 20 g}]}", "no milk", "butter (instead of olive oil) contains milk"},
		{"rennet", "- {item: Cheddar, amount: 50 g}", "vegetarian", "Cheddar may contain animal rennet"},
		{"rennet, label read", "- {item: Cheddar, amount: 50 g, contains: [milk]}", "vegetarian", ""},
		{"a state tells", "- {item: apricot, amount: 50 g, state: dried}", "no sulphites", "apricot contains sulphites"},
		{"wheat for gluten", "- {item: breadcrumbs, amount: 50 g}", "coeliac", "breadcrumbs contains gluten"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			diet, err := ParseDiet(test.diet)
			require.NoError(t, err)
			suits, reason := dishOf(t, test.others).Suits(diet)
			assert.Equal(t, test.reason, reason)
			assert.Equal(t, test.reason == "", suits)
		})
	}
}

func TestDishAllergens(t *testing.T) {
	d := dishOf(t, "- {item: butter, amount: 50 g}\n- {item: feta, amount: 50 g, optional: true}\n- {item: olive oil, amount: 1 tbsp, instead: [{item: egg, amount: 1}]}\n- {item: lovage, amount: 1 tbsp}")
	contains, may := d.Allergens()
	assert.Equal(t, []Allergen{Milk}, contains)
	assert.Equal(t, []Allergen{Egg, Celery}, may)
	assert.Equal(t, []string{"feta: may be set with animal rennet: read the label",
		"lovage: lovage is not celery by law but a near relative: tell a guest who avoids celery"}, d.Tell())
	assert.Empty(t, d.Unknown())

	unknown := dishOf(t, "- {item: mystery paste, amount: 50 g}")
	contains, may = unknown.Allergens()
	assert.Empty(t, contains)
	assert.Equal(t, allAllergens.allergens(), may)
	assert.Equal(t, []string{"mystery paste"}, unknown.Unknown())
}

// For every ingredient of the table and every one of the fourteen: a guest
// who avoids it gets the dish only if the ingredient is free of it.
func TestNoGuestGetsWhatTheyMustNot(t *testing.T) {
	for _, item := range Ingredients() {
		d := dishOf(t, fmt.Sprintf("- {item: %q, amount: 10 g}", item))
		c := Allergens(item)
		for _, a := range allAllergens.allergens() {
			suits, reason := d.Suits(Diet{avoid: mark(a)})
			byName := item == "pine nut" && a == Nuts // a nut to the FDA, none to the EU
			free := !byName && !slices.Contains(c.Contains(), a) && !slices.Contains(c.May(), a)
			assert.Equal(t, free, suits, "%s, no %s: %s", item, a, reason)
		}
	}
}

func ExampleParseGuests() {
	groups, err := ParseGuests("2 adults no milk, egg, 3 children vegetarian")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, g := range groups {
		fmt.Println(g.Count, g.Label())
	}
	// Output:
	// 2 adult, no egg, no milk
	// 3 child, vegetarian
}

func ExampleAllergens() {
	for _, item := range []string{"mayonnaise", "chives", "grandmother's sauce"} {
		c := Allergens(item)
		fmt.Println(item, "contains", c.Contains(), "may contain", len(c.May()))
	}
	// Output:
	// mayonnaise contains [egg] may contain 2
	// chives contains [] may contain 0
	// grandmother's sauce contains [] may contain 14
}

func ExampleYieldOf() {
	y, err := YieldOf("courgettes", "trimmed")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(y.Factor.FloatString(2), y.Steps[0].KnownBy)
	fmt.Println(y.Steps[0].Provenance)
	// Output:
	// 0.95 read
	// Bakery and Business Math (Open Washington), ch. 25, yield percents, worked example and table row
}
