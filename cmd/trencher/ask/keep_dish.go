package ask

import (
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
)

// DishKinds are the foods a dish of the plot is made of, for keeping.
type DishKinds struct {
	Dish string
	keeping.Kinds
	Rules []string // of all its foods, each once
}

// KeepDish tells what foods a dish is made of and the words that say so.
func KeepDish(q KeepQuestion, name string) (DishKinds, error) {
	plot, err := Open(q.PlotRef)
	if err != nil {
		return DishKinds{}, err
	}
	dishes := plot.Dishes()
	if err := plot.Err(); err != nil {
		return DishKinds{}, err
	}
	dish, err := recipes.Find(dishes, name)
	if err != nil {
		return DishKinds{}, err
	}
	kinds := meal.KindsOf(dish)
	return DishKinds{Dish: dish.Name, Kinds: kinds, Rules: kinds.Rules()}, nil
}
