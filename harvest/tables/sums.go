package tables

import (
	"cmp"
	"math/big"
	"strings"

	"trencher/units"
)

// isSum tells a row of totals that does not say it is one: the last, it names neither a day
// nor a planting, has weights, and each of them is what stands above it in its
// column, to the last figure shown.
func (r *reader) isSum(row rawRow) bool {
	if row.line != r.rows[len(r.rows)-1].line {
		return false
	}
	weights, named := 0, false
	for i, c := range r.columns {
		text := row.cell(i)
		switch {
		case c.kind == "planting" || c.kind == "date":
			named = true
			if strings.TrimSpace(text) != "" {
				return false
			}
		case !holdsWeight(c.kind) || isNothing(text):
		case strings.HasPrefix(text, "=") || r.sumsUp(row, i):
			weights++
		default:
			return false
		}
	}
	return named && weights > 0
}

// sumsUp tells whether a cell is the sum of those above it, of two at least.
func (r *reader) sumsUp(row rawRow, i int) bool {
	sum, count := new(big.Rat), 0
	for _, other := range r.rows[r.head+1:] {
		if other.line >= row.line {
			break
		}
		if g := r.gramsIn(other.cell(i), i); g != nil && !isTotal(other.cells) {
			sum.Add(sum, g)
			count++
		}
	}
	g := r.gramsIn(row.cell(i), i)
	if g == nil || count == 0 {
		return false
	}
	apart := new(big.Rat).Sub(g, sum)
	return new(big.Rat).Mul(apart.Abs(apart), big.NewRat(200, 1)).Cmp(sum) <= 0 // rounded for show
}

// gramsIn is the weight in a cell; nil where it holds none that can be read. What
// has no unit at all is taken alike above and below.
func (r *reader) gramsIn(text string, i int) *big.Rat {
	if isNothing(text) {
		return nil
	}
	text = settled(text, r.table.Layout.Decimal)
	if isNumber(text) {
		text += " " + cmp.Or(r.columns[i].unit, r.table.Layout.Unit, "kg")
	}
	q, err := units.Parse(text, units.NoSystem)
	if err != nil {
		return nil
	}
	if q, err = q.In(units.Gram); err != nil || q.IsRange() {
		return nil
	}
	return q.Rat()
}
