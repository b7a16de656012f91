package harvest

import (
	"cmp"
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/spelled"
)

// `go test ./harvest -update` writes the golden files anew; read each difference.
var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name, text string) {
	t.Helper()
	file := "testdata/seasons/" + name + ".txt"
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), text)
}

// inFull spells an answer out, a planting and a row of a table by its name.
func inFull(value any) string { return spelled.Out(value, named) }

func named(value any) (string, bool) {
	switch value := value.(type) {
	case Planting:
		return value.ID + " of " + value.Planted.Format(time.DateOnly), true
	case CropRow:
		return value.ID, true
	case Window:
		return value.When(), true
	case units.Provenance:
		return value.KnownBy, true
	case units.Reason:
		return value.Figure, true
	}
	return "", false
}

// threeSeasons is an invented plot in which something of every kind happened.
func threeSeasons() ([]Planting, []Entry) {
	m := units.MustParse
	plantings := []Planting{
		{ID: "tub-1", Crop: "potato", Class: "first early", Planted: day("2029-04-02"), SeedCount: 3, Tub: m("30 l")},
		{ID: "tub-1", Crop: "potato", Class: "first early", Planted: day("2030-04-05"), SeedCount: 4, SeedWeight: m("260 g"), Tub: m("30 l"), Feed: "seaweed", Mulch: "straw"},
		{ID: "tub-1", Crop: "potato", Class: "second early", Planted: day("2031-04-02"), SeedCount: 3, SeedWeight: m("190 g"), Tub: m("30 l"), Texture: "waxy"},
		{ID: "bed-2", Crop: "beetroot", Planted: day("2031-04-20"), Sown: true, Bed: m("2 m2")},
		{ID: "bed-3", Crop: "dwarf French bean", Planted: day("2031-05-20"), Bed: m("1 m2")},
		{ID: "bed-4", Crop: "courgette", Planted: day("2031-03-01"), Bed: m("1 m2"), SeedCount: 2},
		{ID: "bed-5", Crop: "leek", Planted: day("2030-04-10"), Bed: m("1 m2")},
		{ID: "bed-6", Crop: "carrot", Planted: day("2030-04-05"), Bed: m("1 m2")},
		{ID: "bed-7", Crop: "moonflower", Planted: day("2031-04-05"), Bed: m("1 m2")},
	}
	early := liftOf("tub-1", "2030-07-10 10:00", "4 kg", "1.5 kg 20-45 mm 40 pieces", "2 kg 45-65 mm scabby", "100 g green")
	early.Mothers, early.Soil = m("250 g"), m("400 g")
	last := liftOf("bed-3", "2031-07-20 09:00", "600 g")
	last.Left = LeftNone
	some := liftOf("tub-1", "2031-07-05 10:00", "1.8 kg", "700 g 20-45 mm 21 pieces", "500 g 45-65 mm damaged", "60 g green", "40 g rotten")
	some.Left, some.Where = LeftSome, "trug"
	stored := moveOf(KindStore, "2030-09-02 10:00", "bed-6/2030-0901-1000/ungraded-sound", "2 kg")
	stored.Where, stored.Air = "damp sand", m("6 C")
	into := func(m *Move, dish string) *Move { m.Dish = dish; return m }
	weighed := &Reweighed{Lot: "bed-6/2030-0901-1000/ungraded-sound", Weight: m("1.3 kg"), Rotten: m("200 g")}
	weighed.At, weighed.File = day("2031-03-01 12:00"), "journal/2030/0301-1200-reweighed.yaml"
	batch := func(kind, at, name, amount string) *BatchEvent {
		b := &BatchEvent{Event: kind, Name: name, Food: "mash", Dish: "Crushed potatoes"}
		b.At, b.File = day(at), "journal/"+at[:4]+"/"+kind+at[8:10]+at[11:13]+".yaml"
		if amount != "" {
			b.Amount = m(amount)
		}
		return b
	}
	out := batch(KindOut, "2031-07-17 15:00", "Mash", "")
	out.Until, out.Air = day("2031-07-17 16:00"), m("24 C")
	return plantings, []Entry{
		liftOf("tub-1", "2029-07-01 10:00", "2 kg"), into(moveOf(KindUse, "2029-07-02 12:00", "tub-1/2029-0701-1000/ungraded-sound", "1.9 kg"), "Crushed potatoes"),
		early, into(moveOf(KindUse, "2030-07-12 12:00", "tub-1/2030-0710-1000/20-45-sound", "1.2 kg"), "Crushed potatoes"),
		batch(KindCooked, "2030-07-12 13:00", "Mash", "6"), batch(KindEaten, "2030-07-12 13:30", "Mash", "5"), batch(KindBinned, "2030-07-12 14:00", "Mash", ""),
		moveOf(KindGive, "2030-08-01 12:00", "tub-1/2030-0710-1000/45-65-scabby", "1 kg"), moveOf(KindCompost, "2030-08-20 12:00", "tub-1/2030-0710-1000/45-65-scabby", "900 g"),
		liftOf("bed-5", "2030-11-10 10:00", "1.2 kg"), liftOf("bed-6", "2030-09-01 10:00", "3 kg"), stored, weighed,
		into(moveOf(KindUse, "2030-12-12 12:00", "bed-6/2030-0901-1000/ungraded-sound", "300 g"), "Soup"),
		into(moveOf(KindUse, "2031-01-12 12:00", "bed-6/2030-0901-1000/ungraded-sound", "250 g"), "Soup"),
		some, liftOf("tub-1", "2031-07-19 10:00", "1.6 kg", "1.2 kg 20-45 mm"), liftOf("bed-2", "2031-07-19 10:30", "1.5 kg", "1.2 kg 35-55 mm 11 pieces"), last,
		batch(KindCooked, "2031-07-17 13:00", "Mash", "4"), batch(KindChilled, "2031-07-17 13:40", "Mash", ""), out, batch(KindReheated, "2031-07-17 18:00", "Mash", ""), batch(KindEaten, "2031-07-17 18:10", "Mash", "3"),
		into(moveOf(KindUse, "2031-07-06 12:00", "tub-1/2031-0705-1000/20-45-sound", "650 g"), "Crushed potatoes"),
		moveOf(KindUse, "2031-07-04 12:00", "tub-1/2031-0705-1000/ungraded-sound", "900 g"),
	}
}

