package main

import (
	"strings"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/units"
)

func newDishCommand(env *environment) *cobra.Command {
	var flags planFlags
	var q ask.DishWords
	cmd := &cobra.Command{
		Use:   "dish NAME",
		Short: "Scale one dish to a weighed crop or to portions",
		Long: `Scale one dish of the plot: to the crop you weighed (--lifted) or to so many
portions. The weighed crop is never rounded; all else is put into measures a
kitchen has, with the exact figure beside it where that moved it by over 2 %.`,
		Example: `  trencher dish "Crushed potatoes with chives" --demo --lifted "1.85 kg"
  trencher dish crushed-potatoes --portions 6 --serve-at 18:30`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("which dish? write its name, as: trencher dish mash --portions 6")
			}
			if q.Portions == 0 && cmd.Flags().Changed("portions") {
				return units.WrongField("portions", "0", "no number of portions", recipes.PortionsAccepted)
			}
			q.Plot, q.Name = flags.plot.ask(env), strings.Join(args, " ")
			if err := journal.CheckOutputs(flags.outputs()); err != nil {
				return err
			}
			answer, err := ask.ScaleDish(q)
			if err != nil {
				return err
			}
			return flags.show(env, answer)
		},
	}
	flags.add(cmd)
	completeWords(cmd, 1, dishNames(env, &flags.plot))
	cmd.AddCommand(newDishImportCommand(env), newDishExportCommand(env))
	addTexts(cmd.Flags(), &q.Lifted, "lifted", "the weighed `crop`: \"1.85 kg\"; \"beetroot=400 g\" where a dish has several")
	cmd.Flags().IntVar(&q.Portions, "portions", 0, "how many `portions` (default: the dish file's)")
	cmd.Flags().StringVar(&q.ServeAt, "serve-at", "", "serving `time`, as 18:30 or \"6:30 pm\"")
	addKitchenFlags(cmd.Flags(), &q.Given)
	return cmd
}
