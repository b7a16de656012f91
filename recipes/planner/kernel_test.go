package planner

import (
	"context"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

func bigs(numbers ...int64) []*big.Int {
	list := make([]*big.Int, len(numbers))
	for i, n := range numbers {
		list[i] = big.NewInt(n)
	}
	return list
}

// programOf writes a program of dense rows: coefficients, then the limit.
func programOf(columns []column, rows ...[]int64) *program {
	p := &program{columns: columns}
	for _, r := range rows {
		n := len(r) - 1
		w := row{coefs: bigs(r[:n]...), limit: big.NewInt(r[n])}
		for j := range n {
			w.cols = append(w.cols, j)
		}
		p.rows = append(p.rows, w)
	}
	return p
}

func solveProgram(t *testing.T, p *program, goal []int64, start []int64) ([]int64, int64) {
	t.Helper()
	s := newSession(context.Background(), p, &budget{limit: 10_000}, start)
	v, err := s.maximise(objective{coefs: bigs(goal...)})
	require.NoError(t, err)
	return s.x, v.Int64()
}

// Worked examples of three textbooks, through the same kernel that shares crops.
// Their numbers and answers are given from memory.
func TestKernelSolvesTextbookExamples(t *testing.T) {
	binary := column{most: 1}
	for _, c := range []struct {
		source string
		prog   *program
		goal   []int64
		x      []int64
		worth  int64
	}{
		{
			source: "Hillier and Lieberman, Introduction to Operations Research, 9th edition (McGraw-Hill 2010), 11.1, prototype example: California Manufacturing Co.",
			prog: programOf([]column{binary, binary, binary, binary},
				[]int64{6, 3, 5, 2, 10}, []int64{0, 0, 1, 1, 1}, []int64{-1, 0, 1, 0, 0}, []int64{0, -1, 0, 1, 0}),
			goal: []int64{9, 5, 6, 4}, x: []int64{1, 1, 0, 0}, worth: 14,
		},
		{
			source: "Winston, Operations Research: Applications and Algorithms, 4th edition (Brooks/Cole 2004), 9.3, Telfa Corporation",
			prog:   programOf([]column{{most: 100}, {most: 100}}, []int64{1, 1, 6}, []int64{9, 5, 45}),
			goal:   []int64{8, 5}, x: []int64{5, 0}, worth: 40,
		},
		{
			source: "Wolsey, Integer Programming (Wiley 1998), 7.2, branch and bound example",
			prog:   programOf([]column{{most: 100}, {most: 100}}, []int64{7, -2, 14}, []int64{0, 1, 3}, []int64{2, -2, 3}),
			goal:   []int64{4, -1}, x: []int64{2, 1}, worth: 7,
		},
	} {
		t.Run(c.source, func(t *testing.T) {
			x, worth := solveProgram(t, c.prog, c.goal, make([]int64, len(c.goal)))
			require.Equal(t, c.x, x)
			require.Equal(t, c.worth, worth)
		})
	}
}

// Random programs with coefficients of either sign, every point of the box tried.
func TestKernelAgreesWithEnumeration(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 1_500 {
		n, m := 1+r.IntN(4), 1+r.IntN(4)
		columns := make([]column, n)
		goal := make([]int64, n)
		for j := range columns {
			columns[j] = column{most: int64(r.IntN(7))}
			columns[j].batch = int64(r.IntN(3))
			goal[j] = int64(r.IntN(21) - 5)
		}
		var rows [][]int64
		for range m {
			row := make([]int64, n+1)
			for j := range n {
				row[j] = int64(r.IntN(31) - 8)
			}
			row[n] = int64(r.IntN(60))
			rows = append(rows, row)
		}
		p := programOf(columns, rows...)
		want := enumerateProgram(p, goal, make([]int64, n), 0)
		_, worth := solveProgram(t, p, goal, make([]int64, n))
		require.Equal(t, *want, worth, "%v %v %v", columns, rows, goal)
	}
}

func enumerateProgram(p *program, goal, x []int64, j int) *int64 {
	if j == len(x) {
		if !p.holds(x) {
			return nil
		}
		v := int64(0)
		for k := range x {
			v += goal[k] * x[k]
		}
		return &v
	}
	var best *int64
	for x[j] = 0; x[j] <= p.columns[j].most; x[j]++ {
		if v := enumerateProgram(p, goal, x, j+1); v != nil && (best == nil || *v > *best) {
			best = v
		}
	}
	x[j] = 0
	return best
}
