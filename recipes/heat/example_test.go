package heat_test

import (
	"fmt"

	"trencher/recipes/heat"
)

// How long 25 mm cubes of waxy potato take, and what to make of the answer.
func ExampleSteam() {
	potato, _ := heat.LookupCrop("potato", "waxy")
	cubes, _ := heat.ParseCut("cube 25 mm")
	e, err := heat.Steam(potato, cubes, heat.JustTender, heat.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f minutes from full steam, %s from %.0f\n", e.Minutes, heat.KnifeNote, e.Low)
	// Output: 8 minutes from full steam, test with a knife from 6
}

// How to cut a mixed lot so that all of it is done at one time.
func ExamplePlanCuts() {
	potato, _ := heat.LookupCrop("potato", "waxy")
	plan, err := heat.PlanCuts(potato, []heat.SizeClass{{LowMM: 25, HighMM: 60}},
		heat.Wish{Until: heat.JustTender}, heat.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, rule := range plan.Rules {
		fmt.Printf("%.0f to %.0f mm: %s\n", rule.FromMM, rule.ToMM, rule.Cut.Order())
	}
	// Output:
	// 25 to 36 mm: leave whole
	// 36 to 49 mm: halve
	// 49 to 60 mm: quarter
}

// What a kilogram asks of a two-tier steamer on a camping stove.
func ExampleLoadPlan() {
	potato, _ := heat.LookupCrop("potato", "waxy")
	cubes, _ := heat.ParseCut("cube 25 mm")
	load, err := heat.LoadPlan(potato, cubes, heat.JustTender, 1200,
		heat.Equipment{DiameterMM: 240, Tiers: 2, PowerW: 1800, Fuel: "butane"}, heat.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d layers, %d round, %.0f ml of water, %.0f g of %s\n", load.Layers, load.Rounds, load.WaterML, load.GasG, load.Fuel)
	// Output: 2 layers, 1 round, 690 ml of water, 47 g of butane
}

// What this cooker's own knife tests teach.
func ExampleLearn() {
	learned := heat.Learn([]heat.Test{{Expected: 8.4, Found: 10}, {Expected: 8.4, Found: 10.5}, {Expected: 14.3, Found: 16}})
	fmt.Printf("%.2f times the reckoned time, from %d tests\n", learned.Factor, learned.Tests)
	// Output: 1.15 times the reckoned time, from 3 tests
}
