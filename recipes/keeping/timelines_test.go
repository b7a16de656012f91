package keeping

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// changes make a history worse in one way; ok is false where it has nothing
// to change.
var changes = map[string]func(r *rand.Rand, line *timeline) (ok bool){
	"longer cooling": func(r *rand.Rand, line *timeline) bool {
		b := &line.batch
		if b.ChilledAt.IsZero() {
			return false
		}
		b.ChilledAt = b.ChilledAt.Add(time.Duration(r.IntN(90)) * time.Minute)
		return true
	},
	"longer out": func(r *rand.Rand, line *timeline) bool {
		for i, s := range line.batch.Out {
			if !s.To.IsZero() {
				line.batch.Out[i].To = s.To.Add(time.Duration(r.IntN(90)) * time.Minute)
				return true
			}
		}
		return false
	},
	"once more out": func(r *rand.Rand, line *timeline) bool {
		b := &line.batch
		if b.ChilledAt.IsZero() {
			return false
		}
		from := b.ChilledAt.Add(pick(r, hours(r), days(r)))
		b.Out = append(b.Out, Spell{From: from, To: from.Add(pick(r, hours(r), days(r)))})
		// A reading after it is no longer one of the first cooling.
		return !slices.ContainsFunc(b.Probes, func(p Probe) bool { return p.At.After(from) })
	},
	"longer power cut": func(r *rand.Rand, line *timeline) bool {
		// With readings a longer cut is another: what was read an hour after it is
		// then read at its end.
		if len(line.batch.PowerOff) == 0 || len(line.batch.Probes) > 0 {
			return false
		}
		cut := &line.batch.PowerOff[0]
		cut.To = cut.To.Add(time.Duration(r.IntN(300)) * time.Minute)
		return true
	},
	"warmer air": func(r *rand.Rand, line *timeline) bool {
		b := &line.batch
		b.Air = Celsius(b.Air.C + 20*r.Float64())
		return b.Air.C <= mostAir && b.Air.C > 20
	},
	"warmer air once out": func(r *rand.Rand, line *timeline) bool {
		for i := range line.batch.Out {
			line.batch.Out[i].Air = Celsius(36)
		}
		return len(line.batch.Out) > 0 && !line.batch.Air.Known
	},
	"warmer fridge": func(r *rand.Rand, line *timeline) bool {
		b := &line.batch
		b.Fridge = Celsius(max(b.Fridge.C, 4) + 5*r.Float64())
		return b.Fridge.C <= mostFridge
	},
	"frozen later": func(r *rand.Rand, line *timeline) bool {
		b := &line.batch
		from := b.FrozenAt
		b.FrozenAt = from.Add(time.Duration(r.IntN(600)) * time.Minute)
		// A cut or a reading in between is of the freezer before and of the fridge
		// after: of two places neither is the worse.
		between := func(t time.Time) bool { return !t.Before(from) && !t.After(b.FrozenAt) }
		other := slices.ContainsFunc(b.Probes, func(p Probe) bool { return between(p.At) }) ||
			slices.ContainsFunc(b.PowerOff, func(s Spell) bool { return !s.From.After(b.FrozenAt) && (s.To.IsZero() || s.To.After(from)) })
		return b.FrozenAt.After(b.ChilledAt) && !b.ChilledAt.IsZero() && !other
	},
	"a more vulnerable eater": func(_ *rand.Rand, line *timeline) bool {
		line.batch.Vulnerable = true
		return true
	},
	"one more reheating": func(_ *rand.Rand, line *timeline) bool {
		line.batch.Reheated++
		return !line.batch.ChilledAt.IsZero()
	},
	"less hot while kept hot": func(r *rand.Rand, line *timeline) bool {
		line.batch.HotAt.C -= 15 * r.Float64()
		return line.batch.HotAt.Known
	},
	"one more power cut": func(r *rand.Rand, line *timeline) bool {
		b := &line.batch
		from := b.CookedAt.Add(days(r)).Truncate(time.Minute)
		cut := Spell{From: from, To: from.Add(pick(r, hours(r), hours(r)+4*time.Hour, days(r)))}
		// A cut more joins cuts that power had parted, and a reading after the last
		// then speaks for all of them: with readings it is news, not only a cut more.
		told := len(b.Probes) > 0
		b.PowerOff = append(b.PowerOff, cut)
		return !told && !b.ChilledAt.IsZero()
	},
	"a reading too warm": func(r *rand.Rand, line *timeline) bool {
		b := &line.batch
		if len(b.PowerOff) == 0 || b.PowerOff[0].To.IsZero() {
			return false
		}
		b.Probes = append(b.Probes, Probe{b.PowerOff[0].To.Add(hours(r) / 3).Truncate(time.Minute), 5.1 + 10*r.Float64()})
		return true
	},
	"a warmer reading": func(r *rand.Rand, line *timeline) bool {
		if len(line.batch.Probes) == 0 {
			return false
		}
		line.batch.Probes[0].C += 6 * r.Float64()
		return true
	},
	"no reading at all": func(_ *rand.Rand, line *timeline) bool {
		b := &line.batch
		// How full the freezer was is asked for only where no reading speaks.
		warm := slices.ContainsFunc(b.Probes, func(p Probe) bool { return p.C > 4.4 }) || !b.FrozenAt.IsZero() && b.Freezer == FillUnknown
		ok := len(b.Probes) > 0 && !warm
		b.Probes = nil
		return ok
	},
	"a freezer less full": func(_ *rand.Rand, line *timeline) bool {
		full := line.batch.Freezer == FillFull
		line.batch.Freezer = FillHalf
		return full
	},
	"no ice in it": func(_ *rand.Rand, line *timeline) bool {
		ice := line.batch.Ice && line.batch.Freezer != FillUnknown
		line.batch.Ice = false
		return ice
	},
	"eggs of another sort": func(_ *rand.Rand, line *timeline) bool {
		better := line.batch.Eggs == EggsScheme || line.batch.Eggs == EggsPasteurised
		line.batch.Eggs = EggsOther
		return better
	},
	"melted packs": func(_ *rand.Rand, line *timeline) bool {
		frozen := line.batch.Box == PacksFrozen && len(line.batch.Out) > 0
		line.batch.Box = PacksMelted
		return frozen
	},
	"one more food in it": func(r *rand.Rand, line *timeline) bool {
		food, _ := LookupBatchFood(pick(r, BatchFoods()...))
		line.batch.Also = append(slices.Clone(line.batch.Also), food.ID)
		base, _ := LookupBatchFood(line.batch.Food)
		// With a part that cannot be heated none of it is, and a jar's clock is
		// another than the stove's.
		return food.Reheats && food.refer == "" && base.timing == timed
	},
	"an eater of low immunity": func(_ *rand.Rand, line *timeline) bool {
		weak := line.batch.Vulnerable
		line.batch.LowImmunity = true
		return weak
	},
	"a bitter fruit in it": func(_ *rand.Rand, line *timeline) bool {
		line.batch.Bitter = true
		return true
	},
	"green tubers": func(_ *rand.Rand, line *timeline) bool {
		line.batch.Tubers = TubersGreen
		return true
	},
}

