package keeping

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var noon = time.Date(2031, 7, 12, 12, 0, 0, 0, time.UTC)

// chilledBatch was cooked at noon and in the fridge an hour later.
func chilledBatch() Batch {
	return Batch{Food: "boiled-potatoes", CookedAt: noon, ChilledAt: noon.Add(time.Hour), Fridge: Celsius(4), Air: Celsius(20)}
}

const (
	fsaChill   = "Food Standards Agency (UK), How to chill, freeze and defrost food safely"
	fssStoring = "Food Standards Scotland, Storing food"
	niPicnic   = "NI Direct, Barbecue and picnic food safety advice, 2018"
	fsis       = "USDA FSIS, Leftovers and Food Safety"
	fsanz2h4h  = "FSANZ, 2-hour / 4-hour rule, 2019; at 4 h 00 the NSW summary"
	fsanzCool  = "FSANZ Standard 3.2.2, clause 7(3)"
	foodCode   = "US FDA, Food Code 2022"
)

// span is a case of a limit of time: at the limit and a minute to either side.
func TestLimitsOfTime(t *testing.T) {
	cooling := func(d time.Duration) (Batch, time.Time) {
		b := chilledBatch()
		b.ChilledAt = noon.Add(d)
		return b, noon.Add(5 * time.Hour)
	}
	putBack := func(d time.Duration) (Batch, time.Time) {
		b := chilledBatch()
		b.Out = []Spell{{From: noon.Add(2 * time.Hour), To: noon.Add(2 * time.Hour).Add(d)}}
		return b, noon.Add(12 * time.Hour)
	}
	stillOut := func(d time.Duration) (Batch, time.Time) {
		b := chilledBatch()
		b.Out = []Spell{{From: noon.Add(2 * time.Hour)}}
		return b, noon.Add(2 * time.Hour).Add(d)
	}
	neverChilled := func(d time.Duration) (Batch, time.Time) {
		b := chilledBatch()
		b.ChilledAt = time.Time{}
		return b, noon.Add(d)
	}
	life := func(d time.Duration) (Batch, time.Time) { return chilledBatch(), noon.Add(d) }
	of := func(food string) func(time.Duration) (Batch, time.Time) {
		return func(d time.Duration) (Batch, time.Time) {
			b := chilledBatch()
			b.Food = food
			return b, noon.Add(d)
		}
	}
	vulnerable := func(d time.Duration) (Batch, time.Time) {
		b := chilledBatch()
		b.Vulnerable = true
		return b, noon.Add(d)
	}
	oilFor := func(d time.Duration) (Batch, time.Time) {
		b, now := of("garlic-oil")(d)
		b.Vulnerable = true
		return b, now
	}
	thawed := func(d time.Duration) (Batch, time.Time) {
		b := chilledBatch()
		b.FrozenAt, b.ThawedAt = noon.Add(2*time.Hour), noon.Add(100*time.Hour)
		return b, noon.Add(100 * time.Hour).Add(d)
	}
	powerOut := func(d time.Duration) (Batch, time.Time) {
		b := chilledBatch()
		b.PowerOff = []Spell{{From: noon.Add(2 * time.Hour), To: noon.Add(2 * time.Hour).Add(d)}}
		return b, noon.Add(20 * time.Hour)
	}
	frozen := func(d time.Duration) (Batch, time.Time) {
		b := chilledBatch()
		b.FrozenAt = noon.Add(d)
		return b, noon.Add(1000 * time.Hour)
	}
	cases := []struct {
		name      string
		source    string
		authority Authority
		history   func(time.Duration) (Batch, time.Time)
		limit     time.Duration
		under     bool // the limit itself is already too long
		rule      string
	}{
		{"cooling", fsaChill, UnitedKingdom, cooling, 2 * time.Hour, false, "uk-cool-home-2h"},
		{"cooling", fsis, UnitedStates, cooling, 2 * time.Hour, false, "us-cool-home-2h"},
		{"cooling", fsanzCool, AustraliaAndNZ, cooling, 2 * time.Hour, false, "au-cool-two-stage"},
		{"cooling", "the strictest of the three", Strictest, cooling, 2 * time.Hour, false, "us-ambient-2h"},
		{"put back", niPicnic, UnitedKingdom, putBack, 2 * time.Hour, false, "uk-picnic-2h"},
		{"put back", fsis, UnitedStates, putBack, 2 * time.Hour, false, "us-ambient-2h"},
		{"put back", fsanz2h4h, AustraliaAndNZ, putBack, 2 * time.Hour, true, "au-2h4h"},
		{"put back", "the strictest of the three", Strictest, putBack, 2 * time.Hour, true, "au-2h4h"},
		{"still out", fssStoring, UnitedKingdom, stillOut, 4 * time.Hour, false, "uk-party-4h"},
		{"still out", fsis, UnitedStates, stillOut, 2 * time.Hour, false, "us-ambient-2h"},
		{"still out", fsanz2h4h, AustraliaAndNZ, stillOut, 4 * time.Hour, true, "au-2h4h"},
		{"still out", "the strictest of the three", Strictest, stillOut, 2 * time.Hour, false, "us-ambient-2h"},
		{"never chilled", "UK Food Hygiene Regulations, Schedule 4, paragraph 7(2)", UnitedKingdom, neverChilled, 2 * time.Hour, false, "uk-hot-2h-once"},
		{"never chilled", fsis, UnitedStates, neverChilled, 2 * time.Hour, false, "us-ambient-2h"},
		{"never chilled", fsanz2h4h, AustraliaAndNZ, neverChilled, 4 * time.Hour, true, "au-2h4h"},
		{"life", "Food Standards Agency (UK), leftovers advice as given by a council, 2023", UnitedKingdom, life, 48 * time.Hour, false, "uk-leftovers-48h"},
		{"life", fsis, UnitedStates, life, 96 * time.Hour, false, "us-leftovers-4d"},
		{"life", "FSANZ, Clostridium perfringens, 2024", AustraliaAndNZ, life, 96 * time.Hour, false, "au-leftovers-4d"},
		{"life", "the strictest of the three", Strictest, life, 48 * time.Hour, false, "uk-leftovers-48h"},
		{"vulnerable", "the UK has no shorter figure", UnitedKingdom, vulnerable, 48 * time.Hour, false, "uk-leftovers-48h"},
		{"vulnerable", "the US has no shorter figure", UnitedStates, vulnerable, 96 * time.Hour, false, "us-leftovers-4d"},
		{"vulnerable", "FSANZ, Listeria", AustraliaAndNZ, vulnerable, 24 * time.Hour, false, "au-vulnerable-24h"},
		{"vulnerable", "FSANZ, Listeria", Strictest, vulnerable, 24 * time.Hour, false, "au-vulnerable-24h"},
		{"raw egg", "Department of Health, Western Australia, Eggs", Strictest, of("dressed-salad-raw-egg"), 24 * time.Hour, false, "raw-egg-24h"},
		{"raw egg", "Department of Health, Western Australia, Eggs", UnitedKingdom, of("dressed-salad-raw-egg"), 24 * time.Hour, false, "raw-egg-24h"},
		{"rice", "Food Standards Agency (UK), Home food fact checker", UnitedStates, of("rice"), 24 * time.Hour, false, "uk-rice-1h-24h"},
		{"garlic oil", "National Center for Home Food Preservation (US), 2015", Strictest, of("garlic-oil"), 96 * time.Hour, false, "garlic-oil-4d"},
		{"garlic oil", "National Center for Home Food Preservation (US), 2015", UnitedKingdom, of("garlic-oil"), 96 * time.Hour, false, "garlic-oil-4d"},
		{"garlic oil for the vulnerable", "FSANZ, Listeria, kept under every authority", UnitedKingdom, oilFor, 24 * time.Hour, false, "au-vulnerable-24h"},
		{"garlic oil for the vulnerable", "FSANZ, Listeria", Strictest, oilFor, 24 * time.Hour, false, "au-vulnerable-24h"},
		{"thawed", "Food Standards Agency (UK), Food Safety Week 2012", UnitedKingdom, thawed, 24 * time.Hour, false, "thaw-24h"},
		{"thawed", "what was left, Minnesota Department of Agriculture", UnitedStates, thawed, 94 * time.Hour, false, "freeze-clock-stops"},
		{"frozen", "Minnesota Department of Agriculture, Cold holding food", Strictest, frozen, 48 * time.Hour, false, "freeze-clock-stops"},
		{"power cut", "FoodSafety.gov, Food Safety During Power Outage", UnitedStates, powerOut, 4 * time.Hour, false, "power-cut-4h"},
		{"power cut", "FoodSafety.gov, Food Safety During Power Outage", Strictest, powerOut, 4 * time.Hour, false, "power-cut-4h"},
		{"thawed", "Food Standards Agency (UK), Food Safety Week 2012; NSW Food Authority, Leftovers", AustraliaAndNZ, thawed, 24 * time.Hour, false, "thaw-24h"},
		{"a cold salad", "New Zealand Food Safety, Food safety at home, 2025", AustraliaAndNZ, of("dressed-salad"), 48 * time.Hour, false, "nz-cold-2d"},
		{"pesto", "National Center for Home Food Preservation (US), Freezing: Pesto", UnitedStates, of("pesto"), 72 * time.Hour, false, "pesto-3d"},
		{"herb oil", "National Center for Home Food Preservation (US), FAQ", AustraliaAndNZ, of("herb-oil"), 72 * time.Hour, false, "herb-oil-3d"},
		{"leaves", "New Zealand Food Safety, Food safety at home: as soon as can be", Strictest, of("leaf-salad"), 24 * time.Hour, false, "leaf-salad-soon"},
		{"boiled eggs", "FoodSafety.gov, Cold Food Storage Chart", UnitedStates, of("boiled-egg"), 168 * time.Hour, false, "egg-hard-boiled-us"},
		{"boiled eggs", "NHS, Eggs", UnitedKingdom, of("boiled-egg"), 48 * time.Hour, false, "egg-dish-2d"},
		{"no rule knows it", "a choice of ours", UnitedStates, of("anything-else"), 24 * time.Hour, false, "anything-else"},
		{"a jar of jam", "a choice of ours", Strictest, of("jam"), 672 * time.Hour, false, "jam-mould"},
	}
	for _, c := range cases {
		t.Run(fmt.Sprintf("%s by %s", c.name, c.authority), func(t *testing.T) {
			for _, past := range []time.Duration{-time.Minute, 0, time.Minute} {
				batch, now := c.history(c.limit + past)
				v, err := Judge(batch, c.authority, now)
				require.NoError(t, err)
				failed := past > 0 || past == 0 && c.under
				assert.Equal(t, failed, v.Kind == Discard, "%s past the limit, by %s: %s %s", past, c.source, v.Kind, v.Sentence)
				if failed {
					assert.Contains(t, v.Rules(), c.rule)
				}
			}
		})
	}
}

