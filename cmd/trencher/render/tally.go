package render

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/harvest"
)

// TallyText writes seasons at 80 columns: what each planting gave, how it
// graded, and where it went, as bars.
func TallyText(w io.Writer, a harvest.Tally, why bool) error {
	var p page
	for _, season := range a.Seasons {
		p.heading(fmt.Sprintf("Season %d", season.Year))
		if len(season.Rows) == 0 {
			p.line("  nothing lifted")
			continue
		}
		for _, y := range season.Rows {
			yieldPart(&p, y)
		}
		all := season.Total()
		p.heading(fmt.Sprintf("All of %d: %s lifted, %s to eat", season.Year, grams(all.Net), grams(all.ToEat)))
		wentPart(&p, all.Went, all.Net)
		dishPart(&p, season)
	}
	if len(a.Seasons) > 1 {
		besides(&p, a.Seasons)
	}
	reasons(&p, a.Reasons(), why)
	return p.writeTo(w)
}

func yieldPart(p *page, y harvest.Yield) {
	p.heading(fmt.Sprintf("%s: %s", y.Planting.ID, joinWords(y.Planting.Variety, y.Planting.Class, y.Planting.Crop)))
	p.wrapped("  ", fmt.Sprintf("%s lifted, %s to eat%s", grams(y.Net), grams(y.ToEat), rates(y)))
	for _, note := range [][2]string{{"fed ", y.Planting.Feed}, {"mulched ", y.Planting.Mulch}, {"note ", y.Planting.Notes}} {
		if note[1] != "" {
			p.wrapped("  "+note[0], note[1])
		}
	}
	for _, g := range y.Graded {
		bar(p, g.Name(), g.Grams, y.Net)
	}
	if apart := apartWords(y); apart != "" {
		p.wrapped("  weighed apart: ", apart)
	}
	wentPart(p, y.Went, y.Net)
	if len(y.Dishes) > 0 {
		p.line("  into dishes")
	}
	for _, d := range y.Dishes {
		bar(p, d.Dish, d.Grams, y.Net)
	}
	if y.SpentLitres.Sign() > 0 {
		p.wrapped("  spent compost ", fmt.Sprintf("%s l: %s", y.SpentLitres, y.SpentFor))
	}
}

func rates(y harvest.Yield) string {
	var words []string
	if y.PerSeed.Valid {
		words = append(words, grams(y.PerSeed.Decimal)+" a seed tuber or plant"+usualOf(y, harvest.PerPlant))
	}
	if y.PerLitre.Valid {
		words = append(words, grams(y.PerLitre.Decimal)+" a litre"+usualOf(y, harvest.PerLitre))
	}
	if y.PerM2.Valid {
		words = append(words, grams(y.PerM2.Decimal)+" a square metre"+usualOf(y, harvest.PerM2))
	}
	if y.Multiplied.Valid {
		words = append(words, y.Multiplied.Decimal.StringFixed(1)+" times the seed")
	}
	if len(words) == 0 {
		return ""
	}
	return ": " + strings.Join(words, ", ")
}

// usualOf is what is usual beside a yield counted so.
func usualOf(y harvest.Yield, per string) string {
	if y.Usual.Per != per {
		return ""
	}
	low, high := decimal.NewFromInt(int64(y.Usual.Grams.Low)), decimal.NewFromInt(int64(y.Usual.Grams.High))
	return fmt.Sprintf(" (usual %s to %s)", grams(low), grams(high))
}

func apartWords(y harvest.Yield) string {
	var words []string
	if y.Mothers.Sign() > 0 {
		words = append(words, grams(y.Mothers)+" of mother tubers")
	}
	if y.Soil.Sign() > 0 {
		words = append(words, grams(y.Soil)+" of soil and haulm")
	}
	return listed(words)
}

func wentPart(p *page, went harvest.Went, net decimal.Decimal) {
	p.line("  where it went")
	for _, part := range went.Parts() {
		bar(p, fates[part.Fate], part.Grams, net)
	}
}

