package harvest

import (
	"strings"

	"trencher/units"
)

// ParseFelt reads the size of the biggest piece felt of a planting, "tub-3=38 mm".
// Its error is of the field felt.
func ParseFelt(text string) (planting string, mm float64, err error) {
	const form = `the planting and the size of the biggest one felt: tub-3="38 mm"`
	planting, size, ok := strings.Cut(text, "=")
	if !ok {
		return "", 0, units.WrongField("felt", text, "no planting and size", form)
	}
	q, err := units.Parse(size, units.Metric)
	if err != nil || q.Dimension() != units.Length || q.IsRange() {
		return "", 0, units.WrongField("felt", text, "no size", form)
	}
	mm, err = q.Float64(units.Millimetre)
	return strings.TrimSpace(planting), mm, err
}
