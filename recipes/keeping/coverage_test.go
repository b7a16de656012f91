package keeping

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every rule is reached: some verdict, guidance, plan note or standing note
// rests on it. Which part reaches it is the part that would miss it.
func TestEveryRuleIsReached(t *testing.T) {
	reached := map[string]bool{}
	reach := func(ids []string) {
		for _, id := range ids {
			reached[id] = true
		}
	}
	for _, id := range FoodIDs() {
		g, err := Guide(id)
		require.NoError(t, err)
		reach(g.Rules())
	}
	for _, n := range StandingNotes() {
		reach(n.Rules)
	}
	for _, r := range Rules() {
		assert.True(t, reached[r.ID], "no guidance reaches %s", r.ID)
	}
}

// The rules that decide are each reached by a verdict of their own.
func TestEveryDecidingRuleIsReachedByAVerdict(t *testing.T) {
	reached := map[string]bool{}
	r := rand.New(rand.NewPCG(11, 6))
	for range 3000 {
		line := randomTimeline(r)
		if line.batch.Check(line.now) != nil {
			continue
		}
		for _, a := range append(Authorities(), Strictest) {
			for _, id := range judged(t, line, a).Rules() {
				reached[id] = true
			}
		}
	}
	for _, a := range Authorities() {
		l := LimitsOf(a)
		for _, ids := range [][]string{
			l.Hot.Rules, l.HotAim.Rules, l.Cooling.Rules, l.CoolingAim.Rules, l.Back.Rules, l.Eat.Rules, l.HotAir.Rules,
			l.Fridge.Rules, l.FridgeAim.Rules, l.Life.Rules, l.LifeAim.Rules, l.LifeVulnerable.Rules, l.Thawed.Rules,
			l.Reheatings.Rules, l.Reheat.Rules, l.PowerShut.Rules, l.PowerCheck.Rules,
		} {
			for _, id := range ids {
				assert.True(t, reached[id], "no verdict reaches %s", id)
			}
		}
	}
	for _, id := range []string{"freezer-18c", "freeze-clock-stops", "foil-potato", "garlic-oil-4d", "raw-egg-24h", "raw-egg-lion",
		"mayo-no-shield", "mix-oldest-ingredient", "cool-measured-5cm-fridge-fails", "tcs-cooked-potato", "haz-botulinum", "uk-rice-1h-24h"} {
		assert.True(t, reached[id], "no verdict reaches %s", id)
	}
}

// What decides was read in its source, not recalled: no verdict rests on a
// figure from memory or habit alone.
func TestDecidingFiguresWereRead(t *testing.T) {
	var ids []string
	for _, a := range Authorities() {
		l := LimitsOf(a)
		ids = joined(ids, l.Hot.Rules, l.Cooling.Rules, l.Back.Rules, l.Eat.Rules, l.HotAir.Rules, l.Fridge.Rules, l.Life.Rules,
			l.LifeVulnerable.Rules, l.Thawed.Rules, l.Reheatings.Rules, l.Reheat.Rules, l.PowerShut.Rules, l.PowerOut.Rules)
	}
	for _, f := range library().foods {
		ids = joined(ids, f.life.Rules, f.out.Rules, f.fridge.Rules)
	}
	require.Greater(t, len(ids), 20)
	for _, id := range ids {
		rule, ok := LookupRule(id)
		require.True(t, ok, id)
		assert.Equal(t, "read", rule.KnownBy, id)
	}
}

