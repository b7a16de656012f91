package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A number right behind people and right before others begins a group, comma or not;
// a number that nobody follows is an age, as before.
func TestGroupsWithoutACommaBetween(t *testing.T) {
	for text, want := range map[string][]int{
		"2 adults 3 children":                {2, -3},
		"2 adults three kids vegan":          {2, -3},
		"1 man 1 woman 2 boys":               {1, 1, -2},
		"2 adults, 3 children":               {2, -3},
		"1 child 7":                          {-1},
		"2 children 4 and 7":                 {-2},
		"6 adults":                           {6},
		"2 adults no milk, 1 child no honey": {2, -1},
	} {
		groups, err := ParseGuests(text)
		require.NoError(t, err, text)
		var counts []int
		for _, g := range groups {
			if g.Child {
				g.Count = -g.Count
			}
			counts = append(counts, g.Count)
		}
		assert.Equal(t, want, counts, text)
	}
	for text, says := range map[string]string{
		"2 adults 3": "an adult is 16 or over; one of 3 is a child",
		"1 adult 15": "an adult is 16 or over; one of 15 is a child",
		"1 child 19": "a child is under 18, not 19",
	} {
		_, err := ParseGuests(text)
		assert.ErrorContains(t, err, says, text)
	}
	_, err := ParseGuests("1 adult 16")
	assert.NoError(t, err, "as it says")
}
