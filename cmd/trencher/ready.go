package main

import (
	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
)

func newReadyCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	var felt []string
	cmd := &cobra.Command{
		Use:   "ready",
		Short: "Which plantings are due, and what to check before lifting",
		Long: `Which plantings are due by the weeks since planting, and what to look and feel
for before lifting: the calendar opens the window, the signs decide.`,
		Example: `  trencher ready
  trencher ready --felt tub-1="38 mm" --on 2031-07-05`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			answer, err := ask.Ready(cmd.Context(), ask.ReadyQuestion{PlotRef: plot.ask(env), Felt: felt})
			if err != nil {
				return err
			}
			warn(env, answer.Warnings)
			if face.json {
				return render.ReadyJSON(env.out, answer)
			}
			return render.ReadyText(env.out, answer, face.why)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	addTexts(cmd.Flags(), &felt, "felt", "a `size` felt near the surface: tub-3=\"38 mm\" (repeatable)")
	return cmd
}
