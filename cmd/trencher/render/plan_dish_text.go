package render

import (
	"fmt"
	"strings"

	"trencher/recipes/meal"
)

// usedOf is how much of a lot the dishes take: "all", "none" or the weight.
func usedOf(lot meal.LotUse) string {
	switch {
	case lot.Taken.Round(0).IsZero():
		return "none"
	case lot.Left().Round(0).IsZero():
		return "all"
	}
	return grams(lot.Taken)
}

// planDish is one dish as the cook needs it.
func planDish(p *page, plan meal.Plan, d int) {
	dish := plan.Dishes[d]
	p.heading(fmt.Sprintf("%d  %s: %s, %s", d+1, dish.Name(), portions(dish.Portions), servedWord(plan, dish)))
	for i := range dish.Parts {
		planPart(p, plan, meal.PartAt{Dish: d, Part: i})
	}
	for _, line := range dish.Scaled.Others {
		words := scaledWords(line)
		p.row("   ", 22, words.Item, measuredWords(words))
	}
	for i, step := range dish.Recipe.Method {
		p.wrapped(fmt.Sprintf("   %d. ", i+1), step)
	}
	p.wrapped("   ", allergensLine(dish))
	for _, note := range tastingWords(dish) {
		p.wrapped("   Last time: ", note)
	}
	for _, caution := range dishCautions(plan, dish) {
		p.wrapped("   ! ", caution)
	}
}

func planPart(p *page, plan meal.Plan, at meal.PartAt) {
	part := partOfPlan(plan, at)
	weight := grams(part.Lifted) + " as lifted"
	if part.Line.Prepared != asLifted {
		weight += ", " + grams(part.Prepared) + " " + part.Line.Prepared
	}
	if part.Cooked.IsPositive() {
		weight += ", about " + grams(part.Cooked) + " cooked"
	}
	p.row("   ", 22, part.Line.Crop, weight)
	var from []string
	for _, take := range part.From {
		from = append(from, grams(take.Grams)+" of "+take.Lot.Name)
	}
	if len(from) > 0 {
		p.row("   ", 22, "", "take "+listed(from))
	}
	if len(part.Cuts) > 0 {
		p.row("   ", 22, "", "cut: "+cutsLine(part))
	}
	if uneven := unevenWords(part); uneven != "" {
		p.row("   ", 22, "", uneven)
	}
	if len(part.Cuts) == 0 && part.Line.Cut != "" {
		p.row("   ", 22, "", "cut: "+part.Line.Cut)
	}
	if part.Pot != nil {
		p.row("   ", 22, "", potLine(part))
	} else if own := ownTimeWords(part.Line); own != "" {
		p.row("   ", 22, "", own+", by the dish's own minutes")
	}
	if part.Steam != nil {
		p.row("   ", 22, "", steamLine(plan, at))
	}
}

// cutsLine is the cutting of all sizes in one line.
func cutsLine(part meal.Part) string {
	var words []string
	for _, cut := range part.Cuts {
		text := cutWords(part, cut)
		if len(part.Cuts) > 1 && cut.Sizes.IsGraded() {
			text = cut.Sizes.String() + " " + text
		}
		words = append(words, text)
	}
	return strings.Join(words, ", ")
}

func steamLine(plan meal.Plan, at meal.PartAt) string {
	part := partOfPlan(plan, at)
	s := part.Steam
	text := fmt.Sprintf("steam %d min from %s, %s; knife test from %d, up to %d min; %s, %s",
		about(s.Minutes), sinceWords(s.Estimate), part.Line.Until, knifeFrom(s.Low), upTo(s.High),
		count(s.Load.Layers, "layer", "layers"), count(s.Load.Rounds, "round", "rounds"))
	if with := togetherWith(plan, at); len(with) > 0 {
		text += ", together with " + listed(with)
	}
	text += "; " + litres(s.Load.WaterML) + " of water"
	for _, note := range s.Estimate.Outside {
		text += "; " + note
	}
	return text
}

// measuredWords writes an amount as the cook measures it, with what else is
// worth saying of it.
func measuredWords(w lineWords) string {
	text := w.Measured
	switch {
	case w.Flag:
		text += " (exactly " + w.Exact + ": more than a tenth off)"
	case w.Exact != "":
		text += " (exactly " + w.Exact + ")"
	}
	for _, instead := range w.Instead {
		text += ", or " + instead
	}
	if w.Optional {
		text += ", if you like"
	}
	if w.Advice != "" {
		text += "; " + w.Advice
	}
	if w.FromPlot {
		text += " (plot)"
	}
	return text
}

func allergensLine(dish meal.Dish) string {
	contains, may := allergenWords(dish)
	text := "Allergens: none known"
	if len(contains) > 0 {
		text = "Allergens: " + listed(contains)
	}
	if len(may) > 0 {
		text += "; may hold " + listed(may)
	}
	return text + ". Check the labels."
}

func planWants(p *page, title string, wants []meal.Want, besides ...lineView) {
	if len(wants)+len(besides) == 0 {
		return
	}
	p.heading(title)
	for _, want := range wants {
		words := wantWords(want)
		p.row("  [ ] ", 24, words.Item, measuredWords(words))
	}
	for _, b := range besides {
		p.row("  [ ] ", 24, b.Item, b.Amount)
	}
}
