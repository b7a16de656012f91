package planner

import (
	"context"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

var (
	tableSize = randomSize{dishes: 12, lots: 8, crops: 3, guests: 60, table: true}
	shareSize = randomSize{dishes: 40, lots: 24, crops: 12, portions: 300}
)

func benchProblem(size randomSize, seed int) Problem {
	return randomProblem(rand.New(rand.NewPCG(uint64(seed), 12)), size)
}

// BenchmarkTable is one solve of 12 dishes, 8 lots and 60 guests.
func BenchmarkTable(b *testing.B) { benchmark(b, tableSize) }

// BenchmarkShare is one solve of 40 dishes, 12 crops and some 300 portions.
func BenchmarkShare(b *testing.B) { benchmark(b, shareSize) }

func benchmark(b *testing.B, size randomSize) {
	seed := 0
	for b.Loop() {
		if _, err := Solve(context.Background(), benchProblem(size, seed%1000)); err != nil && err != ErrNothingFits {
			b.Fatal(seed, err)
		}
		seed++
	}
}

// TestSpread reports the median and the 99th percentile of 1,000 random
// problems of each kind; it asserts only that they are solved.
func TestSpread(t *testing.T) {
	if os.Getenv("TRENCHER_LONG") == "" {
		t.Skip("long: set TRENCHER_LONG=1")
	}
	for name, size := range map[string]randomSize{"table": tableSize, "share": shareSize} {
		t.Run(name, func(t *testing.T) {
			var took []time.Duration
			nodes := 0
			worst := 0
			for seed := range 1000 {
				p := benchProblem(size, seed)
				start := time.Now()
				plan, err := Solve(context.Background(), p)
				d := time.Since(start)
				took = append(took, d)
				if err != ErrNothingFits {
					require.NoError(t, err, "seed %d", seed)
				}
				nodes += plan.Effort.Nodes
				if d > took[worst] {
					worst = seed
				}
			}
			t.Logf("worst seed %d", worst)
			slices.Sort(took)
			t.Logf("median %v, p99 %v, most %v, nodes %d", took[500], took[990], took[999], nodes/1000)
		})
	}
}
