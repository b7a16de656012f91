package integer_test

import (
	"context"
	"fmt"
	"math/big"

	"trencher/recipes/planner/integer"
)

// Eleven metres of shelf for two kinds of box, 2 m and 3 m long. First as much
// of the shelf as can be; of the ways to fill it the one with the most even
// numbers, and then with more of the second kind.
func Example() {
	m := integer.Model{
		Columns: []integer.Column{{Most: 5}, {Most: 5}},
		Rows:    []integer.Row{integer.AtMost(11, integer.Times(2, 0), integer.Times(3, 1))},
		Levels: []integer.Level{
			{Goal: integer.Linear{Terms: []integer.Term{integer.Times(2, 0), integer.Times(3, 1)}}},
			{Goal: integer.MaxMin{Shares: []integer.Share{{Column: 0, Weight: big.NewInt(1)}, {Column: 1, Weight: big.NewInt(1)}}}},
			{Goal: integer.InOrder{Columns: []int{1, 0}}},
		},
	}
	best, err := integer.Solve(context.Background(), m, integer.Limits{Nodes: 1_000})
	fmt.Println(best.X, err)
	for _, level := range best.Levels {
		fmt.Println(level.Value.RatString(), level.Proven)
	}
	// Output:
	// [1 3] <nil>
	// 11 true
	// 1 true
	// 1 true
}

// Of four people two go, and it is told only when asked that the first and the
// last cannot go together.
func ExampleModel_separate() {
	m := integer.Model{
		Columns: []integer.Column{{Most: 1}, {Most: 1}, {Most: 1}, {Most: 1}},
		Rows:    []integer.Row{integer.AtMost(2, integer.Times(1, 0), integer.Times(1, 1), integer.Times(1, 2), integer.Times(1, 3))},
		Levels: []integer.Level{{Goal: integer.Linear{Terms: []integer.Term{
			integer.Times(5, 0), integer.Times(2, 1), integer.Times(1, 2), integer.Times(4, 3)}}}},
		Separate: func(x []float64) []integer.Row {
			if x[0]+x[3] > 1 {
				return []integer.Row{integer.AtMost(1, integer.Times(1, 0), integer.Times(1, 3))}
			}
			return nil
		},
	}
	best, err := integer.Solve(context.Background(), m, integer.Limits{})
	fmt.Println(best.X, best.Levels[0].Value.RatString(), err)
	// Output: [1 1 0 0] 7 <nil>
}
