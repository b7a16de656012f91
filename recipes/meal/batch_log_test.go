package meal_test

import (
	"errors"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
)

// logAt is the log of batches of a journal, at a moment.
func logAt(s shelf, now time.Time, dishes ...recipes.Dish) meal.BatchLog {
	return meal.BatchLog{Ledger: harvest.NewLedger(s, nil, true), Judge: meal.Judge{Authority: keeping.Strictest, Moment: now}, Clock: clockOf(now), System: units.Metric,
		Dishes: func() []recipes.Dish { return dishes }}
}

// Events are written all together or not at all, each judged after those before it.
func TestEventsAreWrittenTogether(t *testing.T) {
	s, now := shelf{}, clockAt(20, 0)
	cooked := meal.EventWords{Event: harvest.KindCooked, Name: "Mash", Food: "mash", Amount: "4", At: "18:00"}
	logged, err := logAt(s, now).Write(t.Context(), cooked, meal.EventWords{Event: harvest.KindEaten, Name: "mash", Amount: "3", At: "18:30"})
	require.NoError(t, err)
	require.Len(t, logged, 2)
	assert.Equal(t, "Mash", logged[1].Event.Name, "by the batch's own spelling")
	assert.Equal(t, []string{"journal/2031/0.yaml", "journal/2031/1.yaml"}, []string{logged[0].Event.File, logged[1].Event.File})
	require.NotNil(t, logged[1].Batch)
	want, err := keeping.Judge(keeping.Batch{Food: "mash", CookedAt: clockAt(18, 0)}, keeping.Strictest, now)
	require.NoError(t, err)
	assert.Equal(t, want.Head, logged[1].Batch.Verdict.Head)
	assert.Equal(t, clockAt(18, 0), logged[0].Batch.CookedAt)
	reasons := logged.Reasons()
	assert.Equal(t, harvest.WhenReason(clockAt(18, 0)), reasons[0])
	assert.Contains(t, reasons, harvest.WhenReason(clockAt(18, 30)))
	assert.Contains(t, reasons, logged[0].Batch.Verdict.RuleReasons()[0])

	rest := logAt(s, now)
	gone, err := rest.Write(t.Context(), meal.EventWords{Event: harvest.KindBinned, Name: "Mash", At: "19:00"})
	require.NoError(t, err)
	assert.Nil(t, gone[0].Batch, "nothing is left of it")
	assert.Equal(t, []units.Reason{harvest.WhenReason(clockAt(19, 0))}, gone.Reasons())

	for field, wrong := range map[string]meal.EventWords{
		"batch": {Event: harvest.KindEaten, Name: "Soup"}, "at": {Event: harvest.KindCooked, Name: "Soup", Food: "soup", At: "23:00"},
		"until": {Event: harvest.KindOut, Name: "Salad", At: "19:30", Until: "19:00"}, "amount": {Event: harvest.KindCooked, Name: "Soup", Food: "soup", Amount: "much"},
	} {
		s := shelf{}
		_, err := logAt(s, now).Write(t.Context(), meal.EventWords{Event: harvest.KindCooked, Name: "Salad", Food: "dressed-salad", At: "18:00"}, wrong)
		requireWrong(t, field, err, wrong.Name)
		assert.Empty(t, s[2031], "nothing of it is written")
		_, err = logAt(s, now).Check(t.Context(), wrong)
		if field != "until" {
			requireWrong(t, field, err, wrong.Name)
		}
	}
	event, err := logAt(s, now).Check(t.Context(), meal.EventWords{Event: harvest.KindCooked, Name: "Soup", Food: "soup", At: "19:00"})
	require.NoError(t, err)
	assert.Equal(t, clockAt(19, 0), event.At)
	assert.Len(t, s[2031], 3, "what is only checked is not written")
}

// A batch is judged at the moment of the clock, or of the event where that is later.
func TestABatchIsJudgedWhenItIsTold(t *testing.T) {
	for told, moment := range map[string]time.Time{"18:00": clockAt(20, 0), "20:00": clockAt(20, 0)} {
		log := logAt(shelf{}, clockAt(20, 0))
		log.Judge.Moment = clockAt(19, 0)
		if told == "18:00" {
			log.Judge.Moment = clockAt(20, 0)
		}
		logged, err := log.Write(t.Context(), meal.EventWords{Event: harvest.KindCooked, Name: "Mash", Food: "mash", At: told})
		require.NoError(t, err)
		assert.Equal(t, moment, logged[0].Batch.Verdict.At, told)
	}
}

