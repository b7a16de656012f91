package heat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func crop(t testing.TB, name, kind string) Crop {
	c, err := LookupCrop(name, kind)
	require.NoError(t, err)
	return c
}

func cut(t testing.TB, text string) Cut {
	c, err := ParseCut(text)
	require.NoError(t, err)
	return c
}

// The example that scripts are promised.
func TestSteamExample(t *testing.T) {
	e, err := Steam(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), JustTender, Conditions{AltitudeM: 60})
	require.NoError(t, err)
	assert.InDelta(t, 8.6, e.Minutes, 0.1)
	assert.InDelta(t, 5.1, e.Low, 0.1)
	assert.InDelta(t, 13.1, e.High, 0.1)
	assert.InDelta(t, 2.2, e.ComeUp, 0.1)
	assert.InDelta(t, 99.8, e.SteamC, 0.05)
	assert.True(t, e.InRange())
	assert.Zero(t, e.KnifeTests)
}
