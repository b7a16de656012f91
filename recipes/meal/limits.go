package meal

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"trencher/recipes"
	"trencher/recipes/planner"
	"trencher/units"
)

// addLimits brings the dishes' amounts of every limited ingredient to the unit
// of its limit.
func addLimits(p *planner.Problem, q Question) error {
	for i, limit := range q.Limits {
		if slices.ContainsFunc(q.Limits[:i], func(other Limit) bool { return sameItem(other.Item, limit.Item) }) {
			return units.WrongField("limit", limit.String(), limit.Item+" has a limit already", "one limit for each ingredient")
		}
		item, unit := strings.ToLower(limit.Item), limit.Amount.Unit()
		found := false
		for i, dish := range q.Dishes {
			uses, err := limitDish(&p.Dishes[i], dish, item, unit, q.Kitchen)
			if err != nil {
				return units.InField("limit", limit.String(), err)
			}
			found = found || uses
		}
		if !found {
			return units.WrongField("limit", limit.String(), "no dish here uses "+item, "one of "+strings.Join(otherItems(q.Dishes), ", "))
		}
		p.Limits = append(p.Limits, planner.Limit{Item: item, Amount: limit.Amount.Rat(), Unit: unit.Code()})
	}
	return nil
}

// limitDish brings a dish's amount of an ingredient to a unit, and tells whether it
// uses any.
func limitDish(planned *planner.Dish, dish recipes.Dish, item string, unit units.Unit, kitchen recipes.Kitchen) (uses bool, err error) {
	for _, other := range dish.Others {
		if !sameItem(other.Item, item) {
			continue
		}
		per, err := perPortionIn(unit, dish, other, kitchen)
		if err != nil {
			return true, err
		}
		setOther(planned, planner.Other{Item: item, PerPortion: per, Unit: unit.Code()})
		uses = true
	}
	return uses, nil
}

// String writes the limit as it is asked for: "butter=150 g".
func (l Limit) String() string { return l.Item + "=" + l.Amount.String() }

// perPortionIn is what one portion of a dish takes of an ingredient, in a unit.
func perPortionIn(unit units.Unit, dish recipes.Dish, other recipes.OtherLine, kitchen recipes.Kitchen) (*big.Rat, error) {
	if other.Amount.IsToTaste() {
		return nil, units.WrongField("", "", fmt.Sprintf("%s gives no amount of %s", dish.Name, other.Item), "its amount in the dish file")
	}
	converted, err := kitchen.Table.Convert(other.Amount.High(), unit, other.Item, other.State)
	if err != nil {
		return nil, err
	}
	return new(big.Rat).Quo(converted.Quantity.Rat(), big.NewRat(int64(dish.Portions), 1)), nil
}

// setOther puts a limited ingredient in the place of the dish's own.
func setOther(dish *planner.Dish, limited planner.Other) {
	at := slices.IndexFunc(dish.Others, func(o planner.Other) bool { return sameItem(o.Item, limited.Item) })
	dish.Others[at] = limited
}

// otherItems lists what the dishes are made with, each once, in order.
func otherItems(dishes []recipes.Dish) []string {
	var items []string
	for _, dish := range dishes {
		for _, other := range dish.Others {
			if !slices.Contains(items, other.Item) {
				items = append(items, other.Item)
			}
		}
	}
	return items
}

// addKeepBack holds produce back.
func addKeepBack(p *planner.Problem, all []KeepBack) error {
	for _, back := range all {
		crop := recipes.CropName(back.Crop)
		grams, err := back.Weight.In(units.Gram)
		if err != nil {
			return units.InField("keep-back", back.String(), err)
		}
		if crops := cropsOf(p.Lots); !slices.Contains(crops, crop) {
			return units.WrongField("keep-back", back.String(), "there is no "+crop+" on hand", "one of "+strings.Join(crops, ", "))
		}
		p.KeepBack = append(p.KeepBack, planner.KeepBack{Crop: crop, Grams: grams.Rat()})
	}
	return nil
}

// String writes what is held back as it is asked for: "500 g potato".
func (k KeepBack) String() string { return k.Weight.String() + " " + k.Crop }

// cropsOf lists the crops of the lots, each once, in order.
func cropsOf(lots []planner.Lot) []string {
	var crops []string
	for _, lot := range lots {
		if !slices.Contains(crops, lot.Crop) {
			crops = append(crops, lot.Crop)
		}
	}
	return crops
}

// sameItem tells whether two names are one ingredient, whatever their plural
// and capitals.
func sameItem(a, b string) bool { return recipes.CropName(a) == recipes.CropName(b) }
