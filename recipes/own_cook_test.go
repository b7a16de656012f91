package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

func TestHowACropIsCooked(t *testing.T) {
	load := func(lines string) (Dish, error) {
		return LoadDish("d.yaml", []byte("name: D\nportions: 4\ncrops:\n  - crop: potato\n    amount: 1 kg\n"+lines), DefaultKitchen(units.Metric))
	}
	for _, test := range []struct {
		lines, cook, uses string
		minutes           int
	}{
		{"    cook: boil\n    takes: 15 min\n", "boil", "ring", 15},
		{"    cook: boil\n", "boil", "ring", 0},
		{"    cook: blanch\n", "blanch", "ring", 0},
		{"    cook: own\n    takes: 35-40 min\n    uses: oven\n", "own", "oven", 40},
		{"    cook: own\n    takes: 1 h\n", "own", "nothing", 60},
		{"    cook: blanch\n    takes: 3 min\n", "blanch", "ring", 3},
		{"", "steam", "", 0},
	} {
		d, err := load(test.lines)
		require.NoError(t, err, test.lines)
		assert.Equal(t, Hot, d.Served)
		c := d.Crops[0]
		assert.Equal(t, test.cook, c.Cook)
		assert.Equal(t, test.uses, c.Uses)
		assert.Equal(t, test.minutes, c.Minutes)
		assert.Equal(t, test.cook == "steam", c.IsSteamed())
	}
	for lines, says := range map[string]string{
		"    cook: own\n":                                   `the key "takes" is missing`,
		"    takes: 5 min\n":                                "not with `cook: steam`",
		"    cook: own\n    takes: 2 kg\n":                  "takes",
		"    cook: own\n    takes: 900 min\n":               "no time that a step takes",
		"    cook: fry\n    takes: 5 min\n":                 "cook",
		"    cook: boil\n    takes: 5 min\n    uses: hob\n": "uses",
	} {
		_, err := load(lines)
		require.ErrorContains(t, err, says, lines)
	}
}
