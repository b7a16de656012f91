package keeping

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a verdict says first, and its last moments: in hours after cooking at
// noon of a Saturday, nought where there is none.
func TestWhatToDo(t *testing.T) {
	at := func(hours float64) time.Time {
		if hours == 0 {
			return time.Time{}
		}
		return noon.Add(time.Duration(hours * float64(time.Hour)))
	}
	out := func(from float64) func(b *Batch) { return func(b *Batch) { b.Out = []Spell{{From: at(from)}} } }
	still := func(b *Batch) { b.ChilledAt = time.Time{} }
	cases := []struct {
		name          string
		authority     Authority
		change        func(b *Batch)
		now           float64
		kind          Kind
		head          string
		until, keepBy float64
	}{
		{"cooling", Strictest, still, 1, FineNow, "Fine now; into the fridge by 14:00, or eaten.", 2, 2},
		{"at the last moment for the fridge", Strictest, still, 2, FineNow, "Fine now; into the fridge by 14:00, or eaten.", 2, 2},
		{"too late for the fridge", AustraliaAndNZ, still, 2.5, FineNow, "Eat it now, by 16:00; do not keep it.", 4, 0},
		{"too late to eat", UnitedKingdom, still, 4.5, Discard, "Throw it out; its time ran out at 14:00.", 0, 0},
		{"kept hot", UnitedKingdom, func(b *Batch) { still(b); b.HotAt = Celsius(63) }, 10, FineNow, "Fine while it stays at 63 °C or hotter; eat it by Mon 12:00 at the latest.", 48, 0},
		{"kept hot to the end of its life", UnitedKingdom, func(b *Batch) { still(b); b.HotAt = Celsius(63) }, 48, FineNow, "Fine while it stays at 63 °C or hotter; eat it by 12:00 at the latest.", 48, 0},
		{"kept hot beyond its life", UnitedKingdom, func(b *Batch) { still(b); b.HotAt = Celsius(63) }, 48.5, Discard, "Throw it out; its time ran out at 12:00.", 0, 0},
		{"kept hot and then out, at the end of its life", UnitedKingdom, func(b *Batch) { still(b); b.HotAt, b.HotUntil = Celsius(63), at(47) }, 47.5, FineNow, "Fine now; into the fridge by 12:00, or eaten.", 48, 48},
		{"and beyond it", UnitedKingdom, func(b *Batch) { still(b); b.HotAt, b.HotUntil = Celsius(63), at(47) }, 48.5, Discard, "Throw it out; its time ran out at 12:00.", 0, 0},
		{"in the fridge", Strictest, func(*Batch) {}, 5, EatBy, "Eat it by Mon 12:00.", 48, 0},
		{"at the end of its life", Strictest, func(*Batch) {}, 48, EatBy, "Eat it by 12:00.", 48, 0},
		{"for the vulnerable", Strictest, func(b *Batch) { b.Vulnerable = true }, 5, ReheatFirst, "Reheat it first; eat it by Sun 12:00.", 24, 0},
		{"on the table", Strictest, out(6), 7, FineNow, "Fine now; eaten or back in a cold fridge before 20:00.", 8, 8},
		{"on the table in the US", UnitedStates, out(6), 7, FineNow, "Fine now; eaten or back in a cold fridge by 20:00.", 8, 8},
		{"on the table in the UK", UnitedKingdom, out(6), 7, FineNow, "Fine now; back in a cold fridge by 20:00, or eaten by 22:00.", 10, 8},
		{"on the table in Australia", AustraliaAndNZ, out(6), 7, FineNow, "Fine now; back in a cold fridge before 20:00, or eaten before 22:00.", 10, 8},
		{"too late to put back", UnitedKingdom, out(6), 8.5, FineNow, "Eat it now, by 22:00; do not put it back.", 10, 0},
		{"at the last moment to put it back", UnitedKingdom, out(6), 8, FineNow, "Fine now; back in a cold fridge by 20:00, or eaten by 22:00.", 10, 8},
		{"on the table at the end of its life", UnitedKingdom, out(47), 47.5, FineNow, "Fine now; eaten or back in a cold fridge by 12:00.", 48, 48},
		{"heated up", UnitedKingdom, func(b *Batch) { out(6)(b); b.HeatedUp = true }, 7, FineNow, "Eat it now, by 20:00; what is left goes.", 8, 0},
		{"frozen", Strictest, func(b *Batch) { b.FrozenAt = at(5) }, 500, FineNow, "Fine in the freezer; best within three months.", 0, 0},
		{"in a freezer without power", Strictest, func(b *Batch) { b.FrozenAt, b.PowerOff, b.Freezer = at(5), []Spell{{From: at(10)}}, FillHalf }, 20, FineNow,
			"Its freezer has no power: fine in it, shut, until 22:00; then look for ice crystals.", 0, 0},
		{"in one with ice, in the US", UnitedStates, func(b *Batch) { b.FrozenAt, b.PowerOff, b.Ice = at(5), []Spell{{From: at(10)}}, true }, 90, FineNow,
			"Its freezer has no power: still cold; look for ice crystals again before you use it.", 0, 0},
		{"in a freezer that has power again", Strictest, func(b *Batch) {
			b.FrozenAt, b.PowerOff, b.Freezer = at(5), []Spell{{at(10), at(20), Temperature{}}}, FillHalf
		}, 30, FineNow,
			"Fine in the freezer; best within three months.", 0, 0},
		{"frozen too late", Strictest, func(b *Batch) { b.FrozenAt = at(49) }, 500, Discard, "Throw it out; its time ran out at Mon 14 Jul 12:00.", 0, 0},
		{"thawed", Strictest, func(b *Batch) { b.FrozenAt, b.ThawedAt = at(5), at(500) }, 501, ReheatFirst, "Reheat it first; eat it by Sun 08:00.", 524, 0},
		{"thawed in the US", UnitedStates, func(b *Batch) { b.FrozenAt, b.ThawedAt = at(5), at(500) }, 501, ReheatFirst, "Reheat it first; eat it by Wed 03:00.", 591, 0},
		{"thawed with little left", Strictest, func(b *Batch) { b.FrozenAt, b.ThawedAt = at(40), at(500) }, 501, ReheatFirst, "Reheat it first; eat it by 16:00.", 508, 0},
		{"green", Strictest, func(b *Batch) { b.Tubers = TubersGreen }, 5, Discard, "Throw it out.", 0, 0},
		{"condemned this moment", Strictest, func(b *Batch) { b.Out = []Spell{{From: at(3), To: at(5)}} }, 5, Discard, "Throw it out.", 0, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := chilledBatch()
			c.change(&b)
			v, err := Judge(b, c.authority, at(c.now))
			require.NoError(t, err)
			assert.Equal(t, c.kind, v.Kind)
			assert.Equal(t, c.head, v.Head)
			assert.Equal(t, at(c.until), v.Until)
			assert.Equal(t, at(c.keepBy), v.KeepBy)
		})
	}
}

