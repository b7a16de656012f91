package harvest

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// batchEvent reads "13:00 cooked mash [amount|..until] [air]" of one July day;
// "+1 13:00" is the day after. Mash is the batch when none is named.
func batchEvent(text string) *BatchEvent {
	words := strings.Fields(text)
	at := day("2031-07-12")
	if days, ok := strings.CutPrefix(words[0], "+"); ok {
		at = at.AddDate(0, 0, int(days[0]-'0'))
		words = words[1:]
	}
	on := func(clock string) time.Time {
		t, err := time.Parse("15:04", clock)
		if err != nil {
			panic(text)
		}
		return at.Add(time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute)
	}
	e := &BatchEvent{Event: words[1], Name: "mash"}
	e.At = on(words[0])
	e.File = fmt.Sprintf("journal/2031/%s-%s.yaml", e.At.Format("0102-1504"), e.Event)
	for _, word := range words[2:] {
		switch until, isUntil := strings.CutPrefix(word, ".."); {
		case isUntil:
			e.Until = on(until)
		case strings.HasSuffix(word, "C"):
			e.Air = units.MustParse(strings.TrimSuffix(word, "C") + " C")
		case word[0] >= '0' && word[0] <= '9':
			e.Amount = units.MustParse(word)
		default:
			e.Name = word
		}
	}
	if e.Event == KindCooked {
		e.Food, e.Dish = "mash", "Mash"
	}
	return e
}

func batchEvents(texts ...string) []Entry {
	var entries []Entry
	for _, text := range texts {
		entries = append(entries, batchEvent(text))
	}
	return entries
}

// told is what a batch's history says, in one line.
func told(b *Batch) string {
	clock := func(t time.Time) string {
		if t.IsZero() {
			return "?"
		}
		return t.Format("2 15:04")
	}
	text := fmt.Sprintf("%s: %s, chilled %s, reheated %d", clock(b.CookedAt), b.State, clock(b.ChilledAt), b.Reheatings)
	for _, s := range b.Out {
		text += fmt.Sprintf(", out %s..%s", clock(s.From), clock(s.To))
		if s.Air.IsValid() {
			text += " " + s.Air.String()
		}
	}
	if b.Left.IsValid() {
		text += ", left " + b.Left.String()
	}
	return text
}

