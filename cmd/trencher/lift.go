package main

import (
	"context"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

func newLiftCommand(env *environment) *cobra.Command {
	var plot writeFlags
	var face faceFlags
	var q ask.LiftQuestion
	cmd := &cobra.Command{
		Use:   "lift",
		Short: "Log a weighed lift: bowls with their tare, sizes, conditions",
		Long: `Log a weighed lift. Each bowl is one --weighing: the full bowl less the empty
one. Grades are parts of the net weight; the rest is one ungraded sound lot.
Run bare on a terminal, it asks for everything in turn.`,
		Example: `  trencher lift --planting tub-1 --weighing "1.46 kg - 0.31 kg" \
    --weighing "0.98 kg - 0.31 kg" --grade "820 g 20-45 mm scabby"`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			q.PlotRef = plot.ask(env)
			if len(q.Weighings) == 0 && q.Planting == "" && env.isPersonAsked() {
				if err := askLift(cmd.Context(), env, &q); err != nil {
					return err
				}
			}
			if q.Planting == "" {
				return usagef("--planting is missing: which tub or bed was lifted")
			}
			if len(q.Weighings) == 0 {
				return usagef(`--weighing is missing: each bowl as --weighing "1.46 kg - 0.31 kg"`)
			}
			var answer harvest.LoggedLift
			err := askingAbout(cmd.Context(), env, &q.PlotRef, func() (err error) {
				answer, err = ask.Lift(cmd.Context(), q)
				return err
			})
			if err != nil {
				return err
			}
			warn(env, answer.Warnings)
			return show(env, answer, face, render.LiftText, render.LiftJSON)
		},
	}
	plot.add(cmd)
	plot.addSure(cmd)
	face.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&q.Planting, "planting", "", "which tub or bed, by its `id` in plantings.yaml")
	flags.StringArrayVar(&q.Weighings, "weighing", nil, "a `bowl`: \"1.46 kg - 0.31 kg\" (repeatable)")
	flags.StringArrayVar(&q.Grades, "grade", nil, "a `part` of it: \"820 g 20-45 mm scabby\" (repeatable)")
	flags.StringVar(&q.At, "at", "", "when (default: now)")
	flags.StringVar(&q.Mothers, "mothers", "", "`weight` of the old seed tubers, kept out of the bowls")
	flags.StringVar(&q.Soil, "soil", "", "`weight` of soil and haulm, kept out of the bowls")
	flags.StringVar(&q.Left, "left", "", "what still stands in the ground: some or none")
	flags.StringVar(&q.Lies, "where", "", "where the crop lies now")
	flags.StringVar(&q.Says, "says", "", "a `remark`")
	flags.StringVar(&q.Replaces, "replaces", "", "the `file` of the lift this one corrects")
	completeFlag(cmd, "planting", func(context.Context) ([]string, error) {
		plantings, err := ask.Plantings(plot.ask(env))
		return harvest.IDs(plantings), err
	})
	complete(cmd, "left", func() []string { return []string{"some", "none"} })
	return cmd
}
