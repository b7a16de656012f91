package recipes

import (
	"fmt"
	"math/big"
	"strconv"

	"trencher/units"
)

// Scaled is a dish at another number of portions.
type Scaled struct {
	Dish     Dish
	Portions *big.Rat
	Factor   *big.Rat // portions over the dish file's portions
	Crops    []ScaledCrop
	Others   []ScaledLine
	Cautions []string // about the size of the batch
}

// ScaledCrop is a weighed crop at the new number of portions. It is never
// rounded.
type ScaledCrop struct {
	Line     CropLine
	Lifted   units.Quantity // grams as lifted
	Prepared units.Quantity // grams after preparation, in the dish's amount
	Cooked   units.Quantity // grams once steamed, roughly; no amount when the table has no figure
	Cooking  Yield          // prepared to cooked; the zero value beside no amount
}

// ScaledLine is any other ingredient at the new number of portions.
type ScaledLine struct {
	Item, State string
	Exact       units.Quantity // in the dish file's unit; a range, or to taste
	Measured    units.Measured // in measures the kitchen has
	Advice      string         // "start low, taste"; "" when there is nothing to say
	Instead     []ScaledLine
	Optional    bool
	FromPlot    bool
}

// Beyond these factors a recipe is another recipe: common practice, no
// source. The line for seasoning follows the rule that strong flavours stop
// growing in step once the recipe is doubled (spice blender's trade handbook,
// scaling up recipes, read; a quarter off is common practice).
var (
	seasoningLinearTo = big.NewRat(2, 1)
	seasoningLow      = big.NewRat(3, 4)
	cautionAbove      = big.NewRat(4, 1)
	cautionBelow      = big.NewRat(1, 4)
)

// ScaleTo returns the dish at another number of portions, each line exact and
// in the kitchen's measures.
//
// Linear amounts are multiplied by portions / the dish's portions. Seasoning
// does the same up to twice the recipe; beyond, it is a range from three
// quarters of that to all of it. Fixed amounts and "to taste" stay as they
// are. Portions of nothing or less give a factor of 0 and no lines.
func (d Dish) ScaleTo(portions *big.Rat, k Kitchen) Scaled {
	s := Scaled{Dish: d, Portions: new(big.Rat), Factor: new(big.Rat)}
	if portions == nil || portions.Sign() <= 0 || d.Portions < 1 {
		return s
	}
	s.Portions.Set(portions)
	s.Factor.Quo(portions, big.NewRat(int64(d.Portions), 1))
	for i, c := range d.Crops {
		s.Crops = append(s.Crops, d.scaleCrop(i, c, s))
	}
	for _, o := range d.Others {
		s.Others = append(s.Others, scaleOther(o, s.Factor, k))
	}
	s.Cautions = append(sizeCautions(s.Factor), d.panCautions(s.Factor)...)
	return s
}

// ScaleToPortions is ScaleTo for a whole number of portions.
func (d Dish) ScaleToPortions(portions int, k Kitchen) Scaled {
	return d.ScaleTo(big.NewRat(int64(portions), 1), k)
}

func (d Dish) scaleCrop(i int, c CropLine, s Scaled) ScaledCrop {
	scaled := ScaledCrop{Line: c}
	need, _, err := d.NeedPerPortion(i)
	if err != nil {
		return scaled
	}
	lifted := need.Mul(need, s.Portions)
	scaled.Lifted = units.FromRat(lifted, units.Gram)
	scaled.Prepared = units.FromRat(new(big.Rat).Mul(lifted, c.yield.Factor), units.Gram)
	if c.Cook != "steam" {
		return scaled
	}
	if cooking, err := CookedYield(c.Crop, c.Prepared, "steamed"); err == nil {
		scaled.Cooked, scaled.Cooking = scaled.Prepared.Scale(cooking.Factor), cooking
	}
	return scaled
}

func scaleOther(o OtherLine, factor *big.Rat, k Kitchen) ScaledLine {
	line := scaleLine(o.Amount, o.Item, o.State, o.Scales, factor, k)
	line.Optional, line.FromPlot = o.Optional, o.FromPlot
	for _, a := range o.Instead {
		line.Instead = append(line.Instead, scaleLine(a.Amount, a.Item, a.State, o.Scales, factor, k))
	}
	return line
}

func scaleLine(amount units.Quantity, item, state string, kind Scaling, factor *big.Rat, k Kitchen) ScaledLine {
	exact, advice := scaleAmount(amount, kind, factor)
	halves := units.MeasureOptions{Halves: !amount.Rat().IsInt()} // a recipe that halves a lemon lets one be halved
	return ScaledLine{Item: item, State: state, Exact: exact, Advice: advice, Measured: k.measureOut(exact, item, state, halves)}
}

// scaleAmount applies one kind of scaling to an amount.
func scaleAmount(q units.Quantity, kind Scaling, factor *big.Rat) (scaled units.Quantity, advice string) {
	switch {
	case !q.IsValid() || q.IsToTaste():
		return q, ""
	case kind == Fixed:
		if factor.Cmp(big.NewRat(1, 1)) != 0 {
			advice = "the same for any number of portions"
		}
		return q, advice
	case kind == Seasoning && factor.Cmp(seasoningLinearTo) > 0:
		low, high := q.Ends()
		low.Mul(low, factor).Mul(low, seasoningLow)
		return units.FromRange(low, high.Mul(high, factor), q.Unit()), "start low, taste"
	}
	return q.Scale(factor), ""
}

func sizeCautions(factor *big.Rat) []string {
	switch {
	case factor.Cmp(cautionAbove) > 0:
		return []string{fmt.Sprintf("%s times the recipe: pans, stirring and cooking times no longer follow it; cook it in several batches or try it small first",
			shortFactor(factor))}
	case factor.Cmp(cautionBelow) < 0:
		return []string{fmt.Sprintf("%s times the recipe: a small batch dries and scorches sooner; use a smaller pan and watch it",
			shortFactor(factor))}
	}
	return nil
}

// shortFactor writes a factor for a sentence, to two figures: "4.5", "0.13", "120".
func shortFactor(factor *big.Rat) string {
	x, _ := factor.Float64()
	if x >= 10 {
		return strconv.FormatFloat(x, 'f', 0, 64)
	}
	return strconv.FormatFloat(x, 'g', 2, 64)
}
