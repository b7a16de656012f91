package keeping_test

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/keeping"
)

// In whatever order readings are written down, they say the same.
func TestReadingsInAnyOrder(t *testing.T) {
	at := func(clock string) time.Time {
		moment, err := time.Parse(time.DateTime, clock+":00")
		require.NoError(t, err)
		return moment
	}
	batch := keeping.Batch{Food: "mash", CookedAt: at("2031-07-12 06:00"), ChilledAt: at("2031-07-12 07:00"),
		PowerOff: []keeping.Spell{{From: at("2031-07-12 07:34")}},
		Probes:   []keeping.Probe{{At: at("2031-07-12 08:56"), C: 4.5}, {At: at("2031-07-12 19:00"), C: 5}}}
	now := at("2031-07-12 19:00")
	cleared, err := keeping.Judge(batch, "uk", now)
	require.NoError(t, err)
	require.NotEqual(t, keeping.Discard, cleared.Kind, "a good reading while the power is off lets it be eaten now")
	slices.Reverse(batch.Probes)
	turned, err := keeping.Judge(batch, "uk", now)
	require.NoError(t, err)
	assert.Equal(t, cleared, turned)
}

// What a reading clears while the power is off is cleared for that moment alone.
func TestAReadingWhileThePowerIsOffClearsTheMoment(t *testing.T) {
	at := time.Date(2031, 7, 12, 6, 0, 0, 0, time.UTC)
	now := at.Add(9 * time.Hour)
	batch := keeping.Batch{Food: "egg-dish", CookedAt: at, ChilledAt: at.Add(10 * time.Minute), Fridge: keeping.Celsius(4),
		PowerOff: []keeping.Spell{{From: at.Add(time.Hour)}}, Probes: []keeping.Probe{{At: now, C: 5}}}
	d, err := keeping.DeadlineOf(batch, "uk", now)
	require.NoError(t, err)
	require.NotEqual(t, keeping.Discard, d.Verdict.Kind)
	assert.Equal(t, now, d.Until)
	assert.Equal(t, now, d.Verdict.Until)
	assert.False(t, d.Holds(now.Add(time.Minute)))
}
