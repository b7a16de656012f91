package main

import (
	"io"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/work"
)

func newDishExportCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var to string
	cmd := &cobra.Command{
		Use:   "export NAME",
		Short: "Write a dish as a schema.org Recipe in JSON-LD",
		Example: `  trencher dish export "Spring onion mash" --demo
  trencher dish export mash --plot garden --to mash.json`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("which dish? write its name, as: trencher dish export mash")
			}
			exported, err := work.ExportDish(plot.ask(env), args)
			switch {
			case err != nil:
				return err
			case to == "":
				_, err = env.out.Write(exported)
				return err
			}
			return writeNew("--to", to, func(w io.Writer) error {
				_, err := w.Write(exported)
				return err
			})
		},
	}
	plot.add(cmd)
	cmd.Flags().StringVar(&to, "to", "", "the file to write; it must not exist yet (default: print it)")
	cmd.Flags().Bool("json", true, "JSON-LD is JSON already")
	return cmd
}
