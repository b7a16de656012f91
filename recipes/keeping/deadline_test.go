package keeping

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// histories is how many random histories the deadlines are tried on.
func histories() int { return volume(3_000, 40_000, 200_000) }

// unfinished leaves what is still going on open: the last spell out, a power
// cut, the keeping hot.
func unfinished(r *rand.Rand, line timeline) timeline {
	b := &line.batch
	b.Out, b.PowerOff = slices.Clone(b.Out), slices.Clone(b.PowerOff)
	if n := len(b.PowerOff); n > 0 && r.IntN(2) == 0 {
		b.PowerOff[n-1].To = time.Time{}
	}
	if b.ChilledAt.IsZero() && r.IntN(2) == 0 {
		b.HotUntil = time.Time{}
	}
	if r.IntN(40) == 0 {
		b.ThawedAt = time.Time{}
	}
	if r.IntN(40) == 0 {
		b.Tubers = TubersGreen
	}
	if r.IntN(20) == 0 {
		b.ChilledAt = time.Time{}
	}
	for _, temperature := range []float64{70, 40, 12, 4} {
		if r.IntN(10) == 0 {
			b.Probes = append(b.Probes, Probe{At: b.CookedAt.Add(hours(r) * 2), C: temperature})
		}
	}
	return line
}

// A deadline is Judge's own: at Until it may be eaten, a nanosecond later no
// more, at no moment between is it a discard; and where it has become one, it
// was none at Until by what had happened then.
func TestDeadlineIsTheLastMomentOfTheVerdict(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 12))
	seen := map[string]int{}
	for tried := 0; tried < histories(); {
		line := unfinished(r, randomTimeline(r))
		if line.batch.Check(line.now) != nil {
			continue
		}
		tried++
		a := pick(r, append(Authorities(), Strictest)...)
		d, err := DeadlineOf(line.batch, a, line.now)
		require.NoError(t, err)
		require.Equal(t, judged(t, line, a), d.Verdict)
		switch {
		case d.Verdict.Kind == Unknown:
			seen["unknown"]++
			require.Equal(t, Deadline{Verdict: d.Verdict}, d)
			require.False(t, d.Holds(line.now))
		case d.Verdict.Kind == Discard:
			seen["discard"]++
			checkPast(t, line, a, d)
		default:
			seen[string(d.Verdict.Kind)]++
			checkToCome(t, r, line, a, d)
		}
	}
	for _, kind := range []string{"unknown", "discard", "fine-now", "reheat-first", "eat-by"} {
		require.Greater(t, seen[kind], histories()/100, kind)
	}
}

func checkToCome(t *testing.T, r *rand.Rand, line timeline, a Authority, d Deadline) {
	t.Helper()
	require.True(t, d.Holds(line.now))
	kindAt := func(at time.Time) Kind { return judged(t, timeline{line.batch, at}, a).Kind }
	if d.Until.IsZero() {
		require.Empty(t, d.Rule)
		require.NotContains(t, []Kind{Discard, Unknown}, kindAt(line.now.AddDate(20, 0, 0)), "%+v", line)
		return
	}
	require.NotEqual(t, Discard, kindAt(d.Until), "%s %s\n%+v", a, d.Until, line)
	after := judged(t, timeline{line.batch, d.Until.Add(1)}, a)
	require.Contains(t, []Kind{Discard, Unknown}, after.Kind, "%s %s\n%+v", a, d.Until, line)
	require.Equal(t, after.Reasons[0].Rules, d.Rules, "%+v\n%+v", after.Reasons, line)
	require.Equal(t, d.Rules[0], d.Rule)
	between := line.now.Add(time.Duration(r.Int64N(int64(d.Until.Sub(line.now) + 1))))
	require.NotContains(t, []Kind{Discard, Unknown}, kindAt(between), "%s %s\n%+v", a, between, line)
	require.True(t, d.Holds(between) && d.Holds(d.Until) && !d.Holds(d.Until.Add(1)))
	clock, before := d.Clock()
	if before {
		require.Equal(t, d.Until.Add(1), clock)
	} else {
		require.Equal(t, d.Until, clock)
	}
	require.False(t, clock.Before(d.Verdict.Until) && len(line.batch.PowerOff) == 0, "only a power cut can end it sooner than the verdict says")
}

func checkPast(t *testing.T, line timeline, a Authority, d Deadline) {
	t.Helper()
	require.NotEmpty(t, d.Rule)
	require.False(t, d.Holds(line.now))
	b := line.batch
	kindAsOf := func(at time.Time) Kind { return judged(t, timeline{b.AsOf(at), at}, a).Kind }
	if d.Until.IsZero() {
		require.Equal(t, Discard, kindAsOf(b.CookedAt), "%+v", line)
		return
	}
	require.True(t, d.Until.Before(line.now), "%s\n%+v", d.Until, line)
	require.False(t, d.Holds(d.Until), "what is condemned never holds")
	require.NotEqual(t, Discard, kindAsOf(d.Until), "%s %s\n%+v", a, d.Until, line)
	require.Equal(t, Discard, kindAsOf(d.Until.Add(1)), "%s %s\n%+v", a, d.Until, line)
}

