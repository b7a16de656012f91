package integer

import (
	"math/big"
	"math/rand/v2"
)

// everySolution tries every point of the box and knows nothing of relaxations:
// the domains and rows are asked one by one.
func everySolution(m *Model) [][]int64 {
	var all [][]int64
	x := make([]int64, len(m.Columns))
	var walk func(j int)
	walk = func(j int) {
		if j == len(x) {
			if keepsEveryRow(m, x) {
				all = append(all, append([]int64(nil), x...))
			}
			return
		}
		c := m.Columns[j]
		for x[j] = c.Least; x[j] <= c.Most; x[j]++ {
			if x[j] == 0 || x[j] >= c.Batch {
				walk(j + 1)
			}
		}
	}
	walk(0)
	return all
}

func keepsEveryRow(m *Model, x []int64) bool {
	for _, r := range m.Rows {
		if added(r, x).Cmp(r.Limit) > 0 {
			return false
		}
	}
	return true
}

func added(r Row, x []int64) *big.Int {
	sum := new(big.Int)
	for _, t := range r.Terms {
		sum.Add(sum, new(big.Int).Mul(t.Coef, big.NewInt(x[t.Column])))
	}
	return sum
}

// worthOf is a goal's value by its definition. An order counts its first column
// for most; columns are below 100 here.
func worthOf(m *Model, goal Goal, x []int64) *big.Rat {
	worth := new(big.Rat)
	switch g := goal.(type) {
	case Linear:
		worth.SetInt(added(Row{Terms: g.Terms}, x))
		if enough := new(big.Rat); g.Enough != nil && worth.Cmp(enough.SetInt(g.Enough)) > 0 {
			return enough
		}
	case Concave:
		for _, minimum := range g.Minima {
			var least *big.Int
			for _, r := range minimum {
				if s := new(big.Int).Sub(r.Limit, added(r, x)); least == nil || s.Cmp(least) < 0 {
					least = s
				}
			}
			worth.Add(worth, new(big.Rat).SetInt(least))
		}
		if g.Whole != nil {
			n := new(big.Int).Div(worth.Num(), g.Whole)
			worth.SetInt(n.Mul(n, g.Whole))
		}
	case MaxMin:
		return fairWorth(m, g, x)
	case InOrder:
		for _, j := range g.Columns {
			worth.Mul(worth, big.NewRat(100, 1))
			worth.Add(worth, big.NewRat(x[j], 1))
		}
	}
	return worth
}

func fairWorth(m *Model, g MaxMin, x []int64) *big.Rat {
	var least, top *big.Rat
	for _, s := range g.Shares {
		most := m.Columns[s.Column].Most
		if most < m.Columns[s.Column].Batch {
			most = 0
		}
		if q := big.NewRat(most, s.Weight.Int64()); top == nil || q.Cmp(top) > 0 {
			top = q
		}
		if g.OrZero && x[s.Column] == 0 {
			continue
		}
		if q := big.NewRat(x[s.Column], s.Weight.Int64()); least == nil || q.Cmp(least) < 0 {
			least = q
		}
	}
	if least == nil {
		return top
	}
	return least
}

// bestOf keeps those of the solutions that are best level by level, and gives
// the levels' values.
func bestOf(m *Model, all [][]int64) (best [][]int64, worth []*big.Rat) {
	for _, l := range m.Levels {
		var top *big.Rat
		var kept [][]int64
		for _, x := range all {
			w := worthOf(m, l.Goal, x)
			switch {
			case top == nil || w.Cmp(top) > 0:
				top, kept = w, [][]int64{x}
			case w.Cmp(top) == 0:
				kept = append(kept, x)
			}
		}
		all, worth = kept, append(worth, top)
	}
	return all, worth
}

// randomModel draws a program of up to five columns that can be enumerated, with
// coefficients of either sign and with goals of every kind.
func randomModel(r *rand.Rand) Model {
	var m Model
	for range 1 + r.IntN(5) {
		c := Column{Most: int64(r.IntN(7)), Batch: int64(r.IntN(4)), Rank: r.IntN(3)}
		if r.IntN(6) == 0 {
			c.Least = int64(r.IntN(int(c.Most) + 1))
		}
		m.Columns = append(m.Columns, c)
	}
	for range r.IntN(5) {
		m.Rows = append(m.Rows, Row{someTerms(r, &m, 31, 8), big.NewInt(int64(r.IntN(66) - 6))})
	}
	for range 1 + r.IntN(4) {
		m.Levels = append(m.Levels, Level{Goal: someGoal(r, &m)})
	}
	return m
}

// someTerms draws coefficients from -below up, some of them 0.
func someTerms(r *rand.Rand, m *Model, width, below int) []Term {
	var terms []Term
	for j := range m.Columns {
		if r.IntN(4) > 0 {
			terms = append(terms, Times(int64(r.IntN(width)-below), j))
		}
	}
	return terms
}

func someGoal(r *rand.Rand, m *Model) Goal {
	switch r.IntN(5) {
	case 0:
		g := Linear{Terms: someTerms(r, m, 21, 8)}
		if r.IntN(2) == 0 {
			g.Enough = big.NewInt(int64(r.IntN(30)))
		}
		return g
	case 1:
		g := Concave{}
		for range 1 + r.IntN(2) {
			var minimum Minimum
			for range 1 + r.IntN(3) {
				minimum = append(minimum, Row{someTerms(r, m, 25, 20), big.NewInt(int64(r.IntN(80) - 10))})
			}
			g.Minima = append(g.Minima, minimum)
		}
		if r.IntN(3) == 0 {
			g.Whole = big.NewInt(int64(2 + r.IntN(9)))
		}
		return g
	case 2:
		g := MaxMin{OrZero: r.IntN(2) == 0}
		for j := range m.Columns {
			if j == 0 || r.IntN(3) > 0 {
				g.Shares = append(g.Shares, Share{Column: j, Weight: big.NewInt(int64(1 + r.IntN(4)))})
			}
		}
		return g
	case 3:
		return InOrder{r.Perm(len(m.Columns))[:1+r.IntN(len(m.Columns))]}
	}
	return Linear{Terms: someTerms(r, m, 21, 8)}
}
