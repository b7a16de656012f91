package main

import (
	"io"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
)

func newJournalCommand(env *environment) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "journal",
		Short: "Weights in, the journal out, strike out an entry, check the folder",
		Args:  cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return noCommand(cmd, args[0])
			}
			return cmd.Help()
		},
	}
	cmd.AddCommand(newImportCommand(env), newExportCommand(env), newVoidCommand(env), newMendCommand(env), newPackCommand(env), newBringCommand(env), newCheckCommand(env))
	return cmd
}

func newExportCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var seasons []int
	var to string
	var why, force bool
	cmd := &cobra.Command{
		Use:     "export",
		Short:   "Write the journal as comma-separated values",
		Example: "  trencher journal export --season 2031 --to 2031.csv",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			write := func(w io.Writer) error {
				return ask.ExportTable(cmd.Context(), w, plot.ask(env), seasons...)
			}
			var err error
			if to == "" {
				err = write(env.out)
			} else {
				err = journal.Output{Field: "to", Path: to, Made: journal.TableHead(), Force: force}.Write(write)
			}
			if err != nil || !why {
				return err
			}
			return render.Reasons(env.err, journal.TableReasons())
		},
	}
	plot.add(cmd)
	cmd.Flags().IntSliceVar(&seasons, "season", nil, "the `year` of a season (repeatable; default: all)")
	cmd.Flags().StringVar(&to, "to", "", "the `file` to write (default: standard output)")
	addForce(cmd, &force)
	cmd.Flags().BoolVar(&why, "why", false, "say what form the table has, on standard error")
	return cmd
}

func newVoidCommand(env *environment) *cobra.Command {
	var plot writeFlags
	var because string
	var face faceFlags
	cmd := &cobra.Command{
		Use:     "void ENTRY",
		Short:   "Strike out an entry; its file stays",
		Example: "  trencher journal void journal/2031/0719-1035-lift-bed-3.yaml \\\n    --because \"weighed twice\"",
		Args:    oneArgument("ENTRY", "the file of the entry to strike out"),
		RunE: func(cmd *cobra.Command, args []string) error {
			answer, err := ask.Void(cmd.Context(), plot.ask(env), args[0], because)
			if err != nil {
				return err
			}
			return show(env, answer, face, render.VoidText, render.VoidJSON)
		},
	}
	plot.add(cmd)
	cmd.Flags().StringVar(&because, "because", "", "why")
	face.add(cmd)
	return cmd
}

func newMendCommand(env *environment) *cobra.Command {
	var plot writeFlags
	var face faceFlags
	cmd := &cobra.Command{
		Use:   "mend",
		Short: "Settle what several devices wrote against each other",
		Long: `Settle, in one go, what copying the journal between devices left open: an entry
corrected in two ways, a use of what was struck out elsewhere, a second copy of
a file, a file that was never finished. What counts now goes on counting; no
entry is lost, and copies are kept in set-aside beside the season's entries.`,
		Example: "  trencher journal mend",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			answer, err := ask.Mend(cmd.Context(), plot.ask(env))
			if err != nil {
				return err
			}
			return show(env, answer, face, render.MendText, render.MendJSON)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	return cmd
}

func newCheckCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	cmd := &cobra.Command{
		Use:     "check",
		Short:   "Read every file of the plot and name all that is wrong",
		Example: "  trencher journal check",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			answer, err := ask.Check(cmd.Context(), plot.ask(env))
			if err != nil {
				return err
			}
			warn(env, answer.Warnings)
			return show(env, answer, face, render.CheckText, render.CheckJSON)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	return cmd
}

// oneArgument asks for exactly one argument, named in the error.
func oneArgument(name, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return usagef("`%s %s`: %s", cmd.CommandPath(), name, what)
		}
		return nil
	}
}
