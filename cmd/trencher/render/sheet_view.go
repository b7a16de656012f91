package render

import (
	"cmp"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/cmd/trencher/ask"
)

// planView is a plan in words: every figure already written out, so that the
// template only places them.
type planView struct {
	Title    string
	Answer   string // the whole answer in one sentence
	Plot     string
	Warnings []string
	Lots     []lotView
	SetAside []string
	Strip    *stripView
	Tasks    []taskView
	Dishes   []dishView
	LeftOut  []ask.LeftOut
	Left     []string
	Plates   []plateView
	Short    []string
	Bounds   []string
	Pick     []lineView
	Buy      []lineView
	Keep     []string
	Cautions []string
}

type lotView struct {
	ID, What, Supply, Taken string
	Today                   bool
	KeepsUntil              string
}

type taskView struct {
	Number                  int
	At, Moment, For, Do     string
	Dish, Uses, UsesInWords string
}

type dishView struct {
	Name, Portions, Served string
	Crops                  []cropView
	Lines                  []lineView
	Method                 []string
	Contains, May          string
	Notes, Cautions        []string
}

type cropView struct {
	Crop, Prepared, From, Cut string
	Steam                     string
	SteamNotes                []string
	Load, CutNote             string
	Cuts                      []cutView
}

type cutView struct {
	Sizes, How, Minutes, Note string
	Picture                   *cutPicture
}

type lineView struct {
	Amount, Item, Exact, Advice, For string
	FromPlot                         bool
}

type plateView struct {
	Guests, Dishes, Short string
}

func viewPlan(p ask.Plan) planView {
	view := planView{
		Title:    planTitle(p),
		Answer:   planAnswer(p),
		Plot:     p.Plot,
		Warnings: p.Warnings,
		Strip:    viewStrip(p),
		Tasks:    viewTasks(p),
		LeftOut:  p.LeftOut,
		Short:    sayings(p.Short),
		Bounds:   sayings(p.Bounds),
		Pick:     viewLines(p.Pick, true),
		Buy:      viewLines(p.Buy, true),
		Cautions: p.Cautions,
	}
	for _, lot := range p.Lots {
		view.Lots = append(view.Lots, viewLot(lot))
	}
	for _, lot := range p.SetAside {
		view.SetAside = append(view.SetAside, grams(lot.Grams)+" of "+cmp.Or(lot.Name, lot.Lot)+": "+lot.Because)
	}
	for _, dish := range p.Dishes {
		view.Dishes = append(view.Dishes, viewDish(dish))
	}
	for _, left := range p.Left {
		if left.Grams.Round(0).Sign() > 0 { // less than half a gram is nobody's concern
			view.Left = append(view.Left, joinNonEmpty(": ", grams(left.Grams)+" of "+cmp.Or(left.Name, left.Lot), left.Advice))
		}
	}
	for _, plate := range p.Plates {
		view.Plates = append(view.Plates, viewPlate(plate))
	}
	view.Keep = gathered(p.Keep)
	return view
}

func viewLot(lot ask.Lot) lotView {
	view := lotView{
		ID:     cmp.Or(lot.Name, lot.ID),
		What:   joinNonEmpty(", ", joinNonEmpty(" ", lot.Crop, lot.Variety), gradedSizes(lot.LowMM, lot.HighMM), lot.Condition),
		Supply: grams(lot.Supply),
		Taken:  grams(lot.Taken) + " taken",
		Today:  lot.First,
	}
	rest := lot.Supply.Sub(lot.Taken).Round(0)
	if rest.IsZero() {
		view.Taken = "all taken"
	}
	if !lot.KeepsUntil.IsZero() && !rest.IsZero() && !lot.First {
		view.KeepsUntil = day(lot.KeepsUntil)
	}
	return view
}

func viewTasks(p ask.Plan) []taskView {
	var views []taskView
	for i, task := range p.Timetable {
		dish := task.Dish
		if strings.Contains(task.Do, dish) {
			dish = ""
		}
		views = append(views, taskView{
			Number: i + 1,
			At:     clockOn(task.At, p.On), Moment: task.At.Format("2006-01-02T15:04Z07:00"),
			For: span(task.Minutes), Do: task.Do, Dish: dish,
			Uses: lane(task.Uses), UsesInWords: laneWords[lane(task.Uses)],
		})
	}
	return views
}

