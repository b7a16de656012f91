package main

import (
	"io"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
	"trencher/harvest/journal"
)

func newNextCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	var q ask.NextWords
	var picture, sheet string
	var force bool
	cmd := &cobra.Command{
		Use:   "next",
		Short: "What to plant next season for what is really eaten",
		Long: `What to plant next season, from what the journal says was eaten, given, lost and
left in every season so far, and from what this plot really gave a plant. Where
seasons are few the published yield weighs more, and the answer says that it
guesses. Each number has the range it lies in nine times out of ten.

--eat plans a crop for what you mean to eat of it instead, and works before
there is any journal; --for is who will eat, where that is not the household of
kitchen.yaml as it was.`,
		Example: `  trencher next --season 2032
  trencher next --for "2 adults, 2 children" \
    --eat "late maincrop potato, 3 a week, 26 weeks" --sheet next.html`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if cmd.Flags().Changed("season") {
				if err := harvest.CheckSeasons(q.Season); err != nil {
					return err
				}
			}
			q.PlotRef = plot.ask(env)
			drawing := journal.Output{Field: "picture", Path: picture, Made: render.MadeSVG, Force: force}
			page := journal.Output{Field: "sheet", Path: sheet, Made: render.MadeHTML, Force: force}
			if err := journal.CheckOutputs(drawing, page); err != nil {
				return err
			}
			answer, err := ask.Next(cmd.Context(), q)
			if err != nil {
				return err
			}
			warn(env, answer.Warnings)
			err = writeEach(
				writing{drawing, func(w io.Writer) error { return render.NextPicture(w, answer) }},
				writing{page, func(w io.Writer) error { return render.NextSheet(w, answer) }})
			if err != nil {
				return err
			}
			if face.json {
				return render.NextJSON(env.out, answer) // each crop has its own reasons
			}
			return show(env, answer, face, render.NextText, render.NextJSON)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	flags := cmd.Flags()
	flags.IntVar(&q.Season, "season", 0, "the `year` to plan (default: the one after the day asked for)")
	flags.StringVar(&q.For, "for", "", "`who` will eat: \"2 adults, 1 child\" (default: as many as ate so far)")
	addTexts(flags, &q.Eat, "eat", "a `crop` and how often: \"potato, 3 a week, 26 weeks\" (repeatable)")
	flags.StringVar(&picture, "picture", "", "also draw it to this SVG `file`")
	flags.StringVar(&sheet, "sheet", "", "also write it to this HTML `file`, to print")
	addForce(cmd, &force)
	return cmd
}
