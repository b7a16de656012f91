package render

import (
	"bytes"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/harvest/tables"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
	"trencher/units/measures"
)

// What a lot is and until when it keeps, in one line each.
func TestWordsOfALot(t *testing.T) {
	on := at(0, 0)
	lot := func(change func(*harvest.Lot)) *harvest.Lot {
		l := &harvest.Lot{Name: "tub-1", Planting: &harvest.Planting{Crop: "potato"}, Condition: harvest.Sound, KeepsUntil: on.AddDate(0, 1, 0)}
		change(l)
		return l
	}
	day := on.AddDate(0, 1, 0).Format("2 January")
	for _, c := range []struct {
		lot  *harvest.Lot
		part string
		says string
	}{
		{lot(func(*harvest.Lot) {}), "Keeps", "potato, sound; keeps raw until " + day + "  [tub-1]"},
		{lot(func(l *harvest.Lot) { l.KeepsUntil = time.Time{} }), "Keeps", "potato, sound; no figure for how long it keeps: look at it  [tub-1]"},
		{lot(func(l *harvest.Lot) { l.Past, l.First = true, true }), "Past keeping: look it over, then `trencher reweigh` or `compost`", "potato, sound; was to be eaten by " + day + "  [tub-1]"},
		{lot(func(l *harvest.Lot) { l.Condition, l.First = harvest.Damaged, true }), "Use first", "potato, damaged; trim, use today  [tub-1]"},
		{lot(func(l *harvest.Lot) { l.Kept, l.First = &harvest.Lying{Rot: true}, true }), "Use first", "potato, sound; some was rotten: use first, and look it over again  [tub-1]"},
		{lot(func(l *harvest.Lot) { l.First = true }), "Use first", "potato, sound; best before " + day + ": look it over  [tub-1]"},
		{lot(func(l *harvest.Lot) {
			l.Condition, l.Variety, l.Sizes = harvest.Green, "Grey Heron", units.Band{Low: 20, High: 45}
		}), "Set aside, never to the kitchen", "Grey Heron potato, 20-45 mm green  [tub-1]"},
		{lot(func(l *harvest.Lot) { l.Kept = &harvest.Lying{Where: "cellar"} }), "Keeps", "potato, sound; keeps raw until " + day + "; in cellar  [tub-1]"},
		{lot(func(l *harvest.Lot) { l.Kept = &harvest.Lying{Where: "cellar", Air: units.MustParse("4 C")} }), "Keeps", "potato, sound; keeps raw until " + day + "; in cellar at 4 C  [tub-1]"},
	} {
		assert.Equal(t, c.part, partOf(c.lot))
		assert.Equal(t, c.says, lotLine(c.lot, on))
	}
	assert.Equal(t, []string{"3 June", "3 June 2030"}, []string{pastDay(time.Date(on.Year(), 6, 3, 0, 0, 0, 0, time.UTC), on), pastDay(time.Date(2030, 6, 3, 0, 0, 0, 0, time.UTC), on)})
	months := []harvest.Expected{{On: on, Grams: decimal.NewFromInt(900), Low: decimal.NewFromInt(850), High: decimal.NewFromInt(950)},
		{On: on.AddDate(0, 0, 7), Grams: decimal.NewFromInt(800), Low: decimal.NewFromInt(700), High: decimal.NewFromInt(860)}}
	assert.Equal(t, "still fit: 900 g on "+on.Format("2 Jan")+", 800 g on "+on.AddDate(0, 0, 7).Format("2 Jan")+" (700 g to 860 g)", expectWords(months))
}

