package page

import (
	"bytes"
	"errors"
	"io"
	"net/http"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
)

// carryScreen is what goes to another device and what comes from one.
type carryScreen struct {
	Brought []string
	Open    string // how much does not fit together, now that it is here
	Mend    []mending
	Pocket  bool   // the page is in a phone
	Untaken string // what has not been taken home yet
	Some    bool   // there is something to take
	All     string
}

// maxCarried is the most bytes of a parcel that is sent to the page.
const maxCarried = journal.LargestParcel + 64<<10

func (p *Page) showCarry(w http.ResponseWriter, r *http.Request) {
	p.answerCarry(w, r, http.StatusOK, carryScreen{})
}

// answerCarry adds what there is to carry to a screen, and shows it.
func (p *Page) answerCarry(w http.ResponseWriter, r *http.Request, status int, view carryScreen) {
	all, err := ask.Pack(r.Context(), io.Discard, p.ask(), journal.WholePlot)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	view.All = render.ParcelWords(all)
	if p.pocket {
		untaken, err := ask.Pack(r.Context(), io.Discard, p.ask(), journal.Untaken)
		if err != nil {
			p.fail(w, r, err)
			return
		}
		view.Pocket, view.Untaken, view.Some = true, render.ParcelWords(untaken), len(untaken.Files) > 0
	}
	p.show(w, r, status, "carry", screen{Title: "To and from home", Data: view})
}

// sendUntaken answers with what has not been taken home yet, and notes that it
// has been.
func (p *Page) sendUntaken(w http.ResponseWriter, r *http.Request) {
	var packed bytes.Buffer
	parcel, err := ask.Pack(r.Context(), &packed, p.ask(), journal.Untaken)
	if err == nil {
		err = ask.Taken(p.ask(), parcel)
	}
	p.sendParcel(w, r, packed.String(), err)
}

func (p *Page) sendWholePlot(w http.ResponseWriter, r *http.Request) {
	var packed bytes.Buffer
	_, err := ask.Pack(r.Context(), &packed, p.ask(), journal.WholePlot)
	p.sendParcel(w, r, packed.String(), err)
}

func (p *Page) sendParcel(w http.ResponseWriter, r *http.Request, parcel string, err error) {
	if err != nil {
		p.fail(w, r, err)
		return
	}
	w.Header().Set("Content-Disposition", `attachment; filename="trencher-`+p.now().Format("2006-01-02-1504")+`.zip"`)
	send(w, "application/zip", parcel)
}

// takeCarry takes in a parcel that was chosen.
func (p *Page) takeCarry(w http.ResponseWriter, r *http.Request) {
	sent, _, err := r.FormFile("parcel")
	if err != nil {
		p.answerCarry(w, r, http.StatusUnprocessableEntity, carryScreen{Mend: []mending{{Field: "parcel", Says: "Choose the file that was saved on the other device."}}})
		return
	}
	defer sent.Close()
	data, err := io.ReadAll(io.LimitReader(sent, journal.LargestParcel+1))
	if err == nil && len(data) > journal.LargestParcel {
		err = errors.New("that file is larger than any parcel")
	}
	renew := journal.KeepOwn
	if p.pocket {
		renew = journal.TakeNewer
	}
	var brought journal.Brought
	if err == nil {
		brought, err = ask.Bring(r.Context(), p.ask(), data, renew)
	}
	view := carryScreen{Mend: mendings(err, nil)}
	if err == nil || len(brought.Damaged) > 0 {
		for _, says := range render.BroughtWords(brought) {
			view.Brought = append(view.Brought, sentence(says))
		}
		view.Open = p.open(r)
	}
	status := http.StatusOK
	if err != nil {
		status = http.StatusUnprocessableEntity
	}
	p.answerCarry(w, r, status, view)
}

// open says how much devices wrote against each other.
func (p *Page) open(r *http.Request) string {
	stock, err := ask.Stock(r.Context(), p.ask())
	if err != nil {
		return "" // the next screen tells what is wrong
	}
	_, open := apart(stock.Warnings)
	return open
}
