package page

import (
	"errors"
	"net/http"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
)

// undoScreen is the last entry that this device wrote, to be taken back.
type undoScreen struct {
	Mend             []mending
	Once, File, Says string // no file: there is nothing
}

func (p *Page) askUndo(w http.ResponseWriter, r *http.Request) {
	p.answerUndo(w, r, http.StatusOK, nil)
}

func (p *Page) answerUndo(w http.ResponseWriter, r *http.Request, status int, mend []mending) {
	view := undoScreen{Mend: mend, Once: p.written.token()}
	ledger, err := ask.Ledger(p.ask())
	if errors.Is(err, ask.ErrReadOnly) { // nobody writes to the demo
		p.show(w, r, status, "undo", screen{Title: "Undo", Data: view})
		return
	}
	if err != nil {
		p.fail(w, r, err)
		return
	}
	last, err := ledger.Last(r.Context())
	if err != nil {
		p.fail(w, r, err)
		return
	}
	if last != nil {
		view.File, view.Says = last.Head().File, render.EntryWords(last)
	}
	p.show(w, r, status, "undo", screen{Title: "Undo", Data: view})
}

// takeUndo takes back the entry that stood on the screen, and no other.
func (p *Page) takeUndo(w http.ResponseWriter, r *http.Request) {
	token, where := typed(r, "once"), p.ask()
	err := p.written.do(r, &token, func(form string) (string, error) {
		where.Form = form
		ledger, err := ask.Ledger(where)
		if err != nil {
			return "", err
		}
		taken, err := ledger.TakeBack(r.Context(), typed(r, "entry"), where.Now)
		if err != nil {
			return "", err
		}
		return "Taken back: " + render.EntryWords(taken.Entry) + ".", nil
	})
	if err != nil {
		p.answerUndo(w, r, http.StatusUnprocessableEntity, mendings(err, nil))
		return
	}
	back := "/"
	if from := typed(r, "from"); showsLatest[from] {
		back = from
	}
	http.Redirect(w, r, back+"?done="+token, http.StatusSeeOther)
}
