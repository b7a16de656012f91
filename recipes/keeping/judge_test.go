package keeping

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Durations are of the clock inside, not of the one on the wall: over the
// spring change the night is an hour shorter, over the autumn one longer.
func TestClockChangesDoNotStretchTime(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	require.NoError(t, err)
	at := func(month time.Month, day, hour, minute int) time.Time {
		return time.Date(2031, month, day, hour, minute, 0, 0, london)
	}
	t.Run("spring, 00:30 to 03:10 is 1 h 40 min", func(t *testing.T) {
		b := Batch{Food: "mash", CookedAt: at(time.March, 30, 0, 30), Air: Celsius(20)}
		v, err := Judge(b, Strictest, at(time.March, 30, 3, 10))
		require.NoError(t, err)
		assert.Equal(t, FineNow, v.Kind)
		assert.Equal(t, "03:30", v.Until.Format("15:04"))
		assert.Contains(t, v.Head, "03:30")
	})
	t.Run("autumn, 00:30 to 02:10 is 2 h 40 min", func(t *testing.T) {
		b := Batch{Food: "mash", CookedAt: at(time.October, 26, 0, 30), Air: Celsius(20)}
		v, err := Judge(b, Strictest, at(time.October, 26, 2, 10))
		require.NoError(t, err)
		assert.Equal(t, Discard, v.Kind)
	})
	t.Run("48 hours over the spring change end an hour later on the wall", func(t *testing.T) {
		b := Batch{Food: "mash", CookedAt: at(time.March, 29, 12, 0), ChilledAt: at(time.March, 29, 13, 0), Fridge: Celsius(4), Air: Celsius(20)}
		v, err := Judge(b, Strictest, at(time.March, 29, 14, 0))
		require.NoError(t, err)
		assert.Equal(t, at(time.March, 31, 13, 0), v.Until)
	})
	t.Run("the same instants in another zone", func(t *testing.T) {
		tokyo := time.FixedZone("", 9*3600)
		eachTimeline(t, 8, func(_ *rand.Rand, line timeline, a Authority) {
			want := judged(t, line, a)
			b := &line.batch
			for _, m := range []*time.Time{&b.CookedAt, &b.ChilledAt, &line.now} {
				if !m.IsZero() {
					*m = m.In(tokyo)
				}
			}
			got := judged(t, line, a)
			require.Equal(t, want.Kind, got.Kind)
			require.True(t, want.Until.Equal(got.Until))
		})
	})
}

// What a single authority allows more than the strictest is said.
func TestNarrowingIsSaid(t *testing.T) {
	b := chilledBatch()
	b.ChilledAt = time.Time{}
	v, err := Judge(b, AustraliaAndNZ, noon.Add(150*time.Minute))
	require.NoError(t, err)
	assert.Contains(t, v.Says(), "Narrowed to the rules of Australia and New Zealand. By the strictest of all: throw it out; its time ran out at 14:00.")
	v, err = Judge(chilledBatch(), AustraliaAndNZ, noon.Add(2*time.Hour))
	require.NoError(t, err)
	assert.Contains(t, v.Says(), "Narrowed to the rules of Australia and New Zealand. By the strictest of all: eat it by Mon 12:00.")
	b = chilledBatch()
	b.Out = []Spell{{From: noon.Add(2 * time.Hour)}}
	v, err = Judge(b, UnitedStates, noon.Add(3*time.Hour))
	require.NoError(t, err)
	assert.Contains(t, v.Says(), "Narrowed to the rules of the US.", "the strictest says the same")
	v, err = Judge(chilledBatch(), Strictest, noon.Add(2*time.Hour))
	require.NoError(t, err)
	for _, s := range v.Says() {
		assert.NotContains(t, s, "Narrowed")
	}
}

