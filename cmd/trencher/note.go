package main

import (
	"context"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
)

func newNoteCommand(env *environment) *cobra.Command {
	var plot writeFlags
	var face faceFlags
	var q ask.NoteQuestion
	cmd := &cobra.Command{
		Use:     `note DISH "TEXT"`,
		Short:   "Write a tasting note; it is shown when the dish is next made",
		Example: `  trencher note "Crushed potatoes with chives" "less salt, more chives"`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 2 {
				return usagef("`%s DISH \"TEXT\"`: a dish's name and one text in quotes", cmd.CommandPath())
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			q.PlotRef, q.Dish, q.Says = plot.ask(env), args[0], args[1]
			answer, err := ask.WriteNote(cmd.Context(), q)
			if err != nil {
				return err
			}
			return show(env, answer, face, render.NoteText, render.NoteJSON)
		},
	}
	plot.add(cmd)
	completeWords(cmd, 1, func(context.Context) ([]string, error) { return ask.DishNames(plot.ask(env)) })
	face.add(cmd)
	cmd.Flags().StringVar(&q.At, "at", "", "when (default: now)")
	return cmd
}
