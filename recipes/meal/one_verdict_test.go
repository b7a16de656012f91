package meal_test

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
)

// For one history there is one verdict: what a plan says of a dish when it comes to
// the table (share, table), what the journal says of the batch once it is cooked so
// (cooked), and what is said of the same history typed in (keep).
func TestOneHistoryHasOneVerdict(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 7))
	evenings, seen := volume(25, 200, 400), 0
	for range evenings {
		q := randomQuestion(t, random)
		plan, err := meal.Make(t.Context(), q)
		if err != nil {
			continue
		}
		for _, clock := range plan.Clocks {
			h, authority, at := clock.History, keeping.Authority(plan.Kitchen.Authority), clock.ServeAt
			want := clock.Deadline.Verdict
			if !inBox(h) { // the flags have no air for each spell
				typed, err := typedIn(h).Batch(units.Clock{Now: at, Zone: at.Location()}, h.Fridge)
				require.NoError(t, err)
				got, err := keeping.Judge(typed, authority, at)
				require.NoError(t, err)
				same(t, want, got, clock.Dish)
			}

			judge := meal.Judge{Authority: authority, Moment: at, Household: keeping.Batch{Fridge: h.Fridge, Air: h.Air, Vulnerable: h.Vulnerable}}
			kept, err := judge.Strictly(logged(h))
			require.NoError(t, err)
			same(t, want, kept.Verdict, clock.Dish)
			seen++
		}
	}
	require.Greater(t, seen, evenings/2)
}

func same(t *testing.T, want, got keeping.Verdict, dish string) {
	t.Helper()
	require.Equal(t, want.Kind, got.Kind, "%s: %s; %s", dish, want.Head, got.Head)
	require.True(t, want.Until.Equal(got.Until), "%s: %s; %s", dish, want.Head, got.Head)
	require.Equal(t, want.Head, got.Head, dish)
	require.Equal(t, want.Rules(), got.Rules(), dish)
}

// typedIn is a history as the flags of keep have it.
func typedIn(h keeping.Batch) keeping.Words {
	written := func(at time.Time) string {
		if at.IsZero() {
			return ""
		}
		return at.Format(time.RFC3339Nano)
	}
	w := keeping.Words{Food: strings.Join(append([]string{h.Food}, h.Also...), " + "), CookedAt: written(h.CookedAt), ChilledAt: written(h.ChilledAt), HotUntil: written(h.HotUntil)}
	if h.Air.Known {
		w.Air = strconv.FormatFloat(h.Air.C, 'f', -1, 64) + " C"
	}
	for _, s := range h.Out {
		w.Out = append(w.Out, written(s.From)+".."+written(s.To))
	}
	if h.Vulnerable {
		w.Eater = "vulnerable"
	}
	return w
}

// inBox tells that a spell out of the fridge had a temperature of its own, as in a
// cold box.
func inBox(h keeping.Batch) bool {
	return slices.ContainsFunc(h.Out, func(s keeping.Spell) bool { return s.Air.Known })
}

// logged is a history as the journal has it.
func logged(h keeping.Batch) *harvest.Batch {
	b := &harvest.Batch{Name: "bowl", Food: h.Food, Also: h.Also, CookedAt: h.CookedAt, ChilledAt: h.ChilledAt, State: harvest.Cooling}
	for _, s := range h.Out {
		spell := harvest.Spell{From: s.From, To: s.To}
		if s.Air.Known {
			spell.Air = units.MustParse(strconv.FormatFloat(s.Air.C, 'f', -1, 64) + " C")
		}
		b.Out = append(b.Out, spell)
	}
	return b
}
