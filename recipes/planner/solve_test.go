package planner

import (
	"context"
	"encoding/json"
	"math/big"
	"os"
	"path/filepath"
	"testing"
	"trencher/units"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

// A writtenProblem is a problem and its answer as the files of testdata hold it.
type writtenProblem struct {
	Question string          `json:"question"`
	Lots     []writtenLot    `json:"lots"`
	Dishes   []writtenDish   `json:"dishes"`
	Limits   []writtenAmount `json:"limits,omitempty"`
	Guests   []writtenGuest  `json:"guests,omitempty"`
	Sides    int             `json:"sides,omitempty"`
	Expected writtenAnswer   `json:"expected"`
}

type writtenLot struct {
	ID      string `json:"id"`
	Crop    string `json:"crop"`
	Texture string `json:"texture,omitempty"`
	Sizes   [2]int `json:"sizes"`
	Supply  string `json:"supply"`
	First   bool   `json:"first"`
}

type writtenDish struct {
	Name     string          `json:"name"`
	Smallest int             `json:"smallest"`
	Largest  int             `json:"largest"`
	Wish     string          `json:"wish"`
	Needs    []writtenNeed   `json:"needs"`
	Others   []writtenAmount `json:"others,omitempty"`
}

type writtenNeed struct {
	Crop    string `json:"crop"`
	Per     string `json:"per"`
	Texture string `json:"texture,omitempty"`
	Sizes   [2]int `json:"sizes"`
}

type writtenGuest struct {
	Label string `json:"label"`
	Count int    `json:"count"`
	Child bool   `json:"child"`
	Suits []bool `json:"suits"`
}

type writtenAmount struct {
	Item   string `json:"item"`
	Per    string `json:"per,omitempty"`
	Amount string `json:"amount,omitempty"`
	Unit   string `json:"unit"`
}

type writtenAnswer struct {
	Portions []int    `json:"portions"`
	Out      []string `json:"out"`
	Fed      int      `json:"fed"`
	UseFirst string   `json:"use_first"`
	Balance  string   `json:"balance"`
	Count    int      `json:"count"`
}

func rat(t testing.TB, text string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(text)
	require.True(t, ok, "not a number: %q", text)
	return r
}

// problem turns the file's form into the planner's.
func (w *writtenProblem) problem(t testing.TB) Problem {
	p := Problem{Sides: w.Sides}
	for _, l := range w.Lots {
		p.Lots = append(p.Lots, Lot{ID: l.ID, Crop: l.Crop, Texture: l.Texture, Sizes: units.Band{Low: l.Sizes[0], High: l.Sizes[1]}, Supply: decimal.RequireFromString(l.Supply), First: l.First})
	}
	for _, d := range w.Dishes {
		dish := Dish{Name: d.Name, Smallest: d.Smallest, Largest: d.Largest, Wish: decimal.RequireFromString(d.Wish)}
		for _, n := range d.Needs {
			dish.Needs = append(dish.Needs, Need{Crop: n.Crop, PerPortion: rat(t, n.Per), Texture: n.Texture, Sizes: units.Band{Low: n.Sizes[0], High: n.Sizes[1]}})
		}
		for _, o := range d.Others {
			dish.Others = append(dish.Others, Other{o.Item, rat(t, o.Per), o.Unit})
		}
		p.Dishes = append(p.Dishes, dish)
	}
	for _, l := range w.Limits {
		p.Limits = append(p.Limits, Limit{l.Item, rat(t, l.Amount), l.Unit})
	}
	for _, g := range w.Guests {
		p.Guests = append(p.Guests, Guest{Label: g.Label, Count: g.Count, Child: g.Child, Suits: g.Suits})
	}
	return p
}

func readWritten(t testing.TB, file string) writtenProblem {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	var w writtenProblem
	require.NoError(t, json.Unmarshal(data, &w))
	return w
}

// Six small plots whose answers an independent integer-programming solver gave.
func TestSolveReproducesTheExamples(t *testing.T) {
	files, err := filepath.Glob("../../testdata/planner/examples/*.json")
	require.NoError(t, err)
	require.Len(t, files, 6)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			w := readWritten(t, file)
			p := w.problem(t)
			plan, err := Solve(context.Background(), p)
			require.NoError(t, err)
			require.True(t, plan.Proven)
			want := w.Expected
			require.Equal(t, want.Portions, plan.Portions)
			require.Equal(t, want.Fed, plan.Levels.Fed)
			require.Zero(t, rat(t, want.UseFirst).Cmp(plan.Levels.UseFirst), "use first %s", plan.Levels.UseFirst)
			require.Zero(t, rat(t, want.Balance).Cmp(plan.Levels.Balance), "balance %s", plan.Levels.Balance)
			require.Equal(t, want.Count, plan.Levels.Portions)
			var out []string
			for _, o := range plan.LeftOut {
				out = append(out, p.Dishes[o.Dish].Name)
			}
			require.ElementsMatch(t, want.Out, out)
		})
	}
}
