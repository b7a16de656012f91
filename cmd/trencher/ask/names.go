package ask

import (
	"context"

	"trencher/harvest"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
)

// Plantings lists what stands in the plot, in the order of plantings.yaml.
func Plantings(w PlotRef) ([]harvest.Planting, error) {
	plot, err := openMeasures(w)
	if err != nil {
		return nil, err
	}
	return plot.folder.Plantings(plot.Kitchen.Measures)
}

// CheckPlanting makes sure that a name is one of the plantings.
func CheckPlanting(w PlotRef, name string) error {
	plantings, err := Plantings(w)
	if err != nil {
		return err
	}
	return harvest.CheckPlanting(plantings, name)
}

// PlantingIDs lists the plot's plantings by name, for a shell to offer.
func PlantingIDs(_ context.Context, w PlotRef) ([]string, error) {
	plantings, err := Plantings(w)
	return harvest.IDs(plantings), err
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

// LotNames lists the lots on hand, for a shell to offer.
func LotNames(ctx context.Context, w PlotRef) ([]string, error) {
	stock, err := Stock(ctx, w)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, l := range stock.Lots {
		names = append(names, l.Name)
	}
	return names, nil
}

// BatchNames lists the cooked batches that are not gone, for a shell to offer.
func BatchNames(ctx context.Context, w PlotRef) ([]string, error) {
	answer, err := KeepBatches(ctx, KeepQuestion{PlotRef: w})
	if err != nil {
		return nil, err
	}
	var names []string
	for _, b := range answer.Batches {
		names = append(names, b.Name)
	}
	return names, nil
}

// FoodNames lists the foods that keeping can guide on.
func FoodNames() []string { return keeping.FoodIDs() }

// BatchFoodNames lists the foods a batch can be of.
func BatchFoodNames() []string { return keeping.BatchFoods() }

// AuthorityNames lists whose food rules can be asked for.
func AuthorityNames() []string {
	names := []string{string(keeping.Strictest)}
	for _, a := range keeping.Authorities() {
		names = append(names, string(a))
	}
	return names
}

// SteamedCrops lists the crops that steaming has figures for.
func SteamedCrops() []string {
	var names []string
	for _, crop := range heat.Crops() {
		if len(names) == 0 || names[len(names)-1] != crop.Name {
			names = append(names, crop.Name)
		}
	}
	return names
}

// DonenessNames lists how tender a piece can be asked for.
func DonenessNames() []string {
	var names []string
	for d := heat.JustTender; d <= heat.Soft; d++ {
		names = append(names, d.String())
	}
	return names
}
