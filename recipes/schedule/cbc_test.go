package schedule_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/recipes/schedule"
)

var update = flag.Bool("update", false, "write testdata/schedule/cbc-answers.json anew, with cbc's answers")

const cbcAnswers = "../../testdata/schedule/cbc-answers.json"

// answered is a problem and what the least cost of it is.
type answered struct {
	Hands, Rings, Trays int
	Steps               []writtenStep
	Lags                []writtenLag
	Cost                schedule.Cost
}

// writtenStep is a step in a line of the committed file; lengths in minutes.
type writtenStep struct {
	ID      string   `json:"id"`
	Length  int      `json:"minutes"`
	Hands   int      `json:"hands,omitempty"`
	Ring    int      `json:"ring,omitempty"`
	Tray    int      `json:"tray,omitempty"`
	Steamer bool     `json:"steamer,omitempty"`
	After   []string `json:"after,omitempty"`
	AtOnce  string   `json:"at_once,omitempty"`
	Beside  string   `json:"beside,omitempty"`
	Offset  int      `json:"offset,omitempty"`
}

type writtenLag struct {
	Step string `json:"step"`
	Most int    `json:"most,omitempty"`
	Goal int    `json:"goal"` // 0 clock, 1 hot, 2 warm
}

func written(p schedule.Problem) answered {
	a := answered{Hands: p.Have.Hands, Rings: p.Have.Rings, Trays: p.Have.Trays}
	for _, s := range p.Steps {
		a.Steps = append(a.Steps, writtenStep{s.ID, int(s.Length.Minutes()), s.Hands, s.Ring, s.Tray, s.Steamer, s.After, s.AtOnce, s.Beside, int(s.Offset.Minutes())})
	}
	for _, l := range p.Lags {
		a.Lags = append(a.Lags, writtenLag{l.Step, int(l.Most.Minutes()), int(l.Goal)})
	}
	return a
}

func (a answered) problem() schedule.Problem {
	p := schedule.Problem{Serve: supper, Have: schedule.Have{Hands: a.Hands, Rings: a.Rings, Trays: a.Trays}}
	for _, s := range a.Steps {
		p.Steps = append(p.Steps, schedule.Step{ID: s.ID, Length: minutes(s.Length), Hands: s.Hands, Ring: s.Ring, Tray: s.Tray,
			Steamer: s.Steamer, After: s.After, AtOnce: s.AtOnce, Beside: s.Beside, Offset: minutes(s.Offset)})
	}
	for _, l := range a.Lags {
		p.Lags = append(p.Lags, schedule.Lag{Step: l.Step, Most: minutes(l.Most), Goal: schedule.Goal(l.Goal)})
	}
	return p
}

// cbcProblem is a random problem: any few steps, or a short evening of two or
// three fillings with two tiers, its minutes coarse so that a solver that counts
// every minute can do it.
func cbcProblem(seed int) schedule.Problem {
	random := rand.New(rand.NewPCG(uint64(seed), 91))
	if seed%2 == 0 {
		return randomSmall(random, 6)
	}
	p := schedule.Problem{Serve: supper, Have: schedule.Have{Hands: 1 + random.IntN(2), Rings: 1 + random.IntN(2), Trays: random.IntN(2)}}
	for d := range 2 + random.IntN(2) {
		id := func(what string) string { return fmt.Sprint(what, d) }
		steams := 4 + random.IntN(3)
		p.Steps = append(p.Steps, step(id("peel"), 1+random.IntN(3), hands(1)), step(id("load"), 1, inSteamer, hands(1), after(id("peel"))),
			step(id("steam"), steams, inSteamer, atOnce(id("load"))), step(id("out"), 1, inSteamer, hands(1), atOnce(id("steam"))))
		if random.IntN(2) == 0 {
			p.Steps = append(p.Steps, step(id("upper"), steams-2, inSteamer, beside(id("steam"), 2)), step(id("in"), 1, hands(1), beside(id("steam"), 1)))
		}
		switch random.IntN(3) {
		case 0:
			p.Steps = append(p.Steps, step(id("finish"), 2, hands(1), after(id("out"))))
			p.Lags = append(p.Lags, hot(id("steam")), clock(id("steam"), 8))
		case 1:
			p.Steps = append(p.Steps, step(id("cool"), 4, onTray, atOnce(id("out"))), step(id("dress"), 2, hands(1), after(id("cool"))))
		default:
			p.Steps = append(p.Steps, step(id("milk"), 2, onRing, hands(1)), step(id("finish"), 1, hands(1), after(id("out"), id("milk"))))
			p.Lags = append(p.Lags, schedule.Lag{Step: id("steam"), Goal: schedule.WarmWaits, Most: minutes(3)})
		}
	}
	return p
}

