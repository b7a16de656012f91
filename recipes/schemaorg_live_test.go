package recipes

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Every name an exported dish uses is one of the open vocabulary's, as a package
// of the npm registry carries it (schema-dts, its types file in TRENCHER_SCHEMA):
// properties, types and diets. TRENCHER_LIVE=1 makes its absence a failure.
func TestNamesAreTheVocabularys(t *testing.T) {
	path := os.Getenv("TRENCHER_SCHEMA")
	if path == "" && os.Getenv("TRENCHER_LIVE") == "" {
		t.Skip("TRENCHER_SCHEMA names no vocabulary; .ci/run installs it")
	}
	types := string(readFile(t, path))
	dish, err := LoadDish("dish.yaml", readFile(t, dishFile), DefaultKitchen(units.Metric))
	require.NoError(t, err)
	data, err := dish.JSONLD()
	require.NoError(t, err)
	var recipe any
	require.NoError(t, json.Unmarshal(data, &recipe))
	names := map[string]bool{}
	collect(recipe, names)
	for diet := range restrictedDiets {
		names[diet] = true
	}
	require.Greater(t, len(names), 15)
	for name := range names {
		assert.True(t, strings.Contains(types, `"`+name+`"`), "%s is no name of the vocabulary", name)
	}
	assert.NotContains(t, types, `"recipeCrop"`, "a name that is none is told from one")
}

// collect gathers the names of properties and types in a document.
func collect(node any, names map[string]bool) {
	switch v := node.(type) {
	case []any:
		for _, one := range v {
			collect(one, names)
		}
	case map[string]any:
		for key, value := range v {
			if text, ok := value.(string); ok && key == "@type" {
				names[text] = true
			}
			if !strings.HasPrefix(key, "@") {
				names[key] = true
			}
			collect(value, names)
		}
	}
}