// A figure of temperature, at its limit and a tenth of a degree to either side.
func TestLimitsOfTemperature(t *testing.T) {
	hot := func(c float64) (Batch, time.Time) {
		b := Batch{Food: "mash", CookedAt: noon, HotAt: Celsius(c), HotUntil: noon.Add(5 * time.Hour), Air: Celsius(20)}
		return b, noon.Add(6 * time.Hour)
	}
	fridge := func(c float64) (Batch, time.Time) {
		b := chilledBatch()
		b.Fridge = Celsius(c)
		return b, noon.Add(20 * time.Hour)
	}
	oil := func(c float64) (Batch, time.Time) {
		b, now := fridge(c)
		b.Food = "garlic-oil"
		return b, now
	}
	air := func(c float64) (Batch, time.Time) {
		b := chilledBatch()
		b.Air, b.ChilledAt = Celsius(c), noon.Add(61*time.Minute)
		return b, noon.Add(2 * time.Hour)
	}
	coolBox := func(c float64) (Batch, time.Time) {
		b := chilledBatch()
		b.Out = []Spell{{From: noon.Add(2 * time.Hour), To: noon.Add(9 * time.Hour), Air: Celsius(c)}}
		return b, noon.Add(10 * time.Hour)
	}
	const above, below = +0.1, -0.1
	cases := []struct {
		name      string
		source    string
		authority Authority
		history   func(c float64) (Batch, time.Time)
		limit     float64
		fails     float64 // on which side
		rule      string
	}{
		{"kept hot", "SI 2006/31 W.5, Schedule 4, paragraph 6", UnitedKingdom, hot, 63, below, "uk-hot-63"},
		{"kept hot", foodCode + " 3-501.16(A)(1)", UnitedStates, hot, 57, below, "us-hot-57"},
		{"kept hot", "NSW Food Authority, Temperature control", AustraliaAndNZ, hot, 60, below, "au-hot-60"},
		{"kept hot", "the strictest of the three", Strictest, hot, 63, below, "uk-hot-63"},
		{"fridge", "SI 2013/2996, Schedule 4, paragraph 2(1)", UnitedKingdom, fridge, 8, above, "uk-chill-law-8c"},
		{"fridge", foodCode + " 3-501.16(A)(2)", UnitedStates, fridge, 5, above, "us-chill-5c"},
		{"fridge", "NSW Food Authority, Temperature control", AustraliaAndNZ, fridge, 5, above, "au-chill-5c"},
		{"fridge", "the strictest of the three", Strictest, fridge, 5, above, "au-chill-5c"},
		{"oil in the fridge", "National Center for Home Food Preservation (US), 2015", UnitedKingdom, oil, 4.4, above, "garlic-oil-4d"},
		{"hot air", fsis, UnitedStates, air, 32.2, above, "us-ambient-1h-90f"},
		{"hot air", fsis, Strictest, air, 32.2, above, "us-ambient-1h-90f"},
		{"cool box", "NI Direct, Barbecue and picnic food safety advice", Strictest, coolBox, 5, above, "au-2h4h"},
		{"cool box", "Food Standards Agency (UK), Keeping food safe on a picnic", UnitedKingdom, coolBox, 8, above, "uk-picnic-2h"},
	}
	for _, c := range cases {
		t.Run(fmt.Sprintf("%s by %s", c.name, c.authority), func(t *testing.T) {
			for _, past := range []float64{below, 0, above} {
				batch, now := c.history(c.limit + past)
				v, err := Judge(batch, c.authority, now)
				require.NoError(t, err)
				failed := past == c.fails
				got := v.Kind == Discard || v.Kind == FineNow && v.KeepBy.IsZero()
				assert.Equal(t, failed, got, "%+.1f past %g °C, by %s: %s %s", past, c.limit, c.source, v.Kind, v.Sentence)
				if failed {
					assert.Contains(t, v.Rules(), c.rule)
				}
			}
		})
	}
}

