package render

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/harvest"
)

// NextText writes what to plant at 80 columns, crop by crop, each with its
// range drawn.
func NextText(w io.Writer, a harvest.NextSeason) error {
	var p page
	p.line(NextTitle(a))
	most := 0.0
	for _, c := range a.Crops {
		most = max(most, c.Plants.High)
	}
	for _, c := range a.Crops {
		nextPart(&p, c, most)
	}
	return p.writeTo(w)
}

// NextTitle says for which year a plan is, and what it rests on.
func NextTitle(a harvest.NextSeason) string {
	text := fmt.Sprintf("For %d, from %s in the journal", a.Year, count(len(a.Seasons), "season", "seasons"))
	if a.People != 1 {
		text += fmt.Sprintf("; %.2g times the helpings of the household as it was", a.People)
	}
	return text
}

func nextPart(p *page, c harvest.NextCrop, most float64) {
	name := joinWords(c.Class, c.Crop)
	switch {
	case c.PerPlant.Likely == 0:
		p.heading(name + ": no number of plants")
	case c.Plants.Likely == 0:
		p.heading(name + ": none, for none of it was eaten")
	default:
		p.heading(fmt.Sprintf("%s: %s, %d to %d", name, count(roundUp(c.Plants.Likely), "plant", "plants"), roundUp(c.Plants.Low), roundUp(c.Plants.High)))
		p.line("  " + rangeBar(c.Plants, most))
		p.wrapped("  ", fmt.Sprintf("%s; %.1f m2 of bed, or %.0f l of tub; %.0f g a plant (%.0f to %.0f)", seedWords(c), c.M2, c.Litres, c.PerPlant.Likely, c.PerPlant.Low, c.PerPlant.High))
	}
	if a := c.Appetite; a != nil {
		p.wrapped("  to eat    ", fmt.Sprintf("%s as lifted: %g times a week for %g weeks, %g helpings each time", grams(c.Want), a.Times, a.Weeks, a.Helpings))
	}
	if c.Seasons > 0 {
		p.wrapped("  a season  ", wentYearly(c))
	}
	if len(c.Sowings) > 0 && c.Plants.Likely > 0 {
		p.wrapped("  begin     ", sowingWords(c))
	}
	for _, g := range c.Guessed {
		p.wrapped("  guessed   ", guessWords(g))
	}
	if c.Short {
		p.wrapped("  note      ", "all there was of it was eaten in a season: more may be wanted than the journal can tell")
	}
}

func roundUp(n float64) int { return int(math.Ceil(n)) }

func seedWords(c harvest.NextCrop) string {
	if c.Seed > roundUp(c.Plants.Likely) {
		return count(c.Seed, "seed", "seeds")
	}
	return count(c.Seed, "tuber, set or young plant", "tubers, sets or young plants")
}

func wentYearly(c harvest.NextCrop) string {
	parts := []string{grams(c.Eaten) + " eaten"}
	if c.Portions > 0 {
		parts[0] += fmt.Sprintf(" in %.0f portions", c.Portions)
	}
	for _, part := range []struct {
		g    decimal.Decimal
		says string
	}{{c.Given, "given away"}, {c.Lost, "lost"}, {c.Left, "left"}} {
		if part.g.Sign() > 0 {
			parts = append(parts, grams(part.g)+" "+part.says)
		}
	}
	return strings.Join(parts, ", ")
}

func sowingWords(c harvest.NextCrop) string {
	if len(c.Sowings) == 1 {
		return fmt.Sprintf("from %s to %s", yearDay(c.Begin.From), yearDay(c.Begin.To))
	}
	var days []string
	for _, day := range c.Sowings {
		days = append(days, day.Format("2 January"))
	}
	return fmt.Sprintf("%s, about %d plants each time", strings.Join(days, ", "), roundUp(c.Plants.Likely/float64(len(c.Sowings))))
}

func guessWords(g harvest.Guess) string {
	return map[harvest.Guess]string{
		harvest.GuessOneSeason: "there is one season only: how much years differ here is taken as usual",
		harvest.GuessLeft:      "no use of it is logged: half of what is left is taken as eaten",
		harvest.GuessYield:     "no planting says how many plants stood: the yield is the published one",
		harvest.GuessNoYield:   "no planting says how many plants stood, and no yield is published: log the number of plants",
	}[g]
}

// rangeBar draws a range on a scale of 0 to most, 40 columns wide.
func rangeBar(e harvest.Estimate, most float64) string {
	const wide = 40
	at := func(n float64) int { return min(wide-1, int(n/cmp.Or(most, 1)*wide)) }
	line := []rune(strings.Repeat("·", wide))
	for i := at(e.Low); i <= at(e.High); i++ {
		line[i] = '─'
	}
	line[at(e.Likely)] = '█'
	return string(line)
}

type nextJSON struct {
	Crop     string       `json:"crop"`
	Class    string       `json:"class,omitempty"`
	Seasons  int          `json:"seasons"`
	Eaten    string       `json:"eaten_g"`
	Portions float64      `json:"portions"`
	Given    string       `json:"given_g"`
	Lost     string       `json:"lost_g"`
	Left     string       `json:"left_g"`
	Plant    plantJSON    `json:"plant"`
	Low      int          `json:"low"`  // plants
	High     int          `json:"high"` // plants
	PerPlant rangeJSON    `json:"g_per_plant"`
	Begin    []string     `json:"begin"`
	Until    string       `json:"begin_until,omitempty"` // the last day to begin
	WantG    string       `json:"to_eat_g,omitempty"`    // as lifted, where --eat was given
	Short    bool         `json:"short"`
	Guessed  []string     `json:"guessed"`
	From     []reasonJSON `json:"from"`
}

type plantJSON struct {
	Seed   int     `json:"seed"`
	Plants int     `json:"plants"`
	M2     float64 `json:"m2"`
	Litres float64 `json:"litres"`
}

type rangeJSON struct {
	Likely float64 `json:"likely"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
}

// NextJSON writes what to plant, an object a crop.
func NextJSON(w io.Writer, a harvest.NextSeason) error {
	list := []nextJSON{}
	for _, c := range a.Crops {
		out := nextJSON{Crop: c.Crop, Class: c.Class, Seasons: c.Seasons, Eaten: c.Eaten.String(), Portions: tenth(c.Portions), Given: c.Given.String(),
			Lost: c.Lost.String(), Left: c.Left.String(), Plant: plantJSON{c.Seed, roundUp(c.Plants.Likely), tenth(c.M2), tenth(c.Litres)},
			Low: roundUp(c.Plants.Low), High: roundUp(c.Plants.High), Short: c.Short, Begin: []string{}, Guessed: []string{}, From: []reasonJSON{},
			PerPlant: rangeJSON{tenth(c.PerPlant.Likely), tenth(c.PerPlant.Low), tenth(c.PerPlant.High)}}
		if len(c.Sowings) > 0 {
			out.Until = c.Begin.To.OnOrAfter(c.Sowings[0]).Format(time.DateOnly)
		}
		if c.Appetite != nil {
			out.WantG = c.Want.String()
		}
		for _, day := range c.Sowings {
			out.Begin = append(out.Begin, day.Format(time.DateOnly))
		}
		for _, g := range c.Guessed {
			out.Guessed = append(out.Guessed, guessWords(g))
		}
		for _, r := range c.Reasons() {
			out.From = append(out.From, reasonOf(r))
		}
		list = append(list, out)
	}
	return writeJSON(w, list)
}
