package main

import (
	"context"
	"strings"

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
		Use:   "lift [PLANTING [BOWL...]]",
		Short: "Log a weighed lift: bowls with their tare, sizes, conditions",
		Long: `Log a weighed lift: the planting, and each bowl as the full one less the empty
one; or the same by --planting and --weighing. Grades are parts of the net
weight; the rest is one ungraded sound lot. Run bare on a terminal, it asks for
everything in turn.`,
		Example: `  trencher lift tub-1 "1.2 kg - 250 g"
  trencher lift --planting tub-1 --weighing "1.46 kg - 0.31 kg" \
    --weighing "0.98 kg - 0.31 kg" --grade "820 g 20-45 mm scabby"`,
		RunE: func(cmd *cobra.Command, words []string) error {
			q.PlotRef = plot.ask(env)
			if err := takeLiftWords(&q, words); err != nil {
				return err
			}
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
	addTexts(flags, &q.Weighings, "weighing", "a `bowl`: \"1.46 kg - 0.31 kg\" (repeatable)")
	addTexts(flags, &q.Grades, "grade", "a `part` of it: \"820 g 20-45 mm scabby\" (repeatable)")
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

// takeLiftWords takes the planting and its bowls from words that stand without flags.
func takeLiftWords(q *ask.LiftQuestion, words []string) error {
	if len(words) == 0 {
		return nil
	}
	if q.Planting != "" {
		return usagef("the planting is named twice: %s, and --planting %s", words[0], q.Planting)
	}
	if harvest.IsWeighing(words[0]) {
		return usagef("the planting comes before its bowls, as: trencher lift tub-1 %q", words[0])
	}
	q.Planting = words[0]
	if len(words) > 1 && len(q.Weighings) > 0 {
		return usagef("the bowls are given twice: as %s, and by --weighing", strings.Join(words[1:], " "))
	}
	if len(words) > 1 {
		q.Weighings = harvest.Bowls(words[1:])
	}
	return nil
}
