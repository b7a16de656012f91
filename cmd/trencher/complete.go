package main

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
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
	return func(ctx context.Context) ([]string, error) { return ask.LotNames(ctx, plot.ask(env)) }
}

func batchNames(env *environment, plot *writeFlags) wordSource {
	return func(ctx context.Context) ([]string, error) { return ask.BatchNames(ctx, plot.ask(env)) }
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