// The account, the stock, the tally and the batches on days of three seasons.
func TestSeasonsInFull(t *testing.T) {
	plantings, entries := threeSeasons()
	var text strings.Builder
	for _, on := range []string{"2030-07-15", "2030-12-20", "2031-02-01", "2031-07-20", "2031-10-01"} {
		account, err := Settle(plantings, entries, day(on))
		require.NoError(t, err)
		fmt.Fprintf(&text, "===== on %s\n%s%s", on, inFull(*account), strings.Join(Said(account.Warnings), "\n"))
		stock := account.Stock()
		fmt.Fprintf(&text, "\n----- stock\n%s", inFull(stock))
		for _, l := range stock.Lots {
			fmt.Fprintf(&text, "%s: %s %s %s, lies %s, on the scale %s, expected %s\n", l.ID, l.Crop, l.Class, l.Texture,
				spelled.Line(l.Lies(), named), l.lastWeighed().Format(time.DateOnly), spelled.Line(l.Expect(stock.On), named))
		}
		for _, r := range stock.Reasons() {
			fmt.Fprintf(&text, "%s: %s\n", r.Figure, r.Value)
		}
		for _, b := range Batches(entries, day(on)) {
			fmt.Fprintf(&text, "----- batch %v\n%s", b.Fitting(), inFull(*b))
		}
	}
	account, err := Settle(plantings, entries, day("2031-07-20"))
	require.NoError(t, err)
	tally := account.Tally(2029, 2030, 2031)
	for _, season := range tally.Seasons {
		fmt.Fprintf(&text, "===== season\n%s%s", inFull(season), inFull(season.Total()))
		for _, y := range season.Rows {
			against, ok := y.AgainstUsual()
			fmt.Fprintf(&text, "%s wasted %s, against %v %s; went %s\n", y.Planting.ID, y.Waste(), ok, spelled.Line(against, named), spelled.Line(y.Went.Parts(), named))
		}
	}
	fmt.Fprintf(&text, "===== side by side, heaviest %s\n%s", tally.Heaviest(), inFull(Compare(tally.Seasons)))
	golden(t, "account", text.String())
}

