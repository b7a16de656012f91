package integer

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math/big"
	"math/rand/v2"
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write testdata/work.json anew: what the search does on its problems")

// A record is what one search came to and what it took, as testdata/work.json
// holds it.
type record struct {
	Problem string   `json:"problem"`
	X       []int64  `json:"x,omitempty"`
	Levels  []string `json:"levels,omitempty"` // value, and where it is not proven "of" the bound
	Error   string   `json:"error,omitempty"`
	Work    work     `json:"work"`
}

// Work is what a search did, in the words of [Solution] and [tally].
type work struct {
	Nodes   int          `json:"nodes"`
	Pivots  int          `json:"pivots"`
	Asked   int          `json:"asked"`
	Probed  int          `json:"probed"`
	Drawn   int          `json:"drawn"`
	Written int          `json:"written"`
	Listed  int          `json:"listed"`
	Afresh  int          `json:"afresh"`
	Judged  int          `json:"judged"`
	Found   [sources]int `json:"found"` // rounded to the nearest, downwards, with all columns fixed, bettered by one column
}

func recordOf(name string, m Model, limits Limits, p patience) record {
	got, err := m.solve(context.Background(), limits, p)
	r := record{Problem: name, X: got.X, Work: work{got.Nodes, got.Pivots, got.did.asked, got.did.probed, got.did.drawn, got.did.written, got.did.listed, got.did.afresh, got.did.judged, got.did.found}}
	for _, l := range got.Levels {
		told := l.Value.RatString()
		switch {
		case !l.Proven && l.Bound == nil:
			told += " of nobody knows"
		case !l.Proven:
			told += " of " + l.Bound.RatString()
		}
		r.Levels = append(r.Levels, told)
	}
	if err != nil {
		r.Error = err.Error()
	}
	return r
}

const workFile = "testdata/work.json"

// What the search does on some problems of every kind, to the last pivot: most
// faults in how it branches, rounds, cuts, draws in and lists leave every answer
// right and only change the work. After a change that is meant, -run What -update writes the
// file anew: read in its difference whether the search works less or more.
//
// On amd64 and 386 every figure has to be the same. Elsewhere the compiler may fuse
// a product and a sum, so that the relaxation's points differ in their last bits: a
// search may then go another way to the same levels, with at most three times the
// work told and fifty steps.
func TestWorkIsWhatItWas(t *testing.T) {
	var got []record
	for _, c := range workedProblems() {
		limits := Limits{Nodes: c.limit}
		usually := recordOf(c.name, c.m, limits, usual)
		got = append(got, usually, recordOf(c.name+", hasty", c.m, limits, hasty))
		if zeros := make([]int64, len(c.m.Columns)); strings.HasPrefix(c.name, "kitchen") || strings.HasPrefix(c.name, "lids") {
			limits.Better = true
			c.m.Start = zeros
			got = append(got, recordOf(c.name+", better than nothing", c.m, limits, usual))
			c.m.Start = usually.X
			got = append(got, recordOf(c.name+", better than the best", c.m, limits, usual))
		}
	}
	if *update {
		writeWork(t, got)
	}
	data, err := os.ReadFile(workFile)
	require.NoError(t, err)
	var want []record
	require.NoError(t, json.Unmarshal(data, &want))
	require.Equal(t, len(want), len(got), "as many problems as testdata/work.json has; -run What -update writes it anew")
	for i := range want {
		if runtime.GOARCH == "amd64" || runtime.GOARCH == "386" {
			require.Equal(t, want[i], got[i], "%s: after a change that is meant, run with -run What -update and read the difference", want[i].Problem)
			continue
		}
		require.Equal(t, want[i].Problem, got[i].Problem)
		if want[i].Error == "" {
			require.Equal(t, want[i].Levels, got[i].Levels, want[i].Problem)
		}
		require.LessOrEqual(t, got[i].Work.Nodes, 3*want[i].Work.Nodes+50, want[i].Problem)
		require.LessOrEqual(t, got[i].Work.Pivots, 3*want[i].Work.Pivots+50, want[i].Problem)
	}
}

