package ask

import "trencher/harvest"

// PlantQuestion is a planting to be added to the plot, as it was typed.
type PlantQuestion struct {
	PlotRef
	harvest.PlantWords
	On string // the day; "" = today
}

// Plant adds a planting to the plot's plantings.yaml.
func Plant(q PlantQuestion) (harvest.Planting, error) {
	plot, err := openMeasures(q.PlotRef)
	if err != nil {
		return harvest.Planting{}, err
	}
	if q.Day, err = q.Clock().Day("planted", q.On); err != nil {
		return harvest.Planting{}, err
	}
	return plot.folder.Plant(q.PlantWords, plot.Kitchen.Measures)
}
