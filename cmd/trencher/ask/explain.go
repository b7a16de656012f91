package ask

import (
	"context"
	"fmt"
	"math/big"
	"strings"

	"trencher/recipes/planner"
)

// tellBounds says what bound each dish, and for each scarce thing the smallest
// extra amount that would buy one more portion; at a table also who is short.
func (s *sharing) tellBounds(ctx context.Context) error {
	if !s.solved.Proven {
		return nil // what more would buy is only known beside the best plan
	}
	explanation, err := planner.Explain(ctx, s.problem, s.solved)
	if err != nil {
		return err
	}
	for _, extra := range explanation.Extras {
		s.plan.Bounds = append(s.plan.Bounds, Bound{What: extra.Of, Says: s.extraSays(extra)})
	}
	byCause := map[string][]string{}
	var causes []string
	for _, bound := range explanation.Bounds {
		cause := boundCause(bound, s.problem)
		if byCause[cause] == nil {
			causes = append(causes, cause)
		}
		byCause[cause] = append(byCause[cause], s.dishes[bound.Dish].Name)
	}
	for _, cause := range causes {
		what, says, _ := strings.Cut(cause, "\x00")
		s.plan.Bounds = append(s.plan.Bounds, Bound{What: what, Says: Listed(byCause[cause]) + ": " + says})
	}
	s.tellShort(explanation.Extras)
	return nil
}

// boundCause is what bound a dish, and its sentence, with a zero byte between.
func boundCause(b planner.Bound, p planner.Problem) string {
	switch {
	case b.Of == "" && p.Guests == nil:
		return "largest\x00at its largest batch"
	case b.Of == "":
		return "guests\x00no guest is left to eat more"
	case b.Limit:
		return b.Of + "\x00the " + b.Of + " ran out"
	}
	return b.Of + "\x00no more " + b.Of + " that it can use"
}

// extraSays words what more of a scarce thing would buy.
func (s *sharing) extraSays(extra planner.Extra) string {
	var names []string
	for _, d := range extra.More {
		names = append(names, s.dishes[d].Name)
	}
	makes := "one more portion"
	if s.problem.Guests != nil {
		makes = "one more helping"
	}
	switch {
	case len(names) == 1:
		makes += " of " + names[0]
	case len(names) > 1:
		makes += " in all, with more of " + Listed(names)
	}
	return fmt.Sprintf("another %s %s of %s would make %s", upToShown(extra.Amount), unitName(extra.Unit), extra.Of, makes)
}

// upToShown rounds up to a whole number, to a quarter below ten.
func upToShown(amount *big.Rat) string {
	if amount.Cmp(big.NewRat(10, 1)) >= 0 {
		return upTo(amount, 1)
	}
	quarters := new(big.Rat).Mul(amount, big.NewRat(4, 1))
	whole := new(big.Int).Quo(quarters.Num(), quarters.Denom())
	if !quarters.IsInt() {
		whole.Add(whole, big.NewInt(1))
	}
	return decimalOf(new(big.Rat).SetFrac(whole, big.NewInt(4))).String()
}
