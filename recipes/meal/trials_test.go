package meal

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/schedule"
	"trencher/units"
)

func cubes(name string, served recipes.Served, mm float64) Dish {
	return Dish{Recipe: recipes.Dish{Name: name, Served: served}, Parts: []Part{{Steam: &Steaming{}, Pot: &Pot{}, Cuts: make([]Cut, 1), Uneven: Uneven{LateMinutes: 1}, Piece: Piece{Cut: heat.Cut{Shape: heat.Cube, SizeMM: mm}}}}}
}

// What is tried to bring serving nearer: one more who helps, cold dishes warm, cubes
// four fifths as large, each dish left out where there is another. The meal itself
// stays as it is.
func TestWhatIsTriedToServeSooner(t *testing.T) {
	whole := cubes("Whole", recipes.Hot, 0)
	whole.Parts[0].Piece.Cut = heat.Cut{Shape: heat.Whole}
	l := Loaded{Dishes: []Dish{cubes("Salad", recipes.Cold, 25), cubes("Mash", recipes.Hot, 31), whole}}
	var told []string
	for _, trial := range trials(Question{Kitchen: recipes.Kitchen{Hands: 2}}, l) {
		line := fmt.Sprintf("%d %s %g, hands %d:", trial.change.Kind, trial.change.Dish, trial.change.SizeMM, trial.q.Kitchen.Hands)
		for _, dish := range trial.dishes {
			line += fmt.Sprintf(" %s %s %s", dish.Name(), dish.Recipe.Served, dish.Parts[0].Line.Cut)
			assert.Equal(t, Part{Line: dish.Parts[0].Line}, dish.Parts[0], "as it was before it was loaded")
		}
		told = append(told, line)
	}
	assert.Equal(t, []string{
		"3  0, hands 3: Salad cold  Mash hot  Whole hot ",
		"0 Salad 0, hands 2: Salad warm  Mash hot  Whole hot ",
		"1 Salad 20, hands 2: Salad cold cube 20 mm Mash hot  Whole hot ",
		"2 Salad 0, hands 2: Mash hot  Whole hot ",
		"1 Mash 25, hands 2: Salad cold  Mash hot cube 25 mm Whole hot ",
		"2 Mash 0, hands 2: Salad cold  Whole hot ",
		"2 Whole 0, hands 2: Salad cold  Mash hot ",
	}, told)
	assert.NotNil(t, l.Dishes[0].Parts[0].Steam)
	assert.Equal(t, recipes.Cold, l.Dishes[0].Recipe.Served)
	alone := trials(Question{}, Loaded{Dishes: l.Dishes[1:2]})
	require.Len(t, alone, 2, "the only dish is not left out")
	assert.Equal(t, 2, alone[0].q.Kitchen.Hands, "one pair of hands where none is named, and one more")
}

// Parts alike in crop, cut and doneness steam as one, what is served cold first; the
// classes that take longest come first.
func TestWhatSteamsAsOne(t *testing.T) {
	part := func(mm, grams, high float64) Part {
		return Part{Piece: Piece{Crop: heat.Crop{Name: "potato"}, Sized: heat.Cut{Shape: heat.Cube, SizeMM: mm}, Grams: grams}, Steam: &Steaming{High: high, Load: heat.Load{GramsPerLayer: 500}}}
	}
	l := Loaded{Dishes: []Dish{
		{Recipe: recipes.Dish{Served: recipes.Hot}, Parts: []Part{part(25, 300, 10), {}}},
		{Recipe: recipes.Dish{Served: recipes.Warm}, Parts: []Part{part(25, 300, 10), part(40, 200, 20)}},
		{Recipe: recipes.Dish{Served: recipes.Cold}, Parts: []Part{part(25, 401, 10)}},
	}}
	all := l.classes(func(PartAt) bool { return true })
	assert.Equal(t, []class{
		{parts: []PartAt{{1, 1}}, grams: 200, perLayer: 500, layers: 1, longest: 20},
		{parts: []PartAt{{2, 0}, {1, 0}, {0, 0}}, grams: 1001, perLayer: 500, layers: 3, longest: 10},
	}, all)
	hot := l.classes(func(at PartAt) bool { return l.served(at) == recipes.Hot })
	assert.Equal(t, []class{{parts: []PartAt{{0, 0}}, grams: 300, perLayer: 500, layers: 1, longest: 10}}, hot)
}