// Choices no source makes are told as ours.
func TestOwnChoicesAreToldAsOurs(t *testing.T) {
	b := chilledBatch()
	b.Air = Celsius(35)
	b.ChilledAt = noon.Add(30 * time.Minute)
	b.PowerOff = []Spell{{From: noon.Add(time.Hour), To: noon.Add(4 * time.Hour)}}
	b.Probes = []Probe{{noon.Add(4 * time.Hour), 4}}
	v, err := Judge(b, Strictest, noon.Add(10*time.Hour))
	require.NoError(t, err)
	var ours []string
	for _, r := range v.Reasons {
		if r.Ours {
			ours = append(ours, r.Says)
		}
	}
	assert.Len(t, ours, 4, "hot minutes, the hour of a reading, the start of life, cooling by itself: %q", ours)
	assert.False(t, slices.ContainsFunc(v.Reasons[:1], func(r Reason) bool { return r.Ours }), "the deciding reason is not ours")
}

// Every choice that keeping's rules make without a source is told as ours where it
// counts in a verdict, and nowhere else (labelled before they were first tried: the
// adding up of cuts, in the fridge and the freezer, was not told).
func TestEachChoiceOfOursIsTold(t *testing.T) {
	at := func(hours float64) time.Time { return noon.Add(time.Duration(hours * float64(time.Hour))) }
	twice := func(b *Batch) {
		b.PowerOff = []Spell{{From: at(3), To: at(4)}, {From: at(5), To: at(6)}}
	}
	for _, c := range []struct {
		name   string
		ours   string
		change func(b *Batch)
		now    float64
	}{
		{"cuts that add up", "added up", twice, 8},
		{"cuts parted by half a day", "added up", func(b *Batch) { b.PowerOff = []Spell{{From: at(3), To: at(6)}, {From: at(18.5), To: at(20)}} }, 21},
		{"cuts of more than four hours", "added up", func(b *Batch) { b.PowerOff = []Spell{{From: at(3), To: at(5.5)}, {From: at(6), To: at(8)}} }, 9},
		{"cuts of the freezer", "added up", func(b *Batch) { b.FrozenAt = at(2); twice(b) }, 8},
		{"one cut", "!added up", func(b *Batch) { b.PowerOff = []Spell{{From: at(3), To: at(4)}} }, 8},
		{"a cold reading", "within an hour", func(b *Batch) {
			b.PowerOff, b.Probes = []Spell{{From: at(3), To: at(8)}}, []Probe{{at(8.5), 4}}
		}, 9},
		{"a warm reading", "within an hour", func(b *Batch) {
			b.PowerOff, b.Probes = []Spell{{From: at(3), To: at(4)}}, []Probe{{at(4.5), 9}}
		}, 5},
		{"no reading", "!within an hour", func(b *Batch) { b.PowerOff = []Spell{{From: at(3), To: at(4)}} }, 5},
		{"very hot air", "counted as two", func(b *Batch) { b.Air, b.Out = Celsius(33), []Spell{{From: at(3), To: at(3.5)}} }, 5},
		{"packs still frozen", "Packs still partly frozen", func(b *Batch) { b.Box, b.Out = PacksFrozen, []Spell{{From: at(3), To: at(4)}} }, 5},
		{"packs melted", "packs melted", func(b *Batch) { b.Box, b.Out = PacksMelted, []Spell{{From: at(3), To: at(4)}} }, 5},
	} {
		b := chilledBatch()
		c.change(&b)
		v, err := Judge(b, Strictest, at(c.now))
		require.NoError(t, err, c.name)
		text, not := strings.CutPrefix(c.ours, "!")
		told := 0
		for _, r := range v.Reasons {
			if r.Ours && strings.Contains(r.Says, text) {
				told++
			}
		}
		assert.Equal(t, map[bool]int{true: 0, false: 1}[not], told, "%s: %q", c.name, v.Reasons)
	}
}

// A dish heated up and on the table is eaten; what is left is not put back,
// save where no limit on heating up was found.
func TestHeatedUpIsEaten(t *testing.T) {
	b := chilledBatch()
	b.HeatedUp, b.Vulnerable = true, true
	b.Out = []Spell{{From: noon.Add(6 * time.Hour)}}
	for a, keep := range map[Authority]bool{Strictest: false, UnitedKingdom: false, UnitedStates: true, AustraliaAndNZ: false} {
		v, err := Judge(b, a, noon.Add(7*time.Hour))
		require.NoError(t, err)
		assert.Equal(t, FineNow, v.Kind, a)
		assert.Equal(t, keep, !v.KeepBy.IsZero(), a)
		for _, w := range v.Warnings {
			assert.NotContains(t, w.Says, "First heat", "it has been heated")
		}
	}
}

