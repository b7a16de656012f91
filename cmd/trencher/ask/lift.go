package ask

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/shopspring/decimal"

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

// LiftAnswer is the lift as it stands in the journal.
type LiftAnswer struct {
	Lift     *harvest.Lift
	File     string
	Net      decimal.Decimal
	Lots     []*harvest.Lot
	Warnings []string
}

// Lift writes a weighed lift to the journal. Nothing is written unless every
// part of it makes sense.
func Lift(ctx context.Context, q LiftQuestion) (LiftAnswer, error) {
	b, err := openToWrite(q.PlotRef)
	if err != nil {
		return LiftAnswer{}, err
	}
	l, err := q.read(b.system)
	if err != nil {
		return LiftAnswer{}, err
	}
	original, season, err := b.original(ctx, q.PlotRef, l.Kind(), q.Replaces)
	if err != nil {
		return LiftAnswer{}, err
	}
	if original != nil && q.At == "" {
		q.At = original.When().Format(time.RFC3339)
	}
	p, warnings, err := b.dateLift(l, q)
	if err != nil {
		return LiftAnswer{}, err
	}
	if err := b.checkReplaces(l, original, season); err != nil {
		return LiftAnswer{}, err
	}
	file, err := b.folder.Write(l)
	if err != nil {
		return LiftAnswer{}, err
	}
	return LiftAnswer{Lift: l, File: file, Net: l.Net(), Lots: l.Lots(p, ""), Warnings: warnings}, nil
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
	l.Mothers = apart("mothers", q.Mothers, system, &failed)
	l.Soil = apart("soil", q.Soil, system, &failed)
	if q.Left != "" && q.Left != harvest.LeftSome && q.Left != harvest.LeftNone {
		failed = append(failed, units.WrongField("left", q.Left, "not a word known here", "some or none"))
	}
	if err := errors.Join(failed...); err != nil {
		return nil, err
	}
	for _, p := range l.Problems() {
		return nil, units.WrongField(fieldOf(p.Key), "", p.Text, p.Accepted)
	}
	return l, nil
}

// apart reads a weight kept out of the bowls; "" is none.
func apart(flag, text string, system units.System, failed *[]error) units.Quantity {
	if text == "" {
		return units.Quantity{}
	}
	w, err := harvest.ParseWeight(text, system)
	*failed = append(*failed, units.InField(flag, text, err))
	return w
}

func fieldOf(key string) string {
	switch {
	case strings.HasPrefix(key, "grades"):
		return "grade"
	case key == "mothers" || key == "soil":
		return key
	}
	return "weighing"
}

// dateLift settles when the lift was made and which planting it is of. A time
// after the machine's clock is refused, except where the planting itself was
// planted after it: then the clock is plainly not the plot's.
func (b *books) dateLift(l *harvest.Lift, q LiftQuestion) (harvest.Planting, []string, error) {
	at, err := q.clock().momentOrDay("at", q.At)
	if err != nil {
		return harvest.Planting{}, nil, err
	}
	l.At = at
	p, known := harvest.Standing(b.plantings, q.Planting, at)
	switch {
	case !known:
		return harvest.Planting{}, nil, units.WrongField("planting", q.Planting, "not in plantings.yaml",
			"one of "+strings.Join(harvest.IDs(b.plantings), ", "))
	case p == nil:
		return harvest.Planting{}, nil, units.WrongField("at", at.Format(time.DateOnly), "before "+q.Planting+" was planted",
			"when it was lifted, as 2031-07-12T16:40, or mend the planted date in plantings.yaml")
	case !q.clock().isAhead(at):
		return *p, nil, nil
	case p.Planted.After(q.Now):
		return *p, []string{fmt.Sprintf("this machine's clock says %s, before %s was planted; the time given was taken as it is",
			q.Now.Format(time.DateOnly), q.Planting)}, nil
	}
	return harvest.Planting{}, nil, q.clock().stillToCome("at", q.At, "the moment it was lifted")
}

// checkReplaces makes sure that correcting a lift leaves no use of it without
// its lot.
func (b *books) checkReplaces(l *harvest.Lift, original harvest.Entry, season []harvest.Entry) error {
	if original == nil {
		return nil
	}
	if original.When().Year() != l.At.Year() {
		return units.WrongField("at", l.At.Format(time.DateOnly), "in another season than "+original.Head().File,
			"a time of the same year, or void that entry and log the lift anew")
	}
	l.File = harvest.Beside(original.Head().File, "not-yet-written")
	defer func() { l.File = "" }()
	_, err := harvest.Settle(b.plantings, append(season, l), lastOf(season, l.At))
	return err
}
