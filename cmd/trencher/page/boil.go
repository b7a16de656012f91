package page

import (
	"html/template"
	"net/http"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/recipes/heat"
)

// boilScreen is how long pieces are boiled, or blanched for the freezer.
type boilScreen struct {
	Way, Crop, Cut, Until, Size, Load field
	Mend                              []mending
	Text                              template.HTML
}

// The ways with boiling water.
const (
	wayBoil   = "boil"
	wayBlanch = "blanch"
)

func (p *Page) showBoil(w http.ResponseWriter, r *http.Request) {
	view := boilScreen{
		Way:   field{Name: "way", Label: "What for", Value: wayBoil, Options: []option{{wayBoil, "to eat: boiled until done"}, {wayBlanch, "for the freezer: blanched"}}},
		Crop:  field{Name: "crop", Label: "Crop", Value: "potato, waxy"},
		Cut:   field{Name: "cut", Label: "Cut", Value: "cube", Options: cutWords},
		Until: field{Name: "until", Label: "Until", Value: "tender", Options: donenesses, Hint: "What is blanched is not cooked."},
		Size:  field{Name: "size", Label: "Size in mm", Keys: "decimal", Hint: "Of a cube, slice or baton, or across the whole root."},
		Load:  field{Name: "load", Label: "How much", Hint: "A weight such as 1.2 kg; empty for a pound or so."},
	}
	for _, crop := range heat.Crops() {
		view.Crop.Options = append(view.Crop.Options, option{cropValue(crop), crop.Title()})
	}
	for _, f := range view.boxes() {
		f.read(r)
	}
	status := http.StatusOK
	if view.Size.Value != "" || r.Form.Has("crop") {
		view.answer(p.ask())
	}
	if len(view.Mend) > 0 {
		status = http.StatusUnprocessableEntity
	}
	p.show(w, r, status, "boil", screen{Title: "Boil and blanch", Data: view})
}

func (view *boilScreen) boxes() []*field {
	return []*field{&view.Way, &view.Crop, &view.Cut, &view.Until, &view.Size, &view.Load}
}

// answer answers the question, or says what to mend.
func (view *boilScreen) answer(where ask.PlotRef) {
	for _, f := range []*field{&view.Way, &view.Crop, &view.Cut, &view.Until} {
		f.Wrong = notAmong(*f)
	}
	if view.Size.Value == "" {
		view.Size.Wrong = "The size is missing."
	}
	if view.Mend = wrongs(view.boxes()...); len(view.Mend) > 0 {
		return
	}
	q := ask.BoilQuestion{PlotRef: where}
	q.Cut, q.Load = view.Cut.Value+" "+withUnit(view.Size.Value, "mm"), view.Load.Value
	for _, crop := range heat.Crops() {
		if cropValue(crop) == view.Crop.Value {
			q.Crop, q.Kind = crop.Name, crop.Kind
		}
	}
	var text render.Laid
	err := view.write(&text, q)
	view.Mend, view.Text = mendings(err, map[string]string{"cut": "size", "load": "load", "crop": "crop", "until": "until"}), text.HTML()
	beside(view.Mend, view.boxes()...)
}

func (view *boilScreen) write(text *render.Laid, q ask.BoilQuestion) error {
	if view.Way.Value == wayBlanch {
		answer, err := ask.Blanching(q)
		if err != nil {
			return err
		}
		return render.BlanchText(text, answer, false)
	}
	q.Until = view.Until.Value
	answer, err := ask.Boiling(q)
	if err != nil {
		return err
	}
	return render.BoilText(text, answer, false)
}