func viewDish(dish ask.Dish) dishView {
	view := dishView{
		Name:     dish.Name,
		Portions: portions(dish.Portions),
		Served:   dish.Served,
		Lines:    viewLines(dish.Others, false),
		Method:   dish.Method,
		Contains: strings.Join(dish.Allergens.Contains, ", "),
		May:      strings.Join(dish.Allergens.May, ", "),
		Notes:    dish.Notes,
		Cautions: dish.Cautions,
	}
	for _, part := range dish.Crops {
		view.Crops = append(view.Crops, viewCrop(part))
	}
	return view
}

func viewCrop(part ask.CropPart) cropView {
	view := cropView{
		Crop:     part.Crop,
		Prepared: joinNonEmpty(" ", grams(part.Prepared), part.Preparation),
		From:     lifted(part),
		Cut:      part.Cut,
		CutNote:  part.CutNote,
	}
	if part.Raw {
		view.Steam = "raw"
	}
	if part.Steam != nil {
		view.Steam = steamWords(*part.Steam, part.Until)
		view.Load = loadWords(*part.Steam)
		view.SteamNotes = part.Steam.Notes
	}
	for _, cut := range part.Cuts {
		view.Cuts = append(view.Cuts, cutView{
			Sizes:   sizes(cut.LowMM, cut.HighMM),
			How:     cut.How,
			Minutes: band(cut.Minutes, cut.Low, cut.High),
			Note:    cut.Note,
			Picture: drawCut(cut),
		})
	}
	return view
}

func viewLines(lines []ask.Line, summed bool) []lineView {
	var views []lineView
	for _, line := range lines {
		views = append(views, viewLine(line, summed))
	}
	return views
}

func viewLine(line ask.Line, summed bool) lineView {
	view := lineView{
		Amount:   line.Measured,
		Item:     joinNonEmpty(", ", line.Item, line.State),
		Advice:   lineAdvice(line),
		FromPlot: line.FromPlot && !summed,
	}
	if line.ShowExact || line.Flag {
		view.Exact = exactly(line)
	}
	if summed {
		view.For = strings.Join(line.Dishes, ", ")
	}
	return view
}

func lineAdvice(line ask.Line) string {
	var parts []string
	if line.Optional {
		parts = append(parts, "if you like")
	}
	if len(line.Instead) > 0 {
		parts = append(parts, "or "+strings.Join(line.Instead, ", or "))
	}
	if line.Advice != "" {
		parts = append(parts, line.Advice)
	}
	return strings.Join(parts, "; ")
}

func viewPlate(plate ask.Plate) plateView {
	view := plateView{
		Guests: strconv.Itoa(plate.Number) + " × " + plate.Guest,
		Dishes: strings.Join(plate.Dishes, ", "),
	}
	if len(plate.Dishes) == 0 {
		view.Dishes = "nothing suits"
	}
	if plate.Short > 0 {
		view.Short = count(plate.Short, "helping", "helpings") + " short"
	}
	return view
}

func sayings(bounds []ask.Bound) []string {
	var says []string
	for _, bound := range bounds {
		says = append(says, sentence(bound.Says))
	}
	return says
}

// planAnswer is the whole plan in one sentence.
func planAnswer(p ask.Plan) string {
	if len(p.Dishes) == 0 {
		return "Nothing to cook from this stock."
	}
	made, taken := 0, decimal.Zero
	for _, dish := range p.Dishes {
		made += dish.Portions
		for _, part := range dish.Crops {
			taken = taken.Add(part.Lifted)
		}
	}
	answer := portions(made)
	if len(p.Dishes) > 1 {
		answer += " of " + count(len(p.Dishes), "dish", "dishes")
	} else {
		answer += " of " + p.Dishes[0].Name
	}
	answer += " from " + grams(taken) + " of the crop."
	if len(p.Timetable) > 0 {
		answer += " Start at " + clockOn(p.Timetable[0].At, p.On) + "."
	}
	return answer
}