// What to plant after those seasons, and before any.
func TestNextInFull(t *testing.T) {
	plantings, entries := threeSeasons()
	var text strings.Builder
	for _, c := range []struct {
		name     string
		question NextQuestion
	}{
		{"as before", NextQuestion{Year: 2032}}, {"for half as many again", NextQuestion{Year: 2032, People: 1.5}}, {"an earlier year", NextQuestion{Year: 2031}},
		{"meant", NextQuestion{Year: 2032, Eat: []Appetite{appetite(t, "late maincrop potato, 3 a week, 26 weeks"), appetite(t, "leek, 1 a week, 10 weeks")}}},
	} {
		s := shelf{}
		for _, e := range entries {
			_, err := s.Write(e)
			require.NoError(t, err)
		}
		l := NewLedger(s, plantings, false)
		l.Site = UsualSite()
		next, err := l.Next(context.Background(), c.question)
		require.NoError(t, err)
		fmt.Fprintf(&text, "===== %s\n%s", c.name, inFull(next))
		for _, r := range next.Reasons() {
			fmt.Fprintf(&text, "%s: %s\n", r.Figure, r.Value)
		}
	}
	golden(t, "next", text.String())
}

func appetite(t *testing.T, says string) Appetite {
	a, err := ParseAppetite(says)
	require.NoError(t, err)
	a.Helpings, a.Prepared = 3, 0.8
	return a
}

// Each row of the table of crops, by class: when it is ready through the year, from
// three dates of sowing, on a cold and on a usual site, and how long it keeps raw.
func TestCropsThroughTheYear(t *testing.T) {
	var text strings.Builder
	var cold Site
	cold.FirstFrost, _ = units.ParseMonthDay("09-01")
	cold.LastFrost, _ = units.ParseMonthDay("06-01")
	for _, row := range Crops() {
		for _, class := range append([]string{""}, row.Classes()...) {
			fmt.Fprintf(&text, "%s %s", row.Crop, class)
			if k, ok := KeptRaw(row.Crop, class, Sound, ""); ok {
				fmt.Fprintf(&text, ", keeps %v", k.Days)
			}
			for _, place := range []Keeping{InFridge, CoolDark, InSand} {
				if k, ok := KeptRaw(row.Crop, class, Damaged, place); ok {
					fmt.Fprintf(&text, ", in %s %v", place, k.Days)
				}
			}
			fmt.Fprintln(&text)
			for _, planted := range []string{"2031-03-20", "2031-06-01", "2031-10-10"} {
				p := Planting{ID: "p", Crop: row.Crop, Class: class, Planted: day(planted), Sown: planted != "2031-06-01"}
				text.WriteString(readyThrough(p, Site{}, "usual", planted))
				if !p.Sown {
					text.WriteString(readyThrough(p, cold, "cold", planted))
				}
			}
		}
	}
	golden(t, "crops", text.String())
}

