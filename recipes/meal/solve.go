package meal

import (
	"context"
	"errors"
	"fmt"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/planner"
	"trencher/units/parallel"
)

// Solved is the answer of the planner: how many portions of what, from which
// lot. Its dishes are those of the question, its lots those that may go to the
// kitchen.
type Solved struct {
	Lots    []*harvest.Lot
	Aside   []Aside // not planned on
	Problem planner.Problem
	Sharing planner.Plan
	// Unproven says that the search gave up, and by how much the plan may fall
	// short; nil where it is proven the best.
	Unproven error

	suits [][]suiting // how the dishes suit the question's guests: by guest and dish
}

// Solve asks the planner how many portions of what. A search that gives up
// hands out the best plan it found, see [Solved.Unproven]; that nothing can be
// made is an answer too. Errors: a limit or a crop held back that no dish and no
// lot has, as a *units.FieldError; the context's.
func Solve(ctx context.Context, q Question) (Solved, error) {
	s := Solved{}
	for _, lot := range q.Lots {
		switch {
		case !lot.Condition.Edible():
			s.Aside = append(s.Aside, Aside{lot, NotEdible})
		case lot.IsLongPast(q.On):
			s.Aside = append(s.Aside, Aside{lot, PastKeeping})
		default:
			s.Lots = append(s.Lots, lot)
		}
	}
	var err error
	if s.Problem, err = problemOf(q, s.Lots); err != nil {
		return Solved{}, err
	}
	s.seat(q)
	s.Sharing, err = planner.Solve(ctx, s.Problem)
	var unproven *planner.NotProvenError
	switch {
	case err == nil, errors.Is(err, planner.ErrNothingFits):
	case errors.As(err, &unproven) && ctx.Err() == nil:
		s.Unproven = unproven
	default:
		return Solved{}, err
	}
	return s, nil
}

// problemOf puts the question in the planner's terms.
func problemOf(q Question, lots []*harvest.Lot) (planner.Problem, error) {
	p := planner.Problem{Sides: q.Sides, NodeLimit: q.NodeLimit, MostDishes: q.MostDishes, ManyDishes: q.ManyDishes,
		Layers: q.layersThere(), Ties: q.tieOrder()}
	for _, lot := range lots {
		p.Lots = append(p.Lots, planner.Lot{ID: lot.ID, Crop: recipes.CropName(lot.Crop), Texture: lot.Texture,
			Sizes: lot.Sizes, Supply: lot.Supply, First: lot.First, Keeps: lot.KeepsUntil})
	}
	holds := map[string]decimal.Decimal{}
	if p.Layers > 0 {
		holds = q.layers()
	}
	for _, dish := range q.Dishes {
		problemDish, err := problemDish(dish, holds)
		if err != nil {
			return p, err
		}
		p.Dishes = append(p.Dishes, problemDish)
	}
	if err := addLimits(&p, q); err != nil {
		return p, err
	}
	if err := addKeepBack(&p, q.KeepBack); err != nil {
		return p, err
	}
	return p, nil
}

// problemDish is a dish with what one portion of it takes, exactly, of the crops
// and of layers that hold so much.
func problemDish(dish recipes.Dish, holds map[string]decimal.Decimal) (planner.Dish, error) {
	p := planner.Dish{Name: dish.Name, Smallest: dish.Smallest, Largest: dish.Largest, Wish: dish.Wish}
	for i, line := range dish.Crops {
		need, _, err := dish.NeedPerPortion(i)
		if err != nil {
			return p, fmt.Errorf("%s: %w", dish.File, err)
		}
		n := planner.Need{Crop: line.Crop, PerPortion: need, Texture: line.Texture, Sizes: line.Sizes}
		class := classOf(line)
		if layer, ok := holds[class]; ok {
			n.Load = planner.Load{Class: class, PerPortion: new(big.Rat).Quo(preparedPerPortion(dish, i), layer.Rat())}
		}
		p.Needs = append(p.Needs, n)
	}
	for _, other := range dish.Others {
		if other.Amount.IsToTaste() || !other.Amount.IsValid() {
			continue
		}
		_, most := other.Amount.Ends()
		p.Others = append(p.Others, planner.Other{Item: other.Item, Unit: other.Amount.Unit().Code(),
			PerPortion: new(big.Rat).Quo(most, big.NewRat(int64(dish.Portions), 1))})
	}
	return p, nil
}

// suitsGuest tells whether a dish is for a guest, by what is in it and by the
// keeping rules of who they are; if not, why.
func suitsGuest(dish recipes.Dish, m Makeup, g recipes.Guests) (suits bool, why string) {
	diet := g.Diet
	diet.Conditions = g.Conditions()
	suits, why = m.Suits(diet)
	foods := m.Kinds.Foods
	switch {
	case !suits:
	case diet.Weak():
		why = keeping.NotForVulnerable(foods)
	case diet.LeavesOut(recipes.RawEgg) && slices.Contains(foods, keeping.RawEggDish):
		why = "has raw egg"
	}
	if suits && why == "" && diet.LeavesOut(recipes.RawThings) && eatenRaw(dish, foods) {
		why = "has something raw"
	}
	return why == "", why
}

// eatenRaw tells that something of a dish is eaten raw.
func eatenRaw(dish recipes.Dish, foods []string) bool {
	return slices.ContainsFunc(dish.Crops, func(c recipes.CropLine) bool { return c.Cook == "raw" }) ||
		slices.ContainsFunc([]string{"leaf-salad", "coleslaw", "sprouts", "pesto", "raw-vegetables", keeping.RawEggDish}, func(food string) bool { return slices.Contains(foods, food) })
}

// seat says of each group which dishes suit it, and where not, why. What a portion can
// be set apart of suits as well, where somebody has it as it is made.
func (s *Solved) seat(q Question) {
	if len(q.Guests) == 0 {
		return
	}
	parallel.Each(len(q.Dishes), func(d int) { q.makeup(d) })
	asMade := make([]bool, len(q.Dishes))
	s.suits = make([][]suiting, len(q.Guests))
	for g, group := range q.Guests {
		for d, dish := range q.Dishes {
			s.suits[g] = append(s.suits[g], suitingOf(dish, q.makeup(d), group))
			asMade[d] = asMade[d] || s.suits[g][d].asMade
		}
	}
	for g, group := range q.Guests {
		guest := planner.Guest{Label: group.Label(), Count: group.Count, Child: group.Child}
		for d, suits := range s.suits[g] {
			fits := suits.asMade || suits.apart && asMade[d]
			if fits {
				suits.why = ""
			}
			guest.Suits, guest.Why = append(guest.Suits, fits), append(guest.Why, suits.why)
		}
		s.Problem.Guests = append(s.Problem.Guests, guest)
	}
}
