package ask

import (
	"fmt"
	"math/big"
	"strings"
	"time"

	"trencher/recipes"
	"trencher/units"
)

// DishQuestion asks for one dish, scaled to a weighed crop or to portions.
type DishQuestion struct {
	Plot     PlotRef
	Name     string
	Lifted   []string // "1.85 kg", or "beetroot=400 g" for a dish of several crops
	Portions int      // 0 = not given
	ServeAt  string
}

// ScaleDish scales one dish to all of a weighed crop, or to a number of
// portions. It looks at no stock: the weight given is what there is.
func ScaleDish(q DishQuestion) (Plan, error) {
	plot, err := Open(q.Plot)
	if err != nil {
		return Plan{}, err
	}
	dishes := plot.Dishes()
	if err := plot.Err(); err != nil {
		return Plan{}, err
	}
	dish, err := findDish(dishes, q.Name)
	if err != nil {
		return Plan{}, err
	}
	portions, err := plot.portionsAsked(dish, q)
	if err != nil {
		return Plan{}, err
	}
	s := &sharing{question: ShareQuestion{Plot: q.Plot, ServeAt: q.ServeAt}, plot: plot, dishes: []recipes.Dish{dish}, airC: plot.Kitchen.RoomC, scaled: map[string]recipes.Scaled{}, details: map[partAt]steamed{}, cools: map[string]cooled{}}
	s.plan = Plan{Mode: "dish", Plot: plot.Name, On: plot.On}
	if s.serveAt, err = plot.serving(q.ServeAt); err != nil {
		return Plan{}, err
	}
	s.plan.ServeAt = s.serveAt
	return s.scaleAlone(dish, portions)
}

// scaleAlone is the plan of one dish by itself.
func (s *sharing) scaleAlone(dish recipes.Dish, portions *big.Rat) (Plan, error) {
	scaled := dish.ScaleTo(portions, s.plot.Kitchen)
	whole := int(new(big.Int).Quo(portions.Num(), portions.Denom()).Int64())
	s.scaled[dish.Name] = scaled
	told := tellScaled(scaled, whole)
	s.plot.recallNotes()
	told.Notes = s.plot.notesOn(dish.Name)
	if !portions.IsInt() {
		told.Cautions = append(told.Cautions, fmt.Sprintf("scaled to all of the crop: %s portions", decimalOf(portions).Round(1)))
	}
	if whole > dish.Largest || whole < dish.Smallest {
		told.Cautions = append(told.Cautions, fmt.Sprintf("the dish file calls %d to %d portions worth making at once", dish.Smallest, dish.Largest))
	}
	for i := range dish.Crops {
		part, detail, err := s.plot.cropPart(scaled.Crops[i], nil, nil)
		s.details[partAt{0, i}] = detail
		if err != nil {
			return Plan{}, fmt.Errorf("%s: %w", dish.Name, err)
		}
		told.Crops = append(told.Crops, part)
	}
	s.plan.Dishes = []Dish{told}
	s.warnUntimed()
	if err := s.steamAll(); err != nil {
		return Plan{}, err
	}
	s.tellShopping()
	if err := s.tellTimetable(); err != nil {
		return Plan{}, err
	}
	if err := s.tellKeeping(); err != nil {
		return Plan{}, err
	}
	s.tellReasons()
	return s.plan, nil
}

// portionsAsked is the number of portions that the question's crop or count
// makes, exactly.
func (p *Plot) portionsAsked(dish recipes.Dish, q DishQuestion) (*big.Rat, error) {
	switch {
	case len(q.Lifted) > 0 && q.Portions != 0:
		return nil, units.WrongField("lifted", strings.Join(q.Lifted, ", "), "a number of portions is given as well, and both say how much", "one of them")
	case len(q.Lifted) > 0:
		return p.portionsFrom(dish, q.Lifted)
	case q.Portions < 0 || q.Portions > 10000:
		return nil, units.WrongField("portions", fmt.Sprint(q.Portions), "no number of portions", "a whole number from 1 to 10000")
	case q.Portions == 0:
		return big.NewRat(int64(dish.Portions), 1), nil
	}
	return big.NewRat(int64(q.Portions), 1), nil
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
		if given[dish.Crops[line].Crop] {
			return nil, units.WrongField("lifted", text, dish.Crops[line].Crop+" is given twice", "give each crop once")
		}
		given[dish.Crops[line].Crop] = true
		portions, err := dish.PortionsFrom(line, weight)
		if err != nil {
			return nil, units.InField("lifted", text, err)
		}
		if least == nil || portions.Cmp(least) < 0 {
			least = portions
		}
	}
	if least.Cmp(big.NewRat(1, 1)) < 0 {
		return nil, units.WrongField("lifted", strings.Join(lifted, ", "), "not enough for one portion of "+dish.Name, "a larger weight, or another dish")
	}
	if least.Cmp(big.NewRat(10000, 1)) > 0 {
		return nil, units.WrongField("lifted", strings.Join(lifted, ", "), "more than 10000 portions", "a smaller weight: is the unit right?")
	}
	return least, nil
}

// parseLifted reads "1.85 kg" or "potato=1.85 kg" and finds the dish's crop
// line it is for.
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
		if named && sameItem(line.Crop, crop) || !named && len(dish.Crops) == 1 {
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

// endOf is when a task is over.
func endOf(task Task) time.Time {
	return task.At.Add(time.Duration(task.Minutes * float64(time.Minute)))
}
