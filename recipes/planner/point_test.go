package planner

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/recipes/planner/integer"
)

// What is cooked and taken, written as a solution, keeps every row and is read back
// the same, with fed and over as goals and with both asked for.
func TestMealsAreSolutions(t *testing.T) {
	for seed := range uint64(60) {
		for _, kind := range kindsOfProblems[1:3] { // those with guests, and without twins
			r := rand.New(rand.NewPCG(seed, 90))
			p := kind.draw(r, problemSize{dishes: 2 + r.IntN(6), lots: 2 + r.IntN(5), crops: 1 + r.IntN(3), guests: 2 + r.IntN(20)})
			most, _ := p.eligible()
			if len(most) == 0 {
				continue
			}
			w := wanting{most: most}
			goals := p.newModel(w)
			e := goals.weighing.feed()
			x := goals.point(e)
			require.True(t, integer.Keeps(goals.prog, x), "%s %d: %v", kind.name, seed, e)
			require.Equal(t, e, goals.meal(x), "%s %d", kind.name, seed)

			w.fed, w.over = goals.fedBy(e), e.over()
			asked := p.newModel(w)
			x = asked.point(e)
			require.True(t, integer.Keeps(asked.prog, x), "%s %d: asked for: %v", kind.name, seed, e)
			require.Equal(t, e, asked.meal(x), "%s %d", kind.name, seed)
			if asked.pairs == 0 && w.fed[len(w.fed)-1] > 0 {
				w.fed[len(w.fed)-1]++
				require.False(t, integer.Keeps(p.newModel(w).prog, x), "%s %d: one helping more than there is", kind.name, seed)
			}
		}
	}
}
