package ask

import (
	"fmt"
	"time"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
)

// tellKeeping adds the storage rules that the plan's dishes and times trigger,
// and the standing cautions.
func (s *sharing) tellKeeping() error {
	facts := keeping.PlanFacts{TableFrom: s.serveAt, Air: keeping.Celsius(s.airC), Fridge: keeping.Celsius(s.plot.Kitchen.FridgeC),
		Authority: keeping.Authority(s.plot.Kitchen.Authority)}
	for _, told := range s.plan.Dishes {
		facts.Dishes = append(facts.Dishes, s.keepingFacts(told))
	}
	notes, err := keeping.PlanNotes(facts)
	if err != nil {
		return err
	}
	s.plan.Keep = append(notes, keeping.StandingNotes()...)
	s.plan.Cautions = keeping.Cautions(false)
	return nil
}

// keepingFacts are the food and the times of one planned dish.
func (s *sharing) keepingFacts(told Dish) keeping.PlanDish {
	facts := keeping.PlanDish{Name: told.Name, History: keeping.Batch{Food: FoodOf(s.dishNamed(told.Name))}}
	facts.History.CookedAt, facts.DressedAt, facts.History.ChilledAt = s.milestones(told.Name)
	if facts.History.ChilledAt.IsZero() {
		return facts // it is eaten as it is: nothing waits for it to cool
	}
	if cooling, heaped, ok := s.cooling(told); ok {
		facts.Spread, facts.Heaped = minutesLong(cooling.FridgeLatest), minutesLong(heaped.FridgeLatest)
	}
	return facts
}

func (s *sharing) dishNamed(name string) recipes.Dish {
	for _, dish := range s.dishes {
		if dish.Name == name {
			return dish
		}
	}
	return recipes.Dish{}
}

// cooled is how long a dish takes to cool, spread and heaped.
type cooled struct {
	spread, heaped heat.Cooling
	ok             bool
}

// cooling is the plot's cooling of a dish, reckoned once.
func (s *sharing) cooling(told Dish) (spread, heaped heat.Cooling, ok bool) {
	key := told.Name + fmt.Sprint(largestPiece(told))
	known, done := s.cools[key]
	if !done {
		known.spread, known.heaped, known.ok = s.plot.cooling(told)
		s.cools[key] = known
	}
	return known.spread, known.heaped, known.ok
}

// largestPiece is the size of the largest piece in a dish, in mm.
func largestPiece(told Dish) float64 {
	largest := 0.0
	for _, part := range told.Crops {
		for _, cut := range part.Cuts {
			largest = max(largest, cut.PieceMM)
		}
	}
	return largest
}

// cooling reckons how long the slowest steamed crop of a dish takes to cool in
// this kitchen, spread on a tray and heaped in a bowl.
func (p *Plot) cooling(told Dish) (spread, heaped heat.Cooling, ok bool) {
	for _, part := range told.Crops {
		if part.Steam == nil {
			continue
		}
		crop, cut, err := coolingPiece(part)
		if err != nil {
			return spread, heaped, false
		}
		grams, _ := part.Prepared.Float64()
		tray, err := heat.Cool(crop, cut, heat.Spread{FridgeC: p.Kitchen.FridgeC}, p.Kitchen.RoomC)
		if err != nil {
			return spread, heaped, false
		}
		bowl, err := heat.Cool(crop, cut, heat.Spread{Bowl: true, Grams: grams, FridgeC: p.Kitchen.FridgeC}, p.Kitchen.RoomC)
		if err != nil {
			return spread, heaped, false
		}
		if tray.FridgeLatest >= spread.FridgeLatest {
			spread, heaped, ok = tray, bowl, true
		}
	}
	return spread, heaped, ok
}

// coolingPiece is the crop and the piece that a part cools as: the cube that takes as
// long as its largest piece.
func coolingPiece(part CropPart) (heat.Crop, heat.Cut, error) {
	crop, err := heat.LookupCrop(part.Crop, "")
	if err != nil {
		return crop, heat.Cut{}, err
	}
	piece := 0.0
	for _, cut := range part.Cuts {
		piece = max(piece, cut.PieceMM)
	}
	return crop, heat.Cut{Shape: heat.Cube, SizeMM: piece}, nil
}

func minutesLong(minutes float64) time.Duration {
	return time.Duration(minutes * float64(time.Minute))
}
