package harvest

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units/strict"
)

// shelf is a journal in memory: its entries by season.
type shelf map[int][]Entry

func (s shelf) Seasons() ([]int, error) { return slices.Sorted(maps.Keys(s)), nil }

func (s shelf) Season(_ context.Context, year int) ([]Entry, []LeftOut, error) {
	entries := slices.Clone(s[year])
	SortEntries(entries)
	return entries, nil, nil
}

func (s shelf) Write(e Entry) (string, error) {
	year := e.When().Year()
	if m, ok := e.(*Move); ok {
		year, _ = SeasonOf(m.Lot)
	}
	if p, ok := e.(*Planned); ok {
		year = p.Season()
	}
	if v, ok := e.(*Void); ok {
		fmt.Sscanf(v.Voids, "journal/%d/", &year)
	}
	e.Head().File = fmt.Sprintf("journal/%d/%s-%s-%d.yaml", year, e.When().Format("0102-1504"), e.Kind(), len(s[year]))
	s[year] = append(s[year], e)
	return e.Head().File, nil
}

// damaged is a shelf on which one season cannot be read, unless what is damaged
// is left out.
type damaged struct {
	shelf
	year    int
	lenient bool
}

func (s damaged) Season(ctx context.Context, year int) ([]Entry, []LeftOut, error) {
	fault := &strict.Error{File: fmt.Sprintf("journal/%d/torn.yaml", year), Problem: "cut short"}
	entries, _, _ := s.shelf.Season(ctx, year)
	switch {
	case year != s.year:
		return entries, nil, nil
	case s.lenient:
		return entries, []LeftOut{{fault.File, fault}}, nil
	}
	return nil, nil, strict.Errors{fault}
}

// ledgerOf is a ledger of the usual plot over entries, each under its season.
func ledgerOf(entries ...Entry) (*Ledger, shelf) {
	s := shelf{}
	for _, e := range entries {
		s[seasonOf(e)] = append(s[seasonOf(e)], e)
	}
	return NewLedger(s, plot(), false), s
}

func onHand(t *testing.T, l *Ledger, on string, seasons ...int) string {
	t.Helper()
	fresh := NewLedger(l.journal, l.Plantings, l.lenient)
	require.NoError(t, fresh.Read(context.Background(), day(on), seasons...))
	account, err := fresh.Account()
	require.NoError(t, err)
	return names(account.Stock())
}

// A question about a day rests on its season and the one before, and on no
// other; seasons named are read to their last entry.
func TestWhichSeasonsAreRead(t *testing.T) {
	l, _ := ledgerOf(liftOf("tub-3", "2030-12-30 10:00", "100 g"), liftOf("bed-1", "2031-12-31 10:00", "200 g"), liftOf("bed-1", "2032-01-02 10:00", "400 g"), liftOf("bed-1", "2033-01-02 10:00", "800 g"))
	for _, row := range []struct {
		on      string
		seasons []int
		read    []int
		day     string
	}{
		{"2032-01-01", nil, []int{2031, 2032}, "2032-01-01"},
		{"2030-06-01", nil, []int{2030}, "2030-06-01"},
		{"2034-01-01", nil, []int{2033}, "2034-01-01"},
		{"2034-01-01", []int{2030, 2032}, []int{2030, 2032}, "2032-01-02"},
		{"2034-01-01", []int{2029}, nil, "2034-01-01"},
	} {
		fresh := NewLedger(l.journal, l.Plantings, false)
		require.NoError(t, fresh.Read(context.Background(), day(row.on), row.seasons...))
		var read []int
		for _, e := range fresh.Entries {
			read = append(read, e.When().Year())
		}
		assert.Equal(t, row.read, read, row)
		assert.Equal(t, row.day, fresh.On.Format(time.DateOnly), row)
	}
	assert.Equal(t, "tub-3/ungraded-sound=100/100", onHand(t, l, "2034-01-01", 2030), "what the season of 2030 left")
}

