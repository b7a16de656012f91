package ask

import (
	"context"
	"slices"
	"strings"

	"trencher/harvest"
	"trencher/units"
)

// PlantingIDs lists the plot's plantings by name, for a question.
func PlantingIDs(_ context.Context, w PlotRef) ([]string, error) {
	b, err := openToWrite(w)
	if err != nil {
		return nil, err
	}
	return harvest.IDs(b.plantings), nil
}

// CheckPlanting tells whether a name is one of the plantings.
func CheckPlanting(name string, ids []string) error {
	if slices.Contains(ids, name) {
		return nil
	}
	return units.WrongField("planting", name, "not in plantings.yaml", "one of "+strings.Join(ids, ", "))
}

// RunningNet is the net weight of the bowls so far, in words.
func RunningNet(w PlotRef, weighings []string) (string, error) {
	l, err := LiftQuestion{PlotRef: w, Weighings: weighings}.readHere()
	if err != nil {
		return "", err
	}
	return l.Net().String() + " g", nil
}

// RunningRest is what no grade names yet, in words.
func RunningRest(w PlotRef, weighings, grades []string) (string, error) {
	l, err := LiftQuestion{PlotRef: w, Weighings: weighings, Grades: grades}.readHere()
	if err != nil {
		return "", err
	}
	return l.Rest().String() + " g", nil
}

func (q LiftQuestion) readHere() (*harvest.Lift, error) {
	folder, err := openFolder(q.PlotRef)
	if err != nil {
		return nil, err
	}
	system, err := measuresOf(folder)
	if err != nil {
		return nil, err
	}
	return q.read(system)
}
