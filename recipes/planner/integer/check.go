package integer

import (
	"errors"
	"fmt"
	"math/big"
)

// ErrModel says that a model is not well formed: a slip of whoever wrote it.
var ErrModel = errors.New("not an integer program")

func wrong(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrModel, fmt.Sprintf(format, args...))
}

// check finds what is wrong with the model, or nil.
func (m *Model) check() error {
	if len(m.Columns) == 0 {
		return wrong("it has no columns")
	}
	for j, c := range m.Columns {
		if c.Least < 0 || c.Least > c.Most || c.Most > MostValue || c.Batch < 0 {
			return wrong("column %d runs from %d to %d in batches of %d", j, c.Least, c.Most, c.Batch)
		}
	}
	for i, r := range m.Rows {
		if err := r.check(len(m.Columns)); err != nil {
			return fmt.Errorf("row %d: %w", i, err)
		}
	}
	if m.Start != nil && len(m.Start) != len(m.Columns) {
		return wrong("its start has %d of %d columns", len(m.Start), len(m.Columns))
	}
	return m.checkLevels()
}

func (m *Model) checkLevels() error {
	for i, l := range m.Levels {
		if l.Goal == nil {
			return wrong("level %d has no goal", i)
		}
		if err := l.Goal.check(len(m.Columns)); err != nil {
			return fmt.Errorf("level %d: %w", i, err)
		}
	}
	return nil
}

func (r Row) check(columns int) error {
	if r.Limit == nil {
		return wrong("it has no limit")
	}
	return checkTerms(r.Terms, columns)
}

func checkTerms(terms []Term, columns int) error {
	seen := make(map[int]bool, len(terms))
	for _, t := range terms {
		switch {
		case t.Column < 0 || t.Column >= columns:
			return wrong("there is no column %d", t.Column)
		case t.Coef == nil:
			return wrong("column %d has no coefficient", t.Column)
		case seen[t.Column]:
			return wrong("column %d stands there twice", t.Column)
		}
		seen[t.Column] = true
	}
	return nil
}

func (g Linear) check(columns int) error { return checkTerms(g.Terms, columns) }

func (g Concave) check(columns int) error {
	for _, m := range g.Minima {
		if len(m) == 0 {
			return wrong("a minimum of no rows")
		}
		for _, r := range m {
			if err := r.check(columns); err != nil {
				return err
			}
		}
	}
	if g.Whole != nil && g.Whole.Sign() <= 0 {
		return wrong("whole multiples of nothing")
	}
	return nil
}

func (g MaxMin) check(columns int) error {
	terms := make([]Term, 0, len(g.Shares))
	for _, s := range g.Shares {
		if s.Weight == nil || s.Weight.Sign() <= 0 {
			return wrong("column %d has no weight", s.Column)
		}
		terms = append(terms, Term{s.Column, s.Weight})
	}
	if len(terms) == 0 {
		return wrong("a share of nothing")
	}
	return checkTerms(terms, columns)
}

func (g InOrder) check(columns int) error {
	if len(g.Columns) == 0 {
		return wrong("an order of nothing")
	}
	for _, j := range g.Columns {
		if j < 0 || j >= columns {
			return wrong("there is no column %d", j)
		}
	}
	return nil
}

func (g Linear) at(_ *Model, x []int64) *big.Rat {
	return new(big.Rat).SetInt(sumOf(g.Terms, x))
}

func (g Concave) at(_ *Model, x []int64) *big.Rat {
	total := new(big.Int)
	for _, m := range g.Minima {
		total.Add(total, m.at(x))
	}
	return new(big.Rat).SetInt(multipleBelow(total, g.Whole))
}

func (g MaxMin) at(m *Model, x []int64) *big.Rat {
	return newFairness(&aim{shares: g.Shares}, g.OrZero, g.top(m.Columns)).at(x)
}

func (g InOrder) at(_ *Model, x []int64) *big.Rat {
	return new(big.Rat).SetInt64(x[g.Columns[len(g.Columns)-1]])
}

// multipleBelow is v rounded down to a multiple of whole, or v itself when whole
// is nil.
func multipleBelow(v, whole *big.Int) *big.Int {
	if whole == nil {
		return v
	}
	n := new(big.Int).Div(v, whole)
	return n.Mul(n, whole)
}

// top is the largest Most ÷ Weight of the shares.
func (g MaxMin) top(columns []Column) *big.Rat {
	top := new(big.Rat)
	for _, s := range g.Shares {
		if q := s.ratio(columns[s.Column].Most); q.Cmp(top) > 0 {
			top = q
		}
	}
	return top
}

// ratio is n ÷ Weight.
func (s Share) ratio(n int64) *big.Rat { return new(big.Rat).SetFrac(big.NewInt(n), s.Weight) }

// sumOf is Σ Coef·x.
func sumOf(terms []Term, x []int64) *big.Int {
	sum := new(big.Int)
	var term big.Int
	for _, t := range terms {
		if x[t.Column] != 0 {
			sum.Add(sum, term.Mul(t.Coef, term.SetInt64(x[t.Column])))
		}
	}
	return sum
}

// at is the least slack at x.
func (m Minimum) at(x []int64) *big.Int {
	var sum, term, least big.Int
	for i := range m {
		if s := m[i].slack(x, &sum, &term); i == 0 || s.Cmp(&least) < 0 {
			least.Set(s)
		}
	}
	return &least
}

// breaks reports whether x breaks the row.
func (r *Row) breaks(x []int64, sum, term *big.Int) bool {
	if s, ok := r.small(x); ok {
		return s < 0
	}
	return r.slack(x, sum, term).Sign() < 0
}

// small is the row's slack where it and all its terms are far from overflowing.
func (r *Row) small(x []int64) (slack int64, ok bool) {
	const most = 1 << 61
	if r.Limit.BitLen() > 61 {
		return 0, false
	}
	slack = r.Limit.Int64()
	for _, t := range r.Terms {
		if x[t.Column] == 0 {
			continue
		}
		if t.Coef.BitLen() > 41 {
			return 0, false
		}
		slack -= t.Coef.Int64() * x[t.Column]
		if slack > most || slack < -most {
			return 0, false
		}
	}
	return slack, true
}

// slack is Limit − Σ Coef·x, written to sum.
func (r *Row) slack(x []int64, sum, term *big.Int) *big.Int {
	if s, ok := r.small(x); ok {
		return sum.SetInt64(s)
	}
	sum.Set(r.Limit)
	for _, t := range r.Terms {
		if x[t.Column] != 0 {
			sum.Sub(sum, term.Mul(t.Coef, term.SetInt64(x[t.Column])))
		}
	}
	return sum
}

// holds reports whether x keeps the column's domain.
func (c Column) holds(x int64) bool {
	return x >= c.Least && x <= c.Most && (x == 0 || x >= c.Batch)
}

// holds reports whether x keeps every column's domain and every row.
func (m *Model) holds(x []int64) bool {
	for j, c := range m.Columns {
		if !c.holds(x[j]) {
			return false
		}
	}
	var sum, term big.Int
	for i := range m.Rows {
		if m.Rows[i].breaks(x, &sum, &term) {
			return false
		}
	}
	return true
}