func writeWork(t *testing.T, all []record) {
	var lines []string
	for _, r := range all {
		data, err := json.Marshal(r)
		require.NoError(t, err)
		lines = append(lines, string(data))
	}
	require.NoError(t, os.MkdirAll("testdata", 0o755))
	require.NoError(t, os.WriteFile(workFile, []byte("[\n"+strings.Join(lines, ",\n")+"\n]\n"), 0o644))
}

// Together the problems come by all that a search can do.
func TestWorkedProblemsComeByAllOfIt(t *testing.T) {
	data, err := os.ReadFile(workFile)
	require.NoError(t, err)
	var all []record
	require.NoError(t, json.Unmarshal(data, &all))
	var sum work
	stopped, none := 0, 0
	for _, r := range all {
		w := r.Work
		sum.Probed, sum.Drawn, sum.Written = sum.Probed+w.Probed, sum.Drawn+w.Drawn, sum.Written+w.Written
		sum.Listed, sum.Afresh = sum.Listed+w.Listed, sum.Afresh+w.Afresh
		for i, n := range w.Found {
			sum.Found[i] += n
		}
		switch r.Error {
		case ErrNodeLimit.Error():
			stopped++
		case ErrInfeasible.Error():
			none++
		}
	}
	for what, n := range map[string]int{
		"branches tried": sum.Probed, "columns drawn in": sum.Drawn, "rows written": sum.Written, "sums listed": sum.Listed,
		"tableaus made afresh": sum.Afresh - len(all), "found to the nearest": sum.Found[nearest], "found downwards": sum.Found[downward],
		"found with all fixed": sum.Found[leaf], "searches stopped": stopped, "problems without a solution": none,
	} {
		require.Positive(t, n, what)
	}
}

type workedProblem struct {
	name  string
	m     Model
	limit int
}

// workedProblems are small and middling ones of every kind, invented by seed.
func workedProblems() (all []workedProblem) {
	add := func(limit, count int, name string, draw func(r *rand.Rand) Model) {
		for seed := range count {
			all = append(all, workedProblem{fmt.Sprint(name, " ", seed), draw(rand.New(rand.NewPCG(uint64(seed), 30))), limit})
		}
	}
	add(2_000, 14, "random", randomModel)
	add(2_000, 8, "two pieces", func(r *rand.Rand) Model {
		m := sideBySide(randomModel(r), randomModel(r))
		m.Levels = []Level{{Goal: someGoal(r, &m)}, {Goal: someGoal(r, &m)}}
		return m
	})
	add(2_000, 6, "lids", liddedModel)
	add(2_000, 16, "kitchen", func(r *rand.Rand) Model { return kitchenModel(r, 4+r.IntN(5)) })
	add(600, 4, "large kitchen", func(r *rand.Rand) Model { return kitchenModel(r, 24+r.IntN(8)) })
	add(2_000, 4, "knapsack", func(r *rand.Rand) Model { return knapsack(r, 16) })
	add(400, 2, "large rows", largeModel)
	add(2_000, 3, "round trip", func(r *rand.Rand) Model { return roundTrip(randomMap(r, 7+r.IntN(3))) })
	add(2_000, 4, "hidden rows", func(r *rand.Rand) Model {
		m := kitchenModel(r, 4)
		hidden := m.Rows[1:]
		m.Rows = m.Rows[:1]
		m.Separate = func(x []float64) []Row { return brokenAt(hidden, x) }
		return m
	})
	add(2_000, 3, "repaired", func(r *rand.Rand) Model {
		m := kitchenModel(r, 5)
		m.Repair = func(x []int64) {
			for j := range 5 { // what is made, is said to be
				x[2*j+1] = min(1, x[2*j])
			}
		}
		return m
	})
	add(2_000, 3, "spoilt by repair", func(r *rand.Rand) Model {
		m := liddedModel(r)
		m.Repair = func(x []int64) { clear(x) }
		return m
	})
	add(2_000, 3, "near sums", func(r *rand.Rand) Model { return distances(r.Uint64N(1000), 10) })
	for n := range 2 { // from seventy columns on rows are rounded at every root
		add(60, 1, fmt.Sprint("knapsack of ", 69+n), func(r *rand.Rand) Model { return knapsack(r, 69+n) })
	}
	add(700, 1, "market, met exactly", func(r *rand.Rand) Model { // one long question
		m := marketSplit(r.Uint64N(1000), 18)
		for j := range m.Columns[18:] {
			m.Columns[18+j].Most = 0
		}
		m.Levels = nil
		return m
	})
	add(150, 1, "distances in steps", func(r *rand.Rand) Model {
		m := distances(r.Uint64N(1000), 20)
		m.Levels[0].Goal = Concave{Minima: m.Levels[0].Goal.(Concave).Minima, Whole: big.NewInt(2)}
		return m
	})
	add(3_100, 1, "market, for long", func(r *rand.Rand) Model { return marketSplit(r.Uint64N(1000), 17) })
	add(150, 2, "market", func(r *rand.Rand) Model { return marketSplit(r.Uint64N(1000), 24) })
	add(80, 2, "distances", func(r *rand.Rand) Model { return distances(r.Uint64N(1000), 24) })
	return all
}

