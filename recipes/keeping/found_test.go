package keeping

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Histories that random runs once found to be judged wrongly, or told with the wrong
// reason, each worked out by hand from the rules' words.
func TestHistoriesOnceJudgedWrongly(t *testing.T) {
	h := func(hours float64) time.Time { return noon.Add(time.Duration(hours * float64(time.Hour))) }
	batch := func(f func(*Batch)) Batch { b := chilledBatch(); f(&b); return b }
	cases := []struct {
		name  string
		by    Authority
		batch Batch
		now   time.Time
		want  Kind
		rule  string // among those it rests on
	}{
		{"a cold reading in a freezer speaks for what came before it, also under US rules", UnitedStates, batch(func(b *Batch) {
			b.FrozenAt, b.Freezer, b.PowerOff = h(2), FillFull, []Spell{{From: h(10)}}
			b.Probes = []Probe{{h(59), 2}} // 49 h off; it is off still at 130 h
		}), h(59), FineNow, "refreeze-us-ok"},
		{"and no longer than a full one holds once it is soft", UnitedStates, batch(func(b *Batch) {
			b.FrozenAt, b.Freezer, b.PowerOff = h(2), FillFull, []Spell{{From: h(10)}}
			b.Probes = []Probe{{h(20), 2}} // within the 48 h: it says nothing of what follows
		}), h(59), Unknown, "power-freezer"},
		{"spells that touch go back once, at the last end", UnitedKingdom, batch(func(b *Batch) {
			b.Out = []Spell{{From: h(2), To: h(3)}, {From: h(3), To: h(4)}}
		}), h(5), EatBy, "uk-picnic-2h"},
		{"spells that touch and come to more than two hours", UnitedKingdom, batch(func(b *Batch) {
			b.Out = []Spell{{From: h(2), To: h(3)}, {From: h(3), To: h(4.1)}}
		}), h(5), Discard, "uk-picnic-2h"},
		{"a cut that the food spent in the freezer is no power between two of the fridge", Strictest, batch(func(b *Batch) {
			b.FrozenAt, b.ThawedAt = h(4), h(16)
			b.PowerOff = []Spell{{From: h(1.5), To: h(4)}, {From: h(9), To: h(15)}, {From: h(17), To: h(19)}}
		}), h(20), Discard, "power-cut-adds-up"},
		{"but twelve hours of power are, wherever the food was", Strictest, batch(func(b *Batch) {
			b.FrozenAt, b.ThawedAt = h(4), h(16)
			b.PowerOff = []Spell{{From: h(1.5), To: h(4)}, {From: h(17), To: h(19)}}
		}), h(20), ReheatFirst, "thaw-24h"},
		{"from the tray into the freezer at the two hours, thawed in a fridge that is too warm", AustraliaAndNZ, batch(func(b *Batch) {
			b.ChilledAt, b.FrozenAt, b.ThawedAt, b.Fridge = time.Time{}, h(2), h(6), Celsius(8)
		}), h(6), FineNow, "au-2h4h"},
		{"and four hours later in such a fridge", AustraliaAndNZ, batch(func(b *Batch) {
			b.ChilledAt, b.FrozenAt, b.ThawedAt, b.Fridge = time.Time{}, h(2), h(6), Celsius(8)
		}), h(10), Discard, "au-2h4h"},
		{"put into a dead fridge late and read warm there: the cooling counts too", UnitedKingdom, batch(func(b *Batch) {
			b.ChilledAt, b.PowerOff = h(1.9), []Spell{{From: h(1), To: h(2)}}
			b.Probes = []Probe{{h(2.5), 12}}
		}), h(3), EatBy, ""},
		{"a fridge cut that went on while it was on the table counts in full", Strictest, batch(func(b *Batch) {
			b.Out = []Spell{{From: h(3), To: h(3.5)}}
			b.PowerOff = []Spell{{From: h(2), To: h(6.25)}}
		}), h(7), Discard, "power-cut-4h"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.NoError(t, c.batch.Check(c.now))
			v, err := Judge(c.batch, c.by, c.now)
			require.NoError(t, err)
			assert.Equal(t, c.want, v.Kind, "%s %s", v.Head, v.Sentence)
			if c.rule != "" {
				assert.Contains(t, v.Rules(), c.rule)
			}
		})
	}
}

// A deadline names the rule that ends it, though another verdict of the same kind
// follows in the same moment.
func TestDeadlinesOnceToldByTheWrongRule(t *testing.T) {
	h := func(hours float64) time.Time { return noon.Add(time.Duration(hours * float64(time.Hour))) }
	b := chilledBatch()
	b.Out = []Spell{{From: h(2)}}
	d, err := DeadlineOf(b, AustraliaAndNZ, h(3))
	require.NoError(t, err)
	assert.Equal(t, "au-2h4h", d.Rule)
	at, before := d.Clock()
	assert.Equal(t, h(6), at)
	assert.True(t, before, "at four hours it is too late already")

	for minute, rule := range map[time.Duration]string{-1: "power-cut-4h", 1: "uk-leftovers-48h"} {
		cut := chilledBatch()
		cut.PowerOff = []Spell{{From: h(44).Add(minute * time.Minute)}} // its 48 hours end a minute from when the four are full
		d, err = DeadlineOf(cut, Strictest, h(45))
		require.NoError(t, err)
		assert.Equal(t, h(48).Add(min(minute, 0)*time.Minute), d.Until)
		assert.Equal(t, rule, d.Rule)
	}

	within := chilledBatch()
	within.Out = []Spell{{From: h(2), To: h(4.5)}, {From: h(3), To: h(4.25)}}
	v, err := Judge(within, UnitedKingdom, h(5))
	require.NoError(t, err)
	assert.Equal(t, h(4.5), v.Since, "an end within another spell is no going back")
}
