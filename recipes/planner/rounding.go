package planner

import (
	"math"
	"math/big"

	"trencher/recipes/planner/integer"
)

// From Σ a·x ≤ b with whole x ≥ 0 follows, for any d above 0 and f = frac(b/d),
//
//	Σ (⌊a/d⌋ + max(0, frac(a/d) − f)/(1 − f))·x ≤ ⌊b/d⌋
//
// (mixed-integer rounding; Nemhauser and Wolsey, Integer and Combinatorial
// Optimization, Wiley 1988, II.1.7). A lot of 1,000 g makes no more than six
// portions of 150 g: such rows tell the relaxation. They are written down where
// its point breaks them, with d one of the row's own coefficients.

const (
	roundingParts = 1024 // the fineness a row's coefficients are rounded down to
	leastBroken   = 0.02
)

// roundings lists the rounded rows that x breaks, at most one for each row.
func (m *model) roundings(x []float64) []integer.Row {
	var rows []integer.Row
	for r := range m.weighing.rows {
		row := &m.weighing.rows[r]
		if row.class || row.limit <= 0 {
			continue
		}
		if best := m.mostBroken(row, x); best >= 0 {
			rows = append(rows, m.rounded(m.supplies[r], m.dishes[best].dish))
		}
	}
	return rows
}

// mostBroken is the dish by whose coefficient a row is rounded so that x breaks it
// most; -1 where it breaks none.
func (m *model) mostBroken(row *weighed, x []float64) int {
	best, by := -1, leastBroken
	for i, c := range m.dishes {
		v := x[c.portions]
		if row.coefs[i] <= 0 || v-math.Floor(v) < 1e-4 || math.Ceil(v)-v < 1e-4 {
			continue
		}
		if over := row.brokenBy(row.coefs[i], m, x); over > by {
			best, by = i, over
		}
	}
	return best
}

// brokenBy is by how much x breaks the row rounded by d, in portions.
func (w *weighed) brokenBy(d float64, m *model, x []float64) float64 {
	whole := math.Floor(w.limit/d + hair)
	f := max(0, w.limit/d-whole)
	if f > 0.99 {
		return 0
	}
	sum := -whole
	for i, a := range w.coefs {
		if a > 0 {
			n := math.Floor(a/d + hair)
			sum += (n + max(0, a/d-n-f)/(1-f)) * x[m.dishes[i].portions]
		}
	}
	return sum
}

// rounded is the row rounded by the coefficient of a dish, exactly: coefficients
// are then rounded down once more, to a part of a portion.
func (m *model) rounded(r ratRow, dish int) integer.Row {
	per := r.coefs[dish]
	limit := new(big.Rat).Quo(r.limit, per)
	whole := new(big.Int).Quo(limit.Num(), limit.Denom())
	f := new(big.Rat).Sub(limit, new(big.Rat).SetInt(whole))
	rest := new(big.Rat).Sub(big.NewRat(1, 1), f)
	row := integer.Row{Limit: new(big.Int).Mul(whole, big.NewInt(roundingParts))}
	for _, c := range m.dishes {
		a := r.coefs[c.dish]
		if a == nil || a.Sign() <= 0 {
			continue
		}
		times := new(big.Rat).Quo(a, per)
		n := new(big.Int).Quo(times.Num(), times.Denom())
		over := new(big.Rat).Sub(times, new(big.Rat).SetInt(n))
		coef := new(big.Rat).SetInt(n)
		if over.Sub(over, f); over.Sign() > 0 {
			coef.Add(coef, over.Quo(over, rest))
		}
		coef.Mul(coef, big.NewRat(roundingParts, 1))
		row.Terms = append(row.Terms, integer.Term{Column: c.portions, Coef: new(big.Int).Quo(coef.Num(), coef.Denom())})
	}
	return row
}
