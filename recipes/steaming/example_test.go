package steaming_test

import (
	"fmt"

	"trencher/recipes/steaming"
)

// How long 25 mm cubes of waxy potato take, and what to make of the answer.
func ExampleSteam() {
	potato, _ := steaming.LookupCrop("potato", "waxy")
	cubes, _ := steaming.ParseCut("cube 25 mm")
	e, err := steaming.Steam(potato, cubes, steaming.JustTender, steaming.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f minutes from full steam, %s from %.0f\n", e.Minutes, steaming.KnifeNote, e.Low)
	// Output: 8 minutes from full steam, test with a knife from 6
}

// How to cut a mixed lot so that all of it is done at one time.
func ExamplePlanCuts() {
	potato, _ := steaming.LookupCrop("potato", "waxy")
	plan, err := steaming.PlanCuts(potato, []steaming.SizeClass{{LowMM: 25, HighMM: 60}},
		steaming.Wish{Until: steaming.JustTender}, steaming.Conditions{})
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
	potato, _ := steaming.LookupCrop("potato", "waxy")
	cubes, _ := steaming.ParseCut("cube 25 mm")
	load, err := steaming.LoadPlan(potato, cubes, steaming.JustTender, 1200,
		steaming.Equipment{DiameterMM: 240, Tiers: 2, PowerW: 1800, Fuel: "butane"}, steaming.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d layers, %d round, %.0f ml of water, %.0f g of %s\n", load.Layers, load.Rounds, load.WaterML, load.GasG, load.Fuel)
	// Output: 2 layers, 1 round, 690 ml of water, 47 g of butane
}

// What this cooker's own knife tests teach.
func ExampleLearn() {
	learned := steaming.Learn([]steaming.Test{{Expected: 8.4, Found: 10}, {Expected: 8.4, Found: 10.5}, {Expected: 14.3, Found: 16}})
	fmt.Printf("%.2f times the reckoned time, from %d tests\n", learned.Factor, learned.Tests)
	// Output: 1.15 times the reckoned time, from 3 tests
}
