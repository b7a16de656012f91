package render

import (
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"

	"trencher/harvest"
)

// Seven clock times at most, at a round distance, of any stretch up to six days; those at the
// ends of the strip have no label.
func TestTicksOfAStrip(t *testing.T) {
	for _, c := range []struct {
		from   time.Time
		length time.Duration
		ticks  string // "-" has no label
	}{
		{at(17, 0), 30 * time.Minute, "- 17:05 17:10 17:15 17:20 17:25 -"},
		{at(17, 0), 31 * time.Minute, "- 17:10 17:20 -"},
		{at(17, 2), time.Hour, "17:10 17:20 17:30 17:40 17:50 -"},
		{at(17, 0), 90 * time.Minute, "- 17:15 17:30 17:45 18:00 18:15 -"},
		{at(17, 0), 2 * time.Hour, "- 17:20 17:40 18:00 18:20 18:40 -"},
		{at(15, 10), 3 * time.Hour, "15:30 16:00 16:30 17:00 17:30 18:00"},
		{at(12, 10), 6 * time.Hour, "13:00 14:00 15:00 16:00 17:00 -"},
		{at(6, 10), 12 * time.Hour, "08:00 10:00 12:00 14:00 16:00 -"},
		{at(0, 10), 18 * time.Hour, "03:00 06:00 09:00 12:00 15:00 -"},
		{at(0, 10), 24 * time.Hour, "04:00 08:00 12:00 16:00 20:00 -"},
		{at(0, 10), 36 * time.Hour, "06:00 12:00 18:00 00:00 06:00 -"},
		{at(0, 10), 72 * time.Hour, "12:00 00:00 12:00 00:00 12:00 -"},
		{at(0, 10), 144 * time.Hour, "00:00 00:00 00:00 00:00 00:00 -"},
	} {
		var labels []string
		for _, tick := range (clockSpan{c.from, c.from.Add(c.length)}).ticks() {
			if tick.Label == "" {
				tick.Label = "-"
			}
			labels = append(labels, tick.Label)
		}
		assert.Equal(t, c.ticks, strings.Join(labels, " "), c.length)
	}
	span := clockSpan{at(17, 0), at(18, 0)}
	assert.Equal(t, []float64{0, 25, 100}, []float64{span.place(at(17, 0)), span.place(at(17, 15)), span.place(at(18, 0))})
}

// A bar has its number inside where it fits, else behind it, at the end before it;
// bars with their numbers never cover each other.
func TestBarsOfAStrip(t *testing.T) {
	wide := placeBar(20, 20+numberWidth)
	assert.Equal(t, []string{percent(20), percent(numberWidth), percent(20 + numberWidth/2.0), ""}, []string{wide.X, wide.Width, wide.NumberX, wide.Beside})
	assert.Equal(t, []float64{20, 20 + numberWidth}, []float64{wide.from, wide.to})
	short := placeBar(20, 20+numberWidth-0.1)
	assert.Equal(t, []string{"after", percent(20 + numberWidth - 0.1)}, []string{short.Beside, short.NumberX})
	assert.InDelta(t, 20+2*numberWidth-0.1, short.to, 1e-9)
	nothing := placeBar(20, 20)
	assert.Equal(t, percent(leastBar), nothing.Width)
	last := placeBar(100, 100)
	assert.Equal(t, []string{percent(100 - leastBar), percent(leastBar), "before", percent(100 - leastBar)}, []string{last.X, last.Width, last.Beside, last.NumberX})
	assert.InDelta(t, 100-leastBar-numberWidth, last.from, 1e-9)
	fits := placeBar(100-numberWidth-leastBar, 100-numberWidth)
	assert.Equal(t, "after", fits.Beside)

	var lane laneView
	var rows []int
	for _, bar := range []barView{{from: 0, to: 10}, {from: 5, to: 20}, {from: 10, to: 15}, {from: 14, to: 30}, {from: 15, to: 16}} {
		rows = append(rows, lane.row(bar))
	}
	assert.Equal(t, []int{0, 1, 0, 2, 0}, rows)
}