// Fifty problems with the answers cbc 2.10 gave, so that nothing needs to be
// installed; -update asks it again.
func TestSolveAgreesWithCBC(t *testing.T) {
	if *update {
		var all []answered
		for seed := range 50 {
			p := cbcProblem(seed)
			a := written(p)
			a.Cost = askCBC(t, p)
			all = append(all, a)
		}
		var text bytes.Buffer
		text.WriteString("[\n")
		for i, a := range all {
			line, err := json.Marshal(a)
			require.NoError(t, err)
			text.Write(line)
			text.WriteString(map[bool]string{true: ",\n", false: "\n"}[i+1 < len(all)])
		}
		text.WriteString("]\n")
		require.NoError(t, os.MkdirAll(filepath.Dir(cbcAnswers), 0o755))
		require.NoError(t, os.WriteFile(cbcAnswers, text.Bytes(), 0o644))
	}
	data, err := os.ReadFile(cbcAnswers)
	require.NoError(t, err)
	var all []answered
	require.NoError(t, json.Unmarshal(data, &all))
	require.Len(t, all, 50)
	seen := map[schedule.Cost]bool{}
	for i, a := range all {
		p := a.problem()
		got, err := schedule.Solve(t.Context(), p)
		require.NoError(t, err)
		require.True(t, got.Proven, "problem %d", i)
		require.Equal(t, a.Cost, got.Cost, "problem %d", i)
		requireSound(t, p, got)
		seen[got.Cost] = true
	}
	require.Greater(t, len(seen), 25, "problems of many kinds")
}

// The COIN-OR branch and cut solver (cbc), a general-purpose one, on fresh
// problems in a formulation of its own: a whole-number variable for every step
// and every minute it could begin at.
func TestSolveAgreesWithCBCLive(t *testing.T) {
	if os.Getenv("TRENCHER_LIVE") == "" {
		t.Skip("TRENCHER_LIVE=1 asks it; what it answered is testdata/schedule/cbc-answers.json")
	}
	for seed := range 50 {
		p := cbcProblem(1000 + seed)
		got, err := schedule.Solve(t.Context(), p)
		require.NoError(t, err)
		require.Equal(t, askCBC(t, p), got.Cost, "problem %d: %+v", seed, p)
	}
}

// askCBC has cbc settle goal after goal.
func askCBC(t *testing.T, p schedule.Problem) schedule.Cost {
	t.Helper()
	program := newTimeIndexed(p)
	var least []int
	for _, goal := range []string{"over", "hot", "warm", "length"} {
		value := cbc(t, program.text(goal))
		least = append(least, value)
		program.rows = append(program.rows, fmt.Sprintf("%s <= %d", goal, value))
	}
	return schedule.Cost{Over: least[0], Hot: least[1], Warm: least[2], Length: least[3]}
}

var objective = regexp.MustCompile(`^Optimal - objective value +(\d+)\.0+\n`)

func cbc(t *testing.T, program string) int {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.lp"), filepath.Join(dir, "out.txt")
	require.NoError(t, os.WriteFile(in, []byte(program), 0o644))
	said, err := exec.CommandContext(t.Context(), "cbc", in, "solve", "solution", out).CombinedOutput()
	require.NoError(t, err, "%s", said)
	answer, err := os.ReadFile(out)
	require.NoError(t, err)
	found := objective.FindSubmatch(answer)
	require.NotNil(t, found, "%s\n%.300s", said, answer)
	value, err := strconv.Atoi(string(found[1]))
	require.NoError(t, err)
	return value
}

// timeIndexed is a problem as rows over the variables "block k begins b minutes
// before serving", a block being the steps that are tied to each other.
type timeIndexed struct {
	schedule.Problem
	horizon  int
	block    []string       // of each step, the step that leads it
	after    []int          // of each step, minutes after its block has begun
	least    map[string]int // of each block, how long it takes
	rows     []string
	binaries []string
}

func newTimeIndexed(p schedule.Problem) *timeIndexed {
	m := &timeIndexed{Problem: p, least: map[string]int{}}
	for i, s := range p.Steps {
		m.horizon += int((s.Length + s.Offset).Minutes())
		m.block, m.after = append(m.block, leader(p, i)), append(m.after, m.afterLeader(i))
		m.least[m.block[i]] = max(m.least[m.block[i]], m.after[i]+m.length(i))
	}
	for i, s := range p.Steps {
		if m.block[i] == s.ID {
			terms := m.terms(i, 0, m.horizon)
			m.binaries = append(m.binaries, terms...)
			m.row("%s = 1", strings.Join(terms, " + "))
		}
		m.row("length - %s >= %d", strings.Join(m.weighted(i), " - "), -m.after[i])
	}
	m.precedences()
	for minute := 1; minute <= m.horizon; minute++ {
		m.capacities(minute)
	}
	m.lags()
	return m
}

func (m *timeIndexed) length(i int) int { return int(m.Steps[i].Length.Minutes()) }

func (m *timeIndexed) index(id string) int {
	return slices.IndexFunc(m.Steps, func(s schedule.Step) bool { return s.ID == id })
}

