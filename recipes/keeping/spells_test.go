package keeping

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// Weighted time on a clock, in minutes after noon: of stretches that overlap
// the heaviest counts, once; a stretch with no end goes on.
func TestClockAddsUp(t *testing.T) {
	at := func(minutes int) time.Time {
		if minutes < 0 {
			return time.Time{}
		}
		return noon.Add(time.Duration(minutes) * time.Minute)
	}
	const open = -1
	type span struct{ from, to, weight int }
	cases := []struct {
		name    string
		spans   []span
		after   int
		used    map[int]int // weighted minutes by the minute asked at
		reaches map[int]int // minute by limit; open where it never does
		running int
	}{
		{"nothing", nil, 0, map[int]int{100: 0}, map[int]int{0: open, 60: open}, 0},
		{"one", []span{{10, 40, 1}}, 0, map[int]int{5: 0, 10: 0, 25: 15, 40: 30, 90: 30}, map[int]int{0: 10, 20: 30, 30: open}, 0},
		{"one that goes on", []span{{10, open, 1}}, 0, map[int]int{25: 15, 90: 80}, map[int]int{30: 40, 300: 310}, 1},
		{"one in hot air", []span{{10, 40, 2}}, 0, map[int]int{25: 30, 40: 60}, map[int]int{20: 20, 58: 39, 60: open}, 0},
		{"two apart", []span{{10, 40, 1}, {60, 90, 1}}, 0, map[int]int{50: 30, 75: 45, 100: 60}, map[int]int{30: 60, 45: 75}, 0},
		{"two that overlap", []span{{10, 40, 1}, {30, 90, 1}}, 0, map[int]int{35: 25, 90: 80}, map[int]int{50: 60}, 0},
		{"the hotter of two that overlap", []span{{10, 60, 1}, {30, 40, 2}}, 0, map[int]int{30: 20, 40: 40, 60: 60}, map[int]int{30: 35, 50: 50}, 0},
		{"one in hot air that goes on within another", []span{{10, 200, 1}, {30, open, 2}}, 0, map[int]int{300: 560}, map[int]int{60: 50}, 2},
		{"cut off at a moment", []span{{10, 40, 1}}, 25, map[int]int{40: 15}, map[int]int{10: 35}, 0},
		{"over before it", []span{{10, 40, 1}}, 40, map[int]int{90: 0}, map[int]int{10: open}, 0},
		{"of no length", []span{{10, 10, 1}}, 0, map[int]int{90: 0}, map[int]int{10: open}, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			k := &clock{}
			for _, s := range c.spans {
				k.add(stretch{from: at(s.from), to: at(s.to), weight: s.weight}, at(c.after))
			}
			for minute, want := range c.used {
				assert.Equal(t, time.Duration(want)*time.Minute, k.used(at(minute)), "used by minute %d", minute)
			}
			for limit, want := range c.reaches {
				assert.Equal(t, at(want), k.reaches(time.Duration(limit)*time.Minute), "reaches %d minutes", limit)
			}
			assert.Equal(t, c.running, k.running())
		})
	}
}

// Each end of a stretch that ends in the fridge is a putting back, in order.
func TestClockTellsWhenItWasPutBack(t *testing.T) {
	at := func(hours int) time.Time { return noon.Add(time.Duration(hours) * time.Hour) }
	k := &clock{}
	k.add(stretch{at(5), at(6), 1, true}, noon)
	k.add(stretch{at(1), at(2), 1, true}, noon)
	k.add(stretch{at(3), at(4), 1, false}, noon)
	k.add(stretch{at(7), time.Time{}, 1, true}, noon)
	assert.Equal(t, []time.Time{at(2), at(6)}, k.putBack())
}

func TestSpellsThatTouchAreOne(t *testing.T) {
	at := func(hours int) time.Time { return noon.Add(time.Duration(hours) * time.Hour) }
	cases := []struct {
		name         string
		spells, want []Spell
	}{
		{"none", nil, nil},
		{"apart", []Spell{{From: at(4), To: at(5)}, {From: at(1), To: at(2)}}, []Spell{{From: at(1), To: at(2)}, {From: at(4), To: at(5)}}},
		{"touching", []Spell{{From: at(1), To: at(2)}, {From: at(2), To: at(3)}}, []Spell{{From: at(1), To: at(3)}}},
		{"one within another", []Spell{{From: at(1), To: at(5)}, {From: at(2), To: at(3)}}, []Spell{{From: at(1), To: at(5)}}},
		{"one that goes on", []Spell{{From: at(1), To: at(3)}, {From: at(2)}}, []Spell{{From: at(1)}}},
		{"after one that goes on", []Spell{{From: at(1)}, {From: at(2), To: at(3)}}, []Spell{{From: at(1)}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, merged(c.spells)) })
	}
}
