package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
	"trencher/units"
	"trencher/units/strict"
)

func newBringCommand(env *environment) *cobra.Command {
	var plot writeFlags
	var face faceFlags
	cmd := &cobra.Command{
		Use:   "bring FILE",
		Short: "Bring home what a phone has written down",
		Long: `Bring in the entries that a phone saved with "take home", or those of another
device. Nothing here is overwritten, and bringing a file again changes nothing.
Dishes made on the phone come along; a kitchen, plantings or dishes that differ
here stay as they are and are named.`,
		Example: "  trencher journal pack plot.zip\n  trencher journal bring plot.zip",
		Args:    oneArgument("FILE", "the file that was saved on the phone"),
		RunE: func(cmd *cobra.Command, args []string) error {
			parcel, err := strict.ReadFile(args[0], journal.LargestParcel)
			if err != nil {
				return err
			}
			answer, err := ask.Bring(cmd.Context(), plot.ask(env), parcel, journal.KeepOwn)
			if err != nil {
				if len(answer.Damaged) > 0 {
					for _, says := range render.BroughtWords(answer) {
						fmt.Fprintln(env.err, says)
					}
				}
				if wrong := (*units.FieldError)(nil); errors.As(err, &wrong) {
					return fmt.Errorf("%s: %w", args[0], err)
				}
				return err
			}
			return show(env, answer, face, render.BroughtText, render.BroughtJSON)
		},
	}
	plot.add(cmd)
	face.add(cmd)
	return cmd
}

func newPackCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var force bool
	cmd := &cobra.Command{
		Use:   "pack FILE.zip",
		Short: "Save the whole plot as one file for another device",
		Long: `Save the kitchen, the plantings, the dishes and every entry as one plain zip. A
phone takes it in on its screen "To and from home", another plot with bring.`,
		Example: "  trencher journal pack plot.zip",
		Args:    oneArgument("FILE.zip", "the file to write"),
		RunE: func(cmd *cobra.Command, args []string) error {
			output := journal.Output{Path: args[0], Force: force}
			if err := journal.CheckOutputs(output); err != nil {
				return err
			}
			var carries journal.Parcel
			err := output.Write(func(w io.Writer) (err error) {
				carries, err = ask.Pack(cmd.Context(), w, plot.ask(env), journal.WholePlot)
				return err
			})
			if err != nil {
				return err
			}
			fmt.Fprintln(env.out, "packed: "+render.ParcelWords(carries))
			return nil
		},
	}
	plot.add(cmd)
	addForce(cmd, &force)
	return cmd
}
