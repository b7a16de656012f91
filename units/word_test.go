package units_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Every unit is called by a word a cook would say: read back in its own
// system's kitchen the word is that unit again, and no code or bracket shows.
func TestEveryUnitHasAKitchenWord(t *testing.T) {
	for _, u := range units.All() {
		word := units.KitchenWord(u.Code())
		if u == units.Piece {
			assert.Empty(t, word)
			continue
		}
		assert.NotContains(t, word, "[", u.Name())
		assert.NotContains(t, word, "{", u.Name())
		assert.NotContains(t, word, "_", u.Name())
		s := u.System()
		if s == units.NoSystem {
			s = units.Metric
		}
		read, err := units.ParseUnit(word, s)
		require.NoError(t, err, "%s is called %q", u.Name(), word)
		assert.Equal(t, u, read, "%q", word)
	}
}

// The words that recipes print (common practice, no source).
func TestKitchenWords(t *testing.T) {
	for code, word := range map[string]string{
		"g": "g", "kg": "kg", "mL": "ml", "L": "l", "[oz_av]": "oz", "[lb_av]": "lb",
		"[foz_us]": "fl oz", "[foz_br]": "fl oz", "[pt_br]": "pt", "[pt_us]": "pt", "[qt_us]": "qt",
		"[cup_us]": "cup", "cup (metric)": "cup", "[tbs_us]": "tbsp", "[tbs_m]": "tbsp", "tablespoon (AU)": "tbsp",
		"[tsp_us]": "tsp", "[tsp_m]": "tsp", "{piece}": "", "{clove}": "clove", "{extra_large}": "extra large",
		"pinch": "pinch", "Cel": "°C", "[degF]": "°F", "mm": "mm", "[in_i]": "in", "smoot": "smoot", "": "",
	} {
		assert.Equal(t, word, units.KitchenWord(code), code)
	}
}

func ExampleKitchenWord() {
	cup, _ := units.ParseUnit("cup", units.US)
	fmt.Println(cup.Code(), "is a", units.KitchenWord(cup.Code()))
	// Output: [cup_us] is a cup
}
