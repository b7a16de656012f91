package main

import (
	"io"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
	"trencher/units"
)

func newDishImportCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var q ask.ImportQuestion
	var to string
	var face faceFlags
	cmd := &cobra.Command{
		Use:   "import FILE",
		Short: "Make a dish file from a saved page or JSON-LD (schema.org)",
		Long: `Read one schema.org Recipe from a JSON-LD file or a saved page, and write a
dish file to edit. A line without an amount, or a recipe whose crop is counted
and not weighed, is an error that names the line; answer it with --amount.`,
		Example: `  trencher dish export "Spring onion mash" --to mash.json
  trencher dish import mash.json --measures us
  trencher dish import mash.json --amount "salt=to taste" --to dishes/mash.yaml`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usagef("name one file, as: trencher dish import page.html")
			}
			q.PlotRef, q.File = plot.ask(env), args[0]
			imported, err := ask.ImportDish(q)
			switch {
			case err != nil:
				return err
			case to == "":
				return show(env, imported, face, render.ImportedDish, render.ImportedJSON)
			}
			output := journal.Output{Field: "to", Path: to}
			if err := output.Write(func(w io.Writer) error { return render.ImportedDish(w, imported) }); err != nil {
				return err
			}
			imported.File = to
			return show(env, imported, face, render.ImportedText, render.ImportedJSON)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&plot.where.Dir, "plot", "", "the plot `folder` whose kitchen.yaml counts (default: this folder, if it holds one)")
	flags.StringVar(&q.Measures, "measures", "", "whose pints, `cups` and spoons the recipe means: metric, uk, us or au")
	flags.IntVar(&q.Portions, "portions", 0, "how many `portions`, where the recipe does not say")
	flags.StringArrayVar(&q.Amounts, "amount", nil, "the `amount` for an ingredient's line: \"potatoes=900 g\"; may be given several times")
	flags.StringVar(&to, "to", "", "the dish `file` to write; it must not exist yet (default: print it)")
	face.add(cmd)
	complete(cmd, "measures", units.SystemNames)
	return cmd
}
