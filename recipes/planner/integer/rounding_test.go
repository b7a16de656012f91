package integer

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// A rounded row is broken by no whole point that keeps the row it came from, the
// lids and the bounds: every point is tried.
func TestRoundingsCutOffNoSolution(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 8))
	found := 0
	for range 3_000 {
		p := randomLidded(r)
		point := make([]float64, len(p.columns))
		for j, c := range p.columns {
			point[j] = float64(c.Least) + r.Float64()*float64(c.Most-c.Least)
		}
		for j, l := range p.lids {
			if l.most > 0 && r.IntN(3) > 0 {
				point[l.sign] = min(1, point[j]/float64(l.most))
			}
		}
		rows := p.roundings(point)
		found += len(rows)
		everyPoint(p.columns, func(x []int64) {
			if p.keeps(x) {
				var sum, term big.Int
				for i := range rows {
					require.False(t, rows[i].breaks(x, &sum, &term), "%v breaks %v of %v, %v", x, rows[i], p.rows, p.columns)
				}
			}
		})
	}
	require.Greater(t, found, 1_000)
}

// randomLidded draws a row over a few columns, some of them with lids.
func randomLidded(r *rand.Rand) *program {
	p := &program{asked: -1}
	row := Row{Limit: big.NewInt(int64(r.IntN(60) - 15))}
	for range 2 + r.IntN(2) {
		x := len(p.columns)
		row.Terms = append(row.Terms, Times(int64(r.IntN(41)-12), x))
		most := int64(1 + r.IntN(5))
		if r.IntN(3) == 0 {
			least := int64(r.IntN(2))
			p.columns = append(p.columns, Column{Least: min(least, most), Most: most})
			continue
		}
		p.columns = append(p.columns, Column{Most: most}, Column{Most: 1})
		p.rows = append(p.rows, AtMost(0, Times(1, x), Times(-int64(1+r.IntN(6)), x+1)))
		if r.IntN(3) == 0 {
			row.Terms = append(row.Terms, Times(int64(r.IntN(21)-10), x+1))
		}
	}
	p.rows = append(p.rows, row)
	p.addLids()
	return p
}

// everyPoint calls with all points of the box.
func everyPoint(columns []Column, call func(x []int64)) {
	x := make([]int64, len(columns))
	var walk func(j int)
	walk = func(j int) {
		if j == len(x) {
			call(x)
			return
		}
		for x[j] = columns[j].Least; x[j] <= columns[j].Most; x[j]++ {
			walk(j + 1)
		}
	}
	walk(0)
}
