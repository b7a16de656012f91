package page

import (
	"fmt"
	"net/http"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/recipes/heat"
)

// steamScreen is how long pieces take: one size if it was given, with the form
// for what the knife said of it, then the table and its curve.
type steamScreen struct {
	Done                         string    // what has just been written
	Unwritten                    []mending // of a knife test that was not
	Crop, Cut, Until, Size, Load field
	Mend                         []mending
	Answer                       string
	Lines, Warnings              []string
	Knife                        *knifeForm // nil: there is nothing to test, or nowhere to write it
	Curve                        *curve
	Rows                         []steamRow
	Title                        string
	Cautions                     []string
}

type steamRow struct {
	Size  string
	Times [3]steamTime
}

type steamTime struct{ Minutes, Band string }

// cutWords are the cuts a table can be made of.
var cutWords = words("cube", "slice", "baton", "whole", "halves", "quarters", "eighths", "wedges")

var donenesses = []option{{"just-tender", "just tender"}, {"tender", "tender"}, {"soft", "soft"}}

// findings are what a knife may say of a piece; the first stands unless another is chosen.
var findings = []option{{heat.JustRight.String(), "just right"}, {heat.NotYet.String(), "not yet"}, {heat.Over.String(), "over"}}

func readSteam(r *http.Request) steamScreen {
	view := steamScreen{
		Crop:  field{Name: "crop", Label: "Crop", Value: "potato, waxy"},
		Cut:   field{Name: "cut", Label: "Cut", Value: "cube", Options: cutWords},
		Until: field{Name: "until", Label: "Until", Value: "tender", Options: donenesses},
		Size:  field{Name: "size", Label: "Size in mm", Keys: "decimal", Hint: "Of a cube, slice or baton, or across the whole root. Empty for the table alone."},
		Load:  field{Name: "load", Label: "How much", Hint: "A weight such as 1.2 kg: layers, water and gas for it."},
	}
	for _, crop := range heat.Crops() {
		view.Crop.Options = append(view.Crop.Options, option{cropValue(crop), crop.Title()})
	}
	for _, f := range view.boxes() {
		f.read(r)
	}
	return view
}

func (view *steamScreen) boxes() []*field {
	return []*field{&view.Crop, &view.Cut, &view.Until, &view.Size, &view.Load}
}

func cropValue(crop heat.Crop) string {
	if crop.Kind == "" {
		return crop.Name
	}
	return crop.Name + ", " + crop.Kind
}

func (p *Page) showSteam(w http.ResponseWriter, r *http.Request) {
	view := readSteam(r)
	view.Done = p.written.of(r)
	p.answerSteam(r, &view)
	p.showSteaming(w, r, view)
}

// answerSteam answers what was asked, or says what to mend in it.
func (p *Page) answerSteam(r *http.Request, view *steamScreen) {
	for _, f := range []*field{&view.Crop, &view.Cut, &view.Until} {
		f.Wrong = notAmong(*f)
	}
	if view.Load.Value != "" && view.Size.Value == "" {
		view.Size.Wrong = "Give the size too: the load depends on it."
	}
	view.Mend = wrongs(view.boxes()...)
	if len(view.Mend) > 0 {
		return
	}
	answer, err := ask.Steaming(r.Context(), view.question(p.ask()))
	view.Mend = mendings(err, map[string]string{"cut": "size", "sizes": "size", "load": "load", "crop": "crop", "until": "until"})
	beside(view.Mend, view.boxes()...)
	if err != nil {
		return
	}
	view.fill(answer)
	if view.Answer != "" && !p.where.Demo {
		knife := p.readKnife(r, view)
		view.Knife = &knife
	}
}

func (p *Page) showSteaming(w http.ResponseWriter, r *http.Request, view steamScreen) {
	status := http.StatusOK
	if len(view.Mend)+len(view.Unwritten) > 0 {
		status = http.StatusUnprocessableEntity
	}
	p.show(w, r, status, "steam", screen{Title: "Steaming times", Data: view})
}

func (view *steamScreen) question(where ask.PlotRef) ask.SteamQuestion {
	q := ask.SteamQuestion{PlotRef: where, Words: heat.Words{Cut: view.Cut.Value, Until: view.Until.Value, Load: view.Load.Value, UsualSizes: true}}
	for _, crop := range heat.Crops() {
		if cropValue(crop) == view.Crop.Value {
			q.Crop, q.Kind = crop.Name, crop.Kind
		}
	}
	if view.Size.Value != "" {
		q.Cut += " " + withUnit(view.Size.Value, "mm")
	}
	return q
}

func (view *steamScreen) fill(answer ask.SteamAnswer) {
	if answer.Estimate != nil {
		view.Answer, view.Lines = render.SteamLines(answer)
	}
	view.Cautions = answer.Cautions
	for _, warning := range answer.Warnings {
		view.Warnings = append(view.Warnings, sentence(warning))
	}
	until, err := heat.ParseDoneness(view.Until.Value)
	if err != nil {
		return // the box has said so
	}
	var points []curvePoint
	for _, row := range answer.Table {
		drawn := steamRow{Size: fmt.Sprintf("%.0f mm", row.SizeMM)}
		for i, estimate := range row.By {
			expected, from, to := render.MinutesCell(estimate)
			drawn.Times[i] = steamTime{fmt.Sprint(expected), fmt.Sprintf("%d–%d", from, to)}
		}
		view.Rows = append(view.Rows, drawn)
		expected, low, high := row.By[until-heat.JustTender].Clock() // as the row tells it
		points = append(points, curvePoint{row.SizeMM, low, expected, high})
	}
	view.Title = view.Crop.Value + ", " + view.Cut.Value
	view.Curve = drawCurve(view.Title+" until "+view.Until.Value, points)
}
