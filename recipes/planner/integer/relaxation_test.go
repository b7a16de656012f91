package integer

import (
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// A corner problem is a linear program told a second time, for [corners]: Σ a·x ≤ b
// for every row, and what is maximised. Small whole numbers only.
type cornerProblem struct {
	rows  [][]int64
	limit []int64
	goal  []int64
}

// best goes to every corner of the polytope (every set of as many rows as unknowns
// that meet in one point, by Cramer's rule) and gives the largest goal of those that
// keep all rows; false where none does. The polytope must be bounded.
func (c *cornerProblem) best() (*big.Rat, bool) {
	n := len(c.goal)
	var top *big.Rat
	tight := make([]int, 0, n)
	var choose func(from int)
	choose = func(from int) {
		if len(tight) == n {
			if v, ok := c.at(tight); ok && (top == nil || v.Cmp(top) > 0) {
				top = v
			}
			return
		}
		for i := from; i < len(c.rows); i++ {
			tight = append(tight, i)
			choose(i + 1)
			tight = tight[:len(tight)-1]
		}
	}
	choose(0)
	return top, top != nil
}

// at is the goal where the named rows meet; false where they do not meet in a point,
// or it breaks a row.
func (c *cornerProblem) at(tight []int) (*big.Rat, bool) {
	n := len(tight)
	matrix := make([][]int64, n)
	for i, r := range tight {
		matrix[i] = append([]int64(nil), c.rows[r]...)
	}
	whole := determinant(matrix)
	if whole == 0 {
		return nil, false
	}
	x := make([]int64, n) // times whole
	for j := range n {
		for i, r := range tight {
			matrix[i][j] = c.limit[r]
		}
		x[j] = determinant(matrix)
		for i, r := range tight {
			matrix[i][j] = c.rows[r][j]
		}
	}
	if whole < 0 {
		whole = -whole
		for j := range x {
			x[j] = -x[j]
		}
	}
	for i, row := range c.rows {
		if dot(row, x) > c.limit[i]*whole {
			return nil, false
		}
	}
	return big.NewRat(dot(c.goal, x), whole), true
}

func dot(a, b []int64) (sum int64) {
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

func determinant(m [][]int64) int64 {
	switch len(m) {
	case 1:
		return m[0][0]
	case 2:
		return m[0][0]*m[1][1] - m[0][1]*m[1][0]
	}
	return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
}

// A cornered is a program with the goal it is to be asked about.
type cornered struct {
	p    *program
	goal objective
	t    *tableau
}

// told is the linear program that the tableau stands for now.
func (c *cornered) told() *cornerProblem {
	n, minima := len(c.p.columns), len(c.p.minima)
	var told cornerProblem
	add := func(limit int64, row []int64) {
		told.rows, told.limit = append(told.rows, row), append(told.limit, limit)
	}
	of := func(terms []Term) []int64 {
		row := make([]int64, n+minima)
		for _, t := range terms {
			row[t.Column] += t.Coef.Int64()
		}
		return row
	}
	for j := range n {
		up, down := make([]int64, n+minima), make([]int64, n+minima)
		up[j], down[j] = 1, -1
		add(c.t.high[j], up)
		add(-c.t.low[j], down)
	}
	for _, rows := range [][]Row{c.p.rows, c.p.cuts} {
		for _, r := range rows {
			add(r.Limit.Int64(), of(r.Terms))
		}
	}
	for g, m := range c.p.minima {
		for _, r := range m {
			row := of(r.Terms)
			row[n+g] = 1
			add(r.Limit.Int64(), row)
		}
	}
	for _, f := range c.p.floors {
		row := make([]int64, n+minima)
		for _, g := range f.minima {
			row[n+g] = -1
		}
		add(-f.least.Int64(), row)
	}
	told.goal = make([]int64, n+minima)
	for j, coef := range c.goal.coefs {
		told.goal[j] = coef.Int64()
	}
	for _, g := range c.goal.minima {
		told.goal[n+g] = 1
	}
	return &told
}

// randomCornered draws two or three unknowns, one of them sometimes a minimum.
func randomCornered(r *rand.Rand) *cornered {
	p := &program{asked: -1}
	for range 2 + r.IntN(2) {
		least := int64(r.IntN(3))
		p.columns = append(p.columns, Column{Least: least, Most: least + int64(r.IntN(8))})
	}
	m := Model{Columns: p.columns}
	row := func() Row {
		return Row{withoutZeros(someTerms(r, &m, 17, 6)), big.NewInt(int64(r.IntN(40) - 4))}
	}
	for range 1 + r.IntN(3) {
		p.rows = append(p.rows, row())
	}
	if len(p.columns) == 2 {
		p.minima = []Minimum{{row(), row()}}
		low, _ := p.minimumRange(p.minima[0])
		p.floors = []floor{{minima: []int{0}, least: low}}
	}
	c := &cornered{p: p}
	c.goal = c.anyGoal(r)
	c.t = newTableau(p)
	c.t.aim(c.goal)
	return c
}

func (c *cornered) anyGoal(r *rand.Rand) objective {
	if len(c.p.minima) > 0 && r.IntN(2) == 0 {
		return objective{minima: []int{0}}
	}
	var terms []Term
	for j := range c.p.columns {
		terms = append(terms, Times(int64(r.IntN(19)-8), j))
	}
	return over(len(c.p.columns), terms)
}

// change does one of the things that a search does to a tableau.
func (c *cornered) change(r *rand.Rand) {
	j := r.IntN(len(c.p.columns))
	low, high := c.t.low[j], c.t.high[j]
	switch r.IntN(9) {
	case 0:
		c.t.restrict(j, low, low+r.Int64N(high-low+1))
	case 1:
		c.t.restrict(j, high-r.Int64N(high-low+1), high)
	case 2:
		c.goal = c.anyGoal(r)
		c.t.aim(c.goal)
	case 3:
		i := r.IntN(len(c.p.rows))
		c.p.rows[i].Limit = new(big.Int).Sub(c.p.rows[i].Limit, big.NewInt(int64(r.IntN(4))))
		c.t.tighten(i, c.p.rows[i].Limit)
	case 4:
		c.t.shed()
	case 5:
		c.t.refresh()
	case 6:
		m := Model{Columns: c.p.columns}
		c.t.shape.prog.cuts = append(c.p.cuts, Row{withoutZeros(someTerms(r, &m, 17, 6)), big.NewInt(int64(8 + r.IntN(40)))})
		c.t.shape.addRow(&c.p.cuts[len(c.p.cuts)-1], -1, -1)
	case 7:
		copied := &tableau{}
		copied.copyFrom(c.t)
		copied.leaveOutFixed()
		c.t.clear() // what is left behind says nothing of the copy
		c.t = copied
	case 8: // a branch explored in place
		lows, highs := slices.Clone(c.t.low), slices.Clone(c.t.high)
		for k := range lows {
			if v := lows[k] + r.Int64N(highs[k]-lows[k]+1); r.IntN(2) == 0 {
				c.t.restrict(k, v, v)
				c.t.reoptimise(&budget{})
			}
		}
		c.t.setBack(lows, highs)
	}
}

// The relaxation's best is that of the best corner, and what is proven of it is at
// least that and no unit more; after whatever a search does to it.
func TestRelaxationsAgreeWithEveryCorner(t *testing.T) {
	none, some := 0, 0
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 32))
		c := randomCornered(r)
		for range 8 {
			st := c.t.reoptimise(&budget{})
			want, feasible := c.told().best()
			cert := newCertifier(c.t.shape)
			if !feasible {
				none++
				require.Equal(t, infeasible, st, seed)
				_, shut := cert.judge(c.t, st, nil)
				require.True(t, shut, "seed %d: it is proven that there is no point", seed)
				break
			}
			some++
			require.Equal(t, optimal, st, seed)
			value, _ := want.Float64()
			claims := math.Ldexp(c.t.claims(), c.t.shape.goalBits)
			require.InDelta(t, value, claims, 1e-6, seed)
			bound, _ := cert.judge(c.t, st, nil)
			require.NotNil(t, bound, seed)
			require.True(t, c.t.agrees(bound), seed)
			require.GreaterOrEqual(t, new(big.Rat).SetInt(bound).Cmp(new(big.Rat).Sub(want, big.NewRat(1, 1))), 0, seed)
			require.LessOrEqual(t, new(big.Rat).SetInt(bound).Cmp(new(big.Rat).Add(want, big.NewRat(1, 1000))), 0, seed)
			require.GreaterOrEqual(t, bound.Cmp(new(big.Int).Div(want.Num(), want.Denom())), 0, "seed %d: no whole value is above the bound", seed)
			c.requireKept(t, seed)
			c.change(r)
		}
	}
	require.Greater(t, none, 100)
	require.Greater(t, some, 1_000)
}

// requireKept wants the point to keep all bounds and rows.
func (c *cornered) requireKept(t *testing.T, seed uint64) {
	told := c.told()
	point := make([]float64, len(told.goal))
	for k := range point {
		point[k] = c.t.value(k)
		if k >= len(c.p.columns) {
			point[k] = math.Ldexp(point[k], c.t.shape.minimumBits)
		}
	}
	for i, row := range told.rows {
		sum := 0.0
		for k, a := range row {
			sum += float64(a) * point[k]
		}
		require.LessOrEqual(t, sum, float64(told.limit[i])+1e-4, "seed %d, row %d", seed, i)
	}
}
