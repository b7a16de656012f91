package harvest

import (
	"context"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// An entry of every kind is copied with the words in it, and the copy is its own.
func TestCopiesAreTheirOwn(t *testing.T) {
	head := Header{At: evening, File: "a.yaml"}
	for _, e := range []Entry{
		&Lift{Header: head, Planting: "tub-3"}, &Move{Header: head, To: KindGive, Lot: "x"}, &Reweighed{Header: head, Lot: "x"}, &BatchEvent{Header: head, Event: KindOut, Name: "Soup"},
		&Note{Header: head, Says: "good"}, &Steamed{Header: head, Crop: "potato"}, &Planned{Header: head, ID: "abcde"}, &Told{Header: head, Plan: "p"}, &Void{Header: head, Voids: "b.yaml"},
	} {
		c := copied(e)
		require.Equal(t, e, c)
		c.Head().File = "b.yaml"
		assert.Equal(t, "a.yaml", e.Head().File, e.Kind())
		said := again(e)
		assert.Equal(t, Header{At: evening, Replaces: "a.yaml"}, *said.Head())
		if e.Kind() == KindVoid {
			assert.Empty(t, struck(e, evening), "what strikes out is not struck out")
			continue
		}
		struckOut := struck(e, evening.Add(time.Millisecond))
		require.Len(t, struckOut, 1)
		assert.Equal(t, &Void{Header: Header{At: evening}, Voids: "a.yaml", Reason: mended}, struckOut[0])
	}
	assert.Empty(t, struck(nil, evening))
	assert.Nil(t, copied(nil))
	for w, between := range map[Warning]bool{LeftOut{}: true, Waiting{}: true, Overdrawn{}: true, Unlifted{}: true, Untold{}: false, Unfinished{}: false, ClockBehind{}: false} {
		assert.Equal(t, between, BetweenDevices(w), "%T", w)
	}
	assert.True(t, BetweenDevices(Conflict{}))
	assert.False(t, BetweenDevices(PastKeeping{}))
}

// A second weighing moves a lot where it says, and says how warm it is there; the air
// of another place is forgotten with the place.
func TestWhereASecondWeighingLies(t *testing.T) {
	m := units.MustParse
	for _, row := range []struct {
		where, air   string
		place, there string
	}{{"", "", "shed", "9 C"}, {"cellar", "", "cellar", ""}, {"cellar", "4 C", "cellar", "4 C"}, {"", "4 C", "shed", "4 C"}} {
		lot := &Lot{Planting: &Planting{}, Condition: Sound, Went: Went{OnHand: decimal.NewFromInt(1000)}, Kept: &Lying{Where: "shed", Air: m("9 C")}}
		shared := lot.Kept
		r := &Reweighed{Weight: m("900 g"), Where: row.where}
		if row.air != "" {
			r.Air = m(row.air)
		}
		r.apply(lot)
		assert.Equal(t, row.place+" "+row.there, lot.Lies().Where+" "+lot.Lies().Air.String())
		assert.Equal(t, "shed 9 C", shared.Where+" "+shared.Air.String())
		assert.Equal(t, "100 900", lot.Went.Dried.String()+" "+lot.Went.OnHand.String())
	}
}

// What cannot be the second weighing of a lot is told by its field.
func TestSecondWeighingsThatCannotBe(t *testing.T) {
	m := units.MustParse
	for name, row := range map[string]struct {
		r           *Reweighed
		field, says string
	}{
		"no weight":      {&Reweighed{}, "weight", "missing"},
		"below nothing":  {&Reweighed{Weight: units.New(decimal.NewFromInt(-1), units.Gram)}, "weight", "not one weight"},
		"a length":       {&Reweighed{Weight: m("1 m")}, "weight", "not one weight"},
		"rotten length":  {&Reweighed{Weight: m("1 g"), Rotten: m("1 m")}, "rotten", "not one weight"},
		"before the day": {&Reweighed{Header: Header{At: day("2031-07-11 10:00")}, Weight: m("1 g")}, "at", "before tub-3/20-45-scabby was lifted"},
		"nowhere":        {&Reweighed{Weight: m("1 g")}, "lot", "nothing of that name is on hand"},
	} {
		l, s := ledgerOf(usualLift())
		lot := usual
		if name == "nowhere" {
			lot = "tub-9"
		}
		_, err := l.Reweigh(context.Background(), row.r, lot, evening)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, name)
		assert.Equal(t, row.field, wrong.Field, name)
		assert.Contains(t, wrong.Problem, row.says, name)
		assert.Len(t, s[2031], 1, name)
	}
	l, s := ledgerOf(usualLift())
	_, err := l.Reweigh(context.Background(), &Reweighed{Weight: m("700 g"), Rotten: m("0 g")}, usual, evening)
	require.NoError(t, err)
	assert.Len(t, s[2031], 2)
}

