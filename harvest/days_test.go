package harvest

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Days as people say them. 12 July 2031 is a Saturday, by the calendar.
func TestReadDay(t *testing.T) {
	today := time.Date(2031, 7, 12, 16, 40, 0, 0, time.UTC)
	for text, want := range map[string]string{
		"2031-08-01": "2031-08-01", "": "2031-07-12", "today": "2031-07-12", "Tomorrow": "2031-07-13", "yesterday": "2031-07-11",
		"saturday": "2031-07-19", "next saturday": "2031-07-19", "last saturday": "2031-07-05", "next  Monday": "2031-07-14", "last friday": "2031-07-11",
	} {
		day, err := ReadDay(text, today)
		require.NoError(t, err, text)
		assert.Equal(t, want, day.Format(time.DateOnly), text)
	}
	for _, text := range []string{"soon", "next", "next week", "this saturday", "saturday next week", "2031-02-30"} {
		_, err := ReadDay(text, today)
		assert.ErrorContains(t, err, "not a day", text)
	}
}
