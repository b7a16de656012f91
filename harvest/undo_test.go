package harvest

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// at is the ledger of a device at a moment, over a shared journal.
func (s shelf) at(device string, clock time.Time) *Ledger {
	l := NewLedger(s, plot(), true)
	l.Author = Author{Device: device, Now: clock}
	return l
}

// Undo takes back what this device wrote last, however far back that is dated,
// and never what another device wrote; again takes back the one before.
func TestUndoGoesBackStepByStep(t *testing.T) {
	ctx, s := context.Background(), shelf{}
	clock := day("2031-07-20 18:00")
	write := func(device, at string, e Entry) {
		t.Helper()
		clock = clock.Add(time.Minute)
		e.Head().At = day(at)
		require.NoError(t, s.at(device, clock).Write(e))
	}
	write("aaaaaa", "2031-07-20 11:00", newLift("tub-3", "1 kg"))
	write("aaaaaa", "2031-07-01 11:00", newLift("bed-1", "2 kg")) // dated back
	write("bbbbbb", "2031-07-20 12:00", newLift("bed-1", "3 kg"))
	for _, want := range []string{"bed-1 2000", "tub-3 1000"} {
		clock = clock.Add(time.Minute)
		taken, err := s.at("aaaaaa", clock).Undo(ctx, "", clock)
		require.NoError(t, err)
		lift := taken.Entry.(*Lift)
		assert.Equal(t, want, lift.Planting+" "+lift.Net().String())
		assert.Equal(t, KindVoid, taken.With.Kind())
		assert.Equal(t, "aaaaaa", taken.With.Head().By)
	}
	_, err := s.at("aaaaaa", clock).Undo(ctx, "", clock)
	require.ErrorContains(t, err, "this device has written no entry that stands")
	_, err = s.at("", clock).Undo(ctx, "", clock)
	require.ErrorContains(t, err, "this device has written no entry that stands", "entries of nobody known are of another")
	taken, err := s.at("bbbbbb", clock).Undo(ctx, "", clock)
	require.NoError(t, err)
	assert.Equal(t, "bed-1", taken.Entry.(*Lift).Planting)
	assert.Len(t, s[2031], 6, "nothing is deleted")
}

// A correction that is taken back leaves what it corrected; taken back again,
// that goes too.
func TestUndoOfACorrection(t *testing.T) {
	ctx, s := context.Background(), shelf{}
	clock := day("2031-07-20 18:00")
	first := newLift("tub-3", "1 kg")
	_, err := s.at("aaaaaa", clock).Lift(ctx, first, clock)
	require.NoError(t, err)
	second := newLift("tub-3", "2 kg")
	second.Replaces = first.Stem()
	_, err = s.at("aaaaaa", clock.Add(time.Minute)).Lift(ctx, second, clock.Add(time.Minute))
	require.NoError(t, err)
	l, _ := ledgerOf()
	l.journal = s
	assert.Contains(t, onHand(t, l, "2031-07-21"), "=2000/")
	taken, err := s.at("aaaaaa", clock).Undo(ctx, "", clock.Add(2*time.Minute))
	require.NoError(t, err)
	assert.Equal(t, second.File, taken.Entry.Head().File)
	assert.Equal(t, KindLift, taken.With.Kind())
	assert.Contains(t, onHand(t, l, "2031-07-21"), "=1000/")
	taken, err = s.at("aaaaaa", clock).Undo(ctx, "", clock.Add(3*time.Minute))
	require.NoError(t, err)
	assert.Equal(t, KindVoid, taken.With.Kind())
	assert.Empty(t, onHand(t, l, "2031-07-21"))
	_, err = s.at("aaaaaa", clock).Undo(ctx, "", clock.Add(4*time.Minute))
	require.Error(t, err)
}

