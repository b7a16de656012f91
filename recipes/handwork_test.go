package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The states are those of the yields table.
func TestHandwork(t *testing.T) {
	for state, want := range map[string]Handwork{
		"as-lifted": Trim, "washed": Trim, "trimmed": Trim, "topped and tailed": Trim, "skinned after steaming": Trim,
		"scrubbed": Scrub, "scrubbed, new skins": Scrub,
		"peeled": Peel, "thinly peeled": Peel, "peeled, weighed with leaves": Peel,
		"shelled": Shell, "": Trim,
	} {
		assert.Equal(t, want, CropLine{Prepared: state}.Handwork(), state)
	}
	assert.True(t, CropLine{Cook: "raw"}.IsRaw())
	assert.False(t, CropLine{Cook: "steam"}.IsRaw())
}
