package page

import (
	"context"
	"errors"
	"net/http"
	"path/filepath"

	"trencher/cmd/trencher/ask"
)

// jobs lists what the page does, in the order of a day.
func jobs() []job {
	return []job{
		{Path: "/", Name: "On hand", About: "what is there, and what to use first", answer: (*Page).showStock},
		{Path: "/ready", Name: "Ready to lift", About: "what is due, and what to look for", answer: (*Page).showReady},
		{Path: "/plant", Name: "Plant or sow", About: "what went into the ground, where and when", answer: (*Page).askPlant, write: (*Page).takePlant},
		{Path: "/weigh", Name: "Weigh in", About: "log a lift", answer: (*Page).askWeigh, write: (*Page).takeWeigh},
		{Path: "/take", Name: "Take out", About: "to the kitchen, given, stored, composted", answer: (*Page).askTake, write: (*Page).takeTake},
		{Path: "/share", Name: "Share out", About: "today's crop among the dishes and people", answer: (*Page).showShare, write: (*Page).recordShare},
		{Path: "/cook", Name: "Cook it", About: "what to do now and next, by the plan written down", answer: (*Page).showCook, write: (*Page).takeCook},
		{Path: "/dish", Name: "One dish", About: "scaled to a weight or to portions", answer: (*Page).showDish},
		{Path: "/recipe", Name: "A recipe of yours", About: "pasted, read back and kept as a dish", answer: (*Page).askRecipe, write: (*Page).takeRecipe},
		{Path: "/steam", Name: "Steaming times", About: "by size, and for a load", answer: (*Page).showSteam, write: (*Page).takeSteam},
		{Path: "/boil", Name: "Boil and blanch", About: "minutes in boiling water, or for the freezer", answer: (*Page).showBoil},
		{Path: "/keep", Name: "How it keeps", About: "raw or cooked: what to do, and by when", answer: (*Page).showKeep},
		{Path: "/hygiene", Name: "Clean at the plot", About: "hands, water, soil, manure, slugs", answer: (*Page).showHygiene},
		{Path: "/fridge", Name: "In the fridge", About: "what is cooked, and until when it is good", answer: (*Page).showFridge, write: (*Page).takeFridge},
		{Path: "/reckoner", Name: "Ready reckoner", About: "two sides of paper for the shed", answer: (*Page).sendReckoner},
		{Path: "/season", Name: "The season's account", About: "what each tub and bed gave", answer: (*Page).showSeason},
		{Path: "/next", Name: "What to plant", About: "next season, for what is really eaten", answer: (*Page).showNext},
		{Path: "/undo", Name: "Undo", About: "take the latest entry back", answer: (*Page).askUndo, write: (*Page).takeUndo},
		{Path: "/carry", Name: "To and from home", About: "entries from a phone, or to one", answer: (*Page).showCarry, write: (*Page).takeCarry},
	}
}

// jobs are those of this page: where phones are let in, the list of them too.
func (p *Page) jobs() []job {
	if p.door == nil {
		return jobs()
	}
	return append(jobs(), phonesJob())
}

// ask is where a question is put, with the clock of now.
func (p *Page) ask() ask.PlotRef {
	where := p.where
	where.Now = p.now()
	return where
}

// plotName is how the page names its plot: not by its whole path, which is
// nobody's business on the network.
func (p *Page) plotName() string {
	switch {
	case p.pocket:
		return "Your plot, in this phone"
	case p.where.Demo:
		return "The demo plot"
	case p.where.Dir == "":
		return "The plot in this folder"
	}
	return "The plot " + filepath.Base(p.where.Dir)
}

// fault is what is wrong in the plot's files, after what has been written all
// the same.
type fault struct {
	Done string
	Mend []mending
}

// fail answers with what is wrong in the plot's own files.
func (p *Page) fail(w http.ResponseWriter, r *http.Request, err error) {
	if errors.Is(err, context.DeadlineExceeded) {
		p.refuse(w, r, http.StatusServiceUnavailable, tookTooLong)
		return
	}
	p.show(w, r, http.StatusInternalServerError, "fault", screen{Title: "Something in the plot needs mending",
		Data: fault{Done: p.written.of(r), Mend: mendings(err, nil)}})
}
