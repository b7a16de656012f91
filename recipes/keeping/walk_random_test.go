package keeping_test

import (
	"math/rand/v2"
	"os"
	"time"

	"trencher/recipes/keeping"
)

// walked is how many histories the second judge walks through.
func walked() int {
	switch os.Getenv("TRENCHER_LONG") {
	case "":
		return 1_000
	case "full":
		return 100_000
	}
	return 8_000
}

func oneOf[T any](r *rand.Rand, choices ...T) T { return choices[r.IntN(len(choices))] }

// randomSpan is a span about the clocks' own lengths, some of them to the minute.
func randomSpan(r *rand.Rand) time.Duration {
	if r.IntN(4) == 0 {
		return oneOf[time.Duration](r, 60, 120, 121, 239, 240, 241, 720, 24*60, 24*60+1, 48*60) * time.Minute
	}
	return time.Duration(r.IntN(oneOf(r, 40, 90, 180, 600, 3600))) * time.Minute
}

// randomHistory is a history with any of what can be told of food, in whole
// minutes, and the moment to judge it at. Some cannot be: Check refuses those.
func randomHistory(r *rand.Rand) (keeping.Batch, time.Time) {
	now := time.Date(2031, 7, 12, 6, 0, 0, 0, time.UTC)
	b := keeping.Batch{Food: oneOf(r, keeping.BatchFoods()...), CookedAt: now, Vulnerable: r.IntN(5) == 0,
		Fridge: celsiusOr(r, 4, 4, 4.4, 4.5, 5, 5.1, 8, 8.1), Air: celsiusOr(r, 3, 20, 20, 32.2, 32.3),
		Eggs:    oneOf(r, keeping.EggsUnknown, keeping.EggsScheme, keeping.EggsPasteurised, keeping.EggsOther),
		Box:     oneOf(r, keeping.PacksUnknown, keeping.PacksUnknown, keeping.PacksFrozen, keeping.PacksMelted),
		Freezer: oneOf(r, keeping.FillUnknown, keeping.FillHalf, keeping.FillFull), Ice: r.IntN(3) == 0}
	if r.IntN(3) == 0 {
		b.Also = []string{oneOf(r, keeping.BatchFoods()...)}
	}
	b.LowImmunity, b.Bitter = b.Vulnerable && r.IntN(4) == 0, r.IntN(80) == 0
	later := func(most time.Duration) time.Time { now = now.Add(min(most, randomSpan(r))); return now }
	if r.IntN(5) == 0 {
		b.HotAt, b.HotUntil = keeping.Celsius(oneOf(r, 56.9, 57, 60, 62.9, 63.0)), later(6*time.Hour)
	}
	if r.IntN(6) > 0 {
		b.ChilledAt = later(oneOf[time.Duration](r, 1, 2, 2, 3) * time.Hour)
	}
	if r.IntN(4) == 0 {
		b.FrozenAt = later(50 * time.Hour)
		if now = now.Add(randomSpan(r)); r.IntN(3) > 0 {
			b.ThawedAt = later(100 * time.Hour)
		}
	}
	if !b.ChilledAt.IsZero() {
		b.Reheated = r.IntN(8) / 7
		randomOuts(r, &b, later)
	}
	randomCuts(r, &b, &now)
	return b, now.Add(oneOf[time.Duration](r, 0, 1, 1, 1) * randomSpan(r))
}

func celsiusOr(r *rand.Rand, choices ...float64) keeping.Temperature {
	if r.IntN(5) == 0 {
		return keeping.Temperature{}
	}
	return keeping.Celsius(oneOf(r, choices...))
}

// randomOuts has the food out of the fridge, now and then still.
func randomOuts(r *rand.Rand, b *keeping.Batch, later func(time.Duration) time.Time) {
	for range oneOf(r, 0, 0, 0, 1, 1, 2) {
		s := keeping.Spell{From: later(20 * time.Hour), To: later(oneOf[time.Duration](r, 1, 2, 5) * time.Hour)}
		if r.IntN(4) == 0 {
			s.Air = keeping.Celsius(oneOf(r, 4, 5, 5.1, 20, 34.0))
		}
		b.Out = append(b.Out, s)
	}
	if n := len(b.Out); n > 0 && b.FrozenAt.IsZero() && r.IntN(4) == 0 {
		b.Out[n-1].To = time.Time{}
	}
}

// randomCuts takes the power away and has a thermometer read about the cuts.
func randomCuts(r *rand.Rand, b *keeping.Batch, now *time.Time) {
	whole := now.Sub(b.CookedAt)
	for range oneOf(r, 0, 0, 1, 1, 2, 3) {
		from := b.CookedAt.Add(time.Duration(r.Int64N(int64(whole + time.Hour)))).Truncate(time.Minute)
		cut := keeping.Spell{From: from, To: from.Add(randomSpan(r))}
		if now.Before(cut.To) {
			*now = cut.To
		}
		for range oneOf(r, 0, 0, 1, 2) {
			at := cut.To.Add(oneOf(r, -randomSpan(r), 0, 30*time.Minute, time.Hour, 61*time.Minute))
			if at.After(*now) {
				*now = at
			}
			if !at.Before(b.CookedAt) {
				b.Probes = append(b.Probes, keeping.Probe{At: at, C: oneOf(r, 3, 4.4, 4.5, 5, 5.1, 9.0)})
			}
		}
		b.PowerOff = append(b.PowerOff, cut)
	}
	if n := len(b.PowerOff); n > 0 && r.IntN(5) == 0 {
		b.PowerOff[n-1].To = time.Time{}
	}
}
