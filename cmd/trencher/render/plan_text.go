package render

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
	"trencher/units"
)

// PlanText writes a plan for a terminal of 80 columns. First things come first:
// what is made, when to start and to serve, every danger and what to have at
// hand; then what to do when; then the dishes, the lists and what keeps. All
// there is to know of lots, cuts and loads comes only with full, reasons only
// with why.
func PlanText(w io.Writer, a ask.MealAnswer, why, full bool) error {
	p, plan := &page{}, a.Plan
	planFirst(p, a)
	planPlates(p, plan)
	if full {
		planFull(p, plan)
	} else {
		planTimetable(p, plan, worthALine)
		planBrief(p, plan)
	}
	if full {
		planWants(p, "Pick from the plot", plan.Pick)
		planWants(p, "Buy from the shop", plan.ToBuy(), bringing(plan)...)
		planWants(p, "Probably in the cupboard", plan.InCupboard())
		planLeft(p, plan)
	} else {
		p.gap()
		wantsBrief(p, "Pick: ", plan.Pick)
		wantsBrief(p, "Buy: ", plan.ToBuy(), bringing(plan)...)
		wantsBrief(p, "Cupboard: ", plan.InCupboard())
		leftBrief(p, plan)
	}
	planRecord(p, a.Record)
	planKeep(p, plan, full)
	if why {
		planWhy(p, plan)
	}
	return p.writeTo(w)
}

// planID is how a plan is called when it is recorded.
func planID(record *harvest.Planned) string {
	if record == nil || len(record.Uses) == 0 {
		return ""
	}
	return ", plan " + record.ID
}

// planRecord tells where a plan is written down.
func planRecord(p *page, record *harvest.Planned) {
	if record != nil && record.File != "" {
		p.heading("Recorded as used in the journal")
		p.line("  " + record.File)
		p.wrapped("  ", "When it is cooked: trencher cooked --as-planned "+record.ID+". To take it back: trencher undo.")
	}
}

// planFull is all there is to know before the lists.
func planFull(p *page, plan meal.Plan) {
	planTimetable(p, plan, func(meal.Plan, meal.Step) bool { return true })
	planBounds(p, plan)
	planLots(p, plan)
	for i := range plan.Dishes {
		planDish(p, plan, i)
	}
}

// servedAt is when the dishes are on the table.
func servedAt(plan meal.Plan) string {
	if len(plan.Steps) == 0 {
		return ""
	}
	return clockOn(plan.ServeAt, plan.On)
}

func portionsLine(plan meal.Plan, id string) string {
	total := 0
	for _, dish := range plan.Dishes {
		total += dish.Portions
	}
	switch {
	case len(plan.Dishes) == 0:
		return "Nothing can be made from this."
	case plan.Levels.Fed != nil:
		return fmt.Sprintf("%s for %s", portions(total), count(eatersOf(plan), "person", "people")) + id + ":"
	}
	return portions(total) + id + ":"
}

// eatersOf counts who eats.
func eatersOf(plan meal.Plan) int {
	people := 0
	for _, plate := range plan.Plates {
		people += plate.Number
	}
	return people
}

func planPlates(p *page, plan meal.Plan) {
	if len(plan.Plates) == 0 {
		return
	}
	p.heading("On the plates")
	for _, plate := range plan.Plates {
		gets := listed(append(slices.Clone(plate.Dishes), apartOnPlate(plan, plate)...))
		if gets == "" {
			gets = "nothing"
		}
		if plate.Short > 0 {
			gets += fmt.Sprintf(" (%d short)", plate.Short)
		}
		p.row("  ", 26, fmt.Sprintf("%2d  %s", plate.Number, plate.Guest.Label()), gets)
	}
	for _, short := range plan.Short {
		p.wrapped("  ! ", capital(shortfallWords(short)))
	}
}

func planBounds(p *page, plan meal.Plan) {
	if len(plan.Bounds) == 0 {
		return
	}
	p.heading("What held it back")
	for _, bound := range plan.Bounds {
		p.wrapped("  ", capital(boundWords(bound, plan)))
	}
	if plan.Partly {
		p.wrapped("  ", "There may be more: the search for it was given up.")
	}
}

// planLots shows the lift that goes to the kitchen.
func planLots(p *page, plan meal.Plan) {
	if len(plan.Lots) == 0 {
		return
	}
	p.heading("Lifted, for the kitchen")
	for _, lot := range plan.Lots {
		says := fmt.Sprintf("%s, %s used", grams(lot.Supply), usedOf(lot))
		if lot.First {
			says += "; use today"
		}
		p.row("  ", 44, fmt.Sprintf("%s: %s, %s, %s", lot.Planting.ID, lot.Crop, bandWords(lot.Sizes), lot.Condition), says)
	}
}

