package meal

import (
	"fmt"

	"trencher/recipes"
	"trencher/units"
)

// mostSides is more than anybody takes.
const mostSides = 20

// Seat reads who eats, "6 adults" or "2 adults no milk", and the most helpings a
// guest takes, into a question of the mode Table; others have no guests. Its error
// is of the field guests or sides.
func (q *Question) Seat(guests []string, sides int) error {
	if q.Mode != Table {
		return nil
	}
	if len(guests) == 0 {
		return units.WrongField("guests", "", "nobody is named", "who eats, one kind at a time: 6 adults; 2 adults no milk; 3 children")
	}
	for _, text := range guests {
		groups, err := recipes.ParseGuests(text)
		if err != nil {
			return units.InField("guests", text, err)
		}
		q.Guests = append(q.Guests, groups...)
	}
	if sides < 1 || sides > mostSides {
		return units.WrongField("sides", fmt.Sprint(sides), "not a number of dishes a guest may take", fmt.Sprintf("a whole number from 1 to %d", mostSides))
	}
	q.Sides = sides
	return nil
}
