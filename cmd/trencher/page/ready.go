package page

import (
	"net/http"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

// readyScreen is what can be lifted, and what to look for first.
type readyScreen struct {
	Warnings  []harvest.Warning
	Plantings []render.ReadyView
}

func (p *Page) showReady(w http.ResponseWriter, r *http.Request) {
	answer, err := ask.Ready(r.Context(), ask.ReadyQuestion{PlotRef: p.ask()})
	if err != nil {
		p.fail(w, r, err)
		return
	}
	p.show(w, r, http.StatusOK, "ready", screen{Title: "Ready to lift", Data: readyScreen{answer.Warnings, render.Readiness(answer)}})
}
