package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"sync"
	"time"
)

// A fate is what became of a mutant.
type fate int

const (
	notBuilt fate = iota // the compiler refuses it: it counts for nothing
	killed               // a test failed
	timedOut             // the tests did not end: counted as killed
	lives                // every test passed
)

// A trial runs the tests of one package against its mutants. Only the package's
// own tests count: a fault should be told where it is.
type trial struct {
	root    string // of the module
	pkg     string // "recipes/heat"
	atOnce  int    // mutants tried side by side
	scratch string // folder for what is built
	limit   time.Duration
}

// A tally is what became of the mutants of one package.
type mutationTally struct {
	pkg                               string
	tried, killed, timedOut, notBuilt int
	survivors                         []mutant
	took                              time.Duration
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

// run tries mutants in their order until as many as wanted have been built. It
// goes in batches, so that which are counted does not depend on who is quickest.
func (t *trial) run(ctx context.Context, all []mutant, want int) (mutationTally, error) {
	begun := time.Now()
	tally := mutationTally{pkg: t.pkg}
	if err := t.cleanRun(ctx); err != nil {
		return tally, err
	}
	for left := all; len(left) > 0 && tally.tried < want; {
		batch := left[:min(len(left), want-tally.tried)]
		left = left[len(batch):]
		fates, err := t.batch(ctx, batch)
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
	case lives:
		t.survivors = append(t.survivors, m)
	case timedOut:
		t.timedOut++
		t.killed++
	default:
		t.killed++
	}
}

func (t *trial) batch(ctx context.Context, batch []mutant) ([]fate, error) {
	fates, faults := make([]fate, len(batch)), make([]error, len(batch))
	places := make(chan struct{}, t.atOnce)
	var all sync.WaitGroup
	for i, m := range batch {
		places <- struct{}{}
		all.Go(func() {
			defer func() { <-places }()
			fates[i], faults[i] = t.judge(ctx, m)
		})
	}
	all.Wait()
	return fates, errors.Join(faults...)
}

// cleanRun sees that the tests pass as the source stands, and how long they
// take: a mutant has five times that and at least 10 s, so that a machine busy
// with other things seldom passes for a loop without end.
func (t *trial) cleanRun(ctx context.Context) error {
	program := filepath.Join(t.scratch, "clean.exe")
	built, err := t.build(ctx, program)
	if err != nil {
		return fmt.Errorf("%s cannot be built: %w\n%s", t.pkg, err, built)
	}
	if _, err := os.Stat(program); err != nil {
		return fmt.Errorf("%s has no tests", t.pkg)
	}
	defer func() { _ = os.Remove(program) }()
	begun := time.Now()
	t.limit = 10 * time.Minute
	if told, err := t.command(ctx, program).CombinedOutput(); err != nil {
		return fmt.Errorf("the tests of %s fail as the source stands: %w\n%s", t.pkg, err, told)
	}
	t.limit = max(10*time.Second, 5*time.Since(begun))
	return nil
}

// judge builds the package's tests with one mutant in it and runs them.
func (t *trial) judge(ctx context.Context, m mutant) (fate, error) {
	dir, err := os.MkdirTemp(t.scratch, "mutant")
	if err != nil {
		return notBuilt, err
	}
	defer func() { _ = os.RemoveAll(dir) }()
	overlay, err := t.overlay(dir, m)
	if err != nil {
		return notBuilt, err
	}
	program := filepath.Join(dir, "tests.exe")
	if _, err := t.build(ctx, program, "-overlay", overlay); err != nil {
		return notBuilt, ctx.Err()
	}
	begun := time.Now()
	err = t.command(ctx, program).Run()
	switch {
	case ctx.Err() != nil:
		return notBuilt, ctx.Err()
	case err == nil:
		return lives, nil
	case time.Since(begun) >= t.limit:
		return timedOut, nil
	}
	return killed, nil
}

// overlay writes the changed file and the list that puts it in the place of the
// one in the folder, which stays as it is.
func (t *trial) overlay(dir string, m mutant) (string, error) {
	place := filepath.Join(t.root, filepath.FromSlash(m.file))
	source, err := os.ReadFile(place)
	if err != nil {
		return "", err
	}
	changed := filepath.Join(dir, "changed.go")
	text := string(source[:m.start]) + m.with + string(source[m.end:])
	if err := os.WriteFile(changed, []byte(text), 0o600); err != nil {
		return "", err
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": {place: changed}})
	if err != nil {
		return "", err
	}
	file := filepath.Join(dir, "overlay.json")
	return file, os.WriteFile(file, list, 0o600)
}

// build compiles the tests of the package into a program, so that a fault that
// does not compile cannot pass for one that a test found.
func (t *trial) build(ctx context.Context, program string, flags ...string) ([]byte, error) {
	args := append([]string{"test", "-c", "-vet=off", "-ldflags=-s -w", "-o", program}, flags...)
	build := exec.CommandContext(ctx, "go", append(args, "./"+t.pkg)...)
	build.Dir = t.root
	return build.CombinedOutput()
}

// memory is the most a mutant may ask for, in KiB: one that appends without end
// must not take the machine with it.
const memory = "8388608"

// command is the program of tests, run where `go test` would run it.
func (t *trial) command(ctx context.Context, program string) *exec.Cmd {
	args := []string{program, "-test.failfast", "-test.paniconexit0", "-test.timeout=" + t.limit.String()}
	if runtime.GOOS == "linux" {
		args = append([]string{"sh", "-c", "ulimit -v " + memory + `; exec "$0" "$@"`}, args...)
	}
	run := exec.CommandContext(ctx, args[0], args[1:]...)
	run.Dir = filepath.Join(t.root, filepath.FromSlash(t.pkg))
	run.Env = append(os.Environ(), "PWD="+run.Dir, "TRENCHER_MUTATE=")
	run.WaitDelay = time.Second
	return run
}
