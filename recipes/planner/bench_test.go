package planner

import (
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"testing"
	"time"
)

// The two sizes that the planner has targets for: a barbecue's and a village's.
var (
	tableSize = problemSize{dishes: 12, lots: 8, crops: 3, guests: 60}
	largeSize = problemSize{dishes: 40, lots: 12, crops: 4, guests: 300}
)

// benchProblem is a problem of a kind and size; seeds from 0 to 999 are those
// that are reported, and are not used for tuning.
func benchProblem(kind kindOfProblem, size problemSize, seed int) Problem {
	return kind.draw(rand.New(rand.NewPCG(uint64(seed), 12)), size)
}

// BenchmarkTable is one solve of 12 dishes, 8 lots and 60 guests, of each kind by
// turns.
func BenchmarkTable(b *testing.B) { benchmark(b, tableSize) }

// BenchmarkShare is one solve of 40 dishes, 12 lots and 300 guests or portions.
func BenchmarkShare(b *testing.B) { benchmark(b, largeSize) }

func benchmark(b *testing.B, size problemSize) {
	seed := 0
	for b.Loop() {
		kind := kindsOfProblems[seed%len(kindsOfProblems)]
		_, err := Solve(context.Background(), benchProblem(kind, size, 5000+seed%1000))
		var stop *NotProvenError
		if err != nil && !errors.Is(err, ErrNothingFits) && !errors.As(err, &stop) {
			b.Fatal(seed, err)
		}
		seed++
	}
}

// TestSpread reports, for every kind and both sizes, the median, the 99th
// percentile (of processor time) and the share proven of so many random problems.
// It asserts that every plan keeps the rules, never how long it took.
// TRENCHER_SPREAD says how many problems of each (1,000 for the figures of the
// guide); then it also tells what the outsiders take for the first of them (on
// the clock), in the same run.
func TestSpread(t *testing.T) {
	problems, err := strconv.Atoi(os.Getenv("TRENCHER_SPREAD"))
	asked := err == nil
	if !asked {
		if os.Getenv("TRENCHER_LONG") == "" {
			t.Skip("long: set TRENCHER_LONG=1, or TRENCHER_SPREAD to a number of problems")
		}
		problems = 20
	}
	from, _ := strconv.Atoi(os.Getenv("TRENCHER_SPREAD_FROM"))
	sizes := []problemSize{tableSize}
	if asked || os.Getenv("TRENCHER_LONG") == "full" {
		sizes = append(sizes, largeSize)
	}
	for _, size := range sizes {
		if size == largeSize {
			problems = max(4, problems/50)
		}
		for _, kind := range kindsOfProblems {
			t.Run(kind.name+" "+strconv.Itoa(size.dishes), func(t *testing.T) {
				took, unproven := spread(t, kind, size, from, problems)
				slices.Sort(took)
				n := len(took)
				t.Logf("median %v, p99 %v, longest %v; %d of %d not proven", took[n/2], took[n*99/100], took[n-1], unproven, n)
				if asked { // minutes of the outsiders' time
					compare(t, kind, size, 2)
				}
			})
		}
	}
}

func spread(t *testing.T, kind kindOfProblem, size problemSize, from, problems int) (took []time.Duration, unproven int) {
	for seed := from; seed < from+problems; seed++ {
		p := benchProblem(kind, size, seed)
		start := processorTime()
		plan, err := Solve(context.Background(), p)
		length := processorTime() - start
		took = append(took, length)
		var stop *NotProvenError
		if errors.As(err, &stop) {
			unproven++
			plan = stop.Plan
		}
		if os.Getenv("TRENCHER_SPREAD_SLOW") != "" && (length > 50*time.Millisecond || err != nil) {
			t.Logf("seed %d: %v, %d nodes, %d pivots, %v", seed, length, plan.Effort.Nodes, plan.Effort.Pivots, err)
		}
		requireSound(t, p, plan)
	}
	return took, unproven
}

// compare times Solve and the outsiders on the same problems; an outsider is
// stopped after two seconds a question and then counts as unfinished.
func compare(t *testing.T, kind kindOfProblem, size problemSize, problems int) {
	var ours time.Duration
	for seed := range problems {
		p, start := benchProblem(kind, size, seed), processorTime()
		_, _ = Solve(context.Background(), p)
		ours += processorTime() - start
	}
	for _, by := range outsiders {
		if _, err := exec.LookPath(by.program); err != nil {
			t.Logf("%s is not installed: no comparison", by.program)
			continue
		}
		unfinished := 0
		start := time.Now()
		for seed := range problems {
			if _, late := answerOf(t, benchProblem(kind, size, seed), by, 2); late {
				unfinished++
			}
		}
		t.Logf("the first %d: planner %v, %s %v with %d unfinished", problems, ours, by.name, time.Since(start), unfinished)
	}
}
