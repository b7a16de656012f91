package integer

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// What rows allow by themselves, by hand.
func TestPropagate(t *testing.T) {
	for _, c := range []struct {
		about   string
		columns []Column
		row     Row
		want    []interval // nil: nothing
	}{
		{"3x + 2y ≤ 7", []Column{{Most: 9}, {Most: 9}}, atMost(7, 3, 2), []interval{{0, 2}, {0, 3}}},
		{"x + y ≥ 15", []Column{{Most: 9}, {Most: 8}}, atLeast(15, 1, 1), []interval{{7, 9}, {6, 8}}},
		{"2x ≥ 5 + 3y", []Column{{Most: 9}, {Most: 9}}, atLeast(5, 2, -3), []interval{{3, 9}, {0, 4}}},
		{"loose", []Column{{Most: 9}, {Most: 9}}, atMost(45, 3, 2), []interval{{0, 9}, {0, 9}}},
		{"just impossible", []Column{{Least: 2, Most: 9}, {Least: 1, Most: 9}}, atMost(7, 3, 2), nil},
		{"just possible", []Column{{Least: 2, Most: 9}, {Least: 1, Most: 9}}, atMost(8, 3, 2), []interval{{2, 2}, {1, 1}}},
		{"less than a batch", []Column{{Most: 9, Batch: 4}, {Most: 9}}, atMost(10, 3, 2), []interval{{0, 0}, {0, 5}}},
		{"from a batch on", []Column{{Most: 9, Batch: 4}, {Most: 2}}, atLeast(4, 1, 1), []interval{{4, 9}, {0, 2}}},
		{"neither nought nor a batch", []Column{{Most: 3, Batch: 2}, {Most: 9}}, AtMost(-1, Times(-1, 0)), []interval{{2, 3}, {0, 9}}},
	} {
		p := &program{columns: c.columns, rows: []Row{c.row}, asked: -1}
		s, tab := searchOf(p, over(2, terms(1, 1)))
		ok := s.propagate(tab)
		require.Equal(t, c.want != nil, ok, c.about)
		for j, want := range c.want {
			require.Equal(t, want, interval{tab.low[j], tab.high[j]}, c.about)
		}
	}
	p := &program{columns: []Column{{Most: 9, Batch: 4}, {Most: 9}}, rows: []Row{atMost(9, 3, 2)}, asked: -1}
	s, tab := searchOf(p, over(2, terms(1, 1)))
	tab.restrict(0, 1, 9)
	require.False(t, s.propagate(tab), "above nought and below a batch")
}

// A row whose sums need more than a word is left alone, to the last that does not.
func TestPropagateIsNoTrapForLargeNumbers(t *testing.T) {
	p := &program{columns: []Column{{Most: 1}, {Most: 1000}, {Most: 0}}}
	row := func(coefs ...*big.Int) *Row {
		r := Row{Limit: new(big.Int)}
		for j, c := range coefs {
			r.Terms = append(r.Terms, Term{j, c})
		}
		return &r
	}
	power := func(n uint) *big.Int { return new(big.Int).Lsh(big.NewInt(1), n) }
	require.Equal(t, []wholeTerm{{0, 1 << 57}, {1, 5}}, p.wholeTerms(row(power(57), big.NewInt(5), new(big.Int))))
	require.Nil(t, p.wholeTerms(row(power(59))))
	require.Nil(t, p.wholeTerms(row(power(80))))
	require.Nil(t, p.wholeTerms(row(new(big.Int).Neg(power(57)), power(49))), "together")
	require.NotNil(t, p.wholeTerms(row(new(big.Int).Neg(power(57)), power(48))))
	require.Nil(t, p.wholeTerms(row(new(big.Int), power(50))))
	ones := &program{columns: repeated(4, 1)}
	require.Len(t, ones.wholeTerms(row(power(57), power(57), power(57))), 3)
	require.Nil(t, ones.wholeTerms(row(power(57), power(57), power(57), power(57))), "none by itself")

	limit := new(big.Int).Neg(power(60))
	r := Row{Terms: terms(-1), Limit: limit} // x ≥ 2^60
	q := &program{columns: []Column{{Most: 9}}, rows: []Row{r}, asked: -1}
	s, tab := searchOf(q, over(1, terms(1)))
	require.True(t, s.propagate(tab), "a limit too long to look at")
}

// No solution is ever lost, and where the box is said to be empty it is.
func TestPropagateLosesNoSolution(t *testing.T) {
	narrowed, empty := 0, 0
	for seed := range uint64(3_000) {
		r := rand.New(rand.NewPCG(seed, 61))
		p := &program{asked: -1}
		for range 2 + r.IntN(2) {
			most := int64(1 + r.IntN(5))
			p.columns = append(p.columns, Column{Least: r.Int64N(most+1) * int64(r.IntN(2)), Most: most, Batch: int64(r.IntN(4))})
		}
		for range 1 + r.IntN(3) {
			row := Row{Limit: big.NewInt(int64(r.IntN(30) - 12))}
			for j := range p.columns {
				row.Terms = append(row.Terms, Times(int64(r.IntN(13)-6), j))
			}
			p.rows = append(p.rows, row)
		}
		s, tab := searchOf(p, over(len(p.columns), terms(1)))
		before := int64(0)
		for j := range tab.low {
			before += tab.high[j] - tab.low[j]
		}
		ok := s.propagate(tab)
		everyPoint(p.columns, func(x []int64) {
			for j, c := range p.columns {
				if !c.holds(x[j]) {
					return
				}
			}
			if !p.keeps(x) {
				return
			}
			require.True(t, ok, "seed %d: %v", seed, x)
			for j, v := range x {
				require.True(t, v >= tab.low[j] && v <= tab.high[j], "seed %d: %v outside %v to %v", seed, x, tab.low, tab.high)
			}
		})
		for j := range tab.low {
			before -= tab.high[j] - tab.low[j]
		}
		if !ok {
			empty++
		} else if before > 0 {
			narrowed++
		}
	}
	require.Greater(t, narrowed, 500)
	require.Greater(t, empty, 200)
}
