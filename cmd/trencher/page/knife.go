package page

import (
	"context"
	"net/http"
	"net/url"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
)

// knifeForm is what the knife said of the piece that was asked about.
type knifeForm struct {
	Once                   string
	Load                   string // what was asked about; a test is weighed with it
	Minutes, Finding, Said field
	Again                  []option // the question once more
}

// readKnife reads the form that goes with an answer for one size of piece.
func (p *Page) readKnife(r *http.Request, view *steamScreen) knifeForm {
	form := knifeForm{
		Once:    typed(r, "once"),
		Load:    view.Load.Value,
		Minutes: field{Name: "minutes", Label: "Minutes from full steam", Keys: "decimal", Hint: "When the knife went in, such as 9 or 9.5."},
		Finding: field{Name: "finding", Label: "Was it done?", Value: findings[0].Value, Options: findings},
		Said:    field{Name: "said", Label: "How tender it was, or was to be", Value: view.Until.Value, Options: donenesses},
	}
	if form.Once == "" {
		form.Once = p.written.token()
	}
	for _, f := range form.boxes() {
		f.read(r)
	}
	for _, f := range view.boxes() {
		form.Again = append(form.Again, option{f.Name, f.Value})
	}
	return form
}

func (form *knifeForm) boxes() []*field { return []*field{&form.Minutes, &form.Finding, &form.Said} }

// check finds what can be seen to be wrong before anything is asked.
func (form *knifeForm) check() []mending {
	if form.Minutes.Value == "" {
		form.Minutes.Wrong = "The minutes are missing."
	}
	form.Finding.Wrong = notAmong(form.Finding)
	form.Said.Wrong = notAmong(form.Said)
	return wrongs(form.boxes()...)
}

// address leads back to the answer, which then says what was written.
func (form *knifeForm) address() string {
	query := url.Values{"done": {form.Once}}
	for _, one := range form.Again {
		query.Set(one.Value, one.Text)
	}
	return "/steam?" + query.Encode()
}

// takeSteam writes a knife test down. The question is answered first, so that
// nothing is written that no answer can rest on.
func (p *Page) takeSteam(w http.ResponseWriter, r *http.Request) {
	view := readSteam(r)
	p.answerSteam(r, &view)
	switch {
	case len(view.Mend) > 0:
		view.Unwritten, view.Mend = view.Mend, nil
	case p.where.Demo:
		view.Unwritten = []mending{{Says: "The demo plot is only to look at: a knife test belongs to a kitchen. Start your own plot with `trencher begin DIR`."}}
	case view.Knife == nil:
		view.Size.Wrong = "Give the size: a knife test is of one size of piece."
		view.Unwritten = wrongs(&view.Size)
	default:
		view.Unwritten = p.writeKnife(r, &view)
	}
	if len(view.Unwritten) > 0 {
		p.showSteaming(w, r, view)
		return
	}
	http.Redirect(w, r, view.Knife.address(), http.StatusSeeOther)
}

// writeKnife writes the knife test once, or says what to mend.
func (p *Page) writeKnife(r *http.Request, view *steamScreen) []mending {
	form := view.Knife
	if wrong := form.check(); len(wrong) > 0 {
		return wrong
	}
	q := view.question(p.ask())
	q.UsualSizes = false // it was answered; the test is of one piece
	q.Found = withUnit(form.Minutes.Value, "min") + " " + form.Finding.Value + " " + form.Said.Value
	err := p.written.do(r, &form.Once, func(form string) (string, error) {
		q.Form = form
		return writeKnifeTest(r.Context(), q)
	})
	mend := mendings(err, map[string]string{"found": form.Minutes.Name, "cut": view.Size.Name})
	beside(mend, form.boxes()...)
	beside(mend, view.boxes()...)
	return mend
}

func writeKnifeTest(ctx context.Context, q ask.SteamQuestion) (string, error) {
	answer, err := ask.Steaming(ctx, q)
	if err != nil {
		return "", err
	}
	return "Written down: " + render.TestWords(*answer.Found) + ".", nil
}
