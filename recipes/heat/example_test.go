package heat_test

import (
	"fmt"

	"trencher/recipes/heat"
)

// A kilogram of potatoes in cubes: how long, in how many layers, with what
// water, and how soon it can be dressed.
func Example() {
	potato, err := heat.LookupCrop("potatoes", "waxy")
	if err != nil {
		fmt.Println(err)
		return
	}
	cubes, err := heat.ParseCut("cube 25 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	answer, err := heat.Question{
		Crop: potato, Cut: cubes, Until: heat.JustTender, Grams: new(1000.0),
		Cool: &heat.Spread{}, RoomC: 20,
		Equipment: heat.Equipment{DiameterMM: 240, Tiers: 2, PowerW: 1800, Fuel: "butane"},
	}.Answer()
	if err != nil {
		fmt.Println(err)
		return
	}
	e, load := answer.Estimate, answer.Load
	fmt.Printf("%.0f minutes from full steam, from %.0f to %.0f\n", e.Minutes, e.Low, e.High)
	fmt.Printf("%d layers, %.0f ml of water\n", load.Layers, load.WaterML)
	fmt.Printf("cool enough to dress after %.0f minutes\n", answer.Cooling.DressLatest)
	fmt.Println(answer.Reasons()[0].Figure)
	// Output:
	// 8 minutes from full steam, from 4 to 12
	// 2 layers, 744 ml of water
	// cool enough to dress after 81 minutes
	// steam temperature
}

// How long 25 mm cubes of waxy potato take, and what to make of the answer.
func ExampleSteam() {
	potato, _ := heat.LookupCrop("potato", "waxy")
	cubes, _ := heat.ParseCut("cube 25 mm")
	e, err := heat.Steam(potato, cubes, heat.JustTender, heat.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f minutes from full steam, test with a knife from %.0f\n", e.Minutes, e.Low)
	// Output: 9 minutes from full steam, test with a knife from 5
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
		fmt.Printf("%.0f to %.0f mm: %s\n", rule.FromMM, rule.ToMM, rule.Cut)
	}
	// Output:
	// 25 to 36 mm: whole
	// 36 to 50 mm: halves
	// 50 to 60 mm: quarters
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
	// Output: 2 layers, 1 round, 774 ml of water, 53 g of butane
}

// What this kitchen's own knife tests teach.
func ExampleLearnFrom() {
	potato, _ := heat.LookupCrop("potato", "waxy")
	cubes, _ := heat.ParseCut("cube 25 mm")
	test := heat.KnifeTest{Crop: "potato", Texture: "waxy", Cut: cubes, Until: heat.JustTender, Minutes: 10.5, Place: "July 19"}
	slow := test
	slow.Minutes = 11
	learned, left := heat.LearnFrom([]heat.KnifeTest{test, slow}, potato, heat.Conditions{})
	here, _ := heat.Steam(potato, cubes, heat.JustTender, heat.Conditions{Learned: learned})
	fmt.Printf("%.1f minutes where the model alone has %.1f, from %d tests, %d left out\n", here.Minutes, here.Modelled, learned.Tests, len(left))
	// Output: 10.5 minutes where the model alone has 8.6, from 2 tests, 0 left out
}

// Boiling water, minutes from when it boils again.
func ExampleBoil() {
	potato, _ := heat.LookupCrop("potato", "waxy")
	cubes, _ := heat.ParseCut("cube 25 mm")
	e, err := heat.Boil(potato, cubes, heat.JustTender, heat.Water{}, heat.Conditions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f minutes from boiling again, which comes after %.0f\n", e.Minutes, e.ComeUp)
	// Output:
	// 8 minutes from boiling again, which comes after 2
}
