package harvest

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"trencher/units"
)

// largeJournals are journals of so many entries, each the worst of its kind for
// whoever looks through entries for each entry.
var largeJournals = map[string]func(n int) []Entry{
	"lifts": func(n int) (list []Entry) {
		for i := range n {
			list = append(list, nth(i, liftOf("tub-3", "2031-07-12 16:40", "1820 g", "820 g 20-45 mm scabby")))
		}
		return list
	},
	"lifts of many plantings": func(n int) (list []Entry) {
		for i := range n {
			list = append(list, nth(i, liftOf("row-"+strconv.Itoa(i%2000), "2031-07-12 16:40", "1820 g")))
		}
		return list
	},
	"lifts before their planting": func(n int) (list []Entry) {
		for i := range n {
			list = append(list, nth(i-n, liftOf("bed-1", "2029-07-12 16:40", "1820 g")))
		}
		return list
	},
	"lifts of what is not planted": func(n int) (list []Entry) {
		for i := range n {
			list = append(list, nth(i, liftOf("nowhere", "2031-07-12 16:40", "1820 g")))
		}
		return list
	},
	"uses of a lift struck out": func(n int) []Entry {
		return append(usesOf(n, usual, "1 g"), usualLift(), voidOf(0, usualLift().File))
	},
	"uses of lots nobody knows": func(n int) []Entry {
		list := usesOf(n/2, "bed-1/2031-0712-0900/ungraded-sound", "1 g")
		for i := range n / 2 {
			list = append(list, nth(i, liftOf("tub-3", "2031-07-12 16:40", "1820 g")))
		}
		return list
	},
	"uses on as many days": func(n int) (list []Entry) {
		for i := range n / 2 {
			lift := nth(i, liftOf("tub-3", "2031-07-12 16:40", "1820 g")).(*Lift)
			use := nth(n+i, moveOf(KindUse, "2031-07-13 12:00", lift.lotsBegin("")+"ungraded-sound", "1 g")).(*Move)
			use.Dish = "Dish " + strconv.Itoa(i)
			list = append(list, lift, use)
		}
		return list
	},
	"more taken than there was, and weighed again": func(n int) (list []Entry) {
		for i := range n / 4 {
			lift := nth(i, liftOf("tub-3", "2031-07-12 16:40", "100 g")).(*Lift)
			lot := lift.lotsBegin("") + "ungraded-sound"
			again := &Reweighed{Lot: lot, Weight: units.MustParse("50 g")}
			list = append(list, lift, nth(n+4*i, moveOf(KindUse, "2031-07-13 12:00", lot, "70 g")), nth(n+4*i+1, moveOf(KindUse, "2031-07-13 12:00", lot, "70 g")), nth(n+4*i+2, again))
		}
		return list
	},
	"a chain of corrections": func(n int) []Entry {
		list := []Entry{usualLift()}
		for i := range n {
			next := nth(i, liftOf("tub-3", "2031-07-12 16:40", "1820 g"))
			next.Head().Replaces = list[i].Head().File
			list = append(list, next)
		}
		return list
	},
	"a ring of corrections": func(n int) (list []Entry) {
		for i := range n {
			list = append(list, nth(i, liftOf("tub-3", "2031-07-12 16:40", "1820 g")))
		}
		for i := range n {
			list[i].Head().Replaces = list[(i+1)%n].Head().File
		}
		return list
	},
	"corrections of one entry": func(n int) []Entry {
		list := []Entry{usualLift()}
		for i := range n {
			next := nth(i, liftOf("tub-3", "2031-07-12 16:40", "1820 g"))
			next.Head().Replaces = list[0].Head().File
			list = append(list, next)
		}
		return list
	},
	"entries undone": func(n int) (list []Entry) {
		for i := range n / 2 {
			lift := nth(i, liftOf("tub-3", "2031-07-12 16:40", "1820 g"))
			list = append(list, lift, voidOf(i, lift.Head().File))
		}
		return list
	},
	"plans": func(n int) []Entry {
		list := []Entry{usualLift()}
		for i := range n {
			p := &Planned{ID: "p" + strconv.Itoa(i), Makes: []Making{{"Mash", 2}}, Uses: []Use{{usual, units.MustParse("1 g"), "Mash"}}, Spots: []Spot{{5, 3}}}
			list = append(list, nth(i, p))
		}
		return list
	},
	"a plan of lots nobody knows": func(n int) []Entry {
		p := &Planned{ID: "p", Makes: []Making{{"Mash", 2}}}
		for i := range n / 8 {
			p.Uses = append(p.Uses, Use{"bed-1/2031-0712-0900/ungraded-sound", units.MustParse("1 g"), "Mash"})
			p.Spots = append(p.Spots, Spot{i + 5, 3})
		}
		return []Entry{usualLift(), nth(0, p)}
	},
	"batches": func(n int) (list []Entry) {
		for i := range n / 2 {
			name := "Bowl " + strconv.Itoa(i)
			list = append(list, bowlEvent(2*i, KindCooked, name, "4"), bowlEvent(2*i+1, KindEaten, name, "2"))
		}
		return list
	},
	"one bowl out and in": func(n int) []Entry {
		list := []Entry{bowlEvent(0, KindCooked, "Bowl", "4"), bowlEvent(1, KindChilled, "Bowl", "")}
		for i := 2; i < n; i += 2 {
			list = append(list, bowlEvent(i, KindOut, "Bowl", ""), bowlEvent(i+1, KindChilled, "Bowl", ""))
		}
		return list
	},
	"bowls of one name, all eaten": func(n int) (list []Entry) {
		for i := range n / 3 {
			list = append(list, bowlEvent(2*i, KindCooked, "Bowl", "4"), bowlEvent(2*i+1, KindEaten, "Bowl", ""), bowlEvent(n+i, KindEaten, "bowl", "1"))
		}
		return list
	},
	"notes": func(n int) (list []Entry) {
		for i := range n {
			list = append(list, nth(i, &Note{Dish: "Dish " + strconv.Itoa(i%500), Says: "more salt"}))
		}
		return list
	},
}

