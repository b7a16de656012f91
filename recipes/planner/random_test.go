package planner

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"trencher/units"

	"github.com/shopspring/decimal"
)

// A recipe for random problems.
type randomSize struct {
	dishes, lots, crops, guests, portions int
	table                                 bool
	yields                                bool // amounts that are not round grams
	fussy                                 bool // guests who also leave out dishes that no diet forbids
}

var riddle = [...]units.Band{{Low: 20, High: 45}, {Low: 45, High: 65}, {Low: 65, High: 85}}

var dietNames = [...]string{"", "no milk", "no egg", "vegan", "no milk, egg"}

// randomProblem draws a plot such as a gardener could have: a few lots of each
// crop by riddle size, one in four of them damaged, dishes of 80 to 180 g of a
// crop a portion, some of two crops, and butter or mayonnaise that may be short.
func randomProblem(r *rand.Rand, size randomSize) Problem {
	var p Problem
	crop := func(i int) string { return fmt.Sprintf("crop-%02d", i) }
	for i := range size.lots {
		l := Lot{ID: fmt.Sprintf("lot-%02d", i), Crop: crop(i % size.crops), Sizes: riddle[r.IntN(3)]}
		grams := 100 + r.IntN(1300)
		if size.portions > 0 {
			grams = (100 + r.IntN(200)) * size.portions / size.lots
		}
		l.Supply = decimal.New(int64(grams), 0)
		if r.IntN(4) == 0 {
			l.First, l.Sizes = true, units.Band{}
			l.Supply = decimal.New(int64(grams/2)*85, -2)
		}
		l.Texture = [...]string{"", "", "waxy", "floury"}[r.IntN(4)]
		p.Lots = append(p.Lots, l)
	}
	for i := range size.dishes {
		p.Dishes = append(p.Dishes, randomDish(r, i, crop, size))
	}
	if r.IntN(2) == 0 {
		item := [...]string{"butter", "mayonnaise"}[r.IntN(2)]
		for _, d := range p.Dishes {
			if len(d.Others) > 0 && d.Others[0].Item == item {
				p.Limits = []Limit{{item, ratInt(60 + 30*r.IntN(max(4, size.portions/4))), "g"}}
				break
			}
		}
	}
	if size.table {
		randomGuests(r, &p, size)
	}
	return p
}

func randomDish(r *rand.Rand, i int, crop func(int) string, size randomSize) Dish {
	d := Dish{Name: fmt.Sprintf("dish-%02d", i), Smallest: [...]int{1, 2, 2, 4}[r.IntN(4)], Largest: [...]int{8, 12, 20}[r.IntN(3)]}
	if size.portions > 0 {
		d.Largest = 10 + r.IntN(20)
	}
	d.Wish = decimal.New(int64([...]int{1, 1, 1, 2}[r.IntN(4)]), 0)
	used := r.IntN(size.crops)
	for k := range 1 + r.IntN(8)/6 {
		n := Need{Crop: crop((used + k) % size.crops)}
		n.PerPortion = big.NewRat(int64(400+10*r.IntN(60)), int64([...]int{4, 5, 6}[r.IntN(3)]))
		if size.yields {
			n.PerPortion.Quo(n.PerPortion, big.NewRat(int64([...]int{81, 86, 99}[r.IntN(3)]), 100))
		}
		n.Sizes = [...]units.Band{{}, {}, {Low: 20, High: 45}, {Low: 45, High: 85}, {Low: 20, High: 65}}[r.IntN(5)]
		n.Texture = [...]string{"", "any", "any", "waxy"}[r.IntN(4)]
		d.Needs = append(d.Needs, n)
	}
	switch r.IntN(3) {
	case 0:
		d.Others = []Other{{"butter", ratInt(15), "g"}}
	case 1:
		d.Others = []Other{{"mayonnaise", ratInt(20), "g"}}
	}
	return d
}

func randomGuests(r *rand.Rand, p *Problem, size randomSize) {
	guests := size.guests
	p.Sides = 1 + r.IntN(3)
	p.Guests = []Guest{}
	for guests > 0 {
		g := Guest{Count: min(guests, 1+r.IntN(max(1, guests/2))), Child: r.IntN(4) == 0}
		g.Label = dietNames[r.IntN(len(dietNames))]
		for _, d := range p.Dishes {
			g.Suits = append(g.Suits, suits(d, g.Label) && (!size.fussy || r.IntN(12) > 0))
		}
		p.Guests = append(p.Guests, g)
		guests -= g.Count
	}
}

// addBounds draws what else may bound a plan: a number of dishes, layers of the
// steamer, something held back, an order of ties.
func addBounds(r *rand.Rand, p *Problem) {
	if p.Guests == nil || r.IntN(3) == 0 {
		p.MostDishes = 1 + r.IntN(len(p.Dishes)+1)
		p.ManyDishes = r.IntN(2) == 0
	}
	if r.IntN(3) == 0 {
		p.Layers = 1 + r.IntN(4)
		for d := range p.Dishes {
			for n := range p.Dishes[d].Needs {
				if r.IntN(5) > 0 {
					p.Dishes[d].Needs[n].Load = Load{Class: string(rune('a' + r.IntN(2))), PerPortion: big.NewRat(int64(10+r.IntN(90)), 300)}
				}
			}
		}
	}
	if r.IntN(4) == 0 {
		crop := p.Lots[0].Crop
		p.KeepBack = []KeepBack{{crop, new(big.Rat).Mul(p.onHand(crop), big.NewRat(1, 4))}}
	}
	if r.IntN(3) == 0 {
		p.Ties = r.Perm(len(p.Dishes))
	}
}

func suits(d Dish, diet string) bool {
	for _, o := range d.Others {
		switch diet {
		case "no milk":
			if o.Item == "butter" {
				return false
			}
		case "no egg":
			if o.Item == "mayonnaise" {
				return false
			}
		case "vegan", "no milk, egg":
			return false
		}
	}
	return true
}
