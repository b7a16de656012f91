package units_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Dates of the year, by the calendar.
func TestMonthDays(t *testing.T) {
	frost, err := units.ParseMonthDay("10-20")
	require.NoError(t, err)
	assert.Equal(t, "10-20", frost.String())
	at := func(text string) time.Time {
		day, err := time.Parse(time.DateOnly, text)
		require.NoError(t, err)
		return day
	}
	assert.Equal(t, at("2031-10-20"), frost.OnOrAfter(at("2031-10-20")), "the day itself")
	assert.Equal(t, at("2032-10-20"), frost.OnOrAfter(at("2031-10-21")), "the day after it")
	assert.True(t, units.MonthDay{}.IsZero())
	assert.Empty(t, units.MonthDay{}.String())
	for _, wrong := range []string{"", "13-01", "02-30", "October", "10-20-2031"} {
		_, err := units.ParseMonthDay(wrong)
		assert.Error(t, err, wrong)
	}
}
