package harvest

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Fits on a journal: what can be, what cannot, and why.
func TestWhichEventsFit(t *testing.T) {
	for _, row := range []struct {
		name   string
		events []string
		event  string
		says   string // "" = it fits
	}{
		{"cooked", nil, "13:00 cooked", ""},
		{"chilled", []string{"13:00 cooked"}, "14:00 chilled", ""},
		{"chilled as it was cooked", []string{"13:00 cooked"}, "13:00 chilled", ""},
		{"out", []string{"13:00 cooked", "14:00 chilled"}, "18:00 out", ""},
		{"out of what nobody logged as chilled", []string{"13:00 cooked"}, "18:00 out", ""},
		{"back", []string{"13:00 cooked", "14:00 chilled", "18:00 out"}, "19:00 chilled", ""},
		{"out again, in other air", []string{"13:00 cooked", "14:00 chilled", "18:00 out"}, "18:30 out 33C", ""},
		{"out again, after an end that was told", []string{"13:00 cooked", "14:00 chilled", "18:00 out ..19:00"}, "19:00 out", ""},
		{"reheated", []string{"13:00 cooked", "14:00 chilled"}, "18:00 reheated", ""},
		{"reheated before the fridge", []string{"13:00 cooked"}, "13:30 reheated", ""},
		{"chilled after that", []string{"13:00 cooked", "13:30 reheated"}, "14:00 chilled", ""},
		{"reheated on the table", []string{"13:00 cooked", "14:00 chilled", "18:00 out"}, "18:10 reheated", ""},
		{"out after it was reheated", []string{"13:00 cooked", "14:00 chilled", "18:00 reheated"}, "18:10 out", ""},
		{"eaten", []string{"13:00 cooked 6"}, "13:30 eaten 2", ""},
		{"logged late, between two others", []string{"13:00 cooked", "18:00 out"}, "14:00 chilled", ""},
		{"cooked logged late", []string{"14:00 chilled", "18:00 out"}, "13:00 cooked", ""},
		{"cooked anew when nothing is left", []string{"13:00 cooked", "14:00 eaten"}, "18:00 cooked", ""},
		{"cooked anew beside what is left", []string{"13:00 cooked", "14:00 chilled"}, "+1 13:00 cooked", ""},
		{"beside contradictions that were there before", []string{"13:00 cooked", "14:00 chilled", "15:00 chilled"}, "18:00 out", ""},

		{"of nothing", nil, "14:00 chilled", `batch "mash": no batch of that name is there`},
		{"of another", []string{"13:00 cooked beets"}, "14:00 chilled", `batch "mash": no batch of that name is there`},
		{"before it was cooked", []string{"13:00 cooked"}, "12:59 chilled", `at "2031-07-12 12:59": before mash was cooked, 2031-07-12 13:00`},
		{"before the newer of two was cooked", []string{"13:00 cooked", "+1 13:00 cooked"}, "14:00 chilled", `before mash was cooked, 2031-07-13 13:00`},
		{"of what is gone", []string{"13:00 cooked", "14:00 eaten"}, "15:00 chilled", "no batch of that name is there"},
		{"of what nobody cooked", []string{"14:00 chilled"}, "15:00 out", "no batch of that name is there"},
		{"chilled in the fridge", []string{"13:00 cooked", "14:00 chilled"}, "15:00 chilled", "mash chilled at 2031-07-12 15:00 cannot be: it was in the fridge already"},
		{"chilled after an end that was told", []string{"13:00 cooked", "14:00 chilled", "18:00 out ..19:00"}, "19:30 chilled", "it was in the fridge already"},
		{"back where nobody logged the fridge", []string{"13:00 cooked", "18:00 out"}, "19:00 chilled", "nobody logged when it was first in the fridge"},
		{"the same, heated up between", []string{"13:00 cooked", "18:00 out", "18:10 reheated"}, "19:00 chilled", "nobody logged when it was first in the fridge"},
		{"out when it is out", []string{"13:00 cooked", "14:00 chilled", "18:00 out"}, "18:30 out", "it was out of the fridge already"},
		{"out within an end that was told", []string{"13:00 cooked", "14:00 chilled", "18:00 out ..19:00"}, "18:59 out", "it was out of the fridge already"},
		{"gone before a later event", []string{"13:00 cooked", "14:00 chilled"}, "13:30 binned", `at "2031-07-12 13:30": at odds with mash chilled, logged for 2031-07-12 14:00`},
		{"chilled before a later chilling", []string{"13:00 cooked", "14:00 chilled"}, "13:30 chilled", "at odds with mash chilled, logged for 2031-07-12 14:00"},
		{"out before a later out", []string{"13:00 cooked", "14:00 chilled", "18:00 out"}, "17:00 out", "at odds with mash out, logged for 2031-07-12 18:00"},
		{"cooked between another's events", []string{"13:00 cooked", "14:00 chilled"}, "13:30 cooked", "at odds with mash chilled, logged for 2031-07-12 14:00"},
		{"to come", []string{"13:00 cooked"}, "+2 13:00 chilled", `at: still to come, by this machine's clock (2031-07-14 12:00)`},
		{"back before it came out", []string{"13:00 cooked", "14:00 chilled"}, "18:00 out ..17:00", "until: before it came out"},
		{"back at a time to come", []string{"13:00 cooked", "14:00 chilled"}, "+2 11:00 out ..13:00", "until: still to come"},
	} {
		t.Run(row.name, func(t *testing.T) {
			l := NewLedger(shelf{2031: batchEvents(row.events...)}, nil, true)
			e := batchEvent(row.event)
			e.File = ""
			b, err := l.Fits(context.Background(), e, day("2031-07-14 12:00"))
			if row.says == "" {
				require.NoError(t, err)
				require.NotNil(t, b)
				return
			}
			require.ErrorContains(t, err, row.says)
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong)
			assert.NotEmpty(t, wrong.Accepted)
		})
	}
}

