package recipes

import (
	"errors"

	"trencher/recipes/heat"
	"trencher/units"
)

// cutForms is what a dish usually says; heat.CutForms lists all there is.
const cutForms = "whole, halves, quarters, eighths, cube N mm, slice N mm, baton N mm or box AxBxC mm"

// checkCut returns a cut as the steaming tables write it: "quarters",
// "cube 25 mm", "box 20x20x40 mm"; or what is wrong with it.
func checkCut(text string) (cut string, wrong *units.FieldError) {
	parsed, err := heat.ParseCut(text)
	if err == nil {
		return parsed.String(), nil
	}
	if _, err := heat.ParseCut(text + " mm"); err == nil {
		return "", units.WrongField("cut", text, "no unit", text+" mm")
	}
	var input *units.FieldError
	if errors.As(err, &input) {
		return "", units.WrongField("cut", text, input.Problem, cutForms)
	}
	return "", units.WrongField("cut", text, err.Error(), cutForms)
}
