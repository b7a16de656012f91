package recipes_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/units"
)

// Names of our own making.
var three = []recipes.Dish{
	{Name: "Green mash", File: "dishes/mash.yaml"},
	{Name: "Green salad", File: "dishes/cold.yaml"},
	{Name: "Root soup", File: "dishes/soup.yaml"},
}

func TestFindingADish(t *testing.T) {
	for text, want := range map[string]string{"green MASH": "Green mash", "cold": "Green salad", "roo": "Root soup", " so ": "Root soup"} {
		dish, err := recipes.Find(three, text)
		require.NoError(t, err, text)
		assert.Equal(t, want, dish.Name, text)
	}
	for _, text := range []string{"green", "", "stew"} {
		_, err := recipes.Find(three, text)
		require.Error(t, err, text)
	}
}

func TestChoosingDishes(t *testing.T) {
	for _, c := range []struct{ only, without, want []string }{
		{nil, nil, []string{"Green mash", "Green salad", "Root soup"}},
		{[]string{"soup", "mash"}, nil, []string{"Root soup", "Green mash"}},
		{nil, []string{"cold"}, []string{"Green mash", "Root soup"}},
	} {
		chosen, err := recipes.Choose(three, c.only, c.without)
		require.NoError(t, err)
		assert.Equal(t, c.want, recipes.NamesOf(chosen))
	}
	for field, c := range map[string]struct{ only, without []string }{
		"only":    {[]string{"soup", "root"}, nil},
		"without": {[]string{"soup"}, []string{"soup"}},
	} {
		_, err := recipes.Choose(three, c.only, c.without)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong)
		assert.Equal(t, field, wrong.Field)
	}
	_, err := recipes.Choose(nil, nil, nil)
	require.ErrorContains(t, err, "no dishes")
}
