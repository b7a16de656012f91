package planner

import (
	"cmp"
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

// TestSpread reports, for every kind and both sizes, the median and the 99th
// percentile of processor time and the share proven of so many random problems. It
// asserts that every plan keeps the rules, never how long it took.
//
// TRENCHER_SPREAD says how many problems of each kind (a fiftieth of the large
// ones), and TRENCHER_SPREAD_FROM from which seed on. With TRENCHER_SPREAD_OUTSIDE
// the outsiders solve so many of the first of them too, in the same run; one that a
// question takes longer than ten seconds of processor time leaves it unfinished.
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
	outside, _ := strconv.Atoi(os.Getenv("TRENCHER_SPREAD_OUTSIDE"))
	sizes := []problemSize{tableSize}
	if asked || os.Getenv("TRENCHER_LONG") == "full" {
		sizes = append(sizes, largeSize)
	}
	for _, size := range sizes {
		if size == largeSize {
			problems, outside = max(4, problems/50), outside/50
		}
		for _, kind := range kindsOfProblems {
			t.Run(kind.name+" "+strconv.Itoa(size.dishes), func(t *testing.T) {
				report(t, "planner", spread(t, kind, size, from, problems))
				if outside > 0 {
					report(t, "planner, of these", spread(t, kind, size, from, outside))
				}
				for _, by := range outsiders {
					if _, err := exec.LookPath(by.program); err == nil && outside > 0 {
						report(t, by.name+", of these", spreadOutside(t, by, kind, size, from, outside))
					}
				}
			})
		}
	}
}

// A run is what one problem took.
type run struct {
	took   time.Duration // of processor time
	proven bool
}

func report(t *testing.T, who string, runs []run) {
	t.Helper()
	unproven := 0
	for _, r := range runs {
		if !r.proven {
			unproven++
		}
	}
	slices.SortFunc(runs, func(a, b run) int { return cmp.Compare(a.took, b.took) })
	n, ms := len(runs), func(r run) time.Duration { return r.took.Round(100 * time.Microsecond) }
	t.Logf("%s: %d problems, median %v, p99 %v, longest %v, %d not proven", who, n, ms(runs[n/2]), ms(runs[n*99/100]), ms(runs[n-1]), unproven)
}

func spread(t *testing.T, kind kindOfProblem, size problemSize, from, problems int) (runs []run) {
	for seed := from; seed < from+problems; seed++ {
		p := benchProblem(kind, size, seed)
		start := processorTime()
		plan, err := Solve(context.Background(), p)
		r := run{took: processorTime() - start}
		var stop *NotProvenError
		if errors.As(err, &stop) {
			plan = stop.Plan
		} else {
			r.proven = true
		}
		runs = append(runs, r)
		if os.Getenv("TRENCHER_SPREAD_SLOW") != "" && (r.took > 50*time.Millisecond || err != nil) {
			t.Logf("seed %d: %v, %d nodes, %d pivots, %v", seed, r.took, plan.Effort.Nodes, plan.Effort.Pivots, err)
		}
		requireSound(t, p, plan)
	}
	return runs
}

func spreadOutside(t *testing.T, by outsider, kind kindOfProblem, size problemSize, from, problems int) (runs []run) {
	for seed := from; seed < from+problems; seed++ {
		q := tell(t, benchProblem(kind, size, seed), by, 10)
		q.climb()
		runs = append(runs, run{q.took, !q.late})
	}
	return runs
}
