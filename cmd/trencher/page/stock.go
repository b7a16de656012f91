package page

import (
	"net/http"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

// stockScreen is what is on hand, first what must be used first.
type stockScreen struct {
	Done     string // what has just been written
	Answer   string
	Warnings []harvest.Warning
	Open     string // how much devices wrote against each other
	Lots     []stockLot
	Leads    leads    // where an empty plot begins
	Lasting  []string // until when there is some of each crop, at the household's own pace
}

type stockLot struct {
	Name, Weight, What string
	First, Never, Past bool
	Keeps, Where       string
}

func (p *Page) showStock(w http.ResponseWriter, r *http.Request) {
	answer, err := ask.Stock(r.Context(), p.ask())
	if err != nil {
		p.fail(w, r, err)
		return
	}
	view := stockScreen{Done: p.written.of(r), Leads: p.leads(len(answer.Lots))}
	view.Warnings, view.Open = apart(answer.Warnings)
	edible, first := decimal.Zero, decimal.Zero
	for _, lot := range answer.Lots {
		view.Lots = append(view.Lots, viewStockLot(lot))
		if lot.Condition.Edible() {
			edible = edible.Add(lot.Weight)
			if lot.First {
				first = first.Add(lot.Weight)
			}
		}
	}
	view.Answer = stockAnswer(edible, first)
	for _, c := range answer.Lasting {
		view.Lasting = append(view.Lasting, render.LastsWords(c))
	}
	p.show(w, r, http.StatusOK, "stock", screen{Title: "On hand", Data: view})
}

func stockAnswer(edible, first decimal.Decimal) string {
	switch {
	case edible.Sign() == 0:
		return "Nothing to eat on hand."
	case first.Sign() == 0:
		return render.Weight(edible) + " on hand."
	}
	return render.Weight(edible) + " on hand, " + render.Weight(first) + " of it to use today."
}

func viewStockLot(lot *harvest.Lot) stockLot {
	view := stockLot{
		Name:   lot.Name,
		Weight: render.Weight(lot.Weight),
		What:   strings.Join(strings.Fields(lot.Crop+" "+lot.Variety+" "+lot.Sizes.String()+" "+string(lot.Condition)), " "),
		First:  lot.First && lot.Condition.Edible() && !lot.Past,
		Past:   lot.Past,
		Never:  !lot.Condition.Edible(),
		Where:  lot.Lies().Where,
	}
	if !lot.KeepsUntil.IsZero() && lot.Condition.Edible() && !lot.First {
		view.Keeps = lot.KeepsUntil.Format("2 January")
	}
	return view
}
