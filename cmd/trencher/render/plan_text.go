package render

import (
	"fmt"
	"io"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/units"
)

// PlanText writes a plan for a terminal of 80 columns: how many portions of
// what comes first, reasons only when why is set.
func PlanText(w io.Writer, plan ask.Plan, why bool) error {
	p := &page{}
	planPortions(p, plan)
	planPlates(p, plan)
	planBounds(p, plan)
	planLots(p, plan)
	for i, dish := range plan.Dishes {
		planDish(p, i+1, dish)
	}
	planLines(p, "Pick from the plot", plan.Pick)
	planLines(p, "Buy from the shop", plan.Buy)
	planTimetable(p, plan)
	planLeft(p, plan)
	if len(plan.Taken) > 0 {
		p.heading("Recorded as used in the journal")
		for _, file := range plan.Taken {
			p.line("  " + file)
		}
	}
	planKeep(p, plan)
	if why {
		planWhy(p, plan)
	}
	return p.writeTo(w)
}

// planPortions is the first screen: the day, the warnings, the portions.
func planPortions(p *page, plan ask.Plan) {
	head := longDate(plan.On)
	if plan.Plot != "" {
		head += ", " + plan.Plot
	}
	if !plan.ServeAt.IsZero() {
		head += ". Serving at " + clock(plan.ServeAt)
	}
	p.wrapped("", head+".")
	for _, warning := range plan.Warnings {
		p.wrapped("! ", warning)
	}
	p.gap()
	p.line(portionsLine(plan))
	width := 0
	for _, dish := range plan.Dishes {
		width = max(width, len([]rune(dish.Name)))
	}
	for _, dish := range plan.Dishes {
		p.line(fmt.Sprintf("%4d  %s  %s", dish.Portions, pad(dish.Name, width), dish.Served))
	}
	for _, out := range plan.LeftOut {
		p.wrapped("   -  ", out.Dish+": "+out.Because)
	}
}

func portionsLine(plan ask.Plan) string {
	total := 0
	for _, dish := range plan.Dishes {
		total += dish.Portions
	}
	switch {
	case len(plan.Dishes) == 0:
		return "Nothing can be made from this."
	case plan.Mode == "table":
		return fmt.Sprintf("%s on the plates from %s:", count(plan.Levels.Fed, "helping", "helpings"),
			count(total, "portion", "portions"))
	}
	return count(total, "portion", "portions") + ":"
}

func planPlates(p *page, plan ask.Plan) {
	if len(plan.Plates) == 0 {
		return
	}
	p.heading("On the plates")
	for _, plate := range plan.Plates {
		gets := ask.Listed(plate.Dishes)
		if gets == "" {
			gets = "nothing here suits"
		}
		if plate.Short > 0 {
			gets += fmt.Sprintf(" (%d short)", plate.Short)
		}
		p.row("  ", 26, fmt.Sprintf("%2d  %s", plate.Number, plate.Guest), gets)
	}
	for _, short := range plan.Short {
		p.wrapped("  ! ", capital(short.Says))
	}
}

func planBounds(p *page, plan ask.Plan) {
	if len(plan.Bounds) == 0 {
		return
	}
	p.heading("What held it back")
	for _, bound := range plan.Bounds {
		p.wrapped("  ", capital(bound.Says))
	}
}

// planLots shows the lift: what goes to the kitchen and what never does.
func planLots(p *page, plan ask.Plan) {
	if len(plan.Lots)+len(plan.SetAside) == 0 {
		return
	}
	p.heading("Lifted, for the kitchen")
	for _, lot := range plan.Lots {
		says := fmt.Sprintf("%s, %s used", grams(lot.Supply), usedOf(lot))
		if lot.First {
			says += "; use today"
		}
		p.row("  ", 44, fmt.Sprintf("%s: %s, %s, %s", lot.Planting, lot.Crop, sizes(lot.LowMM, lot.HighMM), lot.Condition), says)
	}
	for _, aside := range plan.SetAside {
		p.wrapped("  ", fmt.Sprintf("Set aside: %s of %s (%s). %s", grams(aside.Grams), aside.Crop, aside.Name, capital(aside.Because)))
	}
}

// usedOf is how much of a lot the dishes take: "all", "none" or the weight.
func usedOf(lot ask.Lot) string {
	used := grams(lot.Taken)
	switch {
	case lot.Taken.Round(0).IsZero():
		return "none"
	case used == grams(lot.Supply):
		return "all"
	}
	return used
}

// planDish is one dish as the cook needs it.
func planDish(p *page, number int, dish ask.Dish) {
	p.heading(fmt.Sprintf("%d  %s: %s, %s", number, dish.Name, count(dish.Portions, "portion", "portions"), dish.Served))
	for _, crop := range dish.Crops {
		planCrop(p, crop)
	}
	for _, other := range dish.Others {
		p.row("   ", 22, itemOf(other), measuredOf(other))
	}
	for i, step := range dish.Method {
		p.wrapped(fmt.Sprintf("   %d. ", i+1), step)
	}
	p.wrapped("   ", allergensLine(dish.Allergens))
	for _, note := range dish.Notes {
		p.wrapped("   Last time: ", note)
	}
	for _, caution := range dish.Cautions {
		p.wrapped("   ! ", caution)
	}
}