// A batch goes by the beginning of its name where that is no other's, and an event of
// it is corrected in its own year.
func TestNamesOfBatches(t *testing.T) {
	ctx := context.Background()
	cooked := func(name, at string) *BatchEvent {
		b := &BatchEvent{Event: KindCooked, Name: name, Food: "mash"}
		b.At, b.File = day(at), "journal/2031/"+name+".yaml"
		return b
	}
	open := func() *Ledger {
		l, _ := ledgerOf(cooked("Mash", "2031-07-12 12:00"), cooked("Mashed beans", "2031-07-12 13:00"), cooked("Soup", "2031-07-12 14:00"))
		return l
	}
	for name, says := range map[string]string{"Mas": "more than one batch begins so", "Stew": "no batch of that name is there"} {
		_, err := open().Fits(ctx, &BatchEvent{Event: KindChilled, Name: name}, evening)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong)
		assert.Equal(t, "batch "+says, wrong.Field+" "+wrong.Problem)
		assert.Contains(t, wrong.Accepted, "Mashed beans")
	}
	for name, batch := range map[string]string{"mash": "Mash", "sou": "Soup", "mashed": "Mashed beans"} {
		e := &BatchEvent{Event: KindChilled, Name: name}
		got, err := open().Fits(ctx, e, evening)
		require.NoError(t, err, name)
		assert.Equal(t, batch+" "+batch, e.Name+" "+got.Name)
	}
	early := &BatchEvent{Event: KindChilled, Name: "Soup", Header: Header{At: day("2031-07-12 13:59")}}
	_, err := open().Fits(ctx, early, evening)
	require.ErrorContains(t, err, "before Soup was cooked")
	corrected := cooked("Soup", "2030-07-12 14:00")
	corrected.Replaces, corrected.File = "Soup", ""
	_, err = open().Fits(ctx, corrected, evening)
	require.ErrorContains(t, err, "in another year than journal/2031/Soup.yaml")
	corrected.At = day("2031-07-12 15:00")
	got, err := open().Fits(ctx, corrected, evening)
	require.NoError(t, err)
	assert.Equal(t, day("2031-07-12 15:00"), got.CookedAt, "it stands in the place of what it corrects")
}

// Air, conditions and crops that no table has.
func TestCornersOfWords(t *testing.T) {
	none, err := ParseAir("air", "")
	require.NoError(t, err)
	assert.False(t, none.IsValid())
	warm, err := ParseAir("air", "8 C")
	require.NoError(t, err)
	assert.Equal(t, "8 C", warm.String())
	for _, text := range []string{"8", "8 g", "4-8 C", "warm"} {
		_, err := ParseAir("air", text)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, text)
		assert.Equal(t, "air not a temperature", wrong.Field+" "+wrong.Problem)
	}
	for i, c := range Conditions() {
		assert.Equal(t, i, c.rank())
	}
	assert.Equal(t, len(Conditions()), Condition("odd").rank())
	_, ok := KeptRaw("moonflower", "", Sound, "")
	assert.False(t, ok)
	k, ok := KeptRaw("moonflower", "", Damaged, "")
	assert.True(t, ok)
	assert.Equal(t, damagedKeeping, k)
	_, ok = KeptRaw("potato", "", Green, "")
	assert.False(t, ok)
	two := CropRow{Keeps: []KeepsRaw{{Place: InSand, Days: Range{9, 9}}, {Place: InRoom, Days: Range{2, 2}}, {Place: InFridge, Days: Range{5, 5}}}}
	for place, days := range map[Keeping]int{"": 5, InRoom: 2, InSand: 9, InClamp: 5} {
		k, ok := two.keeping("", place)
		require.True(t, ok)
		assert.Equal(t, days, k.Days.Low, place)
	}
	k, _ = CropRow{Keeps: two.Keeps[:1]}.keeping("", "")
	assert.Equal(t, 9, k.Days.Low, "nowhere else told")
	k, _ = CropRow{Keeps: two.Keeps[:2]}.keeping("", "")
	assert.Equal(t, 2, k.Days.Low)
	_, ok = CropRow{}.keeping("", InRoom)
	assert.False(t, ok)
	classed := CropRow{Keeps: []KeepsRaw{{Class: "late maincrop", Days: Range{100, 100}}, {Class: "first early", Days: Range{3, 3}}, {Place: CoolDark, Days: Range{60, 60}}}}
	for class, days := range map[string]int{"late maincrop": 60, "first early": 3} {
		k, _ := classed.keeping(class, CoolDark)
		assert.Equal(t, days, k.Days.Low, "%s keeps nowhere longer than its class does", class)
	}
}

