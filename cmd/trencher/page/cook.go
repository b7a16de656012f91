package page

import (
	_ "embed"
	"errors"
	"net/http"
	"net/url"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
	"trencher/recipes/meal"
	"trencher/units"
)

// script counts down, sounds when a moment has come, keeps the screen on and
// asks for the cooking screen anew. Every screen works without it.
//
//go:embed cook.js
var script string

// weighScript tells the net of the bowls as one types.
//
//go:embed weigh.js
var weighScript string

// Script is the page's scripts, for whoever shows its screens elsewhere.
func Script() string { return script + weighScript }

// cookScreen is the plan that is being cooked.
type cookScreen struct {
	Done string
	Mend []mending
	None string // why there is nothing to follow; "" = there is
	Once string
	render.CookView
}

func (p *Page) showCook(w http.ResponseWriter, r *http.Request) {
	p.answerCook(w, r, http.StatusOK, nil)
}

// answerCook shows the plan that an address names, or the last.
func (p *Page) answerCook(w http.ResponseWriter, r *http.Request, status int, mend []mending) {
	view := cookScreen{Done: p.written.of(r), Mend: mend, Once: p.written.token()}
	log, err := p.cooked(r, p.ask())
	var wrong *units.FieldError
	switch {
	case errors.Is(err, ask.ErrReadOnly):
		view.None = "Nobody writes to the demo, so nothing of it can be cooked."
	case errors.As(err, &wrong):
		view.None = sentence(wrong.Problem)
	case err != nil:
		p.fail(w, r, err)
		return
	default:
		cooking, err := log.Cooking()
		if err != nil {
			p.fail(w, r, err)
			return
		}
		view.CookView = render.Cook(cooking, log.Record.ID)
	}
	p.show(w, r, status, "cook", screen{Title: "Cooking", Again: view.Again, Data: view})
}

// cooked makes the plan that is cooked again.
func (p *Page) cooked(r *http.Request, where ask.PlotRef) (meal.CookLog, error) {
	done, err := p.atWork(r.Context())
	if err != nil {
		return meal.CookLog{}, err
	}
	defer done()
	return ask.Cook(r.Context(), where, planAsked(r))
}

func planAsked(r *http.Request) string {
	if id := typed(r, "plan"); id != "" {
		return id
	}
	return harvest.LastPlan
}

// takeCook writes down what the cook says of a step.
func (p *Page) takeCook(w http.ResponseWriter, r *http.Request) {
	token := typed(r, "once")
	err := p.written.doIn(&p.written.cooks, r, &token, func(form string) (string, error) {
		where := p.ask()
		where.Form = form
		log, err := p.cooked(r, where)
		if err != nil {
			return "", err
		}
		heard, err := log.Tell(r.Context(), typed(r, "step"), typed(r, "says"))
		if err != nil {
			return "", err
		}
		return render.HeardWords(heard), nil
	})
	if err != nil {
		p.answerCook(w, r, http.StatusUnprocessableEntity, mendings(err, nil))
		return
	}
	http.Redirect(w, r, "/cook?"+url.Values{"plan": {planAsked(r)}, "done": {token}}.Encode(), http.StatusSeeOther)
}

// said is one button of the cooking screen.
type said struct{ Once, Plan, ID, Says, Button string }

// saying is the button with which a cook says something of a step.
func saying(view cookScreen, step render.CookStep, says, button string) said {
	return said{view.Once, view.Plan, step.ID, says, button}
}