func planCrop(p *page, crop ask.CropPart) {
	weight := grams(crop.Lifted) + " as lifted"
	if crop.Preparation != "" && crop.Preparation != "as-lifted" {
		weight += ", " + grams(crop.Prepared) + " " + crop.Preparation
	}
	if crop.Cooked.IsPositive() {
		weight += ", about " + grams(crop.Cooked) + " cooked"
	}
	p.row("   ", 22, crop.Crop, weight)
	var from []string
	for _, take := range crop.From {
		from = append(from, grams(take.Grams)+" of "+take.Name)
	}
	if len(from) > 0 {
		p.row("   ", 22, "", "take "+ask.Listed(from))
	}
	if len(crop.Cuts) > 0 {
		p.row("   ", 22, "", "cut: "+cutsLine(crop.Cuts))
	}
	if crop.CutNote != "" {
		p.row("   ", 22, "", crop.CutNote)
	}
	if len(crop.Cuts) == 0 && crop.Cut != "" {
		p.row("   ", 22, "", "cut: "+crop.Cut)
	}
	if crop.Steam != nil {
		p.row("   ", 22, "", steamLine(crop))
	}
}

// cutsLine is the cutting of all sizes in one line.
func cutsLine(cuts []ask.CutPart) string {
	var words []string
	for _, cut := range cuts {
		text := cut.How
		if len(cuts) > 1 && cut.HighMM > 0 {
			text = fmt.Sprintf("%d-%d mm %s", cut.LowMM, cut.HighMM, cut.How)
		}
		if cut.Note != "" {
			text += " (" + cut.Note + ")"
		}
		words = append(words, text)
	}
	return strings.Join(words, ", ")
}

func steamLine(crop ask.CropPart) string {
	s := crop.Steam
	text := fmt.Sprintf("steam %s from full steam, %s; knife test from %s, up to %s",
		minutes(s.Minutes), crop.Until, whole(s.Low), minutes(s.High))
	if s.Rounds > 0 {
		text += fmt.Sprintf("; %s, %s", count(s.Layers, "layer", "layers"), count(s.Rounds, "round", "rounds"))
	}
	if len(s.With) > 0 {
		text += ", together with " + ask.Listed(s.With)
	}
	if s.WaterML > 0 {
		text += fmt.Sprintf("; %s of water", litres(s.WaterML))
	}
	for _, note := range s.Notes {
		text += "; " + note
	}
	return text
}

func itemOf(line ask.Line) string {
	text := line.Item
	if line.State != "" && !strings.Contains(text, line.State) {
		text += ", " + line.State
	}
	return text
}

// measuredOf writes an amount as the cook measures it, with what else is
// worth saying of it.
func measuredOf(line ask.Line) string {
	text := line.Measured
	switch {
	case line.Flag:
		text += " (exactly " + exactOf(line) + ": more than a tenth off)"
	case line.ShowExact:
		text += " (exactly " + exactOf(line) + ")"
	}
	for _, instead := range line.Instead {
		text += ", or " + instead
	}
	if line.Optional {
		text += ", if you like"
	}
	if line.Advice != "" {
		text += "; " + line.Advice
	}
	if line.FromPlot && len(line.Dishes) == 0 {
		text += " (plot)"
	}
	return text
}

func exactOf(line ask.Line) string {
	unit := ""
	if word := units.KitchenWord(line.Unit); word != "" {
		unit = " " + word
	}
	if line.Exact == "" {
		return line.Low + "-" + line.High + unit
	}
	return line.Exact + unit
}

func allergensLine(a ask.Allergens) string {
	text := "Allergens: none known"
	if len(a.Contains) > 0 {
		text = "Allergens: " + ask.Listed(a.Contains)
	}
	if len(a.May) > 0 {
		text += "; may hold " + ask.Listed(a.May)
	}
	return text + ". Check the labels."
}

func planLines(p *page, title string, lines []ask.Line) {
	if len(lines) == 0 {
		return
	}
	p.heading(title)
	for _, line := range lines {
		p.row("  [ ] ", 24, itemOf(line), measuredOf(line))
	}
}

func planTimetable(p *page, plan ask.Plan) {
	if len(plan.Timetable) == 0 {
		if plan.AllowMinutes > 0 {
			p.heading("Allow " + minutes(plan.AllowMinutes) + " from the first task to serving; --serve-at 18:30 makes a timetable")
		}
		return
	}
	p.heading("Timetable")
	for _, task := range plan.Timetable {
		p.wrapped("  "+padLeft(clockOn(task.At, plan.On), 5)+padLeft(minutes(task.Minutes), 12)+"  ", task.Do)
	}
}

func planLeft(p *page, plan ask.Plan) {
	if len(plan.Left) == 0 {
		return
	}
	p.heading("Left over")
	for _, left := range plan.Left {
		if left.Grams.Round(0).IsZero() {
			continue
		}
		text := fmt.Sprintf("%s of %s (%s)", grams(left.Grams), left.Crop, left.Name)
		if left.Advice != "" {
			text += ": " + left.Advice
		}
		p.wrapped("  ", text)
	}
}

func planKeep(p *page, plan ask.Plan) {
	if len(plan.Keep)+len(plan.Cautions) == 0 {
		return
	}
	p.heading("Keep it safe")
	for _, note := range plan.Keep {
		p.wrapped("  - ", note.Says)
	}
	for _, caution := range plan.Cautions {
		p.wrapped("  - ", caution)
	}
}

func planWhy(p *page, plan ask.Plan) {
	p.heading("Why")
	if plan.Mode != "dish" {
		p.row("  ", 22, "used first", plan.Levels.UseFirst.String()+" g of lots to be used today")
		p.row("  ", 22, "balance", "every dish has at least "+plan.Levels.Balance+" portions for each 1 of its wish")
		p.row("  ", 22, "portions", fmt.Sprint(plan.Levels.Portions))
		p.row("  ", 22, "search", plan.Levels.Effort)
	}
	for _, r := range plan.Reasons {
		p.row("  ", 22, r.Figure, fmt.Sprintf("%s. %s (%s)", strings.TrimRight(r.Value, "."), strings.TrimRight(r.Source, "."), r.KnownBy))
	}
}
