package render

import (
	"cmp"
	"fmt"
	"strings"

	"trencher/harvest"
	"trencher/recipes/meal"
	"trencher/units"
)

// PlantingWords is a planting as it is offered for a choice.
func PlantingWords(p harvest.Planting) string { return joinWords(p.ID+",", p.Crop, p.Variety) }

// PlantedWords tells a planting that was written down.
func PlantedWords(p harvest.Planting) string {
	how := "planted"
	if p.Sown {
		how = "sown"
	}
	return fmt.Sprintf("Written down: %s, %s on %s.", PlantingWords(p), how, p.Planted.Format("2 January 2006"))
}

// LiftWords tells a whole lift before it is written. at is when, as it was said.
func LiftWords(l *harvest.Lift, at string) string {
	lines := []string{fmt.Sprintf("%s, %s, %s:", l.Planting, grams(l.Net()), at)}
	for _, w := range l.Weighings {
		bowl := "  bowl " + w.Gross.String()
		if w.Tare.IsValid() {
			bowl += " less " + w.Tare.String()
		}
		lines = append(lines, bowl)
	}
	for _, g := range l.Grades {
		lines = append(lines, "  "+joinWords(g.Weight.String(), g.Sizes.String(), string(g.Condition), fate(g.Condition)))
	}
	if rest := l.Rest(); rest.Sign() > 0 {
		lines = append(lines, "  "+grams(rest)+" sound, not sorted")
	}
	left := map[string]string{harvest.LeftSome: "some is still in the ground", harvest.LeftNone: "nothing is left in the ground"}[l.Left]
	return strings.Join(append(lines, "  "+joinNonEmpty("; ", left, l.Where)), "\n")
}

// EventQuestion asks what of; more is for what else.
func EventQuestion(event string, more bool) string {
	what := "What"
	if more {
		what = "What else"
	}
	did := batchVerbs[event]
	if more {
		return what + " " + did + " (Enter: nothing)?"
	}
	return what + " " + did + "?"
}

// batchVerbs say what happened to a cooked batch.
var batchVerbs = map[string]string{harvest.KindCooked: "was cooked", harvest.KindChilled: "went into the fridge", harvest.KindOut: "came out of the fridge",
	harvest.KindReheated: "was heated up", harvest.KindEaten: "was eaten", harvest.KindBinned: "was thrown out"}

// WhenQuestion asks when an event was.
func WhenQuestion(event string) string {
	if event == harvest.KindCooked {
		return "When did it come off the heat, as 18:30?"
	}
	return "When, as 18:30?"
}

// PlanBatchesWords offers what a plan makes, or what is left of it.
func PlanBatchesWords(p *harvest.Planned, rest []meal.EventWords) string {
	var dishes []string
	for _, w := range rest {
		dishes = append(dishes, w.Name+" "+w.Amount)
	}
	return "all of plan " + p.ID + ": " + strings.Join(dishes, ", ")
}

// BatchLeftWords offers a batch, with how much is left and until when.
func BatchLeftWords(b meal.KeptBatch) string {
	left := ""
	if b.Left.IsValid() {
		left = cmp.Or(countedPortions(b.Left), b.Left.String()) + " left"
	}
	return joinNonEmpty(", ", b.Name, left) + ". " + b.Verdict.Head
}

// Amount is an amount as a person types it; "" where there is none.
func Amount(q units.Quantity) string {
	if !q.IsValid() {
		return ""
	}
	return q.String()
}