// Until when there is some of a crop at the household's own pace, for people and scripts.
func TestWordsOfWhatLasts(t *testing.T) {
	since, until := time.Date(2031, 6, 1, 0, 0, 0, 0, time.UTC), time.Date(2031, 9, 3, 0, 0, 0, 0, time.UTC)
	lasts := harvest.Lasts{Crop: "potato", Grams: decimal.NewFromInt(4200), Pace: 61.26, Since: since, Until: until}
	assert.Equal(t, "potato: 4.20 kg, at 61 g a day (since 1 June) until 3 September 2031", LastsWords(lasts))
	lasts.Lost = decimal.NewFromInt(300)
	assert.Equal(t, "potato: 4.20 kg, at 61 g a day (since 1 June) until 3 September 2031; about 300 g of it goes off before that", LastsWords(lasts))
	list := harvest.StockList{On: since, Lasting: []harvest.Lasts{lasts}, Lots: []*harvest.Lot{{Name: "a", Planting: &harvest.Planting{Crop: "potato"}, Condition: harvest.Sound}, {Name: "b", Planting: &harvest.Planting{Crop: "carrot"}, Condition: harvest.Sound}}}
	var out bytes.Buffer
	require.NoError(t, StockText(&out, list, false))
	assert.Contains(t, out.String(), "\n\nAt your own pace\n  potato: 4.20 kg, at 61 g a day")
	out.Reset()
	require.NoError(t, StockJSON(&out, list))
	assert.Contains(t, out.String(), `"2031-09-03"`)
	assert.Contains(t, out.String(), "61.3")
	out.Reset()
	list.Lots = list.Lots[1:]
	require.NoError(t, StockJSON(&out, list))
	assert.NotContains(t, out.String(), `"2031-09-03"`, "of another crop")
	out.Reset()
	require.NoError(t, StockText(&out, harvest.StockList{On: since}, false))
	assert.NotContains(t, out.String(), "At your own pace")
}

// A list longer than is gathered at once is written bit by bit, whole; what cannot be
// written is told.
func TestLongListsAreWrittenBitByBit(t *testing.T) {
	var list harvest.StockList
	for range 3 * flushAt {
		list.Lots = append(list.Lots, &harvest.Lot{Name: "a", Planting: &harvest.Planting{Crop: "potato"}, Condition: harvest.Sound})
	}
	var writes int
	var out bytes.Buffer
	require.NoError(t, StockText(writerFunc(func(data []byte) (int, error) { writes++; return out.Write(data) }), list, false))
	assert.Greater(t, writes, 2)
	assert.Equal(t, 3*flushAt, bytes.Count(out.Bytes(), []byte("[a]\n")))
	assert.Equal(t, 3*flushAt+3, bytes.Count(out.Bytes(), []byte("\n")), "a head, a gap, the part's name, and the lots")
	require.Error(t, StockText(writerFunc(func([]byte) (int, error) { return 0, assert.AnError }), list, false))

	p := &page{}
	p.line("one")
	require.NoError(t, p.flush(&out))
	assert.Equal(t, []string{"one"}, p.lines, "few lines wait")
	for range flushAt {
		p.line("more")
	}
	require.NoError(t, p.flush(&Laid{}))
	assert.Len(t, p.lines, flushAt+1, "for a screen all is kept")
	out.Reset()
	require.NoError(t, p.flush(&out))
	assert.Equal(t, []string{"more"}, p.lines)
	assert.Equal(t, flushAt, bytes.Count(out.Bytes(), []byte("\n")))
}

// A text answer for a screen: what breaks where the screen ends.
func TestATextForAScreen(t *testing.T) {
	laid := func(p *page) string {
		var l Laid
		require.NoError(t, p.writeTo(&l))
		return string(l.HTML())
	}
	p := &page{}
	p.wrapped("", "Eat it <now>.")
	p.wrapped("- ", "first")
	p.wrapped("  - ", "second")
	p.wrapped("! ", "mind")
	p.heading("Why")
	p.wrapped("  look  ", "here")
	p.wrapped("- ", "last")
	assert.Equal(t, "<p class=\"answer\">Eat it &lt;now&gt;.</p>\n<ul>\n<li>first</li>\n<li>second</li>\n</ul>\n<ul>\n<li>mind</li>\n</ul>\n<h2>Why</h2>\n<p>look here</p>\n<ul>\n<li>last</li>\n</ul>\n", laid(p))
	head := &page{}
	head.heading("Season 2031")
	head.wrapped("", "said")
	assert.Equal(t, "<h2>Season 2031</h2>\n<p>said</p>\n", laid(head), "only a first paragraph is the answer")
	n, err := new(Laid).Write([]byte("abc"))
	require.NoError(t, err)
	assert.Equal(t, 3, n)
}