// The two stages of cooling by probe: US FDA Food Code 2022, 3-501.14(A) (57 to
// 21 °C in 2 h, to 5 °C in 6 h in all) and FSANZ Standard 3.2.2, clause 7(3)
// (60 to 21 °C in 2 h, to 5 °C in 4 h more).
func TestTwoStageCooling(t *testing.T) {
	type reading struct {
		minutes int
		c       float64
	}
	cases := []struct {
		name      string
		authority Authority
		readings  []reading
		broken    bool
	}{
		{"21 °C at two hours", UnitedStates, []reading{{120, 21}}, false},
		{"a tenth above at two hours", UnitedStates, []reading{{120, 21.1}}, true},
		{"well above before two hours", UnitedStates, []reading{{119, 40}}, false},
		{"still at 57 °C ten minutes on, the clock starts there", UnitedStates, []reading{{10, 57}, {129, 21.1}}, false},
		{"and ends two hours later", UnitedStates, []reading{{10, 57}, {130, 21.1}}, true},
		{"just below 57 °C it has started", UnitedStates, []reading{{10, 56.9}, {129, 21.1}}, true},
		{"5 °C at six hours", UnitedStates, []reading{{110, 20}, {360, 5}}, false},
		{"a tenth above at six hours", UnitedStates, []reading{{110, 20}, {360, 5.1}}, true},
		{"a tenth above before six hours", UnitedStates, []reading{{110, 20}, {359, 5.1}}, false},
		{"60 °C starts the Australian clock", AustraliaAndNZ, []reading{{10, 60}, {130, 21}}, false},
		{"and a tenth above breaks it", AustraliaAndNZ, []reading{{10, 60}, {130, 21.1}}, true},
		{"57 °C does not start it", AustraliaAndNZ, []reading{{10, 57}, {120, 21.1}}, true},
		{"four hours more from 21 °C", AustraliaAndNZ, []reading{{60, 21}, {299, 5.1}}, false},
		{"four hours more from 21 °C, not from a reading above it", AustraliaAndNZ, []reading{{60, 30}, {119, 21}, {300, 5.1}}, false},
		{"four hours more are over", AustraliaAndNZ, []reading{{60, 21}, {300, 5.1}}, true},
		{"5 °C in time", AustraliaAndNZ, []reading{{60, 21}, {300, 5}}, false},
		{"the strictest takes both: the US start", Strictest, []reading{{10, 58}, {120, 21.1}}, true},
		{"the strictest takes both: the Australian second stage", Strictest, []reading{{60, 21}, {300, 5.1}}, true},
		{"the UK has no stages", UnitedKingdom, []reading{{120, 60}, {600, 30}}, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := chilledBatch()
			for _, r := range c.readings {
				b.Probes = append(b.Probes, Probe{At: noon.Add(time.Duration(r.minutes) * time.Minute), C: r.c})
			}
			v, err := Judge(b, c.authority, noon.Add(11*time.Hour))
			require.NoError(t, err)
			assert.Equal(t, c.broken, v.Kind == Discard, v.Sentence)
		})
	}
}

