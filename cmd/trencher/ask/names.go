package ask

import (
	"trencher/harvest"
	"trencher/recipes"
)

// Plantings lists what stands in the plot, in the order of plantings.yaml.
func Plantings(w PlotRef) ([]harvest.Planting, error) {
	plot, err := openMeasures(w)
	if err != nil {
		return nil, err
	}
	return plot.folder.Plantings(plot.Kitchen.Measures)
}

// DishNames lists the plot's dishes by name, in file-name order. Its error
// names everything that is wrong in the dishes' files.
func DishNames(w PlotRef) ([]string, error) {
	plot, err := Open(w)
	if err != nil {
		return nil, err
	}
	dishes := plot.Dishes()
	return recipes.NamesOf(dishes), plot.Err()
}
