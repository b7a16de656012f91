package ask

import (
	"cmp"
	"fmt"
	"math/big"
	"strings"

	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/planner"
	"trencher/units"
)

// leftOutReason says in kitchen words why a dish is not made.
func (s *sharing) leftOutReason(out planner.LeftOut) string {
	dish := s.dishes[out.Dish]
	switch out.Reason {
	case planner.NoLot:
		if !s.onHand(out.Of) {
			return "no " + out.Of + " on hand"
		}
		return "no " + out.Of + " on hand of the kind and sizes it wants"
	case planner.TooLittle:
		return fmt.Sprintf("its smallest batch, %d portions, wants %s more %s", max(1, dish.Smallest), shortAmount(out), out.Of)
	case planner.LimitReached:
		return fmt.Sprintf("its smallest batch, %d portions, wants %s more %s than the limit", max(1, dish.Smallest), shortAmount(out), out.Of)
	case planner.SuitsNobody:
		return "suits none of the guests"
	}
	return "the crop goes further in the other dishes"
}

// shortAmount rounds what is short up to what a kitchen weighs.
func shortAmount(out planner.LeftOut) string {
	if out.Short == nil {
		return "some"
	}
	return upTo(out.Short, 1) + " " + unitName(out.Unit)
}

// unitName is a unit's code as a kitchen writes it. The planner's own unit is
// the gram.
func unitName(code string) string {
	if code == "" {
		return units.Gram.Symbol()
	}
	return cmp.Or(units.KitchenWord(code), "pieces")
}

// upTo rounds up to a whole number of steps.
func upTo(amount *big.Rat, step int64) string {
	steps := new(big.Rat).Quo(amount, big.NewRat(step, 1))
	whole := new(big.Int).Quo(steps.Num(), steps.Denom())
	if !steps.IsInt() {
		whole.Add(whole, big.NewInt(1))
	}
	return whole.Mul(whole, big.NewInt(step)).String()
}

// lineReasons gives the sources behind the other ingredients of a dish: what
// they hold, and what a spoon or a piece weighs where a weight is shown.
func (s *sharing) lineReasons(scaled recipes.Scaled) []units.Reason {
	var list []units.Reason
	for i, line := range scaled.Dish.Others {
		c := line.Composition()
		holds, may := allergenWords(c.Contains()), allergenWords(c.May())
		switch {
		case !c.Known:
		case len(holds) > 0:
			list = append(list, units.Reason{Figure: line.Item + ": holds", Value: strings.Join(holds, ", "), Provenance: units.Provenance{Source: c.Source, KnownBy: c.KnownBy}})
		case len(may) > 0:
			list = append(list, units.Reason{Figure: line.Item + ": may hold", Value: strings.Join(may, ", "), Provenance: units.Provenance{Source: c.Source, KnownBy: c.KnownBy}})
		}
		if scaled.Others[i].Measured.Alternative == "" {
			continue
		}
		weighed, err := s.plot.Kitchen.Table.Convert(line.Amount, units.Gram, line.Item, line.State)
		if err == nil && weighed.Crossed {
			row := weighed.Row
			list = append(list, units.Reason{Figure: row.Measure.String() + " of " + row.Ingredient, Value: ratioText(row.Grams) + " g",
				Provenance: units.Provenance{Source: strings.TrimSuffix(row.Source+", "+row.Record, ", "), KnownBy: row.KnownBy}})
		}
	}
	return list
}

// tellReasons gathers the sources of the figures used: yields, steaming,
// allergens, measures, the kitchen's defaults.
func (s *sharing) tellReasons() {
	add := func(r units.Reason) {
		for _, known := range s.plan.Reasons {
			if known == r {
				return
			}
		}
		s.plan.Reasons = append(s.plan.Reasons, r)
	}
	for _, told := range s.plan.Dishes {
		dish := s.dishNamed(told.Name)
		for i, line := range dish.Crops {
			_, yield, err := dish.NeedPerPortion(i)
			if err == nil {
				for _, step := range yield.Steps {
					add(units.Reason{Figure: line.Crop + ": " + step.From + " to " + step.To, Value: ratioText(step.Factor), Provenance: units.Provenance{Source: step.Source, KnownBy: step.KnownBy}})
				}
			}
			for _, step := range s.scaled[told.Name].Crops[i].Cooking.Steps {
				add(units.Reason{Figure: line.Crop + ": " + step.From + " to " + step.To, Value: ratioText(step.Factor), Provenance: units.Provenance{Source: step.Source, KnownBy: step.KnownBy}})
			}
			if told.Crops[i].Steam != nil {
				for _, r := range told.Crops[i].Steam.Reasons {
					r.Figure = line.Crop + ": " + r.Figure
					add(r)
				}
			}
		}
		for _, r := range s.lineReasons(s.scaled[told.Name]) {
			add(r)
		}
		for _, assumed := range dish.Assumed {
			add(units.Reason{Figure: dish.File, Value: assumed, Provenance: units.Provenance{Source: "left out of the dish file, so taken for granted", KnownBy: "practice"}})
		}
	}
	for _, note := range s.plan.Keep {
		if rule, ok := keeping.LookupRule(note.Rule); ok {
			add(units.Reason{Figure: "rule " + rule.ID, Value: rule.Says, Provenance: units.Provenance{Source: rule.Source.String(), KnownBy: rule.KnownBy}})
		}
	}
	for _, assumed := range s.plot.Kitchen.Assumed {
		add(units.Reason{Figure: "kitchen.yaml", Value: assumed, Provenance: units.Provenance{Source: "not in kitchen.yaml: the default", KnownBy: "practice"}})
	}
	add(units.Reason{Figure: "damaged lots", Value: "85 % can be used after trimming", Provenance: units.Provenance{Source: "common practice, no source", KnownBy: "practice"}})
}
