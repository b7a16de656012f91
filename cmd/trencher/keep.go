package main

import (
	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
)

func newKeepCommand(env *environment) *cobra.Command {
	var q ask.KeepQuestion
	var face faceFlags
	var dish string
	cmd := &cobra.Command{
		Use:   "keep [FOOD]",
		Short: "How cooked and raw crops keep, and the verdict on a cooked batch",
		Long: `With a food: general guidance on keeping it; with the name of a batch in the
journal that is no food's: what to do with it.
With the history of a batch (--food, --cooked-at, ...): what to do, by when.
With neither: every cooked batch in the plot's journal, most urgent first.

Times are local: 16:40, "yesterday 16:40", 2031-07-12T16:40, or with a zone.`,
		Example: `  trencher keep "potato salad"
  trencher keep --food mash --cooked-at "yesterday 13:00" \
    --chilled-at "yesterday 14:10"
  trencher keep`,
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			q.Now = env.now()
			if dish != "" {
				return keepDish(env, q, dish, face)
			}
			history, err := takeFood(cmd, &q, args)
			switch {
			case err != nil:
				return err
			case history:
				return keepVerdict(env, cmd, q, face)
			case len(args) > 0:
				return keepGuide(env, cmd, q, face)
			}
			return keepBatches(env, cmd, q, face)
		},
	}
	addKeepFlags(cmd, &q)
	cmd.Flags().StringVar(&dish, "dish", "", "tell what foods a `dish` of the plot is made of")
	completeWords(cmd, 1, fixed(keeping.FoodIDs))
	complete(cmd, "food", keeping.BatchFoods)
	complete(cmd, "authority", keeping.AuthorityNames)
	face.add(cmd)
	return cmd
}

func keepVerdict(env *environment, cmd *cobra.Command, q ask.KeepQuestion, face faceFlags) error {
	verdict, err := ask.KeepVerdict(cmd.Context(), q)
	if err != nil {
		return err
	}
	if face.json {
		return render.VerdictJSON(env.out, verdict, face.why)
	}
	return render.VerdictText(env.out, verdict, face.why)
}

func keepDish(env *environment, q ask.KeepQuestion, name string, face faceFlags) error {
	kinds, err := ask.KeepDish(q, name)
	if err != nil {
		return err
	}
	if face.json {
		return render.DishKindsJSON(env.out, kinds)
	}
	return render.DishKindsText(env.out, kinds)
}

// keepGuide tells of a food, or of the batches of the journal that are called so where
// the name is no food's.
func keepGuide(env *environment, cmd *cobra.Command, q ask.KeepQuestion, face faceFlags) error {
	guide, err := ask.KeepGuide(cmd.Context(), q)
	if err != nil {
		return err
	}
	if guide.Food.ID == keeping.AnythingElse {
		all, err := ask.KeepBatches(cmd.Context(), q)
		if all.Batches = meal.Called(q.Food, all.Batches); err == nil && len(all.Batches) > 0 {
			return showBatches(env, all, face)
		}
	}
	if face.json {
		return render.GuideJSON(env.out, guide, face.why)
	}
	return render.GuideText(env.out, guide, face.why)
}

func keepBatches(env *environment, cmd *cobra.Command, q ask.KeepQuestion, face faceFlags) error {
	answer, err := ask.KeepBatches(cmd.Context(), q)
	if err != nil {
		return err
	}
	return showBatches(env, answer, face)
}

func showBatches(env *environment, answer ask.BatchesAnswer, face faceFlags) error {
	warn(env, answer.Warnings)
	if face.json {
		return render.BatchesJSON(env.out, answer, face.why)
	}
	return render.BatchesText(env.out, answer, face.why)
}