// Sentences that tell why, where TestReasons does not.
func TestWhy(t *testing.T) {
	at := func(hours float64) time.Time { return noon.Add(time.Duration(hours * float64(time.Hour))) }
	frozenAt := func(hours float64) func(b *Batch) { return func(b *Batch) { b.FrozenAt = at(hours) } }
	cases := []struct {
		name      string
		authority Authority
		change    func(b *Batch)
		now       float64
		sentence  string
	}{
		{"green", Strictest, func(b *Batch) { b.Tubers = TubersGreen }, 5, "Green, shrivelled or strongly sprouted potatoes hold a poison that cooking does not take away."},
		{"bitter", Strictest, func(b *Batch) { b.Tubers = TubersBitter }, 5, "Bitter potatoes hold a poison that cooking does not take away."},
		{"frozen, two days left but a day at the most", Strictest, frozenAt(5), 500, "Held at -18 °C it stays safe; once thawed it has 24 h left at the most."},
		{"frozen, ten hours left", Strictest, frozenAt(38), 500, "Held at -18 °C it stays safe; once thawed it has 10 h left at the most."},
		{"frozen in the US", UnitedStates, frozenAt(38), 500, "Held at -18 °C it stays safe; once thawed it has 58 h left at the most."},
		{"thawed", Strictest, func(b *Batch) { b.FrozenAt, b.ThawedAt = at(5), at(500) }, 501, "Heat it to 75 °C in the middle, steaming all through. Thawed, it has the time it had left before freezing, 24 h at the most."},
		{"thawed in the US", UnitedStates, func(b *Batch) { b.FrozenAt, b.ThawedAt = at(5), at(500) }, 501, "Heat it to 74 °C in the middle. Thawed, it has the time it had left before freezing."},
		{"a salad thawed", UnitedStates, func(b *Batch) { b.Food, b.FrozenAt, b.ThawedAt = "dressed-salad", at(5), at(500) }, 501, "Thawed, it has the time it had left before freezing."},
		{"put back too late", Strictest, func(b *Batch) { b.Out = []Spell{{From: at(3), To: at(5)}} }, 20, "It went back into the fridge after 2 h out in all; only under 2 h may it be kept."},
		{"out too long", UnitedKingdom, func(b *Batch) { b.Out = []Spell{{From: at(3)}} }, 8, "It has been out of the fridge for 5 h in all; 4 h is the most."},
		{"too long from the stove", UnitedKingdom, func(b *Batch) { b.ChilledAt = time.Time{} }, 5, "It has stood for 5 h without being cooled; 2 h is the most."},
		{"too old", UnitedKingdom, func(*Batch) {}, 50, "It had 48 h from the end of cooking, and that is over."},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := chilledBatch()
			c.change(&b)
			v, err := Judge(b, c.authority, at(c.now))
			require.NoError(t, err)
			assert.Equal(t, c.sentence, v.Sentence)
		})
	}
}
