package recipes

import (
	"errors"
	"io"
	"os"
	"strings"

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

// ReadSaved reads a saved recipe, up to one byte more than can be imported. Its
// error is a [strict.Error] that names the file.
func ReadSaved(path string) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, &strict.Error{File: path, Problem: "cannot be read: " + plainReason(err), Accepted: "the path of a saved recipe, .json or .html"}
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, maxImport+1))
	if err != nil {
		return nil, &strict.Error{File: path, Problem: "cannot be read: " + plainReason(err), Accepted: "the path of a saved recipe, .json or .html"}
	}
	return data, nil
}

func plainReason(err error) string {
	var at *os.PathError
	if errors.As(err, &at) {
		return at.Err.Error()
	}
	return err.Error()
}
