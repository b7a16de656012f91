package integer

import "math/big"

// A program is one part of a model as the search works on it: the model's rows
// that can bind, then one row for each linear goal, which will hold what that
// goal has reached.
type program struct {
	columns  []Column
	rows     []Row
	minima   []Minimum // of all concave goals
	floors   []floor   // one for each concave goal
	reach    []int64   // by minimum: the most it can come to, where it has spans
	spans    []span
	listed   []bool      // by column: all sums it is part of in some span are listed
	atLength bool        // sums are listed even where that takes long
	halves   [2]half     // scratch
	cuts     []Row       // that Separate gave, or that follow by rounding
	lids     []lid       // by column
	sources  []roundable // the rows that can be rounded
	asked    int         // the row that asks for more than it will for good, or -1
	repair   func(x []int64)
	separate func(x []float64) []Row
}

// A floor asks that the minima named add up to at least least.
type floor struct {
	minima []int
	least  *big.Int
}

// An objective is a linear form over the columns plus the minima of a floor. It
// is maximised.
type objective struct {
	coefs  []*big.Int // nil, or one a column
	minima []int      // those of floor, or nil
	floor  int
	whole  *big.Int // only its multiples count; nil: every value
}

// counts is what a value, or a bound, of the objective counts for.
func (o *objective) counts(v *big.Int) *big.Int { return multipleBelow(v, o.whole) }

// above is the least value that counts for more than worth.
func (o *objective) above(worth *big.Int) *big.Int {
	return multipleBelow(new(big.Int).Add(worth, o.unit()), o.whole)
}

// unit is the least difference between two values that count.
func (o *objective) unit() *big.Int {
	if o.whole != nil {
		return o.whole
	}
	return big.NewInt(1)
}

// over is the objective Σ terms over so many columns.
func over(columns int, terms []Term) objective {
	o := objective{coefs: make([]*big.Int, columns)}
	for j := range o.coefs {
		o.coefs[j] = new(big.Int)
	}
	for _, t := range terms {
		o.coefs[t.Column].Set(t.Coef)
	}
	return o
}

// keeps reports whether x keeps every row and every floor.
func (p *program) keeps(x []int64) bool {
	var sum, term big.Int
	for i := range p.rows {
		if p.rows[i].breaks(x, &sum, &term) {
			return false
		}
	}
	for i := range p.cuts {
		if p.cuts[i].breaks(x, &sum, &term) {
			return false
		}
	}
	for _, f := range p.floors {
		if p.total(f.minima, x).Cmp(f.least) < 0 {
			return false
		}
	}
	return true
}

// total is the sum of the named minima at x.
func (p *program) total(minima []int, x []int64) *big.Int {
	total := new(big.Int)
	for _, g := range minima {
		total.Add(total, p.minima[g].at(x))
	}
	return total
}

// value is the objective at x.
func (p *program) value(o objective, x []int64) *big.Int {
	total := p.total(o.minima, x)
	var term big.Int
	for j, c := range o.coefs {
		if x[j] != 0 && c.Sign() != 0 {
			total.Add(total, term.Mul(c, term.SetInt64(x[j])))
		}
	}
	return o.counts(total)
}

// minimumRange bounds a minimum over the program's box.
func (p *program) minimumRange(m Minimum) (low, high *big.Int) {
	for i := range m {
		least, most := p.slackRange(&m[i])
		if i == 0 || least.Cmp(low) < 0 {
			low = least
		}
		if i == 0 || most.Cmp(high) < 0 {
			high = most
		}
	}
	return low, high
}

// slackRange bounds Limit − Σ Coef·x over the program's box.
func (p *program) slackRange(r *Row) (least, most *big.Int) {
	least, most = new(big.Int).Set(r.Limit), new(big.Int).Set(r.Limit)
	var term big.Int
	for _, t := range r.Terms {
		low, high := p.columns[t.Column].Least, p.columns[t.Column].Most
		if t.Coef.Sign() < 0 {
			low, high = high, low
		}
		most.Sub(most, term.Mul(t.Coef, term.SetInt64(low)))
		least.Sub(least, term.Mul(t.Coef, term.SetInt64(high)))
	}
	return least, most
}
