package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
)

// isTerminal tells whether a person sits at the other end.
func isTerminal(in io.Reader) bool {
	file, ok := in.(*os.File)
	if !ok {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// errNothingAsked ends the questions without an entry.
var errNothingAsked = errors.New("nothing was written: no bowl was weighed")

// askLift asks for the planting, each bowl and each grade until an empty line.
// A line that makes no sense is told and asked for again. Questions go to
// standard error, so that the answer alone is on standard output.
func askLift(env *environment, q *ask.LiftQuestion) error {
	plantings, err := ask.Plantings(q.PlotRef)
	if err != nil {
		return err
	}
	a := asking{in: bufio.NewScanner(env.in), out: env.err}
	q.Planting = a.one("Which planting ("+strings.Join(harvest.IDs(plantings), ", ")+")? ", func(text string) error {
		return harvest.CheckPlanting(plantings, text)
	})
	if q.Planting == "" {
		return errNothingAsked
	}
	a.each("Bowl, full less empty, such as 1.46 kg - 0.31 kg (empty line: done)? ", func(text string) error {
		weighed, err := ask.Weighed(ask.LiftQuestion{PlotRef: q.PlotRef, LiftWords: harvest.LiftWords{Weighings: append(q.Weighings, text)}})
		if err == nil {
			q.Weighings = append(q.Weighings, text)
			fmt.Fprintf(a.out, "  %s g so far\n", weighed.Net())
		}
		return err
	})
	if len(q.Weighings) == 0 {
		return errNothingAsked
	}
	a.each("Grade, such as 820 g 20-45 mm scabby (empty line: the rest is sound)? ", func(text string) error {
		weighed, err := ask.Weighed(ask.LiftQuestion{PlotRef: q.PlotRef, LiftWords: harvest.LiftWords{Weighings: q.Weighings, Grades: append(q.Grades, text)}})
		if err == nil {
			q.Grades = append(q.Grades, text)
			fmt.Fprintf(a.out, "  %s g not graded yet\n", weighed.Rest())
		}
		return err
	})
	return a.in.Err()
}

// asking is a conversation on a terminal.
type asking struct {
	in  *bufio.Scanner
	out io.Writer
}

// line asks once; an empty answer or the end of input is "".
func (a *asking) line(question string) string {
	fmt.Fprint(a.out, question)
	if !a.in.Scan() {
		fmt.Fprintln(a.out)
		return ""
	}
	return strings.TrimSpace(a.in.Text())
}

// one asks until the answer is accepted or empty.
func (a *asking) one(question string, accept func(string) error) string {
	for {
		text := a.line(question)
		if text == "" {
			return ""
		}
		err := accept(text)
		if err == nil {
			return text
		}
		report(a.out, nil, err)
	}
}

// each takes answers until an empty one.
func (a *asking) each(question string, take func(string) error) {
	for {
		text := a.line(question)
		if text == "" {
			return
		}
		if err := take(text); err != nil {
			report(a.out, nil, err)
		}
	}
}