// The strictest column, written out by hand from the published figures: UK
// 63 °C, US and FSANZ 2 h and 5 °C, FSA 48 h, FSANZ 24 h and 75 °C.
func TestStrictestLimits(t *testing.T) {
	l := LimitsOf(Strictest)
	assert.Equal(t, 63.0, l.Hot.C)
	assert.Equal(t, 2*time.Hour, l.Cooling.Most)
	assert.Equal(t, 90*time.Minute, l.CoolingAim.Most)
	assert.Equal(t, 2*time.Hour, l.Back.Most)
	assert.True(t, l.Back.Under)
	assert.Equal(t, 2*time.Hour, l.Eat.Most)
	assert.Equal(t, 32.2, l.HotAir.C)
	assert.Equal(t, 5.0, l.Fridge.C)
	assert.Equal(t, 4.4, l.FridgeAim.C)
	assert.Equal(t, 48*time.Hour, l.Life.Most)
	assert.Equal(t, 24*time.Hour, l.LifeVulnerable.Most)
	assert.Equal(t, 24*time.Hour, l.Thawed.Most)
	assert.Equal(t, 1, l.Reheatings.Most)
	assert.Equal(t, 75.0, l.Reheat.C)
	assert.Len(t, l.Stages, 2)
	assert.Equal(t, l, LimitsOf(""), "no authority named is the strictest")
}

func TestFoodsByOtherNames(t *testing.T) {
	for name, id := range map[string]string{
		"potato salad": "dressed-salad", "Potato Salad": "dressed-salad", "potato-salad": "dressed-salad", "salads": "dressed-salad",
		"mashed potatoes": "mash", "steamed potato": "boiled-potatoes", "potato": "potatoes", "Potatoes": "potatoes",
		"foil potatoes": "baked-in-foil", "baked potato": "baked-in-foil", "garlic in oil": "garlic-oil", "herb butter": "herb-butter",
		"beetroot": "cooked-vegetables", "carrot": "cooked-vegetables", "purée": "mash", "ramsons": "wild-garlic", "marsh marigold": "edible-flowers",
	} {
		food, err := LookupFood(name)
		require.NoError(t, err, name)
		assert.Equal(t, id, food.ID, name)
	}
	for _, name := range []string{"", "pizza", "potato salad surprise"} {
		_, err := LookupFood(name)
		var wrong *InputError
		require.ErrorAs(t, err, &wrong)
		assert.Contains(t, wrong.Hint(), "boiled-potatoes")
	}
}

func TestGuidanceIsWhole(t *testing.T) {
	for _, id := range FoodIDs() {
		g, err := Guide(id)
		require.NoError(t, err)
		assert.NotEmpty(t, g.Short, id)
		assert.NotContains(t, g.Short, "{")
		assert.Equal(t, Cautions(false), g.Cautions)
		for _, s := range g.Sections {
			assert.NotEmpty(t, s.Name)
			for _, line := range s.Lines {
				assert.NotEmpty(t, line.Rules, line.Says)
				assert.NotContains(t, line.Says, "{", "a figure not filled in")
			}
		}
	}
}

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

