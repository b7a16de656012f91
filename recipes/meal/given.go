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
	gives := []struct {
		word string
		read func(string) error
	}{
		{w.Start, func(word string) error { return q.giveStart(word, clock) }},
		{w.Hands, q.giveHands},
		{w.Gas, q.giveGas},
		{w.Water, q.giveWater},
	}
	for _, given := range gives {
		if given.word == "" {
			continue
		}
		if err := given.read(given.word); err != nil {
			return err
		}
	}
	return nil
}

func (q *Question) giveStart(word string, clock units.Clock) (err error) {
	if !q.ServeAt.IsZero() {
		return units.WrongField("start", word, "a serving time is given as well", "one of them")
	}
	q.Start, err = clock.OnDay("start", word, q.On)
	return err
}

func (q *Question) giveHands(word string) error {
	hands, err := strconv.Atoi(strings.TrimSpace(word))
	if err != nil || hands < 1 || hands > mostHands {
		return units.WrongField("hands", word, "not a number of people", fmt.Sprintf("a whole number from 1 to %d", mostHands))
	}
	q.Kitchen.Hands = hands
	return nil
}

func (q *Question) giveGas(word string) error {
	gas, err := units.Parse(word, q.Kitchen.Measures)
	if err != nil {
		return units.InFieldFor("gas", word, err, canisterAccepted)
	}
	grams, err := gas.Float64(units.Gram)
	if err != nil || gas.IsRange() || !(grams >= leastCanisterG && grams <= mostCanisterG) {
		return units.WrongField("gas", word, "no canister", canisterAccepted)
	}
	q.Kitchen.Stove.CanisterG = grams
	return nil
}

func (q *Question) giveWater(word string) error {
	water, ok := recipes.ParseWater(word, q.Kitchen.Measures)
	if !ok {
		return units.WrongField("water", word, "no amount of water", "what is carried, as 2 l; or tap")
	}
	q.Kitchen.Water = water
	return nil
}

const canisterAccepted = "the gas in a full one, as 100 g"

// The gas in the smallest and the largest canister, in grams.
const leastCanisterG, mostCanisterG = 50, 20000