// What the fridge holds for a vulnerable eater is heated before it is eaten,
// also when it stands out already.
func TestVulnerableEatersHeatItFirst(t *testing.T) {
	b := chilledBatch()
	b.Vulnerable = true
	b.Out = []Spell{{From: noon.Add(6 * time.Hour)}}
	v, err := Judge(b, Strictest, noon.Add(7*time.Hour))
	require.NoError(t, err)
	assert.Contains(t, v.Says(), "First heat it to 75 °C in the middle, steaming all through.")
	b.Food, b.Out = "dressed-salad-raw-egg", nil
	v, err = Judge(b, Strictest, noon.Add(2*time.Hour))
	require.NoError(t, err)
	assert.Equal(t, Discard, v.Kind, "raw egg is not for them, however fresh")
	b.Food = "dressed-salad"
	v, err = Judge(b, Strictest, noon.Add(2*time.Hour))
	require.NoError(t, err)
	assert.Equal(t, EatBy, v.Kind, "a salad cannot be heated")
	assert.Equal(t, noon.Add(24*time.Hour), v.Until)
}

// How often it may be heated up and cooled again: not once by Food Standards
// Agency (UK), Leftovers, and FSANZ, Cooling and reheating food; no limit was
// found for the US, where it is warned of.
func TestReheatings(t *testing.T) {
	cases := []struct {
		authority Authority
		reheated  int
		discard   bool
		warned    bool
	}{
		{UnitedKingdom, 0, false, false}, {UnitedKingdom, 1, true, false}, {UnitedKingdom, 2, true, false},
		{AustraliaAndNZ, 0, false, false}, {AustraliaAndNZ, 1, true, false},
		{Strictest, 0, false, false}, {Strictest, 1, true, false},
		{UnitedStates, 0, false, false}, {UnitedStates, 1, false, true}, {UnitedStates, 5, false, true},
	}
	for _, c := range cases {
		b := chilledBatch()
		b.Reheated = c.reheated
		v, err := Judge(b, c.authority, noon.Add(20*time.Hour))
		require.NoError(t, err)
		assert.Equal(t, c.discard, v.Kind == Discard, "%s, %d times", c.authority, c.reheated)
		warned := slices.ContainsFunc(v.Warnings, func(r Reason) bool { return slices.Contains(r.Rules, "uk-reheat-once") })
		assert.Equal(t, c.warned, warned, "%s, %d times", c.authority, c.reheated)
		if c.discard {
			assert.Subset(t, []string{"uk-reheat-once", "au-reheat-75"}, v.Reasons[0].Rules)
		}
	}
}

// Of a dish heated up and on the table the last heating counts already: where
// once is the limit, what is left is not put back.
func TestHeatedUpOnTheTable(t *testing.T) {
	for reheated, keep := range map[int]bool{0: false, 1: false} {
		b := chilledBatch()
		b.HeatedUp, b.Reheated = true, reheated
		b.Out = []Spell{{From: noon.Add(6 * time.Hour)}}
		v, err := Judge(b, UnitedKingdom, noon.Add(7*time.Hour))
		require.NoError(t, err)
		assert.Equal(t, keep, !v.KeepBy.IsZero())
		assert.Equal(t, reheated > 0, v.Kind == Discard)
	}
}

// A discard is never softened: each says that neither heating nor a good smell
// helps.
func TestDiscardIsNotSoftened(t *testing.T) {
	green := chilledBatch()
	green.Tubers = TubersGreen
	old := chilledBatch()
	for _, b := range []Batch{green, old} {
		v, err := Judge(b, Strictest, noon.Add(100*time.Hour))
		require.NoError(t, err)
		assert.Equal(t, Discard, v.Kind)
		assert.Subset(t, v.Rules(), []string{"reheat-no-rescue", "no-sniff-test"})
		assert.True(t, v.Until.IsZero() && v.KeepBy.IsZero())
	}
}