func TestWorseHistoriesAreNeverJudgedMoreLeniently(t *testing.T) {
	names := make([]string, 0, len(changes))
	for name := range changes {
		names = append(names, name)
	}
	slices.Sort(names)
	tried := map[string]int{}
	eachOf(manyTimelines(), 1, func(r *rand.Rand, line timeline, a Authority) {
		before := judged(t, line, a)
		for _, name := range names {
			worse := line
			worse.batch.Out, worse.batch.PowerOff, worse.batch.Probes = slices.Clone(line.batch.Out), slices.Clone(line.batch.PowerOff), slices.Clone(line.batch.Probes)
			if !changes[name](r, &worse) || worse.batch.Check(worse.now) != nil {
				continue
			}
			tried[name]++
			noMoreLenient(t, name+" by "+string(a), judged(t, worse, a), before, worse)
		}
	})
	for _, name := range names {
		require.Greater(t, tried[name], manyTimelines()/200, name)
	}
}

// A later moment never gives a milder word; and `until` never moves while it
// has not passed. (Under uk and au-nz a dish still out when its time for the
// fridge has passed may yet be eaten until a later moment, but not kept.)
func TestLaterIsNeverMoreLenient(t *testing.T) {
	eachTimeline(t, 2, func(r *rand.Rand, line timeline, a Authority) {
		before := judged(t, line, a)
		later := line
		later.now = line.now.Add(pick(r, hours(r), days(r)))
		after := judged(t, later, a)
		require.LessOrEqual(t, leniency(after.Kind), leniency(before.Kind), "%+v", line)
		if !before.Until.IsZero() && !later.now.After(before.Until) && after.Kind == before.Kind {
			require.True(t, after.Until.Equal(before.Until), "%s\n%s\n%+v", before.Sentence, after.Sentence, later)
		}
		if a == Strictest || a == UnitedStates {
			noMoreLenient(t, "later", after, before, later)
		}
	})
}

