package main

import (
	"bufio"
	"errors"
	"fmt"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
)

// errLeft ends a command whose entry was not meant after all.
var errLeft = errors.New("nothing was written")

// askingAbout writes, and asks a person at a terminal about what is hardly
// meant; a yes writes it as it is. Elsewhere the doubt is the command's error.
func askingAbout(env *environment, where *ask.PlotRef, write func() error) error {
	err := write()
	var unsure *harvest.Unsure
	if !errors.As(err, &unsure) || !isTerminal(env.in) {
		return err
	}
	fmt.Fprintln(env.err, unsure)
	fmt.Fprint(env.err, "Is that right as it is (y writes it down, Enter does not)? ")
	answer, _ := bufio.NewReader(env.in).ReadString('\n')
	if !strings.HasPrefix(strings.ToLower(strings.TrimSpace(answer)), "y") {
		return errLeft
	}
	where.Sure = true
	return write()
}
