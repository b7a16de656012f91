package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/cmd/trencher/talk"
	"trencher/harvest"
	"trencher/units"
)

// isTerminal tells whether a person sits at the other end.
func isTerminal(in io.Reader) bool {
	file, ok := in.(*os.File)
	if !ok {
		return false
	}
	info, err := file.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	nothing, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, nothing)
}

// liftTalk asks for a lift, piece by piece, and shows it once as a whole.
type liftTalk struct {
	*talk.Talk
	q         *ask.LiftQuestion
	plantings []harvest.Planting // the likeliest first
	measures  units.System
	tare      string // of the bowl before
	of        harvest.Planting
}

// askLift asks for everything of a lift that matters. A line that makes no sense
// is told and asked for again. Its error is [talk.ErrLeft] where the person left.
func askLift(ctx context.Context, env *environment, q *ask.LiftQuestion) error {
	plot, err := ask.Open(q.PlotRef)
	if err != nil {
		return err
	}
	plantings, err := ask.Plantings(q.PlotRef)
	if err != nil {
		return err
	}
	// What is wrong in the journal keeps no lift out: then none is known to be due.
	ready, _ := ask.Ready(ctx, ask.ReadyQuestion{PlotRef: q.PlotRef})
	t := liftTalk{Talk: env.talk(ctx), q: q, measures: plot.Kitchen.Measures, plantings: ready.LiftOrder(plantings)}
	for _, part := range []func() error{t.planting, t.bowls, t.grades, t.left, t.lies, t.when, t.whole} {
		if err := part(); err != nil {
			return err
		}
	}
	return nil
}

func (t *liftTalk) planting() error {
	var choices []string
	for _, p := range t.plantings {
		choices = append(choices, render.PlantingWords(p))
	}
	return t.Choose("Lifted from?", choices, "1", func(choice int, name string) error {
		id, err := harvest.FindPlanting(t.plantings, name)
		if choice >= 0 {
			id, err = t.plantings[choice].ID, nil
		}
		for _, p := range t.plantings {
			if p.ID == id {
				t.of = p
			}
		}
		t.q.Planting = id
		return err
	})
}

func (t *liftTalk) bowls() error {
	err := t.Each(func(sofar int) string {
		switch {
		case sofar == 0:
			return fmt.Sprintf("Bowl 1 in %s, full less empty, as 1.46 - 0.31?", harvest.ScaleUnit(t.measures))
		case t.tare != "":
			return fmt.Sprintf("Bowl %d, full alone if it is empty %s as before (Enter: no more)?", sofar+1, t.tare)
		}
		return fmt.Sprintf("Bowl %d (Enter: no more)?", sofar+1)
	}, func(text string) error {
		weighing, tare, err := harvest.SaidWeighing(text, harvest.ScaleUnit(t.measures), t.tare, t.measures)
		if err != nil {
			return err
		}
		with := t.q.LiftWords
		with.Weighings = append(with.Weighings, weighing)
		lift, err := ask.Weighed(ask.LiftQuestion{PlotRef: t.q.PlotRef, LiftWords: with})
		if err == nil {
			t.q.LiftWords, t.tare = with, tare
			t.Say("  " + render.Weight(lift.Net()) + " so far")
		}
		return err
	})
	if err == nil && len(t.q.Weighings) == 0 {
		return talk.ErrLeft
	}
	return err
}

func (t *liftTalk) grades() error {
	return t.Each(func(int) string {
		return "Sorted, as 820 g 20-45 mm scabby (Enter: the rest is sound, not sorted)?"
	}, func(text string) error {
		with := t.q.LiftWords
		with.Grades = append(with.Grades, text)
		lift, err := ask.Weighed(ask.LiftQuestion{PlotRef: t.q.PlotRef, LiftWords: with})
		if err == nil {
			t.q.LiftWords = with
			t.Say("  " + render.Weight(lift.Rest()) + " not sorted yet")
		}
		return err
	})
}

func (t *liftTalk) left() error {
	offered := "yes"
	if t.of.IsEmptiedAtOnce() {
		offered = "no"
	}
	return t.Ask("Is any of it still in the ground, yes or no?", offered, func(answer string) error {
		switch strings.ToLower(answer) {
		case "y", "yes":
			t.q.Left = harvest.LeftSome
		case "n", "no":
			t.q.Left = harvest.LeftNone
		default:
			return units.WrongField("", "", fmt.Sprintf("%q is neither", answer), "yes or no")
		}
		return nil
	})
}

func (t *liftTalk) lies() error {
	return t.Ask("Where does it lie now (Enter: leave that open)?", "", func(answer string) error {
		t.q.Lies = answer
		return nil
	})
}

func (t *liftTalk) when() error {
	return t.Ask("When, as 16:40 or yesterday 18:00?", "now", func(answer string) error {
		t.q.At = answer
		return pastMoment(t.q.PlotRef, answer)
	})
}

// pastMoment makes sure that a moment of the past can be read.
func pastMoment(where ask.PlotRef, text string) error {
	_, err := where.Clock().Past("at", text)
	return err
}

// whole shows the lift and asks whether to write it.
func (t *liftTalk) whole() error {
	lift, err := ask.Weighed(*t.q)
	if err != nil {
		return err
	}
	t.Say(render.LiftWords(lift, t.q.At))
	return t.Confirm("Write it down")
}
