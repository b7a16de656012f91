package heat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A curve starts cold, never falls, keeps the surface between the centre and
// the steam, and passes the centre temperature when the estimate says done.
func TestTrace(t *testing.T) {
	for _, row := range []struct {
		crop, cut string
		c         Conditions
	}{
		{"potato", "cube 25 mm", Conditions{}},
		{"peas", "whole 9 mm", Conditions{LoadGrams: 400}},
		{"potato", "whole 60 mm", Conditions{Heaped: true}},
		{"carrot", "slice 6 mm", Conditions{AltitudeM: 1500, StartC: new(4.0)}},
	} {
		curve, err := Trace(crop(t, row.crop, ""), cut(t, row.cut), Tender, row.c)
		require.NoError(t, err)
		e := curve.Estimate
		require.Greater(t, len(curve.Moments), 100)
		before := curve.Moments[0]
		at := 0.0
		for _, m := range curve.Moments[1:] {
			assert.GreaterOrEqual(t, m.Minutes, before.Minutes)
			assert.GreaterOrEqual(t, m.CentreC, before.CentreC-1e-6, row.cut)
			assert.GreaterOrEqual(t, m.SurfaceC, before.SurfaceC-1e-6, row.cut)
			assert.LessOrEqual(t, m.CentreC, m.SurfaceC+0.01)
			assert.LessOrEqual(t, m.SurfaceC, e.SteamC+1e-6)
			if before.Minutes < e.FromLoading && m.Minutes >= e.FromLoading {
				at = m.CentreC
			}
			before = m
		}
		assert.InDelta(t, e.CentreC, at, 0.8, row.cut)
		assert.Greater(t, before.Minutes, e.ComeUp+e.High)
	}
}

// A curve reaches a tenth beyond the longest time, in a few hundred moments
// evenly spread; in a heap it is of the last layer the steam comes to.
func TestTraceSpansTheBand(t *testing.T) {
	for _, heaped := range []bool{false, true} {
		c := Conditions{LoadGrams: 1500, Heaped: heaped}
		curve, err := Trace(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), Tender, c)
		require.NoError(t, err)
		e := curve.Estimate
		direct, err := Steam(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), Tender, c)
		require.NoError(t, err)
		assert.Equal(t, direct, e)
		assert.Equal(t, e.ComeUp, curve.FullFlow)
		first, last := curve.Moments[0], curve.Moments[len(curve.Moments)-1]
		assert.Equal(t, Moment{0, 15, 15}, first)
		assert.InEpsilon(t, 1.1*e.FromLoadingHigh, last.Minutes, 0.02)
		assert.Len(t, curve.Moments, 241)
		if heaped {
			assert.Less(t, curve.Moments[3].SurfaceC, 15.5, "no steam comes to the last of a heap yet")
		} else {
			assert.Greater(t, curve.Moments[3].SurfaceC, 15.5, "it warms at once")
		}
	}
	_, err := Trace(crop(t, "potato", "waxy"), Cut{}, Tender, Conditions{})
	assert.ErrorContains(t, err, "none given")
}
