package main

import (
	"cmp"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
)

func newNextCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	var season int
	cmd := &cobra.Command{
		Use:   "next",
		Short: "What to plant next season for what is really eaten",
		Long: `What to plant next season, from what the journal says was eaten, given, lost and
left in every season so far, and from what this plot really gave a plant. Where
seasons are few the published yield weighs more, and the answer says that it
guesses. Each number has the range it lies in nine times out of ten.`,
		Example: "  trencher next --season 2032\n  trencher next --json",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			p, err := ask.Open(plot.ask(env))
			if err != nil {
				return err
			}
			ledger, err := p.Ledger(cmd.Context())
			if err != nil {
				return err
			}
			answer, err := ledger.Next(cmd.Context(), cmp.Or(season, p.On.Year()+1))
			if err != nil {
				return err
			}
			warn(env, answer.Warnings)
			if face.json {
				return render.NextJSON(env.out, answer)
			}
			return show(env, answer, face, render.NextText, render.NextJSON)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	cmd.Flags().IntVar(&season, "season", 0, "the `year` to plan (default: the one after the day asked for)")
	return cmd
}
