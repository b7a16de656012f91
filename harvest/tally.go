package harvest

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// Season is what each planting gave in one season and where it went.
type Season struct {
	Year int
	On   time.Time
	Rows []Yield // in the order of plantings.yaml
	// Dishes are those of which something was cooked or eaten, by name.
	Dishes []DishSeason
}

// Yield is one planting's season. Weights are grams; the yields per seed, litre
// and square metre are rounded to six decimals and invalid (zero) where the
// planting does not state the seed, the tub or the bed.
type Yield struct {
	Planting   Planting
	Lifts      int
	Net        decimal.Decimal // everything weighed in the bowls
	ToEat      decimal.Decimal // net less green and rotten
	Green      decimal.Decimal
	Rotten     decimal.Decimal
	Mothers    decimal.Decimal // weighed apart, in no net
	Soil       decimal.Decimal // weighed apart, in no net
	PerSeed    decimal.NullDecimal
	PerLitre   decimal.NullDecimal
	PerM2      decimal.NullDecimal
	Multiplied decimal.NullDecimal // net over seed weight
	Graded     []GradeShare
	Went       Went
	Dishes     []DishShare // what of it went into which dish, the most first
	// Usual is what the crop usually gives on this tub or bed; its Per is
	// empty when no row tells.
	Usual Usual
	// SpentLitres is the compost of a tub that was lifted whole, exactly as
	// plantings.yaml has it; zero when there is none.
	SpentLitres decimal.Decimal
	SpentFor    string
}

// GradeShare is the weight of one size and condition over the season.
type GradeShare struct {
	Sizes     units.Band
	Condition Condition
	Grams     decimal.Decimal
	Percent   decimal.Decimal // of the net, one decimal
}

// Name is how the grade is written: "20-45 mm scabby", "ungraded sound".
func (g GradeShare) Name() string {
	return cmp.Or(g.Sizes.String(), "ungraded") + " " + string(g.Condition)
}

// Tally is one or more seasons.
type Tally struct {
	Seasons  []Season
	Warnings []Warning
}

// Tally sums the account's seasons of the years given.
func (a *Account) Tally(years ...int) Tally {
	tally := Tally{Warnings: a.Warnings}
	for _, year := range years {
		tally.Seasons = append(tally.Seasons, a.Season(year))
	}
	return tally
}

// Season sums the lifts of one year by planting.
func (a *Account) Season(year int) Season {
	season := Season{Year: year, On: a.On, Dishes: a.dishes[year]}
	at := map[aPlanting]int{}
	for _, l := range a.Lifts {
		if l.At.Year() != year {
			continue
		}
		i, ok := at[l.From.key()]
		if !ok {
			i = len(season.Rows)
			at[l.From.key()] = i
			season.Rows = append(season.Rows, Yield{Planting: *l.From})
		}
		season.Rows[i].add(l)
	}
	eaten := a.eatenOf(year)
	for i := range season.Rows {
		season.Rows[i].Dishes = eaten[season.Rows[i].Planting.ID].sharesOf(season.Rows[i].Planting)
		season.Rows[i].close()
	}
	slices.SortStableFunc(season.Rows, func(x, y Yield) int {
		return cmp.Or(cmp.Compare(x.Planting.Place.Line, y.Planting.Place.Line), cmp.Compare(x.Planting.ID, y.Planting.ID))
	})
	return season
}

func (y *Yield) add(l Lifted) {
	y.Lifts++
	y.Net = y.Net.Add(l.Net())
	y.Mothers = y.Mothers.Add(grams(l.Mothers))
	y.Soil = y.Soil.Add(grams(l.Soil))
	for _, lot := range l.Lots {
		y.Went = y.Went.Add(lot.Went)
		y.share(lot)
		switch lot.Condition {
		case Green:
			y.Green = y.Green.Add(lot.Gave)
		case Rotten:
			y.Rotten = y.Rotten.Add(lot.Gave)
		default:
			y.ToEat = y.ToEat.Add(lot.Gave)
		}
	}
	if row, ok := LookupCrop(y.Planting.Crop); ok && row.Cropping == "once" && l.emptied(*l.From) {
		y.spend(row)
	}
}

func (y *Yield) share(lot *Lot) {
	for i := range y.Graded {
		if y.Graded[i].Sizes == lot.Sizes && y.Graded[i].Condition == lot.Condition {
			y.Graded[i].Grams = y.Graded[i].Grams.Add(lot.Gave)
			return
		}
	}
	y.Graded = append(y.Graded, GradeShare{Sizes: lot.Sizes, Condition: lot.Condition, Grams: lot.Gave})
}

// spend tells what the compost of an emptied tub is still good for: common
// practice, no source.
func (y *Yield) spend(row CropRow) {
	litres, ok := amountIn(y.Planting.Tub, units.Litre)
	if !ok {
		return
	}
	y.SpentLitres = litres
	y.SpentFor = fmt.Sprintf("its food is spent: a mulch, or with feed a crop of another family; not for the %s family again", row.Family)
	if row.Crop == "potato" {
		y.SpentFor = "its food is spent: sieve out every tuber, then a mulch, or with feed a crop of another family; not for potatoes, tomatoes, peppers or aubergines again"
	}
}

// usually looks up what the crop gives on this tub or bed.
func (y *Yield) usually() {
	row, ok := LookupCrop(y.Planting.Crop)
	if !ok {
		return
	}
	switch {
	case y.PerLitre.Valid:
		y.Usual, _ = row.usual(y.Planting.Class, PerLitre)
	case y.PerM2.Valid:
		y.Usual, _ = row.usual(y.Planting.Class, PerM2)
	case y.PerSeed.Valid:
		y.Usual, _ = row.usual(y.Planting.Class, PerPlant)
	}
}

const yieldPlaces = 6

func (y *Yield) close() {
	p := y.Planting
	if p.SeedCount > 0 {
		y.PerSeed = over(y.Net, decimal.NewFromInt(int64(p.SeedCount)))
	}
	if litres, ok := amountIn(p.Tub, units.Litre); ok {
		y.PerLitre = over(y.Net, litres)
	}
	if area, ok := amountIn(p.Bed, units.SquareMetre); ok {
		y.PerM2 = over(y.Net, area)
	}
	if seed, ok := amountIn(p.SeedWeight, units.Gram); ok {
		y.Multiplied = over(y.Net, seed)
	}
	y.usually()
	for i := range y.Graded {
		y.Graded[i].Percent = Percent(y.Graded[i].Grams, y.Net)
	}
	slices.SortFunc(y.Graded, func(a, b GradeShare) int {
		return cmp.Or(cmp.Compare(a.Condition.rank(), b.Condition.rank()),
			cmp.Compare(b.Sizes.Low, a.Sizes.Low), cmp.Compare(b.Sizes.High, a.Sizes.High))
	})
}

func over(a, b decimal.Decimal) decimal.NullDecimal {
	if b.Sign() <= 0 {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(a.DivRound(b, yieldPlaces))
}

func amountIn(q units.Quantity, u units.Unit) (decimal.Decimal, bool) {
	if !q.IsValid() {
		return decimal.Zero, false
	}
	in, err := q.In(u)
	if err != nil {
		return decimal.Zero, false
	}
	d, _ := in.Decimal()
	return d, d.Sign() > 0
}
