package render

import (
	"fmt"
	"io"
	"math/big"

	"trencher/recipes/meal"
	"trencher/recipes/planner"
	"trencher/units"
)

// boundWords says what more or less of one thing would make a better plan, and in
// what it would be better.
func boundWords(b meal.Bound, p meal.Plan) string {
	return changeOf(b.Cause, b.Amount) + " would " + betterWords(b, p)
}

// changeOf names the relaxing of one cause.
func changeOf(c meal.Cause, amount *big.Rat) string {
	switch c.Kind {
	case planner.CropShort, planner.LimitShort:
		if amount == nil {
			return "more " + c.Of
		}
		return "another " + atLeast(amount, c.Unit) + " of " + c.Of
	case planner.HeldBack:
		if amount == nil {
			return "holding back less " + c.Of
		}
		return "holding back " + atLeast(amount, c.Unit) + " less of " + c.Of
	case planner.DishNumber:
		return countedMore(amount, "dish more", "dishes more", "more dishes")
	case planner.SteamerFull:
		return countedMore(amount, "layer more in the steamer", "layers more in the steamer", "more layers in the steamer")
	case planner.LargestBatch:
		return "a larger batch of " + c.Of + " than its largest"
	}
	return "a smaller batch of " + c.Of + " than its smallest"
}

// atLeast rounds an amount up to a whole number, below ten to a quarter.
func atLeast(amount *big.Rat, unit string) string {
	step := big.NewRat(1, 1)
	if amount.Cmp(big.NewRat(10, 1)) < 0 {
		step = big.NewRat(1, 4)
	}
	return amountWords(units.CeilTo(amount, step), unit)
}

// countedMore says how many more, or only that there are more.
func countedMore(amount *big.Rat, one, many, more string) string {
	if amount == nil {
		return more
	}
	return few(int(amount.Num().Int64()), one, many)
}

// betterWords says in what a plan would be better.
func betterWords(b meal.Bound, p meal.Plan) string {
	now := p.Levels
	switch b.Improves {
	case planner.Fed:
		return fedWords(now.Fed, b.Then.Fed)
	case planner.Over:
		return "leave " + few(now.Over-b.Then.Over, "portion", "portions") + " less over"
	case planner.UseFirst:
		return "use " + grams(units.DecimalOf(new(big.Rat).Sub(b.Then.UseFirst, now.UseFirst))) + " more of what is to be used today"
	case planner.Dishes:
		if more := b.Then.Dishes - now.Dishes; more > 0 {
			return "make " + few(more, "dish more", "dishes more")
		}
		return "do with " + few(now.Dishes-b.Then.Dishes, "dish fewer", "dishes fewer")
	case planner.Portions:
		if more := b.Then.Portions - now.Portions; more > 0 {
			return "make " + few(more, "more portion", "more portions") + moreOf(b)
		}
		return "do with " + few(now.Portions-b.Then.Portions, "portion fewer", "portions fewer")
	}
	return "share out more evenly" + moreOf(b)
}

// fedWords says how many more guests have a helping, a second one, and so on.
func fedWords(now, then []int) string {
	for round, n := range then {
		if more := n - now[round]; more > 0 {
			return fmt.Sprintf("give %s a %shelping", few(more, "more guest", "more guests"), [...]string{"", "second ", "third ", "further "}[min(round, 3)])
		}
	}
	return "feed more"
}

func moreOf(b meal.Bound) string {
	if len(b.More) == 0 {
		return ""
	}
	return ", with more of " + listed(b.More)
}

// boundOf names the thing that held the plan back.
func boundOf(b meal.Bound) string {
	switch b.Kind {
	case planner.DishNumber:
		return "dishes"
	case planner.SteamerFull:
		return "steamer"
	}
	return b.Of
}

// worthTelling picks the bounds for the first screen: those that make more of
// what is asked for, not only the same more neatly.
func worthTelling(p meal.Plan) []meal.Bound {
	var list []meal.Bound
	for _, b := range p.Bounds {
		measured := b.Kind != planner.LargestBatch && b.Kind != planner.SmallestBatch
		gains := b.Improves == planner.Fed || b.Improves == planner.UseFirst || b.Then.Portions > p.Levels.Portions && p.Levels.Fed == nil
		if measured && gains && len(list) < 3 {
			list = append(list, b)
		}
	}
	return list
}

// NothingMade says why no dish can be made, dish by dish.
func NothingMade(w io.Writer, p meal.Plan) {
	fmt.Fprintln(w, "nothing can be made:")
	for _, out := range p.LeftOut {
		fmt.Fprintf(w, "  %s: %s\n", out.Dish, leftOutWords(out))
	}
	for _, aside := range p.SetAside {
		fmt.Fprintf(w, "  set aside: %s of %s (%s), %s\n", grams(aside.Weight), aside.Crop, aside.Name, asideWords(aside))
	}
}

// few counts things, a single one in a word.
func few(n int, one, many string) string {
	if n == 1 {
		return "one " + one
	}
	return count(n, one, many)
}
