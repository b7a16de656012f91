package ask

import (
	"fmt"
	"math/big"
	"strings"
	"time"

	"trencher/recipes"
	"trencher/recipes/planner"
	"trencher/units"
	"trencher/units/strict"
)

// poseLimits reads every --limit and brings the dishes' amounts of that
// ingredient to the limit's unit.
func (s *sharing) poseLimits() error {
	for _, text := range s.question.Limits {
		item, amount, err := s.plot.parseLimit(text)
		if err != nil {
			return err
		}
		found := false
		for i, dish := range s.dishes {
			for j := range dish.Others {
				if !sameItem(dish.Others[j].Item, item) {
					continue
				}
				found = true
				if err := s.poseLimited(i, dish.Others[j], amount.Unit(), text); err != nil {
					return err
				}
			}
		}
		if !found {
			return units.WrongField("limit", text, "no dish here uses "+item, "one of "+strings.Join(otherItems(s.dishes), ", "))
		}
		s.problem.Limits = append(s.problem.Limits, planner.Limit{Item: item, Amount: amount.Rat(), Unit: amount.Unit().Code()})
	}
	return nil
}

// poseLimited sets what one portion of a dish takes of a limited ingredient,
// in the limit's unit.
func (s *sharing) poseLimited(dish int, other recipes.OtherLine, unit units.Unit, text string) error {
	if other.Amount.IsToTaste() {
		return units.WrongField("limit", text, fmt.Sprintf("%s gives no amount of %s", s.dishes[dish].Name, other.Item), "its amount in the dish file")
	}
	converted, err := s.plot.Kitchen.Table.Convert(other.Amount.High(), unit, other.Item, other.State)
	if err != nil {
		return units.InField("limit", text, err)
	}
	per := new(big.Rat).Quo(converted.Quantity.Rat(), big.NewRat(int64(s.dishes[dish].Portions), 1))
	posed := &s.problem.Dishes[dish]
	for i := range posed.Others {
		if sameItem(posed.Others[i].Item, other.Item) {
			posed.Others[i] = planner.Other{Item: strings.ToLower(strings.TrimSpace(strings.SplitN(text, "=", 2)[0])), PerPortion: per, Unit: unit.Code()}
			return nil
		}
	}
	return nil
}

// parseLimit reads "butter=150 g".
func (p *Plot) parseLimit(text string) (item string, amount units.Quantity, err error) {
	item, value, found := strings.Cut(text, "=")
	item = strings.ToLower(strings.TrimSpace(item))
	if !found || item == "" {
		return "", amount, units.WrongField("limit", text, "no ingredient and amount", "both, as butter=150 g")
	}
	amount, err = units.Parse(strings.TrimSpace(value), p.Kitchen.Measures)
	if err != nil {
		return "", amount, units.InField("limit", text, err)
	}
	if amount.IsToTaste() || amount.IsRange() || amount.Sign() < 0 {
		return "", amount, units.WrongField("limit", text, "a limit is one amount", "an ingredient and its most, as butter=150 g")
	}
	return item, amount, nil
}

// otherItems lists what the dishes are made with, each once, in order.
func otherItems(dishes []recipes.Dish) []string {
	var items []string
	seen := map[string]bool{}
	for _, dish := range dishes {
		for _, other := range dish.Others {
			if !seen[other.Item] {
				seen[other.Item] = true
				items = append(items, other.Item)
			}
		}
	}
	return items
}

// poseKeepBack reads every --keep-back: "500 g potato".
func (s *sharing) poseKeepBack() error {
	for _, text := range s.question.KeepBack {
		amount, crop, err := parseAmountOf(text, s.plot.Kitchen.Measures)
		if err != nil {
			return units.WrongField("keep-back", text, err.Error(), "a weight and a crop, as 500 g potato")
		}
		crop = recipes.CropName(crop)
		grams, err := amount.In(units.Gram)
		if err != nil {
			return units.InField("keep-back", text, err)
		}
		if !s.onHand(crop) {
			return units.WrongField("keep-back", text, "there is no "+crop+" on hand", "one of "+strings.Join(s.cropsOnHand(), ", "))
		}
		s.problem.KeepBack = append(s.problem.KeepBack, planner.KeepBack{Crop: crop, Grams: grams.Rat()})
	}
	return nil
}

// parseAmountOf splits "500 g potato" into the amount and what it is of: the
// longest beginning that reads as an amount.
func parseAmountOf(text string, system units.System) (units.Quantity, string, error) {
	words := strings.Fields(text)
	for n := len(words) - 1; n > 0; n-- {
		amount, err := units.Parse(strings.Join(words[:n], " "), system)
		if err == nil && amount.Dimension() == units.Mass && amount.Sign() > 0 && !amount.IsRange() {
			return amount, strings.Join(words[n:], " "), nil
		}
	}
	return units.Quantity{}, "", fmt.Errorf("not a weight and a crop")
}

