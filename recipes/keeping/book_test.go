package keeping

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// embedded is a copy of the data with one text changed in one file.
func embedded(t *testing.T, file, from, to string) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(data, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(data, name)
		files[name] = &fstest.MapFile{Data: text}
		return err
	}))
	if file != "" {
		text := string(files[file].Data)
		require.Contains(t, text, from)
		files[file] = &fstest.MapFile{Data: []byte(strings.Replace(text, from, to, 1))}
	}
	return files
}

// A slip in the data never makes a limit of nothing: it is told with its file.
func TestWrongDataIsRefused(t *testing.T) {
	_, err := readBook(embedded(t, "", "", ""))
	require.NoError(t, err)
	cases := []struct{ name, file, from, to, says string }{
		{"a key nobody knows", "rules/cooling.yaml", "known_by: read", "knownby: read", "rules/cooling.yaml: yaml: unmarshal errors"},
		{"a rule that stands twice", "rules/cooling.yaml", "id: uk-cool-home-90min", "id: uk-cool-home-2h", "rules/cooling.yaml: rule uk-cool-home-2h stands twice"},
		{"an authority that is missing", "authorities.yaml", "au-nz:", "nz:", "authorities.yaml: au-nz is missing"},
		{"a limit of a rule that is not there", "authorities.yaml", "hot: uk-hot-63 at-least", "hot: uk-hot-64 at-least", `authorities.yaml: uk: no rule "uk-hot-64"`},
		{"a limit of a figure that is not there", "authorities.yaml", "hot: uk-hot-63 at-least", "hot: uk-hot-63 most", `authorities.yaml: uk: rule uk-hot-63 has no figure "most"`},
		{"a limit of words", "authorities.yaml", "hot: uk-hot-63 at-least", "hot: uk-scotland-cool-asap limit", `authorities.yaml: uk: rule uk-scotland-cool-asap has no figure "limit"`},
		{"a temperature that is a time", "authorities.yaml", "hot: uk-hot-63 at-least", "hot: uk-cool-home-2h at-most", `authorities.yaml: uk: uk-cool-home-2h at-most: "2 h" is no temperature`},
		{"a time that is a temperature", "authorities.yaml", "cooling: uk-cool-home-2h at-most", "cooling: uk-hot-63 at-least", `authorities.yaml: uk: uk-hot-63 at-least: "63 Cel" is no span of time`},
		{"a count that is a time", "authorities.yaml", "reheatings: uk-reheat-once reheatings", "reheatings: uk-cool-home-2h at-most", `authorities.yaml: uk: uk-cool-home-2h at-most: "2 h" is no count`},
		{"a stage that is not there", "authorities.yaml", "stages: us-cool-two-stage", "stages: us-cool-home-2h", `authorities.yaml: us: rule us-cool-home-2h has no figure "from"`},
		{"authorities that are no table", "authorities.yaml", "uk:", "- uk:", "authorities.yaml: yaml:"},
		{"foods that are no table", "foods.yaml", "foods:", "- foods:", "foods.yaml: yaml:"},
		{"a food with a section that is not there", "foods.yaml", "sections: [raw-keep,", "sections: [raw-kept,", `foods.yaml: food potatoes: no section "raw-kept"`},
		{"a food that cites no rule", "foods.yaml", "cites: [tcs-cooked-potato]", "cites: [tcs-cooked-potatoes]", `foods.yaml: no rule "tcs-cooked-potatoes"`},
		{"a food with a figure that is not there", "foods.yaml", "{uk-leftovers-48h life}", "{uk-leftovers-48h lives}", `foods.yaml: rule uk-leftovers-48h has no figure "lives"`},
		{"two foods of one name", "foods.yaml", "aliases: [ramsons,", "aliases: [Boiled-Potato,", `foods.yaml: "Boiled-Potato" names both boiled-potatoes and wild-garlic`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := readBook(embedded(t, c.file, c.from, c.to))
			require.ErrorContains(t, err, c.says)
		})
	}
	_, err = readBook(fstest.MapFS{})
	require.ErrorContains(t, err, "authorities.yaml")
}

// Figures as the sources have them: a time in hours, a range, words.
func TestValuesOfARule(t *testing.T) {
	value := func(id, name string) Value {
		rule, ok := LookupRule(id)
		require.True(t, ok, id)
		return rule.Figure(name)
	}
	aim := value("uk-cool-home-90min", "aim")
	d, ok := aim.duration()
	assert.True(t, ok)
	assert.Equal(t, 90*time.Minute, d)
	assert.Equal(t, "1.5 h", aim.Text)
	chilled := value("uk-cook-chill", "chilled-to")
	assert.Equal(t, []float64{0, 3}, []float64{chilled.Low, chilled.High})
	assert.Equal(t, "0-3 °C", chilled.words())
	none := value("uk-scotland-cool-asap", "limit")
	assert.Equal(t, "no figure", none.words())
	_, ok = none.duration()
	assert.False(t, ok)
	_, ok = value("uk-hot-63", "at-least").duration()
	assert.False(t, ok, "a temperature is no time")
	assert.Equal(t, "48 h", value("uk-leftovers-48h", "life").words())
	assert.Equal(t, "4 days", value("us-leftovers-4d", "life").words())
	assert.Equal(t, "1 day", Value{Text: "1 d", Low: 1, High: 1, Unit: "d", number: true}.words())
	_, known := LookupRule("nobody-knows-it")
	assert.False(t, known)
}

func TestRuleNamesItsPublication(t *testing.T) {
	rule, ok := LookupRule("us-cool-two-stage")
	require.True(t, ok)
	assert.Equal(t, "US Food and Drug Administration: Food Code (2022), 3-501.14(A)", rule.Provenance.String())
	assert.Equal(t, "3-501.14(A)", rule.Record)
	rule, ok = LookupRule("steam-lid")
	require.True(t, ok)
	assert.Equal(t, "common practice, no source", rule.Provenance.String())
}
