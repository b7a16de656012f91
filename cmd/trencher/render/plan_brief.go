package render

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// tookWords says where the serving time comes from, where nobody gave it.
func tookWords(p meal.Plan) string {
	switch p.Took {
	case meal.FromNow:
		return ", as soon as can be from now"
	case meal.FromThen:
		return ", as soon as can be from then"
	case meal.AtSix:
		return "; no time was given, 18:00 is taken"
	}
	return ""
}

// atHandWords is what the steamer takes: water, gas and fillings.
func atHandWords(p meal.Plan) string {
	if p.Supplies.WaterML+p.Supplies.GasG == 0 {
		return ""
	}
	var words []string
	if p.Supplies.WaterML > 0 {
		words = append(words, litres(p.Supplies.WaterML)+" of drinking water")
	}
	if p.Supplies.IceG > 0 {
		words = append(words, iceWords(p.Supplies.IceG)+" of ice")
	}
	if p.Supplies.GasG > 0 {
		words = append(words, joinNonEmpty(" ", twoFigures(p.Supplies.GasG)+" g of gas", canisterWords(p)))
	}
	if len(p.Runs) > 0 {
		words = append(words, count(len(p.Runs), "steaming", "steamings"))
	}
	return strings.Join(words, ", ") + "."
}

// canisterWords say how many canisters that is; "" where the kitchen names none.
func canisterWords(p meal.Plan) string {
	if p.Supplies.Canisters == 0 {
		return ""
	}
	return fmt.Sprintf("(%s of %.0f g)", count(p.Supplies.Canisters, "canister", "canisters"), p.Kitchen.Stove.CanisterG)
}

// bringing is what stands on the shopping list besides ingredients: the gas, and
// the water where it is carried.
func bringing(p meal.Plan) []lineView {
	var list []lineView
	if p.Supplies.GasG > 0 {
		list = append(list, lineView{Amount: joinNonEmpty(" ", twoFigures(p.Supplies.GasG)+" g", canisterWords(p)), Item: "gas"})
	}
	if p.Supplies.IceG > 0 {
		list = append(list, lineView{Amount: iceWords(p.Supplies.IceG), Item: "ice"})
	}
	if p.Kitchen.Water.Carried && p.Supplies.WaterML > 0 {
		list = append(list, lineView{Amount: litres(p.Supplies.WaterML), Item: "drinking water"})
	}
	return list
}

// timingWords say how far a timetable that is not proven could be from the best;
// "" of one that is, and where nothing is to be done.
func timingWords(p meal.Plan) string {
	if p.Timing.Proven || len(p.Steps) == 0 {
		return ""
	}
	goal, found, least := p.Timing.Open()
	return fmt.Sprintf("Not proven the best timetable: %s %s, no order brings it under %s.", goalWords[goal], minutes(float64(found)), minutes(float64(least)))
}

// goalWords say what a goal of the timetable adds up.
var goalWords = map[meal.TimingGoal]string{
	meal.OverLimits:  "food is past its limits by",
	meal.HotWaiting:  "hot food waits in all",
	meal.WarmWaiting: "warm food waits too long by",
	meal.InAll:       "it takes",
}

// costWords are what a timetable costs, goal by goal.
func costWords(c schedule.Cost) string {
	return fmt.Sprintf("past limits %d min, hot food waits %d min in all, warm food %d min beyond its half hour, %s in all", c.Over, c.Hot, c.Warm, minutes(float64(c.Length)))
}

// timetableReason is what --why says of the timetable.
func timetableReason(t meal.Timing) string {
	if t.Proven {
		return "proven: no order is better; " + costWords(t.Cost)
	}
	return "the best found: " + costWords(t.Cost) + "; none can be better than: " + costWords(t.Bound)
}

// twoFigures writes a figure to two significant digits, rounded up: it is to be
// enough.
func twoFigures(x float64) string {
	if x <= 0 {
		return "0"
	}
	step := math.Pow(10, math.Floor(math.Log10(x))-1)
	return fmt.Sprintf("%.0f", math.Ceil(x/step-slip)*step)
}

// planBrief is every dish as the cook needs it at the stove.
func planBrief(p *page, plan meal.Plan) {
	p.gap()
	for d, dish := range plan.Dishes {
		p.line(fmt.Sprintf("%d  %s: %s, %s", d+1, dish.Name(), portions(dish.Portions), servedWord(plan, dish)))
		for _, part := range dish.Parts {
			p.wrapped("   ", partBrief(part))
		}
		method := strings.Join(dish.Recipe.Method, " ")
		if items := itemsBrief(dish); items != "" {
			method = items + ". " + method
		}
		p.wrapped("   ", method)
		p.wrapped("   ", allergensLine(dish))
		for _, note := range tastingWords(dish) {
			p.wrapped("   Last time: ", note)
		}
		if cautions := dishCautions(plan, dish); len(cautions) > 0 {
			p.wrapped("   ! ", strings.Join(cautions, "; "))
		}
	}
}