// The batches of a plan are logged by its ID, all at one time, once.
func TestBatchesAsPlanned(t *testing.T) {
	dishes := twoDishes(t)
	plan := &harvest.Planned{Header: harvest.Header{At: clockAt(10, 0)}, ID: "k3fqa", Makes: []harvest.Making{{Dish: dishes[0].Name, Portions: 4}, {Dish: dishes[1].Name, Portions: 2}}}
	s := shelf{}
	_, err := s.Write(plan)
	require.NoError(t, err)
	_, err = logAt(s, clockAt(19, 0), dishes...).AsPlanned(t.Context(), "other", "")
	requireWrong(t, "as-planned", err, "another plan")
	_, err = logAt(s, clockAt(19, 0), dishes[0]).AsPlanned(t.Context(), "k3fqa", "")
	requireWrong(t, "as-planned", err, "a dish that is no more")
	for at, doubt := range map[string]bool{"09:59": true, "yesterday 18:00": true, "10:00": false} {
		early := shelf{2031: slices.Clone(s[2031])}
		_, err = logAt(early, clockAt(19, 0), dishes...).AsPlanned(t.Context(), "k3fqa", at)
		var unsure *harvest.Unsure
		require.Equal(t, doubt, errors.As(err, &unsure), "%s: %v", at, err)
		if doubt {
			assert.Contains(t, err.Error(), "Its plan, k3fqa, was written down at 2031-07-12 10:00, after that")
			assert.Len(t, early[2031], 1, "nothing is written")
		}
	}
	sure := logAt(shelf{2031: slices.Clone(s[2031])}, clockAt(19, 0), dishes...)
	sure.Ledger.Sure = true
	told, err := sure.AsPlanned(t.Context(), "k3fqa", "09:00")
	require.NoError(t, err)
	assert.Len(t, told[1].Warnings, 2, "written as it is, and told")
	logged, err := logAt(s, clockAt(19, 0), dishes...).AsPlanned(t.Context(), "k3fqa", "18:00")
	require.NoError(t, err)
	require.Len(t, logged, 2)
	assert.Equal(t, []any{dishes[0].Name, "4", "k3fqa", clockAt(18, 0)}, []any{logged[0].Event.Name, logged[0].Event.Amount.String(), logged[0].Event.Plan, logged[0].Event.At})
	_, err = logAt(s, clockAt(19, 0), dishes...).AsPlanned(t.Context(), "k3fqa", "")
	requireWrong(t, "as-planned", err, "twice")
}

// A dish of two parts is cooked once: its batch begins when the first of it leaves
// the heat.
func TestABatchBeginsOnce(t *testing.T) {
	q := question(t, []recipes.Dish{loadDish(t, "d.yaml", twoCrops)}, lot("tub-1/a", "potato", 2500, 20, 45), lot("bed-1/b", "beetroot", 900, 35, 55))
	plan := makePlan(t, q)
	var steams []meal.Step
	for _, step := range plan.Steps {
		if step.IsCooking() {
			steams = append(steams, step)
		}
	}
	require.Len(t, steams, 2)
	first, second := said(steams[0].End(), steams[0].ID, harvest.ToldDone), said(steams[1].End(), steams[1].ID, harvest.ToldOver)
	events := follow(t, plan, steams[0].End()).Events(first, "k3fqa")
	require.Len(t, events, 1)
	assert.Equal(t, meal.EventWords{Event: harvest.KindCooked, Name: "Beetroot and potato", Dish: "Beetroot and potato", Plan: "k3fqa", Amount: events[0].Amount}, events[0])
	assert.Empty(t, follow(t, plan, steams[1].End(), first).Events(second, "k3fqa"), "it has begun already")
	assert.Len(t, follow(t, plan, steams[1].End()).Events(second, "k3fqa"), 1, "nobody has told of the first")
	assert.Empty(t, follow(t, plan, steams[0].End()).Events(said(steams[0].End(), steams[0].ID, harvest.ToldNotYet), "k3fqa"))
	assert.Empty(t, follow(t, plan, steams[0].End()).Events(said(steams[0].End(), "s99", harvest.ToldDone), "k3fqa"))
}
