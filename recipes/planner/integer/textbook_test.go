package integer

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
)

func binaries(n int) []Column { return repeated(n, 1) }

func repeated(n int, most int64) []Column {
	columns := make([]Column, n)
	for j := range columns {
		columns[j].Most = most
	}
	return columns
}

// terms writes one coefficient a column, leaving out those that are 0.
func terms(coefs ...int64) []Term {
	var list []Term
	for j, c := range coefs {
		if c != 0 {
			list = append(list, Times(c, j))
		}
	}
	return list
}

func atMost(limit int64, coefs ...int64) Row { return AtMost(limit, terms(coefs...)...) }

func atLeast(limit int64, coefs ...int64) Row { return AtLeast(limit, terms(coefs...)...) }

// Worked examples of textbooks with the answers printed there. Numbers and
// answers are given from memory.
func TestTextbookExamples(t *testing.T) {
	for _, c := range []struct {
		source  string
		columns []Column
		rows    []Row
		goal    []int64
		worth   int64
		x       []int64 // nil where there are several
	}{
		{
			source:  "Hillier and Lieberman, Introduction to Operations Research, 9th edition (McGraw-Hill 2010), 11.1, prototype example: California Manufacturing Co.",
			columns: binaries(4),
			rows:    []Row{atMost(10, 6, 3, 5, 2), atMost(1, 0, 0, 1, 1), atMost(0, -1, 0, 1, 0), atMost(0, 0, -1, 0, 1)},
			goal:    []int64{9, 5, 6, 4}, worth: 14, x: []int64{1, 1, 0, 0},
		},
		{
			source:  "Winston, Operations Research: Applications and Algorithms, 4th edition (Brooks/Cole 2004), 9.3, Telfa Corporation",
			columns: repeated(2, 100),
			rows:    []Row{atMost(6, 1, 1), atMost(45, 9, 5)},
			goal:    []int64{8, 5}, worth: 40, x: []int64{5, 0},
		},
		{
			source:  "Winston, the same, 9.2, example 1: Stockco's four investments",
			columns: binaries(4),
			rows:    []Row{atMost(14, 5, 7, 4, 3)},
			goal:    []int64{16, 22, 12, 8}, worth: 42, x: []int64{0, 1, 1, 1},
		},
		{
			source:  "Winston, the same, 9.2, example 3: Gandhi Cloth Company (fixed charges)",
			columns: append(repeated(3, 60), binaries(3)...),
			rows: []Row{atMost(150, 3, 2, 6), atMost(160, 4, 3, 4),
				atMost(0, 1, 0, 0, -40), atMost(0, 0, 1, 0, 0, -53), atMost(0, 0, 0, 1, 0, 0, -25)},
			goal: []int64{6, 4, 7, -200, -150, -100}, worth: 75, x: []int64{0, 0, 25, 0, 0, 1},
		},
		{
			source:  "Winston, the same, 9.2, example 5: fire stations of Kilroy County (set covering), told as a maximum",
			columns: binaries(6),
			rows: []Row{atLeast(1, 1, 1), atLeast(1, 1, 1, 0, 0, 0, 1), atLeast(1, 0, 0, 1, 1),
				atLeast(1, 0, 0, 1, 1, 1), atLeast(1, 0, 0, 0, 1, 1, 1), atLeast(1, 0, 1, 0, 0, 1, 1)},
			goal: []int64{-1, -1, -1, -1, -1, -1}, worth: -2, x: []int64{0, 1, 0, 1, 0, 0},
		},
		{
			source:  "Wolsey, Integer Programming (Wiley 1998), 7.2, branch and bound example",
			columns: repeated(2, 100),
			rows:    []Row{atMost(14, 7, -2), atMost(3, 0, 1), atMost(3, 2, -2)},
			goal:    []int64{4, -1}, worth: 7, x: []int64{2, 1},
		},
		{
			source:  "Papadimitriou and Steiglitz, Combinatorial Optimization (Prentice-Hall 1982), 14.1, example of Gomory's cuts",
			columns: repeated(2, 100),
			rows:    []Row{atMost(6, 3, 2), atMost(0, -3, 2)},
			goal:    []int64{0, 1}, worth: 1, x: []int64{1, 1},
		},
	} {
		t.Run(c.source, func(t *testing.T) {
			m := Model{Columns: c.columns, Rows: c.rows, Levels: []Level{{Goal: Linear{Terms: terms(c.goal...)}}}}
			got, err := Solve(context.Background(), m, Limits{})
			require.NoError(t, err)
			require.Equal(t, c.x, got.X)
			require.Equal(t, c.worth, got.Levels[0].Value.Num().Int64())
		})
	}
}

// An even sum is never odd: 2·Σ x = n with n odd. Branch and bound alone visits
// 2^(n/2) nodes to see it (R. G. Jeroslow, Trivial integer programs unsolvable by
// branch-and-bound, Mathematical Programming 6, 1974; from memory).
func TestJeroslowsProgramHasNoSolution(t *testing.T) {
	const n = 41
	coefs := make([]int64, n)
	for j := range coefs {
		coefs[j] = 2
	}
	m := Model{Columns: binaries(n), Rows: []Row{atMost(n, coefs...), atLeast(n, coefs...)}}
	got, err := Solve(context.Background(), m, Limits{Nodes: 1_000})
	require.ErrorIs(t, err, ErrInfeasible)
	require.Nil(t, got.X)
}
