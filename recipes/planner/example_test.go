package planner_test

import (
	"context"
	"fmt"
	"math/big"

	"github.com/shopspring/decimal"

	"trencher/recipes/planner"
	"trencher/units"
)

func grams(n int64) *big.Rat { return big.NewRat(n, 1) }

// barbecue is 1.6 kg of potatoes, some of them to be used today, and two dishes.
func barbecue() planner.Problem {
	return planner.Problem{
		Lots: []planner.Lot{
			{ID: "tub-3/20-45", Crop: "potato", Sizes: units.Band{Low: 20, High: 45}, Supply: decimal.NewFromInt(900)},
			{ID: "tub-3/45-65", Crop: "potato", Sizes: units.Band{Low: 45, High: 65}, Supply: decimal.NewFromInt(530)},
			{ID: "tub-3/damaged", Crop: "potato", Supply: decimal.NewFromInt(170), First: true},
		},
		Dishes: []planner.Dish{
			{Name: "crushed", Smallest: 2, Largest: 12, Wish: decimal.NewFromInt(1), Needs: []planner.Need{{Crop: "potato", PerPortion: grams(180)}}},
			{Name: "salad", Smallest: 2, Largest: 12, Wish: decimal.NewFromInt(1), Needs: []planner.Need{{Crop: "potato", PerPortion: grams(150), Sizes: units.Band{Low: 20, High: 45}}}},
		},
	}
}

func ExampleSolve_share() {
	p := barbecue()
	plan, err := planner.Solve(context.Background(), p)
	if err != nil {
		fmt.Println(err)
		return
	}
	for d, n := range plan.Portions {
		fmt.Println(n, "of", p.Dishes[d].Name)
	}
	for _, f := range plan.Flows {
		fmt.Println(p.Dishes[f.Dish].Name, "takes", f.Grams.FloatString(0), "g of", p.Lots[f.Lot].ID)
	}
	// Output:
	// 5 of crushed
	// 4 of salad
	// crushed takes 470 g of tub-3/20-45
	// crushed takes 430 g of tub-3/45-65
	// salad takes 430 g of tub-3/20-45
	// salad takes 170 g of tub-3/damaged
}

func ExampleSolve_table() {
	p := barbecue()
	p.Sides = 2
	p.Guests = []planner.Guest{
		{Label: "2 adults", Count: 2, Suits: []bool{true, true}},
		{Label: "1 child", Count: 1, Child: true, Suits: []bool{true, true}},
		{Label: "1 adult no egg", Count: 1, Suits: []bool{true, false}},
	}
	plan, err := planner.Solve(context.Background(), p)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plan.Levels.Fed[0], "eat,", plan.Levels.Fed[1], "of them twice, from", plan.Levels.Portions, "portions")
	for _, plate := range plan.Plates {
		fmt.Print(p.Guests[plate.Group].Label, ":")
		for _, d := range plate.Dishes {
			fmt.Print(" ", p.Dishes[d].Name)
		}
		fmt.Println("; short of", plate.Short)
	}
	// Output:
	// 4 eat, 3 of them twice, from 7 portions
	// 2 adults: crushed salad; short of 0
	// 2 adults: crushed salad; short of 0
	// 1 child: crushed salad; short of 0
	// 1 adult no egg: crushed; short of 1
}
