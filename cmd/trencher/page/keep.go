package page

import (
	"html/template"
	"net/http"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/recipes/keeping"
)

// keepScreen is how a food keeps, and the verdict on what has become of it.
type keepScreen struct {
	Food, Cooked, Chilled field
	Mend                  []mending
	Text                  template.HTML
}

func (p *Page) showKeep(w http.ResponseWriter, r *http.Request) {
	view := keepScreen{
		Food:    field{Name: "food", Label: "What", Options: []option{{"", "choose"}}},
		Cooked:  field{Name: "cooked", Label: "Off the heat at", Type: "datetime-local", Hint: "Empty for how it keeps in general."},
		Chilled: field{Name: "chilled", Label: "In the fridge at", Type: "datetime-local", Hint: "Empty if it never was."},
	}
	for _, food := range keeping.FoodIDs() {
		view.Food.Options = append(view.Food.Options, option{food, strings.ReplaceAll(food, "-", " ")})
	}
	for _, f := range view.boxes() {
		f.read(r)
	}
	if r.Form.Has("food") {
		view.answer(p, r)
	}
	status := http.StatusOK
	if len(view.Mend) > 0 {
		status = http.StatusUnprocessableEntity
	}
	p.show(w, r, status, "keep", screen{Title: "How it keeps", Data: view})
}

// showHygiene tells all that is kept to at the plot: hands, water, soil.
func (p *Page) showHygiene(w http.ResponseWriter, r *http.Request) {
	var text render.Laid
	guide, err := ask.KeepGuide(r.Context(), ask.KeepQuestion{PlotRef: p.ask(), Words: keeping.Words{Food: "plot"}})
	if err == nil {
		err = render.GuideText(&text, guide, false)
	}
	if err != nil {
		p.fail(w, r, err)
		return
	}
	p.show(w, r, http.StatusOK, "hygiene", screen{Title: "Clean at the plot", Data: text.HTML()})
}

func (view *keepScreen) boxes() []*field { return []*field{&view.Food, &view.Cooked, &view.Chilled} }

// answer gives the guidance on the food or, where its history is told, the
// verdict on it.
func (view *keepScreen) answer(p *Page, r *http.Request) {
	if view.Food.Wrong = notAmong(view.Food); view.Food.Value == "" {
		view.Food.Wrong = "Choose what it is."
	}
	if view.Mend = wrongs(view.boxes()...); len(view.Mend) > 0 {
		return
	}
	q := ask.KeepQuestion{PlotRef: p.ask(), Words: keeping.Words{Food: view.Food.Value, CookedAt: view.Cooked.Value, ChilledAt: view.Chilled.Value}}
	var text render.Laid
	err := view.write(&text, r, q)
	view.Mend, view.Text = mendings(err, map[string]string{"food": "food", "cooked-at": "cooked", "chilled-at": "chilled"}), text.HTML()
	beside(view.Mend, view.boxes()...)
}

func (view *keepScreen) write(text *render.Laid, r *http.Request, q ask.KeepQuestion) error {
	if q.CookedAt == "" && q.ChilledAt == "" {
		guide, err := ask.KeepGuide(r.Context(), q)
		if err != nil {
			return err
		}
		return render.GuideText(text, guide, false)
	}
	verdict, err := ask.KeepVerdict(r.Context(), q)
	if err != nil {
		return err
	}
	return render.VerdictText(text, verdict, false)
}
