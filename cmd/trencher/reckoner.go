package main

import (
	"io"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
)

func newReckonerCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	var force bool
	cmd := &cobra.Command{
		Use:   "reckoner FILE.html [DISH...]",
		Short: "Two sides of paper for the shed that need no device",
		Long: `Write two sides of A4 to print and hang where the cooking is: for this kitchen
and its dishes, what a weight in hand makes and what else goes in, how long
pieces of a size take, water and gas, how long a bowl may stand. Every figure is
what dish, steam, boil and keep say. The dishes named are on it; with none named
the plot's, as many as fit.`,
		Example: `  trencher reckoner shed.html
  trencher reckoner shed.html "Spring onion mash" --force`,
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("name a file to write, as: trencher reckoner shed.html")
			}
			file := journal.Output{Field: "file", Path: args[0], Made: render.MadeHTML, Force: force}
			if err := journal.CheckOutputs(file); err != nil {
				return err
			}
			answer, err := ask.Reckoner(cmd.Context(), plot.ask(env), args[1:])
			if err != nil {
				return err
			}
			reckoned := render.Reckoned{Reckoner: answer, File: args[0]}
			err = file.Write(func(w io.Writer) (err error) {
				reckoned.Omitted, err = render.Reckoner(w, answer)
				return err
			})
			if err != nil {
				return err
			}
			return show(env, reckoned, face, render.ReckonedText, render.ReckonedJSON)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	addForce(cmd, &force)
	completeWords(cmd, anyNumber, dishNames(env, &plot))
	return cmd
}
