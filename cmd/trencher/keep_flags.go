package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/units"
)

// historyFlags are the flags that tell a batch's history. The fridge and the
// eater alone do not: they hold for the batches of the journal as well.
var historyFlags = []string{"food", "cooked-at", "hot-at", "hot-until", "chilled-at", "out", "air",
	"power-off", "frozen-at", "thawed-at", "reheated", "probe", "tubers", "freezer", "ice", "eggs", "bitter", "box"}

func addKeepFlags(cmd *cobra.Command, q *ask.KeepQuestion) {
	flags := cmd.Flags()
	flags.StringVar(&q.Food, "food", "", "what it is: boiled-potatoes, dressed-salad, mash, ...; several with +")
	flags.StringVar(&q.CookedAt, "cooked-at", "", "when it came off the heat; of a mixed dish its oldest part")
	flags.StringVar(&q.HotAt, "hot-at", "", `how hot it was kept after that: "65 C"`)
	flags.StringVar(&q.HotUntil, "hot-until", "", "until when it was kept so hot")
	flags.StringVar(&q.ChilledAt, "chilled-at", "", "when it was in the fridge (default: it is still out)")
	addTexts(flags, &q.Out, "out", "a `spell` out of the fridge later, \"FROM..TO\" or \"FROM..\" (repeatable)")
	flags.StringVar(&q.Air, "air", "", "how warm the `air` was there: \"24 C\"")
	flags.StringVar(&q.Fridge, "fridge", "", "the `fridge`: \"4 C\" (default: the kitchen's)")
	addTexts(flags, &q.PowerOff, "power-off", "a power `cut`, door kept shut, \"FROM..TO\" or \"FROM..\" (repeatable)")
	flags.StringVar(&q.FrozenAt, "frozen-at", "", "when it was frozen")
	flags.StringVar(&q.ThawedAt, "thawed-at", "", "when it was thawed")
	flags.IntVar(&q.Reheated, "reheated", 0, "how often it was heated up and cooled again")
	addTexts(flags, &q.Probes, "probe", "a thermometer `reading` in the food, \"14:30=25 C\" (repeatable)")
	flags.StringVar(&q.Tubers, "tubers", "", "green (or strongly sprouted) or bitter")
	flags.StringVar(&q.Freezer, "freezer", "", "how full the freezer was without power: full or half")
	flags.StringVar(&q.Ice, "ice", "", "yes: ice crystals were still in it after the cut")
	flags.StringVar(&q.Eggs, "eggs", "", "raw eggs: scheme (British Lion, Laid in Britain), pasteurised or other")
	flags.StringVar(&q.Bitter, "bitter", "", "yes: a courgette, squash or cucumber in it was bitter")
	flags.StringVar(&q.Box, "box", "", "the `packs` of the cool box when opened: frozen or melted")
	flags.StringVar(&q.Eater, "eater", "", "`who` eats: pregnant, child (under 5), old (over 65), low-immunity, vulnerable")
	flags.StringVar(&q.Authority, "authority", "", "whose `rules`: strictest, uk, us or au-nz (default: the kitchen's, else strictest)")
	flags.StringVar(&q.At, "now", "", "the moment to judge at (default: now)")
	flags.StringVar(&q.Dir, "plot", "", "the plot `folder` (default: this folder, if it holds kitchen.yaml)")
	flags.BoolVar(&q.Demo, "demo", false, "use the built-in demo plot")
	flags.BoolVar(&q.SkipDamaged, "skip-damaged", false, "leave damaged journal entries out and name them")
}

// takeFood takes the food from the arguments and tells whether a batch's
// history was given.
func takeFood(cmd *cobra.Command, q *ask.KeepQuestion, args []string) (history bool, err error) {
	if q.Dir != "" && q.Demo {
		return false, usagef("--plot and --demo name two plots; write one of them")
	}
	history = slices.ContainsFunc(historyFlags, cmd.Flags().Changed)
	if len(args) == 0 {
		return history, nil
	}
	if q.Food != "" {
		return false, usagef("`%s` takes one food: %q or --food %s", cmd.CommandPath(), strings.Join(args, " "), q.Food)
	}
	for _, word := range args {
		if units.IsTimeOfDay(word) {
			return false, usagef("%q is a time: say what was then by its flag, as --cooked-at %s", word, word)
		}
	}
	q.Food = strings.Join(args, " ")
	return history, nil
}