func (s *sharing) onHand(crop string) bool {
	for _, name := range s.cropsOnHand() {
		if name == crop {
			return true
		}
	}
	return false
}

// cropsOnHand lists the crops of the kitchen's lots by the names dishes have for
// them, each once, in order.
func (s *sharing) cropsOnHand() []string {
	var crops []string
	seen := map[string]bool{}
	for _, lot := range s.lots {
		if crop := recipes.CropName(lot.Crop); !seen[crop] {
			seen[crop] = true
			crops = append(crops, crop)
		}
	}
	return crops
}

// choose picks the dishes asked for: by name or by file name, in the order
// they are named; all of them when none is.
func choose(all []recipes.Dish, only, without []string) ([]recipes.Dish, error) {
	if len(all) == 0 {
		return nil, &strict.Error{Problem: "this plot has no dishes", Accepted: "one file for each of your recipes into dishes/, as dishes/mash.yaml"}
	}
	left := all
	if len(only) > 0 {
		left = nil
		for _, name := range only {
			dish, err := findDish(all, name)
			if err != nil {
				return nil, err
			}
			if hasDish(left, dish.Name) {
				return nil, &strict.Error{Problem: fmt.Sprintf("dish %q is named twice", dish.Name), Accepted: "each dish once"}
			}
			left = append(left, dish)
		}
	}
	for _, name := range without {
		dish, err := findDish(all, name)
		if err != nil {
			return nil, err
		}
		var kept []recipes.Dish
		for _, d := range left {
			if d.Name != dish.Name {
				kept = append(kept, d)
			}
		}
		left = kept
	}
	if len(left) == 0 {
		return nil, units.WrongField("without", strings.Join(without, ", "), "no dish is left to make", "fewer of "+strings.Join(namesOf(all), ", "))
	}
	return left, nil
}

func hasDish(dishes []recipes.Dish, name string) bool {
	for _, dish := range dishes {
		if dish.Name == name {
			return true
		}
	}
	return false
}

// findDish finds a dish by its name, its file's name, or a beginning of either
// that fits no other dish.
func findDish(all []recipes.Dish, name string) (recipes.Dish, error) {
	wanted := strings.ToLower(strings.TrimSpace(name))
	var begin []recipes.Dish
	for _, dish := range all {
		file := strings.TrimSuffix(strings.TrimPrefix(dish.File, "dishes/"), ".yaml")
		called := strings.ToLower(dish.Name)
		if wanted == called || wanted == strings.ToLower(file) {
			return dish, nil
		}
		if wanted != "" && (strings.HasPrefix(called, wanted) || strings.HasPrefix(strings.ToLower(file), wanted)) {
			begin = append(begin, dish)
		}
	}
	if len(begin) == 1 {
		return begin[0], nil
	}
	if len(begin) > 1 {
		return recipes.Dish{}, &strict.Error{Problem: fmt.Sprintf("%q may be several dishes", name), Accepted: "one of " + strings.Join(namesOf(begin), ", ")}
	}
	return recipes.Dish{}, &strict.Error{Problem: fmt.Sprintf("there is no dish %q", name), Accepted: "one of " + strings.Join(namesOf(all), ", ")}
}

func namesOf(dishes []recipes.Dish) []string {
	var names []string
	for _, dish := range dishes {
		names = append(names, dish.Name)
	}
	return names
}

// serving reads the serving time on the day asked for.
func (p *Plot) serving(text string) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	return clock{p.On, p.On.Location()}.onDay("serve-at", text, p.On)
}

// air reads the temperature outdoors; the kitchen's room stands in for it.
func (p *Plot) air(text string) (float64, error) {
	if text == "" {
		return p.Kitchen.RoomC, nil
	}
	q, err := units.Parse(text, p.Kitchen.Measures)
	if err != nil {
		return 0, units.InField("air", text, err)
	}
	celsius, err := q.Float64(units.Celsius)
	if err != nil {
		return 0, units.InField("air", text, err)
	}
	if celsius < -30 || celsius > 55 {
		return 0, units.WrongField("air", text, "no air a meal is eaten in", "-30 C to 55 C")
	}
	return celsius, nil
}

// sameItem tells whether two names are one ingredient, whatever their plural
// and capitals.
func sameItem(a, b string) bool { return recipes.CropName(a) == recipes.CropName(b) }
