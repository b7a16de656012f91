package meal

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/schedule"
)

var noon = time.Date(2031, time.July, 12, 12, 0, 0, 0, time.UTC)

func atMinute(minute int) time.Time { return noon.Add(time.Duration(minute) * time.Minute) }

// stepAt is a step from so many minutes past noon on; on a ring where there is one.
func stepAt(id string, kind schedule.Kind, from, length, ring int) Step {
	return Step{Timed: schedule.Timed{Step: schedule.Step{ID: id, Kind: kind, Ring: ring, Length: time.Duration(length) * time.Minute}, At: atMinute(from)}}
}

// A ring burns once in a minute, however many steps are on it; while its canister is
// changed it does not.
func TestHowManyRingsBurn(t *testing.T) {
	scrub := stepAt("s1", schedule.Scrub, 0, 9, 0)
	for _, c := range []struct {
		about string
		steps []Step
		rings []int
	}{
		{"nothing", nil, nil},
		{"no flame", []Step{scrub}, nil},
		{"from the minute of its beginning up to that of its end", []Step{scrub, stepAt("s2", schedule.Boil, 2, 3, 1)}, []int{0, 0, 1, 1, 1}},
		{"two on one ring", []Step{stepAt("s1", schedule.Boil, 0, 2, 1), stepAt("s2", schedule.Steam, 1, 3, 1)}, []int{1, 1, 1, 1}},
		{"two rings", []Step{stepAt("s1", schedule.Boil, 0, 3, 1), stepAt("s2", schedule.Own, 2, 2, 2)}, []int{1, 1, 2, 1}},
		{"a pause", []Step{stepAt("s1", schedule.Boil, 0, 1, 1), stepAt("s2", schedule.Own, 3, 1, 1)}, []int{1, 0, 0, 1}},
		{"the canister is changed", []Step{stepAt("s1", schedule.Canister, 0, 3, 1), stepAt("s2", schedule.Boil, 3, 1, 1)}, []int{0, 0, 0, 1}},
	} {
		assert.Equal(t, c.rings, burning(c.steps), c.about)
	}
}

// 12 minutes of one ring at 3 g a minute are 36 g: two canisters of 20 g, two of
// 18 g, and three of 17 g.
func TestWhatAMealTakesOfGasAndWater(t *testing.T) {
	p := pan{gasG: 3, startML: 800, topUpML: 250, potsML: 1500, iceG: 400}
	steps := []Step{stepAt("s1", schedule.Boil, 0, 4, 1), stepAt("s2", schedule.TopUp, 4, 1, 0), stepAt("s3", schedule.Steam, 5, 8, 1), stepAt("s4", schedule.TopUp, 13, 1, 0)}
	for canister, canisters := range map[float64]int{0: 0, 0.5: 72, 1: 36, 17: 3, 18: 2, 20: 2, 35.9: 2, 36: 1, 200: 1} {
		assert.Equal(t, Supplies{GasG: 36, StartML: 800, WaterML: 800 + 1500 + 2*250, IceG: 400, Canisters: canisters}, suppliesOf(p, steps, canister), canister)
	}
	assert.Equal(t, Supplies{}, suppliesOf(pan{gasG: 3}, []Step{stepAt("s1", schedule.Scrub, 0, 9, 0)}, 100), "nothing burns")
}

// The canister is changed before what was put on last of what burns when it is
// empty, and counts from there. What alone burns more than a full one is told.
func TestWhereTheCanisterRunsOut(t *testing.T) {
	steps := []Step{stepAt("s1", schedule.Boil, 0, 5, 1), stepAt("s2", schedule.Steam, 5, 10, 1), stepAt("s3", schedule.Own, 20, 10, 2), stepAt("s4", schedule.Own, 24, 4, 1)}
	heats := map[string]string{"s1": "r1", "s2": "r1", "s3": "sauce", "s4": "onions"}
	for _, c := range []struct {
		about    string
		canister float64
		changed  []string // before, already
		want     []string
		more     bool
		tooLong  bool
		at       int // the minute of a change that is planned already; 0 none
	}{
		{"no canister is named", 0, nil, nil, false, false, 0},
		{"29 ring-minutes", 29, nil, nil, false, false, 0},
		{"28 of 29", 28, nil, []string{"sauce"}, true, false, 0},
		{"empty as the last is on", 22, nil, []string{"onions"}, true, false, 0},
		{"empty as the sauce is on", 17, nil, []string{"sauce"}, true, false, 0},
		{"empty in the middle of a filling, then again at the end", 14, []string{"r1"}, []string{"r1", "sauce"}, true, true, 0},
		{"each by itself lasts", 15, nil, []string{"sauce"}, true, false, 0},
		{"changed on the way", 15, []string{"sauce"}, []string{"sauce"}, false, false, 20},
	} {
		w := work{pan: pan{gasG: 1}, heats: heats, changes: map[string]bool{}}
		for _, key := range c.changed {
			w.changes[key] = true
		}
		all := steps
		if c.at > 0 {
			all = append(append([]Step(nil), steps[:2]...), stepAt("s9", schedule.Canister, c.at, 1, 0), steps[2], steps[3])
		}
		more, tooLong := w.runsOut(all, c.canister)
		var changes []string
		for _, key := range []string{"r1", "sauce", "onions"} {
			if w.changes[key] {
				changes = append(changes, key)
			}
		}
		assert.Equal(t, c.want, changes, c.about)
		assert.Equal(t, []bool{c.more, c.tooLong}, []bool{more, tooLong}, c.about)
	}
}

