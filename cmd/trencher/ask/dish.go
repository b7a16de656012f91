package ask

import (
	"fmt"
	"math/big"
	"strings"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/units"
)

// DishWords is a question about one dish, as it was typed: scaled to a weighed
// crop or to portions.
type DishWords struct {
	Plot     PlotRef
	Name     string
	Lifted   []string // "1.85 kg", or "beetroot=400 g" for a dish of several crops
	Portions int      // 0 = not given
	ServeAt  string
}

// ScaleDish scales one dish to all of a weighed crop, or to a number of
// portions. It looks at no stock: the weight given is what there is.
func ScaleDish(w DishWords) (MealAnswer, error) {
	plot, err := Open(w.Plot)
	if err != nil {
		return MealAnswer{}, err
	}
	dishes := plot.Dishes()
	if err := plot.Err(); err != nil {
		return MealAnswer{}, err
	}
	dish, err := findDish(dishes, w.Name)
	if err != nil {
		return MealAnswer{}, err
	}
	plot.recallNotes()
	q := plot.question(meal.One)
	q.Dishes = []recipes.Dish{dish}
	if q.Portions, err = plot.portionsAsked(dish, w); err != nil {
		return MealAnswer{}, err
	}
	if q.ServeAt, err = plot.serving(w.ServeAt); err != nil {
		return MealAnswer{}, err
	}
	plan, err := meal.MakeOne(q)
	return MealAnswer{Plan: plan}, err
}

// mostPortions is more than anybody cooks at once.
const mostPortions = 10_000

// portionsAsked is the number of portions that the question's crop or count
// makes, exactly.
func (p *Plot) portionsAsked(dish recipes.Dish, w DishWords) (*big.Rat, error) {
	switch {
	case len(w.Lifted) > 0 && w.Portions != 0:
		return nil, units.WrongField("lifted", strings.Join(w.Lifted, ", "), "a number of portions is given as well, and both say how much", "one of them")
	case len(w.Lifted) > 0:
		return p.portionsFrom(dish, w.Lifted)
	case w.Portions < 0 || w.Portions > mostPortions:
		return nil, units.WrongField("portions", fmt.Sprint(w.Portions), "no number of portions", fmt.Sprintf("a whole number from 1 to %d", mostPortions))
	case w.Portions == 0:
		return big.NewRat(int64(dish.Portions), 1), nil
	}
	return big.NewRat(int64(w.Portions), 1), nil
}

// portionsFrom is how many portions the weighed crops make: as many as the
// scarcest of them allows.
func (p *Plot) portionsFrom(dish recipes.Dish, lifted []string) (*big.Rat, error) {
	var least *big.Rat
	given := map[string]bool{}
	for _, text := range lifted {
		line, weight, err := p.parseLifted(dish, text)
		if err != nil {
			return nil, err
		}
		crop := dish.Crops[line].Crop
		if given[crop] {
			return nil, units.WrongField("lifted", text, crop+" is given twice", "give each crop once")
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
func (p *Plot) parseLifted(dish recipes.Dish, text string) (int, units.Quantity, error) {
	crop, value, named := strings.Cut(text, "=")
	if !named {
		crop, value = "", text
	}
	weight, err := units.Parse(strings.TrimSpace(value), p.Kitchen.Measures)
	if err != nil {
		return 0, weight, units.InField("lifted", text, err)
	}
	if weight.Dimension() != units.Mass || weight.IsRange() || weight.Sign() <= 0 {
		return 0, weight, units.WrongField("lifted", text, "not a weight", "a weight, as 1.85 kg")
	}
	var crops []string
	for i, line := range dish.Crops {
		if named && recipes.CropName(line.Crop) == recipes.CropName(crop) || !named && len(dish.Crops) == 1 {
			return i, weight, nil
		}
		crops = append(crops, fmt.Sprintf(`"%s=%s"`, line.Crop, strings.TrimSpace(value)))
	}
	problem := dish.Name + " is built on several crops: say which"
	if named {
		problem = dish.Name + " has no " + strings.TrimSpace(crop)
	}
	return 0, weight, units.WrongField("lifted", text, problem, strings.Join(crops, " or "))
}
