package main

import (
	"github.com/spf13/cobra"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

func newReweighCommand(env *environment) *cobra.Command {
	var plot writeFlags
	var face faceFlags
	var q ask.ReweighQuestion
	cmd := &cobra.Command{
		Use:   "reweigh LOT WEIGHT",
		Short: "Weigh a sack again: what dried away, what was rotten",
		Long: `Weigh a lot again. WEIGHT is what is there now and fit to eat, alone or as a
full bowl less the empty one; --rotten is what was thrown out. What the journal
had beyond both has dried away: nobody ate it. A lot that was set aside for its
age has been looked over with this.`,
		Example: `  trencher reweigh bed-2/45-65-sound "690 g" --rotten "40 g"`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) < 2 {
				return usagef("`%s LOT WEIGHT`: `trencher stock` lists the lots", cmd.CommandPath())
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			q.PlotRef, q.Lot, q.Weight = plot.ask(env), args[0], strings.Join(args[1:], " ")
			var answer harvest.LoggedReweighed
			err := askingAbout(cmd.Context(), env, &q.PlotRef, func() (err error) {
				answer, err = ask.Reweigh(cmd.Context(), q)
				return err
			})
			if err != nil {
				return err
			}
			warn(env, answer.Warnings)
			return show(env, answer, face, render.ReweighText, render.ReweighJSON)
		},
	}
	plot.add(cmd)
	plot.addSure(cmd)
	completeWords(cmd, 1, lotNames(env, &plot))
	face.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&q.Rotten, "rotten", "", "`weight` of what was thrown out")
	flags.StringVar(&q.Lies, "where", "", "where it lies now (default: where it lay)")
	flags.StringVar(&q.Air, "air", "", "how warm it is there: \"8 C\"")
	flags.StringVar(&q.At, "at", "", "when (default: now)")
	flags.StringVar(&q.Replaces, "replaces", "", "the `file` of the entry this one corrects")
	return cmd
}