// The arithmetic of the two-point method (Journal of Environmental Health,
// March 2022): by the code, 57 to 21 °C in 2 h in surroundings of 3 °C needs a
// rate of 0.24 per hour, and so do 57 to 5 °C in 6 h (computed).
func TestTwoPointRate(t *testing.T) {
	first := coolingRate(Probe{noon, 57}, Probe{noon.Add(2 * time.Hour), 21}, 3)
	whole := coolingRate(Probe{noon, 57}, Probe{noon.Add(6 * time.Hour), 5}, 3)
	assert.InDelta(t, 0.24, first, 0.005)
	assert.InDelta(t, 0.24, whole, 0.005)
	at, ok := coolTo(21, Probe{noon, 57}, Probe{noon.Add(time.Hour), 3 + 54*0.5773502691896258}, 3)
	assert.True(t, ok)
	assert.WithinDuration(t, noon.Add(2*time.Hour), at, time.Second, "a straight line on the log scale")
	for _, never := range []struct{ a, b, around float64 }{{60, 60, 20}, {60, 61, 20}, {60, 20, 20}, {60, 30, 25}} {
		_, ok := coolTo(21, Probe{noon, never.a}, Probe{noon.Add(time.Hour), never.b}, never.around)
		assert.False(t, ok, "%+v", never)
	}
}

