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
