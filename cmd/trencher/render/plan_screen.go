package render

import (
	"embed"
	"fmt"
	"html/template"
	"strconv"
	"strings"
	"sync"
	"time"

	"trencher/harvest"
	"trencher/recipes/meal"
)

//go:embed plan_screen.gohtml
var planScreenFile embed.FS

// planScreenTemplates add the screen of a plan to the parts it shares with the sheet.
var planScreenTemplates = sync.OnceValue(func() *template.Template {
	return template.Must(template.Must(template.ParseFS(sheetFiles, "plan.gohtml", "sheet.gohtml")).ParseFS(planScreenFile, "plan_screen.gohtml"))
})

// Screen is a plan as a phone shows it, in two parts with room between them
// for buttons: what is to be known at once, and the rest, folded.
type Screen struct{ Head, Rest template.HTML }

// PlanScreen is a plan for the page, seen at a moment. The page serves
// PlanStyle with it.
func PlanScreen(plan meal.Plan, now time.Time) (Screen, error) {
	view := viewPlanScreen(plan, now)
	var head, rest strings.Builder
	for name, to := range map[string]*strings.Builder{"head": &head, "rest": &rest} {
		if err := planScreenTemplates().ExecuteTemplate(to, name, view); err != nil {
			return Screen{}, err
		}
	}
	return Screen{template.HTML(head.String()), template.HTML(rest.String())}, nil
}

// planScreen is a plan in words with what only the page shows.
type planScreen struct {
	planView
	Times    []timeView
	Servings []servingView
	Falls    []string // in which it falls short of what was asked
	Notes    []string
	FewNotes bool // few enough to stand open
}

type timeView struct{ What, At string }

// servingView is one dish with its portions drawn.
type servingView struct {
	Number, Name, Served string
	Plates               *platesView
}

// mostOpenNotes are so many as leave the screen short.
const mostOpenNotes = 3

func viewPlanScreen(p meal.Plan, now time.Time) planScreen {
	view := planScreen{planView: viewPlan(p)}
	if len(p.Steps) > 0 {
		view.Times = []timeView{{"Start", clockOn(p.Steps[0].At, p.On)}, {"On the table", clockOn(p.ServeAt, p.On)}}
	}
	for _, dish := range p.Dishes {
		view.Servings = append(view.Servings, servingView{strconv.Itoa(dish.Portions), dish.Name(), servedWord(p, dish), drawPlates(dish.Portions)})
	}
	for _, w := range p.Warnings {
		says := joinNonEmpty(" ", sentence(warningWords(w, p)), mendWords(w, p))
		switch w.Severity {
		case meal.Shortcoming:
			view.Falls = append(view.Falls, says)
		case meal.Notice:
			view.Notes = append(view.Notes, says)
		}
	}
	view.nameLots(p)
	view.FewNotes = len(view.Notes) <= mostOpenNotes
	if view.Strip != nil {
		view.Strip.Now = nowOn(p, now)
	}
	return view
}

// nowOn is where a moment stands along a plan's clock; nil where it lies beyond
// its ends.
func nowOn(p meal.Plan, now time.Time) *tickView {
	place := spanOf(p).place(now)
	if place < 0 || place > 100 {
		return nil
	}
	return &tickView{X: percent(place), Label: clockOn(now.In(p.Steps[0].At.Location()), p.On)}
}

// platesView is a picture of so many portions.
type platesView struct {
	Width, Height int
	Wide, High    string // on the screen, in the reader's own letter size
	Path          string
}

// A plate is 10 across with 2 between them, platesInRow in a row; more than
// mostPlates are a crowd that no picture helps to count.
const (
	platesInRow = 12
	mostPlates  = 48
)

// drawPlates draws each portion as a plate; nil where there are too many.
func drawPlates(portions int) *platesView {
	if portions < 1 || portions > mostPlates {
		return nil
	}
	inRow, rows := min(portions, platesInRow), (portions+platesInRow-1)/platesInRow
	view := &platesView{Width: 12 * inRow, Height: 12 * rows}
	view.Wide, view.High = fmt.Sprintf("%.1f", 0.9*float64(inRow)), fmt.Sprintf("%.1f", 0.9*float64(rows))
	for i := range portions {
		view.Path += fmt.Sprintf("M%d %da5 5 0 1 0 10 0a5 5 0 1 0 -10 0zm2.5 0a2.5 2.5 0 1 1 5 0a2.5 2.5 0 1 1 -5 0z", 12*(i%platesInRow)+1, 12*(i/platesInRow)+6)
	}
	return view
}

// nameLots says which lots the plan takes, and what is left of them, in words
// for whoever fetches the sack. What is under half a gram is nobody's concern.
func (view *planScreen) nameLots(p meal.Plan) {
	view.Lots, view.Left, view.SetAside = nil, nil, nil
	for _, lot := range p.Lots {
		if lot.Taken.Round(0).Sign() > 0 {
			view.Lots = append(view.Lots, lotView{Taken: grams(lot.Taken), What: joinNonEmpty(" ", lot.Crop, lot.Variety) + " from " + lotWords(lot.Lot), Today: lot.First})
		}
	}
	for _, left := range p.Left {
		if left.Grams.Round(0).Sign() > 0 {
			view.Left = append(view.Left, grams(left.Grams)+" of "+left.Crop+" from "+lotWords(left.Lot)+": "+leftAdvice(left.Lot))
		}
	}
	for _, aside := range p.SetAside {
		view.SetAside = append(view.SetAside, grams(aside.Weight)+" of "+aside.Crop+" from "+aside.Planting.ID+" set aside: "+asideWords(aside))
	}
	for d, dish := range p.Dishes {
		for i, part := range dish.Parts {
			var from []string
			for _, take := range part.From {
				from = append(from, grams(take.Grams)+" from "+lotWords(take.Lot))
			}
			view.Dishes[d].Crops[i].From = joinNonEmpty(": ", grams(part.Lifted), strings.Join(from, " + "))
		}
	}
}

// lotWords name a lot as its sack might be described: where it grew, its sizes
// and its condition.
func lotWords(lot *harvest.Lot) string {
	return joinNonEmpty(", ", lot.Planting.ID, bandWords(lot.Sizes), string(lot.Condition))
}
