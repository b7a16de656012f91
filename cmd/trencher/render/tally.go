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
	if y.SpentLitres.Sign() > 0 {
		p.wrapped("  spent compost ", fmt.Sprintf("%s l: %s", y.SpentLitres, y.SpentFor))
	}
}

func rates(y harvest.Yield) string {
	var words []string
	if y.PerSeed.Valid {
		words = append(words, grams(y.PerSeed.Decimal)+" a seed tuber or plant")
	}
	if y.PerLitre.Valid {
		words = append(words, grams(y.PerLitre.Decimal)+" a litre"+usualWords(y))
	}
	if y.PerM2.Valid {
		words = append(words, grams(y.PerM2.Decimal)+" a square metre"+usualWords(y))
	}
	if y.Multiplied.Valid {
		words = append(words, y.Multiplied.Decimal.StringFixed(1)+" times the seed")
	}
	if len(words) == 0 {
		return ""
	}
	return ": " + strings.Join(words, ", ")
}

func usualWords(y harvest.Yield) string {
	if y.Usual.Per == "" {
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

// besides sets the seasons side by side: net weight by crop.
func besides(p *page, seasons []harvest.Season) {
	p.heading("Seasons side by side, lifted")
	const abreast = 5 // seasons that 80 columns have room for
	for part := range slices.Chunk(seasons, abreast) {
		table := harvest.Compare(part)
		head := pad("", 22)
		for _, year := range table.Years {
			head += padLeft(fmt.Sprint(year), 10)
		}
		p.gap()
		p.line("  " + head)
		for _, row := range table.Rows {
			line := pad(row.Crop, 22)
			for _, g := range row.Net {
				line += padLeft(grams(g), 10)
			}
			p.line("  " + line)
		}
	}
}
