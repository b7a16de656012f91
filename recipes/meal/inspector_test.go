package meal

import (
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/schedule"
	"trencher/units"
)

// A step changed, for a plan made by hand.
func with(s Step, change func(*Step)) Step { change(&s); return s }

// What an inspector looks at is drawn to the minute: of plans made by hand, each with the
// least that is amiss beside what is not.
func TestTheInspectorDrawsTheLine(t *testing.T) {
	serve := func(from int) Step { return stepAt("serve", schedule.Serve, from, 1, 0) }
	run := func(s Step, id string) Step { return with(s, func(s *Step) { s.Run = id }) }
	once := func(s Step, id string) Step { return with(s, func(s *Step) { s.AtOnce = id }) }
	of := func(s Step, dishes ...string) Step { return with(s, func(s *Step) { s.Dishes = dishes }) }
	about := func(s Step, at ...PartAt) Step { return with(s, func(s *Step) { s.Parts = at }) }
	dish := func(name string, served recipes.Served, parts ...Part) Dish {
		return Dish{Recipe: recipes.Dish{Name: name, Served: served}, Parts: parts}
	}
	notCold := []Warning{{Concern: NotCold, Dish: "A"}, {Concern: NotCold, Dish: "B"}}
	steam, boil := run(stepAt("s", schedule.Steam, 10, 20, 1), "r1"), run(stepAt("b", schedule.Boil, 0, 10, 1), "r1")
	out := run(stepAt("o", schedule.Unload, 30, 1, 1), "r1")
	steamed := Part{Line: recipes.CropLine{Crop: "beet"}, Steam: &Steaming{Runs: []string{"r1"}}}
	for _, c := range []struct {
		about string
		look  func(*check)
		plan  Plan
		says  []string
	}{
		{"nothing is done", (*check).order, Plan{Runs: []Run{{ID: "r1"}}}, nil},
		{"it is served", (*check).order, Plan{Steps: []Step{serve(0)}, ServeAt: atMinute(1)}, nil},
		{"before it should be", (*check).order, Plan{Steps: []Step{serve(0)}, ServeAt: atMinute(2)}, []string{"serving does not end at the serving time"}},
		{"after it", (*check).order, Plan{Steps: []Step{serve(0)}, ServeAt: atMinute(0)}, []string{"serve of [] ends after serving", "serving does not end at the serving time"}},
		{"twice", (*check).order, Plan{Steps: []Step{serve(0), serve(0)}, ServeAt: atMinute(1)}, []string{"serving does not end at the serving time"}},
		{"never", (*check).order, Plan{Steps: []Step{stepAt("a", schedule.Scrub, 0, 1, 0)}, ServeAt: atMinute(1)}, []string{"serving does not end at the serving time"}},
		{"the second is told first", (*check).order, Plan{Steps: []Step{serve(3), stepAt("a", schedule.Scrub, 0, 1, 0)}, ServeAt: atMinute(4)}, []string{"scrub of [] is told after a later step"}},
		{"two at once", (*check).order, Plan{Steps: []Step{stepAt("a", schedule.Scrub, 0, 1, 0), stepAt("b", schedule.Peel, 0, 2, 0), serve(3)}, ServeAt: atMinute(4)}, nil},

		{"nothing steams", (*check).follows, Plan{Runs: []Run{{ID: "r1"}}}, nil},
		{"no water boils", (*check).follows, Plan{Runs: []Run{{ID: "r1"}}, Steps: []Step{serve(0)}}, []string{"no water boils for r1"}},
		{"it boils for another", (*check).follows, Plan{Runs: []Run{{ID: "r1"}}, Steps: []Step{run(boil, "r2")}}, []string{"no water boils for r1"}},
		{"another kind is of it", (*check).follows, Plan{Runs: []Run{{ID: "r1"}}, Steps: []Step{out}}, []string{"no water boils for r1"}},
		{"it boils", (*check).follows, Plan{Runs: []Run{{ID: "r1"}}, Steps: []Step{boil}}, nil},
		{"taken out", (*check).follows, Plan{Steps: []Step{steam, out}}, nil},
		{"lifted out", (*check).follows, Plan{Steps: []Step{steam, run(stepAt("o", schedule.LiftOut, 30, 1, 0), "r1")}}, nil},
		{"taken out later", (*check).follows, Plan{Steps: []Step{steam, run(stepAt("o", schedule.Unload, 31, 1, 1), "r1")}}, []string{"what steams for [] stays in the steamer"}},
		{"another filling is", (*check).follows, Plan{Steps: []Step{steam, run(out, "r2")}}, []string{"what steams for [] stays in the steamer"}},
		{"something else is done then", (*check).follows, Plan{Steps: []Step{steam, run(stepAt("o", schedule.Load, 30, 1, 1), "r1")}}, []string{"what steams for [] stays in the steamer"}},
		{"what is spread cools", (*check).follows, Plan{Steps: []Step{of(stepAt("p", schedule.Spread, 0, 2, 0), "A"), of(once(stepAt("c", schedule.Cool, 2, 9, 0), "p"), "A")}, Warnings: notCold}, nil},
		{"a minute later", (*check).follows, Plan{Steps: []Step{of(stepAt("p", schedule.Spread, 0, 2, 0), "A"), of(once(stepAt("c", schedule.Cool, 3, 9, 0), "p"), "A")}, Warnings: notCold}, []string{"spread of [A] is not followed at once"}},
		{"as it falls out", (*check).follows, Plan{Steps: []Step{of(stepAt("p", schedule.Spread, 0, 2, 0), "A"), of(stepAt("c", schedule.Cool, 2, 9, 0), "A")}, Warnings: notCold}, []string{"spread of [A] is not followed at once"}},
		{"by another step", (*check).follows, Plan{Steps: []Step{of(stepAt("p", schedule.Spread, 0, 2, 0), "A"), of(once(stepAt("c", schedule.Chill, 2, 9, 0), "p"), "A")}, Warnings: notCold}, []string{"spread of [A] is not followed at once"}},
		{"what cools is chilled", (*check).follows, Plan{Steps: []Step{of(stepAt("c", schedule.Cool, 0, 9, 0), "A"), of(once(stepAt("f", schedule.Chill, 9, 9, 0), "c"), "A")}}, nil},
		{"and is not, untold", (*check).follows, Plan{Steps: []Step{of(stepAt("c", schedule.Cool, 0, 9, 0), "A")}}, []string{"cool of [A] is not followed at once"}},
		{"and is not, told", (*check).follows, Plan{Steps: []Step{of(stepAt("c", schedule.Cool, 0, 9, 0), "A")}, Warnings: notCold[:1]}, nil},
		{"told of another", (*check).follows, Plan{Steps: []Step{of(stepAt("c", schedule.Cool, 0, 9, 0), "A")}, Warnings: notCold[1:]}, []string{"cool of [A] is not followed at once"}},

		{"hot, ten minutes", (*check).waits, Plan{Dishes: []Dish{dish("A", recipes.Hot, steamed)}, Steps: []Step{about(steam, PartAt{0, 0})}, ServeAt: atMinute(40)}, nil},
		{"hot, eleven", (*check).waits, Plan{Dishes: []Dish{dish("A", recipes.Hot, steamed)}, Steps: []Step{about(steam, PartAt{0, 0})}, ServeAt: atMinute(41)}, []string{"it waits too long off the heat, untold"}},
		{"warm, thirty", (*check).waits, Plan{Dishes: []Dish{dish("A", recipes.Warm, steamed)}, Steps: []Step{about(steam, PartAt{0, 0})}, ServeAt: atMinute(60)}, nil},
		{"warm, thirty-one", (*check).waits, Plan{Dishes: []Dish{dish("A", recipes.Warm, steamed)}, Steps: []Step{about(steam, PartAt{0, 0})}, ServeAt: atMinute(61)}, []string{"it waits too long off the heat, untold"}},
		{"cold, hours", (*check).waits, Plan{Dishes: []Dish{dish("A", recipes.Cold, steamed)}, Steps: []Step{about(steam, PartAt{0, 0})}, ServeAt: atMinute(600)}, nil},
		{"hot and raw", (*check).waits, Plan{Dishes: []Dish{dish("A", recipes.Hot, steamed)}, ServeAt: atMinute(600)}, nil},
		{"told", (*check).waits, Plan{Dishes: []Dish{dish("A", recipes.Hot, steamed)}, Steps: []Step{about(steam, PartAt{0, 0})}, ServeAt: atMinute(90), Warnings: []Warning{{Concern: Waits, Dish: "A"}}}, nil},
		{"told of another, and another told of it", (*check).waits, Plan{Dishes: []Dish{dish("A", recipes.Hot, steamed)}, Steps: []Step{about(steam, PartAt{0, 0})}, ServeAt: atMinute(90), Warnings: []Warning{{Concern: Waits, Dish: "B"}, {Concern: NotCold, Dish: "A"}}}, []string{"it waits too long off the heat, untold"}},

		{"nobody prepares either", (*check).cooking, Plan{Dishes: []Dish{dish("A", recipes.Hot, steamed, steamed)}, ServeAt: noon}, []string{"nobody prepares the beet", "nobody prepares the beet"}},
		{"there is no timetable", (*check).cooking, Plan{Dishes: []Dish{dish("A", recipes.Hot, steamed)}}, nil},
		{"prepared, steamed, finished", (*check).cooking, Plan{ServeAt: atMinute(60), Dishes: []Dish{dish("A", recipes.Hot, steamed)},
			Steps: []Step{about(stepAt("p", schedule.Scrub, 5, 5, 0), PartAt{0, 0}), about(steam, PartAt{0, 0}), of(stepAt("f", schedule.Finish, 30, 4, 0), "A")}}, nil},
		{"a minute too soon", (*check).cooking, Plan{ServeAt: atMinute(60), Dishes: []Dish{dish("A", recipes.Hot, steamed)},
			Steps: []Step{about(stepAt("p", schedule.Peel, 6, 5, 0), PartAt{0, 0}), about(steam, PartAt{0, 0}), of(stepAt("f", schedule.Dress, 29, 4, 0), "A")}}, []string{"the beet is steamed before it is prepared", "it is finished before the beet is done"}},

		{"water boils just in time", (*check).steaming, Plan{Steps: []Step{boil, steam}}, nil},
		{"a minute late", (*check).steaming, Plan{Steps: []Step{with(boil, func(s *Step) { s.Length += time.Minute }), of(steam, "A")}}, []string{"[A] steam before the water boils"}},
		{"as many layers as tiers", (*check).steaming, Plan{Runs: []Run{{Tiers: make([][]PartAt, 2)}}, Kitchen: recipes.Kitchen{Steamer: recipes.Steamer{Tiers: 2}}}, nil},
		{"one more", (*check).steaming, Plan{Runs: []Run{{Tiers: make([][]PartAt, 3)}}, Kitchen: recipes.Kitchen{Steamer: recipes.Steamer{Tiers: 2}}}, []string{"3 layers share 2 tiers"}},

		{"cold without a timetable", (*check).cold, Plan{Dishes: []Dish{dish("A", recipes.Cold, steamed)}}, nil},
		{"cold without a fridge", (*check).cold, Plan{Dishes: []Dish{dish("A", recipes.Cold, steamed)}, Steps: []Step{serve(0)}}, []string{"the beet is called cold and is not"}},
		{"and told so", (*check).cold, Plan{Dishes: []Dish{dish("A", recipes.Cold, steamed)}, Steps: []Step{serve(0)}, Warnings: notCold}, nil},
		{"hot", (*check).cold, Plan{Dishes: []Dish{dish("A", recipes.Hot, steamed)}, Steps: []Step{serve(0)}}, nil},

		{"water told for nothing", (*check).water, Plan{Supplies: Supplies{StartML: 9}}, nil},
		{"too little told", (*check).water, Plan{Supplies: Supplies{StartML: 9, WaterML: 8}, Steps: []Step{serve(0)}}, []string{"8 ml of water are told where more is used"}},
		{"just enough", (*check).water, Plan{Supplies: Supplies{StartML: 9, WaterML: 9}, Steps: []Step{serve(0)}}, nil},
	} {
		t.Run(c.about, func(t *testing.T) {
			i := check{plan: c.plan}
			c.look(&i)
			var says []string
			for _, found := range i.found {
				says = append(says, found.Says)
			}
			assert.Equal(t, c.says, says)
		})
	}
}

