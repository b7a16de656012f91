package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
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
		Example: "  trencher journal bring trencher-2031-07-19.zip",
		Args:    oneArgument("FILE", "the file that was saved on the phone"),
		RunE: func(cmd *cobra.Command, args []string) error {
			answer, err := ask.BringFile(cmd.Context(), plot.ask(env), args[0])
			if err != nil {
				if len(answer.Damaged) > 0 {
					for _, says := range render.BroughtWords(answer) {
						fmt.Fprintln(env.err, says)
					}
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