// Remarks on an amount.
func TestWordsOfRemarks(t *testing.T) {
	cup := units.MustParse("1 cup metric").Unit()
	assert.Equal(t, "oz is a weight here, not a fluid ounce", remarkWords(measures.Remark{Kind: measures.OunceIsWeight}))
	assert.Equal(t, cup.Name()+": "+cup.Caution(), remarkWords(measures.Remark{Kind: measures.Caution, Unit: cup}))
	assert.Equal(t, "read T as "+cup.Name()+"; tbsp and tsp cannot be mistaken", remarkWords(measures.Remark{Kind: measures.LetterRead, Letter: "T", Unit: cup}))
	assert.Equal(t, "a rough measure: take it as a guide", remarkWords(measures.Remark{Kind: measures.Rough}))
	assert.Equal(t, "weighed chopped; taken as peeled", remarkWords(measures.Remark{Kind: measures.Assumed, Assumed: []measures.Assumption{{Kind: measures.WeighedAs, What: "chopped"}, {Kind: measures.WeighedAs + 1, What: "peeled"}}}))
}

// Beginning, mending, checking, and how an old table was read.
func TestWordsOfAJournal(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, BegunText(&out, journal.Begun{Dir: "plot", Files: []string{"kitchen.yaml", "dishes/mash.yaml"}}))
	assert.Contains(t, out.String(), "Your plot stands in plot:\n  kitchen.yaml\n  dishes/mash.yaml\n\nChange kitchen.yaml")
	assert.Contains(t, out.String(), "\n  trencher share --plot plot\n")
	checked := ask.CheckAnswer{Checked: journal.Checked{Entries: 1, Seasons: []int{2031, 2032}}, Dishes: 3}
	assert.Equal(t, "all is well: 1 entry in 2 seasons, 3 dishes", CheckWords(checked))
	checked.Warnings = []harvest.Warning{harvest.Overdraft{Overdrawn: harvest.Overdrawn{Lot: "bed-3"}, Entry: &harvest.Move{}}, harvest.Overdraft{Overdrawn: harvest.Overdrawn{Lot: "bed-4"}, Entry: &harvest.Move{}}}
	assert.Equal(t, "readable, with 2 things to look into: 1 entry in 2 seasons, 3 dishes", CheckWords(checked))
	assert.Equal(t, []string{checked.Warnings[0].String(), checked.Warnings[1].String()}, warningTexts(checked.Warnings))
	assert.Equal(t, []string{}, warningTexts(nil))

	assert.Equal(t, "commas between cells", layoutWords(tables.Layout{Separator: ','}))
	assert.Equal(t, "semicolons between cells, day before month, decimal commas, weights in kg, of 2030 where no year stands; a week by its Sunday",
		layoutWords(tables.Layout{Separator: ';', Dates: tables.DayFirst, Decimal: ',', Unit: "kg", Year: 2030}))
	assert.Equal(t, "tabs between cells, month before day", layoutWords(tables.Layout{Separator: '\t', Dates: tables.MonthFirst, Decimal: '.'}))

	done := journal.Imported{Table: "old.csv", Old: true}
	for i := range mostListed + 2 {
		done.Entries = append(done.Entries, &harvest.Lift{Planting: "bed-1", Header: harvest.Header{At: at(10, 0)}})
		done.Lines = append(done.Lines, i+2)
	}
	out.Reset()
	require.NoError(t, ImportText(&out, done))
	assert.Equal(t, mostListed, bytes.Count(out.Bytes(), []byte(" bed-1 ")))
	assert.Contains(t, out.String(), "\n  ... and 2 more; --json lists all\n62 entries to write, 0 in the journal already.")
	done.Entries = done.Entries[:mostListed]
	out.Reset()
	require.NoError(t, ImportText(&out, done))
	assert.NotContains(t, out.String(), "more; --json")

	assert.Equal(t, "nothing", ParcelWords(journal.Parcel{}))
	assert.Equal(t, "0 entries, 1 other file", ParcelWords(journal.Parcel{Files: []string{"kitchen.yaml"}}))
	assert.Equal(t, "1 entry, 1500 g lifted", ParcelWords(journal.Parcel{Files: []string{"a"}, Entries: 1, Net: decimal.NewFromInt(1500)}))
	assert.Equal(t, "1 entry", ParcelWords(journal.Parcel{Files: []string{"a"}, Entries: 1, Net: decimal.NewFromInt(-1)}))
}

