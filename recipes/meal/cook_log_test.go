package meal_test

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
	"trencher/units"
)

// What nobody can say of a step is told by its box, and nothing is written.
func TestWhatCannotBeSaidOfAStep(t *testing.T) {
	plan := aPlan(t)
	steam, scrub := stepOf(t, plan.Steps, schedule.Steam), stepOf(t, plan.Steps, schedule.Scrub)
	s := shelf{}
	_, err := cookOf(t, s, plan, scrub.End()).Tell(t.Context(), scrub.ID, "done")
	require.NoError(t, err)
	before := len(s[2031])
	for _, c := range []struct{ step, says, field string }{
		{scrub.ID, "done", "step"}, {"s99", "done", "step"}, {steam.ID, "maybe", "says"}, {"", "done", "step"},
		{stepOf(t, plan.Steps, schedule.Unload).ID, "not-yet", "says"}, {stepOf(t, plan.Steps, schedule.Unload).ID, "over", "says"},
	} {
		_, err := cookOf(t, s, plan, steam.End()).Tell(t.Context(), c.step, c.says)
		requireWrong(t, c.field, err, c.step+" "+c.says)
	}
	assert.Len(t, s[2031], before)
	heard, err := cookOf(t, s, plan, steam.End()).Tell(t.Context(), "", "five-late")
	require.NoError(t, err, "said of no step")
	assert.Equal(t, harvest.ToldFiveLate, heard.Told.What)
	assert.Nil(t, heard.Knife)
}

// Before there has been steam for half a minute no knife says anything of it.
func TestAKnifeBeforeThereIsSteam(t *testing.T) {
	plan := aPlan(t)
	steam := stepOf(t, plan.Steps, schedule.Steam)
	part := plan.Dishes[0].Parts[0].Steam
	free := steam.At.Add(time.Duration(part.Estimate.ComeUp * float64(time.Minute)))
	for after, kept := range map[time.Duration]bool{29 * time.Second: false, 31 * time.Second: true, 5 * time.Minute: true} {
		knife, err := follow(t, plan, free.Add(after)).KnifeTest(said(free.Add(after), steam.ID, harvest.ToldNotYet))
		require.NoError(t, err)
		assert.Equal(t, kept, knife != nil, after)
	}
	at := steam.End()
	knife, err := follow(t, plan, at).KnifeTest(said(at, steam.ID, harvest.ToldDone))
	require.NoError(t, err)
	require.NotNil(t, knife)
	assert.Equal(t, []any{"", "tender", at, steam.Tier}, []any{knife.Said, knife.Until, knife.At, knife.Tier})
	assert.InDelta(t, at.Sub(free).Minutes(), knife.Minutes, 0.051, "counted from free steam, to a tenth of a minute")
	over, err := follow(t, plan, at).KnifeTest(said(at, steam.ID, harvest.ToldOver))
	require.NoError(t, err)
	assert.Equal(t, "over", over.Said)
	for _, one := range []*harvest.Told{said(at, stepOf(t, plan.Steps, schedule.Load).ID, harvest.ToldDone), said(at, "s99", harvest.ToldDone), said(at, steam.ID, harvest.ToldFiveLate)} {
		none, err := follow(t, plan, at).KnifeTest(one)
		require.NoError(t, err)
		assert.Nil(t, none, "it is of no steaming")
	}
}

// fullShelf is a journal on a disk that is full after so many entries.
type fullShelf struct {
	shelf
	room int
}

var errFull = errors.New("no room left")

func (s *fullShelf) Write(e harvest.Entry) (string, error) {
	if len(s.shelf[2031]) >= s.room {
		return "", errFull
	}
	return s.shelf.Write(e)
}

// A journal that cannot be written is told; what was said comes last, so that what is
// half written is written again by saying it again.
func TestAFullDiskWhileCooking(t *testing.T) {
	plan := aPlan(t)
	steam := stepOf(t, plan.Steps, schedule.Steam)
	for room := 1; room <= 4; room++ {
		full := &fullShelf{shelf{}, room}
		log := cookOf(t, full.shelf, plan, steam.End()) // the plan stands in it
		log.Ledger = harvest.NewLedger(full, nil, true)
		_, err := log.Ledger.PlanCalled(t.Context(), harvest.LastPlan, steam.End())
		require.NoError(t, err)
		_, err = log.Tell(t.Context(), steam.ID, "done")
		if room == 4 { // the plan, the batch, the knife test, and what was said
			require.NoError(t, err)
			continue
		}
		require.ErrorIs(t, err, errFull)
		_, err = log.Write(t.Context(), meal.EventWords{Event: harvest.KindCooked, Name: "Mash", Food: "mash"})
		require.ErrorIs(t, err, errFull)
		again := cookOf(t, full.shelf, plan, steam.End())
		heard, err := again.Tell(t.Context(), steam.ID, "done")
		require.NoError(t, err)
		assert.Equal(t, room < 2, len(heard.Events) == 1, "the batch is not begun twice")
		assert.Equal(t, room < 3, heard.Knife != nil, "nor the knife test kept twice")
	}
}

