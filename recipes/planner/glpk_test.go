package planner

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math/big"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write testdata/planner/glpk-answers.json anew, with GLPK's answers")

const glpkAnswers = "../../testdata/planner/glpk-answers.json"

func requireAnswer(t testing.TB, want *answer, plan Plan, err error, about string) {
	t.Helper()
	if want == nil {
		require.ErrorIs(t, err, ErrNothingFits, about)
		return
	}
	require.NoError(t, err, about)
	near := func(name string, a, b *big.Rat) {
		d, _ := new(big.Rat).Sub(a, b).Float64()
		require.InDelta(t, 0, d, 1e-3, "%s: %s %s %s", about, name, a.FloatString(6), b.FloatString(6))
	}
	require.Equal(t, want.fed, plan.Levels.Fed, about)
	near("use first", want.use, plan.Levels.UseFirst)
	near("balance", want.balance, plan.Levels.Balance)
	require.Equal(t, want.portions, plan.Levels.Portions, about)
	require.Equal(t, want.x, plan.Portions, about)
}

// glpkProblem is a random problem small enough for floating point to be sure of.
func glpkProblem(seed int) Problem {
	r := rand.New(rand.NewPCG(uint64(seed), 77))
	return randomProblem(r, randomSize{
		dishes: 2 + r.IntN(5), lots: 2 + r.IntN(5), crops: 1 + r.IntN(3), guests: 2 + r.IntN(12),
		table: seed%2 == 0, yields: r.IntN(4) == 0, fussy: true,
	})
}

// The GNU Linear Programming Kit (glpsol), a general-purpose solver, on random
// problems of both kinds, every level asked of it in turn.
func TestSolveAgreesWithGLPKLive(t *testing.T) {
	problems := 300
	if _, err := exec.LookPath("glpsol"); err != nil && os.Getenv("TRENCHER_LIVE") == "" {
		t.Skip("glpsol is not installed")
	}
	if os.Getenv("TRENCHER_LIVE") == "" {
		problems = 10
	}
	for seed := range problems {
		p := glpkProblem(1000 + seed)
		plan, err := Solve(context.Background(), p)
		requireAnswer(t, solveByGLPK(t, p), plan, err, fmt.Sprint("problem ", seed))
	}
}

// A committedProblem is a problem with GLPK's answer.
type committedProblem struct {
	Problem writtenProblem `json:"problem"`
	Fits    bool           `json:"fits"`
}

// Forty problems with the answers glpsol 5.0 gave, so that nothing needs to be
// installed; -update asks it again.
func TestSolveAgreesWithGLPK(t *testing.T) {
	if *update {
		writeGLPKAnswers(t)
	}
	data, err := os.ReadFile(glpkAnswers)
	require.NoError(t, err)
	var all []committedProblem
	require.NoError(t, json.Unmarshal(data, &all))
	require.Len(t, all, 40)
	for i, c := range all {
		plan, err := Solve(context.Background(), c.Problem.problem(t))
		var want *answer
		if e := c.Problem.Expected; c.Fits {
			want = &answer{x: e.Portions, fed: e.Fed, use: rat(t, e.UseFirst), balance: rat(t, e.Balance), portions: e.Count}
		}
		requireAnswer(t, want, plan, err, fmt.Sprint("problem ", i))
	}
}

func writeGLPKAnswers(t *testing.T) {
	var all []committedProblem
	for seed := range 40 {
		p := glpkProblem(seed)
		c := committedProblem{Problem: written(p)}
		if a := solveByGLPK(t, p); a != nil {
			c.Fits = true
			c.Problem.Expected = writtenAnswer{Portions: a.x, Fed: a.fed, UseFirst: a.use.FloatString(4), Balance: a.balance.FloatString(4), Count: a.portions}
		}
		all = append(all, c)
	}
	var lines []string
	for _, c := range all {
		data, err := json.Marshal(c)
		require.NoError(t, err)
		lines = append(lines, string(data))
	}
	text := "[\n" + strings.Join(lines, ",\n") + "\n]\n"
	require.NoError(t, os.WriteFile(glpkAnswers, []byte(text), 0o644))
}

// written is the inverse of writtenProblem.problem.
func written(p Problem) writtenProblem {
	w := writtenProblem{Question: "share", Sides: p.Sides}
	for _, l := range p.Lots {
		w.Lots = append(w.Lots, writtenLot{l.ID, l.Crop, l.Texture, [2]int{l.Sizes.Low, l.Sizes.High}, l.Supply.String(), l.First})
	}
	for _, d := range p.Dishes {
		dish := writtenDish{Name: d.Name, Smallest: d.Smallest, Largest: d.Largest, Wish: d.Wish.String()}
		for _, n := range d.Needs {
			dish.Needs = append(dish.Needs, writtenNeed{n.Crop, n.PerPortion.RatString(), n.Texture, [2]int{n.Sizes.Low, n.Sizes.High}})
		}
		for _, o := range d.Others {
			dish.Others = append(dish.Others, writtenAmount{Item: o.Item, Per: o.PerPortion.RatString(), Unit: o.Unit})
		}
		w.Dishes = append(w.Dishes, dish)
	}
	for _, l := range p.Limits {
		w.Limits = append(w.Limits, writtenAmount{Item: l.Item, Amount: l.Amount.RatString(), Unit: l.Unit})
	}
	for _, g := range p.Guests {
		w.Question = "table"
		w.Guests = append(w.Guests, writtenGuest{g.Label, g.Count, g.Child, g.Suits})
	}
	return w
}
