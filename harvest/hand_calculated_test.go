package harvest

import (
	"context"
	"math"
	"testing"
	"trencher/units"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Figures by hand, of the reckoning beneath what a season tells.

// The likeliest slip of a weight, where gardens give 3 to 5 kg: three times below and
// above counts as theirs, 1 to 15 kg.
func TestSlipsByHand(t *testing.T) {
	for _, row := range []struct {
		grams float64
		slip  Slip
	}{
		{16_000, SlipPounds}, {33_069, SlipPounds}, {33_070, SlipUnknown}, {999_999, SlipUnknown}, {1_000_000, SlipKilograms}, {15_000_000, SlipKilograms}, {15_000_001, SlipUnknown},
		{0.99, SlipUnknown}, {1, SlipGrams}, {15, SlipGrams}, {15.01, SlipUnknown}, {900, SlipUnknown}, {2204.6, SlipUnknown},
	} {
		assert.Equal(t, row.slip, slipOf(row.grams, 3000, 5000), "%v g", row.grams)
	}
}

// Of logarithms 1, 2 and 3: their mean is 2, the squares about it 2; the usual spread
// of 0.5 weighs as so many seasons as worth says.
func TestSeenByHand(t *testing.T) {
	mean, spread := seen([]float64{1, 2, 3}, 0.5)
	assert.InDelta(t, 2, mean, 1e-12)
	assert.InDelta(t, math.Sqrt((0.25*worth+2)/(worth+2)), spread, 1e-12)
	_, spread = seen([]float64{1}, 0.5)
	assert.InDelta(t, 0.5, spread, 1e-12, "of one season the usual one")
	r := guess{math.Log(100), 0.2}.range90()
	assert.InDelta(t, 100, r.Likely, 1e-9)
	assert.InDelta(t, 100*math.Exp(-nineInTen*0.2), r.Low, 1e-9)
	assert.InDelta(t, 100*math.Exp(nineInTen*0.2), r.High, 1e-9)
	assert.InDelta(t, math.Sqrt(0.2), guess{1, 0.2}.sqrt().spread, 1e-12)
}

// What a plant of a crop without published yields gives: by its own seasons alone,
// the next of which strays as one more of them does.
func TestYieldWithoutFigures(t *testing.T) {
	r := record{crop: "moonflower", yields: []float64{100, 400}}
	g, ok := r.yield(&NextCrop{})
	require.True(t, ok)
	mean, spread := seen([]float64{math.Log(100), math.Log(400)}, usualSpread)
	assert.InDelta(t, math.Log(200), g.log, 1e-12)
	assert.InDelta(t, mean, g.log, 1e-12)
	assert.InDelta(t, spread*math.Sqrt(1.5), g.spread, 1e-12)
	_, ok = (&record{crop: "moonflower"}).yield(&NextCrop{})
	assert.False(t, ok, "nothing tells")
}

// A season's record of a crop: each year once, what it gave and what of it was eaten.
func TestRecordsAddUp(t *testing.T) {
	of := func(seeds int, net, kitchen, green, rotten int64) Yield {
		d := decimal.NewFromInt
		return Yield{Planting: Planting{Crop: "potato", SeedCount: seeds}, Net: d(net), Went: Went{Kitchen: d(kitchen)}, Green: d(green), Rotten: d(rotten)}
	}
	r := record{}
	r.add(2029, of(2, 1000, 400, 10, 20))
	r.add(2030, of(4, 3000, 900, 30, 40))
	r.add(2030, of(0, 500, 100, 1, 2))
	r.add(2030, of(5, 0, 0, 0, 0))
	assert.Equal(t, []int{2029, 2030}, r.years)
	assert.Equal(t, []float64{1000, 3500}, r.gave)
	assert.Equal(t, []float64{400, 1000}, r.eaten)
	assert.Equal(t, []float64{500, 750}, r.yields, "of what grew a number of plants, and gave something")
	assert.Equal(t, "4500 1400 41 62", r.sum.Net.String()+" "+r.sum.Went.Kitchen.String()+" "+r.sum.Green.String()+" "+r.sum.Rotten.String())
	assert.InDelta(t, 2, r.mean([]float64{1, 2, 3}), 1e-12)
}

// The length of a plan's name and of a stock's fingerprint; the same stock has the
// same, in any order.
func TestShortMarks(t *testing.T) {
	a, b := &Lot{ID: "a", Weight: decimal.NewFromInt(1)}, &Lot{ID: "b", Weight: decimal.NewFromInt(2)}
	mark := StockList{Lots: []*Lot{a, b}}.Fingerprint()
	assert.Regexp(t, `^[a-z2-7]{10}$`, mark)
	assert.Equal(t, mark, StockList{Lots: []*Lot{b, a}}.Fingerprint())
	assert.NotEqual(t, mark, StockList{Lots: []*Lot{a}}.Fingerprint())
	assert.Regexp(t, `^[a-z2-7]{5}$`, NewPlanned(evening, StockList{}, []Making{{"Mash", 1}}, nil).ID)
	assert.Equal(t, 2031, (&Planned{Header: Header{At: evening}}).Season())
	assert.Equal(t, 2030, (&Planned{Header: Header{At: evening}, Uses: []Use{{Lot: "tub-3/2029-a/x"}, {Lot: "tub-3/2030-a/x"}, {Lot: "odd"}}}).Season())
}

// Of plantings of one name the last planted on or before a day stands; of two of one
// day the first written.
func TestWhichPlantingStood(t *testing.T) {
	list := []Planting{{ID: "tub", Planted: day("2031-04-02"), Crop: "b"}, {ID: "tub", Planted: day("2030-04-02"), Crop: "a"}, {ID: "tub", Planted: day("2031-04-02"), Crop: "c"}, {ID: "bed", Planted: day("2031-05-01"), Crop: "d"}}
	all := plantedOf(list)
	for _, row := range []struct{ id, on, crop string }{
		{"tub", "2031-04-02 00:30", "b"}, {"tub", "2031-04-01 23:59", "a"}, {"tub", "2030-04-02", "a"}, {"tub", "2030-04-01", ""}, {"tub", "2040-01-01", "b"}, {"bed", "2031-05-01", "d"}, {"bed", "2031-04-30", ""},
	} {
		for name, standing := range map[string]func() (*Planting, bool){
			"table": func() (*Planting, bool) { return all.standing(row.id, day(row.on)) },
			"list":  func() (*Planting, bool) { return Standing(list, row.id, day(row.on)) },
		} {
			p, known := standing()
			require.True(t, known)
			crop := ""
			if p != nil {
				crop = p.Crop
			}
			assert.Equal(t, row.crop, crop, "%s, %s on %s", name, row.id, row.on)
		}
	}
	_, known := all.standing("none", evening)
	assert.False(t, known)
	assert.Equal(t, []string{"tub", "bed"}, IDs(list))
}

// Signs of a class are told of that class alone, those of none of every class.
func TestSignsOfAClass(t *testing.T) {
	row := CropRow{Signs: []Saying{{Says: "any"}, {Says: "early", Classes: []string{"first early", "second early"}}, {Says: "late", Classes: []string{"late maincrop"}}}}
	for class, says := range map[string][]string{"": {"any"}, "second early": {"any", "early"}, "late maincrop": {"any", "late"}} {
		r := stand(Planting{Planted: day("2031-04-02")}, row, Window{Class: class, Days: Range{10, 20}}, Site{}, day("2031-04-09"))
		assert.Equal(t, says, r.Check, class)
		assert.Equal(t, 1.0, r.Weeks)
	}
}

// Plans of the next season that take from lots of a season read count beside it, and
// once that season is read itself they count there.
func TestPlansOfTheNextSeasonCountOnce(t *testing.T) {
	plan := &Planned{ID: "p"}
	note := &Note{}
	l := NewLedger(shelf{}, nil, true)
	l.Entries, l.later = []Entry{note}, map[int][]Entry{2030: {plan}}
	for _, row := range []struct {
		read []int
		many int
	}{{nil, 2}, {[]int{2030}, 2}, {[]int{2029, 2030}, 2}, {[]int{2031}, 1}, {[]int{2030, 2031}, 1}} {
		l.read = map[int]bool{}
		for _, year := range row.read {
			l.read[year] = true
		}
		assert.Len(t, l.counted(), row.many, "%v read", row.read)
	}
}

// How much grows and is gathered before a household is asked about: eaten up at a
// pace from lots that keep, day by day.
func TestEatUpByHand(t *testing.T) {
	on := day("2031-07-01")
	keeps := func(grams float64, days int) portion {
		row := &KeepsRaw{Days: Range{days, days}}
		return portion{&Lot{Planting: &Planting{}, Condition: Sound, Weight: decimal.NewFromFloat(grams), Lifted: on, KeepsUntil: on.AddDate(0, 0, days), Keeping: row}, grams}
	}
	until, lost := eatUp([]portion{keeps(1000, 400)}, 100, on)
	assert.Equal(t, day("2031-07-10"), until, "ten days of 100 g, the first of them today")
	assert.Zero(t, lost)
	until, lost = eatUp([]portion{keeps(1050, 400)}, 100, on)
	assert.Equal(t, day("2031-07-11"), until)
	assert.Zero(t, lost)
	until, lost = eatUp([]portion{keeps(1000, 2), keeps(500, 400)}, 100, on)
	assert.Equal(t, day("2031-07-10"), until, "what is twice past its life is eaten by nobody")
	assert.InDelta(t, 500, lost, 1e-9)
	until, lost = eatUp(nil, 100, on)
	assert.Equal(t, on, until)
	assert.Zero(t, lost)
	daily := &StoreRow{Dries: []LossPoint{{Days: 10, Share: 0.5}}}
	assert.InDelta(t, 0.95, daily.fitFrom(0), 1e-12)
	assert.InDelta(t, 0.9/0.95, daily.fitFrom(1), 1e-12)
	assert.Zero(t, (&StoreRow{Dries: []LossPoint{{Days: 1, Share: 1}}}).fitFrom(1))
}

// A lot nobody told the place of lies nowhere; what is told of one lot is not told of
// the others of its lift.
func TestLotsLieByThemselves(t *testing.T) {
	lift := liftOf("tub-3", "2031-07-12 16:40", "2 kg", "800 g 20-45 mm", "500 g 45-65 mm")
	lift.Where = "cellar"
	lots := lift.Lots(plot()[0], "")
	require.Len(t, lots, 3)
	for _, l := range lots {
		assert.Equal(t, "cellar "+string(CoolDark), l.Lies().Where+" "+string(l.Lies().Place))
		assert.Equal(t, lift.At, l.lastWeighed())
		require.NotNil(t, l.Loss())
	}
	(&Reweighed{Header: Header{At: day("2031-08-01")}, Weight: lift.Weighings[0].Gross}).apply(lots[0])
	assert.Equal(t, day("2031-08-01"), lots[0].lastWeighed())
	assert.Equal(t, lift.At, lots[1].lastWeighed(), "another lot was not on the scale")
	lots[1].Weight = decimal.Zero
	assert.Nil(t, lots[1].Loss(), "nothing is left of it")
	assert.Nil(t, lots[1].Expect(evening))
	lots[2].Condition = Green
	assert.Nil(t, lots[2].Loss())
	months := lots[0].Expect(day("2031-08-31 12:00"))
	require.Len(t, months, mostMonths)
	assert.Equal(t, day("2031-09-01"), months[0].On)
	assert.Equal(t, day("2032-02-01"), months[5].On)
	assert.Zero(t, (&Lot{}).Lies())
}

// The clock is held against the seasons that are read and those that are to come.
func TestClockBesideSeasons(t *testing.T) {
	l, _ := ledgerOf(liftOf("tub-3", "2031-07-12 16:40", "2 kg"), liftOf("bed-1", "2032-07-12 16:40", "2 kg"))
	for clock, faults := range map[string]int{"2031-07-11": 2, "2031-07-12": 1, "2032-07-11 23:00": 0, "2033-01-01": 0, "2030-12-31": 2} {
		fresh := NewLedger(l.journal, l.Plantings, false)
		require.NoError(t, fresh.Read(context.Background(), day("2031-12-31")))
		err := fresh.CheckClock(context.Background(), day(clock))
		assert.Len(t, faultsOf(nil, err), faults, clock)
	}
}

// Portions eaten by dish, whatever a batch is called; of two crops of a dish each
// counts them.
func TestEatenByHand(t *testing.T) {
	event := func(kind, at, name, dish, amount string) Entry {
		b := &BatchEvent{Event: kind, Name: name, Dish: dish, Food: "mash"}
		b.At, b.File = day(at), "journal/2031/"+kind+at[11:13]+name+".yaml"
		if amount != "" {
			b.Amount = units.MustParse(amount)
		}
		return b
	}
	entries := []Entry{
		event(KindCooked, "2031-07-12 12:00", "Pot", "Mash", "8"), event(KindEaten, "2031-07-12 13:00", "pot", "", "3"), event(KindEaten, "2031-07-12 14:00", "Pot", "", "2"),
		event(KindCooked, "2031-07-12 12:00", "Soup", "", "4"), event(KindEaten, "2031-07-12 15:00", "Soup", "", "1"), event(KindEaten, "2031-07-12 16:00", "Soup", "", ""), event(KindBinned, "2031-07-12 17:00", "Soup", "", "2"),
	}
	assert.Equal(t, map[string]float64{"mash": 5, "soup": 1}, eatenByDish(entries))
	for _, lot := range []string{"tub-3/2031-a/x", "bed-1/2031-a/x", "tub-3/2031-b/x"} {
		m := moveOf(KindUse, "2031-07-12 11:00", lot, "100 g")
		m.Dish, m.File = "Mash", "journal/2031/"+lot[:5]+lot[11:12]+".yaml"
		entries = append(entries, m)
	}
	assert.Equal(t, map[string]float64{"potato": 5, "beetroot": 5}, eatenPortions(plot(), entries))
}

// What comes first in a batch's life where two events are of one moment.
func TestOrderOfALife(t *testing.T) {
	var places []int
	for _, kind := range []string{KindCooked, KindChilled, KindOut, KindReheated, KindEaten, KindBinned} {
		places = append(places, (&BatchEvent{Event: kind}).place())
	}
	part := &BatchEvent{Event: KindEaten, Amount: units.MustParse("2")}
	assert.Equal(t, []int{0, 1, 2, 3, 5, 5}, places)
	assert.Equal(t, 4, part.place(), "what takes a part comes before what takes the rest")
}

// What dries away from one weighing to the next and from there on is what dries away
// in all.
func TestDryingGoesOnFromTheLastWeighing(t *testing.T) {
	row, ok := StoreLoss("potato", CoolDark)
	require.True(t, ok)
	lot := &Lot{Planting: &Planting{Crop: "potato"}, Lifted: day("2031-09-01"), Weight: decimal.NewFromInt(100_000), Kept: &Lying{Where: "cellar", Place: CoolDark}}
	of := func(days int) float64 {
		return lot.usuallyDried(lot.Lifted.AddDate(0, 0, days)).InexactFloat64() / 100_000
	}
	assert.InDelta(t, row.Dried(90), of(90), 1e-5)
	lot.Kept.Looked = lot.Lifted.AddDate(0, 0, 30)
	assert.InDelta(t, 1-row.Dried(90), (1-row.Dried(30))*(1-of(90)), 1e-5)
	assert.Zero(t, of(30))
	lot.Kept = nil
	assert.Zero(t, of(90), "nothing is published of anywhere")
}
