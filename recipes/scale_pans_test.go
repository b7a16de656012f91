package recipes

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// A pan of stated size, and the grower's own minutes, no longer fit every batch:
// twice as much lies as deep in a pan 1.41 times as wide.
func TestCautionsAboutPansAndTimes(t *testing.T) {
	dish, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\nserved: hot\nsmallest: 1\nlargest: 16\ncrops:\n  - {crop: potato, amount: 1 kg, prepared: scrubbed, cut: whole, cook: own, takes: 40 min, uses: oven}\n"+
		"method:\n  - Tip into a 20 cm round tin and bake.\n  - Serve.\n"), DefaultKitchen(units.UK))
	require.NoError(t, err)
	at := func(portions int64) []string {
		return dish.ScaleTo(big.NewRat(portions, 1), DefaultKitchen(units.UK)).Cautions
	}
	assert.Empty(t, at(4))
	assert.Empty(t, at(5), "a quarter more goes into the same tin")
	require.Len(t, at(8), 2)
	assert.Contains(t, at(8)[0], "the 20 cm tin: as deep, 2 times as much needs one 28 cm wide")
	assert.Contains(t, at(8)[1], "your own minutes for potato")
	require.Len(t, at(2), 1)
	assert.Contains(t, at(2)[0], "0.5 times as much needs one 14 cm wide")
}
