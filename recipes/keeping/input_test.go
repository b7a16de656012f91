package keeping

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

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
		{"a power cut with no beginning", change(func(b *Batch) { b.PowerOff = []Spell{{To: noon}} }), FactPower},
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
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, c.fact, FactIn(wrong.Field), wrong.Error())
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
	cooled := change(func(b *Batch) { b.ChilledAt, b.Reheated = time.Time{}, 1 })
	v, err := Judge(cooled, UnitedStates, noon.Add(time.Hour))
	require.NoError(t, err)
	assert.Equal(t, FactChilled, v.Missing, "heated up and cooled again, where that may be")
	v, err = Judge(Batch{Tubers: TubersBitter}, Strictest, now)
	require.NoError(t, err)
	assert.Equal(t, Discard, v.Kind, "bitter tubers need no further fact")
}

// Figures are taken up to their limits; beyond them they are slips of the pen.
func TestFiguresInRange(t *testing.T) {
	now := noon.Add(30 * time.Hour)
	cases := []struct {
		fact          Fact
		least, most   float64
		beyond, under float64
		set           func(b *Batch, c float64)
	}{
		{FactFridge, -5, 12, 12.1, -5.1, func(b *Batch, c float64) { b.Fridge = Celsius(c) }},
		{FactAir, -40, 60, 60.1, -40.1, func(b *Batch, c float64) { b.Air = Celsius(c) }},
		{FactHotAt, 0, 120, 120.1, -0.1, func(b *Batch, c float64) { b.HotAt, b.HotUntil = Celsius(c), b.CookedAt }},
		{FactProbe, -30, 120, 120.1, -30.1, func(b *Batch, c float64) { b.Probes = []Probe{{b.CookedAt, c}} }},
		{FactReheated, 0, 100, 101, -1, func(b *Batch, c float64) { b.Reheated = int(c) }},
	}
	for _, c := range cases {
		for _, figure := range []float64{c.least, c.most, c.beyond, c.under} {
			b := chilledBatch()
			c.set(&b, figure)
			err := b.Check(now)
			if figure == c.least || figure == c.most {
				assert.NoError(t, err, "%s %g", c.fact, figure)
				continue
			}
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong, "%s %g", c.fact, figure)
			assert.Equal(t, c.fact.Field(), wrong.Field)
		}
	}
	b := chilledBatch()
	b.Fridge = Celsius(math.NaN())
	require.ErrorContains(t, b.Check(now), "fridge")
	require.ErrorContains(t, Batch{Fridge: Celsius(20)}.Check(now), "fridge")
	assert.Contains(t, hint(t, Batch{Fridge: Celsius(20)}.Check(now)), "in a freezer frozen")
	assert.NotContains(t, hint(t, Batch{Air: Celsius(90)}.Check(now)), "freezer")
}

func hint(t *testing.T, err error) string {
	t.Helper()
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong)
	return wrong.Hint()
}

// Things may happen at the same moment, and as late as now.
func TestMomentsMayCoincide(t *testing.T) {
	b := Batch{
		Food: "mash", CookedAt: noon, HotAt: Celsius(70), HotUntil: noon, ChilledAt: noon, FrozenAt: noon, ThawedAt: noon,
		Out: []Spell{{From: noon, To: noon}}, PowerOff: []Spell{{From: noon, To: noon}}, Probes: []Probe{{noon, 70}},
	}
	require.NoError(t, b.Check(noon))
	require.Error(t, b.Check(noon.Add(-1)))
	require.NoError(t, Batch{Out: []Spell{{From: noon}}}.Check(noon), "nobody knows when it was in the fridge")
	_, err := Judge(b, Strictest, noon)
	require.NoError(t, err)
}
