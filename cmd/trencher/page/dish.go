package page

import (
	"context"
	"net/http"
	"strconv"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
)

// dishForm is one dish to scale, and the answer.
type dishForm struct {
	Name, Lifted, Portions, Serve field
	Mend                          []mending
	Plan                          render.Screen
}

func (form *dishForm) boxes() []*field {
	return []*field{&form.Name, &form.Lifted, &form.Portions, &form.Serve}
}

func (p *Page) showDish(w http.ResponseWriter, r *http.Request) {
	names, err := ask.DishNames(p.ask())
	if err != nil {
		p.fail(w, r, err)
		return
	}
	form := dishForm{
		Name:     field{Name: "name", Label: "Dish", Options: words(names...)},
		Lifted:   field{Name: "lifted", Label: "Weighed crop", Hint: "Such as 1.85 kg; one a line for several: beetroot = 400 g."},
		Portions: field{Name: "portions", Label: "Or portions", Keys: "numeric"},
		Serve:    field{Name: "serve", Label: "On the table at", Type: "time", Value: p.serveAt, Hint: "Empty for no timetable."},
	}
	for _, f := range form.boxes() {
		f.read(r)
	}
	status := http.StatusOK
	if r.Form.Has("name") {
		form.answer(p, r)
	}
	if len(form.Mend) > 0 {
		status = http.StatusUnprocessableEntity
	}
	p.show(w, r, status, "dish", screen{Title: "One dish", Data: form})
}

func (form *dishForm) answer(p *Page, r *http.Request) {
	q := ask.DishWords{Plot: p.ask(), Name: form.Name.Value, Lifted: lines(form.Lifted.Value), ServeAt: form.Serve.Value}
	form.Name.Wrong = notAmong(form.Name)
	if form.Portions.Value != "" {
		var err error
		if q.Portions, err = strconv.Atoi(form.Portions.Value); err != nil || q.Portions < 1 {
			form.Portions.Wrong = "Write a whole number, such as 6."
		}
	}
	form.Mend = wrongs(form.boxes()...)
	if len(form.Mend) > 0 {
		return
	}
	answer, err := p.scale(r.Context(), q)
	if err == nil {
		form.Plan, err = render.PlanScreen(answer.Plan, p.now())
	}
	form.Mend = mendings(err, map[string]string{"lifted": "lifted", "portions": "portions", "serve-at": "serve"})
	beside(form.Mend, form.boxes()...)
}

// scale makes the plan of one dish.
func (p *Page) scale(ctx context.Context, q ask.DishWords) (ask.MealAnswer, error) {
	done, err := p.atWork(ctx)
	if err != nil {
		return ask.MealAnswer{}, err
	}
	defer done()
	return ask.ScaleDish(q)
}