// What is damaged stops an answer, or is named and left out with all that rests
// on it.
func TestDamagedEntriesAreLeftOut(t *testing.T) {
	broken := moveOf(KindUse, "2031-07-13 12:00", "bed-1/2031-0712-0900/ungraded-sound", "10 g")
	_, s := ledgerOf(usualLift(), broken, moveOf(KindUse, "2031-07-13 12:30", usual, "20 g"))
	l := NewLedger(damaged{s, 2031, false}, plot(), false)
	err := l.Read(context.Background(), day("2031-07-13"))
	require.EqualError(t, err, "journal/2031/torn.yaml: cut short")

	l = NewLedger(damaged{s, 2031, true}, plot(), true)
	require.NoError(t, l.Read(context.Background(), day("2031-07-13")))
	account, err := l.Account()
	require.NoError(t, err)
	assert.Contains(t, names(account.Stock()), "tub-3/20-45-scabby=800/800")
	require.Len(t, account.Warnings, 2)
	assert.Equal(t, "left out journal/2031/torn.yaml: journal/2031/torn.yaml: cut short", account.Warnings[0].String())
	assert.Equal(t, Waiting{broken.File, "bed-1/2031-0712-0900/ungraded-sound"}, account.Warnings[1])

	alone := NewLedger(shelf{2031: {broken}}, plot(), true)
	require.NoError(t, alone.Read(context.Background(), day("2031-07-13")))
	account, err = alone.Account()
	require.NoError(t, err, "though nothing else is there")
	assert.Len(t, account.Warnings, 1)

	strictly, _ := ledgerOf(usualLift(), broken)
	require.NoError(t, strictly.Read(context.Background(), day("2031-07-13")))
	account, err = strictly.Account()
	require.NoError(t, err, "its lift may come with the next copy of the journal")
	assert.Equal(t, []Warning{Waiting{broken.File, "bed-1/2031-0712-0900/ungraded-sound"}}, account.Warnings)
}

// A journal ahead of the clock is named, in whatever season the entry lies.
func TestLedgerChecksTheClock(t *testing.T) {
	l, _ := ledgerOf(usualLift(), liftOf("bed-1", "2033-01-02 10:00", "800 g"))
	require.NoError(t, l.Read(context.Background(), day("2031-07-12")))
	require.NoError(t, l.CheckClock(context.Background(), day("2033-01-02")))
	err := l.CheckClock(context.Background(), day("2031-07-12"))
	require.ErrorContains(t, err, "2033-01-02 is after today, 2031-07-12")
	require.NotContains(t, err.Error(), "tub-3")
	sound := NewLedger(damaged{l.journal.(shelf), 2031, false}, plot(), false)
	sound.Entries = []Entry{usualLift()}
	err = sound.CheckClock(context.Background(), day("2032-01-01"))
	require.ErrorContains(t, err, "2033-01-02 is after today, 2032-01-01", "a season that is past is not read for it")
	this, _ := ledgerOf(usualLift())
	require.NoError(t, this.Read(context.Background(), day("2031-07-11")))
	var all strict.Errors
	require.ErrorAs(t, this.CheckClock(context.Background(), day("2031-07-11")), &all)
	require.Len(t, all, 1, "each entry is named once")
	err = NewLedger(damaged{l.journal.(shelf), 2033, false}, plot(), false).CheckClock(context.Background(), day("2031-07-12"))
	require.ErrorContains(t, err, "torn.yaml")
}

