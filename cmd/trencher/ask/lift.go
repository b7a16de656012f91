package ask

import (
	"context"
	"errors"

	"trencher/harvest"
	"trencher/units"
)

// LiftQuestion is a weighed lift to be logged, as it was typed.
type LiftQuestion struct {
	PlotRef
	Planting      string
	Weighings     []string // "1.46 kg - 0.31 kg"
	Grades        []string // "820 g 20-45 mm scabby"
	Mothers, Soil string   // weighed apart
	At            string   // "" = now
	Left          string   // some or none
	Lies          string   // where the crop lies now
	Says          string
	Replaces      string // the file of the lift this one corrects
}

// Lift writes a weighed lift to the journal. Nothing is written unless every
// part of it makes sense.
func Lift(ctx context.Context, q LiftQuestion) (harvest.LoggedLift, error) {
	plot, ledger, err := openToWrite(q.PlotRef)
	if err != nil {
		return harvest.LoggedLift{}, err
	}
	lift, err := q.read(plot.Kitchen.Measures)
	if err != nil {
		return harvest.LoggedLift{}, err
	}
	if lift.At, err = q.clock().given("at", q.At); err != nil {
		return harvest.LoggedLift{}, err
	}
	logged, err := ledger.Lift(ctx, lift, q.Now)
	return logged, asTyped(err, "at", q.At)
}

// read turns what was typed into a lift, each fault told by its field.
func (q LiftQuestion) read(system units.System) (*harvest.Lift, error) {
	l := &harvest.Lift{Planting: q.Planting, Left: q.Left, Where: q.Lies, Says: q.Says}
	l.Replaces = q.Replaces
	var failed []error
	for _, text := range q.Weighings {
		w, err := harvest.ParseWeighing(text, system)
		failed = append(failed, units.InField("weighing", text, err))
		l.Weighings = append(l.Weighings, w)
	}
	for _, text := range q.Grades {
		g, err := harvest.ParseGrade(text, system)
		failed = append(failed, units.InField("grade", text, err))
		l.Grades = append(l.Grades, g)
	}
	l.Mothers = readWeight("mothers", q.Mothers, system, &failed)
	l.Soil = readWeight("soil", q.Soil, system, &failed)
	if q.Left != "" && q.Left != harvest.LeftSome && q.Left != harvest.LeftNone {
		failed = append(failed, units.WrongField("left", q.Left, "not a word known here", "some or none"))
	}
	if err := errors.Join(failed...); err != nil {
		return nil, err
	}
	return l, l.Check()
}

// readWeight reads a weight; "" is none.
func readWeight(field, text string, system units.System, failed *[]error) units.Quantity {
	if text == "" {
		return units.Quantity{}
	}
	w, err := harvest.ParseWeight(text, system)
	*failed = append(*failed, units.InField(field, text, err))
	return w
}

// asTyped puts what was typed into an error of that field that has no value.
func asTyped(err error, field, text string) error {
	var wrong *units.FieldError
	if errors.As(err, &wrong) && wrong.Field == field && wrong.Value == "" {
		wrong.Value = text
	}
	return err
}

// Weighed is the lift as far as it was typed, to tell its weights while it is
// being asked for.
func Weighed(q LiftQuestion) (*harvest.Lift, error) {
	plot, err := openMeasures(q.PlotRef)
	if err != nil {
		return nil, err
	}
	return q.read(plot.Kitchen.Measures)
}
