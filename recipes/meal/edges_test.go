package meal

import (
	"context"
	"fmt"
	"math/big"
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

// What is to be minded is told once for each rule, whatever another dish poisons by.
func TestEachPoisonIsMindedOnce(t *testing.T) {
	dish := func(name, crop, other string) Dish {
		text := "name: " + name + "\nportions: 2\nserved: cold\ncrops: [{crop: " + crop + ", amount: 300 g, prepared: as-lifted, cut: whole, cook: steam, until: tender}]\nothers: [{item: " + other + ", amount: 10 g}]\nmethod: [Make it.]\n"
		d, err := recipes.LoadDish("d.yaml", []byte(text), recipes.DefaultKitchen(units.Metric))
		require.NoError(t, err)
		return Dish{Recipe: d, Makeup: MakeupOf(d)}
	}
	var told []string
	for _, w := range poisonsOf([]Dish{dish("A", "courgette", "rhubarb leaf"), dish("B", "rhubarb", "butter"), dish("C", "courgette", "butter"), dish("D", "rhubarb", "butter")}) {
		told = append(told, fmt.Sprint(w.Severity, " ", w.Dish, " ", w.Rule))
	}
	assert.ElementsMatch(t, []string{"danger A rhubarb-leaf", "note  cucurbit-bitter", "note  rhubarb-leaf"}, told)
	told = nil
	for _, w := range poisonsOf([]Dish{dish("A", "courgette", "butter"), dish("B", "courgette", "broad beans")}) {
		told = append(told, w.Rule)
	}
	assert.Len(t, told, 2, "what a dish poisons by besides is told: %s", told)
}

// A dish of which nothing is cooked cools in no time anybody could tell; one that goes
// from the pot into ice water as fast as that cools it.
func TestWhatIsThereToCool(t *testing.T) {
	k := recipes.DefaultKitchen(units.Metric)
	_, ok := cool(nil, k, 20, Dish{})
	assert.False(t, ok)
	raw := Dish{Parts: []Part{{Line: recipes.CropLine{Cook: "raw"}}}}
	_, ok = cool(nil, k, 20, raw)
	assert.False(t, ok)
	for _, minutes := range []float64{0.5, 4} {
		iced, ok := cool(nil, k, 20, Dish{Parts: []Part{raw.Parts[0], {Pot: &Pot{IceMinutes: minutes}}}})
		assert.True(t, ok)
		assert.Equal(t, minutes, iced.spread.DressLatest)
		assert.Equal(t, minutes, iced.spread.FridgeLatest)
	}
}

// What an inspector finds in a plan is a danger, before all else.
func TestWhatIsAmissIsADanger(t *testing.T) {
	plan := finished(Plan{Warnings: []Warning{{Severity: Notice, Concern: Remark, Says: "odd"}}, Plates: []Plate{{Dishes: []string{"Trifle"}}}})
	assert.Equal(t, []Warning{{Severity: Danger, Concern: Amiss, Dish: "Trifle", Says: "it is on a plate and not made"}, {Severity: Notice, Concern: Remark, Says: "odd"}}, plan.Warnings)
}

// What keeping lets nobody eat lasts for no time, and no fridge keeps it.
func TestWhatNobodyMayEatLastsForNoTime(t *testing.T) {
	q := Question{On: noon.Truncate(24 * time.Hour), Kitchen: recipes.DefaultKitchen(units.Metric), AirC: 20}
	for _, c := range []struct {
		food      string
		out, kept bool
	}{{"home-canned", false, false}, {"raw-vegetables", false, false}, {"chutney-jam", true, false}, {"mash", true, true}} {
		var dish Dish
		dish.Makeup.Kinds = keeping.Kinds{Foods: []string{c.food}}
		eaten, kept, err := lastsUnchilled(q, dish)
		require.NoError(t, err)
		if !c.out {
			assert.Zero(t, eaten, c.food)
		}
		if !c.kept {
			assert.Zero(t, kept, c.food)
		}
		assert.Equal(t, []bool{c.out, c.kept}, []bool{eaten > time.Minute, kept > time.Minute}, c.food)
		if !c.out {
			in, err := q.lastsChilled(dish, 10, 60)
			require.NoError(t, err)
			assert.Zero(t, in)
		}
	}
}

// Whoever trusts the pan counts what is topped up out of what is at hand, and a pan that
// runs dry to the drop boils dry.
func TestThePanIsFollowedToTheDrop(t *testing.T) {
	steam := func(id string, from int) Step {
		s := stepAt(id, schedule.Steam, from, 10, 1)
		s.Run = id
		return s
	}
	up := func(from int) Step { return stepAt("u", schedule.TopUp, from, 1, 0) }
	for _, c := range []struct {
		about        string
		start, water float64
		steps        []Step
		dry          []string
	}{
		{"a drop is left", 100.1, 100.1, []Step{steam("r1", 0)}, nil},
		{"none is", 100, 100, []Step{steam("r1", 0)}, []string{"r1"}},
		{"topped up with what is there", 150, 200, []Step{steam("r1", 0), up(10), steam("r2", 11)}, []string{"r2"}},
		{"a drop more", 150, 200.1, []Step{steam("r1", 0), up(10), steam("r2", 11)}, nil},
		{"no more than the pan held", 150, 900, []Step{steam("r1", 0), up(10), steam("r2", 11), steam("r3", 21)}, []string{"r3"}},
		{"what was topped up is gone", 150, 230, []Step{steam("r1", 0), up(10), steam("r2", 11), up(21), steam("r3", 22)}, []string{"r3"}},
		{"a filling of two is counted once", 100.1, 100.1, []Step{steam("r1", 0), steam("r1", 0)}, nil},
	} {
		i := check{plan: Plan{Steps: c.steps, Supplies: Supplies{StartML: c.start, WaterML: c.water},
			Dishes: []Dish{{Parts: []Part{{Steam: &Steaming{Load: heat.Load{EvaporatesG: 10}}}}}}}}
		i.water()
		var dry []string
		for _, f := range i.found {
			dry = append(dry, f.Says[len("the pan boils dry in "):])
		}
		assert.Equal(t, c.dry, dry, c.about)
	}
}

// A crop that steam does not make safe boils its half hour to the second, and as long as
// heat says.
func TestHowLongThePotBoilsIsInspected(t *testing.T) {
	for _, c := range []struct {
		least, high float64
		minutes     int
		early       bool
	}{{30, 12, 30, false}, {30, 12, 29, true}, {0, 12, 12, false}, {0, 12.000001, 12, false}, {0, 12.1, 12, true}} {
		boil := stepAt("s1", schedule.BoilIn, 10, c.minutes, 1)
		boil.Parts = []PartAt{{0, 0}}
		part := Part{Line: recipes.CropLine{Crop: "bean", Cook: "boil"}, Pot: &Pot{Rounds: 1, High: c.high, AtLeast: time.Duration(c.least) * time.Minute}}
		i := check{plan: Plan{Steps: []Step{boil}, Dishes: []Dish{{Recipe: recipes.Dish{Name: "Beans"}, Parts: []Part{part}}}}}
		i.cookedInPot(PartAt{0, 0}, stepAt("s0", schedule.Scrub, 0, 10, 0), atMinute(10+c.minutes))
		assert.Equal(t, c.early, len(i.found) == 1, c)
	}
}

// Water boils for what goes into it where a boil that takes time was on the same ring
// just before, or the filling before was lifted out of it.
func TestWhatLeavesWaterBoiling(t *testing.T) {
	in := stepAt("s3", schedule.BoilIn, 10, 5, 2)
	other := stepAt("s2", schedule.BoilIn, 0, 5, 2)
	out := stepAt("s9", schedule.LiftOut, 5, 1, 0)
	out.AtOnce = "s2"
	i := check{plan: Plan{Steps: []Step{other, out, in}}}
	for _, c := range []struct {
		before Step
		want   bool
	}{
		{stepAt("s1", schedule.Boil, 0, 9, 2), true}, {stepAt("s1", schedule.Boil, 0, 0, 2), false}, {stepAt("s1", schedule.Boil, 0, 9, 1), false},
		{out, true}, {stepAt("s9", schedule.LiftOut, 5, 1, 0), false}, {stepAt("s1", schedule.Own, 0, 9, 2), false}, {Step{}, false},
	} {
		assert.Equal(t, c.want, i.leavesItBoiling(c.before, in), "%s %s", c.before.ID, c.before.Kind)
	}
	i.plan.Steps[0].Ring = 1
	assert.False(t, i.leavesItBoiling(out, in), "on the other ring")
}

// No filling is topped up for that boils first; a pot that boils before it is none.
func TestTheFirstFillingIsNotToppedUp(t *testing.T) {
	of := func(run string, kind schedule.Kind, from int) Step {
		s := stepAt(run+string(kind), kind, from, 1, 1)
		s.Run = run
		return s
	}
	for _, c := range []struct {
		steps []Step
		left  []string
	}{
		{nil, nil},
		{[]Step{of("", schedule.Boil, 0), of("", schedule.TopUp, 1)}, []string{"boil", "top-up"}},
		{[]Step{of("r2", schedule.Boil, 0), of("r2", schedule.TopUp, 1), of("r1", schedule.Boil, 2), of("r1", schedule.TopUp, 3)}, []string{"r2boil", "r1boil", "r1top-up"}},
		{[]Step{of("", schedule.Boil, 0), of("", schedule.TopUp, 0), of("r1", schedule.Boil, 1), of("r1", schedule.TopUp, 2)}, []string{"boil", "top-up", "r1boil"}},
	} {
		timetable := Timetable{Steps: c.steps}
		timetable.dropFirstTopUp()
		var left []string
		for _, s := range timetable.Steps {
			left = append(left, s.ID)
		}
		assert.Equal(t, c.left, left)
	}
}

// An amount behind a name begins with a figure; a name may have one in it.
func TestWhatIsAnAmount(t *testing.T) {
	for word, want := range map[string]bool{"4": true, "600 g": true, ".5 kg": true, "½": true, "¼ kg": true, "¾": true, "0": true, "": false, "mash": false, "a4": false, "s3": false, "g 5": false, "4th soup": false} {
		assert.Equal(t, want, isAmount(word), word)
	}
}

// What heat is asked is remembered by all that it rests on, where it answers; a moment's
// start is told by its value.
func TestWhatIsRemembered(t *testing.T) {
	r, asked := newReckoned(), 0
	ask := func(question any, err error) (int, error) {
		return remembered(r, question, func() (int, error) { asked++; return asked, err })
	}
	for _, c := range []struct {
		question any
		err      error
		want     int
	}{{"a", nil, 1}, {"a", nil, 1}, {"b", heat.ErrNotDone, 2}, {"b", heat.ErrNotDone, 3}, {"b", nil, 4}, {"b", nil, 4}, {"a", nil, 1}} {
		got, err := ask(c.question, c.err)
		assert.Equal(t, c.want, got)
		if got != 1 && got != 4 {
			require.ErrorIs(t, err, c.err)
		} else {
			require.NoError(t, err)
		}
	}
	five, alsoFive, six := 5.0, 5.0, 6.0
	assert.Equal(t, conditionsOf(heat.Conditions{StartC: &five}), conditionsOf(heat.Conditions{StartC: &alsoFive}))
	assert.NotEqual(t, conditionsOf(heat.Conditions{StartC: &five}), conditionsOf(heat.Conditions{StartC: &six}))
	zero := 0.0
	assert.NotEqual(t, conditionsOf(heat.Conditions{StartC: &zero}), conditionsOf(heat.Conditions{}))
	assert.Nil(t, conditionsOf(heat.Conditions{StartC: &five}).StartC)
	assert.NotEqual(t, listed([]int{1, 2}), listed([]int{2, 1}))
	assert.Equal(t, listed([]int{1, 2}), listed([]int{1, 2}))
	assert.Nil(t, listed[int](nil))
}

// Parts are walked until somebody has seen enough.
func TestPartsAreWalked(t *testing.T) {
	dishes := []Dish{{Parts: make([]Part, 2)}, {Parts: make([]Part, 1)}}
	var seen []PartAt
	for at := range eachPart(dishes) {
		if seen = append(seen, at); at == (PartAt{0, 1}) {
			break
		}
	}
	assert.Equal(t, []PartAt{{0, 0}, {0, 1}}, seen)
}

// The largest of no sizes is none; a steamer without any width holds nothing; a dish for
// nobody, or of which no amount is told, takes nothing.
func TestNothingTakesNothing(t *testing.T) {
	assert.Equal(t, 0.0, largestOf(nil))
	assert.Equal(t, 65.0, largestOf([]heat.SizeClass{{HighMM: 45}, {HighMM: 65}, {HighMM: 20}}))
	line := recipes.CropLine{Crop: "potato", Cut: "cube 25 mm", Until: "soft", Cook: "steam", Amount: units.MustParse("700 g")}
	k := newKitchen(Question{Kitchen: recipes.DefaultKitchen(units.Metric)})
	_, known := k.layer(line)
	assert.True(t, known)
	k.equipment.DiameterMM = -1
	_, known = k.layer(line)
	assert.False(t, known)
	dish := recipes.Dish{Portions: 4, Crops: []recipes.CropLine{line, {Amount: units.MustParse("to taste")}}}
	assert.Equal(t, "175", preparedPerPortion(dish, 0).RatString())
	assert.Equal(t, "0", preparedPerPortion(dish, 1).RatString())
	dish.Portions = 1
	assert.Equal(t, "700", preparedPerPortion(dish, 0).RatString())
	dish.Portions = 0
	assert.Equal(t, "0", preparedPerPortion(dish, 0).RatString())
}

// A dish whose crops cannot be weighed is refused with its file; a lot of which nothing
// is taken keeps what scaling says of the dish.
func TestADishThatCannotBeWeighed(t *testing.T) {
	q := Question{Dishes: []recipes.Dish{{Name: "Odd", File: "dishes/odd.yaml", Portions: 4, Crops: []recipes.CropLine{{Crop: "potato", Amount: units.MustParse("to taste")}}}}}
	_, err := Solve(context.Background(), q)
	require.ErrorContains(t, err, "dishes/odd.yaml: ")
}

// A part that no lot is drawn on for is as scaling has it.
func TestAPartFromNoLot(t *testing.T) {
	d, err := recipes.LoadDish("d.yaml", []byte("name: D\nportions: 2\nserved: hot\ncrops: [{crop: potato, amount: 300 g, prepared: peeled, cut: cube 25 mm, cook: steam, until: tender}]\nmethod: [Make it.]\n"), recipes.DefaultKitchen(units.Metric))
	require.NoError(t, err)
	q := Question{Kitchen: recipes.DefaultKitchen(units.Metric), Dishes: []recipes.Dish{d}}
	s := Solved{}
	s.Sharing.Portions = []int{2}
	part := Scale(q, s).Dishes[0].Parts[0]
	assert.Nil(t, part.From)
	assert.Equal(t, scaleDish(q, d, big.NewRat(2, 1)).Parts[0].Lifted, part.Lifted)
	assert.True(t, part.Lifted.GreaterThan(decimal.NewFromInt(300)))
}

// A plan without a step of serving is served when it was to be, and what broke before and
// holds now is warned of no more; other warnings stay.
func TestWarningsOfAPlanThatIsCooked(t *testing.T) {
	broken, other := Warning{Severity: Danger, Concern: ClockBroken, Dish: "D"}, Warning{Severity: Notice, Concern: Remark}
	c, err := Follow(Plan{ServeAt: noon, Warnings: []Warning{broken, other}}, nil, noon)
	require.NoError(t, err)
	assert.Equal(t, []Warning{other}, c.Plan.Warnings)
	assert.Equal(t, noon, c.Plan.ServeAt)
}

// A dish of one size is reckoned at that size; all that its figures rest on is told, the
// rules of how long it stands too.
func TestAReckonerOfOneSize(t *testing.T) {
	text := "name: Mash\nportions: 4\nsmallest: 4\nlargest: 4\nserved: hot\ncrops: [{crop: potato, amount: 700 g, prepared: peeled, cut: cube 25 mm, cook: steam, until: soft}]\nothers: [{item: butter, amount: 60 g}]\nmethod: [Mash.]\n"
	r := reckonedDish(t, "", text)
	require.Len(t, r.Dishes[0].Made, 1)
	var figures []string
	for _, reason := range r.Reasons() {
		figures = append(figures, reason.Figure)
	}
	require.NotEmpty(t, r.Dishes[0].Stands.Out.Rules)
	for _, standing := range []Standing{r.Dishes[0].Stands.Out, r.Dishes[0].Stands.HotOut, r.Dishes[0].Stands.Fridge, r.Dishes[0].Stands.TableOut, r.Dishes[0].Stands.WeakEat} {
		for _, rule := range standing.Rules {
			assert.Contains(t, figures, "rule "+rule)
		}
	}
	for _, figure := range []string{"potato: as-lifted to washed", "butter: holds", "kitchen.yaml"} {
		assert.Contains(t, figures, figure)
	}
}

// Whoever calls off a timetable is heeded while it is sought, and while it is tried what
// would bring serving nearer; what heat cannot reckon of a change helps nobody, and the
// others are tried all the same.
func TestChangesThatCannotBeTried(t *testing.T) {
	raw := func(name string, parts int) Dish {
		d := Dish{Recipe: recipes.Dish{Name: name, Served: recipes.Warm}}
		for range parts {
			d.Parts = append(d.Parts, Part{Line: recipes.CropLine{Crop: "carrot", Cook: "raw"}})
		}
		return d
	}
	q := Question{On: noon.Truncate(24 * time.Hour), Now: atMinute(1), ServeAt: noon, Kitchen: recipes.DefaultKitchen(units.Metric), AirC: 20}
	called, stop := context.WithCancel(context.Background())
	stop()
	many := Loaded{Dishes: []Dish{raw("Salad", 70)}}
	_, err := Schedule(called, q, many)
	require.ErrorIs(t, err, context.Canceled)
	found, err := changes(called, q, Timetable{Loaded: many, Allow: 9 * time.Hour})
	require.ErrorIs(t, err, context.Canceled)
	assert.Nil(t, found)

	giant := Dish{Recipe: recipes.Dish{Name: "Giant"}, Parts: []Part{{Line: neverDoneLine("steam"), Prepared: decimal.NewFromInt(3000)}}}
	found, err = changes(context.Background(), q, Timetable{Loaded: Loaded{Dishes: []Dish{giant, raw("Salad", 1)}}, Allow: 9 * time.Hour})
	require.NoError(t, err)
	require.Len(t, found, 1)
	assert.Equal(t, []any{LeaveOut, "Giant"}, []any{found[0].Kind, found[0].Dish})
	assert.Equal(t, atMinute(1).Add(9*time.Hour-found[0].Saves), found[0].Serve)
}

// Cuts that heat can plan for a piece whose time it cannot tell are refused.
func TestCutsOfAPieceWithoutATime(t *testing.T) {
	k, piece := newKitchen(Question{Kitchen: recipes.DefaultKitchen(units.Metric)}), neverDone(t)
	piece.Cut = heat.Cut{Shape: heat.Cube, SizeMM: 20}
	require.ErrorIs(t, k.cut(&Part{Piece: piece, Steam: &Steaming{AtOnceG: 1000}}), heat.ErrNotDone)
}

// What the rules know of nothing in a raw dish is told too.
func TestARawDishByNobodysRules(t *testing.T) {
	kitchen := recipes.DefaultKitchen(units.Metric)
	kitchen.Authority = "nobody"
	dish := Dish{Recipe: recipes.Dish{Name: "Salad"}, Parts: []Part{{Line: recipes.CropLine{Crop: "carrot", Cook: "raw"}}}}
	dish.Makeup.Kinds = keeping.Kinds{Foods: []string{"raw-vegetables"}}
	_, err := Keep(Question{Kitchen: kitchen, ServeAt: noon}, Loaded{Dishes: []Dish{dish}}, Timetable{})
	require.ErrorContains(t, err, "nobody")
	q := Question{Mode: One, On: noon.Truncate(24 * time.Hour), Now: noon, Kitchen: kitchen, Portions: big.NewRat(2, 1),
		Dishes: []recipes.Dish{{Name: "Salad", Portions: 2, Crops: []recipes.CropLine{{Crop: "carrot", Cook: "raw", Amount: units.MustParse("300 g")}}}}}
	_, err = MakeOne(context.Background(), q)
	require.ErrorContains(t, err, "nobody")
}

// Whoever leaves out raw egg gets nothing that a method stirs one into, though no line
// names it.
func TestARawEggInTheMethod(t *testing.T) {
	dish := recipes.Dish{Name: "D", Portions: 2, Served: recipes.Warm, Method: []string{"Stir in a raw egg yolk."}, Crops: []recipes.CropLine{{Crop: "potato", Cook: "steam"}}}
	groups, err := recipes.ParseGuests("1 adult no raw egg")
	require.NoError(t, err)
	suits, why := suitsGuest(dish, MakeupOf(dish), groups[0])
	assert.False(t, suits)
	assert.Equal(t, "has raw egg", why)
}

// No dish is cooked on a mountain that heat does not know.
func TestAMountainTooHigh(t *testing.T) {
	k := newKitchen(Question{Kitchen: recipes.DefaultKitchen(units.Metric)})
	k.conditions.AltitudeM = 99_999
	line := recipes.CropLine{Crop: "french-bean", Cut: "whole", Until: "tender"}
	for _, cook := range []string{"steam", "boil", "blanch"} {
		line.Cook = cook
		_, err := k.reckonHeat(line)
		require.Error(t, err, cook)
		require.Error(t, k.reckonLoads(&ReckonedHeat{}, line), cook)
	}
}

// Each dish that is dressed cold has its own place in the cold box, until it is served.
func TestTwoDishesInTheColdBox(t *testing.T) {
	var steps []Step
	for n, name := range []string{"A", "B"} {
		chill, dress := stepAt(fmt.Sprint("c", n), schedule.Chill, 0, 60, 0), stepAt(fmt.Sprint("d", n), schedule.Dress, 60+10*n, 10, 0)
		dress.After, dress.Dishes = []string{chill.ID}, []string{name}
		steps = append(steps, chill, dress)
	}
	timetable := Timetable{Steps: append(steps, stepAt("serve", schedule.Serve, 100, 1, 0))}
	q := Question{AirC: 20}
	q.Kitchen.ColdBox = recipes.ColdBox{There: true, IceG: 5000, HoldsC: 5}
	timetable.keepCold(&work{steps: make([]schedule.Step, 5)}, q)
	var boxed []string
	for _, step := range timetable.Steps {
		if step.Kind == schedule.ColdBox {
			boxed = append(boxed, fmt.Sprint(step.ID, " after ", step.AtOnce, " of ", step.Dishes, " from ", int(step.At.Sub(noon).Minutes()), " for ", int(step.Length.Minutes())))
		}
	}
	assert.Equal(t, []string{"s6 after d0 of [A] from 70 for 30", "s7 after d1 of [B] from 80 for 20"}, boxed)
	assert.Equal(t, []string{"s6", "s7"}, timetable.Steps[len(timetable.Steps)-1].After)
	assert.Equal(t, 100.0, timetable.Box.Needed)
}