// What left a lot, was weighed again, and was taken back.
func TestWordsOfMoves(t *testing.T) {
	show := func(write func(*bytes.Buffer) error) string {
		var out bytes.Buffer
		require.NoError(t, write(&out))
		return out.String()
	}
	lot := &harvest.Lot{Name: "bed-3", Weight: decimal.NewFromInt(400)}
	move := harvest.LoggedMove{Move: &harvest.Move{Header: harvest.Header{File: "f"}, To: harvest.KindUse, Dish: "Soup"}, From: lot, Grams: decimal.NewFromInt(100)}
	says := func() string { return show(func(w *bytes.Buffer) error { return MoveText(w, move) }) }
	assert.Equal(t, "100 g of bed-3 to the kitchen: Soup\nnothing of it is left\nwritten to f\n", says())
	move.Left = decimal.NewFromInt(300)
	assert.Equal(t, "100 g of bed-3 to the kitchen: Soup\n300 g left\nwritten to f\n", says())
	move.To, move.Dish = harvest.KindStore, ""
	assert.Equal(t, "100 g of bed-3 put in store\nwritten to f\n", says())

	again := harvest.LoggedReweighed{Reweighed: &harvest.Reweighed{Header: harvest.Header{File: "f"}}, Of: lot}
	weighed := func() string { return show(func(w *bytes.Buffer) error { return ReweighText(w, again) }) }
	assert.Equal(t, "400 g of bed-3\nwritten to f\n", weighed())
	again.Dried = decimal.NewFromInt(20)
	assert.Equal(t, "400 g of bed-3: 20 g dried away\nwritten to f\n", weighed())
	again.Usual, again.Rot = decimal.NewFromInt(12), decimal.NewFromInt(5)
	assert.Equal(t, "400 g of bed-3: 20 g dried away (usual 12 g), 5 g thrown out\nwritten to f\n", weighed())
	again.Dried = decimal.NewFromInt(-20)
	// All is lost in a day: of half the loss, half is left.
	again.At, lot.Condition, lot.Lifted = at(0, 0), harvest.Sound, at(0, 0)
	lot.Kept = &harvest.Lying{Loss: &harvest.StoreRow{Dries: []harvest.LossPoint{{Days: 1, Share: 1}}}}
	next := time.Date(again.At.Year(), again.At.Month()+1, 1, 0, 0, 0, 0, time.UTC).Format("2 Jan")
	assert.Equal(t, "400 g of bed-3: 20 g more than the journal had, 5 g thrown out\nstill fit: 0 g on "+next+" (0 g to 200 g)\nwritten to f\n", weighed())

	note := &harvest.Note{Header: harvest.Header{File: "a"}, Dish: "Mash", Says: "more salt"}
	undone := func(with harvest.Entry) string {
		return show(func(w *bytes.Buffer) error { return UndoText(w, harvest.Undone{Entry: note, With: with}) })
	}
	assert.Equal(t, "taken back: "+EntryWords(note)+"\nwritten to b\n", undone(&harvest.Void{Header: harvest.Header{File: "b"}, Voids: "a"}))
	assert.Equal(t, "taken back: "+EntryWords(note)+"\nit stands again as it was: "+EntryWords(note)+"\nwritten to a\n", undone(note))
}

// How a crop and a line of somebody else's recipe were read.
func TestWordsOfARecipeRead(t *testing.T) {
	crop := recipes.CropLine{Crop: "carrot", Amount: units.MustParse("300 g"), Prepared: "peeled", Cut: "slice 3 mm", Cook: "raw"}
	assert.Equal(t, "300 g carrot, peeled, slice 3 mm, raw", ReadCrop(crop))
	crop.Cook, crop.Until = "steam", "tender"
	assert.Equal(t, "300 g carrot, peeled, slice 3 mm, steamed until tender", ReadCrop(crop))
	crop.Cook, crop.Minutes = "boil", 12
	assert.Equal(t, "300 g carrot, peeled, slice 3 mm, boiled 12 min", ReadCrop(crop))
	assert.Equal(t, "Mash, 4 portions, hot", ImportedTitle(recipes.Imported{Name: "Mash", Portions: 4, Served: recipes.Hot}))
	assert.Equal(t, "Mash", ImportedTitle(recipes.Imported{Name: "Mash"}))
}