// Input that cannot be is an error that names the fact; a fact that decides
// and is missing is the verdict unknown, naming it.
func TestBadInput(t *testing.T) {
	now := noon.Add(30 * time.Hour)
	change := func(f func(b *Batch)) Batch { b := chilledBatch(); f(&b); return b }
	cases := []struct {
		name  string
		batch Batch
		fact  Fact
	}{
		{"chilled before it was cooked", change(func(b *Batch) { b.ChilledAt = noon.Add(-time.Minute) }), FactChilled},
		{"frozen before it was chilled", change(func(b *Batch) { b.FrozenAt = noon.Add(time.Minute) }), FactFrozen},
		{"thawed before it was frozen", change(func(b *Batch) { b.FrozenAt, b.ThawedAt = noon.Add(5*time.Hour), noon.Add(4*time.Hour) }), FactThawed},
		{"kept hot until before it was cooked", change(func(b *Batch) { b.HotAt, b.HotUntil = Celsius(70), noon.Add(-time.Hour) }), FactHotUntil},
		{"cooked in the future", change(func(b *Batch) { b.CookedAt = now.Add(time.Second) }), FactCooked},
		{"chilled in the future", change(func(b *Batch) { b.ChilledAt = now.Add(time.Hour) }), FactChilled},
		{"out in the future", change(func(b *Batch) { b.Out = []Spell{{From: now.Add(time.Hour)}} }), FactOut},
		{"a negative spell", change(func(b *Batch) { b.Out = []Spell{{From: noon.Add(4 * time.Hour), To: noon.Add(3 * time.Hour)}} }), FactOut},
		{"a spell with no beginning", change(func(b *Batch) { b.Out = []Spell{{To: noon.Add(3 * time.Hour)}} }), FactOut},
		{"out before it was in the fridge", change(func(b *Batch) { b.Out = []Spell{{From: noon.Add(30 * time.Minute)}} }), FactOut},
		{"a negative power cut", change(func(b *Batch) { b.PowerOff = []Spell{{From: noon.Add(4 * time.Hour), To: noon}} }), FactPower},
		{"a fridge at 15 °C", change(func(b *Batch) { b.Fridge = Celsius(15) }), FactFridge},
		{"a fridge as cold as a freezer", change(func(b *Batch) { b.Fridge = Celsius(-18) }), FactFridge},
		{"air of 90 °C", change(func(b *Batch) { b.Air = Celsius(90) }), FactAir},
		{"air of 90 °C in a spell", change(func(b *Batch) { b.Out = []Spell{{From: noon.Add(4 * time.Hour), Air: Celsius(90)}} }), FactAir},
		{"kept hot at 650 °C", change(func(b *Batch) { b.HotAt = Celsius(650) }), FactHotAt},
		{"reheated minus once", change(func(b *Batch) { b.Reheated = -1 }), FactReheated},
		{"purple tubers", change(func(b *Batch) { b.Tubers = "purple" }), FactTubers},
		{"an unknown food", change(func(b *Batch) { b.Food = "pizza" }), FactFood},
		{"raw potatoes are no batch", change(func(b *Batch) { b.Food = "potatoes" }), FactFood},
		{"a probe before cooking", change(func(b *Batch) { b.Probes = []Probe{{noon.Add(-time.Hour), 60}} }), FactProbe},
		{"a probe in the future", change(func(b *Batch) { b.Probes = []Probe{{now.Add(time.Hour), 60}} }), FactProbe},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := Judge(c.batch, Strictest, now)
			var wrong *InputError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, c.fact, wrong.Fact, wrong.Error())
			assert.NotEmpty(t, wrong.Accepted)
		})
	}
	_, err := Judge(chilledBatch(), "eu", now)
	require.ErrorContains(t, err, "authority")
	_, err = Judge(chilledBatch(), Strictest, time.Time{})
	require.ErrorContains(t, err, "now")
}

func TestMissingFactsAreNamed(t *testing.T) {
	now := noon.Add(30 * time.Hour)
	change := func(f func(b *Batch)) Batch { b := chilledBatch(); f(&b); return b }
	cases := []struct {
		name  string
		batch Batch
		fact  Fact
	}{
		{"no food", change(func(b *Batch) { b.Food = "" }), FactFood},
		{"not when it was cooked", change(func(b *Batch) { b.CookedAt = time.Time{} }), FactCooked},
		{"thawed, but not when frozen", change(func(b *Batch) { b.ThawedAt = now }), FactFrozen},
		{"kept hot, but not how hot", change(func(b *Batch) { b.HotUntil = noon.Add(time.Minute) }), FactHotAt},
		{"kept hot and chilled, but not until when hot", change(func(b *Batch) { b.HotAt = Celsius(70) }), FactHotUntil},
		{"out of the fridge, but not when in it", change(func(b *Batch) { b.ChilledAt, b.Out = time.Time{}, []Spell{{From: noon.Add(time.Hour)}} }), FactChilled},
		{"frozen, but not when chilled", change(func(b *Batch) { b.ChilledAt, b.FrozenAt = time.Time{}, noon.Add(time.Hour) }), FactChilled},
		{"heated up, but not when chilled", change(func(b *Batch) { b.ChilledAt, b.HeatedUp = time.Time{}, true }), FactChilled},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			v, err := Judge(c.batch, Strictest, now)
			require.NoError(t, err)
			assert.Equal(t, Unknown, v.Kind, v.Head)
			assert.Equal(t, c.fact, v.Missing)
			assert.Contains(t, v.Head, string(c.fact))
			assert.Equal(t, []string{"no-sniff-test"}, v.Rules())
		})
	}
	v, err := Judge(Batch{Tubers: TubersBitter}, Strictest, now)
	require.NoError(t, err)
	assert.Equal(t, Discard, v.Kind, "bitter tubers need no further fact")
}