// fates are the places grams go to, in the words of text and pictures.
var fates = [...]string{harvest.ToKitchen: "kitchen", harvest.InStore: "stored", harvest.GivenAway: "given",
	harvest.Composted: "composted", harvest.DriedAway: "dried away", harvest.OnHand: "on hand"}

// barWidth is the room for the longest bar at 80 columns.
const barWidth = 30

func bar(p *page, name string, g, whole decimal.Decimal) {
	if g.IsZero() {
		return
	}
	percent := harvest.Percent(g, whole).StringFixed(1) + " %"
	p.line("    " + pad(name, 20) + " " + padLeft(grams(g), 8) + " " + padLeft(percent, 7) + "  " + strings.Repeat("█", cells(g, whole, barWidth)))
}

// cells is how much of the room for the whole a part's bar takes: at least one
// cell for anything above nothing.
func cells(part, whole decimal.Decimal, room int64) int {
	if part.Sign() <= 0 || whole.Sign() <= 0 {
		return 0
	}
	n := part.Mul(decimal.NewFromInt(room)).DivRound(whole, 0).IntPart()
	return int(min(room, max(1, n)))
}

// dishPart tells the dishes of a season in portions.
func dishPart(p *page, season harvest.Season) {
	if len(season.Dishes) > 0 {
		p.line("  dishes, in portions")
	}
	for _, d := range season.Dishes {
		p.wrapped("    ", DishWords(d))
	}
}

// DishWords tells what became of a dish in a season.
func DishWords(d harvest.DishSeason) string {
	return fmt.Sprintf("%s: cooked %s, %g portions; %g eaten, %g thrown out", d.Dish, count(d.Times, "time", "times"), d.Cooked, d.Eaten, d.Binned)
}

// besides sets the seasons side by side: by crop and by planting what was
// lifted, eaten and wasted, by dish the portions.
func besides(p *page, seasons []harvest.Season) {
	const abreast = 5 // seasons that 80 columns have room for
	for part := range slices.Chunk(seasons, abreast) {
		table := harvest.Compare(part)
		for _, each := range []struct {
			title string
			rows  []harvest.SeasonRow
			of    func(harvest.SeasonRow) []decimal.Decimal
		}{
			{"Seasons side by side, lifted", table.Crops, func(r harvest.SeasonRow) []decimal.Decimal { return r.Net }},
			{"To the kitchen", table.Crops, func(r harvest.SeasonRow) []decimal.Decimal { return r.Kitchen }},
			{"Wasted: composted or dried away", table.Crops, func(r harvest.SeasonRow) []decimal.Decimal { return r.Waste }},
			{"By planting, lifted", table.Plantings, func(r harvest.SeasonRow) []decimal.Decimal { return r.Net }},
			{"By planting, wasted", table.Plantings, func(r harvest.SeasonRow) []decimal.Decimal { return r.Waste }},
		} {
			abreastHead(p, each.title, table.Years)
			for _, row := range each.rows {
				abreastLine(p, row.Name, eachGrams(each.of(row)))
			}
		}
		if len(table.Dishes) > 0 {
			abreastHead(p, "Dishes: portions eaten of those cooked", table.Years)
		}
		for _, row := range table.Dishes {
			var cells []string
			for i := range row.Eaten {
				cells = append(cells, fmt.Sprintf("%g of %g", row.Eaten[i], row.Cooked[i]))
			}
			abreastLine(p, row.Name, cells)
		}
	}
}

func eachGrams(all []decimal.Decimal) (cells []string) {
	for _, g := range all {
		cells = append(cells, grams(g))
	}
	return cells
}

func abreastHead(p *page, title string, years []int) {
	p.heading(title)
	var cells []string
	for _, year := range years {
		cells = append(cells, fmt.Sprint(year))
	}
	abreastLine(p, "", cells)
}

// abreastLine is one name with a cell for each season; a name too long for its
// column stands above them.
func abreastLine(p *page, name string, cells []string) {
	const wide = 22
	if len([]rune(name)) > wide {
		p.line("  " + name)
		name = ""
	}
	line := "  " + pad(name, wide)
	for _, cell := range cells {
		line += padLeft(cell, 10)
	}
	p.line(line)
}
