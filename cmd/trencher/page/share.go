package page

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/recipes/meal"
)

// shareForm is the question how to share out what is on hand, and its answer.
type shareForm struct {
	Once, Done            string
	Dishes                []dishChoice
	Chosen                int  // how many of them are
	Folded                bool // they are too many for the top of a screen
	Serve, Guests, Sides  field
	Many, Rounds          field
	Limits, KeepBack, Air field
	Mend                  []mending
	Asked                 bool // there is a question, not just an empty form
	Heading               string
	Plan                  render.Screen
	Made                  bool // the plan makes something
	Timed                 bool // the plan has a timetable
	Sheet, Calendar       string
	Again                 []option // the question once more, for the form that records it
	Shown, Stock          string   // the plan's id, and the fingerprint of what it was made from
}

type dishChoice struct {
	Number int
	Name   string
	Chosen bool
}

// mostAtOnce is how many dishes stand open at the top of the form: about what a
// phone's screen holds.
const mostAtOnce = 15

// mostLines bounds the lines of guests or limits in one question.
const mostLines = 60

// readShare reads the question; with none asked all dishes are chosen.
func (p *Page) readShare(r *http.Request) (shareForm, error) {
	names, err := ask.DishNames(p.ask())
	if err != nil {
		return shareForm{}, err
	}
	form := shareForm{
		Once:     p.written.token(),
		Asked:    r.Form.Has("go"),
		Serve:    field{Name: "serve", Label: "On the table at", Type: "time", Value: p.serveAt, Hint: "Empty for as soon as can be."},
		Guests:   field{Name: "guests", Label: "Who eats", Hint: "One kind a line: 6 adults; 2 adults no milk, egg; 3 children vegetarian. Empty for the household of kitchen.yaml, or else to make as many portions as there are."},
		Sides:    field{Name: "sides", Label: "Dishes each guest takes", Value: "2", Keys: "numeric"},
		Many:     field{Name: "many", Label: "How many dishes", Keys: "numeric", Hint: "Empty for as few as feed everybody, or what the kitchen is used to."},
		Rounds:   field{Name: "rounds", Label: "Fillings of the steamer, at most", Keys: "numeric", Hint: "Empty for as many as it takes."},
		Limits:   field{Name: "limits", Label: "No more than", Hint: "One a line: butter = 150 g."},
		KeepBack: field{Name: "keep", Label: "Hold back", Hint: "One a line: 500 g potato."},
		Air:      field{Name: "air", Label: "Air where the food stands", Hint: "Such as 24 C; empty for the kitchen's room."},
	}
	chosen := map[string]bool{}
	for _, name := range r.Form["dish"] {
		chosen[name] = true
	}
	for i, name := range names {
		dish := dishChoice{i + 1, name, chosen[name] && !r.Form.Has("tick") || !form.Asked && typed(r, "tick") != "none"}
		if form.Dishes = append(form.Dishes, dish); dish.Chosen {
			form.Chosen++
		}
	}
	form.Folded = len(names) > mostAtOnce
	for _, f := range form.boxes() {
		f.read(r)
	}
	return form, nil
}

func (form *shareForm) boxes() []*field {
	return []*field{&form.Serve, &form.Guests, &form.Sides, &form.Many, &form.Rounds, &form.Limits, &form.KeepBack, &form.Air}
}

// question is the form as package ask asks it. Dish names are those of the
// plot, whatever was sent.
func (form *shareForm) question(where ask.PlotRef) ask.ShareWords {
	q := ask.ShareWords{Plot: where, PlanWords: meal.PlanWords{ServeAt: form.Serve.Value, Air: form.Air.Value,
		Eaters: meal.EaterWords{Guests: lines(form.Guests.Value), Sides: form.Sides.Value, Dishes: form.Many.Value, Rounds: form.Rounds.Value},
		Limits: lines(form.Limits.Value), KeepBack: lines(form.KeepBack.Value)}}
	for _, dish := range form.Dishes {
		if dish.Chosen {
			q.Only = append(q.Only, dish.Name)
		}
	}
	if form.Chosen == len(form.Dishes) {
		q.Only = nil // all of them: none in particular
	}
	if form.Chosen == 0 {
		form.Mend = append(form.Mend, mending{Field: "dishes", Says: "Choose a dish at least."})
	}
	form.Mend = append(form.Mend, wrongs(form.boxes()...)...)
	return q
}

// lines are the lines that say something, at most mostLines.
func lines(text string) []string {
	var kept []string
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" && len(kept) < mostLines {
			kept = append(kept, line)
		}
	}
	return kept
}

var shareFields = map[string]string{"serve-at": "serve", "guests": "guests", "sides": "sides", "dishes": "many", "rounds": "rounds", "limit": "limits", "keep-back": "keep", "air": "air", "only": "dishes", "plan": "record"}

