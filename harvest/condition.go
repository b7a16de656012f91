package harvest

import (
	"strings"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// Condition is how fit a lot is for the kitchen. The zero value is no
// condition; a grade that names none is Sound.
type Condition string

// The conditions, best first.
const (
	Sound   Condition = "sound"
	Scabby  Condition = "scabby"  // rough skin only: scrub or peel, then eat
	Damaged Condition = "damaged" // forked, slug-holed, split: trim, use today
	Green   Condition = "green"   // turned by light: never to the kitchen
	Rotten  Condition = "rotten"  // never to the kitchen
)

// Conditions lists every condition, best first.
func Conditions() []Condition {
	return []Condition{Sound, Scabby, Damaged, Green, Rotten}
}

// ParseCondition reads a condition by its name; its error is a
// [units.FieldError] of condition.
func ParseCondition(text string) (Condition, error) {
	for _, c := range Conditions() {
		if strings.EqualFold(strings.TrimSpace(text), string(c)) {
			return c, nil
		}
	}
	return "", units.WrongField("condition", text, "not a condition known here", ConditionNames())
}

// ConditionNames lists the accepted names for a message.
func ConditionNames() string {
	var names []string
	for _, c := range Conditions() {
		names = append(names, string(c))
	}
	return strings.Join(names, ", ")
}

// damagedTrim is what is left of a damaged lot once the bad parts are cut
// away: common practice, no source.
var damagedTrim = decimal.New(85, -2)

// Trim is the share of the lifted weight that reaches the kitchen: 1 for sound
// and scabby, 0.85 for damaged, 0 for green and rotten.
func (c Condition) Trim() decimal.Decimal {
	switch c {
	case Sound, Scabby:
		return decimal.NewFromInt(1)
	case Damaged:
		return damagedTrim
	default:
		return decimal.Zero
	}
}

// whole tells that nothing is trimmed off.
func (c Condition) whole() bool { return c == Sound || c == Scabby }

// Edible tells whether the kitchen may have a lot in this condition.
func (c Condition) Edible() bool { return c == Sound || c == Scabby || c == Damaged }

// rank orders conditions, best first.
func (c Condition) rank() int {
	for i, each := range Conditions() {
		if c == each {
			return i
		}
	}
	return len(Conditions())
}
