package ask

import (
	"context"
	"errors"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/units"
)

// Reckoner works out dishes of the plot beforehand: those named, else all. Its
// errors are what is wrong in the plot's files, all together, and a dish there is
// not.
func Reckoner(ctx context.Context, w PlotRef, only []string) (meal.Reckoner, error) {
	plot, err := Open(w)
	if err != nil {
		return meal.Reckoner{}, err
	}
	all, options := plot.Dishes(), w.options(plot.Kitchen.Measures)
	entries, skipped, err := plot.folder.EverySeason(ctx, options)
	plot.note(err)
	if err := plot.Err(); err != nil {
		return meal.Reckoner{}, err
	}
	plot.entries = entries
	plot.Warnings = append(plot.Warnings, harvest.SaidLeftOut(skipped)...)
	q := plot.question(meal.One)
	if q.Dishes, err = recipes.Choose(all, only, nil); err != nil {
		var wrong *units.FieldError
		if errors.As(err, &wrong) { // the dishes named are those the question is of
			return meal.Reckoner{}, units.WrongField("dish", wrong.Value, wrong.Problem, wrong.Accepted)
		}
		return meal.Reckoner{}, err
	}
	return meal.Reckon(q)
}
