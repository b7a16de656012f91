package page

import (
	"context"
	"net/http"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

// takeForm is something taken out of a lot.
type takeForm struct {
	Done                                        string
	Mend                                        []mending
	Once, Replaces                              string
	Lot, To, Weight, Unit, Rotten, Detail, When field
}

// ways are what can become of a lot.
var ways = []option{
	{harvest.KindUse, "to the kitchen"},
	{harvest.KindGive, "given away"},
	{harvest.KindStore, "put in store"},
	{harvest.KindCompost, "to the compost"},
	{harvest.KindReweighed, "nowhere: weighed again, this much is left"},
}

func (p *Page) readTake(r *http.Request) (takeForm, error) {
	stock, err := ask.Stock(r.Context(), p.ask())
	if err != nil {
		return takeForm{}, err
	}
	form := takeForm{
		Once:   typed(r, "once"),
		Lot:    field{Name: "lot", Label: "From"},
		To:     field{Name: "to", Label: "It goes", Value: harvest.KindUse, Options: ways},
		Weight: field{Name: "weight", Label: "How much", Keys: "decimal", Hint: "Leave it empty for all there is."},
		Unit:   unitField(r),
		Rotten: field{Name: "rotten", Label: "Thrown out, if it was weighed again", Keys: "decimal", Hint: "What was rotten of it."},
		Detail: field{Name: "detail", Label: "For which dish, to whom, where, or why", Hint: "If you like."},
		When:   field{Name: "at", Label: "When", Type: "datetime-local", Hint: "Leave it empty for now."},
	}
	if form.Once == "" {
		form.Once = p.written.token()
	}
	for _, lot := range stock.Lots {
		view := viewStockLot(lot)
		form.Lot.Options = append(form.Lot.Options, option{lot.ID, strings.Join([]string{view.Weight, view.What, lot.Planting.ID}, " ")})
	}
	form.Replaces = correctedFile(r)
	before, err := p.corrected(r.Context(), form.Replaces)
	if err != nil {
		return takeForm{}, err
	}
	if before != nil {
		form.fillFrom(before)
	}
	for _, f := range form.boxes() {
		f.read(r)
	}
	return form, nil
}

// question puts the detail where the way it went has a place for it.
func (form *takeForm) question(where ask.PlotRef) ask.MoveQuestion {
	q := ask.MoveQuestion{PlotRef: where, MoveWords: harvest.MoveWords{To: form.To.Value, Lot: form.Lot.Value, Weight: withUnit(form.Weight.Value, form.Unit.Value), At: form.When.Value, Replaces: form.Replaces}}
	switch q.To {
	case harvest.KindUse:
		q.Dish = form.Detail.Value
	case harvest.KindGive:
		q.Whom = form.Detail.Value
	case harvest.KindStore:
		q.Lies = form.Detail.Value
	case harvest.KindCompost:
		q.Reason = form.Detail.Value
	}
	form.To.Wrong = notAmong(form.To)
	if q.Weight != "" {
		_, err := harvest.ParseWeight(q.Weight, 0)
		form.Weight.find(err)
	}
	return q
}

// reweighing is the form where it says that the lot was weighed again.
func (form *takeForm) reweighing(where ask.PlotRef) ask.ReweighQuestion {
	return ask.ReweighQuestion{PlotRef: where, ReweighWords: harvest.ReweighWords{Lot: form.Lot.Value, At: form.When.Value, Lies: form.Detail.Value, Replaces: form.Replaces,
		Weight: withUnit(form.Weight.Value, form.Unit.Value), Rotten: withUnit(form.Rotten.Value, form.Unit.Value)}}
}

func (p *Page) reweigh(ctx context.Context, q ask.ReweighQuestion) (string, error) {
	answer, err := ask.Reweigh(ctx, q)
	if err != nil {
		return "", err
	}
	return render.Weight(answer.Of.Weight) + " of " + answer.Of.Name + " left; " + render.Weight(answer.Dried) + " dried away.", nil
}

func (form *takeForm) boxes() []*field {
	return []*field{&form.Lot, &form.To, &form.Weight, &form.Rotten, &form.Detail, &form.When}
}

func (p *Page) askTake(w http.ResponseWriter, r *http.Request) {
	form, err := p.readTake(r)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	form.Done = p.written.of(r)
	p.show(w, r, http.StatusOK, "take", screen{Title: "Take out", Data: form})
}

func (p *Page) takeTake(w http.ResponseWriter, r *http.Request) {
	form, err := p.readTake(r)
	if err != nil {
		p.fail(w, r, err)
		return
	}
	q := form.question(p.ask())
	form.Mend = wrongs(form.boxes()...)
	if len(form.Mend) == 0 {
		err = p.written.do(r, &form.Once, func(once string) (string, error) {
			return insisting(r, func(sure bool) (string, error) {
				q.Sure, q.Form = sure, once
				if q.To == harvest.KindReweighed {
					return p.reweigh(r.Context(), form.reweighing(q.PlotRef))
				}
				return p.move(r.Context(), q)
			})
		})
		form.Mend = mendings(err, map[string]string{"at": "at", "lot": "lot", "weight": "weight", "rotten": "rotten"})
		beside(form.Mend, form.boxes()...)
	}
	if len(form.Mend) > 0 {
		p.show(w, r, http.StatusUnprocessableEntity, "take", screen{Title: "Take out", Data: form})
		return
	}
	http.Redirect(w, r, "/?done="+form.Once, http.StatusSeeOther)
}

func (p *Page) move(ctx context.Context, q ask.MoveQuestion) (string, error) {
	answer, err := ask.Move(ctx, q)
	if err != nil {
		return "", err
	}
	return render.Weight(answer.Grams) + " of " + answer.From.Name + " taken out; " + render.Weight(answer.Left) + " left.", nil
}