// What of a plan the plot's hygiene is about: water that is carried, what is eaten
// raw, what lay over night or is damaged, what cools.
func TestWhatThePlotsHygieneIsAbout(t *testing.T) {
	day := time.Date(2031, 7, 12, 0, 0, 0, 0, time.UTC)
	lot := func(lifted time.Time, condition harvest.Condition) []Take {
		return []Take{{Lot: &harvest.Lot{Planting: &harvest.Planting{}, Lifted: lifted, Condition: condition}}}
	}
	for _, c := range []struct {
		about string
		part  Part
		lay   bool
	}{
		{"lifted on the day", Part{From: lot(day, harvest.Sound)}, false},
		{"lifted the evening before", Part{From: lot(day.Add(-time.Second), harvest.Sound)}, true},
		{"damaged", Part{From: lot(day.Add(time.Hour), harvest.Damaged)}, true},
		{"from nobody knows where", Part{}, true},
	} {
		assert.Equal(t, c.lay, c.part.lay(day), c.about)
		facts := plotFacts(Question{On: day}, Loaded{Dishes: []Dish{{Parts: []Part{c.part}}}}, Timetable{})
		assert.Equal(t, c.lay, facts.Lay, c.about)
		assert.True(t, facts.Made)
		assert.False(t, facts.Raw || facts.Cools || facts.Carried)
	}
	raw := Dish{Parts: []Part{{Line: recipes.CropLine{Cook: "raw"}, From: lot(day, harvest.Sound)}}}
	picked := Dish{}
	picked.Scaled.Others = []recipes.ScaledLine{{Item: "chives", FromPlot: true}, {Item: "chives", FromPlot: true}, {Item: "dill", FromPlot: true}, {Item: "butter"}}
	assert.Equal(t, []string{"chives", "dill"}, fromPlot([]Dish{picked, picked}))
	for _, dish := range []Dish{raw, picked} {
		assert.True(t, plotFacts(Question{On: day}, Loaded{Dishes: []Dish{dish}}, Timetable{}).Raw)
	}
	q := Question{On: day}
	q.Kitchen.Water.Carried = true
	facts := plotFacts(q, Loaded{}, Timetable{Steps: []Step{stepAt("s1", schedule.Cool, 0, 10, 0)}})
	assert.True(t, facts.Carried && facts.Cools)
	assert.False(t, facts.Made)
}

// The first part off the heat is the oldest, whichever step is told first; a boil of
// water cooks nothing.
func TestWhatIsFirstOffTheHeat(t *testing.T) {
	of := func(s Step, crop string, dish int) Step {
		s.Crop, s.Parts = crop, []PartAt{{Dish: dish}}
		return s
	}
	steps := []Step{of(stepAt("s1", schedule.Boil, 0, 2, 1), "potato", 0), of(stepAt("s2", schedule.Own, 0, 5, 0), "", 0), of(stepAt("s3", schedule.Steam, 0, 30, 1), "", 0),
		of(stepAt("s4", schedule.BoilIn, 5, 20, 1), "bean", 0), of(stepAt("s5", schedule.Own, 0, 10, 1), "potato", 1)}
	assert.Equal(t, atMinute(25), firstOffHeat(steps, 0))
	assert.Equal(t, atMinute(10), firstOffHeat(steps, 1))
	assert.True(t, firstOffHeat(steps, 2).IsZero())
	assert.Equal(t, []bool{false, false, true, true, true}, []bool{cooks(steps[0]), cooks(steps[1]), cooks(steps[2]), cooks(steps[3]), cooks(steps[4])})
}

// A whole minute is its own next one.
func TestTheNextMinute(t *testing.T) {
	for after, want := range map[time.Duration]int{0: 0, time.Nanosecond: 1, 59 * time.Second: 1, time.Minute: 1} {
		assert.Equal(t, atMinute(want), nextMinute(noon.Add(after)), after)
	}
	assert.Equal(t, atMinute(5), later(atMinute(3), atMinute(5)))
	assert.Equal(t, atMinute(5), later(atMinute(5), atMinute(3)))
}

// From loading, what boils takes its way back to the boil too.
func TestMinutesOfAPotFromLoading(t *testing.T) {
	p := Pot{Minutes: 12, Low: 10, High: 15, BackToBoil: 3}
	assert.Equal(t, []float64{15, 18}, []float64{p.FromLoading(), p.Longest()})
	assert.Equal(t, 17.0, Steaming{High: 15, Estimate: heat.Estimate{ComeUp: 2}}.Longest())
	assert.Equal(t, []float64{750, 750, 900}, []float64{potML(100), potML(500), potML(600)}, "half as much again as the food, never under 750 ml")
}

