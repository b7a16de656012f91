package harvest

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/strict"
)

func day(text string) time.Time {
	for _, form := range []string{time.DateOnly, "2006-01-02 15:04"} {
		if t, err := time.Parse(form, text); err == nil {
			return t
		}
	}
	panic(text)
}

// plot is one tub, one bed, and a tub whose name was used the year before.
func plot() []Planting {
	return []Planting{
		{ID: "tub-3", Crop: "potato", Variety: "Weir Gold", Class: "second early", Planted: day("2031-04-02"), SeedCount: 3,
			SeedWeight: units.MustParse("190 g"), Tub: units.MustParse("30 l"), Texture: "waxy", Place: Place{"plantings.yaml", 1, 3}},
		{ID: "bed-1", Crop: "beetroot", Planted: day("2031-04-20"), Bed: units.MustParse("2 m2"), Place: Place{"plantings.yaml", 9, 3}},
		{ID: "tub-3", Crop: "carrot", Planted: day("2030-04-01"), Tub: units.MustParse("30 l"), Place: Place{"plantings.yaml", 13, 3}},
	}
}

// liftOf is a lift of one bowl with grades written in one line each.
func liftOf(planting, at, net string, grades ...string) *Lift {
	l := &Lift{Planting: planting, Weighings: []Weighing{{Gross: units.MustParse(net)}}}
	l.At = day(at)
	l.File = fmt.Sprintf("journal/%s/%s-lift-%s.yaml", l.At.Format("2006"), l.At.Format("0102-1504"), planting)
	for _, text := range grades {
		g, err := ParseGrade(text, units.Metric)
		if err != nil {
			panic(err)
		}
		l.Grades = append(l.Grades, g)
	}
	return l
}

func moveOf(to, at, lot, weight string) *Move {
	m := &Move{To: to, Lot: lot, Weight: units.MustParse(weight)}
	m.At = day(at)
	m.File = fmt.Sprintf("journal/2031/%s-%s-%s.yaml", m.At.Format("0102-1504"), to, strings.Split(lot, "/")[0])
	return m
}

const usual = "tub-3/2031-0712-1640/20-45-scabby"

func usualLift() *Lift {
	return liftOf("tub-3", "2031-07-12 16:40", "1820 g", "700 g 45-65 mm 6 pieces", "820 g 20-45 mm scabby", "90 g damaged", "60 g green")
}

// stockOf settles entries and lists what is on hand.
func stockOf(plantings []Planting, entries []Entry, on time.Time) (StockList, error) {
	account, err := Settle(plantings, entries, on)
	if err != nil {
		return StockList{}, err
	}
	return account.Stock(), nil
}

func names(list StockList) string {
	var out []string
	for _, l := range list.Lots {
		mark := ""
		if l.First {
			mark = "!"
		}
		out = append(out, fmt.Sprintf("%s%s=%s/%s", mark, l.Name, l.Weight, l.Supply))
	}
	return strings.Join(out, " ")
}

func TestStockOnADay(t *testing.T) {
	entries := []Entry{
		usualLift(),
		liftOf("bed-1", "2031-07-20 09:00", "1200 g"),
		moveOf(KindUse, "2031-07-13 12:00", usual, "320 g"),
		moveOf(KindStore, "2031-07-13 13:00", usual, "300 g"),
		moveOf(KindGive, "2031-07-14 13:00", "tub-3/2031-0712-1640/45-65-sound", "700 g"),
		moveOf(KindCompost, "2031-07-21 13:00", "tub-3/2031-0712-1640/ungraded-green", "60 g"),
	}
	for _, row := range []struct{ on, want string }{
		{"2031-07-11", ""},
		{"2031-07-12", "!tub-3/ungraded-damaged=90/76.5 tub-3/20-45-scabby=820/820 tub-3/45-65-sound=700/700 tub-3/ungraded-sound=150/150 tub-3/ungraded-green=60/0"},
		{"2031-07-13", "!tub-3/ungraded-damaged=90/76.5 tub-3/20-45-scabby=500/500 tub-3/45-65-sound=700/700 tub-3/ungraded-sound=150/150 tub-3/ungraded-green=60/0"},
		// From its raw keeping date on a lot is to be used first; twice past its
		// life it stands at the end, to be looked over.
		{"2031-07-15", "!tub-3/20-45-scabby=500/500 !tub-3/ungraded-damaged=90/76.5 !tub-3/ungraded-sound=150/150 tub-3/ungraded-green=60/0"},
		{"2031-07-21", "bed-1/ungraded-sound=1200/1200 !tub-3/20-45-scabby=500/500 !tub-3/ungraded-damaged=90/76.5 !tub-3/ungraded-sound=150/150"},
	} {
		list, err := stockOf(plot(), entries, day(row.on))
		require.NoError(t, err)
		assert.Equal(t, row.want, names(list), row.on)
	}
}

