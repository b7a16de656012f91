package units

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every spelling a row claims is its own, and not another's, except for the
// words that have a reading in several systems.
func TestSpellingsDoNotCollide(t *testing.T) {
	for i := range entries {
		e := &entries[i]
		for _, spelling := range append([]string{e.name, e.symbol, fold(e.name), e.code}, e.spellings...) {
			w := wordOf(spelling)
			if spelling == "" || spelling == "t" && e.name == "tonne" {
				continue
			}
			require.NotNil(t, w, "%s: %q is not read", e.name, spelling)
			require.False(t, w.strict, "%s: %q is a regional word", e.name, spelling)
			assert.Equal(t, e.name, w.only.name, "%q", spelling)
		}
	}
}

// Every unit reads back from its own name and symbol under every system.
func TestNamesReadBack(t *testing.T) {
	for _, u := range All() {
		for _, s := range append([]System{NoSystem}, systems[:]...) {
			for _, name := range []string{u.Name(), u.Symbol()} {
				if name == "" {
					continue
				}
				read, err := ParseUnit(name, s)
				require.NoError(t, err, "%q under %q", name, s)
				assert.Equal(t, u, read, "%q under %q", name, s)
			}
		}
	}
}

// The words with several readings, and what each kitchen makes of them: the
// table of ambiguous names, word by word.
func TestRegionalWords(t *testing.T) {
	const refused = ""
	for _, row := range []struct{ word, metric, uk, us, au string }{
		{"cup", "250 ml", refused, "236.5882365 ml", "250 ml"},
		{"pint", refused, "568.26125 ml", "473.176473 ml", "568.26125 ml"},
		{"quart", refused, "1136.5225 ml", "946.352946 ml", "1136.5225 ml"},
		{"gallon", refused, "4546.09 ml", "3785.411784 ml", "4546.09 ml"},
		{"gill", refused, "142.0653125 ml", "118.29411825 ml", "142.0653125 ml"},
		{"fluid ounce", refused, "28.4130625 ml", "29.5735295625 ml", "28.4130625 ml"},
		{"ounce", "28.349523125 g", "28.349523125 g", "28.349523125 g", "28.349523125 g"},
		{"tablespoon", "15 ml", "15 ml", "14.78676478125 ml", "20 ml"},
		{"teaspoon", "5 ml", "5 ml", "4.92892159375 ml", "5 ml"},
		{"dessertspoon", "10 ml", "10 ml", refused, "10 ml"},
		{"hundredweight", refused, "50802.34544 g", "45359.237 g", "50802.34544 g"},
		{"ton", refused, "1016046.9088 g", "907184.74 g", "1000000 g"},
		{"peck", refused, "9092.18 ml", "8809.76754172 ml", "9092.18 ml"},
		{"bushel", refused, "36368.72 ml", "35239.07016688 ml", "36368.72 ml"},
		{"rod", "5029.2 mm", "5029.2 mm", "5029.2 mm", "5029.2 mm"},
		{"T", "15 ml", "15 ml", "14.78676478125 ml", "20 ml"},
		{"t", "5 ml", "5 ml", "4.92892159375 ml", "5 ml"},
		{"gr", refused, refused, refused, refused},
	} {
		for s, want := range map[System]string{Metric: row.metric, UK: row.uk, US: row.us, AU: row.au} {
			q, err := Parse("1 "+row.word, s)
			if want == refused {
				assert.Error(t, err, "%s under %s", row.word, s)
				continue
			}
			require.NoError(t, err, "%s under %s", row.word, s)
			in, err := q.In(Unit{base(q.Dimension())})
			require.NoError(t, err)
			assert.Equal(t, want, in.String(), "%s under %s", row.word, s)

			if w := wordOf(row.word); w.strict { // the system beside the word outranks the kitchen's
				named, err := Parse("1 "+row.word+" "+s.label(), NoSystem)
				require.NoError(t, err)
				assert.True(t, named.Same(q), "%s %s", row.word, s.label())
			}
		}
	}
}

func TestWordsWithoutSystemListTheirReadings(t *testing.T) {
	_, err := Parse("1½ pints", NoSystem)
	var ambiguous *AmbiguousError
	require.ErrorAs(t, err, &ambiguous)
	assert.Len(t, ambiguous.Readings, 3)
	assert.EqualError(t, err, `"1½ pints": a pint may be 568.26125 ml (UK, AU) or 473.176473 ml (US); there is no metric pint`)
	assert.Equal(t, "write pt UK or pt US, or set the kitchen's measures", ambiguous.Hint())
}
