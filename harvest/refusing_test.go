package harvest

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/strict"
)

// refusing is a journal whose call number at fails, the first being 0; it counts
// them.
type refusing struct {
	shelf
	calls, at int
}

func (r *refusing) refuses() bool { r.calls++; return r.calls-1 == r.at }

func (r *refusing) Seasons() ([]int, error) {
	if r.refuses() {
		return nil, errDisk
	}
	return r.shelf.Seasons()
}

func (r *refusing) Season(ctx context.Context, year int) ([]Entry, []LeftOut, error) {
	if r.refuses() {
		return nil, nil, errDisk
	}
	return r.shelf.Season(ctx, year)
}

func (r *refusing) Write(e Entry) (string, error) {
	if r.refuses() {
		return "", errDisk
	}
	return r.shelf.Write(e)
}

// busyShelf is a journal of two seasons in which the device "aaaaaa" wrote a lift
// and a use by one form, a lift that it corrected, a batch and a plan, and another
// device contradicted one of them.
func busyShelf(t *testing.T) shelf {
	t.Helper()
	s, ctx := shelf{}, context.Background()
	clock := day("2031-07-12 18:00")
	l := func(device, form string) *Ledger {
		clock = clock.Add(time.Minute)
		ledger := s.at(device, clock)
		ledger.Author.Form = form
		return ledger
	}
	at := func(h *Header, when string) { h.At = day(when) }
	old := newLift("tub-3", "2 kg")
	at(old.Head(), "2030-09-01 10:00")
	_, err := l("bbbbbb", "").Lift(ctx, old, clock)
	require.NoError(t, err)
	lift := newLift("bed-1", "3 kg")
	_, err = l("aaaaaa", "form-1").Lift(ctx, lift, clock)
	require.NoError(t, err)
	_, err = l("aaaaaa", "form-1").Move(ctx, &Move{To: KindUse, Weight: units.MustParse("200 g"), Dish: "Soup"}, "bed-1/ungraded-sound", clock)
	require.NoError(t, err)
	batch := &BatchEvent{Event: KindCooked, Name: "Soup", Food: "soup", Amount: units.MustParse("4")}
	_, err = l("aaaaaa", "").Fits(ctx, batch, clock)
	require.NoError(t, err)
	require.NoError(t, l("aaaaaa", "").Write(batch))
	for _, device := range []string{"bbbbbb", "aaaaaa"} {
		again := newLift("tub-3", map[string]string{"bbbbbb": "1.9 kg", "aaaaaa": "1.8 kg"}[device])
		again.Replaces, again.File = old.File, ""
		at(again.Head(), "2030-09-01 10:00")
		again.By, again.Logged = device, clock.Add(time.Minute)
		clock = clock.Add(time.Minute)
		require.NoError(t, l(device, "").Write(again))
	}
	return s
}

