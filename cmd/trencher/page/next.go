package page

import (
	"html/template"
	"net/http"
	"strconv"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

// nextScreen is what to plant in a season to come.
type nextScreen struct {
	Year, For, Eat field
	Answer         string
	Text           template.HTML
	Picture        template.HTML
	Warnings       []string
	Mend           []mending
}

func (p *Page) showNext(w http.ResponseWriter, r *http.Request) {
	view := nextScreen{
		Year: field{Name: "year", Label: "Season", Keys: "numeric"},
		For:  field{Name: "for", Label: "Who will eat", Hint: "As 2 adults, 1 child; empty for as many as ate so far."},
		Eat:  field{Name: "eat", Label: "A crop you mean to eat more or less of", Hint: "As potato, 3 a week, 26 weeks."},
	}
	q := ask.NextWords{PlotRef: p.ask()}
	for _, f := range []*field{&view.Year, &view.For, &view.Eat} {
		f.read(r)
	}
	var err error
	if view.Year.Value != "" {
		if q.Season, err = strconv.Atoi(view.Year.Value); err != nil || harvest.CheckSeasons(q.Season) != nil {
			view.Year.Wrong, view.Year.Hint = "That is not a year.", "Write it as 2032."
		}
	}
	if q.For = view.For.Value; view.Eat.Value != "" {
		q.Eat = []string{view.Eat.Value}
	}
	status := http.StatusOK
	if view.Mend = wrongs(&view.Year); len(view.Mend) == 0 {
		view.Mend = view.fill(r, q)
		beside(view.Mend, &view.Year, &view.For, &view.Eat)
	}
	if len(view.Mend) > 0 {
		status = http.StatusUnprocessableEntity
	}
	p.show(w, r, status, "next", screen{Title: "What to plant", Data: view})
}

// fill answers the question, or says what to mend.
func (view *nextScreen) fill(r *http.Request, q ask.NextWords) []mending {
	answer, err := ask.Next(r.Context(), q)
	if err != nil {
		return mendings(err, map[string]string{"season": "year", "for": "for", "eat": "eat"})
	}
	var text render.Laid
	if err := render.NextText(&text, answer); err != nil {
		return mendings(err, nil)
	}
	for _, warning := range answer.Warnings {
		view.Warnings = append(view.Warnings, warning.String())
	}
	view.Answer, view.Picture, view.Text = render.NextTitle(answer)+".", render.NextDrawing(answer), text.HTML()
	return nil
}
