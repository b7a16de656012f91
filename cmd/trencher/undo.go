package main

import (
	"context"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

func newUndoCommand(env *environment) *cobra.Command {
	var plot writeFlags
	var face faceFlags
	cmd := &cobra.Command{
		Use:   "undo",
		Short: "Take back the last entry that this device wrote",
		Long: `Take back the last entry that this device wrote: a lift, a whole plan, a batch,
a note. It is struck out by an entry of its own and stays on the disk; where it
corrected another, that one stands again. Once more takes back the one before.`,
		Example: "  trencher note \"Spring onion mash\" \"less salt\"\n  trencher undo",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			answer, err := undo(cmd.Context(), env, plot.ask(env))
			if err != nil {
				return err
			}
			return show(env, answer, face, render.UndoText, render.UndoJSON)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	return cmd
}

// undo shows a person at a terminal what it would take back, and asks.
func undo(ctx context.Context, env *environment, where ask.PlotRef) (harvest.Undone, error) {
	ledger, err := ask.Ledger(where)
	if err != nil {
		return harvest.Undone{}, err
	}
	last, err := ledger.Last(ctx)
	if err != nil || last == nil || !env.isPersonAsked() {
		return ledger.Undo(ctx, "", where.Now) // which tells why there is nothing
	}
	talk := env.talk(ctx)
	talk.Say(render.EntryWords(last))
	if err := talk.Confirm("Take it back"); err != nil {
		return harvest.Undone{}, err
	}
	return ledger.Undo(ctx, last.Head().File, where.Now)
}
