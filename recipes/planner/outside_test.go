package planner

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write testdata/planner/outside-answers.json anew, with the answers of GLPK and CBC")

const outsideAnswers = "../../testdata/planner/outside-answers.json"

// outsideProblem is a random problem of a kind, small enough for floating point
// to be sure of.
func outsideProblem(kind kindOfProblem, seed int) Problem {
	r := rand.New(rand.NewPCG(uint64(seed), 77))
	p := kind.draw(r, problemSize{dishes: 2 + r.IntN(5), lots: 2 + r.IntN(5), crops: 1 + r.IntN(3), guests: 2 + r.IntN(12)})
	return p
}

// Two general-purpose solvers, on random problems of every kind, every level asked
// of them in turn: 25 of a kind with TRENCHER_LIVE=1, and 300 with TRENCHER_LONG=1
// as well. A problem that a solver does not finish is told, and another
// takes its place.
func TestSolveAgreesWithOutsidersLive(t *testing.T) {
	if os.Getenv("TRENCHER_LIVE") == "" {
		t.Skip("TRENCHER_LIVE=1 asks them; what they answered is testdata/planner/outside-answers.json")
	}
	problems := volume(25, 300, 300)
	for _, by := range outsiders {
		t.Run(by.name, func(t *testing.T) {
			for _, kind := range kindsOfProblems {
				unfinished := 0
				for seed := 0; seed < problems+unfinished; seed++ {
					p := outsideProblem(kind, 1000+seed)
					want, late := answerOf(t, p, by, 10)
					if late {
						unfinished++
						t.Logf("%s %d: %s does not finish in 10 s a question", kind.name, seed, by.name)
						require.Less(t, unfinished, 3+problems/20)
						continue
					}
					plan, err := Solve(context.Background(), p)
					requireAnswer(t, want, plan, err, fmt.Sprint(kind.name, " ", seed))
				}
			}
		})
	}
}

// A committedProblem is a problem with the outsiders' answer.
type committedProblem struct {
	Problem writtenProblem `json:"problem"`
	Fits    bool           `json:"fits"`
}

// Sixty problems, fifteen of each kind, with the answers that glpsol 5.0 and cbc
// 2.10 both gave, so that nothing needs to be installed; -update asks them again.
func TestSolveAgreesWithOutsiders(t *testing.T) {
	if *update {
		writeOutsideAnswers(t)
	}
	data, err := os.ReadFile(outsideAnswers)
	require.NoError(t, err)
	var all []committedProblem
	require.NoError(t, json.Unmarshal(data, &all))
	require.Len(t, all, 60)
	for i, c := range all {
		plan, err := Solve(context.Background(), c.Problem.problem(t))
		var want *answer
		if c.Fits {
			want = c.Problem.Expected.answer(t)
		}
		requireAnswer(t, want, plan, err, fmt.Sprint("problem ", i))
	}
}

func writeOutsideAnswers(t *testing.T) {
	var lines []string
	for _, kind := range kindsOfProblems {
		for seed := range 15 {
			p := outsideProblem(kind, seed)
			c := committedProblem{Problem: written(p)}
			for i, by := range outsiders {
				a, late := answerOf(t, p, by, 60)
				require.False(t, late)
				answer := writtenAnswer{}
				if a != nil {
					answer = writtenAnswer{Portions: a.x, Fed: a.fed, Over: a.over, UseFirst: a.use.RatString(), Dishes: a.dishes, Balance: a.balance.RatString(), Count: a.portions}
				}
				if i > 0 {
					require.Equal(t, c.Problem.Expected, answer, "the outsiders differ on %s %d", kind.name, seed)
				}
				c.Fits, c.Problem.Expected = a != nil, answer
			}
			data, err := json.Marshal(c)
			require.NoError(t, err)
			lines = append(lines, string(data))
		}
	}
	require.NoError(t, os.WriteFile(outsideAnswers, []byte("[\n"+strings.Join(lines, ",\n")+"\n]\n"), 0o644))
}
