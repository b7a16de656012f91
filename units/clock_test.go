package units

import (
	"testing"
	"time"

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
		got, err := Clock{now, london}.Moment("cooked-at", text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got.Format(time.RFC3339), text)
	}
	for _, text := range []string{"soon", "25:00", "2031-07-12", "2031-02-30T10:00", "13", "tomorrow 13:00", "2031-07-12T13:05+99:00"} {
		_, err := Clock{now, london}.Moment("cooked-at", text)
		var wrong *FieldError
		require.ErrorAs(t, err, &wrong, text)
		assert.Contains(t, err.Error(), "cooked-at")
	}
}
