package render

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/recipes/keeping"
	"trencher/recipes/meal"
)

// planView is a plan in words: every figure already written out, so that the
// template only places them.
type planView struct {
	Title    string
	Answer   string // the whole answer in one sentence
	Plot     string
	Have     string // water, gas and fillings of the steamer
	Dangers  []string
	Warnings []string
	Lots     []lotView
	SetAside []string
	Strip    *stripView
	Tasks    []taskView
	Dishes   []dishView
	LeftOut  []leftOutView
	Left     []string
	Plates   []plateView
	Short    []string
	Bounds   []string
	Pick     []lineView
	Buy      []lineView
	Cupboard []lineView // of what is to buy, what most kitchens have
	Keep     []string
	Clean    []string // of the plot's hygiene
	Cautions []string
	Found    []string // the dishes, to write down how each went
}

type lotView struct {
	ID, What, Supply, Taken string
	Today                   bool
	KeepsUntil              string
}

type leftOutView struct{ Dish, Because string }

type taskView struct {
	Number                    int
	At, Moment, For, Do, Uses string
}

type dishView struct {
	Name, Portions, Served string
	Crops                  []cropView
	Lines                  []lineView
	Method                 []string
	Contains, May          string
	Notes, Cautions        []string
	Foot                   string // which card of the sheet it is
}

type cropView struct {
	Crop, Prepared, From, Cut string
	Steam                     string
	SteamNotes                []string
	Load, CutNote             string
	Cuts                      []cutView
}

type cutView struct {
	Sizes, How, Minutes string
	Picture             *cutPicture
}

type lineView struct {
	Amount, Item, Exact, Advice, For string
	FromPlot                         bool
}

type plateView struct {
	Guests, Dishes, Short string
}

func viewPlan(p meal.Plan) planView {
	view := planView{
		Title:    planTitle(p),
		Answer:   planAnswer(p),
		Plot:     p.Plot,
		Have:     joinNonEmpty(" ", atHandWords(p), timingWords(p)),
		Strip:    viewStrip(p),
		Tasks:    viewTasks(p),
		Pick:     viewWants(p.Pick),
		Buy:      append(viewWants(p.ToBuy()), bringing(p)...),
		Cupboard: viewWants(p.InCupboard()),
		Cautions: p.Cautions,
		Keep:     viewKeep(p),
		Clean:    plotLines(p),
	}
	view.Dangers, view.Warnings = viewWarnings(p)
	for _, lot := range p.Lots {
		view.Lots = append(view.Lots, viewLot(lot))
	}
	for _, lot := range p.SetAside {
		view.SetAside = append(view.SetAside, grams(lot.Weight)+" of "+lot.Name+": "+asideWords(lot))
	}
	for d := range p.Dishes {
		view.Dishes = append(view.Dishes, viewDish(p, d))
		view.Found = append(view.Found, p.Dishes[d].Name())
	}
	view.LeftOut = leftOutRows(p.LeftOut)
	for _, left := range p.Left {
		if left.Grams.Round(0).Sign() > 0 { // less than half a gram is nobody's concern
			view.Left = append(view.Left, grams(left.Grams)+" of "+left.Name+": "+leftAdvice(left.Lot))
		}
	}
	for _, plate := range p.Plates {
		view.Plates = append(view.Plates, viewPlate(p, plate))
	}
	for _, short := range p.Short {
		view.Short = append(view.Short, sentence(shortfallWords(short)))
	}
	for _, bound := range worthTelling(p) {
		view.Bounds = append(view.Bounds, sentence(boundWords(bound, p)))
	}
	return view
}

// viewWarnings parts what could harm somebody from the rest.
func viewWarnings(p meal.Plan) (dangers, others []string) {
	for _, w := range p.Warnings {
		says := joinNonEmpty(" ", sentence(warningWords(w, p)), mendWords(w, p))
		if w.Severity == meal.Danger {
			dangers = append(dangers, says)
		} else {
			others = append(others, says)
		}
	}
	return dangers, others
}

