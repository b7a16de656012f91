package main

import (
	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/recipes"
	"trencher/units"
)

func newConvertCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var face faceFlags
	var q ask.ConvertQuestion
	cmd := &cobra.Command{
		Use:   "convert AMOUNT [UNIT]",
		Short: "Convert an amount exactly; with --of to weight, volume or count",
		Long: `Convert an amount into another unit, exactly. Between weight, volume and count
it goes by what a spoon, a cup or a piece of the ingredient weighs.

An amount may be 1½ pt UK, 1 1/2 UK pint, 2 lb 4 oz, 0.75 kg, 1-2 tbsp, 3,
a pinch, gas mark 6. Pints, cups, spoons and the like take UK, US, metric or
AU beside them, else --measures, else the plot's kitchen.yaml, else metric.`,
		Example: `  trencher convert "1½ UK pint" ml
  trencher convert "10 rods" m2
  trencher convert "gas mark 6" C
  trencher convert "2 tbsp" g --of mayonnaise
  trencher convert "3 eggs" g
  trencher convert 2 lb 4 oz kg
  trencher convert "minus 18 C" F`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef(`say what to convert, and into what: trencher convert "2 lb 4 oz" kg`)
			}
			q.PlotRef, q.Words = plot.ask(env), args
			answer, err := ask.Convert(q)
			switch {
			case err != nil:
				return err
			case face.json:
				return render.ConvertJSON(env.out, answer, face.why)
			}
			return render.ConvertText(env.out, answer, face.why)
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return units.Symbols(), cobra.ShellCompDirectiveNoFileComp
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&plot.where.Dir, "plot", "", "the plot `folder` whose kitchen.yaml counts (default: this folder, if it holds one)")
	flags.BoolVar(&plot.where.Demo, "demo", false, "use the built-in demo plot's kitchen")
	excludes(cmd, "plot", "demo")
	flags.StringVar(&q.Of, "of", "", "the `ingredient`, to cross between weight, volume and count")
	flags.StringVar(&q.State, "state", "", "its `state`: chopped, whole, ground, melted, boiled ...")
	flags.StringVar(&q.Measures, "measures", "", "whose pints, `cups` and spoons: metric, uk, us or au")
	face.add(cmd)
	complete(cmd, "of", fromKitchen(env, &plot, func(k recipes.Kitchen) []string { return k.Table.Ingredients() }))
	complete(cmd, "state", fromKitchen(env, &plot, func(k recipes.Kitchen) []string { return k.Table.States(q.Of) }))
	complete(cmd, "measures", units.SystemNames)
	return cmd
}

// fromKitchen are words of the plot's kitchen; none if it cannot be read.
func fromKitchen(env *environment, plot *plotFlags, list func(recipes.Kitchen) []string) func() []string {
	return func() []string {
		kitchen, err := ask.Kitchen(plot.ask(env))
		if err != nil {
			return nil
		}
		return list(kitchen)
	}
}

// complete offers a shell the values a flag may have.
func complete(cmd *cobra.Command, flag string, values func() []string) {
	err := cmd.RegisterFlagCompletionFunc(flag, func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return values(), cobra.ShellCompDirectiveNoFileComp
	})
	if err != nil {
		panic(err) // the flag was not declared: our own slip
	}
}