// The days to begin a crop: none tender before the last frost, none that frost ends
// before it gives anything.
func TestDaysToBegin(t *testing.T) {
	site := Site{units.MonthDay{Month: 10, Day: 20}, units.MonthDay{Month: 5, Day: 10}}
	between := Dates{units.MonthDay{Month: 4, Day: 1}, units.MonthDay{Month: 8, Day: 31}}
	tender, hardy := CropRow{Frost: Frost{Ends: EndsFirst}}, CropRow{Frost: Frost{Ends: EndsNever}}
	for _, row := range []struct {
		crop        CropRow
		since       string
		days        int
		first, last string
	}{
		{hardy, SincePlanting, 60, "2032-04-01", "2032-08-31"},
		{tender, SincePlanting, 0, "2032-05-10", "2032-08-31"},
		{tender, SinceSowing, 0, "2032-04-01", "2032-08-31"},
		{tender, SincePlanting, 60, "2032-05-10", "2032-08-07"}, // 20 October less 60 and 14 days
		{tender, SincePlanting, 36, "2032-05-10", "2032-08-31"},
		{tender, SincePlanting, 37, "2032-05-10", "2032-08-30"},
		{tender, SincePlanting, 300, "2032-05-10", "2032-05-10"},
		{CropRow{Perennial: true, Frost: Frost{Ends: EndsFirst}}, SincePlanting, 60, "2032-04-01", "2032-08-31"},
	} {
		first, last := Window{Since: row.since, Between: between, Days: Range{row.days, row.days + 9}}.begin(row.crop, 2032, site)
		assert.Equal(t, row.first+" "+row.last, first.Format(time.DateOnly)+" "+last.Format(time.DateOnly), "%+v", row)
	}
}

// Reasons of what is on hand: how long it keeps, what its store loses, and the pace.
func TestReasonsOfTheStock(t *testing.T) {
	lift := liftOf("tub-3", "2031-07-12 16:40", "2 kg")
	lift.Where = "cellar"
	list := StockList{On: evening, Lots: lift.Lots(plot()[0], ""), Lasting: []Lasts{{Crop: "potato", Pace: 99.6, Since: day("2031-07-01")}}}
	var figures []string
	for _, r := range list.Reasons() {
		figures = append(figures, r.Figure+" = "+r.Value)
	}
	require.Len(t, figures, 3)
	assert.Contains(t, figures[1], "potato, cool dark: still fit after 1, 3 and 6 months = ")
	assert.Equal(t, "potato: pace = 100 g a day", figures[2])
	list.Lots[0].Kept = nil
	assert.Len(t, list.Reasons(), 2)
	ready, _ := Ready(plot(), nil, Site{}, day("2031-07-12"))
	frosts := 0
	for _, r := range (ReadyList{List: ready}).Reasons() {
		if r.Value == "the first one of autumn" || r.Value == "the hard one of autumn" {
			frosts++
		}
	}
	assert.Positive(t, frosts)
	twice := ReadyList{List: append(ready, ready...)}
	require.ErrorContains(t, twice.Feel("bed", 50), "more than one planting begins so")
	require.ErrorContains(t, twice.Feel("bed-1", 0), "no size of a crop")
	require.ErrorContains(t, twice.Feel("bed-1", 1000.5), "no size of a crop")
}