// knapsack draws pieces with two sizes and three kinds of worth.
func knapsack(r *rand.Rand, n int) Model {
	var m Model
	coefs := func(least, most int) []int64 {
		list := make([]int64, n)
		for j := range list {
			list[j] = int64(least + r.IntN(most))
		}
		return list
	}
	for range n {
		m.Columns = append(m.Columns, Column{Most: int64(1 + r.IntN(3))})
	}
	m.Rows = []Row{atMost(250, coefs(5, 60)...), atMost(250, coefs(5, 60)...)}
	for range 3 {
		m.Levels = append(m.Levels, Level{Goal: Linear{Terms: terms(coefs(0, 9)...)}})
	}
	return m
}

// kitchenModel draws what a plan for a meal asks: portions of dishes from two crops,
// of each a part to be used first, with a word for each dish that it is made, as many
// as can be or as few, and fair shares.
func kitchenModel(r *rand.Rand, dishes int) Model {
	var m Model
	var shares []Share
	var portions, made, fewer []Term
	var order []int
	var crops [2][]Term
	var all [2]int64
	for range dishes {
		x, z := len(m.Columns), len(m.Columns)+1
		most, least := int64(4+r.IntN(9)), int64(1+r.IntN(3))
		m.Columns = append(m.Columns, Column{Most: most, Batch: least, Rank: 1}, Column{Most: 1})
		m.Rows = append(m.Rows, AtMost(0, Times(1, x), Times(-most, z)), AtLeast(0, Times(1, x), Times(-least, z)))
		crop, grams := r.IntN(2), int64(60+10*r.IntN(15))
		crops[crop] = append(crops[crop], Times(grams, x))
		all[crop] += grams * most
		shares = append(shares, Share{Column: x, Weight: big.NewInt(int64(1 + r.IntN(2))), Sign: z})
		portions, made, fewer = append(portions, Times(1, x)), append(made, Times(1, z)), append(fewer, Times(-1, x))
		order = append(order, x)
	}
	var first Concave
	for i, crop := range crops {
		if len(crop) == 0 {
			continue
		}
		supply := all[i] * int64(20+r.IntN(50)) / 100
		m.Rows = append(m.Rows, AtMost(supply, crop...))
		if len(crop) > 2 {
			m.Rows = append(m.Rows, AtMost(supply*2/3, crop[:len(crop)/2]...))
		}
		today := AtLeast(0, crop...)
		first.Minima = append(first.Minima, Minimum{{today.Terms, new(big.Int)}, {Limit: big.NewInt(supply * int64(20+r.IntN(70)) / 100)}})
	}
	first.Whole = big.NewInt(10)
	m.Rows = append(m.Rows, AtMost(int64(2+r.IntN(dishes)), made...))
	goals := []Goal{first, Linear{Terms: made}, MaxMin{Shares: shares, OrZero: true}, Linear{Terms: portions}, InOrder{Columns: order}}
	if r.IntN(2) == 0 { // a table: so many helpings are enough, and then as few as will do
		goals = []Goal{Linear{Terms: portions, Enough: big.NewInt(int64(3 + r.IntN(20)))}, first, Linear{Terms: made}, Linear{Terms: fewer}, MaxMin{Shares: shares, OrZero: true}, InOrder{Columns: order}}
	}
	for _, g := range goals {
		m.Levels = append(m.Levels, Level{Goal: g})
	}
	return m
}