// Every pair of hands, ring, tier and place is counted from the minute a step begins to
// that of its end.
func TestTheInspectorCountsWhatIsBusy(t *testing.T) {
	handed := func(id string, from, length, hands int) Step {
		return with(stepAt(id, schedule.Scrub, from, length, 0), func(s *Step) { s.Hands = hands })
	}
	oven := func(id string, from int) Step {
		return with(stepAt(id, schedule.Own, from, 10, 0), func(s *Step) { s.Place = "oven" })
	}
	tier := func(id string, from, tier int) Step {
		return with(stepAt(id, schedule.Steam, from, 10, 0), func(s *Step) { s.Tier, s.Run = tier, "r1" })
	}
	for _, c := range []struct {
		about          string
		hands, rings   int
		tiers, layers  int
		steps          []Step
		found, atLeast int
	}{
		{"one after the other", 1, 1, 1, 0, []Step{handed("a", 0, 10, 1), handed("b", 10, 5, 1)}, 0, 0},
		{"a minute together", 1, 1, 1, 0, []Step{handed("a", 0, 10, 1), handed("b", 9, 5, 1)}, 1, 0},
		{"by two", 2, 1, 1, 0, []Step{handed("a", 0, 10, 1), handed("b", 9, 5, 1)}, 0, 0},
		{"nobody is named, so one", 0, 1, 1, 0, []Step{handed("a", 0, 10, 1)}, 0, 0},
		{"two for one of nobody", 0, 1, 1, 0, []Step{handed("a", 0, 10, 2)}, 1, 0},
		{"a ring of two", 1, 2, 1, 0, []Step{stepAt("a", schedule.Own, 0, 5, 2)}, 0, 0},
		{"a third of two", 1, 2, 1, 0, []Step{stepAt("a", schedule.Own, 0, 5, 3)}, 1, 0},
		{"two on one ring", 1, 1, 1, 0, []Step{stepAt("a", schedule.Own, 0, 5, 1), stepAt("b", schedule.Own, 4, 5, 1)}, 1, 0},
		{"one after the other on it", 1, 1, 1, 0, []Step{stepAt("a", schedule.Own, 0, 5, 1), stepAt("b", schedule.Own, 5, 5, 1)}, 0, 0},
		{"tied to each other on it", 1, 1, 1, 0, []Step{stepAt("a", schedule.Own, 0, 5, 1), with(stepAt("b", schedule.Own, 4, 5, 1), func(s *Step) { s.AtOnce = "a" })}, 0, 0},
		{"one oven", 1, 1, 1, 0, []Step{oven("a", 0), oven("b", 10)}, 0, 0},
		{"two in it", 1, 1, 1, 0, []Step{oven("a", 0), oven("b", 9)}, 1, 0},
		{"two tiers", 1, 1, 2, 2, []Step{tier("a", 0, 1), tier("b", 0, 2)}, 0, 0},
		{"one tier for two", 1, 1, 2, 2, []Step{tier("a", 0, 1), tier("b", 9, 1)}, 1, 0},
		{"more tiers than there are", 1, 1, 1, 2, []Step{tier("a", 0, 1)}, 1, 0},
		{"no tiers named, so one", 1, 1, 0, 1, []Step{tier("a", 0, 1)}, 0, 0},
	} {
		p := Plan{Steps: c.steps, Runs: []Run{{ID: "r1", Tiers: make([][]PartAt, c.layers)}}}
		p.Kitchen.Hands, p.Kitchen.Stove.Rings, p.Kitchen.Steamer.Tiers = c.hands, c.rings, c.tiers
		i := check{plan: p}
		i.places()
		assert.Len(t, i.found, c.found, c.about)
	}
}