func TestUntilIsTheLastMoment(t *testing.T) {
	eachTimeline(t, 3, func(_ *rand.Rand, line timeline, a Authority) {
		v := judged(t, line, a)
		if v.Until.IsZero() {
			return
		}
		require.False(t, v.Until.Before(line.now), "%s %+v", v.Sentence, line)
		line.now = v.Until.Add(time.Second)
		after := judged(t, line, a)
		toKeep := v.Kind == FineNow && v.KeepBy.Equal(v.Until) && neverCold(line.batch)
		ended := after.Kind == Discard || toKeep && after.Kind == FineNow && after.KeepBy.IsZero()
		require.True(t, ended, "%s, then %s %s\n%+v", v.Sentence, after.Kind, after.Sentence, line)
	})
}

// neverCold tells of food that has not begun to be cooled: it is out of the fridge
// still, or was put into one without power that is without it still.
func neverCold(b Batch) bool {
	return b.ChilledAt.IsZero() || slices.ContainsFunc(merged(b.PowerOff), func(s Spell) bool {
		return !s.From.After(b.ChilledAt) && s.To.IsZero()
	})
}

func TestStrictestIsNeverMoreLenientThanAny(t *testing.T) {
	eachTimeline(t, 4, func(_ *rand.Rand, line timeline, _ Authority) {
		strict := judged(t, line, Strictest)
		for _, a := range Authorities() {
			noMoreLenient(t, "strictest against "+string(a), strict, judged(t, line, a), line)
		}
	})
}

func TestOrderAndSplittingOfSpellsDoNotMatter(t *testing.T) {
	eachTimeline(t, 5, func(r *rand.Rand, line timeline, a Authority) {
		want := judged(t, line, a)
		other := line
		other.batch.Out, other.batch.PowerOff = resplit(r, line.batch.Out), resplit(r, line.batch.PowerOff)
		got := judged(t, other, a)
		require.Equal(t, want.Kind, got.Kind, "%+v", other)
		require.True(t, want.Until.Equal(got.Until), "%+v", other)
		require.Equal(t, want.Rules(), got.Rules(), "%+v", other)
	})
}

// resplit tells the same spells in another order, cut in two that overlap.
func resplit(r *rand.Rand, spells []Spell) []Spell {
	var parts []Spell
	for _, s := range spells {
		if s.To.IsZero() {
			parts = append(parts, s, s)
			continue
		}
		middle := s.From.Add(time.Duration(r.Float64() * float64(s.To.Sub(s.From))))
		overlap := time.Duration(r.IntN(2)) * s.To.Sub(middle)
		parts = append(parts, Spell{s.From, middle.Add(overlap / 2), s.Air}, Spell{middle, s.To, s.Air})
	}
	r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
	return parts
}

// Every authority forbids at least what it has been told to: nothing here may
// panic, and each verdict has its sentence, its rules and the cautions.
func TestEveryVerdictIsWhole(t *testing.T) {
	eachTimeline(t, 7, func(_ *rand.Rand, line timeline, a Authority) {
		v := judged(t, line, a)
		require.NotEmpty(t, v.Head)
		require.NotEmpty(t, v.Sentence)
		require.NotEmpty(t, v.Rules())
		require.Subset(t, v.Says(), Cautions(line.batch.Vulnerable))
		if v.Kind == Discard && !v.NotForThem {
			require.True(t, strings.HasPrefix(v.Head, "Throw it out"), v.Head)
			for _, says := range v.Says()[:2+len(v.Warnings)] {
				for _, milder := range []string{"keep it", "eat it", "may be eaten", "use it", "put a thermometer", "heat it to"} {
					require.NotContains(t, strings.ToLower(says), milder, "beside %q\n%+v", v.Head, line)
				}
			}
		}
		if v.Kind != Discard {
			require.NotContains(t, v.Head, "Throw it out", "%+v", line)
		}
		for _, id := range v.Rules() {
			_, ok := LookupRule(id)
			require.True(t, ok, id)
		}
	})
}

func BenchmarkJudge(b *testing.B) {
	line := timeline{Batch{Food: "mash", CookedAt: dawn, ChilledAt: dawn.Add(time.Hour), Fridge: Celsius(4)}, dawn.Add(24 * time.Hour)}
	for b.Loop() {
		if _, err := Judge(line.batch, Strictest, line.now); err != nil {
			b.Fatal(err)
		}
	}
}
