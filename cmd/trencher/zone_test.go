package main

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A misspelt zone is an error, never UTC in silence (names of the IANA time zone
// database).
func TestAnUnknownZoneIsAnError(t *testing.T) {
	for _, zone := range []string{"", "UTC", "Europe/London", ":Europe/Dublin", "America/New_York", "Pacific/Auckland", "Asia/Kolkata", "Australia/Lord_Howe", "Pacific/Chatham"} {
		assert.NoError(t, checkZone(zone), zone)
	}
	for _, zone := range []string{"Europe/Londn", "BST+1x", "Mars/Olympus", "europe london", "IST-5:30", "<+0545>-05:45", "CET-1CEST,M3.5.0,M10.5.0/3", "GMT+25", "+02:00", "../UTC", "/etc/hostname", "/nowhere"} {
		assert.ErrorContains(t, checkZone(zone), "TZ", zone)
	}
}

// twentyZones are of the IANA time zone database: every sort of offset there is.
var twentyZones = []string{"Europe/London", "Europe/Dublin", "Europe/Berlin", "Europe/Athens", "Africa/Nairobi", "Asia/Tehran", "Asia/Karachi", "Asia/Kolkata",
	"Asia/Kathmandu", "Asia/Tokyo", "Australia/Adelaide", "Australia/Lord_Howe", "Pacific/Auckland", "Pacific/Chatham", "Pacific/Kiritimati", "America/St_Johns",
	"America/New_York", "America/Denver", "America/Los_Angeles", "Pacific/Pago_Pago"}

// A bowl is judged by its true zone's clock, or, on a machine that has none, by times
// that name theirs: the verdict is the same and never more lenient. The zone stands
// beside the verdict. A misspelt one is an error.
func TestTheZoneNeverMakesAVerdictMilder(t *testing.T) {
	for _, name := range twentyZones {
		zone, err := time.LoadLocation(name)
		require.NoError(t, err)
		cooked := time.Date(2031, 7, 12, 13, 0, 0, 0, zone)
		for _, hours := range []float64{1.9, 2, 2.1, 25, 47.9, 48.1} {
			now := cooked.Add(time.Duration(hours * float64(time.Hour)))
			chilled := cooked.Add(90 * time.Minute)
			args := []string{"keep", "--food", "mash", "--fridge", "4 C", "--cooked-at"}
			local, named := append(args, cooked.Format("2006-01-02T15:04")), append(args, cooked.Format(time.RFC3339))
			if hours > 3 {
				local, named = append(local, "--chilled-at", chilled.Format("2006-01-02T15:04")), append(named, "--chilled-at", chilled.Format(time.RFC3339))
			}
			with, without := verdictAt(t, now, local...), verdictAt(t, now.UTC(), named...)
			assert.Equal(t, with.Verdict, without.Verdict, "%s, %g h", name, hours)
			assert.True(t, with.Until.Equal(without.Until), "%s, %g h", name, hours)
			want := "discard"
			if hours <= 2 || hours > 3 && hours < 48 {
				want = map[bool]string{true: "fine-now", false: "eat-by"}[hours <= 2]
			}
			assert.Equal(t, want, with.Verdict, "%s, %g h", name, hours)
			if said := saidAt(t, now, local...); want != "discard" {
				assert.Contains(t, said, "Times are ", name)
			}
		}
		for _, misspelt := range []string{name + "x", name[:len(name)-1], name + " ", "+" + name, strings.Replace(name, "a", "aa", 1) + "s"} {
			assert.Error(t, checkZone(misspelt), misspelt)
		}
		assert.Error(t, checkZone(strings.Replace(name, "/", "-", 1)), name)
	}
}

type givenVerdict struct {
	Verdict string
	Until   time.Time
}

func verdictAt(t *testing.T, now time.Time, args ...string) (v givenVerdict) {
	t.Helper()
	require.NoError(t, json.Unmarshal([]byte(saidAt(t, now, append(args, "--json")...)), &v))
	return v
}

func saidAt(t *testing.T, now time.Time, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	env := &environment{in: strings.NewReader(""), out: &out, err: &errs, now: func() time.Time { return now }, program: noProgram}
	require.Equal(t, statusDone, run(context.Background(), env, args), "%v: %s", args, errs.String())
	return out.String()
}