// nth is an entry as the n-th of its season, with a file of its own.
func nth(n int, e Entry) Entry {
	h := e.Head()
	h.At = day("2031-07-12 16:40").Add(time.Duration(n) * 10 * time.Second)
	if h.At.Year() != 2031 {
		h.At = day("2031-12-01")
	}
	if n < 0 {
		h.At = day("2031-03-01").Add(time.Duration(n) * 10 * time.Second)
	}
	h.By, h.Form = "abcdef", fmt.Sprintf("form%09d", n)
	h.File = fmt.Sprintf("journal/2031/%s-%s-%07d.yaml", h.At.Format("0102-1504"), e.Kind(), n+5_000_000)
	h.Places = PlacesAt(KeyPlace{Spot: Spot{2, 1}})
	return e
}

func usesOf(n int, lot, weight string) (list []Entry) {
	for i := range n {
		list = append(list, nth(i, moveOf(KindUse, "2031-07-13 12:00", lot, weight)))
	}
	return list
}

func voidOf(n int, file string) Entry { return nth(n+1_000_000, &Void{Voids: file}) }

func bowlEvent(n int, event, name, amount string) Entry {
	b := &BatchEvent{Event: event, Name: name}
	if amount != "" {
		b.Amount = units.MustParse(amount)
	}
	return nth(n, b)
}

// manyPlantings are the usual ones and 2,000 more.
func manyPlantings() []Planting {
	list := plot()
	for i := range 2000 {
		list = append(list, Planting{ID: "row-" + strconv.Itoa(i), Crop: "carrot", Planted: day("2031-04-01"), Bed: units.MustParse("1 m2")})
	}
	return list
}

