package planner

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// modelsOf are models of problems of a kind, with how many are fed as a goal.
func modelsOf(kind kindOfProblem, seeds int) (models []*model) {
	for seed := range seeds {
		p := kind.draw(rand.New(rand.NewPCG(uint64(seed), 91)), problemSize{dishes: 6, lots: 5, crops: 2, guests: 14})
		if most, _ := p.eligible(); len(most) > 1 && p.Guests != nil {
			models = append(models, p.newModel(wanting{most: most}))
		}
	}
	return models
}

// A dish is made larger exactly where all portions then keep the rows, are not more than
// the dish's most and not of too many dishes: as is said of them as a whole.
func TestRaisingKeepsTheRows(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 92))
	raised, refused := 0, 0
	for _, kind := range kindsOfProblems[1:] {
		for _, m := range modelsOf(kind, 40) {
			f := m.weighing.filling(make([]int64, len(m.dishes)))
			for range 40 {
				i := r.IntN(len(m.dishes))
				had := slices.Clone(f.portions)
				next := slices.Clone(had)
				next[i] = max(had[i]+1+r.Int64N(3), m.dishes[i].least)
				want := m.weighing.fits(next)
				require.Equal(t, want, f.raise(i, next[i]))
				if want {
					raised++
					require.Equal(t, next, f.portions)
				} else {
					refused++
					require.Equal(t, had, f.portions, "as it was")
				}
			}
		}
	}
	require.Greater(t, raised, 500)
	require.Greater(t, refused, 500)
}

// What portions are mended to does not depend on what was mended before.
func TestMendingRemembersRight(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 93))
	for _, kind := range kindsOfProblems[1:] {
		for _, m := range modelsOf(kind, 10) {
			var points [][]int64
			for range 3 * mostMended {
				x := make([]int64, len(m.prog.Columns))
				for _, c := range m.dishes {
					x[c.portions] = r.Int64N(3) * r.Int64N(c.most+1) / 2
				}
				points = append(points, x)
			}
			for range 6 * mostMended {
				x := slices.Clone(points[r.IntN(len(points))])
				fresh := slices.Clone(x)
				m.mend(x)
				forgetful := *m
				forgetful.mended = nil
				forgetful.mend(fresh)
				require.Equal(t, fresh, x)
				require.LessOrEqual(t, len(m.mended), mostMended)
			}
		}
	}
}
