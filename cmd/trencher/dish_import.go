package main

import (
	"io"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/recipes/saved"
	"trencher/units"
)

func newDishImportCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var q ask.ImportQuestion
	var to string
	var face faceFlags
	cmd := &cobra.Command{
		Use:   "import FILE",
		Short: "Make a dish file from a recipe: a page, an e-mail, plain text",
		Long: `Read a recipe and read it back line by line, each line sure or to check; then
write it as a dish file with --to. FILE is JSON-LD, a saved page with JSON-LD,
microdata or RDFa Lite (schema.org), an e-mail or plain text; "-" is what is
typed or pasted. What the plot grows becomes a weighed crop, the rest other
ingredients; a line that cannot be read is kept as it is. One told in
sentences, without a list, has the lines its sentences say the amounts of.`,
		Example: `  trencher dish export "Spring onion mash" --to mash.json
  trencher dish import mash.json --measures us
  trencher dish import mash.json --to dishes/mash.yaml`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usagef("name one file, as: trencher dish import page.html; or - to paste the recipe")
			}
			if q.Portions == 0 && cmd.Flags().Changed("portions") {
				return units.WrongField("portions", "0", "no number of portions", recipes.ImportPortionsAccepted)
			}
			q.PlotRef, q.File = plot.ask(env), args[0]
			if q.File == "-" {
				var err error
				if q.File, q.Text, err = pasted(env.in); err != nil {
					return err
				}
			}
			imported, err := ask.ImportDish(q)
			switch {
			case err != nil:
				return err
			case to == "":
				return show(env, imported, face, render.ImportedText, render.ImportedJSON)
			case len(imported.Open) > 0:
				return imported.Open
			}
			output := journal.Output{Field: "to", Path: to, Dish: true}
			if err := output.Write(func(w io.Writer) error { return render.ImportedDish(w, imported) }); err != nil {
				return err
			}
			imported.File = to
			return show(env, imported, face, render.ImportedText, render.ImportedJSON)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&plot.where.Dir, "plot", "", "the plot `folder` whose kitchen and crops count (default: this folder, if it holds one)")
	flags.StringVar(&q.Measures, "measures", "", "whose pints, `cups` and spoons the recipe means: metric, uk, us or au")
	flags.IntVar(&q.Portions, "portions", 0, "how many `portions`, where the recipe does not say")
	addTexts(flags, &q.Amounts, "amount", "the `amount` for one ingredient: \"potatoes=900 g\"; may be given several times")
	addTexts(flags, &q.Lines, "line", "a `line` in other words, by its number: \"3=250 g carrots\"; \"3=\" leaves it out")
	addTexts(flags, &q.As, "as", "what a line is, by its `number`: \"3=other\", crop, heading or step")
	addTexts(flags, &q.Cook, "cook", "how a `crop` is cooked: \"potato=boil 20 min\", oven, ring, grill, steam, raw")
	flags.StringVar(&q.Served, "served", "", "how it comes to the `table`: hot, warm or cold")
	flags.StringVar(&q.Name, "name", "", "the dish's `name`, where the recipe's will not do")
	flags.StringVar(&q.Recipe, "recipe", "", "which of several recipes in the file, by number or `name`")
	flags.StringVar(&q.Charset, "charset", "", "the character `set` of a file that does not name its own: windows-1252 ...")
	flags.StringVar(&to, "to", "", "the dish `file` to write; it must not exist yet (default: show how the recipe is read)")
	face.add(cmd)
	complete(cmd, "measures", units.SystemNames)
	return cmd
}

// pasted reads a recipe that is typed or pasted, up to its bound.
func pasted(in io.Reader) (name string, text []byte, err error) {
	text, err = io.ReadAll(io.LimitReader(in, saved.MostBytes+1))
	return "pasted", text, err
}
