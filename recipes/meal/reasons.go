package meal

import (
	"fmt"
	"slices"
	"strings"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/units"
)

// reasonsOf gathers the sources of the figures a plan uses, each once: yields,
// steaming, allergens, measures, rules, the kitchen's defaults.
func reasonsOf(q Question, plan Plan) []units.Reason {
	var list []units.Reason
	add := func(reasons ...units.Reason) { list = withNew(list, reasons) }
	for _, dish := range plan.Dishes {
		for i, part := range dish.Parts {
			add(yieldReasons(dish, i)...)
			add(potReasons(part)...)
			add(steamReasons(part)...)
		}
		add(lineReasons(dish, q.Kitchen)...)
		add(assumed(dish.Recipe.File, dish.Recipe.Assumed, "left out of the dish file, so taken for granted")...)
	}
	if box := plan.Box; box.Lasts > 0 {
		ice := heat.ColdBox{IceG: box.IceG, HoldsC: q.Kitchen.ColdBox.HoldsC}
		add(ice.Reason(box.Lasts, q.AirC))
	}
	for _, note := range plan.Keep {
		add(ruleReasons(note.Rules)...)
	}
	add(assumed("kitchen.yaml", q.Kitchen.Assumed, "not in kitchen.yaml: the default")...)
	add(units.Reason{Figure: "damaged lots", Value: "85 % can be used after trimming", Provenance: units.Practice})
	return list
}

// withNew is a list with those of others that it does not hold yet.
func withNew(list, others []units.Reason) []units.Reason {
	for _, reason := range others {
		if !slices.Contains(list, reason) {
			list = append(list, reason)
		}
	}
	return list
}

// assumed are the figures that a file does not give.
func assumed(file string, figures []string, why string) (list []units.Reason) {
	for _, figure := range figures {
		list = append(list, units.Why(file, figure, why, "practice"))
	}
	return list
}

// steamReasons are what the time in steam rests on.
func steamReasons(part Part) []units.Reason {
	if part.Steam == nil {
		return nil
	}
	estimate := part.Steam.Estimate
	return named(part.Line.Crop, slices.Concat(estimate.Reasons(), estimate.Learned.Reasons(estimate.Crop), part.Steam.Load.Reasons()))
}

// named are reasons that tell which crop they are of.
func named(crop string, reasons []units.Reason) []units.Reason {
	reasons = slices.Clone(reasons)
	for i := range reasons {
		reasons[i].Figure = crop + ": " + reasons[i].Figure
	}
	return reasons
}

// ruleReasons are the rules of keeping by their IDs.
func ruleReasons(ids []string) (list []units.Reason) {
	for _, id := range ids {
		if rule, ok := keeping.LookupRule(id); ok {
			list = append(list, units.Reason{Figure: "rule " + rule.ID, Value: rule.Says, Provenance: rule.Provenance})
		}
	}
	return list
}

// potReasons are what the time in boiling water rests on.
func potReasons(part Part) []units.Reason {
	if part.Pot == nil {
		return nil
	}
	var list []units.Reason
	if part.Pot.Blanched != nil {
		list = part.Pot.Blanched.Reasons()
	} else {
		list = part.Pot.Estimate.Reasons()
	}
	list = named(part.Line.Crop, list)
	if part.Line.Minutes > 0 {
		list = append(list, units.Why(part.Line.Crop+": the dish file's minutes", fmt.Sprintf("%d min, not used", part.Line.Minutes),
			"pot, water and reheating after loading are reckoned; write `cook: own` to keep your own minutes", "practice"))
	}
	return list
}

// yieldReasons gives the sources of what preparing and steaming leave of a crop.
func yieldReasons(dish Dish, line int) []units.Reason {
	crop := dish.Recipe.Crops[line].Crop
	var list []units.Reason
	_, prepared, err := dish.Recipe.NeedPerPortion(line)
	steps := dish.Scaled.Crops[line].Cooking.Steps
	if err == nil {
		steps = append(slices.Clone(prepared.Steps), steps...)
	}
	for _, step := range steps {
		list = append(list, units.Reason{Figure: crop + ": " + step.From + " to " + step.To,
			Value: units.RatioText(step.Factor), Provenance: units.Provenance{Source: step.Source, KnownBy: step.KnownBy}})
	}
	return list
}

// lineReasons gives the sources behind the other ingredients of a dish: what
// they hold, and what a spoon or a piece weighs where a weight is shown.
func lineReasons(dish Dish, kitchen recipes.Kitchen) []units.Reason {
	var list []units.Reason
	for i, line := range dish.Recipe.Others {
		c := line.Composition()
		holds, may := allergenNames(c.Contains()), allergenNames(c.May())
		switch {
		case !c.Known:
		case len(holds) > 0:
			list = append(list, units.Why(line.Item+": holds", strings.Join(holds, ", "), c.Source, c.KnownBy))
		case len(may) > 0:
			list = append(list, units.Why(line.Item+": may hold", strings.Join(may, ", "), c.Source, c.KnownBy))
		}
		if dish.Scaled.Others[i].Measured.Alternative == "" {
			continue
		}
		if weighed, err := kitchen.Table.Convert(line.Amount, units.Gram, line.Item, line.State); err == nil && weighed.Crossed {
			row := weighed.Row
			list = append(list, units.Reason{Figure: row.Measure.String() + " of " + row.Ingredient, Value: units.RatioText(row.Grams) + " g",
				Provenance: units.Provenance{Source: row.Source, Record: row.Record, KnownBy: row.KnownBy}})
		}
	}
	return list
}

func allergenNames(allergens []recipes.Allergen) []string {
	var names []string
	for _, a := range allergens {
		names = append(names, a.String())
	}
	return names
}