// Deadlines by hand from the published limits, the sources as in
// TestLimitsOfTime: hours after cooking at noon, each history as it goes on.
func TestDeadlines(t *testing.T) {
	at := func(hours float64) time.Time { return noon.Add(time.Duration(hours * float64(time.Hour))) }
	history := func(change func(b *Batch)) Batch { b := chilledBatch(); change(&b); return b }
	same := func(*Batch) {}
	still := func(b *Batch) { b.ChilledAt = time.Time{} }
	outFrom := func(hours float64) func(b *Batch) { return func(b *Batch) { b.Out = []Spell{{From: at(hours)}} } }
	const never = -1
	cases := []struct {
		name      string
		authority Authority
		batch     Batch
		asked     float64 // hours after cooking
		kind      Kind    // at the moment asked
		ends      float64 // on the clock; 0 where none is told
		before    bool
		rule      string
	}{
		{"in the fridge, two days", Strictest, history(same), 3, EatBy, 48, false, "uk-leftovers-48h"},
		{"in the fridge, four days", UnitedStates, history(same), 3, EatBy, 96, false, "us-leftovers-4d"},
		{"on the table from the fridge", Strictest, history(outFrom(6.5)), 6.5, FineNow, 8.5, false, "us-ambient-2h"},
		{"on the table in the UK", UnitedKingdom, history(outFrom(6.5)), 6.5, FineNow, 10.5, false, "uk-party-4h"},
		{"on the table in Australia, before the four hours", AustraliaAndNZ, history(outFrom(6.5)), 6.5, FineNow, 10.5, true, "au-2h4h"},
		{"asked late on the table", Strictest, history(outFrom(6.5)), 8.25, FineNow, 8.5, false, "us-ambient-2h"},
		{"on the table at the end of its life", Strictest, history(outFrom(47)), 47, FineNow, 48, false, "uk-leftovers-48h"},
		{"never in the fridge", Strictest, history(still), 0, FineNow, 2, false, "uk-hot-2h-once"},
		{"never in the fridge in the UK, no four hours for what was hot", UnitedKingdom, history(still), 0, FineNow, 2, false, "uk-hot-2h-once"},
		{"never in the fridge in Australia", AustraliaAndNZ, history(still), 3, FineNow, 4, true, "au-2h4h"},
		{"kept hot, to the end of its life", Strictest, history(func(b *Batch) { still(b); b.HotAt = Celsius(65) }), 5, FineNow, 48, false, "uk-leftovers-48h"},
		{"in hot air", Strictest, history(func(b *Batch) { still(b); b.Air = Celsius(34) }), 0.25, FineNow, 1, false, "uk-hot-2h-once"},
		{"in the freezer, without end", Strictest, history(func(b *Batch) { b.FrozenAt = at(5) }), 500, FineNow, 0, false, ""},
		{"thawed", Strictest, history(func(b *Batch) { b.FrozenAt, b.ThawedAt = at(5), at(500) }), 500, ReheatFirst, 524, false, "uk-leftovers-48h"},
		{"a power cut that goes on", Strictest, history(func(b *Batch) { b.PowerOff = []Spell{{From: at(2)}} }), 3, EatBy, 6, false, "power-cut-4h"},
		{"the same asked as its fifth hour begins", Strictest, history(func(b *Batch) { b.PowerOff = []Spell{{From: at(2)}} }), 6, EatBy, 6, false, "power-cut-4h"},
		{"a power cut at a freezer", Strictest, history(func(b *Batch) { b.FrozenAt, b.PowerOff = at(5), []Spell{{From: at(200)}} }), 201, FineNow, 224, false, "power-freezer"},
		{"a power cut that is over", Strictest, history(func(b *Batch) { b.PowerOff = []Spell{{From: at(2), To: at(5)}} }), 6, EatBy, 48, false, "uk-leftovers-48h"},
		{"left out too long", Strictest, history(outFrom(6.5)), 9, Discard, 8.5, false, "us-ambient-2h"},
		{"put back too late", Strictest, history(func(b *Batch) { b.Out = []Spell{{From: at(6), To: at(8)}} }), 20, Discard, 8, true, "uk-picnic-2h"},
		{"cooled too slowly", Strictest, history(func(b *Batch) { b.ChilledAt = at(2.5) }), 3, Discard, 2, false, "uk-hot-2h-once"},
		{"cooled too slowly in the UK", UnitedKingdom, history(func(b *Batch) { b.ChilledAt = at(2.5) }), 3, Discard, 2, false, "uk-hot-2h-once"},
		{"its life was over before it came out", Strictest, history(outFrom(48.5)), 60, Discard, 48, false, "uk-leftovers-48h"},
		{"green tubers", Strictest, history(func(b *Batch) { b.Tubers = TubersGreen }), 3, Discard, never, false, "green-bitter-discard"},
		{"green tubers of a day nobody knows", Strictest, Batch{Tubers: TubersGreen}, 3, Discard, never, false, "green-bitter-discard"},
		{"green tubers put away on a day nobody knows", Strictest, history(func(b *Batch) { b.Tubers, b.CookedAt = TubersGreen, time.Time{} }), 3, Discard, never, false, "green-bitter-discard"},
		{"heated up twice", Strictest, history(func(b *Batch) { b.Reheated = 1 }), 3, Discard, never, false, "uk-reheat-once"},
		{"nobody knows when it was cooked", Strictest, history(func(b *Batch) { b.CookedAt = time.Time{} }), 3, Unknown, 0, false, ""},
		{"nobody knows how hot it was kept, and it is too old all the same", Strictest, history(func(b *Batch) { b.HotUntil = at(0.5) }), 49, Discard, 48, false, "uk-leftovers-48h"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			d, err := DeadlineOf(c.batch, c.authority, at(c.asked))
			require.NoError(t, err)
			assert.Equal(t, c.kind, d.Verdict.Kind, d.Verdict.Sentence)
			assert.Equal(t, c.rule, d.Rule)
			if c.ends <= 0 {
				clock, before := d.Clock()
				assert.True(t, d.Until.IsZero() && clock.IsZero() && !before)
				assert.Equal(t, c.kind == FineNow, d.Holds(at(c.asked+1e5)), "what ends nowhere")
				return
			}
			clock, before := d.Clock()
			assert.Equal(t, at(c.ends), clock)
			assert.Equal(t, c.before, before)
			if c.kind != Discard {
				assert.True(t, d.Holds(at(c.ends).Add(-time.Second)))
				assert.Equal(t, !c.before, d.Holds(at(c.ends)))
				assert.False(t, d.Holds(at(c.ends).Add(time.Second)))
			}
		})
	}
}

