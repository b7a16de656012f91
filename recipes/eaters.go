package recipes

import (
	"fmt"
	"strconv"
	"strings"

	"trencher/units"
)

// defaultMostDishes is how many dishes one meal has at most where the kitchen
// does not say: common practice, no source.
const defaultMostDishes = 3

// ParseEaters reads who eats at a meal: how many adults, "4", or groups as
// [ParseGuests] does, "2 adults, 1 child". The error is a [*units.FieldError]
// without a field.
func ParseEaters(text string) ([]Guests, error) {
	if count, err := strconv.Atoi(strings.TrimSpace(text)); err == nil {
		if count < 1 || count > MaxGuests {
			return nil, units.WrongField("", "", fmt.Sprintf("%d people is out of range", count), fmt.Sprintf("1 to %d", MaxGuests))
		}
		return []Guests{{Count: count}}, nil
	}
	return ParseGuests(text)
}

// NotWhoEats is the error for words of the field for that say nobody.
func NotWhoEats(text string) *units.FieldError {
	return units.WrongField("for", text, "not who eats", "a number of adults, or who they are: 4; 2 adults, 1 child")
}

// eaters reads who usually eats, and the most dishes of a meal.
func (s settings) eaters() {
	if s.keys.Has("dishes") {
		s.kitchen.MostDishes = s.keys.At("dishes").Whole(1, 20)
	}
	if !s.keys.Has("household") {
		return
	}
	n := s.keys.At("household")
	groups, err := ParseEaters(n.Text())
	if err != nil {
		n.Fail("not who eats", `a number of adults, or who they are: 2 adults, 1 child; 1 adult no milk`)
		return
	}
	s.kitchen.Household = groups
}
