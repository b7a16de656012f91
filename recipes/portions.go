package recipes

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"trencher/units"
)

// mostPortions is more than anybody cooks at once.
const mostPortions = 10_000

const liftedAccepted = "a weight, as 1.85 kg"

// What a question about a dish, and about a recipe to bring in, takes for its portions.
const (
	PortionsAccepted       = "a whole number from 1 to 10000, or leave it out for the dish's own"
	ImportPortionsAccepted = "a whole number from 1 to 500, or leave it out for the recipe's own"
)

// PortionsAsked is the number of portions that weighed crops make, "1.85 kg" or
// "potato=1.85 kg", or a count of portions; neither (0) is the dish's own. It is
// exact. Its error is a [units.FieldError] of lifted or portions.
func (dish Dish) PortionsAsked(lifted []string, portions int, system units.System) (*big.Rat, error) {
	switch {
	case len(lifted) > 0 && portions != 0:
		return nil, units.WrongField("lifted", strings.Join(lifted, ", "), "a number of portions is given as well, and both say how much", "one of them")
	case len(lifted) > 0:
		return dish.portionsOf(lifted, system)
	case portions < 0 || portions > mostPortions:
		return nil, units.WrongField("portions", fmt.Sprint(portions), "no number of portions", PortionsAccepted)
	case portions == 0:
		return big.NewRat(int64(dish.Portions), 1), nil
	}
	return big.NewRat(int64(portions), 1), nil
}

// portionsOf is how many portions the weighed crops make: as many as the
// scarcest of them allows.
func (dish Dish) portionsOf(lifted []string, system units.System) (*big.Rat, error) {
	var least *big.Rat
	given := map[string]bool{}
	for _, text := range lifted {
		line, weight, err := dish.parseLifted(text, system)
		if err != nil {
			return nil, err
		}
		crop := dish.Crops[line].Crop
		if given[crop] {
			return nil, units.WrongField("lifted", text, crop+" is given twice", "each crop once")
		}
		given[crop] = true
		portions, err := dish.PortionsFrom(line, weight)
		if err != nil {
			return nil, units.InField("lifted", text, err)
		}
		if least == nil || portions.Cmp(least) < 0 {
			least = portions
		}
	}
	switch all := strings.Join(lifted, ", "); {
	case least.Cmp(big.NewRat(1, 1)) < 0:
		return nil, units.WrongField("lifted", all, "not enough for one portion of "+dish.Name, "a larger weight, or another dish")
	case least.Cmp(big.NewRat(mostPortions, 1)) > 0:
		return nil, units.WrongField("lifted", all, fmt.Sprintf("more than %d portions", mostPortions), "a smaller weight: is the unit right?")
	}
	return least, nil
}

// parseLifted reads "1.85 kg" or "potato=1.85 kg" and finds the dish's crop line
// it is for.
func (dish Dish) parseLifted(text string, system units.System) (int, units.Quantity, error) {
	crop, value, named := strings.Cut(text, "=")
	if !named {
		crop, value = "", text
	}
	weight, err := units.Parse(strings.TrimSpace(value), system)
	if err != nil {
		return 0, weight, units.InFieldFor("lifted", text, err, liftedAccepted)
	}
	if weight.Dimension() != units.Mass || weight.IsRange() || weight.Sign() <= 0 {
		return 0, weight, units.WrongField("lifted", text, "not a weight", liftedAccepted)
	}
	var crops []string
	for i, line := range dish.Crops {
		if named && CropName(line.Crop) == CropName(crop) || !named && len(dish.Crops) == 1 {
			return i, weight, nil
		}
		if such := fmt.Sprintf(`"%s=%s"`, line.Crop, strings.TrimSpace(value)); !slices.Contains(crops, such) {
			crops = append(crops, such)
		}
	}
	problem := dish.Name + " is built on several crops: say which"
	if named {
		problem = dish.Name + " has no " + strings.TrimSpace(crop)
	}
	return 0, weight, units.WrongField("lifted", text, problem, strings.Join(crops, " or "))
}