// Whose clock, and what is not understood.
func TestWordsOfKeeping(t *testing.T) {
	for want, zone := range map[string]*time.Location{"UTC": time.UTC, "UTC+01:00": time.FixedZone("", 3600), "BST (UTC+01:00)": time.FixedZone("BST", 3600), "GMT (UTC+00:00)": time.FixedZone("GMT", 0), "UTC-03:00": time.FixedZone("-03", -3*3600)} {
		assert.Equal(t, want, zoneWords(at(0, 0).In(zone)))
	}
	assert.Equal(t, "", zoneOfVerdict(keeping.Verdict{}))
	assert.Equal(t, "Times are UTC.", zoneOfVerdict(keeping.Verdict{Until: at(0, 0), At: at(0, 0).UTC()}))
	assert.Equal(t, "Times are UTC.", zoneOfVerdict(keeping.Verdict{Since: at(0, 0), At: at(0, 0).UTC()}))
	assert.Equal(t, "mash", BatchTitle(meal.KeptBatch{Batch: &harvest.Batch{Name: "mash"}}))
	v := keeping.Verdict{Warnings: []keeping.Reason{{Says: "nobody knows it"}}}
	assert.Empty(t, unknownFoodWords(v))
	v.Food.ID = keeping.AnythingElse
	assert.Equal(t, []string{"nobody knows it"}, unknownFoodWords(v))
	var out bytes.Buffer
	require.NoError(t, DishKindsText(&out, meal.DishKinds{Dish: "Mash", Kinds: keeping.Kinds{Foods: []string{"mash", "soup"}, Because: []keeping.KindWord{{Words: "milk", Kind: "soup"}}, Unknown: []string{"moon dust", "stardust"}}}))
	assert.Contains(t, out.String(), "Mash is kept as mash; the strictest of its parts sets each limit.\n- soup: milk\nNot understood: moon dust, stardust. Strictest limits taken; ask your food\nauthority.\n\n")
	assert.Equal(t, []string{"1 portion", "3 portions", "", ""}, []string{countedPortions(units.MustParse("1")), countedPortions(units.MustParse("3")), countedPortions(units.MustParse("1.5")), countedPortions(units.MustParse("300 g"))})
	assert.Equal(t, []string{"eat now", "UK rules", "a", "A", "", "éa"}, []string{uncapital("Eat now"), uncapital("UK rules"), uncapital("a"), uncapital("A"), uncapital(""), uncapital("éa")})
}

// What to plant of a crop, when nothing can be said too.
func TestWordsOfWhatToPlant(t *testing.T) {
	part := func(c harvest.NextCrop) string {
		var p page
		nextPart(&p, c, 40)
		return lined(&p)
	}
	c := harvest.NextCrop{Crop: "leek"}
	assert.Equal(t, "leek: no number of plants\n", part(c))
	c.PerPlant = harvest.Estimate{Likely: 180, Low: 150, High: 220}
	assert.Equal(t, "leek: none, for none of it was eaten\n", part(c))
	c.Plants, c.Seed, c.M2, c.Litres, c.Short = harvest.Estimate{Likely: 10, Low: 5, High: 19.2}, 10, 1.25, 40, true
	assert.Equal(t, "leek: 10 plants, 5 to 20\n  ·····─────█─────────····················\n  10 tubers, sets or young plants; 1.2 m2 of bed, or 40 l of tub; 180 g a plant\n  (150 to 220)\n"+
		"  note      all there was of it was eaten in a season: more may be wanted than\n            the journal can tell\n", part(c))
	c.Seed, c.Short = 30, false
	assert.Contains(t, part(c), "\n  30 seeds; 1.2 m2")
	assert.Equal(t, "For 2032, from 1 season in the journal", NextTitle(harvest.NextSeason{Year: 2032, Seasons: []int{2031}, People: 1}))
	assert.Equal(t, "For 2032, from 2 seasons in the journal; 0.62 times the helpings of the household as it was", NextTitle(harvest.NextSeason{Year: 2032, Seasons: []int{2030, 2031}, People: 0.625}))
	for most, step := range map[float64]float64{0: 1, -1: 1, 1: 0.2, 2: 0.5, 5: 1, 5.1: 2, 10: 2, 26: 10, 49: 10, 51: 20} {
		assert.InDelta(t, step, niceStep(most), 1e-9, most)
	}
	for minutes, between := range map[float64]float64{5: 1, 12: 1, 13: 2, 24: 2, 25: 5, 60: 5, 61: 10, 120: 10, 240: 20, 360: 30, 400: 60} {
		assert.Equal(t, between, pace(minutes), minutes)
	}
}