// Gas and canisters are counted minute by minute: a ring of the usual stove for twenty
// minutes, and what a canister that holds as much, or a hair less, is asked for.
func TestTheInspectorCountsGas(t *testing.T) {
	kitchen := recipes.DefaultKitchen(units.Metric)
	rate := kitchen.Equipment().GasPerMinute()
	require.Positive(t, rate)
	for _, c := range []struct {
		about           string
		canister, told  float64
		canisters, swap int // swap: the minute of a change; 0 none
		emptied         bool
		found           []string
	}{
		{"none named", 0, 20 * rate, 0, 0, false, nil},
		{"just one", 20 * rate, 20 * rate, 1, 0, false, nil},
		{"none told", 20 * rate, 20 * rate, 0, 0, false, []string{"canisters are told"}},
		{"one is too little", 19.9 * rate, 20 * rate, 2, 0, false, []string{"more than it holds"}},
		{"and told so", 19.9 * rate, 20 * rate, 2, 0, true, nil},
		{"changed on the way", 10.1 * rate, 20 * rate, 2, 10, false, nil},
		{"too late", 10.1 * rate, 20 * rate, 2, 11, false, []string{"more than it holds"}},
		{"more is burnt", 0, 19.9 * rate, 0, 0, false, []string{"of gas are burnt"}},
		{"less is", 0, 20.1 * rate, 0, 0, false, []string{"of gas are burnt"}},
	} {
		p := Plan{Kitchen: kitchen, ServeAt: atMinute(30), Steps: []Step{stepAt("a", schedule.Own, 0, 20, 1)}, Supplies: Supplies{GasG: c.told, Canisters: c.canisters}}
		p.Kitchen.Stove.CanisterG = c.canister
		if c.swap > 0 {
			p.Steps = append(p.Steps, stepAt("c", schedule.Canister, c.swap, 3, 0))
		}
		if c.emptied {
			p.Warnings = []Warning{{Concern: CanisterEmpties}}
		}
		i := check{plan: p}
		i.gas()
		require.Len(t, i.found, len(c.found), c.about)
		for n, says := range c.found {
			assert.Contains(t, i.found[n].Says, says, c.about)
		}
	}
	i := check{plan: Plan{Kitchen: kitchen}}
	i.gas()
	assert.Empty(t, i.found, "nothing burns where nothing is done")
}

