package ask

import (
	"context"
	"fmt"
	"time"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/meal"
)

// ShareWords is a question about the day's harvest, as it was typed.
type ShareWords struct {
	Plot PlotRef
	meal.PlanWords
	Take  bool   // write the plan into the journal as carried out
	Shown string // take it only if it is still the plan of this ID
	Stock string // and made from the stock of this fingerprint

	NodeLimit int // the search's patience; 0 = the planner's own
}

// MealAnswer is a plan, with the entry that records it as carried out; its file
// is "" until that is done. A single dish has none.
type MealAnswer struct {
	meal.Plan
	Record *harvest.Planned
}

// Share answers the main job: how many portions of what, and all that follows
// from it. Errors: what is wrong in the plot's files, all together; a field that
// cannot be read; [ErrNothingOnHand]; a [*meal.NothingMadeError].
func Share(ctx context.Context, w ShareWords) (MealAnswer, error) {
	return answerMeal(ctx, w, meal.Share)
}

// Table answers the same where guests must be named. Its errors are those of
// [Share].
func Table(ctx context.Context, w ShareWords) (MealAnswer, error) {
	return answerMeal(ctx, w, meal.Table)
}

func answerMeal(ctx context.Context, w ShareWords, mode meal.Mode) (MealAnswer, error) {
	plot, err := Open(w.Plot)
	if err != nil {
		return MealAnswer{}, err
	}
	question, err := plot.readShare(ctx, w.PlanWords, mode)
	if err != nil {
		return MealAnswer{}, err
	}
	question.NodeLimit = w.NodeLimit
	plan, err := meal.Make(ctx, question)
	if err == nil && len(plan.Dishes) == 0 {
		err = &meal.NothingMadeError{Plan: plan}
	}
	if err != nil {
		return MealAnswer{Plan: plan}, err
	}
	answer := MealAnswer{plan, meal.Planned(plan, harvest.StockList{Lots: question.Lots})}
	answer.Record.Asked = meal.Recorded{PlanWords: w.PlanWords, Mode: mode, Now: question.Now}.Asked()
	if w.Take {
		err = plot.record(ctx, answer.Record, w)
	}
	return answer, err
}

// readShare reads the words into a question about this plot. Everything wrong in
// the plot's files is told before anything wrong in the words.
func (p *Plot) readShare(ctx context.Context, w meal.PlanWords, mode meal.Mode) (meal.Question, error) {
	all := p.Dishes()
	account := p.Account(ctx)
	if err := p.Err(); err != nil {
		return meal.Question{}, err
	}
	q := p.question(mode)
	q.Lots = account.Stock().Lots
	if len(w.Only) == 0 {
		q.Made = harvest.LastMade(p.entries, p.On.AddDate(0, 0, 1)) // else ties go as they were named
	}
	for _, read := range []func() error{
		func() (err error) { q.Dishes, err = recipes.Choose(all, w.Only, w.Without); return },
		func() (err error) { q.ServeAt, err = p.serving(w.ServeAt); return },
		func() error { return q.Give(w.Given, p.where.Clock()) },
		func() (err error) { q.AirC, err = meal.ParseAir(w.Air, p.Kitchen); return },
		func() error { return p.somethingOnHand(q) },
		func() error { return q.Seat(w.Eaters, len(w.Only) > 0) },
		func() error { return q.Hold(w.Limits, w.KeepBack) },
	} {
		if err := read(); err != nil {
			return meal.Question{}, err
		}
	}
	return q, nil
}

// question is what any plan asked of the plot rests on.
func (p *Plot) question(mode meal.Mode) meal.Question {
	q := meal.Question{Mode: mode, Plot: p.Name, On: p.On, Now: p.where.Now, Kitchen: p.Kitchen, AirC: p.Kitchen.RoomC,
		Notes: meal.TastingNotes(p.entries), Remarks: p.Warnings}
	q.KnifeTests, _ = meal.KnifeTests(p.entries) // `trencher steam` names those that cannot be read
	return q
}

func (p *Plot) somethingOnHand(q meal.Question) error {
	if len(q.Lots) > 0 {
		return nil
	}
	return fmt.Errorf("%w on %s: no lift is logged that is not used up", ErrNothingOnHand, p.On.Format(time.DateOnly))
}

// serving reads the serving time on the day asked for.
func (p *Plot) serving(text string) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	return p.where.Clock().OnDay("serve-at", text, p.On)
}