// Bars of an account: at least a cell for anything above nothing, never more than
// there is room for.
func TestCellsOfABar(t *testing.T) {
	g := decimal.NewFromInt
	for _, c := range []struct{ part, whole, cells int64 }{{0, 100, 0}, {-5, 100, 0}, {5, 0, 0}, {1, 1000, 1}, {50, 100, 15}, {49, 100, 15}, {100, 100, 30}, {150, 100, 30}, {33, 1000, 1}, {51, 1000, 2}} {
		assert.EqualValues(t, c.cells, cells(g(c.part), g(c.whole), 30), c)
	}
	p := &page{}
	bar(p, "kitchen", g(250), g(1000))
	bar(p, "stored", g(0), g(1000))
	assert.Equal(t, []string{"    kitchen                 250 g  25.0 %  ████████"}, p.lines)
	p = &page{}
	abreastLine(p, "bed-3", []string{"1.00 kg", "900 g"})
	abreastLine(p, "a name of more than 22 letters", []string{"1.00 kg"})
	abreastLine(p, "of twenty-two letters.", []string{"900 g"})
	assert.Equal(t, []string{"  bed-3                    1.00 kg     900 g", "  a name of more than 22 letters", "                           1.00 kg", "  of twenty-two letters.     900 g"}, p.lines)
}

// What a planting gave, counted as it was planted, beside what is usual.
func TestRatesOfAYield(t *testing.T) {
	one := func(g int64) decimal.NullDecimal {
		return decimal.NullDecimal{Decimal: decimal.NewFromInt(g), Valid: true}
	}
	var y harvest.Yield
	assert.Equal(t, "", rates(y))
	y.PerSeed, y.PerLitre, y.PerM2, y.Multiplied = one(600), one(45), one(2100), decimal.NullDecimal{Decimal: decimal.New(825, -2), Valid: true}
	assert.Equal(t, ": 600 g a seed tuber or plant, 45 g a litre, 2.10 kg a square metre, 8.3 times the seed", rates(y))
	y.Usual.Grams.Low, y.Usual.Grams.High = 30, 60
	for per, words := range map[string]string{harvest.PerPlant: "600 g a seed tuber or plant (usual 30 g to 60 g),", harvest.PerLitre: "45 g a litre (usual 30 g to 60 g),", harvest.PerM2: "2.10 kg a square metre (usual 30 g to 60 g),"} {
		y.Usual.Per = per
		assert.Contains(t, rates(y), words)
		assert.Equal(t, 1, strings.Count(rates(y), "usual"))
	}
	assert.Equal(t, "", apartWords(y))
	y.Mothers = decimal.NewFromInt(120)
	assert.Equal(t, "120 g of mother tubers", apartWords(y))
	y.Soil = decimal.NewFromInt(300)
	assert.Equal(t, "120 g of mother tubers and 300 g of soil and haulm", apartWords(y))
	assert.Equal(t, "Mash: cooked 2 times, 8 portions; 6.5 eaten, 1.5 thrown out", DishWords(harvest.DishSeason{Dish: "Mash", Times: 2, Cooked: 8, Eaten: 6.5, Binned: 1.5}))
}

// A season's bar reaches a twentieth past the later of its window's end and today.
func TestTheBarOfASeason(t *testing.T) {
	day := func(n int) time.Time { return time.Date(2031, 4, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, n) }
	r := harvest.Readiness{Planting: harvest.Planting{Planted: day(0)}, From: day(80), To: day(100), Weeks: 10, WeeksFrom: 11.4, WeeksTo: 14.3}
	bar := drawSeason(r, day(50))
	assert.Equal(t, []string{"76.2", "19.0", "47.6"}, []string{bar.From, bar.Width, bar.Now}, "80, 20 and 50 of 105 days")
	assert.Equal(t, "In the ground since 1 April, 10 weeks; its window is 20 June to 10 July 2031 (weeks 11.4 to 14.3); today 21 May.", bar.Says)
	bar = drawSeason(r, day(200))
	assert.Equal(t, []string{"38.1", "9.5", "95.2"}, []string{bar.From, bar.Width, bar.Now}, "of 210 days")
	r.Planting.Planted = day(200)
	assert.Nil(t, drawSeason(r, day(200)), "it is not planted yet")
}

// A figure on a scale that begins at nothing and ends at a round one.
func TestFiguresOnAScale(t *testing.T) {
	d := newScaleDrawing(9)
	assert.Equal(t, []float64{2, 10}, []float64{d.step, d.end})
	assert.Equal(t, []float64{scaleLeft, scaleLeft + scaleRoom/2, scaleLeft + scaleRoom}, []float64{d.at(0), d.at(5), d.at(10)})
	assert.Equal(t, 1.0, newScaleDrawing(0).end)
	first := d.row("a", "b")
	assert.Equal(t, scaleRow, d.row("c", "d")-first)
}