// Every step a batch can take, and what is kept of it.
func TestTheLifeOfABatch(t *testing.T) {
	for _, row := range []struct {
		name   string
		events []string
		now    string
		want   []string
	}{
		{"cooked", []string{"13:00 cooked"}, "13:30",
			[]string{"12 13:00: cooling, chilled ?, reheated 0"}},
		{"an event to come is none yet", []string{"13:00 cooked", "14:00 chilled"}, "13:59",
			[]string{"12 13:00: cooling, chilled ?, reheated 0"}},
		{"an event of this moment is", []string{"13:00 cooked", "14:00 chilled"}, "14:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 0"}},
		{"out, and still out", []string{"13:00 cooked", "14:00 chilled", "18:00 out 24C"}, "18:30",
			[]string{"12 13:00: out of fridge, chilled 12 14:00, reheated 0, out 12 18:00..? 24 C"}},
		{"out and back", []string{"13:00 cooked", "14:00 chilled", "18:00 out", "19:00 chilled"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 0, out 12 18:00..12 19:00"}},
		{"out with its end told", []string{"13:00 cooked", "14:00 chilled", "18:00 out ..19:00"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 0, out 12 18:00..12 19:00"}},
		{"its end at this moment", []string{"13:00 cooked", "14:00 chilled", "18:00 out ..19:00"}, "19:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 0, out 12 18:00..12 19:00"}},
		{"its end not yet", []string{"13:00 cooked", "14:00 chilled", "18:00 out ..19:00"}, "18:59",
			[]string{"12 13:00: out of fridge, chilled 12 14:00, reheated 0, out 12 18:00..?"}},
		{"out a second time after an end that was told", []string{"13:00 cooked", "14:00 chilled", "18:00 out ..19:00", "20:00 out", "20:30 chilled"}, "21:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 0, out 12 18:00..12 19:00, out 12 20:00..12 20:30"}},
		{"moved to warmer air", []string{"13:00 cooked", "14:00 chilled", "18:00 out 20C", "18:30 out 33C", "19:00 chilled"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 0, out 12 18:00..12 19:00 20 C, out 12 18:30..12 19:00 33 C"}},
		{"reheated from the fridge is out of it", []string{"13:00 cooked", "14:00 chilled", "18:00 reheated"}, "18:30",
			[]string{"12 13:00: heated up, chilled 12 14:00, reheated 0, out 12 18:00..?"}},
		{"reheated and chilled counts once", []string{"13:00 cooked", "14:00 chilled", "18:00 reheated", "18:40 chilled"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 1, out 12 18:00..12 18:40"}},
		{"reheated again without cooling counts", []string{"13:00 cooked", "14:00 chilled", "18:00 reheated", "19:00 reheated"}, "19:10",
			[]string{"12 13:00: heated up, chilled 12 14:00, reheated 1, out 12 18:00..?, out 12 19:00..?"}},
		{"each reheating that cooled counts", []string{"13:00 cooked", "14:00 chilled", "18:00 reheated", "19:00 reheated", "19:30 chilled", "+1 12:00 reheated", "+1 12:30 chilled"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 3, out 12 18:00..12 19:30, out 12 19:00..12 19:30, out 13 12:00..13 12:30"}},
		{"reheated before it was ever chilled", []string{"13:00 cooked", "13:50 reheated", "14:20 chilled"}, "15:00",
			[]string{"12 13:00: cold, chilled 12 14:20, reheated 1"}},
		{"taken out, then reheated, then back", []string{"13:00 cooked", "14:00 chilled", "18:00 out 4C", "18:20 reheated", "19:00 chilled"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 1, out 12 18:00..12 19:00 4 C, out 12 18:20..12 19:00"}},
		{"on the table after reheating stays heated up", []string{"13:00 cooked", "14:00 chilled", "18:00 reheated", "18:10 out 33C ..18:30"}, "20:00",
			[]string{"12 13:00: heated up, chilled 12 14:00, reheated 0, out 12 18:00..?, out 12 18:10..12 18:30 33 C"}},
		{"eaten in parts", []string{"13:00 cooked 6", "14:00 chilled", "18:00 eaten 2", "+1 18:00 eaten 3"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 0, left 1"}},
		{"eaten to the last part", []string{"13:00 cooked 6", "14:00 chilled", "18:00 eaten 2", "+1 18:00 binned 4"}, "20:00",
			[]string{"12 13:00: gone, chilled 12 14:00, reheated 0, left 0"}},
		{"more eaten than there was", []string{"13:00 cooked 6", "18:00 eaten 7"}, "20:00",
			[]string{"12 13:00: gone, chilled ?, reheated 0, left -1"}},
		{"a part that cannot be compared leaves it standing", []string{"13:00 cooked 6", "18:00 eaten 200g"}, "20:00",
			[]string{"12 13:00: cooling, chilled ?, reheated 0, left 6"}},
		{"a part of what nobody measured leaves it standing", []string{"13:00 cooked", "18:00 eaten 2"}, "20:00",
			[]string{"12 13:00: cooling, chilled ?, reheated 0"}},
		{"binned", []string{"13:00 cooked 6", "14:00 chilled", "18:00 binned"}, "20:00",
			[]string{"12 13:00: gone, chilled 12 14:00, reheated 0, left 6"}},
		{"what is gone stays gone", []string{"13:00 cooked", "14:00 eaten", "15:00 chilled", "16:00 reheated"}, "20:00",
			[]string{"12 13:00: gone, chilled 12 15:00, reheated 0, out 12 16:00..?"}},
		{"cooked again is a new batch", []string{"13:00 cooked 6", "14:00 chilled", "+1 13:00 cooked 4", "+1 14:00 chilled", "+1 18:00 eaten 1"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 0, left 6", "13 13:00: cold, chilled 13 14:00, reheated 0, left 3"}},
		{"when the newer is gone, the older is meant", []string{"13:00 cooked", "14:00 chilled", "+1 13:00 cooked", "+1 14:00 eaten", "+1 15:00 binned"}, "20:00",
			[]string{"12 13:00: gone, chilled 12 14:00, reheated 0", "13 13:00: gone, chilled ?, reheated 0"}},
		{"names meet whatever their case", []string{"13:00 cooked Mash", "14:00 chilled mash"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 0"}},
		{"never logged as cooked", []string{"14:00 chilled", "18:00 out"}, "20:00",
			[]string{"?: out of fridge, chilled 12 14:00, reheated 0, out 12 18:00..?"}},
		{"never logged as chilled", []string{"13:00 cooked", "18:00 out", "19:00 chilled"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 19:00, reheated 0, out 12 18:00..?"}},
		{"chilled twice changes nothing", []string{"13:00 cooked", "14:00 chilled", "15:00 chilled"}, "20:00",
			[]string{"12 13:00: cold, chilled 12 14:00, reheated 0"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			now := batchEvent(row.now + " x").At
			if strings.Contains(strings.Join(row.events, " "), "+1") {
				now = now.AddDate(0, 0, 1)
			}
			var got []string
			for _, b := range Batches(batchEvents(row.events...), now) {
				got = append(got, told(b))
			}
			assert.Equal(t, row.want, got)
		})
	}
}

func TestABatchHasItsNameAndFood(t *testing.T) {
	b := Batches(batchEvents("13:00 cooked Mash 6", "14:00 chilled mash"), day("2031-07-13"))[0]
	assert.Equal(t, "Mash", b.Name)
	assert.Equal(t, "mash", b.Food)
	assert.Equal(t, "Mash", b.Dish)
	assert.Equal(t, "6", b.Amount.String())
}

// What was logged of one minute happened in the order of a batch's life,
// whatever the files are called.
func TestEventsOfOneMinute(t *testing.T) {
	now := day("2031-07-13")
	events := batchEvents("13:00 cooked 6", "13:00 chilled", "18:00 reheated", "18:00 eaten 2", "18:00 binned 1")
	for range 20 {
		rand.Shuffle(len(events), func(i, j int) { events[i], events[j] = events[j], events[i] })
		assert.Equal(t, "12 13:00: heated up, chilled 12 13:00, reheated 0, out 12 18:00..?, left 3", told(Batches(events, now)[0]))
	}
	for _, row := range []struct {
		events []string
		want   string
	}{
		{[]string{"13:00 cooked", "14:00 out", "14:00 chilled"}, "12 13:00: out of fridge, chilled 12 14:00, reheated 0, out 12 14:00..?"},
		{[]string{"13:00 cooked", "14:00 reheated", "14:00 chilled"}, "12 13:00: heated up, chilled 12 14:00, reheated 0, out 12 14:00..?"},
		{[]string{"13:00 cooked", "14:00 chilled", "18:00 reheated", "18:00 out 24C"}, "12 13:00: heated up, chilled 12 14:00, reheated 0, out 12 18:00..? 24 C, out 12 18:00..?"},
		{[]string{"13:00 cooked", "13:00 eaten", "13:00 chilled", "13:00 out"}, "12 13:00: gone, chilled 12 13:00, reheated 0, out 12 13:00..?"},
	} {
		assert.Equal(t, row.want, told(Batches(batchEvents(row.events...), now)[0]))
	}
	rest := batchEvents("13:00 cooked 6", "18:00 binned", "18:00 eaten 2")
	f := foldBatches(rest, now)
	assert.Empty(t, f.refused, "the part comes before the rest")
	f = foldBatches(batchEvents("13:00 cooked", "18:00 eaten", "18:00 reheated"), now)
	assert.Empty(t, f.refused, "it was heated up before it was eaten")
}

// The order files are read in does not show.
func TestBatchesInAnyReadingOrder(t *testing.T) {
	events := batchEvents("13:00 cooked 6", "14:00 chilled", "18:00 out ..18:30", "19:00 reheated", "19:30 chilled", "20:00 eaten 2",
		"13:10 cooked beets", "15:00 chilled beets", "+1 12:00 cooked 4", "+1 12:30 chilled", "+1 13:00 binned beets")
	now := day("2031-07-14")
	all := func() (texts []string) {
		for _, b := range Batches(events, now) {
			texts = append(texts, b.Name+" "+told(b))
		}
		return texts
	}
	want := all()
	require.Equal(t, []string{
		"mash 12 13:00: cold, chilled 12 14:00, reheated 1, out 12 18:00..12 18:30, out 12 19:00..12 19:30, left 4",
		"beets 12 13:10: gone, chilled 12 15:00, reheated 0",
		"mash 13 12:00: cold, chilled 13 12:30, reheated 0, left 4",
	}, want)
	for range 50 {
		rand.Shuffle(len(events), func(i, j int) { events[i], events[j] = events[j], events[i] })
		require.Equal(t, want, all())
	}
}

// On the night the clocks go back, 01:30 comes twice: events are in the order
// they happened, not in that of the clock on the wall. The change is that of
// the IANA time zone database for London in 2031, 26 October.
func TestBatchesOverAClockChange(t *testing.T) {
	summer, winter := time.FixedZone("BST", 3600), time.FixedZone("GMT", 0)
	at := func(event string, when time.Time) *BatchEvent {
		e := &BatchEvent{Event: event, Name: "mash"}
		e.At = when
		return e
	}
	events := []Entry{
		at(KindCooked, time.Date(2031, 10, 26, 1, 30, 0, 0, summer)),
		at(KindChilled, time.Date(2031, 10, 26, 1, 10, 0, 0, winter)),
		at(KindOut, time.Date(2031, 10, 26, 1, 40, 0, 0, winter)),
	}
	f := foldBatches(events, time.Date(2031, 10, 26, 2, 0, 0, 0, winter))
	require.Empty(t, f.refused)
	b := f.batches[0]
	assert.Equal(t, OutOfFridge, b.State)
	assert.Equal(t, 40*time.Minute, b.ChilledAt.Sub(b.CookedAt), "01:30 summer time to 01:10 winter time")
	assert.Equal(t, 30*time.Minute, b.Out[0].From.Sub(b.ChilledAt))
}

// An event logged in January sees what was logged since; a batch of December is
// found across new year.
func TestBatchesOverNewYear(t *testing.T) {
	at := func(event string, when time.Time) *BatchEvent {
		e := &BatchEvent{Event: event, Name: "mash"}
		e.At = when
		return e
	}
	l := NewLedger(shelf{
		2031: {at(KindCooked, time.Date(2031, 12, 31, 13, 0, 0, 0, time.UTC))},
		2032: {at(KindEaten, time.Date(2032, 1, 1, 18, 0, 0, 0, time.UTC))},
	}, nil, true)
	_, err := l.Fits(context.Background(), at(KindChilled, time.Date(2031, 12, 31, 14, 0, 0, 0, time.UTC)), time.Date(2032, 1, 2, 12, 0, 0, 0, time.UTC))
	require.ErrorContains(t, err, "no batch of that name is there", "it was eaten on new year's day")
	l = NewLedger(shelf{2031: {at(KindCooked, time.Date(2031, 12, 31, 13, 0, 0, 0, time.UTC))}}, nil, true)
	b, err := l.Fits(context.Background(), at(KindChilled, time.Date(2032, 1, 1, 9, 0, 0, 0, time.UTC)), time.Date(2032, 1, 2, 12, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	assert.Equal(t, Cold, b.State)
}

// What is logged of one moment happened in the order of a batch's life, whatever
// the files are called: it was cooked before a part of it was eaten, and a part
// before the rest.
func TestOneMomentHasAnOrder(t *testing.T) {
	at := time.Date(2031, 7, 12, 13, 0, 0, 0, time.UTC)
	event := func(kind, file, amount string) *BatchEvent {
		e := &BatchEvent{Event: kind, Name: "mash", Food: "mash"}
		e.At, e.File = at, "journal/2031/"+file+".yaml"
		if amount != "" {
			e.Amount = units.MustParse(amount)
		}
		return e
	}
	batches := Batches([]Entry{event(KindEaten, "a", "1"), event(KindBinned, "b", ""), event(KindCooked, "c", "4")}, at)
	require.Len(t, batches, 1)
	assert.Equal(t, Gone, batches[0].State)
	assert.Equal(t, at, batches[0].CookedAt)
	some := Batches([]Entry{event(KindEaten, "a", "1"), event(KindCooked, "c", "4")}, at)
	require.Len(t, some, 1)
	assert.Equal(t, "3", some[0].Left.String())
}
