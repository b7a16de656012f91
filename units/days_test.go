package units

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Days as people say them. 12 July 2031 is a Saturday, by the calendar.
func TestDays(t *testing.T) {
	today := time.Date(2031, 7, 12, 16, 40, 0, 0, time.UTC)
	for text, want := range map[string]string{
		"2031-08-01": "2031-08-01", "": "2031-07-12", "today": "2031-07-12", "Tomorrow": "2031-07-13", "yesterday": "2031-07-11",
		"saturday": "2031-07-19", "next saturday": "2031-07-19", "last saturday": "2031-07-05", "next  Monday": "2031-07-14", "last friday": "2031-07-11",
	} {
		day, err := Clock{Now: today, Zone: time.UTC}.Day("on", text)
		require.NoError(t, err, text)
		assert.Equal(t, want, day.Format(time.DateOnly), text)
	}
	for _, text := range []string{"soon", "next", "next week", "this saturday", "saturday next week", "2031-02-30"} {
		_, err := Clock{Now: today, Zone: time.UTC}.Day("on", text)
		assert.ErrorContains(t, err, "not a day", text)
	}
}

// A moment may say its day in words, before a time of day as anybody says it; an
// entry whose hour decides nothing takes the day alone.
func TestMomentsOfDaysInWords(t *testing.T) {
	clock := Clock{Now: time.Date(2031, 7, 12, 16, 40, 5, 0, time.UTC), Zone: time.UTC} // a Saturday
	for text, want := range map[string]string{
		"16:40": "07-12 16:40", "4:40 pm": "07-12 16:40", "now": "07-12 16:40", "yesterday 16:40": "07-11 16:40", "Yesterday 4 pm": "07-11 16:00",
		"last friday 18:00": "07-11 18:00", "last saturday 6:30 PM": "07-05 18:30", "today 9:05": "07-12 09:05", "2031-07-01 6 pm": "07-01 18:00",
	} {
		at, err := clock.Moment("at", text)
		require.NoError(t, err, text)
		assert.Equal(t, want, at.Format("01-02 15:04"), text)
	}
	for _, text := range []string{"yesterday", "last friday", "16:40 yesterday", "friday week 18:00", "yesterday 25:00", "tomorrow 13:00", "saturday 13:00"} {
		_, err := clock.Moment("at", text)
		assert.Error(t, err, text)
	}
	for text, want := range map[string]string{"yesterday": "07-11 12:00", "last friday": "07-11 12:00", "2031-07-01": "07-01 12:00", "today": "07-12 16:40", "yesterday 8:15": "07-11 08:15"} {
		at, err := clock.MomentOrDay("at", text)
		require.NoError(t, err, text)
		assert.Equal(t, want, at.Format("01-02 15:04"), text)
	}
}
