package main

import (
	"context"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/recipes/meal"
)

// batchCommands are the commands that log the life of a cooked batch.
func batchCommands() []named {
	const before = "  trencher cooked \"Spring onion mash\" --amount 6 --at 11:00\n"
	all := []struct{ name, short, example string }{
		{"cooked", "Log a batch as it comes off the heat", `  trencher cooked "Spring onion mash" 6 "Crushed potatoes with chives" "1.2 kg"`},
		{"chilled", "Log that a batch is in the fridge", before + `  trencher chilled "Spring onion mash"`},
		{"out", "Log that a batch came out of the fridge", before + `  trencher chilled "Spring onion mash" --at 11:50
  trencher out "Spring onion mash" --air "24 C"`},
		{"reheated", "Log that a batch was heated up", before + `  trencher reheated "Spring onion mash"`},
		{"eaten", "Log that a batch, or part of it, was eaten", before + `  trencher eaten "Spring onion mash" 4`},
		{"binned", "Log that a batch, or part of it, was thrown out", before + `  trencher binned "Spring onion mash"`},
	}
	var commands []named
	for _, c := range all {
		commands = append(commands, named{c.name, func(env *environment) *cobra.Command { return batchCommand(env, c.name, c.short, c.example) }})
	}
	return commands
}

func batchCommand(env *environment, event, short, example string) *cobra.Command {
	var plot writeFlags
	var face faceFlags
	var plan string
	q := meal.EventWords{Event: event}
	cmd := &cobra.Command{
		Use:     event + " NAME...",
		Short:   short,
		Example: example,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 && plan != "" {
				return usagef("either the names of batches, or --as-planned for all that a plan makes")
			}
			bare := len(args) == 0 && plan == "" && env.isPersonAsked()
			if len(args) == 0 && plan == "" && !bare {
				return usagef("`%s NAME...`: the names of batches, in quotes where they have spaces", cmd.CommandPath())
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			var answers meal.LoggedEvents
			where := plot.ask(env)
			words, err := batchWords(cmd.Context(), env, where, q, args, plan)
			if err != nil {
				return err
			}
			err = askingAbout(cmd.Context(), env, &where, func() (err error) {
				answers, err = logBatches(cmd.Context(), where, words, q.At, plan)
				return err
			})
			if err != nil {
				return err
			}
			warn(env, answers[len(answers)-1].Warnings)
			return show(env, answers, face, render.BatchEventsText, render.BatchEventsJSON)
		},
	}
	plot.add(cmd)
	plot.addSure(cmd)
	if event == "cooked" {
		completeWords(cmd, anyNumber, func(context.Context) ([]string, error) { return ask.DishNames(plot.ask(env)) })
		cmd.Flags().StringVar(&plan, "as-planned", "", "all that a recorded plan makes, by its `id`; last is the latest")
	} else {
		completeWords(cmd, anyNumber, batchNames(env, &plot))
	}
	face.add(cmd)
	cmd.Flags().StringVar(&q.At, "at", "", "when (default: now)")
	cmd.Flags().StringVar(&q.Says, "says", "", "a `remark` to keep with it")
	addBatchFlags(cmd, &q)
	return cmd
}

// batchWords are the events that the command line tells of, or a person at a
// terminal where it is bare; none where a plan tells.
func batchWords(ctx context.Context, env *environment, where ask.PlotRef, q meal.EventWords, args []string, plan string) ([]meal.EventWords, error) {
	switch {
	case plan != "":
		return nil, nil
	case len(args) == 0:
		return askBatches(ctx, env, where, q)
	}
	return q.EachOf(args)
}

// logBatches logs what a plan makes, or the events told.
func logBatches(ctx context.Context, where ask.PlotRef, words []meal.EventWords, at, plan string) (meal.LoggedEvents, error) {
	log, err := ask.BatchLog(where)
	switch {
	case err != nil:
		return nil, err
	case plan != "":
		return log.AsPlanned(ctx, plan, at)
	}
	return log.Write(ctx, words...)
}

// addBatchFlags adds the flags that only some events have.
func addBatchFlags(cmd *cobra.Command, q *meal.EventWords) {
	flags := cmd.Flags()
	switch q.Event {
	case "cooked":
		flags.StringVar(&q.Food, "food", "", "what it is: boiled-potatoes, dressed-salad, mash, ... (default: by the dish of that name)")
		flags.StringVar(&q.Dish, "dish", "", "which `dish` of the plot it is (default: the dish of that name)")
		flags.StringVar(&q.Amount, "amount", "", `how much: portions, as 6, or a weight, as "1.2 kg"`)
	case "eaten", "binned":
		flags.StringVar(&q.Amount, "amount", "", "how much of it (default: all that is left)")
	case "out":
		flags.StringVar(&q.Until, "until", "", "when it went back into the fridge (default: it is still out)")
		flags.StringVar(&q.Air, "air", "", "how warm the `air` was: \"24 C\"")
	}
}
