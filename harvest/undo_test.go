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
