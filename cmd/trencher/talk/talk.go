// Package talk is a conversation with a person at a terminal: a question, what
// is offered for an answer, and the answer on a line. An empty line takes what
// is offered. It knows nothing of gardens or kitchens.
package talk

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// ErrLeft ends a conversation without anything done: its input ended, or the
// person said no.
var ErrLeft = errors.New("nothing was written")

// Talk is a conversation. Make one with [New]; it remembers what was typed ahead.
type Talk struct {
	ctx   context.Context
	out   io.Writer
	lines chan string // closed where the input ends

	// Report tells what is wrong with an answer; nil tells the error alone.
	Report func(io.Writer, error)
}

// New begins a conversation, which ends with its context too: a person who
// breaks off does not have to finish the line.
func New(ctx context.Context, in io.Reader, out io.Writer) *Talk {
	t := &Talk{ctx: ctx, out: out, lines: make(chan string)}
	go func() {
		defer close(t.lines)
		scan := bufio.NewScanner(in)
		for scan.Scan() {
			select {
			case t.lines <- scan.Text():
			case <-ctx.Done():
				return
			}
		}
	}()
	return t
}

// Say tells something.
func (t *Talk) Say(text string) { fmt.Fprintln(t.out, text) }

// line asks once.
func (t *Talk) line(question, offered string) (string, error) {
	if offered != "" {
		question += " [" + offered + "]"
	}
	fmt.Fprint(t.out, question+" ")
	select {
	case text, ok := <-t.lines:
		if !ok {
			fmt.Fprintln(t.out)
			return "", ErrLeft
		}
		return strings.TrimSpace(text), nil
	case <-t.ctx.Done():
		fmt.Fprintln(t.out)
		return "", ErrLeft
	}
}

// Ask asks until the answer is accepted. Enter takes what is offered, which is
// shown in brackets and accepted like any answer; with nothing offered it is an
// empty answer. What is wrong with an answer is told.
func (t *Talk) Ask(question, offered string, accept func(answer string) error) error {
	for {
		answer, err := t.line(question, offered)
		if err != nil {
			return err
		}
		if answer == "" && offered != "" {
			answer = offered
		}
		if err := accept(answer); err == nil {
			return nil
		} else {
			t.report(err)
		}
	}
}

func (t *Talk) report(err error) {
	if t.Report != nil {
		t.Report(t.out, err)
		return
	}
	fmt.Fprintln(t.out, err)
}

// Each asks again and again until an empty line. The question may go by how many
// answers there are.
func (t *Talk) Each(question func(sofar int) string, take func(answer string) error) error {
	for taken := 0; ; {
		answer, err := t.line(question(taken), "")
		if err != nil || answer == "" {
			return err
		}
		if err := take(answer); err != nil {
			t.report(err)
			continue
		}
		taken++
	}
}

// Choose lists choices with their numbers and asks for one: by its number, or by
// a name that accept can read. Enter takes what is offered, a choice's number;
// with nothing offered it is an empty name.
func (t *Talk) Choose(question string, choices []string, offered string, accept func(choice int, name string) error) error {
	for i, choice := range choices {
		fmt.Fprintf(t.out, "%3d  %s\n", i+1, choice)
	}
	return t.Ask(question, offered, func(answer string) error {
		if number, err := strconv.Atoi(answer); err == nil && number >= 1 && number <= len(choices) {
			return accept(number-1, answer)
		}
		return accept(-1, answer)
	})
}

// Need asks until the answer is accepted; an empty one, and one that accept
// answers with ErrLeft, leaves.
func (t *Talk) Need(question string, accept func(answer string) error) error {
	left := false
	err := t.Ask(question, "", func(answer string) error {
		if answer == "" {
			left = true
			return nil
		}
		err := accept(answer)
		left = errors.Is(err, ErrLeft)
		if left {
			return nil
		}
		return err
	})
	if err == nil && left {
		return ErrLeft
	}
	return err
}

// MustBeYes accepts a yes, typed out; anything else leaves.
func MustBeYes(answer string) error {
	if strings.HasPrefix(strings.ToLower(answer), "y") {
		return nil
	}
	return ErrLeft
}

// Confirm asks for a yes, which Enter is; anything else but a no is asked again.
// Its error is ErrLeft where the answer is no.
func (t *Talk) Confirm(question string) error {
	left := error(nil)
	err := t.Ask(question+" (Enter: yes, n: no)?", "", func(answer string) error {
		switch strings.ToLower(answer) {
		case "", "y", "yes":
		case "n", "no":
			left = ErrLeft
		default:
			return fmt.Errorf("%q: Enter for yes, n for no", answer)
		}
		return nil
	})
	if err != nil {
		return err
	}
	return left
}
