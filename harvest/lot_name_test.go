package harvest

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A sack is labelled with the name that was shown: whatever is lifted later,
// used up or stored over new year, the name means the same lot.
func TestALotsNameStays(t *testing.T) {
	ctx, clock := context.Background(), day("2032-03-01")
	l, s := ledgerOf()
	lift := func(at string) LoggedLift {
		logged, err := l.Lift(ctx, bowlsAt("bed-1", at, "1 kg - 0 g"), clock)
		require.NoError(t, err)
		return logged
	}
	name := func(id string) string {
		fresh := NewLedger(s, plot(), false)
		require.NoError(t, fresh.Read(ctx, clock))
		account, err := fresh.Account()
		require.NoError(t, err)
		for _, lot := range account.Lots {
			if lot.ID == id {
				return lot.Name
			}
		}
		return "gone"
	}
	first := lift("2031-07-12 10:00")
	require.Equal(t, "bed-1/ungraded-sound", first.Lots[0].Name)
	second, third := lift("2031-07-19 10:00"), lift("2031-07-19 17:00")
	earlier := lift("2031-07-10 09:00") // logged late
	for lot, want := range map[*Lot]string{
		first.Lots[0]: "bed-1/ungraded-sound", second.Lots[0]: "bed-1/ungraded-sound-19jul",
		third.Lots[0]: "bed-1/ungraded-sound-19jul-1700", earlier.Lots[0]: "bed-1/ungraded-sound-10jul",
	} {
		assert.Equal(t, want, lot.Name, "as it was told")
		assert.Equal(t, want, name(lot.ID), "as it stays")
	}
	l, s2 := NewLedger(s, plot(), false), s
	_, err := l.Move(ctx, &Move{To: KindGive}, "bed-1/ungraded-sound", clock)
	require.NoError(t, err)
	assert.Equal(t, first.Lots[0].ID, s2[2031][len(s2[2031])-1].(*Move).Lot)
	l = NewLedger(s, plot(), false)
	lift("2031-07-30 10:00")
	assert.Equal(t, "bed-1/ungraded-sound", name(first.Lots[0].ID), "an empty sack keeps its label")
	again := lift("2032-01-10 10:00")
	assert.Equal(t, "bed-1/ungraded-sound-10jan", name(again.Lots[0].ID), "last year's is still in store")
}

// Lifts of two devices, or written by hand, may lay claim to one name: the
// earlier has it, and somebody who says it is asked which is meant.
func TestANameOfTwoLots(t *testing.T) {
	a, b := bowlsAt("bed-1", "2031-07-12 10:00", "1 kg - 0 g"), bowlsAt("bed-1", "2031-07-12 11:00", "2 kg - 0 g")
	list, err := stockOf(plot(), []Entry{b, a}, day("2031-07-12"))
	require.NoError(t, err)
	assert.Equal(t, "bed-1/ungraded-sound=1000/1000 bed-1/ungraded-sound-12jul=2000/2000", names(list))
	l, _ := ledgerOf(a, b)
	_, err = l.Move(context.Background(), &Move{To: KindGive}, "bed-1/ungraded-sound", day("2031-07-13"))
	var unsure *Unsure
	require.ErrorAs(t, err, &unsure)
	assert.Equal(t, []Doubt{TwoLots{"bed-1/ungraded-sound", "bed-1/2031-0712-1000/ungraded-sound", "bed-1/2031-0712-1100/ungraded-sound"}}, unsure.Doubts)
	_, err = l.Move(context.Background(), &Move{To: KindGive}, "bed-1/2031-0712-1000/ungraded-sound", day("2031-07-13"))
	require.NoError(t, err, "an ID leaves no doubt")
}
