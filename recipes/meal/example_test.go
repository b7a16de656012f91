package meal_test

import (
	"context"
	"fmt"
	"time"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/units"
)

// Three kilograms of small potatoes become one hot dish: how many portions, from
// which lot, when to start, and until when it may be eaten.
func ExampleMake() {
	kitchen := recipes.DefaultKitchen(units.Metric)
	dish, err := recipes.LoadDish("dishes/crushed.yaml", []byte(crushed), kitchen)
	if err != nil {
		fmt.Println(err)
		return
	}
	on := time.Date(2031, time.July, 12, 0, 0, 0, 0, time.UTC)
	lot := &harvest.Lot{ID: "tub-1/20-45-sound", Name: "tub-1/20-45-sound", Planting: &harvest.Planting{Crop: "potato"}, Condition: harvest.Sound,
		Sizes: units.Band{Low: 20, High: 45}, Weight: decimal.NewFromInt(3000), Supply: decimal.NewFromInt(3000)}
	plan, err := meal.Make(context.Background(), meal.Question{
		Mode: meal.Share, On: on, Now: on.Add(12 * time.Hour), ServeAt: on.Add(18*time.Hour + 30*time.Minute),
		Kitchen: kitchen, AirC: 22, Dishes: []recipes.Dish{dish}, Lots: []*harvest.Lot{lot},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	made := plan.Dishes[0]
	fmt.Println(made.Portions, "of", made.Name(), "from", made.Parts[0].Lifted.Round(0), "g of", made.Parts[0].From[0].Lot.Name)
	for _, step := range plan.Steps {
		fmt.Println(step.At.Format("15:04"), step.Kind)
	}
	fmt.Println("to be eaten by", plan.Clocks[0].LimitAt.Format("15:04"))
	fmt.Println("amiss:", len(meal.Check(plan)))
	// Output:
	// 6 of Crushed potatoes from 1125 g of tub-1/20-45-sound
	// 17:32 scrub
	// 17:35 boil
	// 17:46 load
	// 17:48 steam
	// 18:09 test
	// 18:19 pick
	// 18:24 unload
	// 18:25 finish
	// 18:29 serve
	// to be eaten by 20:24
	// amiss: 0
}
