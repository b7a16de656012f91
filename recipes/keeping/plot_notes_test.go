package keeping

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Each line of the plot's hygiene stands in a plan where it matters, once, and no
// other.
func TestPlotNotesWhereTheyMatter(t *testing.T) {
	for _, c := range []struct {
		name  string
		facts PlotFacts
		rules []string
	}{
		{"nothing is made", PlotFacts{}, nil},
		{"water is carried", PlotFacts{Carried: true}, []string{"hands-soap"}},
		{"herbs are picked", PlotFacts{Raw: true}, []string{"slug-lungworm", "manure-120"}},
		{"something is dug", PlotFacts{Lifted: true}, []string{"lepto"}},
		{"food cools on a tray", PlotFacts{Cools: true}, []string{"flies-pets"}},
		{"all of it", PlotFacts{true, true, true, true}, []string{"hands-soap", "slug-lungworm", "manure-120", "lepto", "flies-pets"}},
	} {
		var rules []string
		for _, note := range PlotNotes(c.facts) {
			rule, ok := LookupRule(note.Rule)
			assert.True(t, ok, note.Rule)
			assert.Equal(t, rule.Says, note.Says)
			assert.Equal(t, NotePlot, note.Kind)
			assert.Equal(t, []string{note.Rule}, note.Rules)
			rules = append(rules, note.Rule)
		}
		assert.Equal(t, c.rules, rules, c.name)
	}
}
