package keeping

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Every rule is whole: it says something, has figures or words, and names its
// source or that it has none.
func TestRulesAreSourced(t *testing.T) {
	rules := Rules()
	require.True(t, len(rules) == 199, "%d rules", len(rules))
	for _, r := range rules {
		t.Run(r.ID, func(t *testing.T) {
			assert.NotEmpty(t, r.Says)
			assert.NotEmpty(t, r.Figures)
			for _, text := range []string{r.Provenance.String(), r.Says, r.Note, r.Use} {
				assert.NotRegexp(t, `https?:|www\.`, text)
			}
			assert.NotEmpty(t, r.Jurisdiction)
			assert.Contains(t, []string{"home", "business", "both"}, r.Audience)
			assert.Contains(t, []string{"law", "code", "advice", "measured", "toxicology", "practice"}, r.Force)
			assert.Contains(t, []string{"cooling", "chilled", "out", "frozen", "thawed", "hot", "reheating", "dressed", "raw"}, r.State)
			if r.Source == units.NoSource {
				assert.Contains(t, []string{"practice", "memory"}, r.KnownBy, "a habit is not read anywhere")
				return
			}
			assert.Contains(t, []string{"read", "memory", "computed"}, r.KnownBy)
			assert.Regexp(t, `^[^:]+: .+`, r.Source, "publisher and title")
		})
	}
}

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
			l.LifeVulnerable.Rules, l.Thawed.Rules, l.Reheatings.Rules, l.Reheat.Rules, l.PowerShut.Rules, l.FreezerFull.Rules, l.StillOut.Rules, l.LifeCold.Rules, l.FridgeVulnerable.Rules)
	}
	for _, f := range library.foods {
		if f.Ours != "" {
			continue // told as a choice with every verdict
		}
		for _, life := range f.lives {
			ids = joined(ids, life.life.Rules)
		}
		ids = joined(ids, f.out.Rules, f.fridge.Rules, f.hot.Rules)
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
