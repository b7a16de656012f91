package meal

import (
	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/units"
)

// usePlaces is how finely a use is weighed in the journal: to a milligram.
const usePlaces = 3

// leastLeft is less than any kitchen can weigh, in grams of supply: a lot of
// which no more is left is used up.
var leastLeft = decimal.New(1, -6)

// Planned is the plan as one entry of the journal, made from a stock, without
// its moment.
func Planned(plan Plan, stock harvest.StockList) *harvest.Planned {
	var makes []harvest.Making
	for _, dish := range plan.Dishes {
		makes = append(makes, harvest.Making{Dish: dish.Name(), Portions: dish.Portions})
	}
	return harvest.NewPlanned(plan.On, stock, makes, Uses(plan))
}

// Uses lists what a plan takes out of the lots: lot by lot, and in each dish by
// dish. What is trimmed off a damaged lot leaves it too; a lot that is used up is
// used up to the last gram.
func Uses(plan Plan) []harvest.Use {
	var uses []harvest.Use
	for _, lot := range plan.Lots {
		left := lot.Weight
		taken := takenOf(plan, lot.ID)
		for i, use := range taken {
			grams := use.grams.DivRound(lot.Condition.Trim(), usePlaces)
			usedUp := i == len(taken)-1 && lot.Left().LessThan(leastLeft)
			if usedUp || grams.GreaterThan(left) {
				grams = left
			}
			left = left.Sub(grams)
			uses = append(uses, harvest.Use{Lot: lot.ID, Dish: use.dish, Weight: units.New(grams, units.Gram)})
		}
	}
	return uses
}

// taken is what one dish takes of one lot, grams of its supply.
type taken struct {
	dish  string
	grams decimal.Decimal
}

func takenOf(plan Plan, lot string) []taken {
	var list []taken
	for _, dish := range plan.Dishes {
		sum := decimal.Zero
		for _, part := range dish.Parts {
			for _, take := range part.From {
				if take.Lot.ID == lot {
					sum = sum.Add(take.Grams)
				}
			}
		}
		if sum.IsPositive() {
			list = append(list, taken{dish.Name(), sum})
		}
	}
	return list
}
