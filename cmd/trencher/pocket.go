package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/page"
	"trencher/cmd/trencher/pocket"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
)

func newPocketCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var oneFile string
	var force, serve bool
	var port int
	cmd := &cobra.Command{
		Use:   "pocket DIR",
		Short: "The page for a phone that has no network at the plot",
		Long: `Write a folder with the page and the plot in it, all worked out on the phone
itself. Put it on any static host over HTTPS and open it once on the phone; from
then on it starts with no network. Or write it as one file (--one-file) and hand
it over by cable or message. What is written down on the phone comes home as one
file: trencher journal bring FILE. Whoever has the folder has the plot.`,
		Example: `  trencher pocket phone
  trencher pocket --one-file phone.html
  trencher pocket phone --serve --port 8470`,
		RunE: func(cmd *cobra.Command, args []string) error {
			one := journal.Output{Field: "one-file", Path: oneFile, Made: pocket.Made, Force: force}
			if err := checkPocket(args, one, serve); err != nil {
				return err
			}
			switch {
			case serve:
				return servePocket(cmd.Context(), env, plot.ask(env), args[0], port)
			case oneFile != "":
				return writeOneFile(cmd.Context(), env, plot.ask(env), one)
			}
			return writeFolder(cmd.Context(), env, plot.ask(env), args[0])
		},
	}
	plot.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&oneFile, "one-file", "", "write one HTML `file` instead of a folder")
	flags.BoolVar(&serve, "serve", false, "also show the folder on this machine until stopped")
	flags.IntVar(&port, "port", defaultPort, "with --serve, the `port`; 0 takes any free one")
	needs(cmd, "port", "serve")
	addForce(cmd, &force)
	return cmd
}

// checkPocket tells whether the folder or the one file can be written, before
// anything is made for it.
func checkPocket(folder []string, one journal.Output, serve bool) error {
	switch {
	case len(folder) > 1 || (strings.Join(folder, "") == "") == (one.Path == ""):
		return usagef("name one folder, as: trencher pocket phone; or one file, as: trencher pocket --one-file phone.html")
	case serve && one.Path != "":
		return usagef("--serve shows a folder; leave --one-file out")
	case one.Path != "":
		return journal.CheckOutputs(one)
	}
	return pocket.CheckFolder(folder[0])
}

// packPocket is what goes into a phone: the program and the plot. It says on
// standard error what it packs.
func packPocket(ctx context.Context, env *environment, where ask.PlotRef) (pocket.Program, []byte, error) {
	var packed bytes.Buffer
	carries, err := ask.Pack(ctx, &packed, where, journal.WholePlot)
	if err != nil {
		return pocket.Program{}, nil, err
	}
	fmt.Fprintln(env.err, "packed: "+render.ParcelWords(carries))
	program, err := env.program(ctx, env.err)
	return program, packed.Bytes(), err
}

// phoneProgram is the program this build carries, or one made on this machine.
func phoneProgram(ctx context.Context, say io.Writer) (pocket.Program, error) {
	if program, ok := pocket.Carried(); ok {
		return program, nil
	}
	fmt.Fprintln(say, "this build has no program for the phone inside: making it with Go, which may take a minute")
	return pocket.Make(ctx)
}

func writeFolder(ctx context.Context, env *environment, where ask.PlotRef, dir string) error {
	program, parcel, err := packPocket(ctx, env, where)
	if err != nil {
		return err
	}
	return pocket.WriteFolder(dir, program, parcel)
}

func writeOneFile(ctx context.Context, env *environment, where ask.PlotRef, one journal.Output) error {
	program, parcel, err := packPocket(ctx, env, where)
	if err != nil {
		return err
	}
	return one.Write(func(w io.Writer) error { return pocket.WriteOneFile(w, program, parcel) })
}

// servePocket writes the folder and shows it on this machine until the context
// ends. Nothing is written where it cannot be shown.
func servePocket(ctx context.Context, env *environment, where ask.PlotRef, dir string, port int) error {
	listener, err := page.Listen(port, false)
	if err != nil {
		return err
	}
	defer listener.Close()
	if err := writeFolder(ctx, env, where, dir); err != nil {
		return err
	}
	fmt.Fprintln(env.out, listener.Addresses()[0])
	server := &http.Server{Handler: http.FileServer(http.Dir(dir)), ReadHeaderTimeout: page.HeaderTimeout}
	stop := context.AfterFunc(ctx, func() { server.Close() })
	defer stop()
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}
