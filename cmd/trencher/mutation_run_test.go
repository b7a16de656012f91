package main

import (
	"context"
	"fmt"
	"math/rand/v2"
	"sync"
	"time"
)

// A fate is what became of a mutant.
type fate int

const (
	notBuilt  fate = iota // the compiler refuses it: it counts for nothing
	killed                // a test failed
	timedOut              // the tests did not end: counted as killed
	lives                 // every test that calls its function passed
	unreached             // no test calls its function: counted as living
)

// A trial runs the tests of one package against its mutants. Only the package's
// own tests count: a fault should be told where it is.
type trial struct {
	root    string // of the module
	pkg     string // "recipes/heat"
	atOnce  int    // mutants tried side by side
	scratch string // folder for what is built
}

// A mutationTally is what became of the mutants of one package.
type mutationTally struct {
	pkg                                    string
	all, tried, killed, timedOut, notBuilt int
	survivors                              []survivor
	took                                   time.Duration
}

// A survivor is a mutant that no test noticed; reached says whether any came by.
type survivor struct {
	mutant
	reached bool
}

// share is the killed part of all that were tried, in percent.
func (t mutationTally) share() float64 {
	if t.tried == 0 {
		return 100
	}
	return 100 * float64(t.killed) / float64(t.tried)
}

// sampled gives all in an order that only the seed decides.
func sampled(all []mutant, seed uint64) []mutant {
	shuffled := append([]mutant(nil), all...)
	rand.New(rand.NewPCG(seed, 0)).Shuffle(len(shuffled), func(i, j int) {
		shuffled[i], shuffled[j] = shuffled[j], shuffled[i]
	})
	return shuffled
}

// carriedAtOnce is how many mutants one program carries at most.
const carriedAtOnce = 300

// run tries mutants in their order until as many as wanted have been built. Some
// more than are wanted are built, since a few are always refused; which are
// counted does not depend on who is quickest.
func (t *trial) run(ctx context.Context, all []mutant, want int) (mutationTally, error) {
	begun := time.Now()
	tally := mutationTally{pkg: t.pkg, all: len(all)}
	for left := all; len(left) > 0 && tally.tried < want; {
		wanted := min(want-tally.tried, len(left))
		batch := left[:min(len(left), wanted+wanted/8+1, carriedAtOnce)]
		left = left[len(batch):]
		program, err := t.build(ctx, batch)
		if err != nil {
			return tally, err
		}
		fates, err := t.batch(ctx, program, wanted)
		if err != nil {
			return tally, err
		}
		for i, fate := range fates {
			tally.count(batch[i], fate)
		}
	}
	if tally.tried == 0 && len(all) > 0 {
		return tally, fmt.Errorf("none of %d mutants of %s could be built", tally.notBuilt, t.pkg)
	}
	tally.took = time.Since(begun)
	return tally, nil
}

func (t *mutationTally) count(m mutant, became fate) {
	if became == notBuilt {
		t.notBuilt++
		return
	}
	t.tried++
	switch became {
	case lives, unreached:
		t.survivors = append(t.survivors, survivor{m, became == lives})
	case timedOut:
		t.timedOut++
		t.killed++
	default:
		t.killed++
	}
}

// batch judges the program's mutants in their order, up to as many built ones as
// are wanted. Those in declarations of values have to be built each by itself,
// and may be refused then.
func (t *trial) batch(ctx context.Context, p *program, want int) ([]fate, error) {
	var fates []fate
	for next := 0; next < len(p.mutants) && want > 0; {
		until, some := next, 0
		for until < len(p.mutants) && some < want {
			if !p.refused[until] {
				some++
			}
			until++
		}
		judged, err := t.judgeAll(ctx, p, next, until)
		if err != nil {
			return nil, err
		}
		for _, fate := range judged {
			if fate != notBuilt {
				want--
			}
		}
		fates, next = append(fates, judged...), until
	}
	return fates, nil
}

func (t *trial) judgeAll(ctx context.Context, p *program, from, until int) ([]fate, error) {
	fates, faults := make([]fate, until-from), make([]error, until-from)
	places := make(chan struct{}, t.atOnce)
	var all sync.WaitGroup
	for i := range fates {
		places <- struct{}{}
		all.Go(func() {
			defer func() { <-places }()
			fates[i], faults[i] = p.judge(ctx, from+i)
		})
	}
	all.Wait()
	for _, fault := range faults {
		if fault != nil {
			return nil, fault
		}
	}
	return fates, nil
}