// What may not be eaten stands for no time, by whomever's rules; nothing stands for less.
func TestNothingStandsForLessThanNoTime(t *testing.T) {
	gone := 0
	for _, authority := range []string{"strictest", "uk", "us"} {
		for _, food := range keeping.BatchFoods() {
			q := Question{On: noon.Truncate(24 * time.Hour), Kitchen: recipes.DefaultKitchen(units.Metric), AirC: 20}
			q.Kitchen.Authority, q.Kitchen.FridgeC = authority, 9
			s, err := standsOf(q, keeping.Kinds{Foods: []string{food}})
			require.NoError(t, err)
			for _, one := range []Standing{s.Out, s.HotOut, s.Fridge, s.WeakEat, s.TableOut} {
				assert.GreaterOrEqual(t, one.For, time.Duration(0), food)
				if one.Verdict == keeping.Discard {
					gone++
					assert.Zero(t, one.For, food)
				}
			}
		}
	}
	assert.Positive(t, gone)
}

// The pots take as much water as boils in them weighs, each filling of one the same
// water; the pan as much as the steamiest of its fillings says.
func TestTheInspectorCountsWater(t *testing.T) {
	boiled := func(rounds int) Part {
		return Part{Line: recipes.CropLine{Cook: "boil"}, Prepared: decimal.NewFromInt(600), Pot: &Pot{Rounds: rounds}}
	}
	own := Part{Line: recipes.CropLine{Cook: "boil", Minutes: 12}, Prepared: decimal.NewFromInt(250)}
	steam := func(evaporates float64) Part { return Part{Steam: &Steaming{Load: heat.Load{EvaporatesG: evaporates}}} }
	for rounds, want := range map[int]float64{0: 600, 1: 600, 2: 300, 3: 200} {
		i := check{plan: Plan{Dishes: []Dish{{Parts: []Part{steam(9), boiled(rounds)}}, {Parts: []Part{own, steam(12), steam(7)}}}}}
		evaporates, pots := i.waterUsed()
		assert.Equal(t, []float64{12, want + 250}, []float64{evaporates, pots}, rounds)
	}
	assert.Equal(t, 15.0, pan{potPerML: 0.01}.potToBoil(1000), "1.5 ml for each gram")
	assert.Equal(t, 7.5, pan{potPerML: 0.01}.potToBoil(100), "750 ml at the least")
	w := work{}
	w.list()
	assert.Empty(t, w.steps, "nobody serves nothing")
}
