package main

import (
	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
)

func newTableCommand(env *environment) *cobra.Command {
	var flags shareFlags
	cmd := &cobra.Command{
		Use:   "table [DISH...]",
		Short: "The same, people first: who gets what, and who would go short",
		Long: `Share what is on hand out among guests: every guest takes at most one helping
of a dish and at most --sides in all, never one their diet or allergens forbid.
A child's helping is half a portion.`,
		Example: `  trencher table --demo --guests "6 adults" --guests "2 adults no milk, egg" \
    --guests "3 children vegetarian" --sides 2`,
		RunE: func(cmd *cobra.Command, dishes []string) error {
			if eaters := flags.question.Eaters; len(eaters.Guests) == 0 && eaters.For == "" {
				return usagef(`--guests is missing: write --guests "6 adults" --guests "2 children vegetarian"; or --for 4`)
			}
			return flags.run(cmd.Context(), env, dishes, ask.Table)
		},
	}
	flags.add(cmd)
	flags.complete(env, cmd)
	return cmd
}
