package integer

import (
	"math/big"
	"slices"
)

// A fairness is a [MaxMin] goal over the columns of one part.
type fairness struct {
	shares []Share
	orZero bool
	top    *big.Rat // what it comes to when all columns are 0
	unit   *big.Int // t is a whole multiple of 1/unit
	links  []int    // see aim
	counts []count
}

// newFairness writes the goal. As the columns are whole, t is a multiple of one
// over the common multiple of the weights, or the top, whose share may lie in
// another part.
func newFairness(a *aim, orZero bool, top *big.Rat) fairness {
	f := fairness{shares: a.shares, orZero: orZero, top: top, unit: new(big.Int).Set(top.Denom()), links: a.links, counts: a.counts}
	var gcd big.Int
	for _, s := range a.shares {
		gcd.GCD(nil, nil, f.unit, s.Weight)
		f.unit = new(big.Int).Mul(f.unit, new(big.Int).Quo(s.Weight, &gcd))
	}
	return f
}

// at is the largest t that x allows.
func (f fairness) at(x []int64) *big.Rat {
	t := f.top
	for _, s := range f.shares {
		if f.orZero && x[s.Column] == 0 {
			continue
		}
		if q := s.ratio(x[s.Column]); q.Cmp(t) < 0 {
			t = q
		}
	}
	return t
}

// steps is t in units, rounded down.
func (f fairness) steps(t *big.Rat) *big.Int {
	n := new(big.Int).Mul(t.Num(), f.unit)
	return n.Quo(n, t.Denom())
}

// highest is the most t could come to if nothing but the columns' own bounds
// stood in the way.
func (f fairness) highest(columns []Column) *big.Rat {
	t := f.top
	for _, s := range f.shares {
		if q := s.ratio(columns[s.Column].Most); !f.orZero && q.Cmp(t) < 0 {
			t = q
		}
	}
	return t
}

// narrowed is what the columns must be for t, and the rows that say so to the
// relaxation.
func (f fairness) narrowed(p *program, t *big.Rat) narrowing {
	to := narrowing{columns: map[int]Column{}, rows: map[int]Row{}}
	if t.Sign() <= 0 {
		return to
	}
	signs, asked := map[int]int{}, map[int]int64{} // by column
	for i, s := range f.shares {
		c := p.columns[s.Column]
		n := ceiling(new(big.Rat).Mul(t, new(big.Rat).SetInt(s.Weight)))
		switch {
		case !f.orZero || c.Least > 0:
			c.Least = max(c.Least, n, c.Batch)
		case n > c.Most:
			c.Most = 0
		default:
			c.Batch = max(c.Batch, n)
		}
		to.columns[s.Column] = c
		if row := f.links[i]; f.orZero && row >= 0 {
			signs[s.Column], asked[s.Column] = p.rows[row].Terms[0].Column, n
			to.rows[row] = AtMost(0, Times(n, signs[s.Column]), Times(-1, s.Column))
		}
	}
	for _, c := range f.counts {
		if row, ok := c.row(p, signs, asked); ok {
			to.rows[c.at] = row
		}
	}
	return to
}

// A count is a row that will say how many of the signs can be 1 at once for what
// another row holds: a relaxation in which all of them are a fraction is far off.
type count struct{ of, at int }

// row is the count when so much is asked of each column that is made; false when
// all of them fit.
func (c count) row(p *program, signs map[int]int, asked map[int]int64) (Row, bool) {
	var least []*big.Int
	var terms []Term
	for _, t := range p.rows[c.of].Terms {
		if n, ok := asked[t.Column]; ok && n <= p.columns[t.Column].Most {
			n = max(n, p.columns[t.Column].Batch)
			least = append(least, new(big.Int).Mul(t.Coef, big.NewInt(n)))
			terms = append(terms, Times(1, signs[t.Column]))
		}
	}
	slices.SortFunc(least, (*big.Int).Cmp)
	sum, fit := new(big.Int), 0
	for fit < len(least) && sum.Add(sum, least[fit]).Cmp(p.rows[c.of].Limit) <= 0 {
		fit++
	}
	return AtMost(int64(fit), terms...), fit < len(least)
}

// ceiling is the smallest whole number not below r, at most MostValue + 1.
func ceiling(r *big.Rat) int64 {
	n := new(big.Int).Add(r.Num(), r.Denom())
	n.Sub(n, big.NewInt(1)).Div(n, r.Denom())
	if !n.IsInt64() {
		return MostValue + 1
	}
	return min(n.Int64(), MostValue+1)
}
