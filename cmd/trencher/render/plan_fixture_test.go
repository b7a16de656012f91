package render

import (
	"context"
	"fmt"
	"slices"
	"time"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/demo"
	"trencher/recipes/meal"
	"trencher/recipes/planner"
	"trencher/recipes/schedule"
)

// at is a time of day on the demo's day.
func at(hour, minute int) time.Time {
	return demo.Day().Add(time.Duration(hour)*time.Hour + time.Duration(minute)*time.Minute)
}

// examplePlan is the demo's evening: five dishes, on the table at 18:30.
func examplePlan() meal.Plan {
	answer, err := ask.Share(context.Background(), ask.ShareWords{Plot: ask.PlotRef{Demo: true}, PlanWords: meal.PlanWords{ServeAt: demo.ServeAt}})
	if err != nil {
		panic(err) // the demo plot is embedded
	}
	return answer.Plan
}

// uglyPlans are the shapes that a face must survive.
func uglyPlans() map[string]meal.Plan {
	nothing := meal.Plan{Mode: meal.Share, On: at(0, 0), LeftOut: []meal.LeftOut{{Dish: "Crushed potatoes with chives", Reason: planner.NoLot, Of: "potato"}}}
	return map[string]meal.Plan{
		"a forty-letter dish name":   renamed("Mashedpotatoeswithlovagechivesandbutters"),
		"twelve dishes":              twelveDishes(),
		"nothing to share":           nothing,
		"nothing but green tubers":   greenOnly(),
		"angle brackets everywhere":  bracketed(),
		"a night and a day of steps": overnight(),
		"a clock that breaks":        spoiling(),
	}
}

// renamed is the example with another name for its first dish.
func renamed(name string) meal.Plan {
	plan := examplePlan()
	old := plan.Dishes[0].Name()
	plan.Dishes[0].Recipe.Name = name
	for i, step := range plan.Steps {
		plan.Steps[i].Dishes = slices.Clone(step.Dishes)
		for j, dish := range step.Dishes {
			if dish == old {
				plan.Steps[i].Dishes[j] = name
			}
		}
	}
	return plan
}

func twelveDishes() meal.Plan {
	plan := examplePlan()
	made := len(plan.Dishes)
	for i := made; i < 12; i++ {
		dish := plan.Dishes[i%made]
		dish.Recipe.Name = fmt.Sprintf("%s, no. %d", dish.Name(), i+1)
		plan.Dishes = append(plan.Dishes, dish)
		step := meal.Step{Timed: schedule.Timed{At: at(16, 30).Add(time.Duration(i) * 9 * time.Minute)}}
		step.Kind, step.Dishes, step.Hands, step.Length = schedule.Finish, []string{dish.Name()}, 1, time.Duration(i)*time.Minute
		plan.Steps = append(plan.Steps, step)
	}
	return plan
}

func greenOnly() meal.Plan {
	example := examplePlan()
	return meal.Plan{Mode: meal.Share, On: at(0, 0), SetAside: example.SetAside, Cautions: example.Cautions,
		LeftOut: []meal.LeftOut{{Dish: "Crushed potatoes with chives", Reason: planner.NoLot, Of: "potato"}}}
}

// hostile is what no page may take at its word.
const hostile = `<script>alert("x")</script><img src=x onerror=y>&amp;`

func bracketed() meal.Plan {
	plan := renamed(hostile)
	plan.Dishes[0].Recipe.Method = []string{hostile}
	plan.Dishes[0].Parts[0].Line.Crop = hostile
	lot := *plan.Lots[0].Lot
	lot.Name = hostile
	plan.Lots[0].Lot = &lot
	plan.Warnings = append(plan.Warnings, meal.Warning{Severity: meal.Notice, Concern: meal.Remark, Says: hostile})
	return plan
}

func overnight() meal.Plan {
	plan := examplePlan()
	step := meal.Step{Timed: schedule.Timed{At: at(18, 0).AddDate(0, 0, -1)}}
	step.Kind, step.Dishes, step.Length = schedule.Chill, []string{plan.Dishes[1].Name()}, 10*time.Hour
	plan.Steps = append([]meal.Step{step}, plan.Steps...)
	return plan
}

// spoiling is the example with a food clock that ends before serving.
func spoiling() meal.Plan {
	plan := examplePlan()
	clock := plan.Clocks[0]
	clock.Holds, clock.LimitAt = false, clock.ServeAt.Add(-25*time.Minute)
	plan.Clocks = append([]meal.Clock{clock}, plan.Clocks[1:]...)
	danger := meal.Warning{Severity: meal.Danger, Concern: meal.ClockBroken, Dish: clock.Dish, Rule: clock.Rule, Clock: clock}
	plan.Warnings = append([]meal.Warning{danger}, plan.Warnings...)
	return plan
}
