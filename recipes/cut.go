package recipes

import (
	"fmt"
	"math/big"
	"strings"

	"trencher/units"
)

const cutForms = "whole, halves, quarters, eighths, cube N mm, slice N mm, baton N mm or box AxBxC mm"

// cutError is a cut that cannot be read: what is wrong, what is accepted.
type cutError struct{ problem, accepted string }

// checkCut returns a cut in the form the steaming tables read: "quarters",
// "cube 25 mm", "box 20x20x40 mm".
func checkCut(text string) (cut string, wrong *cutError) {
	shape, size, _ := strings.Cut(fold(text), " ")
	switch shape {
	case "whole", "halves", "quarters", "eighths":
		if size != "" {
			return "", &cutError{"the size comes from the lot, not from the dish", shape}
		}
		return shape, nil
	case "cube", "slice", "baton":
		return checkPieces(shape, size, 1)
	case "box":
		return checkPieces(shape, size, 3)
	}
	return "", &cutError{"not a cut known here", cutForms}
}

// checkPieces reads the one edge of a cube, slice or baton, or the three of a
// box, which carries its unit last.
func checkPieces(shape, size string, edges int) (string, *cutError) {
	accepted := map[int]string{1: shape + " 25 mm", 3: shape + " 20x20x40 mm"}[edges]
	parts := strings.FieldsFunc(size, func(r rune) bool { return r == 'x' || r == '×' })
	switch {
	case size == "":
		return "", &cutError{"no size", accepted}
	case len(parts) != edges:
		return "", &cutError{fmt.Sprintf("%d edges where %d are wanted", len(parts), edges), accepted}
	}
	unit := strings.TrimLeft(parts[edges-1], "0123456789.,½¼¾⅓⅔ ")
	if unit == "" {
		return "", &cutError{"no unit", shape + " " + size + " mm"}
	}
	lengths := make([]string, edges)
	for i, part := range parts {
		if i < edges-1 {
			part += " " + unit
		}
		length, err := units.Parse(part, units.Metric)
		if err != nil || length.Dimension() != units.Length || length.IsRange() {
			return "", &cutError{fmt.Sprintf("%q is not a length", strings.TrimSpace(part)), accepted}
		}
		mm, err := length.In(units.Millimetre)
		if err != nil || mm.Rat().Cmp(big.NewRat(3, 1)) < 0 || mm.Rat().Cmp(big.NewRat(120, 1)) > 0 {
			return "", &cutError{"no size for a piece to steam", "3 to 120 mm"}
		}
		lengths[i] = decimalText(mm.Rat())
	}
	return shape + " " + strings.Join(lengths, "x") + " mm", nil
}

// decimalText writes a number with no more places than it needs, at most two.
func decimalText(r *big.Rat) string {
	text := r.FloatString(2)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}
