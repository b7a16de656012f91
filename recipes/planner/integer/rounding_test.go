package integer

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"os"
	"runtime"
	"strings"
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

// A lid is read off a row of two: at most so many times a 0/1 column.
func TestLids(t *testing.T) {
	p := &program{columns: []Column{{Most: 9}, {Most: 1}, {Most: 2}, {Most: 9}}}
	for _, c := range []struct {
		about  string
		row    Row
		column int
		want   lid
	}{
		{"a lid", AtMost(0, Times(1, 0), Times(-6, 1)), 0, lid{1, 6}},
		{"the other way round", AtMost(0, Times(-6, 1), Times(1, 0)), 0, lid{1, 6}},
		{"in other units, rounded down", AtMost(0, Times(2, 0), Times(-7, 1)), 0, lid{1, 3}},
		{"with a limit", AtMost(1, Times(1, 0), Times(-6, 1)), 0, lid{}},
		{"no 0/1 column", AtMost(0, Times(1, 0), Times(-6, 2)), 0, lid{}},
		{"nothing of either", AtMost(0, Times(0, 0), Times(0, 1)), 0, lid{}},
		{"nothing of the column", AtMost(0, Times(0, 0), Times(-6, 1)), 0, lid{}},
		{"nothing of the sign", AtMost(0, Times(1, 0), Times(0, 1)), 0, lid{}},
		{"both rise", AtMost(0, Times(1, 0), Times(6, 1)), 0, lid{}},
		{"both fall", AtMost(0, Times(-1, 0), Times(-6, 1)), 0, lid{}},
		{"three", AtMost(0, Times(1, 0), Times(-6, 1), Times(1, 3)), 0, lid{}},
		{"one", AtMost(0, Times(1, 0)), 0, lid{}},
		{"a floor", AtLeast(0, Times(1, 0), Times(-6, 1)), 0, lid{}},
		{"as high as may be", AtMost(0, Times(1, 0), Times(-MostValue, 1)), 0, lid{1, MostValue}},
		{"beyond", AtMost(0, Times(1, 0), Times(-MostValue-1, 1)), 0, lid{}},
	} {
		column, got := p.lidOf(&c.row)
		require.Equal(t, c.want, got, c.about)
		require.Equal(t, c.column, column, c.about)
	}
	p.rows = []Row{AtMost(0, Times(1, 0), Times(-6, 1)), AtMost(0, Times(1, 0), Times(-4, 1)), AtMost(0, Times(1, 0), Times(-5, 1)), AtMost(9, Times(1, 0), Times(1, 1), Times(1, 3)),
		AtMost(0, Times(0, 0), Times(0, 1), Times(0, 3))}
	p.addLids()
	require.Equal(t, []lid{{1, 4}, {}, {}, {}}, p.lids, "the tightest")
	require.Len(t, p.sources, 1, "rows of three or more that say something")
	require.Equal(t, 3, p.sources[0].row)
}

// A row is loose at a point that leaves more of it than its widest coefficient, with lids
// or without: 64 times the first column's, where that is at most 64 times a sign.
func TestLooseRows(t *testing.T) {
	p := &program{columns: []Column{{Most: 99}, {Most: 1}, {Most: 99}}, rows: []Row{
		AtMost(100, Times(1, 0), Times(-2, 1), Times(-1, 2)), AtMost(0, Times(1, 0), Times(-64, 1)),
	}}
	p.addLids()
	require.Equal(t, []roundable{{row: 0, bits: 2, coefs: []float64{0.25, -0.5, -0.25}, widest: 16.5}}, p.sources)
	for x, loose := range map[float64]bool{33.5: true, 34.5: false} {
		require.Equal(t, loose, p.sources[0].isLoose(&p.rows[0], []float64{x, 0, 0}), "%v: 66 of 100 are the widest", x)
		require.Equal(t, loose, p.sources[0].isLoose(&p.rows[0], []float64{x - 3, 0.5, -4}), x)
	}
}

// No rounding is broken by a point that keeps all lids where its row is loose.
func TestLooseRowsHaveNoRoundings(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 9))
	loose := 0
	for range 20_000 {
		p := randomLidded(r)
		point := make([]float64, len(p.columns))
		for j, c := range p.columns {
			point[j] = float64(c.Least) + r.Float64()*float64(c.Most-c.Least)
		}
		for j, l := range p.lids {
			if l.most > 0 {
				point[j] = min(point[j], float64(l.most)*point[l.sign])
			}
		}
		by := &rounding{p: p, point: point, coefs: make([]float64, len(point)), in: make([]bool, len(point)), flipped: make([]bool, len(point))}
		for i := range p.sources {
			s := &p.sources[i]
			if s.isLoose(&p.rows[s.row], point) {
				loose++
				require.False(t, by.choose(s, true) || by.choose(s, false), "%v at %v", p.rows[s.row], point)
			}
		}
	}
	require.Greater(t, loose, 1_000)
}