// bandWords writes a riddle band: "20-45 mm"; "not graded" for none.
func bandWords(b units.Band) string { return sizes(b.Low, b.High) }

// planTimetable shows the steps that a face has a line for.
func planTimetable(p *page, plan meal.Plan, shown func(meal.Plan, meal.Step) bool) {
	if len(plan.Steps) == 0 {
		return
	}
	p.heading("Timetable")
	for _, step := range plan.Steps {
		if shown(plan, step) {
			p.wrapped("  "+padLeft(clockOn(step.At, plan.On), 5)+padLeft(minutes(step.Length.Minutes()), 11)+" ", stepWords(plan, step))
		}
	}
}

// worthALine leaves out what every filling of the steamer has: loading, testing
// and taking out stand in the line of its steaming.
func worthALine(plan meal.Plan, step meal.Step) bool {
	switch step.Kind {
	case schedule.Boil:
		return step.Length > time.Minute || isFirstBoil(plan, step)
	case schedule.Cool:
		return isIced(plan, step)
	case schedule.LiftOut:
		return step.Run != ""
	case schedule.Load, schedule.Test, schedule.Unload, schedule.TopUp, schedule.Serve:
		return false
	}
	return true
}

func planLeft(p *page, plan meal.Plan) {
	if len(plan.Left) == 0 {
		return
	}
	p.heading("Left over")
	for _, left := range plan.Left {
		if left.Grams.Round(0).IsZero() {
			continue
		}
		p.wrapped("  ", fmt.Sprintf("%s of %s: %s", grams(left.Grams), left.Name, leftAdvice(left.Lot)))
	}
}

func planKeep(p *page, plan meal.Plan, full bool) {
	p.heading("Keep it safe")
	if full {
		for _, note := range plan.Keep {
			p.wrapped("  - ", noteWithDishes(note))
		}
		for _, caution := range plan.Cautions {
			p.wrapped("  - ", caution)
		}
		return
	}
	dishes := keepByDish(plan)
	if plan.Kitchen.NoFridge {
		dishes = append(dishes, "No fridge: what is left then is thrown out.")
	}
	if plan.Kitchen.NoFridge && len(dishes) == 2 { // one line on all the dishes: room beside it
		dishes = []string{strings.Join(dishes, " ")}
	}
	for _, says := range slices.Concat(dishes, plotLines(plan), briefCautions(plan)) {
		p.wrapped("  - ", says)
	}
}

func planWhy(p *page, plan meal.Plan) {
	p.heading("Why")
	if plan.Mode != meal.One {
		for round, n := range plan.Levels.Fed {
			p.row("  ", 22, fmt.Sprintf("fed %d ×", round+1), count(n, "person", "people"))
		}
		if plan.Levels.Fed != nil {
			p.row("  ", 22, "over", portions(plan.Levels.Over)+" that nobody eats")
		}
		p.row("  ", 22, "used first", useFirst(plan.Levels)+" g of lots to be used today, in steps of 10 g")
		p.row("  ", 22, "dishes", fmt.Sprint(plan.Levels.Dishes))
		p.row("  ", 22, "balance", "every dish made has at least "+balance(plan.Levels)+" portions for each 1 of its wish")
		p.row("  ", 22, "portions", fmt.Sprint(plan.Levels.Portions))
		p.row("  ", 22, "search", effort(plan.Levels))
	}
	if len(plan.Steps) > 0 {
		p.row("  ", 22, "timetable", timetableReason(plan.Timing))
	}
	for _, r := range plan.Reasons {
		p.row("  ", 22, r.Figure, fmt.Sprintf("%s. %s (%s)", strings.TrimRight(r.Value, "."), strings.TrimRight(r.Provenance.String(), "."), r.KnownBy))
	}
}

// useFirst is the grams taken from lots to be used today.
func useFirst(levels meal.Levels) string {
	if levels.UseFirst == nil {
		return "0"
	}
	return units.DecimalOf(levels.UseFirst).String()
}

// balance is a decimal, or a fraction such as "7/2".
func balance(levels meal.Levels) string {
	if levels.Balance == nil {
		return "0"
	}
	return units.RatioText(levels.Balance)
}

func effort(levels meal.Levels) string {
	if levels.Proven {
		return fmt.Sprintf("proven best after %d steps of the search", levels.Nodes)
	}
	return fmt.Sprintf("not proven best, given up after %d steps of the search", levels.Nodes)
}
