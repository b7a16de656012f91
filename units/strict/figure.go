package strict

import "trencher/units"

// FigureField reads one figure of a field in a unit, such as 25 in millimetres
// from "2.5 cm". Its error is a [units.FieldError].
func FigureField(field, text string, system units.System, unit units.Unit) (float64, error) {
	q, err := QuantityField(field, text, system, unit.Dimension())
	if err != nil {
		return 0, err
	}
	if q.IsRange() || !q.IsValid() || q.IsToTaste() {
		return 0, units.WrongField(field, text, "not one figure", "one figure, such as 25 "+unit.Symbol())
	}
	return q.Float64(unit)
}
