package harvest

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Somebody decides which of several corrections counts; then nothing is open, and
// asked again it is refused.
func TestDecide(t *testing.T) {
	lift := usualLift()
	void := &Void{Voids: "0712-1640-lift-tub-3"}
	void.At, void.File = day("2031-07-30"), "journal/2031/a.yaml"
	again := func(name, net, at string) *Lift {
		l := liftOf("tub-3", at, net)
		l.Replaces, l.File = "0712-1640-lift-tub-3.yaml", "journal/2031/"+name
		return l
	}
	early, late := again("x.yaml", "1 kg", "2031-07-12 17:00"), again("y.yaml", "2 kg", "2031-07-12 18:00")
	for _, row := range []struct {
		name    string
		entries []Entry
		choice  Entry
		net     string
		wrote   []string // kinds
	}{
		{"the one that counts", []Entry{lift, early, late}, late, "2000", []string{KindVoid}},
		{"the other one", []Entry{lift, early, late}, early, "1000", []string{KindVoid}},
		{"struck out elsewhere", []Entry{lift, early, void}, early, "1000", []string{KindLift}},
		{"struck out and corrected twice", []Entry{lift, early, late, void}, early, "1000", []string{KindVoid, KindLift}},
	} {
		d := device{"d", map[string]Entry{}}
		for _, e := range row.entries {
			d.files[e.Head().File] = e
		}
		clock := day("2031-08-01")
		open, err := d.ledger().LeftOpen(t.Context(), clock)
		require.NoError(t, err, row.name)
		require.Len(t, open.Contradictions, 1, row.name)
		assert.Equal(t, lift.File, open.Contradictions[0].Corrected.Head().File, row.name)
		assert.Len(t, open.Contradictions[0].Instead, len(row.entries)-2-voids(row.entries), row.name)
		assert.Equal(t, voids(row.entries) == 1, open.Contradictions[0].Voided, row.name)

		ledger := d.ledger()
		ledger.Author = Author{Device: "abcdef", Now: clock}
		written, err := ledger.Decide(t.Context(), row.choice.Head().File, clock)
		require.NoError(t, err, row.name)
		var wrote []string
		for _, e := range written {
			wrote = append(wrote, e.Kind())
			assert.Equal(t, "abcdef", e.Head().By, "undo is to know whose it is")
		}
		assert.Equal(t, row.wrote, wrote, row.name)
		account, err := Settle(plot(), entriesOf(t, d), clock)
		require.NoError(t, err, row.name)
		assert.Equal(t, row.net, account.Season(2031).Total().Net.String(), row.name)
		open, err = d.ledger().LeftOpen(t.Context(), clock)
		require.NoError(t, err, row.name)
		assert.Equal(t, LeftOpen{}, open, row.name)
		_, err = d.ledger().Decide(t.Context(), row.choice.Head().File, clock)
		assert.ErrorContains(t, err, "contradicts nothing any more", row.name)
	}
}

func voids(entries []Entry) (n int) {
	for _, e := range entries {
		if e.Kind() == KindVoid {
			n++
		}
	}
	return n
}

func entriesOf(t *testing.T, d device) []Entry {
	t.Helper()
	entries, _, err := d.Season(context.Background(), 2031)
	require.NoError(t, err)
	return entries
}

// What is taken twice is listed with its entry, and what rests on nothing too.
func TestLeftOpenListsOverdrafts(t *testing.T) {
	d := device{"d", map[string]Entry{}}
	lift := usualLift()
	d.files[lift.File] = lift
	account, err := Settle(plot(), []Entry{lift}, day("2031-08-01"))
	require.NoError(t, err)
	lot := account.Stock().Lots[0]
	for name, file := range map[string]string{"one": "journal/2031/m1.yaml", "other": "journal/2031/m2.yaml"} {
		m := &Move{To: KindUse, Lot: lot.ID, Dish: name}
		m.Weight, m.At, m.File = units.New(lot.Weight, units.Gram), day("2031-07-20"), file
		d.files[file] = m
	}
	lost := &Move{To: KindUse, Lot: "tub-9/2031/ungraded-sound"}
	lost.At, lost.File = day("2031-07-20"), "journal/2031/m3.yaml"
	d.files[lost.File] = lost
	open, err := d.ledger().LeftOpen(t.Context(), day("2031-08-01"))
	require.NoError(t, err)
	require.Len(t, open.Overdrawn, 1)
	assert.Equal(t, "journal/2031/m2.yaml", open.Overdrawn[0].Entry.Head().File)
	assert.Len(t, open.Others, 1)
	assert.Empty(t, open.Contradictions)
}
