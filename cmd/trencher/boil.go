package main

import (
	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/recipes/heat"
)

func newBoilCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	var q ask.BoilQuestion
	cmd := &cobra.Command{
		Use:   "boil [CROP [CUT]]",
		Short: "How long pieces take in boiling water, and what water and gas",
		Long: `How long pieces of a size take in boiling water: from when the water boils
again, and from putting them in, with the range to test by knife; how much water
and gas. --simmer keeps the water below the boil, for large whole ones.`,
		Example: `  trencher boil --crop potato --cut "cube 25 mm"
  trencher boil --crop potato --cut "whole 60 mm" --simmer "94 C" --until tender
  trencher boil --crop carrot --cut "slice 10 mm" --load "1 kg"`,
		RunE: func(cmd *cobra.Command, words []string) error {
			q.PlotRef = plot.ask(env)
			if err := takeCropWords(cmd, words, &q.Crop, &q.Cut); err != nil {
				return err
			}
			answer, err := ask.Boiling(q)
			if err != nil {
				return err
			}
			if face.json {
				return render.BoilJSON(env.out, answer, face.why)
			}
			return render.BoilText(env.out, answer, face.why)
		},
	}
	boilFlags(cmd, &plot, &face, &q)
	flags := cmd.Flags()
	flags.StringVar(&q.Until, "until", "", "just-tender, tender or soft (default: just-tender)")
	flags.StringVar(&q.Water, "water", "", "how much `water` (default: twice the load's weight)")
	flags.StringVar(&q.Simmer, "simmer", "", "keep the water at that `temperature`, below the boil: 94 C")
	flags.BoolVar(&q.Lidless, "no-lid", false, "the pot has no lid")
	flags.BoolVar(&q.Cold, "from-cold", false, "they go in with the cold water")
	complete(cmd, "until", heat.DonenessNames)
	return cmd
}

func newBlanchCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	var q ask.BoilQuestion
	cmd := &cobra.Command{
		Use:   "blanch [CROP [CUT]]",
		Short: "How to blanch pieces for the freezer: minutes, loads, ice",
		Long: `How to blanch pieces for the freezer: the minutes that are printed, or those
their middle needs where that is longer; the load this stove brings back to the
boil within a minute; ice and cooling.`,
		Example: `  trencher blanch --crop "green beans" --load "2 kg"
  trencher blanch --crop carrot --cut "cube 8 mm"`,
		RunE: func(cmd *cobra.Command, words []string) error {
			q.PlotRef = plot.ask(env)
			if err := takeCropWords(cmd, words, &q.Crop, &q.Cut); err != nil {
				return err
			}
			answer, err := ask.Blanching(q)
			if err != nil {
				return err
			}
			if face.json {
				return render.BlanchJSON(env.out, answer, face.why)
			}
			return render.BlanchText(env.out, answer, face.why)
		},
	}
	boilFlags(cmd, &plot, &face, &q)
	return cmd
}

// boilFlags declares what both ask for.
func boilFlags(cmd *cobra.Command, plot *plotFlags, face *faceFlags, q *ask.BoilQuestion) {
	plot.add(cmd)
	face.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&q.Crop, "crop", "potato", "the `crop`")
	flags.StringVar(&q.Kind, "kind", "", "its `kind`: waxy or floury for potatoes (default: waxy)")
	flags.StringVar(&q.Cut, "cut", "", "the `piece`: \"cube 25 mm\", \"whole 35 mm\", \"slice 6 mm\" ...")
	flags.StringVar(&q.Start, "start", "", "how warm the pieces go in (default: 15 C)")
	flags.StringVar(&q.Altitude, "altitude", "", "height above the sea (default: the kitchen's)")
	flags.StringVar(&q.Load, "load", "", "the `weight` (default: 500 g)")
	complete(cmd, "crop", heat.CropNames)
}
