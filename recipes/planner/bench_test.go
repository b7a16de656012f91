package planner

import (
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"testing"
	"time"
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
		p := benchProblem(size, seed%1000)
		p.NodeLimit = patience
		_, err := Solve(context.Background(), p)
		var stop *NotProvenError
		if err != nil && !errors.Is(err, ErrNothingFits) && !errors.As(err, &stop) {
			b.Fatal(seed, err)
		}
		seed++
	}
}

// TestSpread reports the median and the 99th percentile of 1,000 random problems
// of each kind, and what glpsol takes for the first of them, in one run. It
// asserts that every plan keeps the rules, never how long it took.
func TestSpread(t *testing.T) {
	if os.Getenv("TRENCHER_LONG") == "" {
		t.Skip("long: set TRENCHER_LONG=1")
	}
	for _, c := range []struct {
		name string
		size randomSize
	}{
		{"12 dishes, 8 lots, 60 guests", tableSize},
		{"40 dishes, 12 crops, 300 portions", shareSize},
	} {
		t.Run(c.name, func(t *testing.T) {
			took, unproven := spread(t, c.size, 1000)
			slices.Sort(took)
			n := len(took)
			t.Logf("median %v, p99 %v, longest %v; %d of %d not proven within %d nodes",
				took[n/2], took[n*99/100], took[n-1], unproven, n, patience)
			compare(t, c.size, 5)
		})
	}
}

// patience is the node limit of the timings.
const patience = 5_000

func spread(t *testing.T, size randomSize, problems int) (took []time.Duration, unproven int) {
	for seed := range problems {
		p := benchProblem(size, seed)
		p.NodeLimit = patience
		start := time.Now()
		plan, err := Solve(context.Background(), p)
		took = append(took, time.Since(start))
		var stop *NotProvenError
		if errors.As(err, &stop) {
			unproven++
			plan = stop.Plan
		}
		requireSound(t, p, plan)
	}
	return took, unproven
}

// compare times Solve and glpsol on the same problems; glpsol is stopped after
// two seconds a question and then counts as unfinished.
func compare(t *testing.T, size randomSize, problems int) {
	if _, err := exec.LookPath("glpsol"); err != nil {
		t.Log("glpsol is not installed: no comparison")
		return
	}
	var ours, theirs time.Duration
	unfinished := 0
	for seed := range problems {
		p := benchProblem(size, seed)
		p.NodeLimit = patience
		start := time.Now()
		_, _ = Solve(context.Background(), p)
		ours += time.Since(start)
		start = time.Now()
		if !finishedByGLPK(t, p) {
			unfinished++
		}
		theirs += time.Since(start)
	}
	t.Logf("the first %d: planner %v, glpsol %v with %d unfinished", problems, ours, theirs, unfinished)
}

// finishedByGLPK takes the problem through glpsol's levels for its time alone.
func finishedByGLPK(t *testing.T, p Problem) bool {
	g := &glpk{t: t, p: p, limit: 2}
	g.answer()
	return !g.late
}