func TestDeadlineOfWhatCannotBe(t *testing.T) {
	b := chilledBatch()
	for field, ask := range map[string]func() (Deadline, error){
		"chilled-at": func() (Deadline, error) { return DeadlineOf(b, Strictest, noon) },
		"authority":  func() (Deadline, error) { return DeadlineOf(b, "eu", noon.Add(time.Hour)) },
		"now":        func() (Deadline, error) { return DeadlineOf(b, Strictest, time.Time{}) },
	} {
		_, err := ask()
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong)
		assert.Equal(t, field, wrong.Field)
	}
}

// What had not happened yet is not in the history; what had not ended goes on.
func TestHistoryAsOf(t *testing.T) {
	b := chilledBatch()
	b.HotAt, b.HotUntil = Celsius(65), noon.Add(30*time.Minute)
	b.Out = []Spell{{From: noon.Add(2 * time.Hour), To: noon.Add(3 * time.Hour)}, {From: noon.Add(5 * time.Hour)}}
	b.PowerOff = []Spell{{From: noon.Add(-time.Hour), To: noon.Add(4 * time.Hour)}}
	b.Probes = []Probe{{noon.Add(40 * time.Minute), 50}, {noon.Add(4 * time.Hour), 5}}
	b.FrozenAt, b.ThawedAt = noon.Add(6*time.Hour), noon.Add(30*time.Hour)

	assert.Equal(t, b, b.AsOf(noon.Add(30*time.Hour)), "all of it")
	stood := b.AsOf(noon.Add(150 * time.Minute))
	assert.Equal(t, b.ChilledAt, stood.ChilledAt)
	assert.Equal(t, []Spell{{From: b.Out[0].From}}, stood.Out)
	assert.Equal(t, []Spell{{From: b.PowerOff[0].From}}, stood.PowerOff)
	assert.Equal(t, b.Probes[:1], stood.Probes)
	assert.Zero(t, stood.FrozenAt)
	assert.Zero(t, stood.ThawedAt)
	assert.Equal(t, b.Out[:1], b.AsOf(b.Out[0].To).Out, "at the moment itself it has happened")
	assert.Zero(t, b.AsOf(noon).HotUntil)
	assert.Len(t, b.Probes, 2, "the history asked is left as it is")

	var hours []float64
	for _, event := range b.events() {
		hours = append(hours, event.Sub(noon).Hours())
	}
	assert.InDeltaSlice(t, []float64{0, 0.5, 2.0 / 3, 1, 2, 3, 4, 5, 6, 30}, hours, 1e-9, "from cooking on, each once")
}

func BenchmarkDeadlineOf(b *testing.B) {
	batch := Batch{Food: "mash", CookedAt: dawn, ChilledAt: dawn.Add(time.Hour), Fridge: Celsius(4), Out: []Spell{{From: dawn.Add(3 * time.Hour)}}}
	for b.Loop() {
		if _, err := DeadlineOf(batch, UnitedKingdom, dawn.Add(4*time.Hour)); err != nil {
			b.Fatal(err)
		}
	}
}
