package main

import (
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
	"trencher/units"
)

// plotFlags are the flags of every command that reads a plot.
type plotFlags struct {
	where ask.PlotRef
}

// add declares the flags on a command.
func (f *plotFlags) add(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringVar(&f.where.Dir, "plot", "", "the plot `folder` (default: this folder, if it holds kitchen.yaml)")
	flags.BoolVar(&f.where.Demo, "demo", false, "use the built-in demo plot")
	flags.StringVar(&f.where.On, "on", "", "the `day` asked about, as 2031-07-12 (default: today)")
	flags.BoolVar(&f.where.SkipDamaged, "skip-damaged", false, "leave damaged journal entries out and name them")
	excludes(cmd, "plot", "demo")
}

// ask completes the question with the world's clock.
func (f *plotFlags) ask(env *environment) ask.PlotRef {
	f.where.Now, f.where.Device = env.now(), env.device
	return f.where
}

// faceFlags choose how an answer is shown.
type faceFlags struct {
	json, why bool
}

func (f *faceFlags) add(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&f.json, "json", false, "answer as JSON, for scripts")
	cmd.Flags().BoolVar(&f.why, "why", false, "give the source of each figure used")
}

// reasoned is an answer that can say what it rests on.
type reasoned interface{ Reasons() []units.Reason }

// show writes an answer in the face asked for, and what it rests on.
func show[A reasoned](env *environment, answer A, face faceFlags, text, json func(io.Writer, A) error) error {
	switch {
	case face.json && face.why:
		return render.WithReasons(env.out, answer.Reasons(), func(w io.Writer) error { return json(w, answer) })
	case face.json:
		return json(env.out, answer)
	}
	if err := text(env.out, answer); err != nil || !face.why {
		return err
	}
	return render.Reasons(env.out, answer.Reasons())
}

// addForce declares the flag that lets an output replace a file trencher did
// not make.
func addForce(cmd *cobra.Command, force *bool) {
	cmd.Flags().BoolVar(force, "force", false, "let a file asked for replace one that trencher did not make")
}

// writing is an output with what to write to it.
type writing struct {
	to    journal.Output
	write func(io.Writer) error
}

// writeEach writes the outputs that were asked for, one after another.
func writeEach(all ...writing) error {
	for _, one := range all {
		if one.to.Path == "" {
			continue
		}
		if err := one.to.Write(one.write); err != nil {
			return err
		}
	}
	return nil
}

// texts is a flag given once for each of several texts; what one holds stands as it
// is. The library's own writes its default as CSV whenever it is declared, which every
// command would wait for.
type texts []string

func (t *texts) Set(one string) error {
	*t = append(*t, one)
	return nil
}

func (t *texts) String() string { return strings.Join(*t, ", ") }
func (t *texts) Type() string   { return "stringArray" } // by which completion offers the flag again

// addTexts declares such a flag.
func addTexts(flags *pflag.FlagSet, list *[]string, name, usage string) {
	flags.Var((*texts)(list), name, usage)
}
