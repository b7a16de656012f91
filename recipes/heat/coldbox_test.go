package heat_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/recipes/heat"
)

// Ice melts at 334 kJ/kg and its water warms to what the box holds at 4.186
// kJ/(kg K) (handbook values; known_by: memory); a box of 25 to 30 l lets 0.3 to
// 0.6 W/K through, here 0.5 (common practice, no source). By hand: 1 kg held at
// 5 °C takes 354.93 kJ; 10 W in air of 25 °C are 591.55 min.
func TestHowLongIceHoldsABox(t *testing.T) {
	box := heat.ColdBox{IceG: 1000, HoldsC: 5}
	assert.InDelta(t, 354930.0/10/60, box.Lasts(0, 8, 25), 1e-9)
	assert.InDelta(t, (354930.0-2*3715*3)/10/60, box.Lasts(2000, 8, 25), 1e-9, "2 kg of food, 3 K warmer")
	assert.InDelta(t, 354930.0/10/60, box.Lasts(2000, 4, 25), 1e-9, "food that is colder brings nothing")
	assert.InDelta(t, 2*box.Lasts(0, 8, 25), heat.ColdBox{IceG: 2000, HoldsC: 5}.Lasts(0, 8, 25), 1e-9)
	assert.InDelta(t, 334000.0/5/60, heat.ColdBox{IceG: 1000, HoldsC: -5}.Lasts(0, 0, 5)*1.0, 30, "colder than the ice: its water is counted for nothing")
	assert.Zero(t, box.Lasts(200000, 8, 25), "more food than the ice can cool")
	assert.Zero(t, heat.ColdBox{HoldsC: 5}.Lasts(0, 5, 25), "no ice")
	assert.True(t, math.IsInf(box.Lasts(1000, 8, 5), 1), "outside it is as cold")
	reason := box.Reason(591.55, 25)
	assert.Equal(t, "1000 g of ice hold it at 5 °C in air of 25 °C for 9 h 52 min", reason.Value)
	assert.NotEmpty(t, reason.Source)
}
