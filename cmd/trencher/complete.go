package main

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes/meal"
)

// wordSource finds what a shell may offer; what cannot be read offers nothing,
// and nothing is said of it.
type wordSource func(ctx context.Context) ([]string, error)

// completeWords offers words in place of arguments that begin as typed: at most
// so many of them, none twice.
func completeWords(cmd *cobra.Command, most int, offer wordSource) {
	cmd.ValidArgsFunction = func(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
		if len(args) >= most {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		found, err := offer(cmd.Context())
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		offered := slices.DeleteFunc(found, func(word string) bool {
			return slices.Contains(args, word) || !strings.HasPrefix(word, begun)
		})
		return offered, cobra.ShellCompDirectiveNoFileComp
	}
}

// anyNumber of arguments are offered words.
const anyNumber = 1000

func dishNames(env *environment, plot *plotFlags) wordSource {
	return func(context.Context) ([]string, error) { return ask.DishNames(plot.ask(env)) }
}

func lotNames(env *environment, plot *writeFlags) wordSource {
	return func(ctx context.Context) ([]string, error) {
		stock, err := ask.Stock(ctx, plot.ask(env))
		return namesOf(stock.Lots, func(l *harvest.Lot) string { return l.Name }), err
	}
}

func batchNames(env *environment, plot *writeFlags) wordSource {
	return func(ctx context.Context) ([]string, error) {
		kept, err := ask.KeepBatches(ctx, ask.KeepQuestion{PlotRef: plot.ask(env)})
		return namesOf(kept.Batches, func(b meal.KeptBatch) string { return b.Name }), err
	}
}

func namesOf[T any](all []T, name func(T) string) (names []string) {
	for _, one := range all {
		names = append(names, name(one))
	}
	return names
}

// fixed are words that no plot changes.
func fixed(list func() []string) wordSource {
	return func(context.Context) ([]string, error) { return list(), nil }
}

// completeFlag offers words as the values of a flag.
func completeFlag(cmd *cobra.Command, flag string, offer wordSource) {
	complete(cmd, flag, func() []string {
		found, err := offer(cmd.Context())
		if err != nil {
			return nil
		}
		return found
	})
}