func TestProbeForetellsSlowCooling(t *testing.T) {
	b := chilledBatch()
	b.Air = Celsius(20)
	b.Probes = []Probe{{noon.Add(10 * time.Minute), 80}, {noon.Add(40 * time.Minute), 60}}
	v, err := Judge(b, Strictest, noon.Add(70*time.Minute))
	require.NoError(t, err)
	assert.Equal(t, EatBy, v.Kind)
	assert.Contains(t, v.Rules(), "cool-two-point")
}

// Twenty degrees lost of fifty in a quarter of an hour: what is left is halved about
// every twenty minutes, so that the first stage, 21 °C in two hours, is kept in air
// of 5 °C (Newton's law of cooling), and nothing is foretold.
func TestProbeForetellsNothingOfQuickCooling(t *testing.T) {
	b := chilledBatch()
	b.Air, b.ChilledAt = Celsius(5), time.Time{}
	b.Probes = []Probe{{noon.Add(5 * time.Minute), 60}, {noon.Add(20 * time.Minute), 40}}
	v, err := Judge(b, Strictest, noon.Add(25*time.Minute))
	require.NoError(t, err)
	assert.NotContains(t, v.Rules(), "cool-two-point")
}

// An aim warns from its far side on and never throws anything out: at it, and a
// minute or a tenth of a degree to either side.
func TestAimsWarn(t *testing.T) {
	cooled := func(step float64) (Batch, time.Time) {
		b := chilledBatch()
		b.ChilledAt = noon.Add(90*time.Minute + time.Duration(step)*time.Minute)
		return b, noon.Add(3 * time.Hour)
	}
	fridge := func(aim float64) func(float64) (Batch, time.Time) {
		return func(step float64) (Batch, time.Time) {
			b := chilledBatch()
			b.Fridge = Celsius(aim + step/10)
			return b, noon.Add(3 * time.Hour)
		}
	}
	hot := func(step float64) (Batch, time.Time) {
		b := chilledBatch()
		b.HotAt, b.HotUntil = Celsius(60+step/10), noon.Add(30*time.Minute)
		return b, noon.Add(3 * time.Hour)
	}
	life := func(step float64) (Batch, time.Time) {
		return chilledBatch(), noon.Add(72*time.Hour + time.Duration(step)*time.Minute)
	}
	thawedLife := func(step float64) (Batch, time.Time) {
		b := chilledBatch()
		b.FrozenAt, b.ThawedAt = noon.Add(2*time.Hour), noon.Add(102*time.Hour)
		return b, noon.Add(172*time.Hour + time.Duration(step)*time.Minute)
	}
	frozen := func(step float64) (Batch, time.Time) {
		b := chilledBatch()
		b.FrozenAt = noon.Add(2 * time.Hour)
		return b, b.FrozenAt.AddDate(0, 3, 0).Add(time.Duration(step) * time.Minute)
	}
	rice := func(step float64) (Batch, time.Time) {
		b := chilledBatch()
		b.Food, b.ChilledAt = "cooked-rice", noon.Add(time.Hour+time.Duration(step)*time.Minute)
		return b, noon.Add(3 * time.Hour)
	}
	const over, under = 1, -1
	cases := []struct {
		name      string
		source    string
		authority Authority
		history   func(step float64) (Batch, time.Time)
		side      float64 // on which it warns
		rule      string
	}{
		{"cooling", "Food Standards Agency (UK), Food Safety Week 2012", UnitedKingdom, cooled, over, "uk-cool-home-90min"},
		{"cooling rice", "Food Standards Agency (UK), Home food fact checker", UnitedStates, rice, over, "uk-rice-1h-24h"},
		{"fridge", fsaChill, UnitedKingdom, fridge(5), over, "uk-chill-advice-5c"},
		{"fridge", "USDA FSIS, Leftovers and Food Safety: 40 °F", UnitedStates, fridge(4.4), over, "us-chill-home-4c"},
		{"kept hot", "USDA FSIS: 140 °F", UnitedStates, hot, under, "us-hot-home-60"},
		{"life", fsis + ": three to four days", UnitedStates, life, over, "us-leftovers-4d"},
		{"life, but for the time frozen", fsis + ": three to four days", UnitedStates, thawedLife, over, "us-leftovers-4d"},
		{"frozen", "FoodSafety.gov, Cold Food Storage Chart; Food Standards Scotland, Storing food: about three months", Strictest, frozen, over, "freezer-18c"},
	}
	for _, c := range cases {
		t.Run(c.name+" by "+string(c.authority), func(t *testing.T) {
			for _, step := range []float64{under, 0, over} {
				b, now := c.history(step)
				v, err := Judge(b, c.authority, now)
				require.NoError(t, err)
				require.NotEqual(t, Discard, v.Kind, v.Sentence)
				warned := slices.ContainsFunc(v.Warnings, func(r Reason) bool { return slices.Contains(r.Rules, c.rule) })
				assert.Equal(t, step == c.side, warned, "%+g of the aim of %s: %q", step, c.source, v.Says())
			}
		})
	}
}