// atWork waits for one of the few places for what uses a whole core. Call what
// it returns when that is done.
func (p *Page) atWork(ctx context.Context) (done func(), err error) {
	select {
	case p.planning <- struct{}{}:
		return func() { <-p.planning }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// plan asks package ask: table when there are guests, else share.
func (p *Page) plan(ctx context.Context, q ask.ShareWords) (ask.MealAnswer, error) {
	done, err := p.atWork(ctx)
	if err != nil {
		return ask.MealAnswer{}, err
	}
	defer done()
	job := ask.Share
	if len(q.Eaters.Guests) > 0 {
		job = ask.Table
	}
	answer, err := job(ctx, q)
	if nothing := (*meal.NothingMadeError)(nil); errors.As(err, &nothing) {
		return ask.MealAnswer{Plan: nothing.Plan}, nil // the page shows why
	}
	return answer, err
}

func (p *Page) showShare(w http.ResponseWriter, r *http.Request) {
	form, err := p.readShare(r)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	form.Done = p.written.of(r)
	p.showSlowly(w, r, "share", screen{Title: "Share out"}, func() (int, any) {
		return form.answer(p, r), form
	})
}

// answer fills the form with the plan, or with what to mend.
func (form *shareForm) answer(p *Page, r *http.Request) (status int) {
	if !form.Asked {
		return http.StatusOK
	}
	q := form.question(p.ask())
	if len(form.Mend) > 0 {
		return http.StatusUnprocessableEntity
	}
	answer, err := p.plan(r.Context(), q)
	plan := answer.Plan
	if err == nil {
		form.Plan, err = render.PlanScreen(plan, p.now())
	}
	if err != nil {
		form.Mend = mendings(err, shareFields)
		beside(form.Mend, form.boxes()...)
		return http.StatusUnprocessableEntity
	}
	if answer.Record != nil { // there is nothing to record where nothing can be made
		form.Shown, form.Stock = answer.Record.ID, answer.Record.Stock
	}
	form.Heading, form.Made, form.Timed = render.PlanTitle(plan), len(plan.Dishes) > 0, len(plan.Steps) > 0
	asked := form.again()
	form.Sheet, form.Calendar = "/share/sheet?"+asked.Encode(), "/share/calendar?"+asked.Encode()
	for _, name := range sortedKeys(asked) {
		for _, value := range asked[name] {
			form.Again = append(form.Again, option{name, value})
		}
	}
	return http.StatusOK
}

// again is the question as its address holds it.
func (form *shareForm) again() url.Values {
	asked := url.Values{"go": {"1"}}
	for _, dish := range form.Dishes {
		if dish.Chosen {
			asked.Add("dish", dish.Name)
		}
	}
	for _, f := range form.boxes() {
		asked.Set(f.Name, f.Value)
	}
	return asked
}

// errNothingTaken is why a plan is not written down when its stock has gone since.
var errNothingTaken = errors.New("nothing can be made of what is on hand now: the stock has changed since this plan was made; nothing was written")

// recordShare writes what the plan takes of each lot into the journal.
func (p *Page) recordShare(w http.ResponseWriter, r *http.Request) {
	form, err := p.readShare(r)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	q := form.question(p.ask())
	q.Take, q.Shown, q.Stock = true, typed(r, "plan"), typed(r, "stock")
	token := typed(r, "once")
	if len(form.Mend) == 0 {
		err = p.written.doIn(&p.written.records, r, &token, func(form string) (string, error) {
			q.Plot.Form = form
			answer, err := p.plan(r.Context(), q)
			if err == nil && answer.Record == nil {
				err = errNothingTaken
			}
			return render.PlanAnswer(answer.Plan) + " Written down as used.", err
		})
		form.Mend = mendings(err, shareFields)
	}
	if len(form.Mend) > 0 {
		why := form.Mend
		form.Mend = nil
		if form.answer(p, r); len(form.Mend) == 0 { // the plan as it is now, to be recorded instead
			form.Mend = why
		}
		p.show(w, r, http.StatusUnprocessableEntity, "share", screen{Title: "Share out", Data: form})
		return
	}
	http.Redirect(w, r, "/?done="+token, http.StatusSeeOther)
}

// sendSheet answers with the sheet to print.
func (p *Page) sendSheet(w http.ResponseWriter, r *http.Request) {
	plan, ok := p.planOf(w, r)
	if !ok {
		return
	}
	var sheet strings.Builder
	if err := render.Sheet(&sheet, plan); err != nil {
		p.fail(w, r, err)
		return
	}
	sendPrintable(w, sheet.String(), render.SheetStyle())
}

// sendCalendar answers with the timetable for the phone's own calendar.
func (p *Page) sendCalendar(w http.ResponseWriter, r *http.Request) {
	plan, ok := p.planOf(w, r)
	if !ok {
		return
	}
	var calendar strings.Builder
	if err := render.Calendar(&calendar, plan, p.now(), ""); err != nil {
		p.refuse(w, r, http.StatusUnprocessableEntity, "There is no timetable: nothing can be made.")
		return
	}
	w.Header().Set("Content-Disposition", `attachment; filename="trencher-`+plan.On.Format("2006-01-02")+`.ics"`)
	send(w, "text/calendar; charset=utf-8", calendar.String())
}

// planOf is the plan a request's address asks for.
func (p *Page) planOf(w http.ResponseWriter, r *http.Request) (meal.Plan, bool) {
	form, err := p.readShare(r)
	if err == nil {
		q := form.question(p.ask())
		if len(form.Mend) > 0 {
			p.refuse(w, r, http.StatusUnprocessableEntity, form.Mend[0].Says)
			return meal.Plan{}, false
		}
		var answer ask.MealAnswer
		if answer, err = p.plan(r.Context(), q); err == nil {
			return answer.Plan, true
		}
	}
	p.fail(w, r, err)
	return meal.Plan{}, false
}