// askedOfJournals are the questions that look through a journal.
var askedOfJournals = map[string]func(l *Ledger) error{
	"stock": func(l *Ledger) error {
		account, err := l.Account()
		if err != nil {
			return err
		}
		stock := account.Stock()
		_, _ = stock.Find("tub-3")
		_ = stock.Fingerprint()
		return nil
	},
	"tally": func(l *Ledger) error {
		account, err := l.Account()
		if err != nil {
			return err
		}
		Compare([]Season{account.Season(2031), account.Season(2030)})
		return nil
	},
	"ready":   func(l *Ledger) error { _, err := l.Ready(); return err },
	"batches": func(l *Ledger) error { _, err := l.Batches(l.On); return err },
	"next": func(l *Ledger) error {
		_, err := l.Next(context.Background(), NextQuestion{Year: 2032})
		return err
	},
	"clock":  func(l *Ledger) error { return l.CheckClock(context.Background(), l.On) },
	"last":   func(l *Ledger) error { _, err := l.Last(context.Background()); return err },
	"latest": func(l *Ledger) error { _, err := l.Latest(context.Background(), 5, l.On); return err },
	"open":   func(l *Ledger) error { _, err := l.LeftOpen(context.Background(), l.On); return err },
	"plan":   func(l *Ledger) error { _, err := l.PlanCalled(context.Background(), LastPlan, l.On); return err },
	"lift": func(l *Ledger) error {
		_, err := l.Lift(context.Background(), liftOf("tub-3", "2031-12-30 16:40", "1820 g"), l.On)
		return err
	},
	"use": func(l *Ledger) error {
		_, err := l.Move(context.Background(), &Move{To: KindUse, Weight: units.MustParse("1 g")}, "tub-3", l.On)
		return err
	},
	"cooked": func(l *Ledger) error {
		_, err := l.Fits(context.Background(), &BatchEvent{Event: KindChilled, Name: "Bowl 1"}, l.On)
		return err
	},
	"undo": func(l *Ledger) error { _, err := l.Undo(context.Background(), "", l.On); return err },
	"mend": func(l *Ledger) error { _, err := l.Mend(context.Background(), l.On); return err },
}

// forgetful is a journal in memory that keeps nothing written.
type forgetful struct{ shelf }

func (forgetful) Write(e Entry) (string, error) {
	e.Head().File = "journal/2031/new.yaml"
	return e.Head().File, nil
}

// bystander is an entry that counts how often it is looked at.
type bystander struct {
	*Note
	looks *int
}

func (b bystander) Head() *Header   { *b.looks++; return b.Note.Head() }
func (b bystander) When() time.Time { *b.looks++; return b.Note.When() }

// No question of a journal looks through all entries for each entry: with ten
// times as many between them, the first and the last are not looked at that much
// more often.
func TestNoEntryIsLookedAtForEachOther(t *testing.T) {
	for kind, entries := range largeJournals {
		for question, ask := range askedOfJournals {
			looks := func(n int) (looks int) {
				first, last := bystander{&Note{Dish: "Mash"}, &looks}, bystander{&Note{Dish: "Mash"}, &looks}
				nth(0, first.Note).Head().At = day("2031-01-01")
				nth(1, last.Note).Head().At = day("2031-12-31")
				l := NewLedger(forgetful{shelf{2031: append(entries(n), first, last)}}, plot(), true)
				l.Author, l.Sure = Author{Device: "another", Now: day("2031-12-31")}, true
				if l.Read(context.Background(), day("2031-12-31")) == nil {
					_ = ask(l)
				}
				return looks
			}
			few, many := looks(24), looks(240)
			assert.Less(t, many-few, (240-24)/2, "%s, %s: %d times among 24 entries, %d among 240", kind, question, few, many)
		}
	}
}

// Nor does any answer take more than in step with the journal: eight times as many
// entries cost about eight times as much, where they would cost up to 64 times.
// Both are told by the processor time of one run.
func TestQuestionsGrowWithTheJournal(t *testing.T) {
	n := Volume(0, 1500, 3000)
	if n == 0 {
		t.Skip("a comparison of processor times: TRENCHER_LONG=1")
	}
	plantings := manyPlantings()
	for _, kind := range slices.Sorted(maps.Keys(largeJournals)) {
		few, many := largeJournals[kind](n), largeJournals[kind](8*n)
		for _, question := range slices.Sorted(maps.Keys(askedOfJournals)) {
			t.Run(kind+"/"+question, func(t *testing.T) {
				least := func(entries []Entry) time.Duration {
					took := time.Hour
					for range 2 {
						l := NewLedger(forgetful{shelf{2031: slices.Clone(entries)}}, plantings, true)
						l.Author, l.Sure = Author{Device: "abcdef", Now: day("2031-12-31")}, true
						begin := processorTime()
						if l.Read(context.Background(), day("2031-12-31")) == nil {
							_ = askedOfJournals[question](l)
						}
						took = min(took, processorTime()-begin)
					}
					return took
				}
				one, eight := least(few), least(many)
				t.Logf("%v, %v", one, eight)
				assert.Less(t, eight, 26*one+50*time.Millisecond)
			})
		}
	}
}
