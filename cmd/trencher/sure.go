package main

import (
	"context"
	"errors"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/talk"
	"trencher/harvest"
)

// askingAbout writes, and asks a person at a terminal about what is hardly
// meant; a yes writes it as it is. Elsewhere the doubt is the command's error.
func askingAbout(ctx context.Context, env *environment, where *ask.PlotRef, write func() error) error {
	err := write()
	var unsure *harvest.Unsure
	if !errors.As(err, &unsure) || !env.isPersonAsked() {
		return err
	}
	t := env.talk(ctx)
	t.Say(unsure.Error())
	if err := t.Need("Is that right as it is (y writes it down, Enter does not)?", talk.MustBeYes); err != nil {
		return err
	}
	where.Sure = true
	return write()
}
