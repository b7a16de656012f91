package recipes_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
)

// A bare number is so many adults; else who eats is read as guests are.
func TestParseEaters(t *testing.T) {
	four, err := recipes.ParseEaters(" 4 ")
	require.NoError(t, err)
	assert.Equal(t, []recipes.Guests{{Count: 4}}, four)
	family, err := recipes.ParseEaters("2 adults, 1 child")
	require.NoError(t, err)
	require.Len(t, family, 2)
	assert.Equal(t, 2, family[0].Count)
	assert.True(t, family[1].Child)
	for _, wrong := range []string{"", "0", "-2", "501", "some", "two"} {
		_, err := recipes.ParseEaters(wrong)
		assert.Error(t, err, wrong)
	}
}

// The household and the number of dishes of kitchen.yaml; three dishes without.
func TestKitchenSaysWhoEats(t *testing.T) {
	read := func(lines string) (recipes.Kitchen, error) {
		return recipes.LoadKitchen("kitchen.yaml", []byte("measures: metric\n"+lines))
	}
	plain, err := read("")
	require.NoError(t, err)
	assert.Empty(t, plain.Household)
	assert.Equal(t, 3, plain.MostDishes)
	home, err := read("household: 2 adults, 1 child\ndishes: 5\n")
	require.NoError(t, err)
	require.Len(t, home.Household, 2)
	assert.Equal(t, 5, home.MostDishes)
	alone, err := read("household: 1\n")
	require.NoError(t, err)
	assert.Equal(t, []recipes.Guests{{Count: 1}}, alone.Household)
	for _, wrong := range []string{"household: a crowd\n", "dishes: 0\n", "dishes: many\n"} {
		_, err := read(wrong)
		assert.ErrorContains(t, err, "kitchen.yaml:2:", wrong)
	}
}
