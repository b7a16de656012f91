package page

import (
	"context"
	"net/http"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
)

// fridgeScreen is what was cooked and is still there, the most urgent first,
// and the form for what has just happened to some of it.
type fridgeScreen struct {
	Done, Answer                  string
	Warnings                      []harvest.Warning
	Batches                       []keptBatch
	Planned                       []plannedBatch
	Cautions                      []string
	Mend                          []mending
	Once, Replaces                string
	Event, Name, Food, Amount, At field
}

// plannedBatch is a dish of the plan written down last that nobody has logged as
// cooked.
type plannedBatch struct{ Once, Name, Dish, Plan, Amount string }

type keptBatch struct {
	Title, Head, Sentence string
	Warnings              []string
	Out                   bool // to be thrown out

	Once, Name string
	Touches    []option // what can happen to it now, each one touch
}

// touches are what a button says of a whole batch.
var touches = map[string]string{
	harvest.KindChilled:  "Into the fridge",
	harvest.KindOut:      "Onto the table",
	harvest.KindReheated: "Heated up",
	harvest.KindEaten:    "All eaten",
	harvest.KindBinned:   "Thrown out",
}

// happenings are what can happen to a cooked batch.
var happenings = []option{
	{harvest.KindCooked, "was cooked"},
	{harvest.KindChilled, "went into the fridge"},
	{harvest.KindOut, "came out onto the table"},
	{harvest.KindReheated, "was heated up"},
	{harvest.KindEaten, "was eaten"},
	{harvest.KindBinned, "was thrown out"},
}

func (p *Page) readFridge(r *http.Request) (fridgeScreen, error) {
	view := fridgeScreen{
		Once:   typed(r, "once"),
		Name:   field{Name: "name", Label: "What", Hint: "A name to know it by, such as potato salad."},
		Event:  field{Name: "event", Label: "What happened", Value: harvest.KindCooked, Options: happenings},
		Food:   field{Name: "food", Label: "If it was cooked: what it is", Options: foodOptions()},
		Amount: field{Name: "amount", Label: "How much", Hint: "In portions or by weight; empty for all of it."},
		At:     field{Name: "at", Label: "When", Type: "datetime-local", Hint: "Leave it empty for now."},
	}
	if view.Once == "" {
		view.Once = p.written.token()
	}
	view.Replaces = correctedFile(r)
	before, err := p.corrected(r.Context(), view.Replaces)
	if event, ok := before.(*harvest.BatchEvent); ok {
		view.fillFrom(event)
	}
	for _, f := range view.boxes() {
		f.read(r)
	}
	return view, err
}

func (view *fridgeScreen) boxes() []*field {
	return []*field{&view.Name, &view.Event, &view.Food, &view.Amount, &view.At}
}

func foodOptions() []option {
	options := []option{{"", "the dish of that name"}}
	for _, food := range keeping.BatchFoods() {
		options = append(options, option{food, strings.ReplaceAll(food, "-", " ")})
	}
	return options
}

// fill judges what is there now.
func (p *Page) fill(ctx context.Context, view *fridgeScreen) error {
	answer, err := ask.KeepBatches(ctx, ask.KeepQuestion{PlotRef: p.ask()})
	if err != nil {
		return err
	}
	view.Warnings, view.Answer = answer.Warnings, "Nothing cooked is left."
	for _, batch := range answer.Batches {
		kept := keptBatch{Title: render.BatchTitle(batch), Head: batch.Verdict.Head, Sentence: batch.Verdict.Sentence,
			Out: batch.Verdict.Kind == keeping.Discard || batch.Verdict.Kind == keeping.Unknown}
		kept.Once, kept.Name = p.written.token(), batch.Name
		for _, event := range batch.Fitting() {
			kept.Touches = append(kept.Touches, option{event, touches[event]})
		}
		for _, warning := range batch.Verdict.Warnings {
			kept.Warnings = append(kept.Warnings, warning.Says)
		}
		view.Batches = append(view.Batches, kept)
		view.Cautions, view.Answer = batch.Verdict.Cautions, ""
	}
	if log, err := ask.BatchLog(p.ask()); err == nil { // nobody writes to the demo
		_, words := log.Planned(ctx)
		for _, w := range words {
			view.Planned = append(view.Planned, plannedBatch{p.written.token(), w.Name, w.Dish, w.Plan, w.Amount})
		}
	}
	return nil
}

func (p *Page) showFridge(w http.ResponseWriter, r *http.Request) {
	view, err := p.readFridge(r)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	view.Done = p.written.of(r)
	p.answerFridge(w, r, http.StatusOK, view)
}

func (p *Page) answerFridge(w http.ResponseWriter, r *http.Request, status int, view fridgeScreen) {
	if err := p.fill(r.Context(), &view); err != nil {
		p.fail(w, r, err)
		return
	}
	p.show(w, r, status, "fridge", screen{Title: "In the fridge", Data: view})
}

func (p *Page) takeFridge(w http.ResponseWriter, r *http.Request) {
	view, err := p.readFridge(r)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	q := meal.EventWords{Replaces: view.Replaces, Event: view.Event.Value, Name: view.Name.Value, At: view.At.Value, Amount: view.Amount.Value}
	if q.Event == harvest.KindCooked {
		q.Food, q.Dish, q.Plan = view.Food.Value, typed(r, "dish"), typed(r, "plan")
	}
	view.Event.Wrong = notAmong(view.Event)
	if view.Name.Value == "" {
		view.Name.Wrong = "Its name is missing."
	}
	view.Mend = wrongs(view.boxes()...)
	if len(view.Mend) == 0 {
		err := p.written.do(r, &view.Once, func(form string) (string, error) {
			return insisting(r, func(sure bool) (string, error) {
				where := p.ask()
				where.Sure, where.Form = sure, form
				return logEvent(r.Context(), where, q)
			})
		})
		view.Mend = mendings(err, map[string]string{"at": "at", "batch": "name", "food": "food", "amount": "amount"})
		beside(view.Mend, view.boxes()...)
	}
	if len(view.Mend) > 0 {
		p.answerFridge(w, r, http.StatusUnprocessableEntity, view)
		return
	}
	http.Redirect(w, r, "/fridge?done="+view.Once, http.StatusSeeOther)
}

func logEvent(ctx context.Context, where ask.PlotRef, q meal.EventWords) (string, error) {
	log, err := ask.BatchLog(where)
	if err != nil {
		return "", err
	}
	answers, err := log.Write(ctx, q)
	if err != nil {
		return "", err
	}
	answer := answers[0]
	says := "Written down: " + answer.Event.Name + "."
	if answer.Batch != nil {
		says += " " + answer.Batch.Verdict.Head
	}
	return says, nil
}
