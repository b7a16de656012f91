package recipes

import (
	"fmt"
	"math"
	"math/big"
	"strconv"

	"trencher/units/pattern"
)

// A pan of stated size in the method: "a 23 cm tin", "20 cm square dish".
var pans = pattern.New(`(?i)\b(\d{1,2})(?: ?cm|-cm)(?: [a-z-]+){0,3}? (tin|dish|pan|tray|mould)\b`)

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
		for _, found := range pans.FindAllStringSubmatch(step, -1) {
			if cm, err := strconv.ParseFloat(found[1], 64); err == nil {
				list = append(list, fmt.Sprintf("the %s cm %s: as deep, %s times as much needs one %.0f cm wide, or several; in the same one it takes longer or dries sooner",
					found[1], found[2], shortFactor(factor), cm*math.Sqrt(share)))
			}
		}
	}
	for _, c := range d.Crops {
		if c.Minutes > 0 && factor.Cmp(ownMinutesTo) > 0 {
			list = append(list, fmt.Sprintf("your own minutes for %s are for the recipe as it stands: %s times as much may take longer, try it with a knife", c.Crop, shortFactor(factor)))
		}
	}
	return list
}

// ownMinutesTo is how much more an oven or a pan takes in its usual minutes.
var ownMinutesTo = big.NewRat(3, 2)
