package planner

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Dishes that need the same of the same crops have a column for all their portions, and
// one for how many of them are made where that is counted, whichever stand between them;
// what only one dish needs has none.
func TestTotals(t *testing.T) {
	p := Problem{}
	most := map[int]int64{}
	for d, grams := range []int{200, 300, 200, 300, 200, 100} {
		p.Dishes = append(p.Dishes, Dish{Largest: 4 + d, Needs: []Need{{Crop: "potato", PerPortion: ratInt(grams)}}})
		most[d] = int64(4 + d)
	}
	require.Equal(t, []string{"[0 2 4] portions, 18", "[1 3] portions, 12"}, totalsTold(p, most, false))
	require.Equal(t, []string{"[0 2 4] portions, 18", "[0 2 4] made, 3", "[1 3] portions, 12", "[1 3] made, 2"}, totalsTold(p, most, true))
}

// Of many dishes each crop has a column for its dishes' portions, unless it is the crop of
// one dish or of all; and where dishes come in several that need the same, one for how
// many are made.
func TestCropTotals(t *testing.T) {
	p := Problem{}
	most := map[int]int64{}
	dish := func(grams int, crops ...string) {
		most[len(p.Dishes)] = 5
		d := Dish{Largest: 5}
		for _, c := range crops {
			d.Needs = append(d.Needs, Need{Crop: c, PerPortion: ratInt(grams)})
		}
		p.Dishes = append(p.Dishes, d)
	}
	dish(300, "carrot")
	for grams := range manyDishes - 3 {
		dish(100+grams, "potato")
	}
	dish(50, "carrot", "potato")
	require.Empty(t, totalsTold(p, most, true), "few dishes")
	dish(60, "potato", "turnip")
	carrots, potatoes := "[0 18]", "[1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19]"
	require.Equal(t, []string{carrots + " portions, 10", potatoes + " portions, 95"}, totalsTold(p, most, true))
	p.Dishes[1].Needs = p.Dishes[2].Needs
	require.Equal(t, []string{
		"[1 2] portions, 10", "[1 2] made, 2",
		carrots + " portions, 10", carrots + " made, 2",
		potatoes + " portions, 95", potatoes + " made, 19",
	}, totalsTold(p, most, true))
	p.Dishes[0].Needs = p.Dishes[18].Needs
	require.NotContains(t, totalsTold(p, most, true), "potato of all", "a crop of all dishes")
	require.Len(t, totalsTold(p, most, true), 6, "two groups, and the carrots'")
}

func totalsTold(p Problem, most map[int]int64, counted bool) (told []string) {
	m := &model{p: &p, column: map[int]int{}}
	m.addDishes(most, counted)
	for _, t := range m.totals {
		what := "portions"
		if t.made {
			what = "made"
		}
		told = append(told, fmt.Sprintf("%v %s, %d", t.dishes, what, m.prog.Columns[t.column].Most))
	}
	return told
}

// Problems of so many dishes that their crops have totals, and so little of these that
// every plan can be tried.
func TestManyDishesAgreeWithEnumeration(t *testing.T) {
	with := 0
	for seed := range volume(100, 2_000, 2_000) {
		p := manyOfTwoCrops(uint64(seed))
		if most, _ := p.eligible(); len(most) >= manyDishes {
			with++
		}
		plan, err := Solve(context.Background(), p)
		requireAnswer(t, enumerate(p), plan, err, fmt.Sprint("seed ", seed))
	}
	require.Greater(t, with, 30)
}

// manyOfTwoCrops is a problem of some twenty dishes of two crops, each of them twice, or
// all different.
func manyOfTwoCrops(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 49))
	p := randomProblem(r, randomSize{
		dishes: manyDishes + r.IntN(3), lots: 2, crops: 2, guests: 1 + r.IntN(2),
		table: r.IntN(2) == 0, yields: r.IntN(3) == 0, fussy: true,
	})
	if p.Guests != nil {
		p.Guests, p.Sides = p.Guests[:1], 3-p.Guests[0].Count
		for d := range p.Dishes {
			p.Guests[0].Suits[d] = true
		}
	}
	for l := range p.Lots {
		p.Lots[l].Supply = decimal.New(int64(1200+r.IntN(500)), -1)
	}
	twice := r.IntN(2) == 0
	for d := range p.Dishes {
		dish := &p.Dishes[d]
		if r.IntN(4) > 0 {
			dish.Needs = dish.Needs[:1]
		}
		for n := range dish.Needs {
			dish.Needs[n].Sizes, dish.Needs[n].Texture = units.Band{}, ""
			grams := dish.Needs[n].PerPortion
			dish.Needs[n].PerPortion = grams.Add(ratInt(45), grams.Quo(grams, ratInt(4)))
		}
		if twice && d%2 == 1 {
			dish.Needs = p.Dishes[d-1].Needs
		}
		dish.Smallest, dish.Largest = 1, 1+r.IntN(3)
	}
	addBounds(r, &p)
	return p
}
