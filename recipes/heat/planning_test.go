package heat_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/heat"
)

// For a plan all is answered as for a cook who asks, but how the time goes with the
// size.
func TestPlanningAsksForNoGrowth(t *testing.T) {
	potato, err := heat.LookupCrop("potato", "waxy")
	require.NoError(t, err)
	whole := heat.Cut{Shape: heat.Whole, SizeMM: 45}
	asking, planning := heat.Conditions{}, heat.Conditions{Planning: true}

	asked, err := heat.Steam(potato, whole, heat.Tender, asking)
	require.NoError(t, err)
	assert.Positive(t, asked.PerMM)
	planned, err := heat.Steam(potato, whole, heat.Tender, planning)
	require.NoError(t, err)
	asked.PerMM = 0
	assert.Equal(t, asked, planned)

	asked, err = heat.Boil(potato, whole, heat.Tender, heat.Water{}, asking)
	require.NoError(t, err)
	assert.Positive(t, asked.PerMM)
	planned, err = heat.Boil(potato, whole, heat.Tender, heat.Water{}, planning)
	require.NoError(t, err)
	asked.PerMM = 0
	assert.Equal(t, asked, planned)

	for grams, tiers := range map[float64]bool{300: false, 1500: true, 4000: true} { // one layer, a filling of two tiers, a load of several rounds
		load, err := heat.LoadPlan(potato, whole, heat.Tender, grams, heat.Equipment{}, asking)
		require.NoError(t, err)
		assert.Equal(t, tiers, load.Series != nil, "%g g", grams)
		assert.Positive(t, load.Estimate.PerMM)
		same, err := heat.LoadPlan(potato, whole, heat.Tender, grams, heat.Equipment{}, planning)
		require.NoError(t, err)
		load.Estimate.PerMM = 0
		assert.Equal(t, load.Estimate, same.Estimate, "%g g", grams)
		assert.Equal(t, load.Series == nil, same.Series == nil)
	}
}
