package page

import (
	"fmt"
	"html/template"
	"net/http"
	"strconv"

	"github.com/shopspring/decimal"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

// seasonScreen is what each planting gave and where it went.
type seasonScreen struct {
	Year     field
	Answer   string
	Warnings []harvest.Warning
	Open     string // how much devices wrote against each other
	Rows     []seasonRow
	Fates    []fate
	Dishes   []string
	Yields   template.HTML // the yields against the usual ones
}

type seasonRow struct {
	Planting, What, Net string
	Measures            []string // yield per seed, litre, square metre
	Bar                 []barPart
	Says                string
}

// fate is one place a crop goes to, with its pattern in the bars.
type fate struct{ Kind, Name string }

var fates = []fate{harvest.ToKitchen: {"kitchen", "kitchen"}, harvest.InStore: {"stored", "in store"}, harvest.GivenAway: {"given", "given away"},
	harvest.Composted: {"compost", "compost"}, harvest.DriedAway: {"dried", "dried away"}, harvest.OnHand: {"hand", "on hand"}}

// barPart is a stretch of a bar in percent of the longest.
type barPart struct{ Kind, X, Width string }

func (p *Page) showSeason(w http.ResponseWriter, r *http.Request) {
	view := seasonScreen{Fates: fates, Year: field{Name: "year", Label: "Season", Keys: "numeric"}}
	view.Year.read(r)
	var seasons []int
	if view.Year.Value != "" {
		year, err := strconv.Atoi(view.Year.Value)
		if err != nil || harvest.CheckSeasons(year) != nil {
			view.Year.Wrong, view.Year.Hint = "That is not a year.", "Write it as 2031."
			p.show(w, r, http.StatusUnprocessableEntity, "season", screen{Title: "The season's account", Data: view})
			return
		}
		seasons = []int{year}
	}
	answer, err := ask.Tally(r.Context(), p.ask(), false, seasons...)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	season := answer.Seasons[0]
	view.Year.Value = strconv.Itoa(season.Year)
	view.Warnings, view.Open = apart(answer.Warnings)
	view.fill(answer, season)
	p.show(w, r, http.StatusOK, "season", screen{Title: "The season's account", Data: view})
}

func (view *seasonScreen) fill(tally harvest.Tally, season harvest.Season) {
	all := season.Total()
	view.Answer = "Nothing was lifted."
	if all.Net.Sign() > 0 {
		view.Answer = render.Weight(all.Net) + " lifted, " + render.Weight(all.ToEat) + " of it fit to eat."
	}
	if len(season.Rows) > 0 {
		view.Yields = render.YieldDrawing(tally)
	}
	for _, d := range season.Dishes {
		view.Dishes = append(view.Dishes, render.DishWords(d))
	}
	for _, row := range season.Rows {
		view.Rows = append(view.Rows, viewSeasonRow(row, tally.Heaviest()))
	}
}

func viewSeasonRow(row harvest.Yield, longest decimal.Decimal) seasonRow {
	view := seasonRow{Planting: row.Planting.ID, What: row.Planting.Crop + " " + row.Planting.Variety, Net: render.Weight(row.Net)}
	add := func(value decimal.NullDecimal, of string) {
		if value.Valid {
			view.Measures = append(view.Measures, render.Weight(value.Decimal)+" "+of)
		}
	}
	add(row.PerSeed, "a seed tuber")
	add(row.PerLitre, "a litre of tub")
	add(row.PerM2, "a square metre")
	if row.Multiplied.Valid {
		view.Measures = append(view.Measures, row.Multiplied.Decimal.StringFixed(1)+" times the seed's weight")
	}
	from := 0.0
	for _, part := range row.Went.Parts() {
		if part.Grams.Sign() <= 0 || longest.Sign() <= 0 {
			continue
		}
		width := 100 * part.Grams.InexactFloat64() / longest.InexactFloat64()
		view.Bar = append(view.Bar, barPart{fates[part.Fate].Kind, fmt.Sprintf("%.2f%%", from), fmt.Sprintf("%.2f%%", width)})
		from += width
		if view.Says != "" {
			view.Says += ", "
		}
		view.Says += render.Weight(part.Grams) + " " + fates[part.Fate].Name
	}
	return view
}
