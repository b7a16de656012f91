package units

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTimesAsPeopleWriteThem(t *testing.T) {
	zone := time.FixedZone("", 3600)
	now := time.Date(2031, 7, 12, 16, 40, 20, 0, zone)
	today := time.Date(2031, 7, 12, 0, 0, 0, 0, zone)
	for text, want := range map[string]string{
		"18:30": "18:30", " 6:30 pm ": "18:30", "6:30PM": "18:30", "6 pm": "18:00", "12 am": "00:00", "12:15 pm": "12:15", "6.30 pm": "18:30",
		"now": "16:40", "in 45 min": "17:25", "in 1 h": "17:40", "In 10 minutes": "16:50",
	} {
		got, err := Clock{now, zone}.OnDay("serve-at", text, today)
		require.NoError(t, err, text)
		assert.Equal(t, want, got.Format("15:04"), text)
	}
	for _, text := range []string{"soon", "25:00", "13 pm", "in", "in 3", "in 5 g", "in 30 h", "in 5-10 min", "tomorrow"} {
		_, err := Clock{now, zone}.OnDay("serve-at", text, today)
		assert.ErrorContains(t, err, "serve-at", text)
	}
	_, err := Clock{now, zone}.OnDay("start", "now", today.AddDate(0, 0, 3))
	assert.ErrorContains(t, err, "another day")
}