// A lot's ID depends on its own lift alone, whatever else is in the journal
// and in whatever order it is read.
func TestLotNamesAreStable(t *testing.T) {
	first, second := usualLift(), usualLift()
	second.File = "journal/2031/0712-1640-lift-tub-3-2.yaml"
	third := liftOf("tub-3", "2031-07-12 16:40", "100 g")
	third.File = "journal/2031/monday.yaml"
	ids := func(entries ...Entry) map[string]bool {
		list, err := stockOf(plot(), entries, day("2031-07-12"))
		require.NoError(t, err)
		found := map[string]bool{}
		for _, l := range list.Lots {
			require.False(t, found[l.ID], l.ID)
			found[l.ID] = true
		}
		return found
	}
	alone, all := ids(first), ids(third, second, first)
	assert.Len(t, all, 11)
	assert.True(t, alone[usual])
	for id := range alone {
		assert.True(t, all[id], id)
	}
	assert.True(t, all["tub-3/2031-0712-1640-2/20-45-scabby"])
	assert.True(t, all["tub-3/2031-monday/ungraded-sound"])
	twins, err := stockOf(plot(), []Entry{liftOf("bed-1", "2031-07-20 09:00", "300 g", "100 g sound", "100 g sound")}, day("2031-07-20"))
	require.NoError(t, err)
	assert.Equal(t, "bed-1/ungraded-sound=100/100 bed-1/ungraded-sound-2=100/100 bed-1/ungraded-sound-3=100/100", names(twins))
	year, ok := SeasonOf(usual)
	assert.True(t, ok)
	assert.Equal(t, 2031, year)
	for _, bad := range []string{"", "tub-3", "tub-3/0712/x", "a/b/c/d"} {
		_, ok := SeasonOf(bad)
		assert.False(t, ok, bad)
	}
}

// A tub may keep its name from year to year: a lift belongs to what stood in
// it on that day.
func TestAPlantingsNameMayComeAgain(t *testing.T) {
	old := liftOf("tub-3", "2030-09-01 10:00", "500 g")
	list, err := stockOf(plot(), []Entry{old, usualLift()}, day("2031-07-12"))
	require.NoError(t, err)
	crops := map[string]string{}
	for _, l := range list.Lots {
		crops[l.ID] = l.Crop
	}
	assert.Equal(t, "carrot", crops["tub-3/2030-0901-1000/ungraded-sound"])
	assert.Equal(t, "potato", crops[usual])
}

func TestCorrections(t *testing.T) {
	use := moveOf(KindUse, "2031-07-13 12:00", usual, "320 g")
	corrected := usualLift()
	corrected.Weighings[0].Gross = units.MustParse("1900 g")
	corrected.File, corrected.Replaces = "journal/2031/0712-1640-lift-tub-3-2.yaml", "0712-1640-lift-tub-3.yaml"
	again := usualLift()
	again.Weighings[0].Gross = units.MustParse("2000 g")
	again.File, again.Replaces = "journal/2031/0712-1640-lift-tub-3-3.yaml", "journal/2031/0712-1640-lift-tub-3-2.yaml"
	lift := usualLift()

	list, err := stockOf(plot(), []Entry{again, use, corrected, lift}, day("2031-07-13"))
	require.NoError(t, err)
	assert.Contains(t, names(list), "tub-3/20-45-scabby=500/500", "what was used stays used")
	assert.Contains(t, names(list), "tub-3/ungraded-sound=330/330", "2000 g less the grades of 1670 g")

	void := &Void{Voids: "0713-1200-use-tub-3"}
	void.At, void.File = day("2031-07-30"), "journal/2031/0730-1200-void.yaml"
	list, err = stockOf(plot(), []Entry{usualLift(), use, void}, day("2031-07-13"))
	require.NoError(t, err)
	assert.Contains(t, names(list), "tub-3/20-45-scabby=820/820")
}

