package recipes

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Every saying of the table is read as the table says: accepted with all that it
// rules out, accepted with its question, or declined with its reason.
func TestEverySayingIsReadAsTheTableSays(t *testing.T) {
	tally := map[string]int{}
	for _, s := range sayingRows {
		groups, err := ParseGuests("2 adults " + s.phrase)
		switch {
		case s.decline:
			tally["declined"]++
			var wrong *units.FieldError
			require.True(t, errors.As(err, &wrong), "%s: %v", s.phrase, err)
			assert.Contains(t, wrong.Problem, s.ask, s.phrase)
			continue
		case s.severe:
			require.ErrorContains(t, err, "to which food", s.phrase)
			groups, err = ParseGuests("2 adults " + s.phrase + ", no sesame")
		}
		require.NoError(t, err, s.phrase)
		diet := groups[0].Diet
		assert.Zero(t, s.out&^diet.avoid, "%s leaves out %s", s.phrase, s.out.words())
		assert.Subset(t, diet.Without(), s.foods, s.phrase)
		assert.Equal(t, s.condition, diet.Conditions, s.phrase)
		assert.Contains(t, groups[0].Ask, s.ask, s.phrase)
		if s.ask != "" {
			tally["asked"]++
		}
	}
	assert.Greater(t, tally["asked"], 250)
	assert.Greater(t, tally["declined"], 50)
}

// Whatever food of the tables a guest leaves out, its name reads back as the same.
func TestEveryFoodCanBeLeftOut(t *testing.T) {
	for c := range carriersOf(carrierTable) {
		if c.food == "" || strings.Contains(c.words, ",") {
			continue
		}
		said, err := readDiet(append([]string{"no"}, spokenWords(c.words)...))
		require.NoError(t, err, c.words)
		again, err := ParseDiet(said.diet.String())
		require.NoError(t, err, "%s: %s", c.words, said.diet)
		assert.Equal(t, said.diet, again, c.words)
		assert.NotEqual(t, Diet{}, said.diet, c.words)
	}
}

// What guests say, and what must then not be on their plate (the sayings invented,
// the allergens those of Regulation (EU) No 1169/2011, Annex II).
func TestSayingsRuleOut(t *testing.T) {
	for _, c := range []struct {
		guests, others string
		suits          bool
	}{
		{"1 adult nut allergy", "- {item: ground almond, amount: 20 g}", false},
		{"1 adult tree nut allergy", "- {item: peanut butter, amount: 20 g, contains: [peanuts]}", true},
		{"1 adult no meat", "- {item: anchovies, amount: 20 g}", false},
		{"1 adult pescetarian", "- {item: anchovies, amount: 20 g}", true},
		{"2 adults no onion", "- {item: spring onions, amount: 20 g}", false},
		{"2 adults no leek", "- {item: leeks, amount: 20 g}", false},
		{"2 adults no leek", "- {item: chives, amount: 20 g}", true},
		{"2 adults no leek and no chives", "- {item: chives, amount: 20 g}", false},
		{"1 adult, pregnant", "- {item: brie, amount: 20 g}", false},
		{"1 adult, pregnant", "- {item: chives, amount: 20 g}", true},
		{"1 child under 5", "- {item: feta, amount: 20 g}", false},
		{"1 adult over 65, no milk", "- {item: butter, amount: 20 g}", false},
	} {
		groups, err := ParseGuests(c.guests)
		require.NoError(t, err, c.guests)
		suits, why := dishOf(t, c.others).Suits(groups[0].Diet)
		assert.Equal(t, c.suits, suits, "%s: %s: %s", c.guests, c.others, why)
	}
	for _, who := range []string{"1 adult pregnant", "1 child under 5", "1 adult over 65", "1 adult low immunity"} {
		groups, err := ParseGuests(who)
		require.NoError(t, err, who)
		assert.True(t, groups[0].Diet.Weak(), who)
		again, err := ParseDiet(groups[0].Diet.String())
		require.NoError(t, err)
		assert.Equal(t, groups[0].Diet, again, who)
	}
	_, err := ParseGuests("1 adult low FODMAP")
	require.ErrorContains(t, err, "guess")
	assert.True(t, slices.Contains(Diet{without: "leek;onion"}.Without(), "leek"))
}
