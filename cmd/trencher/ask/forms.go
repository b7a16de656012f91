package ask

import "trencher/harvest"

// Plantings lists what stands in the plot, in the order of plantings.yaml.
func Plantings(w PlotRef) ([]harvest.Planting, error) {
	folder, err := openFolder(w)
	if err != nil {
		return nil, err
	}
	system, err := measuresOf(folder)
	if err != nil {
		return nil, err
	}
	return folder.Plantings(system)
}

// DishNames lists the plot's dishes by name, in file-name order. Its error
// names everything that is wrong in the dishes' files.
func DishNames(w PlotRef) ([]string, error) {
	plot, err := Open(w)
	if err != nil {
		return nil, err
	}
	dishes := plot.Dishes()
	return namesOf(dishes), plot.Err()
}
