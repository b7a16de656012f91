package recipes

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/measures"
)

// Crops not eaten raw: EFSA, Lectins in food (2026); BfR, Lectins in plant-based
// foods (2024); 21 CFR 112.2(a)(1) (2016); CDC MMWR (1984), elderberry.
func TestWhatIsNotEatenRawIsRefused(t *testing.T) {
	for _, crop := range []string{"potato", "new potatoes", "runner bean", "French bean", "dwarf French bean", "aubergine", "eggplant", "winter squash", "broad bean"} {
		row, may := EatenRaw(crop)
		assert.False(t, may, crop)
		assert.NotEmpty(t, row.Why.Because)
		assert.NotEmpty(t, row.Source)
		_, err := LoadDish("d.yaml", []byte("name: D\nportions: 4\ncrops: [{crop: "+crop+", amount: 800 g, prepared: as-lifted, cook: raw}]\n"), DefaultKitchen(units.Metric))
		require.ErrorContains(t, err, row.Why.Because, crop)
	}
	for _, crop := range []string{"carrot", "pea", "mangetout", "tomato", "lettuce", "radish", "cucumber", "beetroot", "onion"} {
		_, may := EatenRaw(crop)
		assert.True(t, may, crop)
	}
}

// Every crop has its row, and only one.
func TestEveryCropIsInTheRawTable(t *testing.T) {
	rows := map[string]int{}
	for _, row := range RawRows() {
		rows[row.Crop]++
		assert.Equal(t, 1, rows[row.Crop], row.Crop)
		assert.Equal(t, row.May, row.Why.Because == "", row.Crop)
	}
	for _, crop := range measures.Crops() {
		assert.Equal(t, 1, rows[CropName(crop.Name)], crop.Name)
	}
}

// Steam is not trusted with these: Bundesinstitut für Risikobewertung, Lectins in
// plant-based foods (2024), fresh beans; EFSA, Lectins in food (2026), dried ones.
func TestWhatIsBoiledBecauseSteamIsNotEnough(t *testing.T) {
	for crop, rule := range map[string]string{
		"French bean": "bean-fresh-strict", "dwarf French bean": "bean-fresh-strict", "climbing French bean": "bean-fresh-strict",
		"runner bean": "bean-fresh-strict", "string bean": "bean-fresh-strict",
		"kidney bean": "bean-dried-boil", "borlotti bean": "bean-dried-boil", "haricot bean": "bean-dried-boil", "drying bean": "bean-dried-boil",
	} {
		why, must := MustBoil(crop)
		assert.True(t, must, crop)
		assert.Equal(t, 30*time.Minute, why.Boil, crop)
		assert.Equal(t, rule, why.Rule, crop)
	}
	for _, crop := range []string{"potato", "pea", "mangetout", "carrot", "beetroot", "broad bean"} {
		_, must := MustBoil(crop)
		assert.False(t, must, crop)
	}
}