// The cold box is asked for what dressed dishes weigh, and stays cold while its ice
// lasts.
func TestTheBoxWarms(t *testing.T) {
	for lasts, warms := range map[float64]bool{59.9: true, 60: false, 60.1: false} {
		assert.Equal(t, warms, Box{Lasts: lasts, Needed: 60}.Warms(), lasts)
	}
}

// What is longer is so by whole minutes.
func TestLongerByWholeMinutes(t *testing.T) {
	for longer, want := range map[time.Duration]time.Duration{0: 0, 1: time.Minute, time.Second: time.Minute, time.Minute: time.Minute, 61 * time.Second: 2 * time.Minute} {
		assert.Equal(t, want, roundUp(longer), longer)
	}
}

// A step is under way when its time has come and nothing it waits for is still to do:
// what boils and cools ends by itself, the rest when somebody says so.
func TestWhatIsUnderWay(t *testing.T) {
	with := func(s Step, change func(*Step)) Step { change(&s); return s }
	steam := with(stepAt("steam", schedule.Steam, 10, 20, 1), func(s *Step) { s.Run, s.Parts = "r1", []PartAt{{0, 0}} })
	steps := map[string]Step{
		"boil": stepAt("boil", schedule.Boil, 0, 10, 1), "scrub": stepAt("scrub", schedule.Scrub, 0, 5, 0), "test": stepAt("test", schedule.Test, 15, 1, 0), "steam": steam,
		"cool": stepAt("cool", schedule.Cool, 31, 10, 0),
	}
	for _, c := range []struct {
		about  string
		step   Step
		minute int
		over   []string
		began  bool
	}{
		{"its time has not come", stepAt("x", schedule.Load, 10, 1, 0), 9, nil, false},
		{"its time has come", stepAt("x", schedule.Load, 10, 1, 0), 10, nil, true},
		{"after a boil that is over", with(stepAt("x", schedule.Load, 10, 1, 0), func(s *Step) { s.After = []string{"boil"} }), 10, nil, true},
		{"after a boil that is not", with(stepAt("x", schedule.Load, 9, 1, 0), func(s *Step) { s.After = []string{"boil"} }), 9, nil, false},
		{"after a boil told as over", with(stepAt("x", schedule.Load, 9, 1, 0), func(s *Step) { s.After = []string{"boil"} }), 9, []string{"boil"}, true},
		{"after scrubbing nobody told of", with(stepAt("x", schedule.Load, 10, 1, 0), func(s *Step) { s.After = []string{"scrub"} }), 60, nil, false},
		{"after scrubbing", with(stepAt("x", schedule.Load, 10, 1, 0), func(s *Step) { s.After = []string{"scrub"} }), 10, []string{"scrub"}, true},
		{"after a knife test", with(stepAt("x", schedule.Load, 10, 1, 0), func(s *Step) { s.After = []string{"test"} }), 10, nil, true},
		{"after cooling", with(stepAt("x", schedule.Dress, 41, 1, 0), func(s *Step) { s.AtOnce = "cool" }), 41, nil, true},
		{"while it cools", with(stepAt("x", schedule.Dress, 40, 1, 0), func(s *Step) { s.AtOnce = "cool" }), 40, nil, false},
		{"taken out while it steams", with(stepAt("x", schedule.Unload, 30, 1, 0), func(s *Step) { s.Run, s.Parts = "r1", []PartAt{{0, 0}} }), 30, nil, false},
		{"taken out of what is done", with(stepAt("x", schedule.Unload, 30, 1, 0), func(s *Step) { s.Run, s.Parts = "r1", []PartAt{{0, 0}} }), 30, []string{"steam"}, true},
		{"taken out of another filling", with(stepAt("x", schedule.Unload, 30, 1, 0), func(s *Step) { s.Run, s.Parts = "r2", []PartAt{{0, 0}} }), 30, nil, true},
		{"another part lifted out", with(stepAt("x", schedule.LiftOut, 30, 1, 0), func(s *Step) { s.Run, s.Parts = "r1", []PartAt{{0, 1}} }), 30, nil, true},
		{"tried while it steams", with(stepAt("x", schedule.Test, 20, 1, 0), func(s *Step) { s.Run, s.Parts = "r1", []PartAt{{0, 0}} }), 20, nil, true},
	} {
		cooking := Cooking{over: map[string]bool{}}
		for _, name := range []string{"boil", "scrub", "test", "steam", "cool"} {
			cooking.Plan.Steps = append(cooking.Plan.Steps, steps[name])
		}
		for _, id := range c.over {
			cooking.over[id] = true
		}
		assert.Equal(t, c.began, cooking.began(c.step, atMinute(c.minute)), c.about)
	}
}

