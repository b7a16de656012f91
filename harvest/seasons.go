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

// SideBySide is the net weight by crop over several seasons.
type SideBySide struct {
	Years []int
	Rows  []CropSeasons
}

// CropSeasons is one crop's net grams, season by season.
type CropSeasons struct {
	Crop string
	Net  []decimal.Decimal
}

// Compare sets seasons side by side, crops in the order of the alphabet.
func Compare(seasons []Season) SideBySide {
	var table SideBySide
	rowOf := map[string]int{}
	for i, s := range seasons {
		table.Years = append(table.Years, s.Year)
		for _, y := range s.Rows {
			crop := y.Planting.Crop
			at, known := rowOf[crop]
			if !known {
				at, rowOf[crop] = len(table.Rows), len(table.Rows)
				table.Rows = append(table.Rows, CropSeasons{crop, make([]decimal.Decimal, len(seasons))})
			}
			table.Rows[at].Net[i] = table.Rows[at].Net[i].Add(y.Net)
		}
	}
	slices.SortFunc(table.Rows, func(a, b CropSeasons) int { return cmp.Compare(a.Crop, b.Crop) })
	return table
}
