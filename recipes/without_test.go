package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A portion can be set apart before an ingredient goes in where the dish says when
// that is, and it is not heated from then on.
func TestWithout(t *testing.T) {
	const head = "name: Crush with butter\nportions: 4\nserved: hot\ncrops: [{crop: potato, amount: 800 g, prepared: peeled, cut: halves}]\nothers:\n" +
		"  - {item: butter, amount: 50 g}\n  - {item: chives, amount: 2 tbsp metric, instead: [{item: spring onion, amount: 3, state: sliced}]}\n  - {item: feta, amount: 50 g, state: crumbled}\n"
	for _, c := range []struct {
		name, more string
		words      []string
		lines      []string // nil: it cannot be set apart
	}{
		{"no method", "", []string{"feta"}, []string{"feta"}},
		{"by what may be taken instead", "", []string{"spring onion"}, []string{"chives"}},
		{"by its state", "", []string{"crumbled feta"}, []string{"feta"}},
		{"two at once", "", []string{"butter", "feta"}, []string{"butter", "feta"}},
		{"nothing is asked", "", nil, nil},
		{"a word that stands nowhere", "", []string{"feta", "bacon"}, nil},
		{"stirred in at the end", "method: [Crush the potatoes., Fold in the feta and serve.]\n", []string{"feta"}, []string{"feta"}},
		{"nobody says when", "method: [Crush the potatoes and serve.]\n", []string{"feta"}, nil},
		{"heated with the dish", "method: [Crush the potatoes with the feta and bake for 10 minutes.]\n", []string{"feta"}, nil},
		{"in before the heat is on", "method: [Crush the potatoes with the feta., Bake for 10 minutes.]\n", []string{"feta"}, nil},
		{"heat long before it", "method: [Bake the potatoes until they are quite soft and then fold in the feta.]\n", []string{"feta"}, []string{"feta"}},
		{"heat right before it", "method: [Then bake with the feta.]\n", []string{"feta"}, nil},
		{"four words before it", "method: [Then bake it all with feta.]\n", []string{"feta"}, nil},
		{"five words before it", "method: [Then bake it all and add feta.]\n", []string{"feta"}, []string{"feta"}},
		{"a step of its own on a ring", "steps: [{do: Melt the butter, takes: 5 min, uses: ring}]\nmethod: [Add the butter.]\n", []string{"butter"}, []string{"butter"}},
		{"a step that cooks it", "steps: [{do: Fry the feta, takes: 5 min, uses: ring}]\nmethod: [Fold in the feta.]\n", []string{"feta"}, nil},
		{"a step that cooks another", "steps: [{do: Fry some crumbs, takes: 5 min, uses: ring}]\nmethod: [Fold in the feta.]\n", []string{"feta"}, []string{"feta"}},
		{"a step of the oven cooks all", "steps: [{do: Brown the top, takes: 5 min, uses: oven}]\nmethod: [Fold in the feta.]\n", []string{"feta"}, nil},
		{"a step without heat", "steps: [{do: Crumble the feta, takes: 5 min, uses: nothing}]\nmethod: [Fold in the feta.]\n", []string{"feta"}, []string{"feta"}},
	} {
		dish := dishFrom(t, head+c.more)
		rest, lines, ok := dish.Without(c.words)
		assert.Equal(t, c.lines != nil, ok, c.name)
		if c.lines == nil {
			continue
		}
		assert.Equal(t, c.lines, lines, c.name)
		require.Len(t, rest.Others, len(dish.Others)-len(lines), c.name)
		for _, o := range rest.Others {
			assert.NotContains(t, lines, o.Item, c.name)
		}
		assert.Empty(t, rest.Name, c.name)
		assert.Empty(t, rest.Method, c.name)
		assert.Empty(t, rest.Remarks, c.name)
		assert.Equal(t, dish.Crops, rest.Crops, c.name)
		assert.Len(t, dish.Others, 3, "the dish itself stays: %s", c.name)
	}
}
