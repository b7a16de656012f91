package ask

import (
	"fmt"
	"time"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units"
)

// usePlaces is how finely a use is weighed in the journal: to a milligram.
const usePlaces = 3

// take writes what the plan uses into the journal, lot by lot and dish by
// dish, so that the stock is true afterwards. What is trimmed off a damaged
// lot leaves it too; a lot that is used up is used up to the last gram.
func (s *sharing) take() error {
	at := journal.Now(s.plot.where.Now)
	if s.plot.where.On != "" {
		at = s.plot.On.Add(12 * time.Hour)
	}
	left := map[string]decimal.Decimal{}
	for _, lot := range s.lots {
		left[lot.ID] = lot.Weight
	}
	for i, lot := range s.lots {
		uses := s.usesOf(i)
		for n, use := range uses {
			grams := use.grams.DivRound(lot.Condition.Trim(), usePlaces)
			last := n == len(uses)-1 && s.plan.Lots[i].Taken.Add(decimal.New(1, -6)).GreaterThan(lot.Supply)
			if last || grams.GreaterThan(left[lot.ID]) {
				grams = left[lot.ID]
			}
			left[lot.ID] = left[lot.ID].Sub(grams)
			move := &harvest.Move{To: harvest.KindUse, Lot: lot.ID, Dish: use.dish, Weight: units.New(grams, units.Gram)}
			move.At = at
			file, err := s.plot.folder.Write(move)
			if err != nil {
				return fmt.Errorf("%w; written so far: %d entries", err, len(s.plan.Taken))
			}
			s.plan.Taken = append(s.plan.Taken, file)
		}
	}
	return nil
}

// lotUse is what one dish takes of one lot, grams as its supply.
type lotUse struct {
	dish  string
	grams decimal.Decimal
}

// usesOf lists what the dishes take of a lot, dish by dish.
func (s *sharing) usesOf(lot int) []lotUse {
	var uses []lotUse
	for _, flow := range s.solved.Flows {
		if flow.Lot != lot {
			continue
		}
		name := s.dishes[flow.Dish].Name
		if n := len(uses); n > 0 && uses[n-1].dish == name {
			uses[n-1].grams = uses[n-1].grams.Add(flooredGrams(flow.Grams))
			continue
		}
		uses = append(uses, lotUse{name, flooredGrams(flow.Grams)})
	}
	return uses
}