// A dish is on the table with the others, or when all of it is done.
func TestWhenADishIsOnTheTable(t *testing.T) {
	of := func(s Step, dish string) Step { s.Dishes = []string{dish}; return s }
	c := Cooking{Plan: Plan{ServeAt: atMinute(30), Steps: []Step{of(stepAt("a", schedule.Finish, 20, 5, 0), "A"), of(stepAt("b", schedule.Finish, 20, 15, 0), "B")}}}
	assert.Equal(t, []time.Time{atMinute(30), atMinute(35), atMinute(30)}, []time.Time{c.tableAt("A"), c.tableAt("B"), c.tableAt("C")})
}

// What is taken at its word has a bound, told with it.
func TestTheMostThatIsTakenAtItsWord(t *testing.T) {
	for field, most := range map[string]int{"sides": 20, "dishes": 100, "rounds": 20, "layers": 100} {
		for n, fits := range map[int]bool{1: true, most: true, most + 1: false, 0: false} {
			w := EaterWords{For: "2"}
			*map[string]*string{"sides": &w.Sides, "dishes": &w.Dishes, "rounds": &w.Rounds, "layers": &w.Layers}[field] = fmt.Sprint(" ", n, " ")
			q := Question{Mode: Share}
			err := q.Seat(w, false)
			if fits {
				require.NoError(t, err, "%s %d", field, n)
				assert.Equal(t, n, map[string]int{"sides": q.Sides, "dishes": q.MostDishes, "rounds": q.Rounds, "layers": q.Layers}[field])
				continue
			}
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong, "%s %d", field, n)
			assert.Equal(t, []string{field, fmt.Sprintf("a whole number from 1 to %d", most)}, []string{wrong.Field, wrong.Accepted})
		}
	}
}

// The inspector lets no cold box stand whose ice cannot take up what leaks into the best
// of boxes: 0.3 W/K for an hour at 20 K are 21,600 J, and a gram of ice that melts (334 J)
// and warms to 5 °C (4.186 J/K) takes up 354.93 J: 60.86 g.
func TestTheIceOfTheBoxIsInspected(t *testing.T) {
	for _, c := range []struct {
		ice, holds, air float64
		minutes         int
		found           bool
	}{
		{60.9, 5, 25, 60, false}, {60.8, 5, 25, 60, true}, {121.8, 5, 25, 120, false}, {121.6, 5, 25, 120, true},
		{64.7, 0, 20, 60, false}, {64.6, 0, 20, 60, true}, {64.7, -5, 15, 60, false}, {64.6, -5, 15, 60, true}, {0, 5, 4, 60, false},
	} {
		box := stepAt("s2", schedule.ColdBox, 10, 20, 0)
		p := Plan{AirC: c.air, ServeAt: atMinute(c.minutes), Steps: []Step{stepAt("s1", schedule.Scrub, 0, 5, 0), box}}
		p.Kitchen.ColdBox = recipes.ColdBox{There: true, IceG: c.ice, HoldsC: c.holds}
		inspector := check{plan: p}
		inspector.ice()
		assert.Equal(t, c.found, len(inspector.found) == 1, c)
		inspector = check{plan: p}
		inspector.plan.Steps = p.Steps[:1]
		inspector.ice()
		assert.Empty(t, inspector.found, "nothing is in the box")
	}
}

// What is set apart of one dish for one kind of guest is counted together, on whatever
// plates it stands; a child's is half a portion.
func TestWhatIsSetApartIsCountedTogether(t *testing.T) {
	dish := Dish{Recipe: recipes.Dish{Name: "Salad"}}
	dish.Makeup.Kinds.Foods = []string{"dressed-salad"}
	adult, child := recipes.Guests{Count: 3}, recipes.Guests{Count: 1, Child: true}
	p := Plan{Dishes: []Dish{dish}, Plates: []Plate{{Guest: adult, Number: 1, Dishes: []string{"Mash"}, Apart: []string{"Salad"}}, {Guest: adult, Number: 2, Apart: []string{"Salad"}},
		{Guest: child, Number: 1, Apart: []string{"Salad"}}, {Guest: adult, Number: 1, Dishes: []string{"Salad"}}}}
	all, err := p.apartsOf(Question{}, nil)
	require.NoError(t, err)
	var told []string
	for _, a := range all {
		told = append(told, fmt.Sprint(a.Dish, " ", a.People, " ", a.Portions.RatString()))
	}
	assert.Equal(t, []string{"Salad 3 3", "Salad 1 1/2"}, told)
}
