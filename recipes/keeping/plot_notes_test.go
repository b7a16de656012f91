package keeping

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each line of the plot's hygiene stands in a plan where it matters, once, and no
// other; each is one short line and rests on what the guidance on the plot tells
// whole.
func TestPlotNotesWhereTheyMatter(t *testing.T) {
	guide, err := Guide("plot")
	require.NoError(t, err)
	for _, c := range []struct {
		name  string
		facts PlotFacts
		rules []string
	}{
		{"nothing is made", PlotFacts{}, nil},
		{"nothing is made, carried water", PlotFacts{Carried: true}, nil},
		{"something is made", PlotFacts{Made: true}, []string{"water-potable"}},
		{"water is carried", PlotFacts{Made: true, Carried: true}, []string{"hands-soap", "water-potable"}},
		{"herbs are picked", PlotFacts{Made: true, Raw: true}, []string{"water-potable", "manure-120", "feed-120", "slug-lungworm"}},
		{"it lay in the shed", PlotFacts{Made: true, Lay: true}, []string{"water-potable", "lepto"}},
		{"food cools on a tray", PlotFacts{Made: true, Cools: true}, []string{"water-potable", "flies-pets"}},
		{"all of it", PlotFacts{true, true, true, true, true}, []string{"hands-soap", "water-potable", "manure-120", "feed-120", "slug-lungworm", "lepto", "flies-pets"}},
	} {
		var rules []string
		for _, note := range PlotNotes(c.facts) {
			assert.LessOrEqual(t, len([]rune(note.Says)), 76, "a line of a terminal, behind its mark")
			assert.Equal(t, NotePlot, note.Kind)
			assert.Equal(t, note.Rule, note.Rules[0])
			assert.Subset(t, guide.Rules(), note.Rules)
			rules = append(rules, note.Rules...)
		}
		assert.Equal(t, c.rules, rules, c.name)
	}
}