// Whichever call of the journal fails, whoever asked is told, and of what one
// question writes nothing comes after what could not be written.
func TestWhateverTheJournalRefusesIsTold(t *testing.T) {
	ctx, clock := context.Background(), day("2031-07-12 20:00")
	first := func(s shelf, kind string) string {
		for _, year := range []int{2031, 2030} {
			for _, e := range s[year] {
				if e.Kind() == kind && e.Head().By == "aaaaaa" && e.Head().Replaces == "" {
					return e.Head().File
				}
			}
		}
		return ""
	}
	latestOf := func(s shelf, year int) string { return s[year][len(s[year])-1].Head().File }
	for name, do := range map[string]func(l *Ledger, s shelf) error{
		"read":       func(l *Ledger, s shelf) error { return l.Read(ctx, clock) },
		"read years": func(l *Ledger, s shelf) error { return l.Read(ctx, clock, 2030, 2031) },
		"clock": func(l *Ledger, s shelf) error {
			err := l.CheckClock(ctx, day("2029-01-01"))
			var ahead strict.Errors
			if errors.As(err, &ahead) && len(ahead) == 6 {
				return nil // all of them are after that day
			}
			return err
		},
		"stock": func(l *Ledger, s shelf) error {
			if err := l.Read(ctx, clock); err != nil {
				return err
			}
			_, err := l.Stock(ctx)
			return err
		},
		"move": func(l *Ledger, s shelf) error {
			_, err := l.Move(ctx, &Move{To: KindGive, Weight: units.MustParse("50 g")}, "bed-1/ungraded-sound", clock)
			return err
		},
		"move corrected": func(l *Ledger, s shelf) error {
			m := &Move{To: KindUse, Weight: units.MustParse("250 g")}
			m.Replaces = first(s, KindUse)
			_, err := l.Move(ctx, m, "bed-1/ungraded-sound", clock)
			return err
		},
		"reweigh": func(l *Ledger, s shelf) error {
			_, err := l.Reweigh(ctx, &Reweighed{Weight: units.MustParse("2.7 kg")}, "bed-1/ungraded-sound", clock)
			return err
		},
		"fits": func(l *Ledger, s shelf) error {
			_, err := l.Fits(ctx, &BatchEvent{Event: KindChilled, Name: "Soup"}, clock)
			return err
		},
		"void": func(l *Ledger, s shelf) error {
			_, err := l.Void(ctx, first(s, KindUse), "", clock)
			return err
		},
		"undo": func(l *Ledger, s shelf) error {
			_, err := l.Undo(ctx, "", clock)
			return err
		},
		"take back what a form wrote": func(l *Ledger, s shelf) error {
			_, err := l.TakeBack(ctx, first(s, KindUse), clock)
			return err
		},
		"take back a correction": func(l *Ledger, s shelf) error {
			_, err := l.TakeBack(ctx, latestOf(s, 2030), clock)
			return err
		},
		"mend": func(l *Ledger, s shelf) error {
			_, err := l.Mend(ctx, clock)
			return err
		},
		"left open": func(l *Ledger, s shelf) error {
			_, err := l.LeftOpen(ctx, clock)
			return err
		},
		"decide": func(l *Ledger, s shelf) error {
			_, err := l.Decide(ctx, latestOf(s, 2030), clock)
			return err
		},
		"next": func(l *Ledger, s shelf) error {
			_, err := l.Next(ctx, NextQuestion{Year: 2032})
			return err
		},
		"record": func(l *Ledger, s shelf) error {
			if err := l.Read(ctx, clock); err != nil {
				return err
			}
			account, err := l.Account()
			if err != nil {
				return err
			}
			p := NewPlanned(clock, account.Stock(), []Making{{"Mash", 2}}, []Use{{Lot: account.Stock().Lots[0].ID, Weight: units.MustParse("100 g"), Dish: "Mash"}})
			return l.Record(ctx, p, clock)
		},
		"plan called": func(l *Ledger, s shelf) error {
			_, err := l.PlanCalled(ctx, LastPlan, clock)
			var none *units.FieldError
			if errors.As(err, &none) && none.Problem == "no plan is recorded, this season or the last" {
				return nil
			}
			return err
		},
		"written by": func(l *Ledger, s shelf) error {
			_, err := l.WrittenBy(ctx, "token")
			return err
		},
		"latest": func(l *Ledger, s shelf) error {
			_, err := l.Latest(ctx, 5, clock)
			return err
		},
		"entry of": func(l *Ledger, s shelf) error {
			_, err := l.EntryOf(ctx, first(s, KindUse))
			return err
		},
	} {
		t.Run(name, func(t *testing.T) {
			run := func(at int) (calls int, entries int, err error) {
				s := busyShelf(t)
				before := len(s[2030]) + len(s[2031])
				j := &refusing{shelf: s, at: at}
				l := NewLedger(j, plot(), true)
				l.Author, l.Sure = Author{Device: "aaaaaa", Now: clock}, true
				err = do(l, s)
				return j.calls, len(s[2030]) + len(s[2031]) - before, err
			}
			calls, most, err := run(-1)
			require.NoError(t, err)
			require.Positive(t, calls)
			for at := range calls {
				asked, wrote, err := run(at)
				require.ErrorIs(t, err, errDisk, "call %d of %d", at, calls)
				assert.LessOrEqual(t, wrote, max(0, most-1), "call %d of %d", at, calls)
				assert.LessOrEqual(t, asked, calls)
			}
		})
	}
}
