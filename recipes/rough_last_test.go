package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A measure behind its ingredient ends the line, "of" or not: the next one is another
// ingredient, and is not swallowed.
func TestAMeasureBehindItsIngredientEndsTheLine(t *testing.T) {
	read, err := ImportRecipe("card.txt", []byte("Soup\nServes 4\n\nIngredients\n500 g potatoes\nsalt, pinch of\npinch sugar\n20 g butter, melted and\npoured\n\nMethod\nBoil the potatoes for 20 minutes.\n"), ImportOptions{}, Kitchen{})
	require.NoError(t, err)
	var texts []string
	for _, l := range read.Lines {
		if l.As == AsOther {
			texts = append(texts, l.Text)
		}
	}
	assert.Equal(t, []string{"salt, pinch of", "pinch sugar", "20 g butter, melted and poured"}, texts)
}
