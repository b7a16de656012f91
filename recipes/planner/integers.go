package planner

import (
	"math/big"
	"slices"
	"strings"
)

// commonUnit is the smallest unit of which all numbers are whole multiples, as
// the whole number of such units in 1.
func commonUnit(numbers ...*big.Rat) *big.Int {
	lcm := big.NewInt(1)
	var gcd big.Int
	for _, n := range numbers {
		gcd.GCD(nil, nil, lcm, n.Denom())
		lcm = new(big.Int).Mul(lcm, new(big.Int).Quo(n.Denom(), &gcd))
	}
	return lcm
}

// inUnits is n × unit, which must be whole.
func inUnits(n *big.Rat, unit *big.Int) *big.Int {
	v := new(big.Int).Mul(n.Num(), unit)
	return v.Quo(v, n.Denom())
}

// numbers lists the limit and the coefficients of the row.
func (r *ratRow) numbers() []*big.Rat {
	list := []*big.Rat{r.limit}
	for _, c := range r.coefs {
		list = append(list, c)
	}
	return list
}

// scaledTo is the row in whole units, over the columns of its dishes. Dishes
// without a column count as 0.
func (r *ratRow) scaledTo(unit *big.Int, column map[int]int) row {
	out := row{limit: inUnits(r.limit, unit)}
	dishes := make([]int, 0, len(r.coefs))
	for d := range r.coefs {
		if _, ok := column[d]; ok {
			dishes = append(dishes, d)
		}
	}
	slices.Sort(dishes)
	for _, d := range dishes {
		out.cols = append(out.cols, column[d])
		out.coefs = append(out.coefs, inUnits(r.coefs[d], unit))
	}
	return out
}

// whole is the row in the coarsest whole units.
func (r *ratRow) whole(column map[int]int) row {
	return r.scaledTo(commonUnit(r.numbers()...), column)
}

// joined writes names as a list.
func joined(names []string) string { return strings.Join(names, ", ") }

func ratInt(n int) *big.Rat { return new(big.Rat).SetInt64(int64(n)) }

// sortedKeys lists the keys of a map in rising order.
func sortedKeys[V any](m map[int]V) []int {
	keys := make([]int, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
