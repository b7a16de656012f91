package page

import (
	"errors"
	"net/http"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

// settleScreen is what several devices wrote against each other, to be settled.
type settleScreen struct {
	Done, Once     string
	Mend           []mending
	Contradictions []contradiction
	Overdrawn      []overdraft
	Others         []string
	All            bool // more than one thing can be settled at once
}

// contradiction is an entry that was corrected in more than one way.
type contradiction struct {
	Says     string
	Versions []version
	Voided   bool
}

type version struct {
	render.Version
	Counts bool // as things stand
}

// overdraft is an entry that takes more out of a lot than there was.
type overdraft struct{ Says, File string }

func (p *Page) showSettle(w http.ResponseWriter, r *http.Request) {
	p.answerSettle(w, r, http.StatusOK, nil)
}

func (p *Page) answerSettle(w http.ResponseWriter, r *http.Request, status int, mend []mending) {
	view := settleScreen{Done: p.written.of(r), Once: p.written.token(), Mend: mend}
	ledger, err := ask.Ledger(p.ask())
	if err == nil {
		var open harvest.LeftOpen
		open, err = ledger.LeftOpen(r.Context(), p.now())
		view.fill(open)
	}
	if err != nil && !errors.Is(err, ask.ErrReadOnly) { // nobody writes to the demo
		p.fail(w, r, err)
		return
	}
	p.show(w, r, status, "settle", screen{Title: "What does not fit together", Data: view})
}

func (view *settleScreen) fill(open harvest.LeftOpen) {
	for _, c := range open.Contradictions {
		versions := []version{{render.VersionOf(c.Counts), true}}
		for _, e := range c.Instead {
			versions = append(versions, version{render.VersionOf(e), false})
		}
		view.Contradictions = append(view.Contradictions, contradiction{render.ContradictionWords(c), versions, c.Voided})
	}
	for _, o := range open.Overdrawn {
		view.Overdrawn = append(view.Overdrawn, overdraft{render.OverdraftWords(o), o.File})
	}
	for _, warning := range open.Others {
		view.Others = append(view.Others, sentence(warning.String()))
	}
	view.All = len(view.Others) > 0 || len(view.Contradictions) > 1
}

// takeSettle settles one thing as the button says, or all as it counts now.
func (p *Page) takeSettle(w http.ResponseWriter, r *http.Request) {
	token := typed(r, "once")
	err := p.written.do(r, &token, func(form string) (string, error) { return p.settle(r, form) })
	if err != nil {
		p.answerSettle(w, r, http.StatusUnprocessableEntity, mendings(err, nil))
		return
	}
	http.Redirect(w, r, "/settle?done="+token, http.StatusSeeOther)
}

func (p *Page) settle(r *http.Request, form string) (says string, err error) {
	where := p.ask()
	where.Form = form
	if typed(r, "all") != "" {
		done, err := ask.Mend(r.Context(), where)
		return render.MendedWords(done), err
	}
	ledger, err := ask.Ledger(where)
	if err != nil {
		return "", err
	}
	if file := typed(r, "strike"); file != "" {
		_, err := ledger.Void(r.Context(), file, "settled between devices", where.Now)
		return "Struck out.", err
	}
	_, err = ledger.Decide(r.Context(), typed(r, "counts"), where.Now)
	return "Settled.", err
}

// apart takes what is open between devices out of the warnings of a screen, and
// says how much that is.
func apart(warnings []harvest.Warning) (others []harvest.Warning, open string) {
	n := 0
	for _, warning := range warnings {
		if harvest.BetweenDevices(warning) {
			n++
			continue
		}
		others = append(others, warning)
	}
	return others, render.OpenWords(n)
}