// A new canister is full: fourteen ring-minutes empty one of 13.5, and not one of 14.
func TestANewCanisterIsFull(t *testing.T) {
	steps := []Step{stepAt("s1", schedule.Own, 0, 9, 1), stepAt("s2", schedule.Canister, 9, 1, 0), stepAt("s3", schedule.Own, 10, 14, 1)}
	for canister, tooLong := range map[float64]bool{13.5: true, 14: false, 14.5: false} {
		steps[1].At = atMinute(10)
		w := work{pan: pan{gasG: 1}, heats: map[string]string{"s1": "onions", "s3": "sauce"}, changes: map[string]bool{"sauce": true}}
		more, long := w.runsOut(steps, canister)
		assert.Equal(t, []bool{false, tooLong}, []bool{more, long}, canister)
	}
}

// What burns counts from the first step of what it belongs to.
func TestWhatIsBurntSinceItBegan(t *testing.T) {
	steps := []Step{stepAt("s1", schedule.Boil, 0, 5, 1), stepAt("s2", schedule.Own, 3, 4, 2), stepAt("s3", schedule.Steam, 5, 10, 1)}
	w := work{pan: pan{gasG: 2}, heats: map[string]string{"s1": "r1", "s2": "sauce", "s3": "r1"}}
	assert.Equal(t, atMinute(0), w.began(steps, steps[2]))
	assert.Equal(t, atMinute(3), w.began(steps, steps[1]))
	assert.Equal(t, "r1", w.lastLit(steps, atMinute(2)))
	assert.Equal(t, "sauce", w.lastLit(steps, atMinute(3)))
	assert.Equal(t, "sauce", w.lastLit(steps, atMinute(6)))
	assert.Equal(t, "r1", w.lastLit(steps, atMinute(7)), "the sauce is off")
	assert.Equal(t, "", w.lastLit(steps, atMinute(15)))
	assert.InDelta(t, 2*(3+3*2), w.burnt(steps, "r1", 5), 1e-9, "six minutes, three of them with two rings")
	assert.InDelta(t, 2*2*2, w.burnt(steps, "sauce", 4), 1e-9)
}

