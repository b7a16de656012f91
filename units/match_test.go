package units

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestMatchNames(t *testing.T) {
	names := []string{"Mash", "Mash with leeks", "Cold potato salad", "Crushed potatoes", "tub-1", "tub-10", "Épinards"}
	for typed, want := range map[string][]int{
		"Mash":            {0}, // the whole name, though another begins so
		"mash":            {0},
		"mash w":          {1},
		"  cold  POTATO ": {2},
		"c":               {2, 3},
		"cr":              {3},
		"tub-1":           {4},
		"tub":             {4, 5},
		"épi":             {6},
		"ash":             nil,
		"":                nil,
		" ":               nil,
	} {
		assert.Equal(t, want, MatchNames(typed, names), "%q", typed)
	}
	files := [][]string{{"Spring onion mash", "onion-mash"}, {"Onion tart", "tart"}}
	of := func(i int) []string { return files[i] }
	assert.Equal(t, []int{0, 1}, MatchAny("onion", 2, of), "by any of their names")
	assert.Equal(t, []int{0}, MatchAny("onion-mash", 2, of))
	assert.Equal(t, []int{1}, MatchAny("tar", 2, of))
}
