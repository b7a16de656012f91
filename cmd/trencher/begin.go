package main

import (
	"github.com/spf13/cobra"

	"trencher/cmd/trencher/demo"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
)

func newBeginCommand(env *environment) *cobra.Command {
	var face faceFlags
	cmd := &cobra.Command{
		Use:   "begin DIR",
		Short: "Start a plot folder with commented example files",
		Long: `Write a plot folder to start from: kitchen.yaml, plantings.yaml, dishes and a
journal with one day's example lifts, all commented. Change them to what stands
on your ground. A folder with anything in it is left alone.`,
		Example: `  trencher begin garden`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usagef("name one folder to start, as: trencher begin garden")
			}
			begun, err := journal.BeginLike(args[0], demo.Plot(), demo.Day(), env.now())
			if err != nil {
				return err
			}
			return show(env, begun, face, render.BegunText, render.BegunJSON)
		},
	}
	face.add(cmd)
	return cmd
}
