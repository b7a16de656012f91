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
// the table (share, table), what the journal says of the batch whose events are
// logged so, in whatever order they were written (cooked), and what is said of the
// same history typed in (keep). Asked of every random evening; dishes of several
// fillings, chilled ones, ones out again and tables of guests are among them.
func requireOneVerdict(t *testing.T, random *rand.Rand, plan meal.Plan, clock meal.Clock) (kinds []string) {
	t.Helper()
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
	entries := logged(h)
	random.Shuffle(len(entries), func(i, j int) { entries[i], entries[j] = entries[j], entries[i] })
	batches := harvest.Batches(entries, at)
	require.Len(t, batches, 1)
	kept, err := judge.Strictly(batches[0])
	require.NoError(t, err)
	same(t, want, kept.Verdict, clock.Dish)
	for i, is := range []bool{fillings(plan, clock.Dish) > 1, !h.ChilledAt.IsZero(), !h.ChilledAt.IsZero() && fillings(plan, clock.Dish) > 1, len(h.Out) > 0, plan.Mode == meal.Table} {
		if is {
			kinds = append(kinds, kindsOfHistory[i])
		}
	}
	return kinds
}

// kindsOfHistory have to be among the evenings that [requireOneVerdict] is asked of.
var kindsOfHistory = []string{"several fillings", "chilled", "chilled, of several fillings", "out again", "at a table"}

// fillings is how many fillings of the steamer or the pot a dish comes from.
func fillings(plan meal.Plan, dish string) int {
	runs := map[string]bool{}
	for _, step := range plan.Steps {
		if step.Run != "" && slices.Contains(step.Dishes, dish) {
			runs[step.Run] = true
		}
	}
	return len(runs)
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

// logged are the events by which the journal has a history.
func logged(h keeping.Batch) []harvest.Entry {
	entries := []harvest.Entry{&harvest.BatchEvent{Header: harvest.Header{At: h.CookedAt}, Event: harvest.KindCooked, Name: "bowl", Food: h.Food, Also: h.Also}}
	if !h.ChilledAt.IsZero() {
		entries = append(entries, &harvest.BatchEvent{Header: harvest.Header{At: h.ChilledAt}, Event: harvest.KindChilled, Name: "bowl"})
	}
	for _, s := range h.Out {
		out := &harvest.BatchEvent{Header: harvest.Header{At: s.From}, Event: harvest.KindOut, Name: "bowl", Until: s.To}
		if s.Air.Known {
			out.Air = units.MustParse(strconv.FormatFloat(s.Air.C, 'f', -1, 64) + " C")
		}
		entries = append(entries, out)
	}
	return entries
}