// What others rest on is not taken back, and what was shown must still be last.
func TestUndoThatCannotBe(t *testing.T) {
	ctx, s := context.Background(), shelf{}
	clock := day("2031-07-20 18:00")
	lift := newLift("tub-3", "1 kg")
	_, err := s.at("aaaaaa", clock).Lift(ctx, lift, clock)
	require.NoError(t, err)
	use := &Move{To: KindUse, Weight: units.MustParse("100 g")}
	_, err = s.at("bbbbbb", clock).Move(ctx, use, "tub-3", clock.Add(time.Minute))
	require.NoError(t, err)
	_, err = s.at("aaaaaa", clock).Undo(ctx, "", clock)
	require.ErrorContains(t, err, "there is no lot", "another device used of it")
	_, err = s.at("bbbbbb", clock).Undo(ctx, lift.File, clock)
	require.ErrorContains(t, err, "not the last entry of this device any more")
	assert.Len(t, s[2031], 2)
	_, err = s.at("bbbbbb", clock).Undo(ctx, use.File, clock)
	require.NoError(t, err)
	_, err = s.at("aaaaaa", clock).Undo(ctx, "", clock)
	require.NoError(t, err)
}

// What is taken out of last season's store lies with that season, and is the
// last all the same.
func TestUndoLooksIntoTheSeasonBefore(t *testing.T) {
	ctx, clock := context.Background(), day("2032-01-10 18:00")
	s := shelf{2031: {usualLift()}}
	tub := newLift("tub-3", "1 kg")
	tub.At = day("2032-01-09")
	require.NoError(t, s.at("aaaaaa", clock).Write(tub))
	give := &Move{To: KindGive, Weight: units.MustParse("100 g")}
	_, err := s.at("aaaaaa", clock.Add(time.Minute)).Move(ctx, give, usual, clock.Add(time.Minute))
	require.NoError(t, err)
	last, err := s.at("aaaaaa", clock).Last(ctx)
	require.NoError(t, err)
	assert.Equal(t, give.File, last.Head().File)
}

// The latest entries of a device: those that stand, the last written first, of one
// form the last alone, at most as many as are asked for.
func TestLatestEntriesOfADevice(t *testing.T) {
	ctx, s := context.Background(), busyShelf(t)
	clock := day("2031-07-12 20:00")
	kinds := func(device string, most int) (list []string) {
		latest, err := s.at(device, clock).Latest(ctx, most, clock)
		require.NoError(t, err)
		for _, e := range latest {
			list = append(list, e.Kind()+" "+e.When().Format("2006"))
		}
		return list
	}
	assert.Equal(t, []string{"lift 2030", "cooked 2031", "use 2031"}, kinds("aaaaaa", 9), "the lift that the use was sent with is behind it")
	assert.Equal(t, []string{"lift 2030", "cooked 2031"}, kinds("aaaaaa", 2))
	assert.Empty(t, kinds("aaaaaa", 0))
	assert.Empty(t, kinds("bbbbbb", 9), "its correction does not count, and what it corrected neither")
	assert.Empty(t, kinds("", 9))
	assert.Empty(t, kinds("cccccc", 9))
}

// An entry by its file, standing or not, and the ledger as it was before it.
func TestTheLedgerAsItWas(t *testing.T) {
	ctx, s := context.Background(), busyShelf(t)
	clock := day("2031-07-12 20:00")
	l := s.at("aaaaaa", clock)
	require.NoError(t, l.Read(ctx, clock))
	require.Len(t, l.Entries, 6)
	first, err := l.EntryOf(ctx, s[2030][0].Head().File)
	require.NoError(t, err)
	assert.Equal(t, s[2030][0], first)
	none, err := l.EntryOf(ctx, "journal/2031/none.yaml")
	require.NoError(t, err)
	assert.Nil(t, none)
	for _, row := range []struct {
		of   Entry
		left int
	}{{s[2030][0], 0}, {s[2031][0], 1}, {s[2031][1], 2}, {s[2031][2], 3}, {s[2030][1], 4}, {s[2030][2], 5}} {
		then := l.AsOf(row.of)
		assert.Len(t, then.Entries, row.left, row.of.Head().File)
		assert.Len(t, l.Entries, 6, "the ledger itself stays")
		then.read[2029] = true
		assert.False(t, l.read[2029])
	}
	plan := &Planned{ID: "p"}
	plan.At, plan.File = clock, "journal/2031/later.yaml"
	l.later = map[int][]Entry{2030: {plan}}
	assert.Empty(t, l.AsOf(plan).later[2030])
	before := &Note{}
	before.At = clock.Add(-time.Hour)
	assert.Empty(t, l.AsOf(before).later[2030], "what was written later")
	before.At = clock.Add(time.Hour)
	assert.Len(t, l.AsOf(before).later[2030], 1)
}

