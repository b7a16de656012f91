package tables

import (
	"strings"

	"trencher/units/pattern"
)

var (
	plainWeight = pattern.New(`^[-+]?(?:[\d.,' ]*\d(?:[.,]\d*)?(?: ?[½¼¾⅓⅔⅛⅜⅝⅞]| \d/\d)?|[½¼¾⅓⅔⅛⅜⅝⅞])$`)
	threeAfter  = pattern.New(`^[-+]?\d{1,3}([.,])\d{3}$`)
	weightParts = pattern.New(`^([-+]?[\d.,]*\d)\s*([^\d]*)$`)
)

// isNumber tells a cell of figures alone.
func isNumber(text string) bool { return plainWeight.MatchString(text) }

// marks are the decimal marks that a cell of a weight can only have: both where
// a point parts thousands, neither where it leaves it open.
func decimalMarks(text string) (comma, point, open bool) {
	p := weightParts.FindStringSubmatch(text)
	if p == nil {
		return false, false, false
	}
	figures := p[1]
	hasComma, hasPoint := strings.Contains(figures, ","), strings.Contains(figures, ".")
	switch {
	case hasComma && hasPoint:
		last := strings.LastIndexAny(figures, ".,")
		return figures[last] == ',', figures[last] == '.', false
	case threeAfter.MatchString(figures):
		return false, false, true
	}
	return hasComma, hasPoint, false
}

// settled is a weight with a point for its decimals and none for its
// thousands.
func settled(text string, decimal rune) string {
	p := weightParts.FindStringSubmatch(text)
	if p == nil {
		return text
	}
	figures := p[1]
	if decimal == ',' {
		figures = strings.ReplaceAll(strings.ReplaceAll(figures, ".", ""), ",", ".")
	} else {
		figures = strings.ReplaceAll(figures, ",", "")
	}
	return strings.TrimSpace(figures + " " + strings.TrimSpace(p[2]))
}

// isNothing tells a cell that says that nothing was weighed.
func isNothing(text string) bool {
	switch strings.ToLower(strings.Trim(text, " .")) {
	case "", "-", "–", "—", "nil", "none", "n/a", "na", "x":
		return true
	}
	return isNumber(text) && strings.Trim(text, "0.,+- ") == ""
}
