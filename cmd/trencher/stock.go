package main

import (
	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
)

func newStockCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	var seasons []int
	cmd := &cobra.Command{
		Use:   "stock",
		Short: "What is on hand by lot, how long it keeps raw, what to use first",
		Long: `What is on hand, lot by lot, what to use first on top. How long a lot keeps raw
is counted from the day it was lifted, with the lower of the usual figures.
Green and rotten lots stand apart: they never go to the kitchen.`,
		Example: `  trencher stock
  trencher stock --on 2031-07-21 --why`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if plot.where.On != "" && len(seasons) > 0 {
				return usagef("--on asks for a day and --season for a whole season; give one of them")
			}
			answer, err := ask.Stock(cmd.Context(), plot.ask(env), seasons...)
			if err != nil {
				return err
			}
			warn(env, answer.Warnings)
			if face.json {
				return render.StockJSON(env.out, answer)
			}
			return render.StockText(env.out, answer, face.why)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	cmd.Flags().IntSliceVar(&seasons, "season", nil, "what the season of that `year` left, at its last entry")
	return cmd
}
