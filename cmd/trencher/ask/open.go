package ask

import (
	"errors"

	"trencher/cmd/trencher/demo"
	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/units"
)

// openFolder opens the folder of the plot asked about.
func openFolder(w PlotRef) (*journal.Folder, error) {
	if w.Demo {
		return journal.Embedded(demo.Plot(), demo.Name), nil
	}
	if w.Dir == "" {
		return journal.Open(".")
	}
	return journal.Open(w.Dir)
}

// openKitchen opens the folder of the plot asked about and reads its kitchen.
// Where none is named and the current folder is none, the folder is nil and a
// metric kitchen stands in.
func openKitchen(w PlotRef) (*journal.Folder, recipes.Kitchen, error) {
	folder, err := openFolder(w)
	if errors.Is(err, journal.ErrNoPlot) && w.Dir == "" {
		return nil, recipes.DefaultKitchen(units.Metric), nil
	}
	if err != nil {
		return nil, recipes.Kitchen{}, err
	}
	kitchen, err := readKitchen(folder)
	return folder, kitchen, err
}

// readWhole reads kitchen.yaml for an answer that tells all that is wrong at
// once: beside an error the rest of the plot is read by metric measures, where
// the kitchen's own could not be.
func readWhole(folder *journal.Folder) (recipes.Kitchen, error) {
	kitchen, err := readKitchen(folder)
	if kitchen.Measures == units.NoSystem {
		return recipes.DefaultKitchen(units.Metric), err
	}
	return kitchen, err
}

// readKitchen reads kitchen.yaml. Beside an error it is a kitchen of defaults,
// of the measures that could be read; they are units.NoSystem where they could
// not.
func readKitchen(folder *journal.Folder) (recipes.Kitchen, error) {
	source, err := folder.Kitchen()
	if err != nil {
		return recipes.Kitchen{}, err
	}
	kitchen, err := recipes.LoadKitchen(source.File, source.Data)
	if err != nil {
		return recipes.DefaultKitchen(kitchen.Measures), err
	}
	return kitchen, nil
}

// measuresOf is the kitchen's system of measures, all that logging a weight
// needs of kitchen.yaml: a slip elsewhere in it keeps no weight out.
func measuresOf(folder *journal.Folder) (units.System, error) {
	kitchen, err := readKitchen(folder)
	if kitchen.Measures != units.NoSystem {
		return kitchen.Measures, nil
	}
	return units.NoSystem, err
}
