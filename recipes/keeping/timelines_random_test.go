package keeping

import (
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// timeline is a random history that can be, and the moment it is judged at.
type timeline struct {
	batch Batch
	now   time.Time
}

var dawn = time.Date(2031, 7, 12, 6, 0, 0, 0, time.UTC)

// randomTimeline makes histories round about the limits: minutes drawn so
// that 1 h, 2 h, 4 h, 24 h and 48 h are hit exactly now and then, and so that
// a third of them are still good.
func randomTimeline(r *rand.Rand) timeline {
	at := dawn
	after := func(d time.Duration) time.Time { at = at.Add(d); return at }
	b := Batch{
		Food: pick(r, BatchFoods()...), CookedAt: at, Vulnerable: r.IntN(5) == 0,
		Fridge: pick(r, Temperature{}, Celsius(4), Celsius(4), Celsius(4.4), Celsius(5), Celsius(5.1), Celsius(8), Celsius(9)),
		Air:    pick(r, Temperature{}, Celsius(4), Celsius(20), Celsius(20), Celsius(32.2), Celsius(33)),
	}
	if r.IntN(5) == 0 {
		b.HotAt, b.HotUntil = Celsius(pick(r, 50.0, 57, 60, 63, 70)), after(hours(r))
	}
	if r.IntN(5) > 0 {
		b.ChilledAt = after(hours(r))
		fillColdLife(r, &b, after)
	}
	if r.IntN(3) == 0 {
		b.Also = []string{pick(r, BatchFoods()...)}
	}
	b.Eggs, b.LowImmunity = pick(r, EggsUnknown, EggsScheme, EggsPasteurised, EggsOther), b.Vulnerable && r.IntN(4) == 0
	b.Bitter, b.Tubers = r.IntN(60) == 0, pick(r, append(make([]Tubers, 60), TubersGreen, TubersBitter)...)
	return timeline{b, after(pick(r, hours(r), hours(r), days(r)))}
}

// fillColdLife adds what may happen once a batch is in the fridge.
func fillColdLife(r *rand.Rand, b *Batch, after func(time.Duration) time.Time) {
	if r.IntN(8) == 0 {
		b.Reheated = 1
	}
	for range pick(r, 0, 0, 1, 1, 2, 3) {
		from := after(pick(r, hours(r), -hours(r)/2).Truncate(time.Minute))
		if from.Before(b.ChilledAt) {
			from = b.ChilledAt
		}
		b.Out = append(b.Out, Spell{from, after(hours(r)), pick(r, Temperature{}, Temperature{}, Celsius(34))})
	}
	for range pick(r, 0, 0, 0, 1, 1, 2, 3) {
		from := b.CookedAt.Add(days(r) / 4).Truncate(time.Minute)
		b.PowerOff = append(b.PowerOff, Spell{From: from, To: from.Add(hours(r) + pick[time.Duration](r, 0, 0, 2, 4)*time.Hour)})
	}
	if r.IntN(4) == 0 {
		b.FrozenAt = after(hours(r))
		if r.IntN(3) == 0 {
			from := b.FrozenAt.Add(hours(r))
			b.PowerOff = append(b.PowerOff, Spell{From: from, To: from.Add(days(r))})
		}
		for _, s := range b.PowerOff {
			for after(0).Before(s.To) && r.IntN(4) > 0 {
				after(days(r) / 8)
			}
		}
		if r.IntN(4) > 0 {
			b.ThawedAt = after(days(r))
		}
	} else if n := len(b.Out); n > 0 && r.IntN(3) == 0 {
		b.Out[n-1].To = time.Time{}
	}
	for _, s := range b.PowerOff {
		for after(0).Before(s.To) {
			after(hours(r) + time.Minute)
		}
	}
	fillReadings(r, b, after(0))
	b.Freezer, b.Ice = pick(r, FillUnknown, FillFull, FillHalf), r.IntN(3) == 0
	b.Box = pick(r, PacksUnknown, PacksUnknown, PacksFrozen, PacksMelted)
}

// fillReadings adds thermometer readings about the power cuts, and now and then
// leaves the last cut on.
func fillReadings(r *rand.Rand, b *Batch, last time.Time) {
	for i, cut := range b.PowerOff {
		for range pick(r, 0, 0, 1, 2) {
			at := cut.From.Add(pick(r, hours(r), cut.To.Sub(cut.From), cut.To.Sub(cut.From)+hours(r)/3, cut.To.Sub(cut.From)+time.Hour).Truncate(time.Minute))
			if !at.After(last) && !at.Before(b.CookedAt) {
				b.Probes = append(b.Probes, Probe{at, pick(r, 3.0, 4.4, 5, 5, 5.1, 7, 12)})
			}
		}
		if i == len(b.PowerOff)-1 && r.IntN(5) == 0 {
			b.PowerOff[i].To = time.Time{}
		}
	}
}

// hours is a span up to two and a half hours, days one up to two and a half
// days.
func hours(r *rand.Rand) time.Duration {
	if r.IntN(6) == 0 {
		return pick[time.Duration](r, 1, 2, 4) * time.Hour
	}
	return time.Duration(r.IntN(150)/pick(r, 1, 2, 4)) * time.Minute
}

func days(r *rand.Rand) time.Duration {
	if r.IntN(6) == 0 {
		return pick[time.Duration](r, 24, 48, 96) * time.Hour
	}
	return time.Duration(r.IntN(60*60)/pick(r, 1, 2, 4)) * time.Minute
}

func pick[T any](r *rand.Rand, choices ...T) T { return choices[r.IntN(len(choices))] }

// volume is how many histories a property is tried on: few, more of them with
// TRENCHER_LONG=1, all with TRENCHER_LONG=full.
func volume(few, more, all int) int {
	switch os.Getenv("TRENCHER_LONG") {
	case "":
		return few
	case "full":
		return all
	}
	return more
}

func timelines() int { return volume(1_500, 20_000, 100_000) }

// manyTimelines is how many the main property is tried on.
func manyTimelines() int { return volume(2_000, 60_000, 1_000_000) }

func eachTimeline(t *testing.T, seed uint64, check func(r *rand.Rand, line timeline, a Authority)) {
	eachOf(timelines(), seed, check)
}

func eachOf(lines int, seed uint64, check func(r *rand.Rand, line timeline, a Authority)) {
	r := rand.New(rand.NewPCG(seed, 6))
	for range lines {
		line := randomTimeline(r)
		if line.batch.Check(line.now) != nil {
			continue
		}
		check(r, line, pick(r, append(Authorities(), Strictest)...))
	}
}

func judged(t *testing.T, line timeline, a Authority) Verdict {
	t.Helper()
	v, err := Judge(line.batch, a, line.now)
	require.NoError(t, err, "%+v", line)
	return v
}

// leniency orders verdicts: of two, the one with the smaller number allows
// less.
func leniency(k Kind) int {
	return slices.Index([]Kind{Discard, Unknown, FineNow, ReheatFirst, EatBy}, k)
}

// noMoreLenient requires that a verdict allows no more than another: no milder
// word, no later moment.
func noMoreLenient(t *testing.T, what string, strict, mild Verdict, line timeline) {
	t.Helper()
	require.LessOrEqual(t, leniency(strict.Kind), leniency(mild.Kind),
		"%s: %s (%s) after %s (%s)\n%+v", what, strict.Kind, strict.Sentence, mild.Kind, mild.Sentence, line)
	if strict.Kind == Discard || strict.Kind == Unknown || mild.Until.IsZero() {
		return
	}
	if !mild.KeepBy.IsZero() && strict.KeepBy.IsZero() {
		return // it may be eaten until later, as in worked case 3, but no longer be kept
	}
	require.False(t, strict.Until.IsZero() || strict.Until.After(mild.Until),
		"%s: until %s after until %s\n%+v", what, strict.Until, mild.Until, line)
}
