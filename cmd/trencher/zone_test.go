package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A misspelt zone is an error, never UTC in silence (names of the IANA time zone
// database).
func TestAnUnknownZoneIsAnError(t *testing.T) {
	for _, zone := range []string{"", "UTC", "Europe/London", ":Europe/Dublin", "America/New_York", "Pacific/Auckland", "Asia/Kolkata", "Australia/Lord_Howe", "Pacific/Chatham"} {
		assert.NoError(t, checkZone(zone), zone)
	}
	for _, zone := range []string{"Europe/Londn", "BST+1x", "Mars/Olympus", "europe london"} {
		assert.ErrorContains(t, checkZone(zone), "no time zone known", zone)
	}
}
