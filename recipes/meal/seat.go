package meal

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trencher/recipes"
	"trencher/units"
)

// EaterWords is who eats and how much may be made, as it was typed; "" = as
// usual.
type EaterWords struct {
	Guests []string // "6 adults", "2 adults no milk, egg"
	For    string   // "4", "2 adults, 1 child"
	Sides  string   // the most helpings a guest takes: "2"
	Dishes string   // how many dishes: "3"
	Rounds string   // fillings of the steamer: "1"
	Layers string   // layers in it, over all fillings: "4"
}

// The most that is taken at its word, and the sides where none are asked for.
const (
	mostSides  = 20
	mostDishes = 100
	mostRounds = 20
	mostLayers = 100
	usualSides = 2
	whoMayBe   = "who eats, one kind at a time: 6 adults; 2 adults no milk; 3 children"
)

// Seat reads into the question who eats and how many dishes and how much steamer
// there may be. Guests named stand before For, For before the kitchen's
// household. named says that the dishes of the question were named. Its errors
// are of the fields of [EaterWords].
func (q *Question) Seat(w EaterWords, named bool) error {
	if err := q.seatEaters(w); err != nil {
		return err
	}
	if len(q.Guests) == 0 && q.Mode == Table {
		return units.WrongField("guests", "", "nobody is named", whoMayBe)
	}
	var err error
	if q.Sides, err = countIn("sides", w.Sides, usualSides, mostSides, "a number of dishes a guest may take"); err != nil {
		return err
	}
	if q.MostDishes, err = countIn("dishes", w.Dishes, 0, mostDishes, "a number of dishes to make"); err != nil {
		return err
	}
	q.ManyDishes = q.MostDishes > 0 || named
	switch {
	case q.MostDishes > 0:
	case named:
		q.MostDishes = len(q.Dishes)
	case len(q.Guests) == 0:
		q.MostDishes = q.Kitchen.MostDishes
	}
	return q.fit(w)
}

// seatEaters reads who eats.
func (q *Question) seatEaters(w EaterWords) error {
	for _, text := range w.Guests {
		groups, err := recipes.ParseGuests(text)
		if err != nil {
			return units.InField("guests", text, err)
		}
		q.Guests = append(q.Guests, groups...)
	}
	switch {
	case w.For != "":
		groups, err := recipes.ParseEaters(w.For)
		if err != nil {
			return recipes.NotWhoEats(w.For)
		}
		if len(w.Guests) == 0 {
			q.Guests = groups
			break
		}
		q.Remarks = append(slices.Clone(q.Remarks), fmt.Sprintf("Who eats is told twice: the guests count, and not %q.", w.For))
	case len(w.Guests) > 0:
	default:
		q.Guests = q.Kitchen.Household
	}
	return nil
}

// fit reads how much steamer there may be.
func (q *Question) fit(w EaterWords) error {
	rounds, err := countIn("rounds", w.Rounds, 0, mostRounds, "a number of fillings of the steamer")
	if err != nil {
		return err
	}
	layers, err := countIn("layers", w.Layers, 0, mostLayers, "a number of layers in the steamer")
	if err != nil {
		return err
	}
	q.Rounds, q.Layers = rounds, layers
	return nil
}

// countIn reads a whole number from 1 to most; "" is the usual.
func countIn(field, text string, usual, most int, what string) (int, error) {
	if text == "" {
		return usual, nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 1 || n > most {
		return 0, units.WrongField(field, text, "not "+what, fmt.Sprintf("a whole number from 1 to %d", most))
	}
	return n, nil
}

// tieOrder is the order in which ties go to the dishes: as they were named, else
// those never made first, then the one made longest ago, then as they stand.
func (q *Question) tieOrder() []int {
	order := make([]int, len(q.Dishes))
	for d := range order {
		order[d] = d
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return q.Made.Last(q.Dishes[a].Name).Compare(q.Made.Last(q.Dishes[b].Name))
	})
	return order
}

// layersThere is how many layers may be steamed in all; 0 where any number may.
func (q *Question) layersThere() int {
	byRounds := q.Rounds * q.Kitchen.Steamer.Tiers
	switch {
	case byRounds == 0:
		return q.Layers
	case q.Layers == 0:
		return byRounds
	}
	return min(byRounds, q.Layers)
}