// A journal that contradicts itself is read all the same; what cannot be in it
// is known.
func TestContradictionsAreKnownOnReading(t *testing.T) {
	events := batchEvents("12:00 out", "13:00 cooked", "14:00 chilled", "15:00 chilled", "16:00 out", "17:00 out", "18:00 eaten", "19:00 binned")
	f := foldBatches(events, day("2031-07-13"))
	var said []string
	for _, e := range f.events {
		if err := f.refused[e]; err != nil {
			said = append(said, err.Error())
		}
	}
	assert.Equal(t, []string{
		"mash out at 2031-07-12 12:00 cannot be: no batch of that name was there",
		"mash chilled at 2031-07-12 15:00 cannot be: it was in the fridge already",
		"mash out at 2031-07-12 17:00 cannot be: it was out of the fridge already",
		"mash binned at 2031-07-12 19:00 cannot be: no batch of that name was there",
	}, said)
}

// What Fits tells of a batch is what the journal tells once the event is in it.
func TestFitsTellsTheBatchWithTheEventInIt(t *testing.T) {
	clock := day("2031-07-12 20:00")
	l := NewLedger(shelf{2031: batchEvents("13:00 cooked Mash 6", "13:10 cooked beets", "14:00 chilled MASH")}, nil, true)
	e := batchEvent("18:00 eaten mash 2")
	e.File = ""
	b, err := l.Fits(context.Background(), e, clock)
	require.NoError(t, err)
	assert.Equal(t, "Mash", e.Name, "the batch's own spelling")
	assert.Equal(t, "12 13:00: cold, chilled 12 14:00, reheated 0, left 4", told(b))

	undated := &BatchEvent{Event: KindOut, Name: "mash"}
	b, err = l.Fits(context.Background(), undated, clock)
	require.NoError(t, err)
	assert.Equal(t, clock, undated.At)
	assert.Equal(t, OutOfFridge, b.State)

	ahead := &BatchEvent{Event: KindBinned, Name: "beets"}
	ahead.At = clock.Add(slack)
	b, err = l.Fits(context.Background(), ahead, clock)
	require.NoError(t, err, "two clocks may disagree a little")
	assert.Equal(t, Gone, b.State)

	_, err = l.Fits(context.Background(), batchEvent("18:00 eaten soup"), clock)
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "one of beets, Mash", wrong.Accepted)
	_, err = NewLedger(shelf{}, nil, true).Fits(context.Background(), batchEvent("18:00 eaten soup"), clock)
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "the name of a batch, once it is logged as cooked", wrong.Accepted)
	odd := &Void{Voids: "void"}
	odd.At, odd.File = clock, "journal/2031/void.yaml"
	_, err = NewLedger(shelf{2031: {odd}}, nil, true).Fits(context.Background(), batchEvent("18:00 cooked"), clock)
	require.ErrorContains(t, err, "the entry names itself")
}

// Whatever is logged, in whatever order: an event that fits leaves a journal
// that holds no contradiction it did not hold before, and folding never fails.
func TestWhatFitsKeepsAJournalSound(t *testing.T) {
	kinds := []string{KindCooked, KindChilled, KindOut, KindReheated, KindEaten, KindBinned}
	clock := day("2031-07-13")
	events := 0
	for seed := range uint64(300) {
		random := rand.New(rand.NewPCG(seed, 5))
		var logged []Entry
		for n := range 30 {
			e := &BatchEvent{Event: kinds[random.IntN(len(kinds))], Name: []string{"mash", "beets"}[random.IntN(2)]}
			e.At = day("2031-07-12").Add(time.Duration(random.IntN(24*60)) * time.Minute)
			if random.IntN(2) == 0 {
				e.Amount = units.MustParse("2")
			}
			if e.Event == KindOut && random.IntN(2) == 0 {
				e.Until = e.At.Add(time.Duration(random.IntN(90)) * time.Minute)
			}
			l := NewLedger(shelf{2031: slices.Clone(logged)}, nil, true)
			b, err := l.Fits(context.Background(), e, clock)
			if err != nil {
				continue
			}
			e.File = fmt.Sprintf("journal/2031/%02d.yaml", n)
			logged = append(logged, e)
			f := foldBatches(logged, clock)
			require.Empty(t, f.refused, "seed %d", seed)
			require.Equal(t, told(b), told(f.of[e]), "seed %d: what was told is what is read", seed)
		}
		events += len(logged)
		for _, b := range Batches(logged, clock) {
			require.False(t, b.CookedAt.IsZero(), "seed %d", seed)
			for i, s := range b.Out {
				require.False(t, s.From.Before(b.CookedAt), "seed %d", seed)
				require.True(t, i == 0 || !s.From.Before(b.Out[i-1].From), "seed %d: in the order they began", seed)
				require.True(t, s.To.IsZero() || !s.To.Before(s.From), "seed %d", seed)
				require.True(t, b.State != Cold || !s.To.IsZero(), "seed %d: cold with a spell that goes on", seed)
			}
		}
	}
	require.Greater(t, events, 1000, "events that fitted")
}
