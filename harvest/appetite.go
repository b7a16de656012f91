package harvest

import (
	"math"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/units"
	"trencher/units/measures"
	"trencher/units/pattern"
)

// Appetite is how often a household means to eat a crop: what is planned for
// instead of what the journal says was eaten.
type Appetite struct {
	Crop, Class string
	Times       float64 // a week
	Weeks       float64
	Helpings    float64 // each time: an adult one, a child half
	Portion     Portion
	Prepared    float64 // g on the plate from a gram as lifted
}

// Portion is what an adult eats of a crop at a time, in grams on the plate.
type Portion struct {
	Grams  float64
	Cooked bool // the grams are of it cooked, else prepared
	units.Provenance
}

// PortionOf is the usual portion of a crop.
func PortionOf(crop string) Portion {
	if crop == "potato" {
		return Portion{175, true, units.Provenance{Source: "Food Standards Agency (UK), Food Portion Sizes: potato, boiled, medium", KnownBy: "memory"}}
	}
	return Portion{80, false, units.Provenance{Source: "National Health Service (UK), five a day: one portion of a vegetable or fruit", KnownBy: "memory"}}
}

const appetiteForm = "a crop, how often, how long: late maincrop potato, 3 a week, 26 weeks"

var appetiteWords = pattern.New(`^(.+?)[,:]?\s+(\d+(?:\.\d+)?)\s*(?:times|x)?\s*(?:a|per)\s*week[,:]?\s*(?:for\s*)?(\d+)\s*weeks?$`)

// ParseAppetite reads "late maincrop potato, 3 a week, 26 weeks". Who eats, and
// what preparing takes, is still to be filled in. Its error is a
// [units.FieldError] of eat.
func ParseAppetite(text string) (Appetite, error) {
	wrong := func(problem string) error { return units.WrongField("eat", text, problem, appetiteForm) }
	part := appetiteWords.FindStringSubmatch(measures.Fold(text))
	if part == nil {
		return Appetite{}, wrong("not how often a crop is eaten")
	}
	a := Appetite{Crop: strings.Trim(part[1], ",: ")}
	a.Times, _ = strconv.ParseFloat(part[2], 64) // digits, both
	a.Weeks, _ = strconv.ParseFloat(part[3], 64)
	if a.Times <= 0 || a.Times > 21 || a.Weeks <= 0 || a.Weeks > 52 {
		return Appetite{}, wrong("beyond 21 times a week or 52 weeks")
	}
	row, known := LookupCrop(a.Crop)
	for _, other := range Crops() {
		for _, class := range other.Classes() {
			rest, ok := strings.CutPrefix(a.Crop, measures.Fold(class)+" ")
			if found, is := LookupCrop(rest); ok && !known && is && found.ID == other.ID {
				a.Class, row, known = class, found, true
			}
		}
	}
	if !known {
		return Appetite{}, wrong("the table has no row for " + a.Crop)
	}
	a.Crop = row.Crop
	a.Portion = PortionOf(a.Crop)
	return a, nil
}

// Lifted is the grams as lifted that are eaten in the season.
func (a Appetite) Lifted() float64 {
	return a.Helpings * a.Times * a.Weeks * a.Portion.Grams / a.Prepared
}

// storedFrom is after how many weeks of eating a crop comes from a store:
// common practice, no source.
const storedFrom = 10

// lost is the share of the harvest that goes before it is eaten: what a store
// loses until half of the time is over, as published; nothing of what is eaten
// as it comes.
func (a Appetite) lost() float64 {
	if a.Weeks <= storedFrom {
		return 0
	}
	for _, place := range []Keeping{CoolDark, InSand, InRoom} {
		if row, ok := StoreLoss(a.Crop, place); ok {
			return 1 - row.Fit(a.Weeks*7/2)
		}
	}
	return 0
}

// plan is what to plant for an appetite, with the yields this plot gave where it
// gave any.
func (a Appetite) plan(r record, n NextCrop) NextCrop {
	n.Appetite = &a
	n.Row, _ = LookupCrop(a.Crop)
	n.Guessed = nil
	yield, ok := r.yield(&n)
	if !ok {
		n.Guessed = []Guess{GuessNoYield}
		return n
	}
	if len(r.yields) == 0 {
		n.Guessed = []Guess{GuessYield}
	}
	n.Want = decimal.NewFromFloat(a.Lifted()).Round(0)
	n.PerPlant = yield.range90()
	n.Plants = guess{math.Log(a.Lifted()) - math.Log(1-a.lost()) - yield.log, yield.spread * yield.spread}.sqrt().range90()
	return n
}
