package page

import (
	"net/http"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

// readyScreen is what can be lifted, and what to look for first.
type readyScreen struct {
	Done      string // what has just been planted
	Warnings  []harvest.Warning
	Plantings []render.ReadyView
	Bare      bool // nothing stands in the ground
}

func (p *Page) showReady(w http.ResponseWriter, r *http.Request) {
	answer, err := ask.Ready(r.Context(), ask.ReadyQuestion{PlotRef: p.ask()})
	if err != nil {
		p.fail(w, r, err)
		return
	}
	p.show(w, r, http.StatusOK, "ready", screen{Title: "Ready to lift", Data: readyScreen{p.written.of(r), answer.Warnings, render.Readiness(answer), len(answer.List)+len(answer.Warnings) == 0}})
}