// viewKeep puts the notes about the same dishes behind one mention of them; the
// plot's hygiene stands by itself.
func viewKeep(p meal.Plan) []string {
	var all []string
	var about []string
	for _, note := range p.Keep {
		switch {
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

func viewLot(lot meal.LotUse) lotView {
	view := lotView{
		ID:     lot.Name,
		What:   joinNonEmpty(", ", joinNonEmpty(" ", lot.Crop, lot.Variety), lot.Sizes.String(), string(lot.Condition)),
		Supply: grams(lot.Supply),
		Taken:  grams(lot.Taken) + " taken",
		Today:  lot.First,
	}
	allTaken := lot.Left().Round(0).IsZero()
	if allTaken {
		view.Taken = "all taken"
	}
	if !lot.KeepsUntil.IsZero() && !allTaken && !lot.First {
		view.KeepsUntil = day(lot.KeepsUntil)
	}
	return view
}

func viewTasks(p meal.Plan) []taskView {
	var views []taskView
	for i, step := range p.Steps {
		views = append(views, taskView{
			Number: i + 1,
			At:     clockOn(step.At, p.On), Moment: step.At.Format("2006-01-02T15:04Z07:00"),
			For: span(step.Length.Minutes()), Do: stepWords(p, step), Uses: lane(step),
		})
	}
	return views
}

func viewDish(p meal.Plan, d int) dishView {
	dish := p.Dishes[d]
	contains, may := allergenWords(dish)
	view := dishView{
		Name:     dish.Name(),
		Portions: portions(dish.Portions),
		Served:   servedWord(p, dish),
		Method:   dish.Recipe.Method,
		Contains: strings.Join(contains, ", "),
		May:      strings.Join(may, ", "),
		Notes:    tastingWords(dish),
		Cautions: dishCautions(p, dish),
		Foot:     fmt.Sprintf("Card %d of %d, %s", d+1, len(p.Dishes), longDate(p.On)),
	}
	for _, line := range dish.Scaled.Others {
		view.Lines = append(view.Lines, viewLine(scaledWords(line)))
	}
	for i := range dish.Parts {
		view.Crops = append(view.Crops, viewCrop(p, meal.PartAt{Dish: d, Part: i}))
	}
	return view
}

func viewCrop(p meal.Plan, at meal.PartAt) cropView {
	part := partOfPlan(p, at)
	view := cropView{
		Crop:     part.Line.Crop,
		Prepared: joinNonEmpty(" ", grams(part.Prepared), part.Line.Prepared),
		From:     lifted(part),
		Cut:      part.Line.Cut,
		CutNote:  unevenWords(part),
	}
	if view.Steam = ownTimeWords(part.Line); part.Pot != nil {
		view.Steam = potLine(part)
	}
	if part.Line.IsRaw() {
		view.Steam = "raw"
	}
	if part.Steam != nil {
		view.Steam = steamWords(part)
		view.Load = loadWords(p, at)
		view.SteamNotes = part.Steam.Estimate.Outside
	}
	for _, cut := range part.Cuts {
		how := cutWords(part, cut)
		view.Cuts = append(view.Cuts, cutView{
			Sizes:   bandWords(cut.Sizes),
			How:     how,
			Minutes: band(cut.Minutes, cut.Low, cut.High),
			Picture: drawCut(cut, how),
		})
	}
	return view
}

func viewWants(wants []meal.Want) []lineView {
	var views []lineView
	for _, want := range wants {
		views = append(views, viewLine(wantWords(want)))
	}
	return views
}

func viewLine(words lineWords) lineView {
	view := lineView{Amount: words.Measured, Item: words.Item, FromPlot: words.FromPlot, For: strings.Join(words.Dishes, ", ")}
	var advice []string
	if words.Optional {
		advice = append(advice, "if you like")
	}
	for _, instead := range words.Instead {
		advice = append(advice, "or "+instead)
	}
	view.Advice = joinNonEmpty("; ", strings.Join(advice, ", "), words.Advice)
	if words.Exact != "" {
		view.Exact = "exactly " + words.Exact
	}
	if words.Flag {
		view.Exact += ": more than a tenth off"
	}
	return view
}

func viewPlate(p meal.Plan, plate meal.Plate) plateView {
	dishes := append(slices.Clone(plate.Dishes), apartOnPlate(p, plate)...)
	view := plateView{
		Guests: strconv.Itoa(plate.Number) + " × " + plate.Guest.Label(),
		Dishes: strings.Join(dishes, ", "),
	}
	if len(dishes) == 0 {
		view.Dishes = "nothing suits"
	}
	if plate.Short > 0 {
		view.Short = count(plate.Short, "helping", "helpings") + " short"
	}
	return view
}

// planAnswer is the whole plan in one sentence.
func planAnswer(p meal.Plan) string {
	if len(p.Dishes) == 0 {
		return "Nothing to cook from this stock."
	}
	made, taken := 0, decimal.Zero
	for _, dish := range p.Dishes {
		made += dish.Portions
		for _, part := range dish.Parts {
			taken = taken.Add(part.Lifted)
		}
	}
	of := p.Dishes[0].Name()
	if len(p.Dishes) > 1 {
		of = count(len(p.Dishes), "dish", "dishes")
	}
	answer := portions(made) + " of " + of + " from " + grams(taken) + " of the crop."
	if len(p.Steps) > 0 {
		answer += " Start at " + clockOn(p.Steps[0].At, p.On) + "."
	}
	return answer
}
