package meal_test

import (
	"context"
	"fmt"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes/heat"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
	"trencher/units"
)

// odd is an entry that replaces itself, so that nobody knows what stands.
func odd() harvest.Entry {
	e := &harvest.BatchEvent{Event: harvest.KindCooked, Name: "Odd", Food: "mash"}
	e.At, e.File, e.Replaces = clockAt(9, 0), "journal/2031/odd.yaml", "odd.yaml"
	return e
}

// A journal that contradicts itself is told by all that follows or logs by it, and
// nothing is written; a plan to be cooked is not offered, and the knife tests are read
// all the same.
func TestAJournalThatContradictsItself(t *testing.T) {
	plan := aPlan(t)
	steam := stepOf(t, plan.Steps, schedule.Steam)
	s := shelf{}
	log := cookOf(t, s, plan, steam.End())
	offered, _ := log.Planned(t.Context())
	require.NotNil(t, offered, "before that")
	log.Ledger.Entries = append(log.Ledger.Entries, odd())
	before := len(s[2031])
	_, err := log.Cooking()
	require.ErrorContains(t, err, "names itself")
	_, err = log.Tell(t.Context(), steam.ID, "done")
	require.ErrorContains(t, err, "names itself")
	_, err = log.AsPlanned(t.Context(), log.Record.ID, "")
	require.ErrorContains(t, err, "names itself")
	plan2, words := log.Planned(t.Context())
	assert.Nil(t, plan2)
	assert.Nil(t, words)
	assert.Len(t, s[2031], before)

	knife := &harvest.Steamed{Crop: "potato", Cut: "cube 25 mm", Until: "tender", Minutes: 14}
	knife.File = "journal/2031/knife.yaml"
	tests, unread := meal.KnifeTests([]harvest.Entry{knife, odd()})
	assert.Len(t, tests, 1)
	assert.Empty(t, unread)
}

// An event that keeping cannot judge is told with its batch and its moment, and nothing
// of it is written.
func TestAnEventThatCannotBeJudged(t *testing.T) {
	s := shelf{}
	log := logAt(s, clockAt(20, 0))
	log.Judge.Authority = "nobody"
	_, err := log.Write(t.Context(), meal.EventWords{Event: harvest.KindCooked, Name: "Mash", Food: "mash", At: "18:00"})
	require.ErrorContains(t, err, "Mash cooked at 18:00 cannot be: ")
	assert.Empty(t, s[2031])
}

// A plan is offered as what is cooked for a day after it was written down, to the minute.
func TestHowLongAPlanIsOffered(t *testing.T) {
	dishes := twoDishes(t)
	for ago, offered := range map[time.Duration]bool{0: true, 24 * time.Hour: true, 24*time.Hour + time.Second: false} {
		s := shelf{}
		_, err := s.Write(&harvest.Planned{Header: harvest.Header{At: clockAt(20, 0).Add(-ago)}, ID: "k3fqa", Makes: []harvest.Making{{Dish: dishes[0].Name, Portions: 4}}})
		require.NoError(t, err)
		plan, words := logAt(s, clockAt(20, 0), dishes...).Planned(t.Context())
		assert.Equal(t, offered, plan != nil, ago)
		assert.Equal(t, offered, len(words) == 1, ago)
	}
	plan, words := logAt(shelf{}, clockAt(20, 0), dishes...).Planned(t.Context())
	assert.Nil(t, plan, "none was written down")
	assert.Nil(t, words)
	s := shelf{}
	_, err := s.Write(&harvest.Planned{Header: harvest.Header{At: clockAt(19, 0)}, ID: "k3fqa", Makes: []harvest.Making{{Dish: "Gone", Portions: 4}}})
	require.NoError(t, err)
	plan, _ = logAt(s, clockAt(20, 0), dishes...).Planned(t.Context())
	assert.Nil(t, plan, "its dish is no more")
}

// A knife test that no answer could rest on is refused: of a load that is none, of a
// piece without a size, of minutes that cannot be.
func TestKnifeEntriesThatAreRefused(t *testing.T) {
	crop, err := heat.LookupCrop("potato", "waxy")
	require.NoError(t, err)
	none := 0.0
	q := heat.Question{Crop: crop, Cut: heat.Cut{Shape: heat.Cube, SizeMM: 25}, Until: heat.Tender}
	_, err = meal.KnifeEntry(q, "14 min tender")
	require.NoError(t, err)
	q.Grams = &none
	_, err = meal.KnifeEntry(q, "14 min tender")
	require.ErrorContains(t, err, "load")
	q.Grams, q.Cut.SizeMM = nil, 0
	_, err = meal.KnifeEntry(q, "14 min tender")
	requireWrong(t, "found", err, "no size")
}

// calledOff is over once it was asked so often.
type calledOff struct {
	context.Context
	asked atomic.Int64
	most  int64
}

func (c *calledOff) Err() error {
	if c.asked.Add(1) > c.most {
		return context.Canceled
	}
	return nil
}

// Whoever calls a plan off is heeded whenever that is, and gets no plan: while the crop
// is shared, while the reasons are looked for, while the evening is timed, and while it
// is tried what would bring a serving time nearer that cannot be met.
func TestAPlanThatIsCalledOff(t *testing.T) {
	q := question(t, twoDishes(t), lot("tub-1/a", "potato", 2000, 20, 45))
	q.Now, q.KeepBack = clockAt(17, 55), []meal.KeepBack{{Crop: "potato", Weight: units.MustParse("300 g")}}
	patient := &calledOff{Context: t.Context(), most: 1 << 30}
	plan, err := meal.Make(patient, q)
	require.NoError(t, err)
	require.NotNil(t, plan.EarliestServeAt)
	asked := patient.asked.Load()
	for most := int64(0); most < asked; most += 1 + asked/12 {
		got, err := meal.Make(&calledOff{Context: t.Context(), most: most}, q)
		require.ErrorIs(t, err, context.Canceled, fmt.Sprint(most, " of ", asked))
		require.Empty(t, got.Steps)
	}
}