// What is lifted out early of a filling is lifted out when it is done, later too.
func TestLiftingOutWaitsForWhatIsNotDone(t *testing.T) {
	q := question(t, []recipes.Dish{loadDish(t, "a.yaml", "name: Roots\nportions: 4\nserved: cold\ncrops: [{crop: beetroot, amount: 600 g, prepared: as-lifted, cut: whole, cook: steam, until: tender}, {crop: potato, amount: 300 g, prepared: scrubbed, cut: cube 20 mm, cook: steam, until: just-tender}]\nmethod: [Steam.]\n")},
		lot("bed-1/b", "beetroot", 900, 35, 55), lot("tub-1/a", "potato", 900, 20, 45))
	q.ServeAt = clockAt(20, 30)
	plan := makePlan(t, q)
	out := stepOf(t, plan.Steps, schedule.LiftOut)
	var early meal.Step
	for _, step := range plan.Steps {
		if step.Kind == schedule.Steam && step.End().Equal(out.At) {
			early = step
		}
	}
	require.NotEmpty(t, early.ID)
	told := append(punctual(plan, early.At), said(early.End(), early.ID, harvest.ToldNotYet))
	late := follow(t, plan, early.End(), told...)
	assert.Equal(t, early.End().Add(3*time.Minute), stepOf(t, late.Plan.Steps, schedule.LiftOut).At)
}

// The foods of a dish with their rules; what may stand in another's place counts too.
func TestFoodsOfADish(t *testing.T) {
	dish := loadDish(t, "d.yaml", "name: Potatoes\nportions: 4\nserved: cold\ncrops: [{crop: potato, amount: 600 g, prepared: scrubbed, cut: cube 25 mm, cook: steam, until: just-tender}]\nothers: [{item: plain yoghurt, amount: 100 g, instead: [{item: own mayonnaise, amount: 80 g}]}]\nmethod: [Steam.]\n")
	kinds := meal.KindsOfDish(dish)
	assert.Equal(t, "Potatoes", kinds.Dish)
	assert.Contains(t, kinds.Foods, "dressed-salad-raw-egg", "either may be taken")
	assert.Equal(t, meal.KindsOf(dish), kinds.Kinds)
	assert.Equal(t, kinds.Kinds.Rules(), kinds.Rules)
	assert.NotEmpty(t, kinds.Rules)
}

// Nothing made is an error that carries why.
func TestNothingMade(t *testing.T) {
	assert.EqualError(t, &meal.NothingMadeError{Plan: meal.Plan{Plot: "x"}}, "nothing can be made")
}

// A change that saves five minutes is told: two raw crops
// of one dish that two people wash at once, five minutes each.
func TestAChangeThatIsWorthIt(t *testing.T) {
	raw := func(name, served string, crops ...string) recipes.Dish {
		text := "name: " + name + "\nportions: 2\nlargest: 2\nserved: " + served + "\ncrops:\n"
		for _, crop := range crops {
			text += "  - {crop: " + crop + ", amount: 100 g, prepared: peeled, cook: raw}\n"
		}
		return loadDish(t, name+".yaml", text+"method: [Cut.]\n")
	}
	late := func(dishes ...recipes.Dish) (told []meal.Change) {
		q := question(t, dishes, lot("bed-1/c", "carrot", 900, 0, 0), lot("bed-2/k", "kohlrabi", 900, 0, 0))
		q.Now = clockAt(18, 25)
		for _, w := range makePlan(t, q).Warnings {
			if w.Concern == meal.Late {
				told = append(told, w.Late.Helps...)
			}
		}
		return told
	}
	helps := late(raw("Salad", "cold", "carrot", "kohlrabi"))
	warm := meal.Change{Kind: meal.ServeWarm, Dish: "Salad", Saves: 6 * time.Minute, Serve: clockAt(18, 40)} // it is dressed in 4 minutes, not 10
	assert.Equal(t, []meal.Change{warm, {Kind: meal.MoreHands, Saves: 5 * time.Minute, Serve: clockAt(18, 41)}}, helps, "washing 5 min, dressing 10, serving 1")
	warm.Serve = clockAt(18, 35)
	assert.Equal(t, []meal.Change{warm}, late(raw("Salad", "cold", "carrot")), "nobody else can help")
	assert.Empty(t, late(raw("Salad", "warm", "carrot")), "nothing would bring it nearer")
}

// A plan of which only serving is left is served when that ends; a batch of a dish
// that the plot has not needs to be told what it is.
func TestWhatIsLeftOfAPlan(t *testing.T) {
	plan := aPlan(t)
	plan.Clocks = nil
	plan.Steps = plan.Steps[len(plan.Steps)-1:]
	require.Equal(t, schedule.Serve, plan.Steps[0].Kind)
	plan.ServeAt = plan.ServeAt.Add(time.Hour)
	assert.Equal(t, plan.Steps[0].End(), follow(t, plan, plan.Steps[0].At).Plan.ServeAt)

	words := meal.EventWords{Event: harvest.KindCooked, Name: "Sunday's", Dish: "Pie"}
	_, err := words.Read(clockOf(clockAt(20, 0)), units.Metric, func() []recipes.Dish { return nil })
	requireWrong(t, "food", err, "there are no dishes to look among")
	words.Food = "mash"
	event, err := words.Read(clockOf(clockAt(20, 0)), units.Metric, func() []recipes.Dish { return nil })
	require.NoError(t, err)
	assert.Equal(t, []string{"Pie", "mash"}, []string{event.Dish, event.Food})
}