// readyThrough is when a planting changes its state.
func readyThrough(p Planting, site Site, name, planted string) string {
	var out strings.Builder
	before := ""
	for on := p.Planted; on.Before(p.Planted.AddDate(1, 3, 0)); on = on.AddDate(0, 0, 12) {
		list, untold := Ready([]Planting{p}, nil, site, on)
		now := "none"
		if len(list) > 0 {
			r := list[0]
			now = fmt.Sprintf("%s %s-%s", r.State, r.From.Format("2 Jan"), r.To.Format("2 Jan"))
			if r.Frosted {
				now += " frosted"
			}
			if r.OutOfTime {
				now += " out of time"
			}
		}
		if len(untold) > 0 {
			now = "untold"
		}
		if now != before {
			fmt.Fprintf(&out, "%s %s; ", on.Format("06-01-02"), now)
		}
		before = now
	}
	return fmt.Sprintf("  %s, %s: %s\n", planted, name, out.String())
}

// The least and the most of what is asked for is taken, and no more.
func TestBordersOfNext(t *testing.T) {
	for says, want := range map[string]string{
		"potato, 21 a week, 52 weeks": "", "potato 0.5 a week 1 week": "", "Late maincrop potatoes: 3 times a week for 26 weeks": "",
		"potato, 21.5 a week, 52 weeks": "beyond", "potato, 21 a week, 53 weeks": "beyond", "potato, 0 a week, 5 weeks": "beyond", "potato, 1 a week, 0 weeks": "beyond",
		"potato often": "not how often", "boots, 3 a week, 2 weeks": "no row for boots", "hearting potato, 1 a week, 2 weeks": "no row for",
	} {
		a, err := ParseAppetite(says)
		if want == "" {
			require.NoError(t, err, says)
			assert.Equal(t, "potato", a.Crop)
			continue
		}
		require.ErrorContains(t, err, want, says)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong)
		assert.Equal(t, []string{"eat", says, appetiteForm}, []string{wrong.Field, wrong.Value, wrong.Accepted})
	}
	for year, ok := range map[int]bool{1899: false, 1900: true, 2999: true, 3000: false} {
		assert.Equal(t, ok, CheckSeasons(2031, year) == nil, year)
	}
	assert.Equal(t, "left out a.yaml: broken", SaidLeftOut([]LeftOut{{"a.yaml", errors.New("broken")}})[0])
	many := make([]string, 13)
	for i := range many {
		many[i] = fmt.Sprint(i)
	}
	assert.Equal(t, "(none yet)", orNone(nil))
	assert.Equal(t, "0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11", orNone(many[:12]))
	assert.Equal(t, "0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11 and 1 more", orNone(many))
}

// What a form wrote is found by its token, in the latest season that has any, in the
// order it was written.
func TestWhatAFormWrote(t *testing.T) {
	s := shelf{}
	note := func(at, form string, logged time.Duration) *Note {
		n := &Note{Dish: "Mash", Says: at}
		n.At, n.Form, n.Logged = day(at), form, day(at).Add(logged)
		n.File = "journal/" + at[:4] + "/" + at[5:7] + at[8:10] + "-note.yaml"
		_, err := s.Write(n)
		require.NoError(t, err)
		return n
	}
	form := FormOf("one", "says")
	note("2030-07-01", form, 0)
	late, early := note("2031-07-01", form, 5*24*time.Hour), note("2031-07-02", FormOf("one", "else"), 0)
	note("2031-07-03", FormOf("other", "says"), 0)
	l := NewLedger(s, nil, true)
	found, err := l.WrittenBy(context.Background(), "one")
	require.NoError(t, err)
	require.Len(t, found, 2)
	assert.Equal(t, []string{early.Says, late.Says}, []string{found[0].(*Note).Says, found[1].(*Note).Says})
	none, err := l.WrittenBy(context.Background(), "third")
	require.NoError(t, err)
	assert.Empty(t, none)
	assert.NotEqual(t, FormOf("one", "says"), FormOf("one", "else"))
	assert.Equal(t, cmp.Compare(FormOf("one", "says")[:formLetters+1], FormOf("one", "else")[:formLetters+1]), 0)
}