// itemsBrief is what else goes into a dish, in one line.
func itemsBrief(dish meal.Dish) string {
	var items []string
	for _, line := range dish.Scaled.Others {
		words := scaledWords(line)
		text := words.Item + " " + words.Measured
		if words.Exact != "" {
			text += " (exactly " + words.Exact + ")"
		}
		for _, instead := range words.Instead {
			text += " or " + instead
		}
		items = append(items, text)
	}
	return strings.Join(items, "; ")
}

// partBrief is one crop in a line: how much, from which lots, how cut, how long.
func partBrief(part meal.Part) string {
	text := part.Line.Crop + " " + grams(part.Lifted)
	var lots []string
	for _, take := range part.From {
		lots = append(lots, grams(take.Grams)+" "+take.Lot.Name)
	}
	if len(lots) > 0 {
		text += " (" + strings.Join(lots, " + ") + ")"
	}
	if part.Line.Prepared != asLifted {
		text += ", " + grams(part.Prepared) + " " + part.Line.Prepared
	}
	switch {
	case len(part.Cuts) > 0:
		text += ", " + cutsLine(part)
	case part.Line.Cut != "":
		text += ", " + part.Line.Cut
	}
	if s := part.Steam; s != nil {
		text += fmt.Sprintf("; %s from %s, knife from %d, up to %d",
			minutes(s.Minutes), sinceWords(s.Estimate), knifeFrom(s.Low), upTo(s.High))
	}
	if part.Pot != nil {
		text += "; " + potWords(part)
	}
	return text
}

// leftBrief is what remains of the lots, a line each.
func leftBrief(p *page, plan meal.Plan) {
	for _, left := range plan.Left {
		if !left.Grams.Round(0).IsZero() {
			p.wrapped("Left: ", fmt.Sprintf("%s of %s: %s", grams(left.Grams), left.Name, leftAdvice(left.Lot)))
		}
	}
}

// keepByDish are the notes on the plan's own dishes, those of the same dishes
// behind one mention of them.
func keepByDish(p meal.Plan) []string {
	var all []string
	var about []string
	for _, note := range p.Keep {
		switch {
		case note.Kind == keeping.NoteStanding: // in full, or in a line of briefCautions
		case note.Kind == keeping.NotePlot: // a line each of plotLines
		case len(note.Dishes) > 0 && slices.Equal(note.Dishes, about):
			all[len(all)-1] += " " + capital(note.Says)
		default:
			about = note.Dishes
			all = append(all, noteWithDishes(note))
		}
	}
	return all
}

// plotLines are what of the plot's hygiene matters to a plan, a line each.
func plotLines(p meal.Plan) []string {
	var lines []string
	for _, note := range p.Keep {
		if note.Kind == keeping.NotePlot {
			lines = append(lines, note.Says)
		}
	}
	return lines
}

// briefCautions are the stove's, the sink's and the general ones in a line each,
// of what there is in the plan.
func briefCautions(p meal.Plan) []string {
	var says []string
	if p.Supplies.GasG > 0 {
		says = append(says, "Gas stove outdoors only, lit or warm: carbon monoxide cannot be smelt.")
	}
	if p.Supplies.WaterML > 0 {
		says = append(says, "Steam scalds: lid up far edge first; a scald, 20 min under cool water.")
	}
	for _, dish := range p.Dishes {
		if slices.ContainsFunc(dish.Parts, func(part meal.Part) bool { return part.Line.Crop == potato }) {
			says = append(says, "Green, bitter or sprouted potatoes: out, and the steaming water away.")
			break
		}
	}
	return append(says, generalCautions("--full")...)
}

// generalCautions are what goes with every verdict, a line each; more tells where all
// of it stands.
func generalCautions(more string) []string {
	return []string{"General guidance, no advice on your case; your food authority comes first.",
		"In doubt throw it out: smell and looks never clear food. Check the labels.",
		"Pregnant, under 5, over 65, low immunity: stricter rules. More: " + more + "."}
}

const potato = "potato"

// wantsBrief is a list in a line or a few, with what is brought besides.
func wantsBrief(p *page, title string, wants []meal.Want, besides ...lineView) {
	if len(wants)+len(besides) == 0 {
		return
	}
	var words []string
	for _, want := range wants {
		w := wantWords(want)
		text := w.Item + " " + w.Measured
		if w.Optional {
			text += ", if you like"
		}
		words = append(words, text)
	}
	for _, b := range besides {
		words = append(words, b.Item+" "+b.Amount)
	}
	p.wrapped(title, strings.Join(words, "; ")+".")
}
