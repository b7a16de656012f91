package recipes

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"

	"trencher/units/pattern"
)

// A pan of stated size in the method, by its width, its two sides, what it holds
// or what loaf it is for: "a 23 cm tin", "a 9 x 13 inch pan", "a 2 litre dish", "a
// 2 lb loaf tin".
var pans = pattern.New(`(?i)\b(\d+(?:[.,]\d+)?)(?: ?(?:cm|in|inch|"|″)?(?: ?[x×] ?| by )(\d+))?[ -]?(cm|inch(?:es)?|in\b|"|″|l\b|lit(?:re|er)s?|quarts?|qt\b|pints?|pt\b|lb|)\.?(?:[ -][a-z-]+){0,3}? (tin|dish|pan|tray|mould|mold|casserole|skillet|bowl|basin)\b`)

// pan is one of them: its sides grow with the root of the factor, what it holds
// with the factor itself.
type pan struct {
	size, other float64 // other is its second side; 0 = none
	unit, word  string
}

// pansIn lists the pans of stated size that a step names.
func pansIn(step string) []pan {
	if !strings.ContainsAny(step, "0123456789") {
		return nil
	}
	var list []pan
	for _, found := range pans.FindAllStringSubmatch(step, -1) {
		size, err := strconv.ParseFloat(strings.ReplaceAll(found[1], ",", "."), 64)
		if err != nil || found[2] == "" && found[3] == "" || size > 100 {
			continue // a number of tins, or no size of one
		}
		other, _ := strconv.ParseFloat(found[2], 64)
		list = append(list, pan{size, other, panUnits[strings.ToLower(found[3])], strings.ToLower(found[4])})
	}
	return list
}

// panUnits are the units in one spelling each.
var panUnits = map[string]string{"cm": "cm", "inch": "inch", "inches": "inch", "in": "inch", `"`: "inch", "″": "inch", "l": "litre", "litre": "litre", "litres": "litre", "liter": "litre", "liters": "litre",
	"quart": "quart", "quarts": "quart", "qt": "quart", "pint": "pint", "pints": "pint", "pt": "pint", "lb": "lb"}

// name is the pan as its recipe sizes it: "20 cm tin", "9 x 13 pan".
func (p pan) name() string {
	if p.other > 0 {
		return joinedWords(fmt.Sprintf("%g x %g", p.size, p.other), p.unit, p.word)
	}
	return joinedWords(fmt.Sprintf("%g", p.size), p.unit, p.word)
}

// times is the pan that share times as much lies as deep in.
func (p pan) times(share float64) string {
	side := math.Sqrt(share)
	switch {
	case p.other > 0:
		return joinedWords(fmt.Sprintf("%.0f x %.0f", p.size*side, p.other*side), p.unit)
	case p.unit == "cm" || p.unit == "inch":
		return fmt.Sprintf("%.0f %s wide", p.size*side, p.unit)
	}
	return fmt.Sprintf("of %s %s", strconv.FormatFloat(p.size*share, 'g', 2, 64), p.unit)
}

func joinedWords(words ...string) string {
	return strings.Join(strings.Fields(strings.Join(words, " ")), " ")
}

// Between these factors the same pan will do: a fifth less or a quarter more in it
// changes its depth by a few millimetres (common practice, no source).
var (
	samePanFrom = big.NewRat(4, 5)
	samePanTo   = big.NewRat(5, 4)
)

// panCautions tells for every pan of stated size what the new amount would need:
// its width grows with the root of the factor, so that the food lies as deep, and
// minutes in it then hold. Own minutes of the dish are named where they no longer
// fit.
func (d Dish) panCautions(factor *big.Rat) []string {
	if factor.Cmp(samePanFrom) >= 0 && factor.Cmp(samePanTo) <= 0 {
		return nil
	}
	var list []string
	share, _ := factor.Float64()
	for _, step := range d.Method {
		for _, p := range pansIn(step) {
			list = append(list, fmt.Sprintf("the %s: as deep, %s times as much needs one %s, or several; in the same one it takes longer or dries sooner", p.name(), shortFactor(factor), p.times(share)))
		}
	}
	for _, c := range d.Crops {
		if c.Minutes > 0 && factor.Cmp(ownMinutesTo) > 0 {
			list = append(list, fmt.Sprintf("your own minutes for %s are for the recipe as it stands: %s times as much may take longer, try it with a knife", c.Crop, shortFactor(factor)))
		} else if c.Minutes > 0 && factor.Cmp(ownMinutesFrom) < 0 {
			list = append(list, fmt.Sprintf("your own minutes for %s are for the recipe as it stands: %s times as much may take less, look at it sooner", c.Crop, shortFactor(factor)))
		}
	}
	return list
}

// Between these factors an oven or a pan takes its usual minutes (common practice,
// no source).
var (
	ownMinutesFrom = big.NewRat(1, 2)
	ownMinutesTo   = big.NewRat(3, 2)
)
