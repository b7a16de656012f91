package ask

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
)

// KeptBatch is one cooked batch of the journal with its verdict.
type KeptBatch struct {
	*harvest.Batch
	Verdict keeping.Verdict
}

// BatchesAnswer is every cooked batch not yet eaten or binned, the most
// urgent first.
type BatchesAnswer struct {
	Batches  []KeptBatch
	Warnings []harvest.Warning
}

// KeepBatches judges every cooked batch in the plot's journal.
func KeepBatches(ctx context.Context, q KeepQuestion) (BatchesAnswer, error) {
	judge, err := q.judge()
	if err != nil {
		return BatchesAnswer{}, err
	}
	where := q.PlotRef
	if q.At != "" {
		where.On = q.moment.In(q.zone()).Format(time.DateOnly)
	}
	plot, err := Open(where)
	if err != nil {
		return BatchesAnswer{}, err
	}
	ledger, err := plot.ledger(ctx)
	if err != nil {
		return BatchesAnswer{}, err
	}
	batches, err := ledger.Batches(q.moment)
	if err != nil {
		return BatchesAnswer{}, err
	}
	answer := BatchesAnswer{Warnings: ledger.Warnings}
	for _, b := range batches {
		answer.Batches = append(answer.Batches, KeptBatch{b, keeping.JudgeLogged(judge.history(b), judge.authority, judge.moment)})
	}
	slices.SortStableFunc(answer.Batches, func(a, b KeptBatch) int {
		return cmp.Or(keeping.MoreUrgent(a.Verdict, b.Verdict), a.CookedAt.Compare(b.CookedAt), cmp.Compare(a.Name, b.Name))
	})
	return answer, nil
}

// judge judges batches at one moment, by one authority, in one household.
type judge struct {
	authority keeping.Authority
	moment    time.Time
	household keeping.Batch // the fridge and who eats; the rest is each batch's own
}

func (q *KeepQuestion) judge() (judge, error) {
	if err := q.settle(); err != nil {
		return judge{}, err
	}
	authority, err := keeping.ParseAuthority(q.authority())
	if err != nil {
		return judge{}, err
	}
	j := judge{authority: authority, moment: q.moment}
	r := keepReader{clock: clock{q.moment, q.zone()}}
	q.household(&r, &j.household)
	return j, r.err
}

// history is a journal's batch as food safety looks at it.
func (j judge) history(b *harvest.Batch) keeping.Batch {
	h := j.household
	h.Food, h.CookedAt, h.ChilledAt = b.Food, b.CookedAt, b.ChilledAt
	h.Reheated, h.HeatedUp = b.Reheatings, b.State == harvest.HeatedUp
	for _, s := range b.Out {
		spell := keeping.Spell{From: s.From, To: s.To}
		if c, err := s.Air.Float64(units.Celsius); err == nil {
			spell.Air = keeping.Celsius(c)
		}
		h.Out = append(h.Out, spell)
	}
	return h
}

// BatchEventQuestion logs one event in the life of a cooked batch, as typed.
type BatchEventQuestion struct {
	PlotRef
	Event  string // harvest.KindCooked, KindChilled, KindOut, KindReheated, KindEaten or KindBinned
	Name   string // the batch
	At     string // "" = now
	Food   string // cooked
	Dish   string // cooked
	Amount string // cooked, eaten, binned; "" = all of it
	Until  string // out
	Air    string // out
	Says   string
}

// BatchEventAnswer is the event as written, and what to do with the batch now;
// Batch is nil when nothing is left of it.
type BatchEventAnswer struct {
	Event    *harvest.BatchEvent
	Batch    *KeptBatch
	Warnings []harvest.Warning
}

