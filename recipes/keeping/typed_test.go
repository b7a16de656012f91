package keeping_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/keeping"
	"trencher/units"
)

// A bare end of a spell is of the day the spell began; the fridge written
// outranks the kitchen's.
func TestWordsBecomeAHistory(t *testing.T) {
	clock := units.Clock{Now: time.Date(2031, 7, 12, 16, 40, 0, 0, time.UTC), Zone: time.UTC}
	b, err := keeping.Words{Food: "mash", CookedAt: "yesterday 13:00", Fridge: "40 F", Out: []string{"yesterday 18:00..19:30", "15:00.."},
		Probes: []string{"yesterday 14:30=25 C"}, Eater: "vulnerable"}.Batch(clock, keeping.Celsius(7))
	require.NoError(t, err)
	assert.Equal(t, time.Date(2031, 7, 11, 13, 0, 0, 0, time.UTC), b.CookedAt)
	assert.InDelta(t, 4.444, b.Fridge.C, 0.001, "(40 - 32) / 1.8")
	require.Len(t, b.Out, 2)
	assert.Equal(t, time.Date(2031, 7, 11, 19, 30, 0, 0, time.UTC), b.Out[0].To)
	assert.True(t, b.Out[1].To.IsZero(), "it is still out")
	assert.InDelta(t, 25, b.Probes[0].C, 0)
	assert.True(t, b.Vulnerable)
	b, err = keeping.Words{}.Batch(clock, keeping.Celsius(7))
	require.NoError(t, err)
	assert.Equal(t, keeping.Celsius(7), b.Fridge)
}

func TestWordsThatTellNoHistory(t *testing.T) {
	clock := units.Clock{Now: time.Date(2031, 7, 12, 16, 40, 0, 0, time.UTC), Zone: time.UTC}
	for field, words := range map[string]keeping.Words{
		"cooked-at": {CookedAt: "soon"},
		"hot-at":    {HotAt: "hot"},
		"air":       {Air: "3 g"},
		"fridge":    {Fridge: "4-6 C"},
		"out":       {Out: []string{"13:00"}},
		"power-off": {PowerOff: []string{"..13:00"}},
		"probe":     {Probes: []string{"14:30"}},
		"eater":     {Eater: "cat"},
	} {
		_, err := words.Batch(clock, keeping.Temperature{})
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, field)
		assert.Equal(t, field, wrong.Field)
	}
	_, err := keeping.Words{CookedAt: "soon", Eater: "cat"}.Batch(clock, keeping.Temperature{})
	assert.ErrorContains(t, err, "cooked-at", "the first is told")
}
