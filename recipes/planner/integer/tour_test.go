package integer

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// A map of towns: two measures of every road between two of them.
type roadMap [][][2]int64

// twoIslands has six towns in two far groups: a tour of each group alone is
// shorter than any round trip.
func twoIslands() roadMap {
	far := roadMap{}
	for a := range 6 {
		far = append(far, make([][2]int64, 6))
		for b := range 6 {
			far[a][b][0] = 1
			if a/3 != b/3 {
				far[a][b][0] = 10 + int64((a+b)%3)
			}
		}
	}
	return far
}

func randomMap(r *rand.Rand, towns int) roadMap {
	far := make(roadMap, towns)
	for a := range far {
		far[a] = make([][2]int64, towns)
		for b := range a {
			far[a][b] = [2]int64{int64(1 + r.IntN(9)), int64(r.IntN(20))}
			far[b][a] = far[a][b]
		}
	}
	return far
}

// roundTrip is one column a road, two roads at every town, the shortest in all
// by the first measure, then by the second. That a tour may not close early is
// told only when it does (G. Dantzig, R. Fulkerson and S. Johnson, Solution of a
// large-scale traveling-salesman problem, Operations Research 2, 1954).
func roundTrip(far roadMap) Model {
	var m Model
	var roads [][2]int
	at := make([][]Term, len(far))
	var length [2][]Term
	for a := range far {
		for b := range a {
			j := len(roads)
			roads = append(roads, [2]int{b, a})
			at[a], at[b] = append(at[a], Times(1, j)), append(at[b], Times(1, j))
			for k := range length {
				length[k] = append(length[k], Times(-far[a][b][k], j))
			}
		}
	}
	m.Columns = binaries(len(roads))
	for _, town := range at {
		m.Rows = append(m.Rows, AtMost(2, town...), AtLeast(2, town...))
	}
	m.Levels = []Level{{Goal: Linear{Terms: length[0]}}, {Goal: Linear{Terms: length[1]}}}
	m.Separate = func(x []float64) []Row { return closedEarly(roads, len(far), x) }
	return m
}

// closedEarly finds the towns reached from the first, and asks for two roads out.
func closedEarly(roads [][2]int, towns int, x []float64) []Row {
	reached := map[int]bool{0: true}
	for range towns {
		for j, r := range roads {
			if x[j] > 0.01 && reached[r[0]] != reached[r[1]] {
				reached[r[0]], reached[r[1]] = true, true
			}
		}
	}
	if len(reached) == towns {
		return nil
	}
	var out []Term
	for j, r := range roads {
		if reached[r[0]] != reached[r[1]] {
			out = append(out, Times(1, j))
		}
	}
	return []Row{AtLeast(2, out...)}
}

// shortestTrip is the same by dynamic programming over the set of towns seen and
// the last of them (M. Held and R. M. Karp, A dynamic programming approach to
// sequencing problems, Journal of the SIAM 10, 1962).
func shortestTrip(far roadMap) [2]int64 {
	n := len(far)
	long := func(a, b int) int64 { return far[a][b][0]*1_000 + far[a][b][1] }
	best := make([]map[int]int64, 1<<n)
	best[1] = map[int]int64{0: 0}
	for seen := 1; seen < 1<<n; seen += 2 {
		for at, length := range best[seen] {
			for to := 1; to < n; to++ {
				next := seen | 1<<to
				if next == seen {
					continue
				}
				if best[next] == nil {
					best[next] = map[int]int64{}
				}
				if old, ok := best[next][to]; !ok || length+long(at, to) < old {
					best[next][to] = length + long(at, to)
				}
			}
		}
	}
	shortest := int64(1) << 40
	for at, length := range best[1<<n-1] {
		shortest = min(shortest, length+long(at, 0))
	}
	return [2]int64{shortest / 1_000, shortest % 1_000}
}

func TestRoundTrips(t *testing.T) {
	maps := []roadMap{twoIslands()}
	for seed := range volume(20) {
		maps = append(maps, randomMap(rand.New(rand.NewPCG(seed, 20)), 7+int(seed%5)))
	}
	for i, far := range maps {
		got, err := Solve(context.Background(), roundTrip(far), Limits{})
		require.NoError(t, err)
		want := shortestTrip(far)
		for k, l := range got.Levels {
			require.Equal(t, -want[k], l.Value.Num().Int64(), "map %d, measure %d", i, k)
		}
	}
}

func TestRowsThatAreNotToldAreNotKept(t *testing.T) {
	m := roundTrip(twoIslands())
	m.Separate = nil
	got, err := Solve(context.Background(), m, Limits{})
	require.NoError(t, err)
	require.Equal(t, "-6", got.Levels[0].Value.RatString(), "one tour on each island")
}
