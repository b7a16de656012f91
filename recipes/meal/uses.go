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

// Uses lists what a plan takes out of the lots as journal entries, without their
// moment: lot by lot, and in each dish by dish. What is trimmed off a damaged lot
// leaves it too; a lot that is used up is used up to the last gram.
func Uses(plan Plan) []harvest.Move {
	var moves []harvest.Move
	for _, lot := range plan.Lots {
		left := lot.Weight
		uses := usesOf(plan, lot.ID)
		for i, use := range uses {
			grams := use.grams.DivRound(lot.Condition.Trim(), usePlaces)
			usedUp := i == len(uses)-1 && lot.Left().LessThan(leastLeft)
			if usedUp || grams.GreaterThan(left) {
				grams = left
			}
			left = left.Sub(grams)
			moves = append(moves, harvest.Move{To: harvest.KindUse, Lot: lot.ID, Dish: use.dish, Weight: units.New(grams, units.Gram)})
		}
	}
	return moves
}

// use is what one dish takes of one lot, grams of its supply.
type use struct {
	dish  string
	grams decimal.Decimal
}

func usesOf(plan Plan, lot string) []use {
	var uses []use
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
			uses = append(uses, use{dish.Name(), sum})
		}
	}
	return uses
}