func TestLedgerReady(t *testing.T) {
	void := &Void{Voids: "0712-1640-lift-tub-3.yaml"}
	void.At, void.File = day("2031-07-13 10:00"), "journal/2031/0713-1000-void.yaml"
	l, _ := ledgerOf(usualLift())
	require.NoError(t, l.Read(context.Background(), day("2031-07-13")))
	list, err := l.Ready()
	require.NoError(t, err)
	require.Len(t, list.List, 1, "the tub is emptied")
	l, _ = ledgerOf(usualLift(), void)
	require.NoError(t, l.Read(context.Background(), day("2031-07-13")))
	list, err = l.Ready()
	require.NoError(t, err)
	require.Len(t, list.List, 2, "its lift was struck out")
	l, _ = ledgerOf(void)
	require.NoError(t, l.Read(context.Background(), day("2031-07-13")))
	list, err = l.Ready()
	require.NoError(t, err)
	assert.Equal(t, []Warning{Waiting{void.File, "journal/2031/0712-1640-lift-tub-3.yaml"}}, list.Warnings)
	itself := &Void{Voids: "0713-1000-void.yaml"}
	itself.Header = void.Header
	l, _ = ledgerOf(itself)
	require.NoError(t, l.Read(context.Background(), day("2031-07-13")))
	_, err = l.Ready()
	require.ErrorContains(t, err, "the entry names itself")
	_, err = l.Batches(day("2031-07-13"))
	require.Error(t, err)
}

func TestLedgerBatchesLeaveOutWhatIsGone(t *testing.T) {
	l := NewLedger(shelf{2031: batchEvents("13:00 cooked", "13:10 cooked beets", "14:00 eaten")}, nil, false)
	require.NoError(t, l.Read(context.Background(), day("2031-07-12")))
	batches, err := l.Batches(day("2031-07-13"))
	require.NoError(t, err)
	require.Len(t, batches, 1)
	assert.Equal(t, "beets", batches[0].Name)
}

func TestNotes(t *testing.T) {
	note := func(at, dish, says string) *Note {
		n := &Note{Dish: dish, Says: says}
		n.At, n.File = day(at), "journal/2031/"+says+".yaml"
		return n
	}
	better := note("2031-07-15", "Mash", "better")
	better.Replaces = "good"
	entries := []Entry{note("2031-07-12", "Mash", "good"), note("2031-07-13", "mash", "salty"), note("2031-07-14", "Salad", "no"), better}
	var said []string
	for _, n := range Notes(entries) {
		said = append(said, n.Says)
	}
	assert.Equal(t, []string{"better", "no", "salty"}, said, "the latest first, corrected ones left out")
	better.Replaces = "better"
	assert.Empty(t, Notes(entries), "an account of them tells what is wrong")
}

// What is on hand is the same whether the ledger keeps its entries beside it or
// gives them up, in a journal that agrees with itself and in those that do not.
func TestStockIsThatOfTheAccount(t *testing.T) {
	seasonsPlot, seasons := threeSeasons()
	lost := moveOf(KindUse, "2031-07-08 12:00", "tub-1/2031-0701-1000/ungraded-sound", "90 g")
	lost.File = "journal/2031/lost.yaml"
	itself := liftOf("tub-1", "2031-07-09 10:00", "1 kg")
	itself.Replaces = itself.File
	for name, more := range map[string][]Entry{"whole": nil, "a use of a lot nobody knows": {lost}, "a correction of itself": {itself}} {
		t.Run(name, func(t *testing.T) {
			open := func() *Ledger {
				s := shelf{}
				for _, e := range append(slices.Clone(seasons), more...) {
					s[seasonOf(e)] = append(s[seasonOf(e)], e)
				}
				l := NewLedger(damaged{s, 2030, true}, seasonsPlot, false)
				require.NoError(t, l.Read(context.Background(), day("2031-07-20")))
				return l
			}
			got, gotErr := open().Stock(context.Background())
			account, err := open().Account()
			if require.Equal(t, err, gotErr); err != nil {
				require.Empty(t, got)
				require.Equal(t, name, "a correction of itself")
				return
			}
			require.Equal(t, inFull(account.Stock()), inFull(got))
			require.Contains(t, fmt.Sprint(Said(got.Warnings)), "journal/2030/torn.yaml")
			require.NotEmpty(t, got.Lots)
		})
	}
}
