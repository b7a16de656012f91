package main

import (
	"bufio"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"
)

// A program is a package's tests, built, with many mutants in it of which none or
// one is asked for.
type program struct {
	trial   *trial
	dir     string
	mutants []mutant // mutant i is asked for as i+1
	refused []bool   // by the compiler
	tests   []mutationTest
}

// A mutationTest is one test function, run by itself.
type mutationTest struct {
	name  string
	took  time.Duration // of processor time
	heard []bool        // of which mutants it calls the functions
}

func (p *program) file() string { return filepath.Join(p.dir, "tests.exe") }

// build makes the program and hears which test calls what.
func (t *trial) build(ctx context.Context, mutants []mutant) (*program, error) {
	dir, err := os.MkdirTemp(t.scratch, "program")
	if err != nil {
		return nil, err
	}
	if err := os.Chmod(dir, 0o755); err != nil { // some tests go on as another user
		return nil, err
	}
	p := &program{trial: t, dir: dir, mutants: mutants, refused: make([]bool, len(mutants))}
	for again := true; again; {
		lines, err := p.overlay()
		if err != nil {
			return nil, err
		}
		told, err := t.compile(ctx, p.file(), p.dir)
		if err == nil {
			break
		}
		if again = p.refuse(string(told), lines); !again {
			return nil, fmt.Errorf("%s cannot be built: %w\n%s", t.pkg, err, told)
		}
	}
	if _, err := os.Stat(p.file()); err != nil {
		return nil, fmt.Errorf("%s has no tests", t.pkg)
	}
	return p, p.listen(ctx)
}

// overlay writes the files that stand in for those of the package, and the list
// that puts them there, so that the folder stays as it is.
func (p *program) overlay() (map[string]carried, error) {
	files := map[string]map[int]mutant{}
	for i, m := range p.mutants {
		if m.home == nil || p.refused[i] {
			continue
		}
		if files[m.file] == nil {
			files[m.file] = map[int]mutant{}
		}
		files[m.file][i+1] = m
	}
	replace, lines := map[string]string{}, map[string]carried{}
	for name, mutants := range files {
		place := filepath.Join(p.trial.root, filepath.FromSlash(name))
		lines[path.Base(name)] = carry(mutants)
		replace[place] = filepath.Join(p.dir, path.Base(name))
		if err := os.WriteFile(replace[place], []byte(lines[path.Base(name)].text), 0o600); err != nil {
			return nil, err
		}
		replace[filepath.Join(filepath.Dir(place), "mutant_switch.go")] = filepath.Join(p.dir, "mutant_switch.go")
		name := packageName.FindStringSubmatch(lines[path.Base(name)].text)[1]
		if err := os.WriteFile(filepath.Join(p.dir, "mutant_switch.go"), fmt.Appendf(nil, mutantSwitch, name), 0o600); err != nil {
			return nil, err
		}
	}
	return lines, writeOverlay(p.dir, replace)
}

func writeOverlay(dir string, replace map[string]string) error {
	list, err := json.Marshal(map[string]map[string]string{"Replace": replace})
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "overlay.json"), list, 0o600)
}

var packageName = regexp.MustCompile(`(?m)^package (\w+)`)

var refusedAt = regexp.MustCompile(`([\w.-]+\.go):(\d+)`)

// refuse finds the mutants in whose copies the compiler found fault, if any.
func (p *program) refuse(told string, lines map[string]carried) (any bool) {
	for _, at := range refusedAt.FindAllStringSubmatch(told, -1) {
		line, _ := strconv.Atoi(at[2]) // digits, by the pattern
		for number, stands := range lines[at[1]].lines {
			if stands[0] <= line && line <= stands[1] && !p.refused[number-1] {
				p.refused[number-1], any = true, true
			}
		}
	}
	return any
}

// compile builds the tests of the package, so that a fault that does not compile
// cannot pass for one that a test found.
func (t *trial) compile(ctx context.Context, file, overlay string) ([]byte, error) {
	build := exec.CommandContext(ctx, "go", "test", "-c", "-vet=off", "-ldflags=-s -w", "-gcflags=-e",
		"-o", file, "-overlay", filepath.Join(overlay, "overlay.json"), "./"+t.pkg)
	build.Dir = t.root
	return build.CombinedOutput()
}

// listen runs every test by itself as the source stands, to see that it passes,
// what it costs and which functions it calls.
func (p *program) listen(ctx context.Context) error {
	list := p.command(ctx, p.file(), time.Minute, "-test.list", "^(Test|Example|Fuzz)")
	told, err := list.CombinedOutput()
	if err != nil {
		return fmt.Errorf("the tests of %s cannot be listed: %w\n%s", p.trial.pkg, err, told)
	}
	heard := filepath.Join(p.dir, "heard")
	for name := range strings.Lines(string(told)) {
		test := mutationTest{name: strings.TrimSpace(name), heard: make([]bool, len(p.mutants))}
		if !strings.HasPrefix(test.name, "Test") && !strings.HasPrefix(test.name, "Example") && !strings.HasPrefix(test.name, "Fuzz") {
			continue
		}
		run := p.command(ctx, p.file(), 5*time.Minute, "-test.run", "^"+test.name+"$")
		run.Env = append(run.Env, "TRENCHER_MUTANTS_HEARD="+heard)
		if told, err := run.CombinedOutput(); err != nil {
			return fmt.Errorf("the tests of %s fail as the source stands: %w\n%s", p.trial.pkg, err, told)
		}
		test.took = processorTime(run)
		if err := test.hear(heard); err != nil {
			return err
		}
		p.tests = append(p.tests, test)
	}
	slices.SortStableFunc(p.tests, func(a, b mutationTest) int { return cmp.Compare(a.took, b.took) })
	return nil
}

