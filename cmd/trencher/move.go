package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

// writeFlags are the flags of every command that writes to a plot.
type writeFlags struct {
	dir         string
	skipDamaged bool
	sure        bool
}

func (f *writeFlags) add(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.dir, "plot", "", "the plot `folder` (default: this folder, if it holds kitchen.yaml)")
	cmd.Flags().BoolVar(&f.skipDamaged, "skip-damaged", false, "leave damaged journal entries out and name them")
}

// addSure declares the flag of commands that ask about what is hardly meant.
func (f *writeFlags) addSure(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&f.sure, "sure", false, "write it down as it is, whatever there is to ask about it")
}

func (f *writeFlags) ask(env *environment) ask.PlotRef {
	return ask.PlotRef{Dir: f.dir, SkipDamaged: f.skipDamaged, Sure: f.sure, Now: env.now(), Device: env.device}
}

// warn tells what needs attention, apart from the answer; of many no more than
// anybody mends at once.
func warn[W any](env *environment, warnings []W) {
	for i, text := range warnings {
		if i == mostErrors {
			fmt.Fprintf(env.err, "warning: and %d more\n", len(warnings)-i)
			return
		}
		fmt.Fprintln(env.err, "warning:", text)
	}
}

// moveCommand is a command that takes grams out of a lot; own declares the
// flag that only it has.
func moveCommand(env *environment, cmd *cobra.Command, kind string, own func(*ask.MoveQuestion)) *cobra.Command {
	var plot writeFlags
	var face faceFlags
	q := ask.MoveQuestion{MoveWords: harvest.MoveWords{To: kind}}
	cmd.Args = func(cmd *cobra.Command, args []string) error {
		if len(args) == 0 {
			return usagef("`%s LOT [WEIGHT]`: `trencher stock` lists the lots; without a weight all of it goes", cmd.CommandPath())
		}
		return nil
	}
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		q.PlotRef, q.Lot, q.Weight = plot.ask(env), args[0], strings.Join(args[1:], " ")
		var answer harvest.LoggedMove
		err := askingAbout(cmd.Context(), env, &q.PlotRef, func() (err error) {
			answer, err = ask.Move(cmd.Context(), q)
			return err
		})
		if err != nil {
			return err
		}
		warn(env, answer.Warnings)
		return show(env, answer, face, render.MoveText, render.MoveJSON)
	}
	plot.add(cmd)
	plot.addSure(cmd)
	completeWords(cmd, 1, lotNames(env, &plot))
	face.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&q.At, "at", "", "when (default: now)")
	flags.StringVar(&q.Replaces, "replaces", "", "the `file` of the entry this one corrects")
	own(&q)
	return cmd
}

func newUseCommand(env *environment) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "use LOT [WEIGHT]",
		Short:   "Log what went from a lot to the kitchen",
		Example: `  trencher use tub-1/20-45-sound "800 g" --dish "Crushed potatoes with chives"`,
	}
	return moveCommand(env, cmd, "use", func(q *ask.MoveQuestion) {
		cmd.Flags().StringVar(&q.Dish, "dish", "", "the `dish` it went into")
	})
}

func newGiveCommand(env *environment) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "give LOT [WEIGHT]",
		Short:   "Log what was given away",
		Example: `  trencher give bed-3 "300 g" --to neighbours`,
	}
	return moveCommand(env, cmd, "give", func(q *ask.MoveQuestion) {
		cmd.Flags().StringVar(&q.Whom, "to", "", "who had it")
	})
}

func newCompostCommand(env *environment) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "compost LOT [WEIGHT]",
		Short:   "Log what went on the heap",
		Example: `  trencher compost tub-1/ungraded-green --because green`,
	}
	return moveCommand(env, cmd, "compost", func(q *ask.MoveQuestion) {
		cmd.Flags().StringVar(&q.Reason, "because", "", "why")
	})
}

func newStoreCommand(env *environment) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "store LOT [WEIGHT]",
		Short: "Log what was put by for later",
		Long: `Log what was put by. A place whose kind is known (room, fridge, cellar, shed,
sand, clamp, cold store; the first words before a comma count) decides how long
it keeps, and what of it is likely lost month by month.`,
		Example: `  trencher store bed-2/45-65-sound --where "shed, paper sack" --air "8 C"`,
	}
	return moveCommand(env, cmd, "store", func(q *ask.MoveQuestion) {
		cmd.Flags().StringVar(&q.Air, "air", "", "how warm it is there: \"8 C\"")
		cmd.Flags().StringVar(&q.Lies, "where", "", "where it lies")
	})
}
