package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Potatoes in their skins: 0.97 washed, 0.99 scrubbed, 0.98 steamed; beans
// topped and tailed 0.88 (USDA National Nutrient Database).
func TestOnThePlate(t *testing.T) {
	assert.InDelta(t, 0.97*0.99*0.98, OnThePlate("potato", true), 1e-9)
	assert.InDelta(t, 0.88, OnThePlate("runner bean", false), 0.02)
	assert.InDelta(t, 0.9, OnThePlate("onion", false), 0.02)
	assert.InDelta(t, 1, OnThePlate("oca", true), 1e-9)
}

func TestHelpingsOf(t *testing.T) {
	people, err := ParseEaters("2 adults, 2 children")
	require.NoError(t, err)
	assert.InDelta(t, 3, HelpingsOf(people), 1e-9)
}
