package ask

import (
	"errors"
	"testing"
	"time"

	"trencher/units"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Clock changes of the IANA time zone database: London changes by an hour,
// Lord Howe Island by half an hour, Samoa once left out a day.
func TestReadingsOfAWallClock(t *testing.T) {
	cases := []struct {
		zone, wall string
		count      int
	}{
		{"Europe/London", "2031-07-12 13:00:00", 1},
		{"Europe/London", "2031-03-30 00:59:59", 1},
		{"Europe/London", "2031-03-30 01:00:00", 0},
		{"Europe/London", "2031-03-30 01:59:59", 0},
		{"Europe/London", "2031-03-30 02:00:00", 1},
		{"Europe/London", "2031-10-26 00:59:59", 1},
		{"Europe/London", "2031-10-26 01:00:00", 2},
		{"Europe/London", "2031-10-26 01:59:59", 2},
		{"Europe/London", "2031-10-26 02:00:00", 1},
		{"Australia/Lord_Howe", "2031-04-06 01:29:59", 1},
		{"Australia/Lord_Howe", "2031-04-06 01:30:00", 2},
		{"Australia/Lord_Howe", "2031-04-06 02:00:00", 1},
		{"Australia/Lord_Howe", "2031-10-05 02:15:00", 0},
		{"Pacific/Apia", "2011-12-30 12:00:00", 0},
		{"UTC", "2031-10-26 01:30:00", 1},
	}
	for _, c := range cases {
		t.Run(c.zone+" "+c.wall, func(t *testing.T) {
			zone, err := time.LoadLocation(c.zone)
			require.NoError(t, err)
			wall, err := time.Parse(time.DateTime, c.wall)
			require.NoError(t, err)
			found := readings(wall, zone)
			require.Len(t, found, c.count)
			for _, f := range found {
				assert.Equal(t, c.wall, f.Format(time.DateTime))
			}
			if c.count == 2 {
				assert.True(t, found[0].Before(found[1]))
			}
		})
	}
}

func TestMomentForms(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	require.NoError(t, err)
	now := time.Date(2031, 7, 12, 16, 40, 0, 0, london)
	for text, want := range map[string]string{
		"":                          "2031-07-12T16:40:00+01:00",
		"13:05":                     "2031-07-12T13:05:00+01:00",
		"yesterday 13:05":           "2031-07-11T13:05:00+01:00",
		"2031-07-12T13:05":          "2031-07-12T13:05:00+01:00",
		"2031-07-12 13:05":          "2031-07-12T13:05:00+01:00",
		"2031-07-12T13:05:30":       "2031-07-12T13:05:30+01:00",
		"2031-07-12T13:05Z":         "2031-07-12T14:05:00+01:00",
		"2031-07-12T13:05:00+02:00": "2031-07-12T12:05:00+01:00",
		"2031-01-12T13:05":          "2031-01-12T13:05:00Z",
	} {
		got, err := clock{now, london}.moment("cooked-at", text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got.Format(time.RFC3339), text)
	}
	for _, text := range []string{"soon", "25:00", "2031-07-12", "2031-02-30T10:00", "13", "tomorrow 13:00", "2031-07-12T13:05+99:00"} {
		_, err := clock{now, london}.moment("cooked-at", text)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, text)
		assert.Contains(t, err.Error(), "cooked-at")
	}
}

// FuzzKeepVerdict: whatever is typed, the answer is a verdict with its words
// and cautions, or an error that names the flag.
func FuzzKeepVerdict(f *testing.F) {
	f.Add("mash", "13:00", "14:00", "15:00..16:00", "4 C", "33 C", "14:30=25 C", "", 0)
	f.Add("potato salad", "yesterday 13:00", "", "10:00..", "40 F", "gas mark 1", "=", "vulnerable", 1)
	f.Add("", "2031-07-12T13:00Z", "2031-07-12T13:00", "..", "-0 C", "1e3 C", "13:00=", "us", -1)
	f.Add("baked-in-foil", "0000-01-01T00:00", "9999-12-31T23:59", "13:00..12:00", "5 K", "NaN", "x=y", "", 9999999)
	now := time.Date(2031, 7, 12, 16, 40, 0, 0, time.UTC)
	f.Fuzz(func(t *testing.T, food, cooked, chilled, out, fridge, air, probe, eater string, reheated int) {
		q := KeepQuestion{PlotRef: PlotRef{Now: now}, Food: food, CookedAt: cooked, ChilledAt: chilled,
			Out: []string{out}, Fridge: fridge, Air: air, Probes: []string{probe}, Eater: eater, Reheated: reheated}
		v, err := KeepVerdict(t.Context(), q)
		var wrong *units.FieldError
		switch {
		case err == nil:
			require.NotEmpty(t, v.Head)
			require.NotEmpty(t, v.Rules())
			require.GreaterOrEqual(t, len(v.Says()), 8)
		case !errors.As(err, &wrong):
			t.Fatalf("an error with no flag: %v", err)
		}
	})
}