func TestContradictionsAreNamed(t *testing.T) {
	void := func(name, target string) *Void {
		v := &Void{Voids: target}
		v.At, v.File = day("2031-07-30"), "journal/2031/"+name
		return v
	}
	replacing := func(target string) *Move {
		m := moveOf(KindUse, "2031-07-14 12:00", usual, "10 g")
		m.Replaces = target
		return m
	}
	early := liftOf("tub-3", "2029-07-12 16:40", "100 g")
	for _, row := range []struct {
		name    string
		entries []Entry
		says    string
	}{
		{"unknown planting", []Entry{liftOf("tub-9", "2031-07-12 16:40", "100 g")}, `planting "tub-9" is not in plantings.yaml`},
		{"lifted before it was planted", []Entry{early}, "tub-3 was lifted on 2029-07-12, before it was planted"},
		{"unknown lot", []Entry{usualLift(), moveOf(KindUse, "2031-07-13 12:00", "tub-3/2031-0712-1640/20-45-sound", "1 g")}, "there is no lot tub-3/2031-0712-1640/20-45-sound on 2031-07-13"},
		{"green to the kitchen", []Entry{usualLift(), moveOf(KindUse, "2031-07-13 12:00", "tub-3/2031-0712-1640/ungraded-green", "1 g")}, "is green: it never goes to the kitchen"},
		{"voids itself", []Entry{void("0730-1200-void.yaml", "0730-1200-void")}, "the entry names itself"},
		{"voids a void", []Entry{usualLift(), void("a.yaml", "0712-1640-lift-tub-3"), void("b.yaml", "a")}, "a strikes out another entry; that cannot be undone"},
		{"another kind", []Entry{usualLift(), replacing("0712-1640-lift-tub-3.yaml")}, "0712-1640-lift-tub-3.yaml is a lift, this is a use"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := stockOf(plot(), row.entries, day("2031-12-31"))
			var all strict.Errors
			require.ErrorAs(t, err, &all)
			assert.Contains(t, all[0].Error(), row.says)
			assert.NotEmpty(t, all[0].Accepted)
		})
	}
}

// Two people used one lot at once: both uses count, and the shortage is told.
func TestOverdrawnLots(t *testing.T) {
	entries := []Entry{usualLift(), moveOf(KindUse, "2031-07-13 12:00", usual, "600 g"), moveOf(KindGive, "2031-07-13 12:01", usual, "500 g")}
	account, err := Settle(plot(), entries, day("2031-07-13"))
	require.NoError(t, err)
	assert.Equal(t, []Warning{Overdrawn{"journal/2031/0713-1201-give-tub-3.yaml", usual, decimal.New(500, 0), decimal.New(220, 0)}}, account.Warnings)
	assert.Equal(t, "journal/2031/0713-1201-give-tub-3.yaml takes 500 g from "+usual+
		", which had 220 g left: weigh what is there, or void one of the entries", account.Warnings[0].String())
	assert.NotContains(t, names(account.Stock()), "20-45-scabby")
	row := account.Season(2031).Rows[0]
	assert.Equal(t, "600 500 720 1820", fmt.Sprint(row.Went.Kitchen, row.Went.Given, row.Went.OnHand, row.Went.Sum()))
}

// A second early keeps three to five days raw (common practice, no source); on
// the sixth a lot nobody logged the end of is asked about.
func TestOldLotsAreAskedAbout(t *testing.T) {
	for on, warned := range map[string]bool{"2031-07-17": false, "2031-07-18": true} {
		list, err := stockOf(plot(), []Entry{liftOf("tub-3", "2031-07-12 10:00", "1 kg"), liftOf("bed-1", "2031-07-12 10:00", "1 kg")}, day(on))
		require.NoError(t, err)
		assert.Equal(t, warned, len(list.Warnings) == 1, on)
		if warned {
			assert.Equal(t, PastKeeping{[]string{"tub-3/ungraded-sound"}}, list.Warnings[0])
			assert.Contains(t, list.Warnings[0].String(), "past the longest they keep raw: tub-3/ungraded-sound; look them over")
		}
	}
}

// What leaves is drawn from the loose part first, then from the store.
func TestStoredPartIsDrawnLast(t *testing.T) {
	entries := []Entry{usualLift(), moveOf(KindStore, "2031-07-13 12:00", usual, "500 g"), moveOf(KindUse, "2031-07-14 12:00", usual, "400 g")}
	account, err := Settle(plot(), entries, day("2031-07-14"))
	require.NoError(t, err)
	for _, l := range account.Lots {
		if l.ID == usual {
			assert.Equal(t, "400 420 0 420", fmt.Sprint(l.Went.Kitchen, l.Went.Stored, l.Went.OnHand, l.Weight))
		}
	}
}

func TestCheckClock(t *testing.T) {
	require.NoError(t, CheckClock([]Entry{usualLift()}, day("2031-07-12 08:00")), "later the same day is two clocks apart")
	err := CheckClock([]Entry{usualLift()}, day("2031-07-11"))
	require.ErrorContains(t, err, "2031-07-12 is after today, 2031-07-11")
	var all strict.Errors
	require.ErrorAs(t, err, &all)
	assert.Contains(t, all[0].Hint(), "--on 2031-07-12")
}