// LogBatchEvent writes an event to the journal. Apart from cooked, the batch
// must be one that was cooked and is not gone.
func LogBatchEvent(ctx context.Context, q BatchEventQuestion) (BatchEventAnswer, error) {
	keep := KeepQuestion{PlotRef: q.PlotRef}
	judge, err := keep.judge()
	if err != nil {
		return BatchEventAnswer{}, err
	}
	q.SkipDamaged = true // no damaged entry keeps a new one out
	plot, ledger, err := openToWrite(q.PlotRef)
	if err != nil {
		return BatchEventAnswer{}, err
	}
	event, err := q.read(plot)
	if err != nil {
		return BatchEventAnswer{}, err
	}
	batch, err := ledger.Fits(ctx, event, q.Now)
	if err != nil {
		return BatchEventAnswer{}, asTyped(asTyped(err, "at", q.At), "until", q.Until)
	}
	if event.At.After(judge.moment) {
		judge.moment = event.At
	}
	answer := BatchEventAnswer{Event: event, Warnings: ledger.Warnings}
	if batch.State != harvest.Gone {
		verdict, err := keeping.Judge(judge.history(batch), judge.authority, judge.moment)
		if err != nil {
			return BatchEventAnswer{}, fmt.Errorf("%s %s at %s cannot be: %w", event.Name, event.Event, event.At.Format("15:04"), err)
		}
		answer.Batch = &KeptBatch{batch, verdict}
	}
	return answer, ledger.Write(event)
}

// read makes the entry of what was typed.
func (q *BatchEventQuestion) read(plot *Plot) (*harvest.BatchEvent, error) {
	e := &harvest.BatchEvent{Event: q.Event, Name: strings.TrimSpace(q.Name), Says: q.Says, Dish: q.Dish}
	if e.Name == "" {
		return nil, units.WrongField("batch", "", "the batch has no name", `a name to know it by, such as "potato salad"`)
	}
	var err error
	if e.At, err = q.clock().moment("at", q.At); err != nil {
		return nil, err
	}
	if q.Until != "" {
		if e.Until, err = q.clock().moment("until", q.Until); err != nil {
			return nil, err
		}
	}
	if q.Amount != "" {
		e.Amount, err = units.Parse(q.Amount, plot.Kitchen.Measures)
		if err != nil || e.Amount.Sign() <= 0 || e.Amount.IsRange() || e.Amount.IsToTaste() {
			return nil, units.WrongField("amount", q.Amount, "not an amount", `portions, as "4", or a weight, as "1.2 kg"`)
		}
	}
	if q.Air != "" {
		if _, err = celsiusOf("air", q.Air); err != nil {
			return nil, err
		}
		e.Air, _ = units.Parse(q.Air, units.Metric) // it has just been read
	}
	if q.Event != harvest.KindCooked {
		return e, nil
	}
	return e, q.readFood(e, plot)
}

// readFood settles what a cooked batch is: the food given, else the one the
// dish of that name falls under.
func (q *BatchEventQuestion) readFood(e *harvest.BatchEvent, plot *Plot) error {
	e.Food = q.Food
	name := cmp.Or(q.Dish, e.Name)
	dishes := plot.Dishes()
	if i := slices.IndexFunc(dishes, func(d recipes.Dish) bool { return strings.EqualFold(d.Name, name) }); i >= 0 {
		e.Dish = dishes[i].Name
		e.Food = cmp.Or(e.Food, meal.FoodOf(dishes[i]))
	}
	if e.Food == "" {
		return units.WrongField("food", "", "missing; "+e.Name+" is no dish of this plot", "what it is: "+strings.Join(keeping.BatchFoods(), ", "))
	}
	food, err := keeping.LookupBatchFood(e.Food)
	if err != nil {
		return err
	}
	e.Food = food.ID
	return nil
}

// Reasons gives the rules behind what to do with the batch, with their sources.
func (a BatchEventAnswer) Reasons() []units.Reason {
	list := []units.Reason{harvest.WhenReason(a.Event.At)}
	if a.Batch != nil {
		list = append(list, a.Batch.Verdict.RuleReasons()...)
	}
	return list
}
