package integer

import (
	"context"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// A knapsack of two capacities, large enough that the search has to cut and to
// branch, solved a second way by dynamic programming over what is left of both
// (R. Bellman, Dynamic Programming, Princeton 1957). Three levels: two kinds of
// worth, then few pieces.
func TestAgreesWithDynamicProgramming(t *testing.T) {
	for seed := range volume(12) {
		r := rand.New(rand.NewPCG(seed, 14))
		const n, room = 40, 250
		var size [2][n]int
		var worth [3][n]int64
		var m Model
		for j := range n {
			size[0][j], size[1][j] = 5+r.IntN(60), 5+r.IntN(60)
			worth[0][j], worth[1][j], worth[2][j] = int64(1+r.IntN(9)), int64(r.IntN(5)), -1
			m.Columns = append(m.Columns, Column{Most: int64(1 + r.IntN(3))})
		}
		for _, sizes := range size {
			var row []Term
			for j, s := range sizes {
				row = append(row, Times(int64(s), j))
			}
			m.Rows = append(m.Rows, AtMost(room, row...))
		}
		for _, w := range worth {
			m.Levels = append(m.Levels, Level{Goal: Linear{Terms: terms(w[:]...)}})
		}
		got, err := Solve(context.Background(), m, Limits{})
		require.NoError(t, err)
		reached := int64(0)
		for _, l := range got.Levels {
			reached = reached*1_000 + l.Value.Num().Int64()
		}
		var best [room + 1][room + 1]int64
		for j, c := range m.Columns {
			together := (worth[0][j]*1_000+worth[1][j])*1_000 + worth[2][j]
			for range c.Most { // one piece at a time, from the full knapsack down
				for a := room; a >= size[0][j]; a-- {
					for b := room; b >= size[1][j]; b-- {
						best[a][b] = max(best[a][b], best[a-size[0][j]][b-size[1][j]]+together)
					}
				}
			}
		}
		require.Equal(t, best[room][room], reached, seed)
	}
}

// What a number is scaled to is it to the last place of a float64, and a multiplier
// is it to the last of its places, never below 0.
func TestScaledNumbers(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 16))
	for range 20_000 {
		a, shift := r.Int64()>>r.IntN(63), r.IntN(80)-40
		if r.IntN(2) == 0 {
			a = -a
		}
		want := new(big.Rat).SetInt64(a)
		if shift >= 0 {
			want.Mul(want, new(big.Rat).SetInt(new(big.Int).Lsh(big.NewInt(1), uint(shift))))
		} else {
			want.Quo(want, new(big.Rat).SetInt(new(big.Int).Lsh(big.NewInt(1), uint(-shift))))
		}
		nearest, _ := want.Float64()
		require.Equal(t, nearest, scaled(big.NewInt(a), shift))
		big30 := new(big.Int).Mul(big.NewInt(a), new(big.Int).Lsh(big.NewInt(1), 70))
		require.Equal(t, math.Ldexp(float64(a), 70+shift), scaled(big30, shift))

		v := (r.Float64() - 0.2) * 1000
		off := new(big.Rat).Sub(new(big.Rat).SetFrac(big.NewInt(multiplier(v)), big.NewInt(1<<places)), new(big.Rat).SetFloat64(max(0, v)))
		require.LessOrEqual(t, off.Abs(off).Cmp(big.NewRat(1, 1<<places)), 0, v)
	}
	require.Positive(t, multiplier(1e300), "a multiplier may be any, but is never below 0")
	require.Zero(t, multiplier(math.NaN()))
}

// A source of random numbers that a fuzzer's bytes decide, as far as they go.
type bytesFirst struct {
	data []byte
	rest *rand.PCG
}

func (s *bytesFirst) Uint64() uint64 {
	if len(s.data) == 0 {
		return s.rest.Uint64()
	}
	n := uint64(s.data[0]) << 56 // the draws look at the upper bits first
	s.data = s.data[1:]
	return n | s.rest.Uint64()>>8
}

func FuzzModel(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{255, 255, 200, 255, 10, 0, 255, 255})
	f.Add([]byte{90, 200, 128, 0, 90, 90, 255, 30, 60, 90, 120, 150, 180})
	f.Fuzz(func(t *testing.T, data []byte) {
		m := randomModel(rand.New(&bytesFirst{data, rand.NewPCG(1, 18)}))
		requireBest(t, m, "")
	})
}

// Programs too large to enumerate: however columns and rows are numbered, every
// level comes to the same.
func TestNumberingDoesNotMatter(t *testing.T) {
	for seed := range volume(12) {
		r := rand.New(rand.NewPCG(seed, 22))
		m := largeModel(r)
		want, err := Solve(context.Background(), m, Limits{Nodes: 4_000})
		require.NoError(t, err, seed)
		got, err := Solve(context.Background(), renumbered(r, m), Limits{Nodes: 4_000})
		require.NoError(t, err, seed)
		for i := range want.Levels {
			require.Zero(t, want.Levels[i].Value.Cmp(got.Levels[i].Value), seed)
		}
		require.Equal(t, want.Levels[0].Value.Num().Int64(), added(Row{Terms: m.Levels[0].Goal.(Linear).Terms}, want.X).Int64())
	}
}

// largeModel draws many rows that all are nearly full, so that there is much to
// cut off, and one minimum.
func largeModel(r *rand.Rand) Model {
	var m Model
	const n = 26
	for range n {
		m.Columns = append(m.Columns, Column{Most: int64(1 + r.IntN(4)), Batch: int64(r.IntN(3))})
	}
	draw := func(most int) []Term {
		coefs := make([]int64, n)
		for j := range coefs {
			coefs[j] = int64(r.IntN(most))
		}
		return terms(coefs...)
	}
	for range 9 {
		m.Rows = append(m.Rows, AtMost(int64(150+r.IntN(100)), draw(25)...))
	}
	for range 3 {
		m.Levels = append(m.Levels, Level{Goal: Linear{Terms: draw(4)}})
	}
	least := Minimum{AtLeast(0, draw(7)...), AtMost(90, draw(3)...)}
	least[0].Limit = big.NewInt(2)
	m.Levels = append(m.Levels, Level{Goal: Concave{Minima: []Minimum{least}}})
	return m
}

func renumbered(r *rand.Rand, m Model) Model {
	to := r.Perm(len(m.Columns))
	moved := func(row Row) Row {
		var list []Term
		for _, term := range row.Terms {
			list = append(list, Term{to[term.Column], term.Coef})
		}
		r.Shuffle(len(list), func(i, k int) { list[i], list[k] = list[k], list[i] })
		return Row{list, row.Limit}
	}
	out := Model{Columns: make([]Column, len(m.Columns))}
	for j, c := range m.Columns {
		out.Columns[to[j]] = c
	}
	for _, i := range r.Perm(len(m.Rows)) {
		out.Rows = append(out.Rows, moved(m.Rows[i]))
	}
	for _, l := range m.Levels {
		switch g := l.Goal.(type) {
		case Linear:
			g.Terms = moved(Row{Terms: g.Terms}).Terms
			l.Goal = g
		case Concave:
			var minimum Minimum
			for _, row := range g.Minima[0] {
				minimum = append(minimum, moved(row))
			}
			l.Goal = Concave{Minima: []Minimum{minimum}}
		}
		out.Levels = append(out.Levels, l)
	}
	return out
}
