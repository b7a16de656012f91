package main

import (
	"io"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
	"trencher/recipes"
)

func newDishExportCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var to string
	var why bool
	cmd := &cobra.Command{
		Use:   "export NAME",
		Short: "Write a dish as a schema.org Recipe in JSON-LD",
		Example: `  trencher dish export "Spring onion mash" --demo
  trencher dish export "Spring onion mash" --to mash.json`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("which dish? write its name, as: trencher dish export mash")
			}
			exported, err := ask.ExportDish(plot.ask(env), args)
			if err != nil {
				return err
			}
			write := func(w io.Writer) error {
				_, err := w.Write(exported)
				return err
			}
			if to == "" {
				err = write(env.out)
			} else {
				err = journal.Output{Field: "to", Path: to}.Write(write)
			}
			if err != nil || !why {
				return err
			}
			return render.Reasons(env.err, recipes.RecipeReasons())
		},
	}
	plot.add(cmd)
	completeWords(cmd, 1, dishNames(env, &plot))
	cmd.Flags().StringVar(&to, "to", "", "the `file` to write; it must not exist yet (default: print it)")
	cmd.Flags().BoolVar(&why, "why", false, "say what form the recipe has, on standard error")
	cmd.Flags().Bool("json", true, "JSON-LD is JSON already")
	return cmd
}
