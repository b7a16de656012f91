package planner

import (
	"math/big"
	"math/rand/v2"
	"slices"

	"github.com/shopspring/decimal"
)

// A kindOfProblem is one way of drawing random problems. All are drawn from what
// a gardener could have; hard ones have what makes a search hard.
type kindOfProblem struct {
	name string
	draw func(r *rand.Rand, size problemSize) Problem
}

type problemSize struct{ dishes, lots, crops, guests int }

var kindsOfProblems = []kindOfProblem{
	{"share", shareProblem},
	{"household", householdProblem},
	{"hard", hardProblem},
	{"twins", twinsProblem},
}

// shareProblem has nobody in particular who eats.
func shareProblem(r *rand.Rand, size problemSize) Problem {
	p := randomProblem(r, randomSize{dishes: size.dishes, lots: size.lots, crops: size.crops, portions: size.guests, yields: true})
	p.MostDishes = min(3+r.IntN(3), size.dishes)
	addBounds(r, &p)
	if p.MostDishes == 0 {
		p.MostDishes = 3
	}
	return p
}

// householdProblem has everybody eating alike, a few children, plenty or little.
func householdProblem(r *rand.Rand, size problemSize) Problem {
	p := randomProblem(r, randomSize{dishes: size.dishes, lots: size.lots, crops: size.crops, portions: max(4, size.guests*(1+r.IntN(3))/2), yields: true})
	p.Sides = 1 + r.IntN(3)
	all := make([]bool, size.dishes)
	for d := range all {
		all[d] = true
	}
	children := r.IntN(size.guests/2 + 1)
	p.Guests = []Guest{{Label: "adult", Count: size.guests - children, Suits: all}}
	if children > 0 {
		p.Guests = append(p.Guests, Guest{Label: "child", Count: children, Child: true, Suits: all})
	}
	addBounds(r, &p)
	return p
}

// hardProblem has groups of guests who refuse dishes at random, children, dishes
// of several crops, overlapping sizes, limits and smallest batches.
func hardProblem(r *rand.Rand, size problemSize) Problem {
	p := randomProblem(r, randomSize{dishes: size.dishes, lots: size.lots, crops: size.crops, portions: max(4, size.guests*(1+r.IntN(3))), yields: true})
	for d := range p.Dishes {
		dish := &p.Dishes[d]
		if r.IntN(2) == 0 && len(dish.Needs) == 1 && size.crops > 1 {
			n := dish.Needs[0]
			n.Crop = p.Lots[(r.IntN(size.lots))].Crop
			if n.Crop != dish.Needs[0].Crop {
				n.PerPortion = new(big.Rat).Mul(n.PerPortion, big.NewRat(int64(1+r.IntN(3)), 4))
				dish.Needs = append(dish.Needs, n)
			}
		}
		dish.Smallest = 1 + r.IntN(5)
	}
	p.Sides = 1 + r.IntN(3)
	for left := size.guests; left > 0; {
		g := Guest{Label: "guest", Count: min(left, 1+r.IntN(max(1, size.guests/4))), Child: r.IntN(3) == 0}
		for range p.Dishes {
			g.Suits = append(g.Suits, r.IntN(3) > 0)
		}
		p.Guests = append(p.Guests, g)
		left -= g.Count
	}
	addBounds(r, &p)
	return p
}

// twinsProblem has dishes that are alike but for their names, and guests too.
func twinsProblem(r *rand.Rand, size problemSize) Problem {
	p := randomProblem(r, randomSize{dishes: size.dishes, lots: size.lots, crops: size.crops, portions: max(4, size.guests), yields: r.IntN(2) == 0})
	for d := range p.Dishes {
		if d%3 > 0 {
			name := p.Dishes[d].Name
			p.Dishes[d] = p.Dishes[d-1]
			p.Dishes[d].Name = name
		}
		p.Dishes[d].Wish = decimal.NewFromInt(1)
	}
	p.Limits = slices.DeleteFunc(p.Limits, func(l Limit) bool {
		return !slices.ContainsFunc(p.Dishes, func(d Dish) bool { return len(d.Others) > 0 && d.Others[0].Item == l.Item })
	})
	p.Sides = 2
	for left := size.guests; left > 0; {
		g := Guest{Label: "guest", Count: min(left, 2+r.IntN(3)), Child: r.IntN(4) == 0}
		for range p.Dishes {
			g.Suits = append(g.Suits, r.IntN(4) > 0)
		}
		p.Guests = append(p.Guests, g)
		left -= g.Count
	}
	if r.IntN(2) == 0 {
		p.Guests, p.MostDishes = nil, min(4, size.dishes)
	}
	return p
}
