package ask

import (
	"trencher/recipes"
	"trencher/recipes/meal"
)

// KeepDish tells what foods a dish is made of and the words that say so.
func KeepDish(q KeepQuestion, name string) (meal.DishKinds, error) {
	plot, err := Open(q.PlotRef)
	if err != nil {
		return meal.DishKinds{}, err
	}
	dishes := plot.Dishes()
	if err := plot.Err(); err != nil {
		return meal.DishKinds{}, err
	}
	dish, err := recipes.FindAs("dish", dishes, name)
	if err != nil {
		return meal.DishKinds{}, err
	}
	return meal.KindsOfDish(dish), nil
}
