package main

import (
	"context"
	"io"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/demo"
	"trencher/cmd/trencher/render"
	"trencher/harvest/journal"
	"trencher/recipes/meal"
)

// planFlags are the flags of the commands that answer with a plan.
type planFlags struct {
	plot            plotFlags
	face            faceFlags
	sheet, calendar string
	full, force     bool
}

func (f *planFlags) add(cmd *cobra.Command) {
	f.plot.add(cmd)
	f.face.add(cmd)
	cmd.Flags().BoolVar(&f.full, "full", false, "tell all: every step, lot, cut and load")
	cmd.Flags().StringVar(&f.sheet, "sheet", "", "also write a printable page to this HTML `file`")
	cmd.Flags().StringVar(&f.calendar, "calendar", "", "also write the timetable to this iCalendar `file`")
	addForce(cmd, &f.force)
}

// outputs are the files to write beside the answer; those without a path are
// not asked for.
func (f *planFlags) outputs() (sheet, calendar journal.Output) {
	return journal.Output{Field: "sheet", Path: f.sheet, Made: render.MadeHTML, Force: f.force},
		journal.Output{Field: "calendar", Path: f.calendar, Made: render.MadeCalendar, Force: f.force}
}

// show writes the files asked for, then the answer.
func (f *planFlags) show(env *environment, answer ask.MealAnswer) error {
	plan := answer.Plan
	if f.calendar != "" && len(plan.Steps) == 0 {
		return usagef("--calendar needs a timetable, and there is nothing to do")
	}
	sheet, calendar := f.outputs()
	stamp, earlier := env.now(), calendar.Earlier()
	if f.plot.where.Demo { // its clock stands on its own day
		stamp = plan.On
	}
	err := writeEach(
		writing{sheet, func(w io.Writer) error { return render.Sheet(w, plan) }},
		writing{calendar, func(w io.Writer) error { return render.Calendar(w, plan, stamp, earlier) }})
	if err != nil {
		return err
	}
	if f.face.json {
		return render.PlanJSON(env.out, answer, f.face.why)
	}
	return render.PlanText(env.out, answer, f.face.why, f.full)
}

// shareFlags are the flags that share and table have in common.
type shareFlags struct {
	planFlags
	question ask.ShareWords
}

func (f *shareFlags) add(cmd *cobra.Command) {
	f.planFlags.add(cmd)
	flags := cmd.Flags()
	q := &f.question
	addTexts(flags, &q.Only, "only", "only this `dish` (repeatable; the same as naming dishes)")
	addTexts(flags, &q.Without, "without", "leave this `dish` out (repeatable)")
	addTexts(flags, &q.Limits, "limit", "no more of an `ingredient` than this: \"butter=150 g\" (repeatable)")
	addTexts(flags, &q.KeepBack, "keep-back", "hold `produce` back: \"500 g potato\" (repeatable)")
	addEaterFlags(flags, &q.Eaters)
	flags.StringVar(&q.ServeAt, "serve-at", "", "serving `time`, as 18:30 or \"6:30 pm\"")
	addKitchenFlags(flags, &q.Given)
	flags.StringVar(&q.Air, "air", "", "`air` where the food will stand, as \"24 C\" (default: the kitchen's room)")
	flags.BoolVar(&q.Take, "take", false, "record the plan in the journal as used")
	flags.StringVar(&q.Shown, "as-shown", "", "with --take: only if it is still the plan of this `id`")
	needs(cmd, "as-shown", "take")
}

// ask completes the question: the demo serves at its own time.
func (f *shareFlags) ask(env *environment, dishes []string) ask.ShareWords {
	q := f.question
	q.Plot = f.plot.ask(env)
	q.Only = append(dishes, q.Only...)
	if q.Plot.Demo && q.ServeAt == "" && q.Given.Start == "" {
		q.ServeAt = demo.ServeAt
	}
	return q
}

// addEaterFlags declares who eats and how much may be made.
func addEaterFlags(flags *pflag.FlagSet, w *meal.EaterWords) {
	addTexts(flags, &w.Guests, "guests", "`guests` of one kind: \"6 adults\", \"2 adults no milk, egg\" (repeatable)")
	flags.StringVar(&w.For, "for", "", "who `eats`, as \"4\" or \"2 adults, 1 child\" (default: the kitchen's household)")
	flags.StringVar(&w.Sides, "sides", "", "the most `helpings` one guest takes, each of another dish (default 2)")
	flags.StringVar(&w.Dishes, "dishes", "", "make as many dishes as can be, up to this `number`")
	flags.StringVar(&w.Rounds, "rounds", "", "at most this `number` of fillings of the steamer")
	flags.StringVar(&w.Layers, "layers", "", "at most this `number` of layers in the steamer in all")
}

// addKitchenFlags declares what a meal may find other than kitchen.yaml says.
func addKitchenFlags(flags *pflag.FlagSet, g *meal.GivenWords) {
	flags.StringVar(&g.Start, "start", "", "start `time`: now, 16:00, \"in 10 min\"; serves as soon as can be")
	flags.StringVar(&g.Hands, "hands", "", "how many `people` cook (default: the kitchen's)")
	flags.StringVar(&g.Gas, "gas", "", "a `canister` of gas, as \"100 g\"")
	flags.StringVar(&g.Water, "water", "", "carried `water` there is, as \"2 l\"")
}

func newShareCommand(env *environment) *cobra.Command {
	var flags shareFlags
	cmd := &cobra.Command{
		Use:   "share [DISH...]",
		Short: "Share today's harvest out into portioned dishes",
		Long: `Share what is on hand out among your dishes: how many whole portions of what,
each scaled to measures a kitchen has, how to cut and steam, what to pick and
buy, when to do what, what is left, how it keeps. Dishes named come first when
it is even; with none named, all of the plot's dishes take part.`,
		Example: `  trencher share --demo
  trencher share --serve-at 18:30 --limit "butter=150 g"
  trencher share "Spring onion mash" --sheet plan.html`,
		RunE: func(cmd *cobra.Command, dishes []string) error {
			return flags.run(cmd.Context(), env, dishes, ask.Share)
		},
	}
	flags.add(cmd)
	flags.complete(env, cmd)
	return cmd
}

// complete offers the plot's dishes.
func (f *shareFlags) complete(env *environment, cmd *cobra.Command) {
	offer := dishNames(env, &f.plot)
	completeWords(cmd, anyNumber, offer)
	for _, flag := range []string{"only", "without"} {
		completeFlag(cmd, flag, offer)
	}
}

func (f *shareFlags) run(ctx context.Context, env *environment, dishes []string, job func(context.Context, ask.ShareWords) (ask.MealAnswer, error)) error {
	if err := journal.CheckOutputs(f.outputs()); err != nil {
		return err
	}
	done := env.waiting("sharing out")
	answer, err := job(ctx, f.ask(env, dishes))
	done()
	if err != nil {
		return err
	}
	return f.show(env, answer)
}
