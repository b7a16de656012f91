package measures_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units/measures"
)

// A word and its plural have one stem, and words that only look alike have not.
func TestStemIsOneForAWordAndItsPlural(t *testing.T) {
	for _, pair := range strings.Split(`olive olives, leaf leaves, loaf loaves, half halves, clove cloves, chive chives, endive endives, quiche quiches,
		brioche brioches, peach peaches, radish radishes, dish dishes, brownie brownies, cookie cookies, berry berries, anchovy anchovies, pie pies,
		tomato tomatoes, potato potatoes, avocado avocados, aloe aloes, egg eggs, prawn prawns, nut nuts, cashew cashews, cheese cheeses, sausage sausages,
		glass glasses, mix mixes, box boxes, smoothie smoothies, pastry pastries, ganache ganaches, sandwich sandwiches, ceviche ceviches`, ",") {
		words := strings.Fields(pair)
		assert.Equal(t, measures.Stem(words[0]), measures.Stem(words[1]), pair)
	}
	for _, pair := range [][2]string{{"rice", "ricer"}, {"egg", "eggplant"}, {"bean", "beet"}, {"pea", "peach"}, {"pea", "peanut"}, {"ham", "champ"}, {"oat", "goat"}, {"cress", "crisps"}} {
		assert.NotEqual(t, measures.Stem(pair[0]), measures.Stem(pair[1]), pair)
	}
}
