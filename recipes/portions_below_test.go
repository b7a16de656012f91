package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A number of portions that stands alone below the steps is the yield, where no other
// is told; within the steps, or as one of several, it is asked about as before.
func TestPortionsBelowTheSteps(t *testing.T) {
	card := func(head, below string) string {
		return "Potato soup\n" + head + "\nIngredients\n500 g potatoes\n1 onion\n\nMethod\nBoil the potatoes for 20 minutes.\nMash.\n" + below
	}
	for text, portions := range map[string]int{
		card("", "\n(4 servings)\n"):           4,
		card("", "\n6 portions.\n"):            6,
		card("", "\nabout 3 helpings\n"):       3,
		card("Serves 2\n", "\n(4 servings)\n"): 2,
	} {
		assert.Equal(t, portions, portionsRead(t, text), text)
	}
	assert.Equal(t, 4, portionsRead(t, card("", "(4-5 servings)\n")), "set apart by its brackets")
	assert.Zero(t, portionsRead(t, card("", "4 servings\n")), "not set apart from the steps")
	assert.Zero(t, portionsRead(t, card("", "\n4 people came to eat it\n")))
}

func portionsRead(t *testing.T, text string) int {
	t.Helper()
	read, err := ImportRecipe("card.txt", []byte(text), ImportOptions{}, Kitchen{})
	require.NoError(t, err)
	return read.Portions
}
