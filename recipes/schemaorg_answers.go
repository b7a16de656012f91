package recipes

import (
	"strings"

	"trencher/recipes/saved"
	"trencher/units"
	"trencher/units/strict"
)

// ParseAnswers reads the amounts given for lines of a recipe, "potatoes=900 g".
// Its error is of the field amount.
func ParseAnswers(given []string, system units.System) (map[string]units.Quantity, error) {
	amounts := map[string]units.Quantity{}
	for _, text := range given {
		line, amount, ok := strings.Cut(text, "=")
		if !ok || strings.TrimSpace(line) == "" {
			return nil, units.WrongField("amount", text, "which line, and how much of it?", "a word of the line and its amount: potatoes=900 g")
		}
		q, err := units.Parse(strings.TrimSpace(amount), system)
		if err != nil {
			return nil, units.InField("amount", text, err)
		}
		switch q.Dimension() {
		case units.Temperature, units.Area, units.Power, units.Time, units.Energy, units.Pressure:
			return nil, units.WrongField("amount", text, "no amount of an ingredient", "a weight, a volume, a number of pieces, or to taste")
		}
		amounts[strings.TrimSpace(line)] = q
	}
	return amounts, nil
}

// ReadSaved reads a saved recipe. Its error is a [strict.Error] that names the
// file.
func ReadSaved(path string) ([]byte, error) { return strict.ReadFile(path, saved.MostBytes) }
