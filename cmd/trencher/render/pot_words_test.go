package render

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/recipes/heat"
	"trencher/recipes/meal"
)

func TestPotWords(t *testing.T) {
	for _, c := range []struct {
		want string
		pot  meal.Pot
	}{
		{"boiled 15 min from boiling again, knife from 7, up to 26", meal.Pot{Minutes: 14.8, Low: 7.9, High: 25.6, BackToBoil: 4.7}},
		{"boiled 9 min from when it goes in, knife from 5, up to 14", meal.Pot{Minutes: 9, Low: 5, High: 14}},
		{"boiled 30 min from boiling again, knife from 30, up to 30, never under 30 min", meal.Pot{Minutes: 30, Low: 30, High: 30, BackToBoil: 1, AtLeast: 30 * 60e9}},
		{"blanched 3 min from boiling again", meal.Pot{Minutes: 3, BackToBoil: 1, Blanched: &heat.Blanched{}}},
		{"blanched 3 min from boiling again, 4 min in ice water (610 g of ice)", meal.Pot{Minutes: 3, BackToBoil: 1, Blanched: &heat.Blanched{}, IceG: 601, IceMinutes: 4}},
		{"blanched 3 min from boiling again, 4 min in ice water (1.3 kg of ice)", meal.Pot{Minutes: 3, BackToBoil: 1, Blanched: &heat.Blanched{}, IceG: 1210, IceMinutes: 4}},
	} {
		assert.Equal(t, c.want, potWords(meal.Part{Pot: &c.pot}))
	}
}