// A power cut: no longer put back once what it held is out too long; a fridge
// without power does not cool.
func TestPowerCuts(t *testing.T) {
	hours := func(from, to float64) []Spell {
		s := Spell{From: noon.Add(time.Duration(from * float64(time.Hour)))}
		if to != 0 {
			s.To = noon.Add(time.Duration(to * float64(time.Hour)))
		}
		return []Spell{s}
	}
	cases := []struct {
		name      string
		authority Authority
		power     []Spell
		now       float64
		want      Kind
		warned    bool
	}{
		{"under two hours nothing is said", Strictest, hours(2, 3.9), 5, EatBy, false},
		{"longer is warned of", Strictest, hours(2, 4.1), 5, EatBy, true},
		{"four hours shut count for nothing", Strictest, hours(2, 6), 7, EatBy, true},
		{"going on, it is eaten by the fourth hour", Strictest, hours(2, 0), 5.9, EatBy, true},
		{"after that it goes", Strictest, hours(2, 0), 6.1, Discard, false},
		{"in the UK too", UnitedKingdom, hours(2, 0), 6.1, Discard, false},
		{"two cuts that touch are one", Strictest, append(hours(2, 5), hours(5, 9)...), 9, Discard, false},
		{"two cuts apart add up", Strictest, append(hours(2, 5), hours(6, 9)...), 9, Discard, false},
		{"twelve hours of power start afresh", Strictest, append(hours(2, 5), hours(17, 20)...), 21, EatBy, true},
		{"put into a dead fridge it goes on cooling", Strictest, hours(0.5, 2.5), 3, Discard, false},
		{"over before it was cooked", Strictest, hours(-9, -2), 3, EatBy, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := chilledBatch()
			b.PowerOff = c.power
			v, err := Judge(b, c.authority, noon.Add(time.Duration(c.now*float64(time.Hour))))
			require.NoError(t, err)
			assert.Equal(t, c.want, v.Kind, v.Sentence)
			assert.Equal(t, c.warned, slices.Contains(v.Rules(), "power-cut-2h"), "%q", v.Says())
		})
	}
}

// A thermometer settles a power cut both ways, within the hour of its end; a
// later one only starts the next count afresh (FoodSafety.gov, Refrigerated Food
// and Power Outages; the hour is ours).
func TestReadingsSettleAPowerCut(t *testing.T) {
	at := func(hours float64) time.Time { return noon.Add(time.Duration(hours * float64(time.Hour))) }
	for _, c := range []struct {
		name  string
		power []Spell
		probe []Probe
		now   float64
		want  Kind
	}{
		{"cold when the power came back", []Spell{{From: at(2), To: at(7)}}, []Probe{{at(7.5), 5}}, 9, EatBy},
		{"a shade too warm", []Spell{{From: at(2), To: at(5)}}, []Probe{{at(5.5), 5.1}}, 9, Discard},
		{"too warm after a short cut", []Spell{{From: at(2), To: at(3.5)}}, []Probe{{at(4), 8}}, 9, EatBy},
		{"an hour and a minute late", []Spell{{From: at(2), To: at(7)}}, []Probe{{at(8.02), 3}}, 9, Discard},
		{"late, but before the next cut", []Spell{{From: at(2), To: at(5)}, {From: at(10), To: at(13)}}, []Probe{{at(8), 3}}, 14, EatBy},
		{"without it the two add up", []Spell{{From: at(2), To: at(5)}, {From: at(10), To: at(13)}}, nil, 14, Discard},
		{"cold now, with the power still off", []Spell{{From: at(2)}}, []Probe{{at(7), 3}}, 7, EatBy},
		{"and not a minute later", []Spell{{From: at(2)}}, []Probe{{at(7), 3}}, 7.02, Discard},
	} {
		b := chilledBatch()
		b.PowerOff, b.Probes = c.power, c.probe
		v, err := Judge(b, Strictest, at(c.now))
		require.NoError(t, err)
		assert.Equal(t, c.want, v.Kind, "%s: %s", c.name, v.Sentence)
	}
}

