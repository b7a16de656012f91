package harvest

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// device is one person's copy of a journal: entries by their files, written
// without knowing of the other copies.
type device struct {
	name  string
	files map[string]Entry
}

func (d device) Seasons() ([]int, error) { return []int{2031}, nil }

func (d device) Season(_ context.Context, year int) (entries []Entry, _ []LeftOut, _ error) {
	if year != 2031 {
		return nil, nil, nil
	}
	for _, e := range d.files {
		entries = append(entries, e)
	}
	SortEntries(entries)
	return entries, nil, nil
}

func (d device) Write(e Entry) (string, error) {
	e.Head().File = fmt.Sprintf("journal/2031/%s-%s-%s%d.yaml", e.When().Format("0102-1504"), e.Kind(), d.name, len(d.files))
	d.files[e.Head().File] = e
	return e.Head().File, nil
}

func (d device) ledger() *Ledger { return NewLedger(d, plot(), false) }

// act does one thing that a person does with the journal as it is here; what
// the ledger refuses is not done.
func (d device) act(r *rand.Rand, clock time.Time) {
	at := clock.Add(-time.Duration(r.IntN(20)) * time.Hour).Truncate(time.Second)
	var file string
	if len(d.files) > 0 {
		files := make([]string, 0, len(d.files))
		for name := range d.files {
			files = append(files, name)
		}
		slices.Sort(files)
		file = files[r.IntN(len(files))]
	}
	ctx, l := context.Background(), d.ledger()
	if err := l.Read(ctx, clock); err != nil {
		panic(err)
	}
	switch what := r.IntN(7); {
	case what == 6:
		if account, err := l.Account(); err == nil && len(account.Stock().Lots) > 0 {
			lots := account.Stock().Lots
			weighed := &Reweighed{Weight: units.New(decimal.NewFromInt(r.Int64N(900)), units.Gram)}
			l.Sure = r.IntN(2) == 0
			l.Reweigh(ctx, weighed, lots[r.IntN(len(lots))].ID, clock)
		}
	case what < 2 || file == "":
		l.Lift(ctx, newLiftAt("bed-1", at, r), clock)
	case what == 2:
		l.Void(ctx, file, "", clock)
	case what == 3 && d.files[file].Kind() == KindLift:
		again := newLiftAt("bed-1", at, r)
		again.Replaces = file
		l.Lift(ctx, again, clock)
	default:
		if account, err := l.Account(); err == nil && len(account.Stock().Lots) > 0 {
			lots := account.Stock().Lots
			move := &Move{To: []string{KindUse, KindGive}[r.IntN(2)]}
			if r.IntN(8) == 0 {
				move.At, l.Sure = clock.Add(-30*time.Hour), true // from before its lift, it may be
			}
			l.Move(ctx, move, lots[r.IntN(len(lots))].ID, clock)
		}
	}
}

func newLiftAt(planting string, at time.Time, r *rand.Rand) *Lift {
	lift := newLift(planting, fmt.Sprintf("%d g", 100+r.IntN(900)))
	lift.At = at
	return lift
}

// sync copies some files from one device to another, as half a copy does.
func (d device) sync(r *rand.Rand, from device, all bool) {
	for name, e := range from.files {
		if all || r.IntN(3) > 0 {
			d.files[name] = e
		}
	}
}

// accountOf is all an account says, with its warnings.
func accountOf(t *testing.T, d device, clock time.Time) (string, []Warning) {
	t.Helper()
	l := d.ledger()
	require.NoError(t, l.Read(context.Background(), clock))
	account, err := l.Account()
	require.NoError(t, err, "a locked plot")
	_, err = l.Ready()
	require.NoError(t, err, "a locked plot")
	var text strings.Builder
	for _, lot := range account.Lots {
		fmt.Fprintln(&text, lot.ID, lot.Weight, lot.Went)
	}
	for _, w := range account.Warnings {
		fmt.Fprintln(&text, w)
	}
	return text.String(), account.Warnings
}

// unsettled leaves out the warnings that are facts, not contradictions.
func unsettled(warnings []Warning) (open []Warning) {
	for _, w := range warnings {
		if _, drawn := w.(Overdrawn); !drawn {
			open = append(open, w)
		}
	}
	return open
}

