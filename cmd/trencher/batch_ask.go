package main

import (
	"context"
	"errors"
	"strconv"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/cmd/trencher/talk"
	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
)

// batchTalk asks for events of cooked batches, one after the other, and shows
// them once as a whole.
type batchTalk struct {
	*talk.Talk
	ctx    context.Context
	where  ask.PlotRef
	event  meal.EventWords  // what each begins as
	dishes []recipes.Dish   // cooked: what may have been
	plan   *harvest.Planned // cooked: the plan that may have been
	rest   []meal.EventWords
	there  []meal.KeptBatch // else: what is there
	words  []meal.EventWords
	told   []string // the same in words
}

// askBatches asks what was cooked, eaten, and so on. Its error is [talk.ErrLeft]
// where the person left.
func askBatches(ctx context.Context, env *environment, where ask.PlotRef, event meal.EventWords) ([]meal.EventWords, error) {
	t := &batchTalk{ctx: ctx, where: where, event: event}
	if err := t.offer(); err != nil {
		return nil, err
	}
	t.Talk = env.talk(ctx)
	for {
		more, err := t.one()
		if err != nil {
			return nil, err
		}
		if !more {
			break
		}
	}
	if len(t.words) == 0 {
		return nil, talk.ErrLeft
	}
	for _, line := range t.told {
		t.Say(line)
	}
	return t.words, t.Confirm("Write it down")
}

// offer finds what may be chosen.
func (t *batchTalk) offer() (err error) {
	if t.event.Event == harvest.KindCooked {
		log, err := ask.BatchLog(t.where)
		if err == nil {
			t.plan, t.rest = log.Planned(t.ctx)
			t.dishes = log.Dishes()
		}
		return err
	}
	kept, err := ask.KeepBatches(t.ctx, ask.KeepQuestion{PlotRef: t.where})
	if err != nil {
		return err
	}
	if t.there = kept.Batches; len(t.there) == 0 {
		return units.WrongField("", "", "nothing cooked is there", "what was cooked first, with cooked")
	}
	return nil
}

// choices lists what may be chosen that is not told yet; take makes an event of
// one.
func (t *batchTalk) choices() (lines []string, take []meal.EventWords, wholePlan bool) {
	taken := map[string]bool{}
	for _, w := range t.words {
		taken[w.Name] = true
	}
	if t.plan != nil && len(t.words) == 0 {
		lines, take, wholePlan = append(lines, render.PlanBatchesWords(t.plan, t.rest)), append(take, meal.EventWords{}), true
	}
	for _, d := range t.dishes {
		if !taken[d.Name] {
			lines, take = append(lines, d.Name), append(take, meal.EventWords{Name: d.Name, Amount: strconv.Itoa(d.Portions)})
		}
	}
	for _, b := range t.there {
		if !taken[b.Name] {
			lines, take = append(lines, render.BatchLeftWords(b)), append(take, meal.EventWords{Name: b.Name, Amount: render.Amount(b.Left)})
		}
	}
	return lines, take, wholePlan
}

// one asks for one event; more tells whether to ask for another.
func (t *batchTalk) one() (more bool, err error) {
	lines, take, wholePlan := t.choices()
	if len(lines) == 0 && len(t.words) > 0 {
		return false, nil
	}
	question, offered := render.EventQuestion(t.event.Event, len(t.words) > 0), ""
	if len(t.words) == 0 && len(lines) > 0 {
		offered = "1"
	}
	q := t.event
	err = t.Choose(question, lines, offered, func(choice int, name string) error {
		q = t.event
		q.Name = name
		if choice >= 0 {
			q.Name = take[choice].Name
		}
		if name == "" || wholePlan && choice == 0 {
			return nil
		}
		return t.check(&q, "batch", "dish")
	})
	switch {
	case err != nil || q.Name == "" && !wholePlan:
		return false, err
	case q.Name == "" && len(t.words) == 0:
		return t.takePlan()
	case q.Name == "":
		return false, nil
	}
	return true, t.details(q, amountOf(q.Name, take))
}

// amountOf is what there is of a batch; "" where none of those listed is called so.
func amountOf(name string, take []meal.EventWords) (amount string) {
	for _, known := range take {
		if known.Name == name {
			amount = known.Amount
		}
	}
	return amount
}

// takePlan takes all that is left of the plan, cooked at one time.
func (t *batchTalk) takePlan() (more bool, err error) {
	at := ""
	err = t.Ask(render.WhenQuestion(t.event.Event), "now", func(answer string) error {
		at = answer
		return pastMoment(t.where, answer)
	})
	for _, q := range t.rest {
		q.At = at
		if err == nil {
			err = t.add(q)
		}
	}
	return true, err
}

// details asks for what matters besides the name.
func (t *batchTalk) details(q meal.EventWords, left string) error {
	var steps []func() error
	if _, err := t.read(q); isOf(err, "food") {
		steps = append(steps, func() error { return t.food(&q) })
	}
	if q.TakesAmount() {
		steps = append(steps, func() error {
			return t.Ask("How much: portions, as 4, or a weight, as 600 g?", left, func(answer string) error {
				q.Amount = answer
				return t.check(&q, "amount")
			})
		})
	}
	if q.Event == harvest.KindOut {
		steps = append(steps, func() error {
			return t.Ask("How warm is the air there, as 24 C (Enter: not known)?", "", func(answer string) error {
				q.Air = answer
				return t.check(&q, "air")
			})
		})
	}
	steps = append(steps, func() error {
		return t.Ask(render.WhenQuestion(q.Event), "now", func(answer string) error {
			q.At = answer
			return t.check(&q, "at", "batch", "")
		})
	}, func() error { return t.add(q) })
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// food asks what a batch is that is no dish of the plot.
func (t *batchTalk) food(q *meal.EventWords) error {
	foods := keeping.BatchFoods()
	return t.Choose("No dish of this plot. What is it?", foods, "", func(choice int, name string) error {
		if q.Food = name; choice >= 0 {
			q.Food = foods[choice]
		}
		return t.check(q, "food")
	})
}

// read reads an event as far as it was said, and makes sure that it can be.
func (t *batchTalk) read(q meal.EventWords) (*harvest.BatchEvent, error) {
	where := t.where
	where.Sure = true // doubts are for the whole
	log, err := ask.BatchLog(where)
	if err != nil {
		return nil, err
	}
	return log.Check(t.ctx, q)
}

// check tells what is wrong with an event as far as it was said, where that is
// about one of these fields. It gives the event the whole of a name that was
// begun.
func (t *batchTalk) check(q *meal.EventWords, fields ...string) error {
	event, err := t.read(*q)
	if err == nil {
		q.Name = event.Name
		return nil
	}
	if isOf(err, fields...) {
		return err
	}
	return nil // asked for later
}

func isOf(err error, fields ...string) bool {
	var wrong *units.FieldError
	if !errors.As(err, &wrong) {
		return false
	}
	for _, field := range fields {
		if wrong.Field == field {
			return true
		}
	}
	return false
}

// add takes an event among those to write.
func (t *batchTalk) add(q meal.EventWords) error {
	event, err := t.read(q)
	if err != nil {
		return err
	}
	t.words, t.told = append(t.words, q), append(t.told, "  "+render.EntryWords(event))
	return nil
}