func (m *timeIndexed) afterLeader(i int) int {
	switch s := m.Steps[i]; {
	case s.AtOnce != "":
		lead := m.index(s.AtOnce)
		return m.afterLeader(lead) + m.length(lead)
	case s.Beside != "":
		return m.afterLeader(m.index(s.Beside)) + int(s.Offset.Minutes())
	}
	return 0
}

func (m *timeIndexed) row(format string, values ...any) {
	m.rows = append(m.rows, fmt.Sprintf(format, values...))
}

// terms are the beginnings of a step's block with which the step begins that
// many minutes before serving, from the fewest to the most.
func (m *timeIndexed) terms(i, fewest, most int) (terms []string) {
	for b := max(m.least[m.block[i]], fewest+m.after[i]); b <= min(m.horizon, most+m.after[i]); b++ {
		terms = append(terms, fmt.Sprintf("%s_%d", m.block[i], b))
	}
	return terms
}

// weighted are the terms whose sum is how long before serving a step's block
// begins.
func (m *timeIndexed) weighted(i int) (terms []string) {
	for b := m.least[m.block[i]]; b <= m.horizon; b++ {
		terms = append(terms, fmt.Sprintf("%d %s_%d", b, m.block[i], b))
	}
	return terms
}

func (m *timeIndexed) precedences() {
	for i, s := range m.Steps {
		for _, id := range s.After {
			if before := m.index(id); m.block[before] != m.block[i] {
				m.row("%s - %s >= %d", strings.Join(m.weighted(before), " + "), strings.Join(m.weighted(i), " - "),
					m.length(before)+m.after[before]-m.after[i])
			}
		}
	}
}

// capacities say what is kept busy in the minute that begins so many before
// serving. What is tied to each other shares steamer and ring, and its pan stays
// on the ring from its first use to its last.
func (m *timeIndexed) capacities(minute int) {
	var people, trays, pans, rings []string
	first, last := map[string]int{}, map[string]int{}
	for i, s := range m.Steps {
		for _, term := range m.terms(i, minute, minute+m.length(i)-1) {
			if s.Hands > 0 {
				people = append(people, fmt.Sprintf("%d %s", s.Hands, term))
			}
			if s.Tray > 0 {
				trays = append(trays, fmt.Sprintf("%d %s", s.Tray, term))
			}
			if s.Steamer && !slices.Contains(pans, term) {
				pans = append(pans, term)
			}
		}
		if s.Ring > 0 {
			if from, known := first[m.block[i]]; !known || m.after[i] < from {
				first[m.block[i]] = m.after[i]
			}
			last[m.block[i]] = max(last[m.block[i]], m.after[i]+m.length(i))
		}
	}
	for block, from := range first {
		rings = append(rings, m.terms(m.index(block), minute+from, minute+last[block]-1)...)
	}
	slices.Sort(rings)
	for _, c := range []struct {
		terms []string
		most  int
	}{{people, max(1, m.Have.Hands)}, {trays, m.Have.Trays}, {pans, 1}, {rings, max(1, m.Have.Rings)}} {
		if len(c.terms) > 0 && c.most > 0 {
			m.row("%s <= %d", strings.Join(added(c.terms), " + "), c.most)
		}
	}
}

// added puts terms of one variable together.
func added(terms []string) (sums []string) {
	by := map[string]int{}
	for _, term := range terms {
		amount, name, weighted := strings.Cut(term, " ")
		if !weighted {
			amount, name = "1", term
		}
		n, _ := strconv.Atoi(amount)
		by[name] += n
	}
	for _, name := range slices.Sorted(maps.Keys(by)) {
		sums = append(sums, fmt.Sprintf("%d %s", by[name], name))
	}
	return sums
}

func (m *timeIndexed) lags() {
	names := []string{"over", "hot", "warm"}
	sums := map[string][]string{}
	for n, lag := range m.Lags {
		i, name := m.index(lag.Step), fmt.Sprint("lag", n)
		m.row("%s - %s >= %d", name, strings.Join(m.weighted(i), " - "), -m.after[i]-m.length(i)-int(lag.Most.Minutes()))
		sums[names[lag.Goal]] = append(sums[names[lag.Goal]], name)
	}
	for _, goal := range names {
		if len(sums[goal]) == 0 {
			m.row("%s = 0", goal)
			continue
		}
		m.row("%s - %s = 0", goal, strings.Join(sums[goal], " - "))
	}
}

// text is the program in the CPLEX LP format, for one goal.
func (m *timeIndexed) text(goal string) string {
	var text strings.Builder
	fmt.Fprintf(&text, "Minimize\n obj: %s\nSubject To\n", goal)
	for i, row := range m.rows {
		fmt.Fprintf(&text, " r%d: %s\n", i, strings.ReplaceAll(row, " + ", "\n + "))
	}
	fmt.Fprintf(&text, "Binary\n %s\nEnd\n", strings.Join(m.binaries, "\n "))
	return text.String()
}