// Any entry that this device wrote and that stands is taken back by its file, with
// what the same form wrote; no other is.
func TestTakeBackByFile(t *testing.T) {
	ctx := context.Background()
	clock := day("2031-07-12 20:00")
	s := busyShelf(t)
	lift, use, cooked := s[2031][0].Head().File, s[2031][1].Head().File, s[2031][2].Head().File
	for file, says := range map[string]string{
		s[2030][0].Head().File:   "no entry that this device wrote",
		"journal/2031/none.yaml": "no entry that this device wrote",
	} {
		_, err := s.at("aaaaaa", clock).TakeBack(ctx, file, clock)
		require.ErrorContains(t, err, says)
	}
	done, err := s.at("aaaaaa", clock).TakeBack(ctx, use, clock)
	require.NoError(t, err)
	assert.Equal(t, use, done.Entry.Head().File)
	assert.Equal(t, use, done.With.(*Void).Voids)
	assert.Equal(t, "taken back", done.With.(*Void).Reason)
	var voided []string
	for _, e := range s[2031] {
		if v, ok := e.(*Void); ok {
			voided = append(voided, v.Voids)
			require.NotContains(t, v.Voids, cooked)
		}
	}
	assert.Equal(t, []string{use, lift}, voided, "the lift of the same form goes with it")
	_, err = s.at("aaaaaa", clock).TakeBack(ctx, use, clock)
	require.ErrorContains(t, err, "struck out or corrected already")
	for _, e := range s[2031] {
		if e.Kind() == KindVoid {
			_, err = s.at("aaaaaa", clock).TakeBack(ctx, e.Head().File, clock)
			require.ErrorContains(t, err, "no entry that this device wrote", "a void stays")
		}
	}
	reasons := done.Reasons()
	require.Len(t, reasons, 1)
	assert.Equal(t, "taken back "+use, reasons[0].Figure+" "+reasons[0].Value)

	_, err = s.at("aaaaaa", clock).Undo(ctx, use, clock)
	require.ErrorContains(t, err, "not the last entry of this device any more")
	done, err = s.at("aaaaaa", clock).Undo(ctx, "", clock)
	require.NoError(t, err)
	assert.Equal(t, "1.8 kg", done.Entry.(*Lift).Weighings[0].Gross.String())
	assert.Equal(t, "2 kg", done.With.(*Lift).Weighings[0].Gross.String(), "what was corrected stands again")
	assert.Equal(t, done.Entry.Head().File, done.With.Head().Replaces)
	assert.Equal(t, "aaaaaa", done.With.Head().By)
}

// What nobody noted the moment of writing of was written when it is about.
func TestLoggedAt(t *testing.T) {
	h := Header{At: day("2031-07-12 10:00")}
	assert.Equal(t, h.At, h.LoggedAt())
	h.Logged = day("2031-07-12 18:00")
	assert.Equal(t, h.Logged, h.LoggedAt())
	Author{Device: "a", Form: "f", Now: evening.Add(1500 * time.Microsecond)}.Sign(&h)
	assert.Equal(t, Header{At: h.At, Logged: day("2031-07-12 18:00"), By: "a", Form: "f"}.By, h.By)
	assert.Equal(t, evening.Add(time.Millisecond), h.Logged, "whole milliseconds")
	Author{Device: "b", Form: "g", Now: evening.Add(time.Hour)}.Sign(&h)
	assert.Equal(t, "a f", h.By+" "+h.Form, "signed once")
	Author{}.Sign(&h)
	assert.Equal(t, "a f", h.By+" "+h.Form)
}
