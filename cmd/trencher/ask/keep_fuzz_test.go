package ask

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/recipes/keeping"
	"trencher/units"
)

// FuzzKeepVerdict: whatever is typed, the answer is a verdict with its words
// and cautions, or an error that names the flag.
func FuzzKeepVerdict(f *testing.F) {
	f.Add("mash", "13:00", "14:00", "15:00..16:00", "4 C", "33 C", "14:30=25 C", "", 0)
	f.Add("potato salad", "yesterday 13:00", "", "10:00..", "40 F", "gas mark 1", "=", "vulnerable", 1)
	f.Add("", "2031-07-12T13:00Z", "2031-07-12T13:00", "..", "-0 C", "1e3 C", "13:00=", "us", -1)
	f.Add("baked-in-foil", "0000-01-01T00:00", "9999-12-31T23:59", "13:00..12:00", "5 K", "NaN", "x=y", "", 9999999)
	now := time.Date(2031, 7, 12, 16, 40, 0, 0, time.UTC)
	f.Fuzz(func(t *testing.T, food, cooked, chilled, out, fridge, air, probe, eater string, reheated int) {
		q := KeepQuestion{PlotRef: PlotRef{Now: now}, Words: keeping.Words{Food: food, CookedAt: cooked, ChilledAt: chilled,
			Out: []string{out}, Fridge: fridge, Air: air, Probes: []string{probe}, Eater: eater, Reheated: reheated}}
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
