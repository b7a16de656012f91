package work

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/strict"
)

// LiftQuestion is a weighed lift to be logged, as it was typed.
type LiftQuestion struct {
	Where
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
	b, err := openToWrite(q.Where)
	if err != nil {
		return LiftAnswer{}, err
	}
	l, err := q.read(b.system)
	if err != nil {
		return LiftAnswer{}, err
	}
	p, warnings, err := b.dateLift(l, q)
	if err != nil {
		return LiftAnswer{}, err
	}
	if err := b.checkReplaces(ctx, l, q.Where); err != nil {
		return LiftAnswer{}, err
	}
	file, err := b.folder.Write(l)
	if err != nil {
		return LiftAnswer{}, err
	}
	return LiftAnswer{Lift: l, File: file, Net: l.Net(), Lots: l.Lots(p, ""), Warnings: warnings}, nil
}

// read turns what was typed into a lift, each fault told by its flag.
func (q LiftQuestion) read(system units.System) (*harvest.Lift, error) {
	l := &harvest.Lift{Planting: q.Planting, Left: q.Left, Where: q.Lies, Says: q.Says}
	l.Replaces = q.Replaces
	var failed []error
	for _, text := range q.Weighings {
		w, err := harvest.ParseWeighing(text, system)
		failed = append(failed, atFlag("weighing", text, err))
		l.Weighings = append(l.Weighings, w)
	}
	for _, text := range q.Grades {
		g, err := harvest.ParseGrade(text, system)
		failed = append(failed, atFlag("grade", text, err))
		l.Grades = append(l.Grades, g)
	}
	for flag, into := range map[string]*units.Quantity{"mothers": &l.Mothers, "soil": &l.Soil} {
		text := q.Mothers
		if flag == "soil" {
			text = q.Soil
		}
		if text == "" {
			continue
		}
		w, err := harvest.ParseWeight(text, system)
		failed = append(failed, atFlag(flag, text, err))
		*into = w
	}
	if q.Left != "" && q.Left != harvest.LeftSome && q.Left != harvest.LeftNone {
		failed = append(failed, strict.Flag("--left", q.Left, "not a word known here", "some or none"))
	}
	if err := strict.Join(failed...); err != nil {
		return nil, err
	}
	for _, p := range l.Problems() {
		return nil, &strict.Error{File: "--" + flagOf(p.Key), Problem: p.Text, Accepted: p.Accepted}
	}
	return l, nil
}

func flagOf(key string) string {
	switch {
	case strings.HasPrefix(key, "grades"):
		return "grade"
	case key == "mothers" || key == "soil":
		return key
	}
	return "weighing"
}

// atFlag names the flag a text came from.
func atFlag(flag, text string, err error) error {
	if err == nil {
		return nil
	}
	var hinted interface{ Hint() string }
	accepted := ""
	if errors.As(err, &hinted) {
		accepted = strings.TrimPrefix(hinted.Hint(), "write ")
	}
	return strict.Flag("--"+flag, text, err.Error(), accepted)
}

// dateLift settles when the lift was made and which planting it is of. A time
// after the machine's clock is refused, except where the planting itself was
// planted after it: then the clock is plainly not the plot's.
func (b *books) dateLift(l *harvest.Lift, q LiftQuestion) (harvest.Planting, []string, error) {
	at, err := moment("at", q.At, q.Where)
	if err != nil {
		return harvest.Planting{}, nil, err
	}
	l.At = at
	p, known := harvest.Standing(b.plantings, q.Planting, at)
	switch {
	case !known:
		return harvest.Planting{}, nil, strict.Flag("--planting", q.Planting, "not in plantings.yaml",
			"one of "+strings.Join(harvest.IDs(b.plantings), ", "))
	case p == nil:
		return harvest.Planting{}, nil, strict.Flag("--at", at.Format(time.DateOnly), "before "+q.Planting+" was planted",
			"when it was lifted: --at 2031-07-12T16:40, or mend the planted date in plantings.yaml")
	case !at.After(q.Now.Add(clockSlack)):
		return *p, nil, nil
	case p.Planted.After(q.Now):
		return *p, []string{fmt.Sprintf("this machine's clock says %s, before %s was planted; the time given was taken as it is",
			q.Now.Format(time.DateOnly), q.Planting)}, nil
	}
	return harvest.Planting{}, nil, strict.Flag("--at", q.At, "still to come, by this machine's clock ("+q.Now.Format("2006-01-02 15:04")+")",
		"the moment it was lifted")
}

// clockSlack forgives two clocks that disagree a little.
const clockSlack = 2 * time.Minute

// checkReplaces makes sure that the lift to be corrected is there, and that no
// grade something was used from goes missing.
func (b *books) checkReplaces(ctx context.Context, l *harvest.Lift, w Where) error {
	if l.Replaces == "" {
		return nil
	}
	if err := b.readSeason(ctx, l.At.Year(), w); err != nil {
		return err
	}
	for _, e := range b.entries {
		if e.Kind() == harvest.KindLift && harvest.Beside(e.Head().File, l.Replaces) == e.Head().File {
			l.File = harvest.Beside(e.Head().File, "not-yet-written")
			defer func() { l.File = "" }()
			b.on = l.At
			_, err := harvest.Settle(b.plantings, append(b.entries, l), b.last())
			return err
		}
	}
	return strict.Flag("--replaces", l.Replaces, "no lift of that name in this season", "the file name of the lift to correct")
}
