package harvest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Bowls as they are said across a scale.
func TestSaidWeighing(t *testing.T) {
	for _, row := range []struct{ text, unit, tare, net, next string }{
		{"1.46 - 0.31", "kg", "", "1150", "0.31 kg"},
		{"1.46-.31", "kg", "", "1150", ".31 kg"},
		{"0,98", "kg", "0.31 kg", "670", "0.31 kg"},
		{"0.98 - 0", "kg", "0.31 kg", "980", "0 kg"}, // a bag this time
		{"0.98", "kg", "", "980", ""},
		{"980 g", "kg", "0.31 kg", "670", "0.31 kg"},
		{"2.29 kg - 0.31", "kg", "", "1980", "0.31 kg"},
		{"3 - 1", "lb", "", "907.18474", "1 lb"},
		{"50", "kg", "", "50000", ""},
	} {
		weighing, next, err := SaidWeighing(row.text, row.unit, row.tare, units.Metric)
		require.NoError(t, err, row.text)
		w, err := ParseWeighing(weighing, units.Metric)
		require.NoError(t, err, weighing)
		assert.Equal(t, row.net, (&Lift{Weighings: []Weighing{w}}).Net().String(), row.text)
		assert.Equal(t, row.next, next, row.text)
	}
	for _, text := range []string{"820", "820 - 310", "", "-", "some", "0.3 - 0.4", "1 - 2 - 3"} {
		_, next, err := SaidWeighing(text, "kg", "0.31 kg", units.Metric)
		require.Error(t, err, text)
		assert.Equal(t, "0.31 kg", next, "the bowl before stays known")
	}
	assert.Equal(t, "lb", ScaleUnit(units.US))
	assert.Equal(t, "kg", ScaleUnit(units.UK))
}

// What is due is offered first, what is long empty last, each planting once.
func TestLiftOrder(t *testing.T) {
	ready := ReadyList{List: []Readiness{{Planting: Planting{ID: "bed-1"}, State: Early}, {Planting: Planting{ID: "tub-3"}, State: Due}}}
	plantings := []Planting{{ID: "bed-9"}, {ID: "tub-3", Crop: "carrot"}, {ID: "bed-1"}, {ID: "tub-3", Crop: "potato"}}
	var ids []string
	for _, p := range ready.LiftOrder(plantings) {
		ids = append(ids, p.ID)
	}
	assert.Equal(t, []string{"tub-3", "bed-1", "bed-9"}, ids)
	unknown := ReadyList{}.LiftOrder(plantings)
	assert.Equal(t, "potato", unknown[1].Crop, "the latest of a name")
	assert.True(t, Planting{Tub: units.MustParse("30 l")}.IsEmptiedAtOnce())
	assert.False(t, Planting{Bed: units.MustParse("2 m2")}.IsEmptiedAtOnce())
}
