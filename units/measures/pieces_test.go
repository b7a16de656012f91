package measures_test

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units"
	"trencher/units/measures"
)

// Weights of one piece as USDA National Nutrient Database for Standard Reference,
// Release 28, prints them (known_by: memory), written down without the table.
func TestPiecesArePublished(t *testing.T) {
	table := measures.Default()
	for _, row := range []struct {
		ingredient, record string
		measure            string
		grams              int64
	}{
		{"apple", "NDB 09003", "1 large", 223}, {"apple", "NDB 09003", "1 medium", 182}, {"apple", "NDB 09003", "1 small", 149},
		{"banana", "NDB 09040", "1 small", 101}, {"banana", "NDB 09040", "1 medium", 118}, {"banana", "NDB 09040", "1 large", 136},
		{"egg", "NDB 01123", "1 small", 38}, {"egg", "NDB 01123", "1 medium", 44}, {"egg", "NDB 01123", "1 large", 50},
		{"egg", "NDB 01123", "1 extra large", 56}, {"egg", "NDB 01123", "1 very large", 63},
		{"tomato", "NDB 11529", "1 small", 91}, {"tomato", "NDB 11529", "1 medium", 123}, {"tomato", "NDB 11529", "1 large", 182},
		{"carrot", "NDB 11124", "1 small", 50}, {"carrot", "NDB 11124", "1 medium", 61}, {"carrot", "NDB 11124", "1 large", 72},
		{"onion", "NDB 11282", "1 small", 70}, {"onion", "NDB 11282", "1 medium", 110}, {"onion", "NDB 11282", "1 large", 150},
		{"garlic", "NDB 11215", "1 clove", 3}, {"beetroot", "NDB 11080", "1", 82},
		{"orange", "NDB 09200", "1", 131}, {"peach", "NDB 09236", "1 medium", 150}, {"pear", "NDB 09252", "1 medium", 178},
	} {
		asked := units.MustParse(row.measure)
		found := false
		for _, has := range table.Rows(row.ingredient) {
			if strings.HasPrefix(has.Record, row.record+" seq") && has.Measure.Same(asked) && has.Size == "" {
				found = true
				assert.Zero(t, has.Grams.Cmp(big.NewRat(row.grams, 1)), "%s, %s: %s g, printed as %d", row.ingredient, row.measure, has.Grams.FloatString(1), row.grams)
			}
		}
		assert.True(t, found, "%s has no row of %s", row.ingredient, row.measure)
	}
}

// Of one food in one state, by one source, a small one weighs less than a medium
// one and that less than a large one; and three cloves three times one.
func TestLargerPiecesWeighMore(t *testing.T) {
	table := measures.Default()
	compared := 0
	for _, name := range table.Ingredients() {
		for _, a := range table.Rows(name) {
			for _, b := range table.Rows(name) {
				if a.State != b.State || a.Size != b.Size || a.Source != b.Source || a.Record[:min(9, len(a.Record))] != b.Record[:min(9, len(b.Record))] {
					continue
				}
				for _, pair := range [][2]string{{"1 small", "1 medium"}, {"1 medium", "1 large"}, {"1 large", "1 extra large"}, {"1 extra large", "1 very large"}, {"1 small", "1 large"}} {
					if a.Measure.Same(units.MustParse(pair[0])) && b.Measure.Same(units.MustParse(pair[1])) {
						compared++
						assert.Negative(t, a.Grams.Cmp(b.Grams), "%s %s: %s and %s", name, a.State, pair[0], pair[1])
					}
				}
			}
		}
	}
	assert.Greater(t, compared, 40)
}
