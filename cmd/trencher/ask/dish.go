package ask

import (
	"context"
	"trencher/recipes"
	"trencher/recipes/meal"
)

// DishWords is a question about one dish, as it was typed: scaled to a weighed
// crop or to portions.
type DishWords struct {
	Plot     PlotRef
	Name     string
	Lifted   []string // "1.85 kg", or "beetroot=400 g" for a dish of several crops
	Portions int      // 0 = not given
	ServeAt  string
	Given    meal.GivenWords
}

// ScaleDish scales one dish to all of a weighed crop, or to a number of
// portions. It looks at no stock: the weight given is what there is.
func ScaleDish(w DishWords) (MealAnswer, error) {
	plot, err := Open(w.Plot)
	if err != nil {
		return MealAnswer{}, err
	}
	dishes := plot.Dishes()
	if err := plot.Err(); err != nil {
		return MealAnswer{}, err
	}
	dish, err := recipes.Find(dishes, w.Name)
	if err != nil {
		return MealAnswer{}, err
	}
	plot.recallNotes()
	q := plot.question(meal.One)
	q.Dishes = []recipes.Dish{dish}
	if q.Portions, err = dish.PortionsAsked(w.Lifted, w.Portions, plot.Kitchen.Measures); err != nil {
		return MealAnswer{}, err
	}
	if q.ServeAt, err = plot.serving(w.ServeAt); err != nil {
		return MealAnswer{}, err
	}
	if err := q.Give(w.Given, plot.where.Clock()); err != nil {
		return MealAnswer{}, err
	}
	plan, err := meal.MakeOne(context.Background(), q)
	return MealAnswer{Plan: plan}, err
}