// What a single authority allows more than the strictest is said.
func TestNarrowingIsSaid(t *testing.T) {
	b := chilledBatch()
	b.ChilledAt = time.Time{}
	v, err := Judge(b, UnitedKingdom, noon.Add(150*time.Minute))
	require.NoError(t, err)
	assert.Contains(t, v.Says(), "Narrowed to the rules of the UK. By the strictest of all: throw it out; its time ran out at 14:00.")
	v, err = Judge(chilledBatch(), AustraliaAndNZ, noon.Add(2*time.Hour))
	require.NoError(t, err)
	assert.Contains(t, v.Says(), "Narrowed to the rules of Australia and New Zealand. By the strictest of all: eat it by Mon 12:00.")
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
	b.PowerOff = []Spell{{From: noon.Add(time.Hour), To: noon.Add(6 * time.Hour)}}
	v, err := Judge(b, Strictest, noon.Add(10*time.Hour))
	require.NoError(t, err)
	var ours []string
	for _, r := range v.Reasons {
		if r.Ours {
			ours = append(ours, r.Says)
		}
	}
	assert.Len(t, ours, 4, "hot minutes, the power cut, the start of life, cooling by itself: %q", ours)
	assert.False(t, slices.ContainsFunc(v.Reasons[:1], func(r Reason) bool { return r.Ours }), "the deciding reason is not ours")
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
		{"two hours are trusted", Strictest, hours(2, 4), 5, EatBy, false},
		{"longer asks for a check", Strictest, hours(2, 4.1), 5, EatBy, true},
		{"four hours shut count for nothing", Strictest, hours(2, 6), 7, EatBy, true},
		{"in the sixth hour it is out", Strictest, hours(2, 0), 7.5, FineNow, true},
		{"after it, it goes", Strictest, hours(2, 0), 8.1, Discard, true},
		{"no four-hour window in the UK either", UnitedKingdom, hours(2, 0), 8.1, Discard, true},
		{"two cuts that touch are one", Strictest, append(hours(2, 5), hours(5, 9)...), 9, Discard, true},
		{"two cuts apart are two", Strictest, append(hours(2, 5), hours(5.1, 9)...), 9, EatBy, true},
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

// In hot air a dead fridge warms twice as fast as the rule reckons.
func TestPowerCutInHotAir(t *testing.T) {
	b := chilledBatch()
	b.Air, b.ChilledAt = Celsius(35), noon.Add(30*time.Minute)
	b.PowerOff = []Spell{{From: noon.Add(2 * time.Hour)}}
	for minutes, want := range map[int]Kind{419: FineNow, 420: FineNow, 421: Discard} {
		v, err := Judge(b, UnitedStates, noon.Add(time.Duration(minutes)*time.Minute))
		require.NoError(t, err)
		assert.Equal(t, want, v.Kind, minutes)
	}
}

// A spell told twice, once with its end and once without, is still going on.
func TestSpellToldTwiceIsOne(t *testing.T) {
	b := chilledBatch()
	b.Out = []Spell{{From: noon.Add(2 * time.Hour), To: noon.Add(270 * time.Minute)}, {From: noon.Add(2 * time.Hour)}}
	v, err := Judge(b, UnitedKingdom, noon.Add(5*time.Hour))
	require.NoError(t, err)
	assert.Equal(t, FineNow, v.Kind, "not put back after 2 h 30 min")
	assert.Equal(t, noon.Add(6*time.Hour), v.Until)
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
