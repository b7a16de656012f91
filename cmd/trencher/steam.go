package main

import (
	"cmp"
	"io"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
	"trencher/recipes/heat"
)

func newSteamCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	var q ask.SteamQuestion
	var chart string
	var force bool
	cmd := &cobra.Command{
		Use:   "steam [CROP [CUT]]",
		Short: "How long pieces steam, how to cut mixed sizes, what a load takes",
		Long: `How long pieces of a size take in steam, with the range to test by knife; how to
cut mixed sizes (--lot) so that one time fits all; what a load takes in layers,
rounds, water and gas (--load); how long they cool (--cool). A knife test
written down with --found makes the next answer this kitchen's own.`,
		Example: `  trencher steam --crop potato --cut "cube 25 mm"
  trencher steam carrot slice 5 mm
  trencher steam --crop potato --cut halves --lot "20-45 mm" --lot "45-65 mm"
  trencher steam --crop potato --cut "cube 25 mm" --load "1.2 kg" --cool tray
  trencher steam --crop carrot --cut slice --sizes 6..20:2
  trencher steam --crop potato --cut "cube 25 mm" --found "9 min just-tender"`,
		RunE: func(cmd *cobra.Command, words []string) error {
			q.PlotRef, q.Curve = plot.ask(env), chart != ""
			if err := takeCropWords(cmd, words, &q.Crop, &q.Cut); err != nil {
				return err
			}
			output := journal.Output{Field: "chart", Path: chart, Made: render.MadeSVG, Force: force}
			if err := journal.CheckOutputs(output); err != nil {
				return err
			}
			answer, err := ask.Steaming(cmd.Context(), q)
			if err != nil {
				return err
			}
			warn(env, answer.Warnings)
			if chart != "" {
				if err := output.Write(func(w io.Writer) error { return render.SteamChart(w, *answer.Curve) }); err != nil {
					return err
				}
			}
			if face.json {
				return render.SteamJSON(env.out, answer, face.why)
			}
			return render.SteamText(env.out, answer, face.why)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	steamFlags(cmd, &q)
	complete(cmd, "crop", heat.CropNames)
	complete(cmd, "until", heat.DonenessNames)
	cmd.Flags().StringVar(&chart, "chart", "", "also draw the temperatures over time to this SVG `file`")
	addForce(cmd, &force)
	return cmd
}

// steamFlags declares what can be asked about steaming.
func steamFlags(cmd *cobra.Command, q *ask.SteamQuestion) {
	flags := cmd.Flags()
	flags.StringVar(&q.Crop, "crop", "potato", "the `crop`")
	flags.StringVar(&q.Kind, "kind", "", "its `kind`: waxy or floury for potatoes (default: waxy)")
	flags.StringVar(&q.Cut, "cut", "", "the `piece`: \"cube 25 mm\", \"whole 35 mm\", \"quarters 60 mm\", \"slice 6 mm\" ...")
	flags.StringVar(&q.Until, "until", "", "just-tender, tender or soft (default: just-tender)")
	flags.StringVar(&q.Start, "start", "", "how warm the pieces go in (default: 15 C)")
	flags.StringVar(&q.Altitude, "altitude", "", "height above the sea (default: the kitchen's)")
	flags.StringVar(&q.Load, "load", "", "the `weight` to steam: adds layers, rounds, water and gas")
	flags.BoolVar(&q.Heaped, "heaped", false, "all of it at once, heaped, and what that costs")
	flags.StringVar(&q.Sizes, "sizes", "", "a `table` by size in mm: 15..60, or 6..20:2 by twos")
	addTexts(flags, &q.Lots, "lot", "`sizes` to cut for one time: \"20-45 mm\", or \"820 g 9 pieces\" (repeatable)")
	flags.StringVar(&q.Tuber, "tuber", "", "the `tuber` the cut is made from, by thickness or weight: 45 mm, 120 g")
	flags.StringVar(&q.Cool, "cool", "", `also how long to cool: tray, bowl, "bowl 60 mm", cold water, ice water`)
	flags.StringVar(&q.Room, "room", "", "how warm it is where they cool (default: the kitchen's)")
	flags.StringVar(&q.Found, "found", "", "write down a knife `test`: \"9 min just-tender\", \"9 min not-yet tender\", \"9 min over soft\"")
	flags.StringVar(&q.Tier, "tier", "", "the `tier` the tested piece lay on, 1 the lowest (default: the uppermost in use)")
	flags.StringVar(&q.At, "at", "", "when the knife test was (default: now)")
	needs(cmd, "tier", "found")
	needs(cmd, "at", "found")
	needs(cmd, "room", "cool")
}

// takeCropWords takes the crop and the cut from words that stand without flags.
func takeCropWords(cmd *cobra.Command, words []string, crop, cut *string) error {
	if len(words) == 0 {
		return nil
	}
	named, piece := heat.CropAndCut(words)
	for _, one := range []struct{ flag, word string }{{"crop", named}, {"cut", piece}} {
		if one.word != "" && cmd.Flags().Changed(one.flag) {
			return usagef("the %s is given twice: as %s, and by --%s", one.flag, one.word, one.flag)
		}
	}
	*crop, *cut = cmp.Or(named, *crop), cmp.Or(piece, *cut)
	return nil
}