func (t *mutationTest) hear(file string) error {
	heard, err := os.Open(file)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	for lines := bufio.NewScanner(heard); lines.Scan(); {
		number, err := strconv.Atoi(lines.Text())
		if err != nil {
			return err
		}
		t.heard[number-1] = true
	}
	return errors.Join(heard.Close(), os.Remove(file))
}

// judge runs the tests that call the mutant's function, the quickest first.
func (p *program) judge(ctx context.Context, i int) (fate, error) {
	if p.refused[i] {
		return notBuilt, nil
	}
	file := p.file()
	if p.mutants[i].home == nil {
		dir, err := p.alone(p.mutants[i])
		if err != nil {
			return notBuilt, err
		}
		defer func() { _ = os.RemoveAll(dir) }()
		file = filepath.Join(dir, "tests.exe")
		if _, err := p.trial.compile(ctx, file, dir); err != nil {
			return notBuilt, ctx.Err()
		}
	}
	became := unreached
	for _, some := range p.turns(i) {
		if became = p.try(ctx, file, i, some); became != lives {
			break
		}
	}
	return became, ctx.Err()
}

// alone writes the overlay of one mutant that no function carries.
func (p *program) alone(m mutant) (string, error) {
	dir, err := os.MkdirTemp(p.dir, "alone")
	if err != nil {
		return "", err
	}
	place := filepath.Join(p.trial.root, filepath.FromSlash(m.file))
	changed := filepath.Join(dir, "changed.go")
	text := m.source[:m.start] + m.with + m.source[m.end:]
	return dir, errors.Join(os.WriteFile(changed, []byte(text), 0o600), writeOverlay(dir, map[string]string{place: changed}))
}

// turns are the tests that may notice mutant i: those that cost next to nothing,
// those that cost little, and the rest.
func (p *program) turns(i int) (turns [][]mutationTest) {
	var sum time.Duration
	at := -1
	for _, test := range p.tests {
		if p.mutants[i].home != nil && !test.heard[i] {
			continue
		}
		sum += test.took
		turn := 0
		for _, most := range []time.Duration{300 * time.Millisecond, 2 * time.Second} {
			if sum > most {
				turn++
			}
		}
		if turn > at || len(turns) == 0 {
			turns, at = append(turns, nil), turn
		}
		turns[len(turns)-1] = append(turns[len(turns)-1], test)
	}
	return turns
}

// try runs some tests with one mutant asked for. They have ten times the processor
// time they need and two seconds: what a busy machine takes longer by the clock does
// not count.
func (p *program) try(ctx context.Context, file string, i int, tests []mutationTest) fate {
	var names []string
	var sum time.Duration
	for _, test := range tests {
		names, sum = append(names, test.name), sum+test.took
	}
	most := 2*time.Second + 10*sum
	run := p.command(ctx, file, most, "-test.failfast", "-test.run", "^("+strings.Join(names, "|")+")$")
	run.Env = append(run.Env, fmt.Sprintf("TRENCHER_MUTANT=%d", i+1))
	begun := time.Now()
	err := run.Run()
	switch {
	case err == nil:
		return lives
	case processorTime(run) >= most, time.Since(begun) >= wallTime(most):
		return timedOut
	}
	return killed
}

func processorTime(run *exec.Cmd) time.Duration {
	return run.ProcessState.UserTime() + run.ProcessState.SystemTime()
}

// wallTime is how long a run may take by the clock that needs so much processor
// time at most: one that waits for ever takes none.
func wallTime(most time.Duration) time.Duration { return time.Minute + 5*most }

// memory is the most a mutant may ask for, in KiB: one that appends without end
// must not take the machine with it.
const memory = "8388608"

// command is a program of tests, run where `go test` would run it.
func (p *program) command(ctx context.Context, file string, most time.Duration, args ...string) *exec.Cmd {
	args = append([]string{file, "-test.paniconexit0", "-test.timeout=" + wallTime(most).String()}, args...)
	if runtime.GOOS == "linux" {
		limits := fmt.Sprintf(`ulimit -v %s; ulimit -t %d; exec "$0" "$@"`, memory, int(most.Seconds())+1)
		args = append([]string{"sh", "-c", limits}, args...)
	}
	run := exec.CommandContext(ctx, args[0], args[1:]...)
	run.Dir = filepath.Join(p.trial.root, filepath.FromSlash(p.trial.pkg))
	run.Env = append(os.Environ(), "PWD="+run.Dir, "TMPDIR="+p.dir, "TRENCHER_MUTATE=", "TRENCHER_LIVE=", "TRENCHER_LONG=", "TRENCHER_BROWSER=none")
	run.WaitDelay = time.Second
	return run
}
