package planner

import (
	"math"
	"math/big"
	"slices"

	"trencher/recipes/planner/integer"
)

// A ratRow is a row before it is scaled to integers: Σ coef·x_dish ≤ limit.
type ratRow struct {
	coefs map[int]*big.Rat // by dish
	limit *big.Rat
	crop  string // what runs out when the row binds: a crop …
	item  string // … or the ingredient of a limit
	unit  string
	class string // the class of the steamer\'s load it is about
}

func (r *ratRow) add(dish int, per *big.Rat) {
	if r.coefs[dish] == nil {
		r.coefs[dish] = new(big.Rat).Set(per)
		return
	}
	r.coefs[dish].Add(r.coefs[dish], per)
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
func (r *ratRow) scaledTo(unit *big.Int, column map[int]int) integer.Row {
	out := integer.Row{Limit: inUnits(r.limit, unit)}
	dishes := make([]int, 0, len(r.coefs))
	for d := range r.coefs {
		if _, ok := column[d]; ok {
			dishes = append(dishes, d)
		}
	}
	slices.Sort(dishes)
	for _, d := range dishes {
		out.Terms = append(out.Terms, integer.Term{Column: column[d], Coef: inUnits(r.coefs[d], unit)})
	}
	return out
}

// whole is the row in the coarsest whole units.
func (r *ratRow) whole(column map[int]int) integer.Row {
	return r.scaledTo(commonUnit(r.numbers()...), column)
}

// commonUnit is the smallest unit of which all numbers are whole multiples, as
// the whole number of such units in 1.
func commonUnit(numbers ...*big.Rat) *big.Int {
	if unit, ok := smallUnit(numbers); ok {
		return new(big.Int).SetUint64(unit)
	}
	lcm := big.NewInt(1)
	var gcd big.Int
	for _, n := range numbers {
		gcd.GCD(nil, nil, lcm, n.Denom())
		lcm = new(big.Int).Mul(lcm, new(big.Int).Quo(n.Denom(), &gcd))
	}
	return lcm
}

// smallUnit is commonUnit in one word of the machine, without big numbers made on the
// way; false where it takes more.
func smallUnit(numbers []*big.Rat) (unit uint64, ok bool) {
	unit = 1
	for _, n := range numbers {
		if n.IsInt() {
			continue
		}
		if !n.Denom().IsUint64() {
			return 0, false
		}
		more := n.Denom().Uint64() / gcd(unit, n.Denom().Uint64())
		if more > math.MaxUint64/unit {
			return 0, false
		}
		unit *= more
	}
	return unit, true
}

// gcd is the greatest common divisor; neither is 0.
func gcd(a, b uint64) uint64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// inUnits is n × unit, which must be whole.
func inUnits(n *big.Rat, unit *big.Int) *big.Int {
	if n.IsInt() {
		return new(big.Int).Mul(n.Num(), unit)
	}
	if n.Denom().IsUint64() && unit.IsUint64() && unit.Uint64()%n.Denom().Uint64() == 0 {
		v := new(big.Int).SetUint64(unit.Uint64() / n.Denom().Uint64())
		return v.Mul(v, n.Num())
	}
	v := new(big.Int).Mul(n.Num(), unit)
	return v.Quo(v, n.Denom())
}

func ratInt(n int) *big.Rat { return new(big.Rat).SetInt64(int64(n)) }
