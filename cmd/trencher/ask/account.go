package ask

import (
	"context"
	"fmt"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/units"
)

// StockAnswer is what is on hand on a day.
type StockAnswer struct {
	harvest.StockList
	Reasons  []units.Reason
	Warnings []string
}

// Stock lists the lots on hand, what to use first on top.
func Stock(ctx context.Context, w PlotRef, seasons ...int) (StockAnswer, error) {
	b, err := openBooks(ctx, w, seasons...)
	if err != nil {
		return StockAnswer{}, err
	}
	account, err := b.settle(w)
	if err != nil {
		return StockAnswer{}, err
	}
	list := account.Stock()
	answer := StockAnswer{StockList: list, Warnings: append(b.Warnings, list.Warnings...)}
	seen := map[string]bool{}
	for _, l := range list.Lots {
		figure := fmt.Sprintf("%s, %s: keeps raw", strings.TrimSpace(l.Class+" "+l.Crop), l.Condition)
		if l.KeepsUntil.IsZero() || seen[figure] {
			continue
		}
		seen[figure] = true
		answer.Reasons = append(answer.Reasons, units.Reason{Figure: figure,
			Value:      l.Keeping.Days.String() + " days, " + l.Keeping.Where + "; the account counts with the lower",
			Provenance: l.Keeping.Provenance})
	}
	return answer, nil
}

// ReadyQuestion asks which plantings are due; Felt holds sizes felt near the
// surface, as "tub-3=38 mm".
type ReadyQuestion struct {
	PlotRef
	Felt []string
}

// ReadyAnswer is how every planting stands.
type ReadyAnswer struct {
	On       time.Time
	List     []harvest.Readiness
	Reasons  []units.Reason
	Warnings []string
}

// Ready tells which plantings are due.
func Ready(ctx context.Context, q ReadyQuestion) (ReadyAnswer, error) {
	b, err := openBooks(ctx, q.PlotRef)
	if err != nil {
		return ReadyAnswer{}, err
	}
	standing, _, err := harvest.Correct(b.entries)
	if err != nil {
		return ReadyAnswer{}, err
	}
	list, unknown := harvest.Ready(b.plantings, standing, b.on)
	answer := ReadyAnswer{On: b.on, List: list, Warnings: append(b.Warnings, unknown...)}
	for _, text := range q.Felt {
		if err := answer.felt(text); err != nil {
			return ReadyAnswer{}, err
		}
	}
	for _, r := range list {
		answer.Reasons = append(answer.Reasons, readyReasons(r)...)
	}
	return answer, nil
}

// felt puts one "tub-3=38 mm" to its planting.
func (a *ReadyAnswer) felt(text string) error {
	const form = `the planting and the size of the biggest one felt: tub-3="38 mm"`
	id, size, ok := strings.Cut(text, "=")
	if !ok {
		return units.WrongField("felt", text, "no planting and size", form)
	}
	q, err := units.Parse(size, units.Metric)
	if err != nil || q.Dimension() != units.Length || q.IsRange() {
		return units.WrongField("felt", text, "no size", form)
	}
	mm, err := q.Float64(units.Millimetre)
	if err != nil || mm <= 0 || mm > 1000 {
		return units.WrongField("felt", text, "no size of a crop", form)
	}
	var ids []string
	for i := range a.List {
		if a.List[i].Planting.ID == strings.TrimSpace(id) {
			if err := a.List[i].Advise(mm); err != nil {
				return units.WrongField("felt", text, err.Error(), "another planting, or go by the signs listed")
			}
			return nil
		}
		ids = append(ids, a.List[i].Planting.ID)
	}
	return units.WrongField("felt", text, "no planting of that name stands", "one of "+strings.Join(ids, ", "))
}

func readyReasons(r harvest.Readiness) []units.Reason {
	name := strings.TrimSpace(r.Window.Class + " " + r.Crop.Crop)
	reasons := []units.Reason{{Figure: name + ": days from " + r.Crop.Since, Value: r.Window.Days.String(),
		Provenance: r.Window.Provenance}}
	for _, s := range append(r.Crop.Signs, r.Crop.Left) {
		reasons = append(reasons, units.Reason{Figure: r.Crop.Crop, Value: s.Says, Provenance: s.Provenance})
	}
	return reasons
}

// TallyAnswer is one or more seasons side by side.
type TallyAnswer struct {
	Seasons  []harvest.Season
	Reasons  []units.Reason
	Warnings []string
}

// Tally draws up the account of seasons: those named, or all of them, or the
// one of the day asked for.
func Tally(ctx context.Context, w PlotRef, all bool, seasons ...int) (TallyAnswer, error) {
	if all {
		folder, err := openFolder(w)
		if err != nil {
			return TallyAnswer{}, err
		}
		if seasons, err = folder.Seasons(); err != nil {
			return TallyAnswer{}, err
		}
	}
	b, err := openBooks(ctx, w, seasons...)
	if err != nil {
		return TallyAnswer{}, err
	}
	if len(seasons) == 0 {
		seasons = []int{b.on.Year()}
	}
	account, err := b.settle(w)
	if err != nil {
		return TallyAnswer{}, err
	}
	answer := TallyAnswer{Warnings: append(b.Warnings, account.Warnings...), Reasons: []units.Reason{spentReason}}
	for _, year := range seasons {
		season := account.Season(year)
		answer.Seasons = append(answer.Seasons, season)
		answer.Reasons = append(answer.Reasons, usualReasons(season)...)
	}
	return answer, nil
}

func usualReasons(season harvest.Season) []units.Reason {
	var reasons []units.Reason
	for _, y := range season.Rows {
		if y.Usual.Per != "" {
			reasons = append(reasons, units.Reason{Figure: fmt.Sprintf("%s: usual yield of %s", y.Planting.ID, y.Planting.Crop),
				Value: y.Usual.Grams.String() + " g a " + y.Usual.Per, Provenance: y.Usual.Provenance})
		}
	}
	return reasons
}

var spentReason = units.Reason{Figure: "spent compost", Value: "a mulch, or with feed another family; not the same family again",
	Provenance: units.Provenance{Source: "common practice, no source", KnownBy: "practice"}}

// Total sums a season's plantings.
func Total(season harvest.Season) (net, toEat decimal.Decimal, went harvest.Went) {
	for _, row := range season.Rows {
		net = net.Add(row.Net)
		toEat = toEat.Add(row.ToEat)
		went = went.Add(row.Went)
	}
	return net, toEat, went
}
