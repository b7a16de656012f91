package work

import "trencher/harvest"

// Plantings lists what stands in the plot, in the order of plantings.yaml.
func Plantings(w Where) ([]harvest.Planting, error) {
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
