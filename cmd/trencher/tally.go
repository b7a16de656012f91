package main

import (
	"io"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
)

func newTallyCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	var seasons []int
	var all bool
	var picture, yields string
	var force bool
	cmd := &cobra.Command{
		Use:   "tally",
		Short: "The season: what each planting gave, and where every gram went",
		Long: `What each tub or bed gave: net weight, by the seed, the litre or the square
metre, beside what is usual; and where every gram went: kitchen, store, given,
compost, on hand. The parts add up to what was lifted. Mother tubers and soil
stand apart and are no yield.`,
		Example: `  trencher tally --season 2031
  trencher tally --all --picture seasons.svg`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if plot.where.On != "" && len(seasons) > 0 {
				return usagef("--on asks for a day and --season for a whole season; give one of them")
			}
			if all && len(seasons) > 0 {
				return usagef("--all asks for every season already; leave --season out")
			}
			output := journal.Output{Field: "picture", Path: picture, Made: render.MadeSVG, Force: force}
			against := journal.Output{Field: "yields", Path: yields, Made: render.MadeSVG, Force: force}
			if err := journal.CheckOutputs(output, against); err != nil {
				return err
			}
			answer, err := ask.Tally(cmd.Context(), plot.ask(env), all, seasons...)
			if err != nil {
				return err
			}
			warn(env, answer.Warnings)
			err = writeEach(
				writing{output, func(w io.Writer) error { return render.TallyPicture(w, answer) }},
				writing{against, func(w io.Writer) error { return render.YieldPicture(w, answer) }})
			if err != nil {
				return err
			}
			if face.json {
				return render.TallyJSON(env.out, answer)
			}
			return render.TallyText(env.out, answer, face.why)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	flags := cmd.Flags()
	flags.IntSliceVar(&seasons, "season", nil, "the `year` of a season (repeatable: side by side; default: of the day)")
	flags.BoolVar(&all, "all", false, "every season there is, side by side")
	flags.StringVar(&picture, "picture", "", "also write a bar picture to this SVG `file`")
	flags.StringVar(&yields, "yields", "", "also draw the yields against the usual ones to this SVG `file`")
	addForce(cmd, &force)
	return cmd
}
