package meal

import (
	"fmt"
	"strconv"
	"strings"

	"trencher/recipes"
	"trencher/units"
)

// GivenWords is what a question gives other than the plot's kitchen does, as it
// was typed; "" = as there.
type GivenWords struct {
	Start string // "now", "16:00", "in 10 min"
	Hands string // how many people: "2"
	Gas   string // a full canister: "100 g"
	Water string // what is carried: "2 l"
}

// mostHands is more than any kitchen has room for.
const mostHands = 8

// Give reads what is given into the question; clock reads the start. Its errors
// are *units.FieldError.
func (q *Question) Give(w GivenWords, clock units.Clock) error {
	if w.Start != "" {
		if !q.ServeAt.IsZero() {
			return units.WrongField("start", w.Start, "a serving time is given as well", "one of them")
		}
		start, err := clock.OnDay("start", w.Start, q.On)
		if err != nil {
			return err
		}
		q.Start = start
	}
	if w.Hands != "" {
		hands, err := strconv.Atoi(strings.TrimSpace(w.Hands))
		if err != nil || hands < 1 || hands > mostHands {
			return units.WrongField("hands", w.Hands, "not a number of people", fmt.Sprintf("a whole number from 1 to %d", mostHands))
		}
		q.Kitchen.Hands = hands
	}
	if w.Gas != "" {
		gas, err := units.Parse(w.Gas, q.Kitchen.Measures)
		if err != nil {
			return units.InField("gas", w.Gas, err)
		}
		grams, err := gas.Float64(units.Gram)
		if err != nil || gas.IsRange() || !(grams >= leastCanisterG && grams <= mostCanisterG) {
			return units.WrongField("gas", w.Gas, "no canister", "the gas in a full one, as 100 g")
		}
		q.Kitchen.Stove.CanisterG = grams
	}
	if w.Water != "" {
		water, ok := recipes.ParseWater(w.Water, q.Kitchen.Measures)
		if !ok {
			return units.WrongField("water", w.Water, "no amount of water", "what is carried, as 2 l; or tap")
		}
		q.Kitchen.Water = water
	}
	return nil
}

// The gas in the smallest and the largest canister, in grams.
const leastCanisterG, mostCanisterG = 50, 20000