// 200·(x + y + z) ≤ 700: no more than three in all. The point (3/2, 1, 1) breaks that
// by 1/2, against coefficients of 1, 1 and 1: 1/2 ÷ √4.
func TestRoundingByHand(t *testing.T) {
	round := func(limit int64, point ...float64) (*rounding, bool) {
		p := &program{columns: repeated(3, 9), rows: []Row{atMost(limit, 200, 200, 200)}, asked: -1}
		p.addLids()
		r := &rounding{p: p, point: point, coefs: make([]float64, 3), in: make([]bool, 3), flipped: make([]bool, 3)}
		return r, r.choose(&p.sources[0], true)
	}
	r, ok := round(700, 1.5, 1, 1)
	require.True(t, ok)
	require.InDelta(t, 0.25, r.gain, 1e-12)
	row, ok := r.exact()
	require.True(t, ok)
	require.Equal(t, int64(3), new(big.Int).Quo(row.Limit, row.Terms[0].Coef).Int64())
	for j, in := range row.Terms {
		require.Equal(t, j, in.Column)
		require.Zero(t, in.Coef.Cmp(row.Terms[0].Coef))
	}
	for limit, rounds := range map[int64]bool{601: false, 603: true, 797: true, 799: false} {
		r, ok := round(limit, float64(limit)/200-2, 1, 1)
		require.Equal(t, rounds, ok, "%d: hardly anything to round says nothing", limit)
		require.Equal(t, rounds, r.gainOf(math.Abs(r.coefs[0])) != 0, limit)
	}
	_, ok = round(700, 1.004, 1, 1)
	require.False(t, ok, "the point keeps it")
	_, ok = round(700, 1.5062, 1, 0.5)
	require.True(t, ok, "broken by 6.2/1000, or 3.1 by the size of the row")
	_, ok = round(700, 1.5058, 1, 0.5)
	require.False(t, ok, "2.9")

	r = &rounding{p: &program{columns: repeated(1, 9)}, point: []float64{0.5}, whole: []int{0}, coefs: []float64{1}, limit: 3.5, flipped: make([]bool, 1)}
	require.InDelta(t, -1, r.gainOf(2), 1e-12, "⌊1 3/4⌋, of a half nothing is left")
	require.Zero(t, r.gainOf(0.95e-6), "a divisor that is nought, but for rounding")
	require.NotZero(t, r.gainOf(1.05e-6))
}

// Coefficients are cut to so many bits, down, and so is the limit: it stays true, as
// no column is below nought.
func TestTrimmedRows(t *testing.T) {
	lsh := func(n int64, by uint) *big.Int { return new(big.Int).Lsh(big.NewInt(n), by) }
	row := trimmed(sum{0: lsh(3, 28), 1: lsh(-5, 20), 3: big.NewInt(0)}, big.NewInt(77), 4)
	require.Equal(t, Row{[]Term{{0, lsh(3, 28)}, {1, lsh(-5, 20)}}, big.NewInt(77)}, row, "30 bits are kept")
	row = trimmed(sum{0: new(big.Int).Add(lsh(3, 30), big.NewInt(3)), 1: big.NewInt(-1), 2: big.NewInt(3)}, big.NewInt(79), 3)
	require.Equal(t, Row{[]Term{{0, lsh(3, 28)}, {1, big.NewInt(-1)}}, big.NewInt(19)}, row)
}

const roundingsFile = "testdata/roundings.txt"

// Which rows are rounded, how, and what they come to, at some points: -update writes
// the file anew. That they are true is shown by TestRoundingsCutOffNoSolution; where
// products and sums are fused, others may be as good, so this is for the machines on
// which they are not.
func TestRoundingsAreWhatTheyWere(t *testing.T) {
	var lines strings.Builder
	r := rand.New(rand.NewPCG(5, 8))
	for range 120 {
		p := randomLidded(r)
		point := make([]float64, len(p.columns))
		for j, c := range p.columns {
			point[j] = float64(c.Least) + float64(r.IntN(9))/8*float64(c.Most-c.Least)
		}
		for j, l := range p.lids {
			if l.most > 0 && r.IntN(3) > 0 {
				point[l.sign] = min(1, point[j]/float64(l.most))
			}
		}
		for _, row := range p.roundings(point) {
			fmt.Fprintf(&lines, "%v at %.4v: %v\n", p.rows[len(p.rows)-1], point, row)
		}
	}
	if *update {
		require.NoError(t, os.WriteFile(roundingsFile, []byte(lines.String()), 0o644))
	}
	want, err := os.ReadFile(roundingsFile)
	require.NoError(t, err)
	require.Greater(t, strings.Count(lines.String(), "\n"), 60)
	if runtime.GOARCH == "amd64" || runtime.GOARCH == "386" {
		require.Equal(t, string(want), lines.String())
	}
}
