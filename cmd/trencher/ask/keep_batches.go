package ask

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/recipes/keeping"
	"trencher/units"
)

// KeptBatch is one cooked batch of the journal with its verdict.
type KeptBatch struct {
	Name     string
	Dish     string
	CookedAt time.Time
	Verdict  keeping.Verdict
}

// Title names the batch for a list: its name and when it was cooked.
func (b KeptBatch) Title() string {
	if b.CookedAt.IsZero() {
		return b.Name
	}
	return fmt.Sprintf("%s, cooked %s", b.Name, b.CookedAt.Format("Mon 2 Jan 15:04"))
}

// BatchesAnswer is every cooked batch not yet eaten or binned, the most
// urgent first.
type BatchesAnswer struct {
	Batches  []KeptBatch
	Warnings []string
}

// KeepBatches judges every cooked batch in the plot's journal.
func KeepBatches(ctx context.Context, q KeepQuestion) (BatchesAnswer, error) {
	if err := q.settle(); err != nil {
		return BatchesAnswer{}, err
	}
	where := q.PlotRef
	if q.At != "" {
		where.On = q.moment.In(q.zone()).Format(time.DateOnly)
	}
	b, err := openBooks(ctx, where)
	if err != nil {
		return BatchesAnswer{}, err
	}
	kept, err := q.judgeAll(b.entries)
	if err != nil {
		return BatchesAnswer{}, err
	}
	return BatchesAnswer{Batches: kept, Warnings: b.Warnings}, nil
}

// judgeAll judges the batches that the entries up to the moment tell of.
func (q *KeepQuestion) judgeAll(entries []harvest.Entry) ([]KeptBatch, error) {
	standing, _, err := harvest.Correct(entries)
	if err != nil {
		return nil, err
	}
	authority, err := keeping.ParseAuthority(q.authority())
	if err != nil {
		return nil, err
	}
	var household keeping.Batch
	r := keepReader{clock: clock{q.moment, q.zone()}}
	if q.household(&r, &household); r.err != nil {
		return nil, r.err
	}
	var kept []KeptBatch
	for _, h := range histories(standing, q.moment) {
		if h.gone() {
			continue
		}
		h.batch.Fridge, h.batch.Vulnerable, h.batch.HeatedUp = household.Fridge, household.Vulnerable, h.reheated
		kept = append(kept, h.judge(authority, q.moment))
	}
	slices.SortStableFunc(kept, moreUrgent)
	return kept, nil
}

// moreUrgent puts what is to be thrown out first, then what cannot be told,
// then by the last moment; what has none comes last.
func moreUrgent(a, b KeptBatch) int {
	rank := func(v keeping.Verdict) int {
		switch {
		case v.Kind == keeping.Discard:
			return 0
		case v.Kind == keeping.Unknown:
			return 1
		case v.Until.IsZero():
			return 3
		}
		return 2
	}
	return cmp.Or(
		cmp.Compare(rank(a.Verdict), rank(b.Verdict)),
		a.Verdict.Until.Compare(b.Verdict.Until),
		a.CookedAt.Compare(b.CookedAt),
		cmp.Compare(a.Name, b.Name),
	)
}

// history is what the journal tells of one batch.
type history struct {
	name, dish string
	batch      keeping.Batch
	reheated   bool // heated up and not cooled again
	cooked     units.Quantity
	left       units.Quantity // what is left of cooked, where both are known
	ended      bool
}

// histories gathers the batch events up to a moment by the batch's name; a
// name cooked again is a new batch.
func histories(entries []harvest.Entry, now time.Time) []*history {
	sorted := slices.Clone(entries)
	harvest.SortEntries(sorted)
	var all []*history
	latest := map[string]*history{}
	for _, entry := range sorted {
		event, ok := entry.(*harvest.Batch)
		if !ok || event.At.After(now) {
			continue
		}
		key := strings.ToLower(event.Name)
		h := latest[key]
		if h == nil || event.Event == harvest.KindCooked {
			h = &history{name: event.Name}
			latest[key], all = h, append(all, h)
		}
		h.take(event, now)
	}
	return all
}

func (h *history) take(e *harvest.Batch, now time.Time) {
	switch e.Event {
	case harvest.KindCooked:
		h.dish, h.cooked, h.left = e.Dish, e.Amount, e.Amount
		h.batch.Food, h.batch.CookedAt = e.Food, e.At
	case harvest.KindChilled:
		h.chill(e.At)
	case harvest.KindOut:
		h.takeOut(e, now)
	case harvest.KindReheated:
		h.reheat(e.At)
	case harvest.KindEaten, harvest.KindBinned:
		h.lessen(e.Amount)
	}
}

// chill puts the batch into the fridge, for the first time or again.
func (h *history) chill(at time.Time) {
	if h.reheated {
		h.batch.Reheated++
		h.reheated = false
	}
	if h.batch.ChilledAt.IsZero() {
		h.batch.ChilledAt = at
		return
	}
	for i, s := range h.batch.Out {
		if s.To.IsZero() {
			h.batch.Out[i].To = at
		}
	}
}

func (h *history) takeOut(e *harvest.Batch, now time.Time) {
	s := keeping.Spell{From: e.At, To: e.Until}
	if s.To.After(now) {
		s.To = time.Time{}
	}
	if c, err := e.Air.Float64(units.Celsius); err == nil {
		s.Air = keeping.Celsius(c)
	}
	h.batch.Out = append(h.batch.Out, s)
}

// reheat heats the batch up: it is out of the fridge from then on. Heated up
// again without a stay in the fridge between, it has cooled on the table.
func (h *history) reheat(at time.Time) {
	if h.reheated {
		h.batch.Reheated++
	}
	h.reheated = true
	h.batch.Out = append(h.batch.Out, keeping.Spell{From: at})
}

// lessen takes away what was eaten or binned; without an amount that is all of
// it. Amounts that cannot be compared leave it standing.
func (h *history) lessen(amount units.Quantity) {
	if !amount.IsValid() {
		h.ended = true
		return
	}
	if left, err := h.left.Sub(amount); h.left.IsValid() && err == nil {
		h.left = left
		h.ended = h.ended || left.Sign() <= 0
	}
}

func (h *history) gone() bool { return h.ended }

// judge gives the verdict. Entries that cannot all be true give Unknown, with
// what is wrong.
func (h *history) judge(a keeping.Authority, now time.Time) KeptBatch {
	kept := KeptBatch{Name: h.name, Dish: h.dish, CookedAt: h.batch.CookedAt}
	v, err := keeping.Judge(h.batch, a, now)
	var wrong *units.FieldError
	if errors.As(err, &wrong) {
		v = keeping.Verdict{
			Kind: keeping.Unknown, Missing: keeping.FactIn(wrong.Field), Authority: a,
			Head:     "Cannot say: " + wrong.In(string(keeping.FactIn(wrong.Field))) + ".",
			Sentence: "Mend its entries in the journal; if you cannot find out, throw it out.",
			Cautions: keeping.Cautions(h.batch.Vulnerable),
		}
	}
	kept.Verdict = v
	return kept
}