// The pan holds what evaporates, a third more, and 300 ml that must stay in it, never
// under 500; what does not go into it is topped up before each filling but the first.
// A pan of 200 mm filled 60 mm deep holds π/4·20²·6 = 1,885 ml.
func TestWaterOfThePan(t *testing.T) {
	loaded := func(evaporates, toBoil, waterML float64, high ...float64) (l Loaded) {
		var dish Dish
		for i, longest := range high {
			dish.Parts = append(dish.Parts, Part{Steam: &Steaming{High: longest, Load: heat.Load{EvaporatesG: evaporates, ToBoil: toBoil, WaterML: waterML}}})
			l.Runs = append(l.Runs, Run{Parts: []PartAt{{0, i}}})
		}
		l.Dishes = []Dish{dish}
		return l
	}
	for _, c := range []struct {
		about string
		l     Loaded
		want  pan
	}{
		// 17.5 min and 3 of loading and lifting are 21: 1.3·10·21 + 300 = 573 ml, at 5 min for 500 ml 5.73 min.
		{"one filling", loaded(10, 5, 500, 17.5), pan{evaporates: 10, startML: 573, toBoil: 5.73}},
		{"little steam", loaded(2, 5, 500, 17.5), pan{evaporates: 2, startML: 500, toBoil: 5}},
		{"two fillings", loaded(10, 5, 500, 17.5, 27), pan{evaporates: 10, startML: 1.3*10*51 + 300, toBoil: 9.63}},
		// 1.3·30·(21+30)+300 = 2,289 ml do not go in: the longest takes 1.3·30·30 = 1,170 ml.
		{"two that the pan does not hold", loaded(30, 5, 500, 17.5, 27), pan{evaporates: 30, startML: 1470, topUp: true, topUpML: 1170, again: 11.7, toBoil: 14.7}},
		{"one that the pan does not hold", loaded(30, 5, 500, 60), pan{evaporates: 30, startML: 1.3*30*63 + 300, toBoil: 27.57}},
	} {
		p := pan{fillings: len(c.l.Runs)}
		p.fill(c.l, 200)
		assert.InDelta(t, c.want.startML, p.startML, 1e-6, c.about)
		assert.InDelta(t, c.want.topUpML, p.topUpML, 1e-6, c.about)
		assert.InDelta(t, c.want.toBoil, p.toBoil, 1e-6, c.about)
		assert.InDelta(t, c.want.again, p.again, 1e-6, c.about)
		assert.Equal(t, c.want.topUp, p.topUp, c.about)
		assert.Equal(t, c.want.evaporates, p.evaporates, c.about)
		assert.InDelta(t, max(1, c.want.again), p.reboil(), 1e-6, c.about)
	}
	assert.Equal(t, 1.0, pan{topUp: true, again: 0.4}.reboil(), "water that still boils takes a minute")
	assert.Equal(t, 1.0, pan{again: 7}.reboil(), "nothing is topped up")
	assert.Equal(t, 1.0, pan{potPerML: 0.001}.potToBoil(100), "never under a minute")
}

// What heats the water for the first time is a step of its own where it takes longer
// than water that still boils.
func TestTheFirstBoil(t *testing.T) {
	for _, c := range []struct {
		toBoil float64
		length time.Duration
	}{{1, 0}, {1.5, time.Minute}, {2, time.Minute}, {2.2, 2 * time.Minute}, {9, 8 * time.Minute}} {
		w := work{pan: pan{toBoil: c.toBoil}, heats: map[string]string{}, parts: map[string][]PartAt{}}
		w.shared()
		if c.length == 0 {
			assert.Empty(t, w.steps)
			continue
		}
		assert.Equal(t, []schedule.Step{{ID: w.boil, Kind: schedule.Boil, Ring: theRing, Steamer: true, Length: c.length}}, w.steps, c.toBoil)
		assert.Equal(t, firstBoil, w.heats[w.boil])
	}
}

// Picking takes three minutes, and two more for each plant.
func TestHowLongPickingTakes(t *testing.T) {
	for plants, minutes := range map[int]int{0: 0, 1: 5, 5: 13, 10: 23} {
		w := work{heats: map[string]string{}, parts: map[string][]PartAt{}, loaded: Loaded{Dishes: make([]Dish, 1)}}
		for n := range plants {
			w.loaded.Dishes[0].Scaled.Others = append(w.loaded.Dishes[0].Scaled.Others, recipes.ScaledLine{Item: string(rune('a' + n)), FromPlot: true})
		}
		w.shared()
		if plants == 0 {
			assert.Empty(t, w.steps)
			continue
		}
		assert.Equal(t, []schedule.Step{{ID: w.pick, Kind: schedule.Pick, Hands: 1, Length: time.Duration(minutes) * time.Minute}}, w.steps)
	}
}

func TestMinutesAreRoundedUp(t *testing.T) {
	for minutes, want := range map[float64]int{0: 0, 0.1: 1, 1: 1, 1.0000000001: 1, 1.001: 2, 7: 7} {
		assert.Equal(t, time.Duration(want)*time.Minute, wholeMinutes(minutes), minutes)
	}
	assert.Equal(t, 90*time.Second, minutes(1.5))
}

func TestHowManyFillingsHoldAllLoads(t *testing.T) {
	for _, c := range []struct {
		layers []int
		tiers  int
		want   int
	}{{nil, 2, 0}, {[]int{1}, 2, 1}, {[]int{1, 1}, 2, 1}, {[]int{2, 1}, 2, 2}, {[]int{3, 4}, 3, 3}, {[]int{2, 1}, 0, 3}, {[]int{2}, 1, 2}} {
		var loads []LoadClass
		for _, n := range c.layers {
			loads = append(loads, LoadClass{Layers: n})
		}
		assert.Equal(t, c.want, roundsOf(loads, c.tiers), c)
	}
}