// A freezer holds 48 h full, 24 h half full (FoodSafety.gov, Food Safety During
// Power Outage); beyond, ice or a reading decides (Frozen Food and Power Outages).
func TestFreezerWithoutPower(t *testing.T) {
	at := func(hours float64) time.Time { return noon.Add(time.Duration(hours * float64(time.Hour))) }
	for _, c := range []struct {
		name    string
		hours   float64
		fill    Fill
		ice     bool
		probe   []Probe
		a       Authority
		want    Kind
		missing Fact
	}{
		{"a day, half full", 24, FillHalf, false, nil, Strictest, FineNow, ""},
		{"a minute more", 24.02, FillHalf, false, nil, Strictest, Unknown, FactProbe},
		{"a minute more, nobody knows how full", 24.02, "", false, nil, Strictest, Unknown, FactFreezer},
		{"two days, full", 48, FillFull, false, nil, Strictest, FineNow, ""},
		{"two days and a minute, full", 48.02, FillFull, false, nil, Strictest, Unknown, FactProbe},
		{"two days and a minute, nobody knows", 48.02, "", false, nil, Strictest, Unknown, FactProbe},
		{"ice in it", 30, FillHalf, true, nil, Strictest, FineNow, ""},
		{"cold in it", 30, FillHalf, false, []Probe{{at(130), 4.4}}, Strictest, FineNow, ""},
		{"too warm", 30, FillHalf, false, []Probe{{at(130), 4.5}}, Strictest, Discard, ""},
		{"too warm, with ice beside it", 30, FillHalf, true, []Probe{{at(130), 4.5}}, Strictest, Discard, ""},
		{"two days later the ice is no help", 72, FillHalf, true, nil, Strictest, Discard, ""},
		{"in the US it freezes again", 72, FillHalf, true, nil, UnitedStates, FineNow, ""},
	} {
		b := chilledBatch()
		b.FrozenAt, b.PowerOff = at(3), []Spell{{From: at(100), To: at(100 + c.hours)}}
		b.Freezer, b.Ice, b.Probes = c.fill, c.ice, c.probe
		v, err := Judge(b, c.a, at(101+c.hours))
		require.NoError(t, err)
		assert.Equal(t, c.want, v.Kind, "%s: %s", c.name, v.Sentence)
		assert.Equal(t, c.missing, v.Missing, c.name)
	}
}

// Of two spells that contradict each other, one with an end and one still going
// on, the end is believed: it was put back then. Else a longer spell, touching
// the one that goes on, would count for less.
func TestAnEndIsBelieved(t *testing.T) {
	b := chilledBatch()
	b.Out = []Spell{{From: noon.Add(2 * time.Hour), To: noon.Add(270 * time.Minute)}, {From: noon.Add(2 * time.Hour)}}
	v, err := Judge(b, UnitedKingdom, noon.Add(5*time.Hour))
	require.NoError(t, err)
	assert.Equal(t, Discard, v.Kind, "put back after 2 h 30 min")
}

// Time out of the fridge counts as such though the fridge was dead when it
// went in: a longer power cut does not turn it into cooling.
func TestOutWhileThePowerIsOff(t *testing.T) {
	b := chilledBatch()
	b.PowerOff = []Spell{{From: noon.Add(50 * time.Minute), To: noon.Add(80 * time.Minute)}}
	b.Out = []Spell{{From: noon.Add(70 * time.Minute), To: noon.Add(195 * time.Minute)}}
	v, err := Judge(b, Strictest, noon.Add(4*time.Hour))
	require.NoError(t, err)
	assert.Equal(t, Discard, v.Kind, v.Sentence)
}

// A discard is told with the moment it became one.
func TestDiscardTellsSince(t *testing.T) {
	b := chilledBatch()
	b.Out = []Spell{{From: noon.Add(3 * time.Hour), To: noon.Add(4 * time.Hour)}, {From: noon.Add(5 * time.Hour), To: noon.Add(7 * time.Hour), Air: Celsius(35)}}
	v, err := Judge(b, Strictest, noon.Add(9*time.Hour))
	require.NoError(t, err)
	assert.Equal(t, Discard, v.Kind)
	assert.Equal(t, noon.Add(5*time.Hour+30*time.Minute), v.Since, "an hour, and half an hour that counts as one")
	assert.True(t, v.Until.IsZero())
	assert.Contains(t, v.Rules(), "us-ambient-1h-90f")
}