// What a verdict warns of besides depends on whom it is for and on what it was
// not told.
func TestWarningsByCircumstance(t *testing.T) {
	now := noon.Add(3 * time.Hour)
	change := func(f func(b *Batch)) Batch { b := chilledBatch(); f(&b); return b }
	cases := []struct {
		name  string
		batch Batch
		at    time.Time
		rule  string
		warns bool
	}{
		{"a cold salad for the vulnerable", change(func(b *Batch) { b.Food, b.Vulnerable = "dressed-salad", true }), now, "au-vulnerable-24h", true},
		{"a cold salad", change(func(b *Batch) { b.Food = "dressed-salad" }), now, "au-vulnerable-24h", false},
		{"hot potatoes for the vulnerable", change(func(b *Batch) { b.Vulnerable = true }), now, "au-vulnerable-24h", false},
		{"a fridge nobody measured", change(func(b *Batch) { b.Fridge = Temperature{} }), now, "au-chill-5c", true},
		{"a fridge that was measured", chilledBatch(), now, "au-chill-5c", false},
		{"a fridge nobody measured, before it is in it", change(func(b *Batch) { b.Fridge, b.ChilledAt = Temperature{}, time.Time{} }), noon.Add(time.Hour), "au-chill-5c", false},
		{"air nobody measured, which would matter", change(func(b *Batch) { b.Air, b.ChilledAt = Temperature{}, time.Time{} }), noon.Add(time.Hour), "us-ambient-1h-90f", true},
		{"air that was measured", change(func(b *Batch) { b.ChilledAt = time.Time{} }), noon.Add(time.Hour), "us-ambient-1h-90f", false},
		{"air nobody measured, which does not matter", change(func(b *Batch) { b.Air, b.ChilledAt = Temperature{}, noon.Add(20*time.Minute) }), now, "us-ambient-1h-90f", false},
		{"mash on its way to the fridge", change(func(b *Batch) { b.Food, b.ChilledAt = "mash", time.Time{} }), noon.Add(time.Hour), "cool-depth-5cm", true},
		{"mash in the fridge", change(func(b *Batch) { b.Food = "mash" }), now, "cool-depth-5cm", false},
		{"a dressing, always", change(func(b *Batch) { b.Food = "dressed-salad" }), now, "mayo-no-shield", true},
		{"a dressing of what is thrown out", change(func(b *Batch) { b.Food, b.Tubers = "dressed-salad", TubersGreen }), now, "mayo-no-shield", false},
		{"thawed and on the table", change(func(b *Batch) {
			b.FrozenAt, b.ThawedAt = noon.Add(2*time.Hour), noon.Add(50*time.Hour)
			b.Out = []Spell{{From: noon.Add(51 * time.Hour)}}
		}), noon.Add(52 * time.Hour), "au-reheat-75", true},
		{"on the table", change(func(b *Batch) { b.Out = []Spell{{From: noon.Add(2 * time.Hour)}} }), now, "au-reheat-75", false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			v, err := Judge(c.batch, Strictest, c.at)
			require.NoError(t, err)
			warned := slices.ContainsFunc(v.Warnings, func(r Reason) bool { return slices.Contains(r.Rules, c.rule) })
			assert.Equal(t, c.warns, warned, "%q", v.Says())
		})
	}
}
