package harvest

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"
)

// Total is what all plantings of a season gave together, in grams.
type Total struct {
	Net, ToEat decimal.Decimal
	Went       Went
}

// Total sums a season's plantings.
func (s Season) Total() Total {
	var sum Total
	for _, row := range s.Rows {
		sum.Net, sum.ToEat, sum.Went = sum.Net.Add(row.Net), sum.ToEat.Add(row.ToEat), sum.Went.Add(row.Went)
	}
	return sum
}

// Fate is a place grams go to.
type Fate int

// The fates, in the order a season takes.
const (
	ToKitchen Fate = iota
	InStore
	GivenAway
	Composted
	DriedAway
	OnHand
)

// Part is the grams that met one fate.
type Part struct {
	Fate  Fate
	Grams decimal.Decimal
}

// Parts lists where grams went, in the order of the fates; with those of no
// grams.
func (w Went) Parts() []Part {
	return []Part{{ToKitchen, w.Kitchen}, {InStore, w.Stored}, {GivenAway, w.Given}, {Composted, w.Compost}, {DriedAway, w.Dried}, {OnHand, w.OnHand}}
}

// Percent is a part of a whole with one decimal; 0 where there is nothing of
// either.
func Percent(part, whole decimal.Decimal) decimal.Decimal {
	if whole.Sign() <= 0 || part.Sign() <= 0 {
		return decimal.Zero
	}
	return part.Mul(decimal.NewFromInt(100)).DivRound(whole, 1)
}

// Heaviest is the net weight of the planting that gave most in any of the
// seasons, in grams.
func (t Tally) Heaviest() decimal.Decimal {
	most := decimal.Zero
	for _, s := range t.Seasons {
		for _, y := range s.Rows {
			most = decimal.Max(most, y.Net)
		}
	}
	return most
}

// SideBySide is several seasons beside each other, by crop, by planting and by
// dish.
type SideBySide struct {
	Years     []int
	Crops     []SeasonRow
	Plantings []SeasonRow
	Dishes    []DishRow
}

// SeasonRow is the grams of one crop, or of one planting, season by season.
type SeasonRow struct {
	Name                string
	Net, Kitchen, Waste []decimal.Decimal
}

// DishRow is the portions of one dish, season by season.
type DishRow struct {
	Name                  string
	Cooked, Eaten, Binned []float64
}

// Compare sets seasons side by side, each part in the order of the alphabet.
func Compare(seasons []Season) SideBySide {
	var table SideBySide
	crops, plantings, dishes := map[string]int{}, map[string]int{}, map[string]int{}
	for i, s := range seasons {
		table.Years = append(table.Years, s.Year)
		for _, y := range s.Rows {
			addTo(&table.Crops, crops, y.Planting.Crop, len(seasons), i, y)
			addTo(&table.Plantings, plantings, y.Planting.ID, len(seasons), i, y)
		}
		for _, d := range s.Dishes {
			at, there := dishes[d.Dish]
			if !there {
				at, dishes[d.Dish] = len(table.Dishes), len(table.Dishes)
				n := len(seasons)
				table.Dishes = append(table.Dishes, DishRow{d.Dish, make([]float64, n), make([]float64, n), make([]float64, n)})
			}
			row := table.Dishes[at]
			row.Cooked[i], row.Eaten[i], row.Binned[i] = row.Cooked[i]+d.Cooked, row.Eaten[i]+d.Eaten, row.Binned[i]+d.Binned
		}
	}
	byName := func(a, b SeasonRow) int { return cmp.Compare(a.Name, b.Name) }
	slices.SortFunc(table.Crops, byName)
	slices.SortFunc(table.Plantings, byName)
	slices.SortFunc(table.Dishes, func(a, b DishRow) int { return cmp.Compare(a.Name, b.Name) })
	return table
}

// addTo adds a planting's season to the row of a name; of tells which that is.
func addTo(rows *[]SeasonRow, of map[string]int, name string, seasons, season int, y Yield) {
	at, there := of[name]
	if !there {
		at, of[name] = len(*rows), len(*rows)
		nothing := func() []decimal.Decimal { return make([]decimal.Decimal, seasons) }
		*rows = append(*rows, SeasonRow{name, nothing(), nothing(), nothing()})
	}
	row := (*rows)[at]
	row.Net[season] = row.Net[season].Add(y.Net)
	row.Kitchen[season] = row.Kitchen[season].Add(y.Went.Kitchen)
	row.Waste[season] = row.Waste[season].Add(y.Waste())
}
