package meal

import (
	"math/big"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/recipes"
	"trencher/units"
)

// flowPlaces is the smallest share of a gram that flows are told to. A flow
// without a finite decimal is cut off there, never rounded up, so that no lot
// gives more than it has; what is cut off stays in the lot.
const flowPlaces = 9

// Scaled is the dishes that are made, each to its portions, with what every
// part takes of which lot.
type Scaled struct {
	Dishes []Dish
}

// Scale scales every dish that the planner makes.
func Scale(q Question, s Solved) Scaled {
	var scaled Scaled
	for i, recipe := range q.Dishes {
		portions := s.Sharing.Portions[i]
		if portions == 0 {
			continue
		}
		dish := scaleDish(q, recipe, big.NewRat(int64(portions), 1))
		dish.Makeup = q.makeup(i)
		for j := range dish.Parts {
			if takes := takesOf(s, i, j); len(takes) > 0 {
				dish.Parts[j].From, dish.Parts[j].Lifted = takes, sumOf(takes)
			}
		}
		scaled.Dishes = append(scaled.Dishes, dish)
	}
	return scaled
}

// ScaleOne scales the one dish of the question. No lot is looked at: the weight
// given is what there is.
func ScaleOne(q Question) Scaled {
	dish := scaleDish(q, q.Dishes[0], q.Portions)
	dish.Makeup = MakeupOf(dish.Recipe)
	return Scaled{Dishes: []Dish{dish}}
}

func scaleDish(q Question, recipe recipes.Dish, portions *big.Rat) Dish {
	scaled := recipe.ScaleTo(portions, q.Kitchen)
	whole := new(big.Int).Quo(portions.Num(), portions.Denom())
	dish := Dish{Recipe: recipe, Scaled: scaled, Portions: int(whole.Int64()), Notes: q.Notes[strings.ToLower(recipe.Name)]}
	for _, crop := range scaled.Crops {
		dish.Parts = append(dish.Parts, Part{Line: crop.Line, Lifted: gramsOf(crop.Lifted),
			Prepared: gramsOf(crop.Prepared), Cooked: gramsOf(crop.Cooked).Round(0)})
	}
	return dish
}

// takesOf lists what one crop line of a dish takes of each lot.
func takesOf(s Solved, dish, line int) []Take {
	var takes []Take
	for _, flow := range s.Sharing.Flows {
		if flow.Dish == dish && flow.Need == line {
			takes = append(takes, Take{Lot: s.Lots[flow.Lot], Grams: units.FlooredDecimal(flow.Grams, flowPlaces)})
		}
	}
	return takes
}

func sumOf(takes []Take) decimal.Decimal {
	sum := decimal.Zero
	for _, take := range takes {
		sum = sum.Add(take.Grams)
	}
	return sum
}

// gramsOf is a weight in grams; nothing where there is none.
func gramsOf(q units.Quantity) decimal.Decimal {
	grams, err := q.In(units.Gram)
	if err != nil {
		return decimal.Zero
	}
	return units.DecimalOf(grams.Rat())
}