// Three devices log, correct, strike out and use, and copy parts of their
// journals to each other at any time. No plot is ever locked; once all is
// copied, in whatever order, every device tells the same; and one mending on
// any of them settles every contradiction.
func TestJournalsOfThreeDevicesMerge(t *testing.T) {
	volume := Volume(150, 10_000, 100_000)
	mends := 0
	for seed := range volume {
		r := rand.New(rand.NewPCG(uint64(seed), 18))
		devices := []device{{"a", map[string]Entry{}}, {"b", map[string]Entry{}}, {"c", map[string]Entry{}}}
		clock := day("2031-07-12").Add(22 * time.Hour)
		for range 8 + r.IntN(24) {
			clock = clock.Add(time.Duration(1+r.IntN(300)) * time.Minute)
			d := devices[r.IntN(3)]
			if r.IntN(3) == 0 {
				d.sync(r, devices[r.IntN(3)], false)
				accountOf(t, d, clock)
				continue
			}
			d.act(r, clock)
		}
		for _, i := range r.Perm(3) {
			for _, j := range r.Perm(3) {
				devices[i].sync(r, devices[j], true)
			}
		}
		for _, i := range r.Perm(3) {
			for _, j := range r.Perm(3) {
				devices[i].sync(r, devices[j], true)
			}
		}
		first, warnings := accountOf(t, devices[0], clock)
		for _, d := range devices[1:] {
			other, _ := accountOf(t, d, clock)
			require.Equal(t, first, other, "seed %d", seed)
		}
		mender := devices[r.IntN(3)]
		written, err := mender.ledger().Mend(context.Background(), clock)
		require.NoError(t, err)
		if len(unsettled(warnings)) > 0 {
			mends++
			require.NotEmpty(t, written, "seed %d: %v", seed, warnings)
		}
		for _, d := range devices {
			d.sync(r, mender, true)
			_, after := accountOf(t, d, clock)
			require.Empty(t, unsettled(after), "seed %d: before %v", seed, warnings)
		}
		written, err = mender.ledger().Mend(context.Background(), clock)
		require.NoError(t, err)
		require.Empty(t, written, "seed %d: mended twice", seed)
	}
	assert.Greater(t, mends, volume/20, "histories with something to settle")
}

// Two voids of one entry agree; a correction counts before a void; the later
// correction before the earlier, in whatever order they come.
func TestCorrectionsOnTwoDevices(t *testing.T) {
	lift := usualLift()
	void := func(name string) *Void {
		v := &Void{Voids: "0712-1640-lift-tub-3"}
		v.At, v.File = day("2031-07-30"), "journal/2031/"+name
		return v
	}
	again := func(name, net, at string) *Lift {
		l := liftOf("tub-3", at, net)
		l.Replaces, l.File = "0712-1640-lift-tub-3.yaml", "journal/2031/"+name
		return l
	}
	early, late := again("x.yaml", "1 kg", "2031-07-12 17:00"), again("y.yaml", "2 kg", "2031-07-12 18:00")
	for _, row := range []struct {
		name    string
		entries []Entry
		net     string
		open    []Warning
	}{
		{"voided twice", []Entry{lift, void("a.yaml"), void("b.yaml")}, "0", nil},
		{"voided and corrected", []Entry{lift, void("a.yaml"), early}, "1000",
			[]Warning{Conflict{Entry: lift.File, Counts: early.File, Voided: true}}},
		{"corrected twice", []Entry{lift, late, early}, "2000",
			[]Warning{Conflict{Entry: lift.File, Counts: late.File, Instead: []string{early.File}}}},
		{"corrected before it is here", []Entry{early}, "1000", []Warning{Waiting{early.File, lift.File}}},
		{"struck out before it is here", []Entry{void("a.yaml")}, "0", []Warning{Waiting{"journal/2031/a.yaml", lift.File}}},
	} {
		slices.Reverse(row.entries)
		for range 2 {
			slices.Reverse(row.entries)
			account, err := Settle(plot(), row.entries, day("2031-12-31"))
			require.NoError(t, err, row.name)
			assert.Equal(t, row.net, account.Season(2031).Total().Net.String(), row.name)
			assert.Equal(t, row.open, unsettled(account.Warnings), row.name)
		}
	}
}
