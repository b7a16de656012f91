package keeping

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Dishes labelled by hand (known_by: practice): the food that names each, what
// else must be found in it, what must not.
var labelled = []struct {
	recipe    Recipe
	kind      string
	also, not []string
}{
	{Recipe{Name: "Veggie traybake", Crops: []string{"potato", "carrot"}, Items: []string{"olive oil"}, Method: []string{"roast 40 min"}}, "boiled-potatoes", []string{}, []string{"dressed-salad-raw-egg", "egg-dish"}},
	{Recipe{Name: "Noodles with peas", Crops: []string{"pea"}, Items: []string{"dried egg noodles", "butter"}}, "pasta-salad", []string{}, []string{"dressed-salad-raw-egg", "egg-dish"}},
	{Recipe{Name: "Potato salad", Crops: []string{"potato"}, Items: []string{"own mayonnaise", "chives"}, Method: []string{"boil, cool and dress"}}, "dressed-salad-raw-egg", []string{"dressed-salad"}, []string{}},
	{Recipe{Name: "Potato salad", Crops: []string{"potato"}, Items: []string{"mayonnaise", "chives"}, Method: []string{"boil, cool and dress"}}, "dressed-salad", []string{}, []string{"dressed-salad-raw-egg"}},
	{Recipe{Name: "New potatoes with aioli", Crops: []string{"potato"}, Items: []string{"aioli"}}, "dressed-salad-raw-egg", []string{}, []string{}},
	{Recipe{Name: "New potatoes with aioli", Crops: []string{"potato"}, Items: []string{"bought aioli"}}, "boiled-potatoes", []string{}, []string{"dressed-salad-raw-egg"}},
	{Recipe{Name: "Potato omelette", Crops: []string{"potato"}, Items: []string{"eggs", "onion"}, Method: []string{"fry the potatoes. add the eggs and fry till set"}}, "egg-dish", []string{}, []string{"dressed-salad-raw-egg"}},
	{Recipe{Name: "Potatoes in yolk dressing", Crops: []string{"potato"}, Items: []string{"egg yolks", "oil", "mustard"}, Method: []string{"boil the potatoes. whisk the yolks with oil. toss"}}, "dressed-salad-raw-egg", []string{}, []string{}},
	{Recipe{Name: "Buttered sprouts", Crops: []string{"Brussels sprout"}, Items: []string{"Brussels sprouts", "butter"}}, "cooked-vegetables", []string{}, []string{"sprouts", "herb-butter"}},
	{Recipe{Name: "Butter bean stew", Items: []string{"butter beans", "tinned tomatoes"}}, "cooked-beans", []string{"stew"}, []string{"herb-butter"}},
	{Recipe{Name: "Beetroot with rice vinegar", Crops: []string{"beetroot"}, Items: []string{"rice vinegar"}}, "cooked-vegetables", []string{}, []string{"cooked-rice"}},
	{Recipe{Name: "Stuffed courgettes", Crops: []string{"courgette"}, Items: []string{"rice", "tinned tomatoes"}, Method: []string{"bake"}}, "cooked-rice", []string{}, []string{}},
	{Recipe{Name: "Potatoes with pesto", Crops: []string{"potato"}, Items: []string{"pesto"}}, "boiled-potatoes", []string{"pesto"}, []string{}},
	{Recipe{Name: "Salad potatoes", Crops: []string{"potato"}, Items: []string{"butter"}, Method: []string{"boil"}}, "boiled-potatoes", []string{}, []string{"dressed-salad", "leaf-salad"}},
	{Recipe{Name: "Jacket potatoes", Crops: []string{"potato"}, Items: []string{"butter"}}, "baked-in-foil", []string{}, []string{}},
	{Recipe{Name: "Roast potatoes", Crops: []string{"potato"}, Method: []string{"cover with foil for 20 min, then roast"}}, "boiled-potatoes", []string{}, []string{"baked-in-foil"}},
	{Recipe{Name: "Champ", Crops: []string{"potato"}, Items: []string{"spring onion", "milk"}, Method: []string{"mash"}}, "mash", []string{}, []string{"bound-salad"}},
	{Recipe{Name: "Tuna and potato salad", Crops: []string{"potato"}, Items: []string{"tinned tuna", "mayonnaise"}, Method: []string{"cool and dress"}}, "dressed-salad", []string{"bound-salad"}, []string{}},
	{Recipe{Name: "Potatoes with leaves", Crops: []string{"potato"}, Items: []string{"rocket", "vinaigrette"}, Method: []string{"boil and cool"}}, "leaf-salad", []string{}, []string{}},
	{Recipe{Name: "Potatoes with elvers", Crops: []string{"potato"}, Items: []string{"elvers"}, Unknown: []string{"elvers"}}, "anything-else", []string{}, []string{}},
}

func TestKindsOfLabelledDishes(t *testing.T) {
	for _, c := range labelled {
		kinds := KindsOf(c.recipe)
		assert.Equal(t, c.kind, kinds.Foods[0], "%+v: %v", c.recipe, kinds)
		assert.Subset(t, kinds.Foods, c.also, c.recipe.Name)
		for _, not := range c.not {
			assert.NotContains(t, kinds.Foods, not, "%s: %v", c.recipe.Name, kinds)
		}
		assert.NotEmpty(t, kinds.Because, c.recipe.Name)
	}
}
