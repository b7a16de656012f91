package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Crops not eaten raw: EFSA, Lectins in food (2026); BfR, Lectins in plant-based
// foods (2024); 21 CFR 112.2(a)(1) (2016); CDC MMWR (1984), elderberry.
func TestWhatIsNotEatenRawIsRefused(t *testing.T) {
	for _, crop := range []string{"potato", "new potatoes", "runner bean", "French bean", "dwarf French bean", "aubergine", "eggplant", "winter squash", "broad bean"} {
		why, may := EatenRaw(crop)
		assert.False(t, may, crop)
		assert.NotEmpty(t, why.Because)
		assert.NotEmpty(t, why.Source)
		_, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\ncrops: [{crop: "+crop+", amount: 800 g, prepared: as-lifted, cook: raw}]\n"), DefaultKitchen(units.Metric))
		require.ErrorContains(t, err, why.Because, crop)
	}
	for _, crop := range []string{"carrot", "pea", "mangetout", "tomato", "lettuce", "radish", "cucumber", "beetroot", "onion"} {
		_, may := EatenRaw(crop)
		assert.True(t, may, crop)
	}
}
