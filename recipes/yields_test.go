package recipes

import (
	"errors"
	"math/big"
	"slices"
	"testing"

	"trencher/units"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestYieldOfAgainstPublishedRows(t *testing.T) {
	const (
		sr28 = "USDA National Nutrient Database for Standard Reference, Release 28 (read)"
		open = "Bakery and Business Math, Open Washington, ch. 25 (read)"
		fbg  = "USDA Food Buying Guide, Section 2 (memory)"
		own  = "common practice, no source"
	)
	tests := []struct {
		crop, prepared string
		want           string // exact
		standing       string
		source         string // where the figure stands
	}{
		{"pea", "shelled", "0.38", "read", sr28 + ": NDB 11304, refuse 62 %"},
		{"leek", "trimmed", "0.44", "read", sr28 + ": NDB 11246, refuse 56 %"},
		{"onion", "peeled", "0.9", "read", sr28 + ": NDB 11282, refuse 10 %"},
		{"French bean", "topped and tailed", "0.88", "read", sr28 + ": NDB 11052, refuse 12 %; " + open + " has 0.88 too"},
		{"celeriac", "peeled", "0.86", "practice", sr28 + ": NDB 11141, refuse 14 %, from topped"},
		{"kohlrabi", "peeled", "0.46", "read", sr28 + ": NDB 11241, refuse 54 %"},
		{"courgette", "trimmed", "0.95", "read", open + "; " + sr28 + " NDB 11477 agrees"},
		{"beetroot", "peeled", "0.76", "practice", open + ", topped"},
		{"beetroot", "peeled, weighed with leaves", "0.49", "read", open + ", with tops"},
		{"carrot", "peeled", "0.82", "practice", open + ", topped"},
		{"asparagus", "trimmed", "0.56", "read", open},
		{"cauliflower", "florets", "0.45", "read", open},
		{"potato", "peeled", "0.7857", "practice", "0.97 soil (" + own + ") x 0.81 " + fbg},
		{"potato", "scrubbed", "0.9603", "practice", "0.97 soil x 0.99 skin, " + own},
		{"broad bean", "skinned", "0.225", "practice", "0.30 shelled x 0.75 skinned, " + own},
	}
	for _, test := range tests {
		t.Run(test.crop+" "+test.prepared, func(t *testing.T) {
			y, err := YieldOf(test.crop, test.prepared)
			require.NoError(t, err, test.source)
			want, _ := new(big.Rat).SetString(test.want)
			assert.Zero(t, want.Cmp(y.Factor), "%s: want %s, got %s", test.source, test.want, y.Factor.FloatString(6))
			assert.Equal(t, test.standing, standing(y))
		})
	}
}

// Bakery and Business Math, Open Washington, ch. 25, prints 95 % for trimmed
// courgettes; the weights here are ours: 5 kg lifted leave 4.75 kg, and 4.75
// kg trimmed need 5 kg lifted.
func TestYieldBothWays(t *testing.T) {
	y, err := YieldOf("courgettes", "trimmed")
	require.NoError(t, err)
	edible := new(big.Rat).Mul(big.NewRat(5000, 1), y.Factor)
	assert.Equal(t, "4750", edible.RatString())
	lifted := new(big.Rat).Quo(big.NewRat(4750, 1), y.Factor)
	assert.Equal(t, "5000", lifted.RatString())
}

func TestYieldWords(t *testing.T) {
	tests := []struct{ crop, prepared, same string }{
		{"Potatoes", "Scrubbed", "scrubbed"},
		{"new potato", "scrubbed", "scrubbed"},
		{"peas", "podded", "shelled"},
		{"zucchini", "ends off", "trimmed"},
		{"Brussels sprouts", "trimmed", "trimmed"},
		{"dill", "picked", "leaves"},
		{"courgette", "picked", AsLifted},
		{"anything at all", "", AsLifted},
		{"oca", "as-lifted", AsLifted},
	}
	for _, test := range tests {
		y, err := YieldOf(test.crop, test.prepared)
		require.NoError(t, err, "%s %s", test.crop, test.prepared)
		assert.Equal(t, test.same, y.Prepared, "%s %s", test.crop, test.prepared)
	}
}

func TestUnknownYieldListsWhatIsKnown(t *testing.T) {
	_, err := YieldOf("potato", "shelled")
	var unknown *units.FieldError
	require.True(t, errors.As(err, &unknown))
	assert.Equal(t, "one of as-lifted | washed | scrubbed | peeled | thinly peeled | scrubbed, new skins, or your own figure under `yields` in kitchen.yaml", unknown.Accepted)
	assert.Equal(t, `prepared "shelled": no yield for potato`, err.Error())
	_, err = YieldOf("oca", "peeled")
	require.True(t, errors.As(err, &unknown))
	assert.Contains(t, unknown.Accepted, "one of as-lifted, or", "a crop without rows can still go in as lifted")
}

// standing is how the weakest of a yield's steps is known.
func standing(y Yield) string {
	for _, known := range []string{"practice", "memory", "computed"} {
		if slices.ContainsFunc(y.Steps, func(r YieldRow) bool { return r.KnownBy == known }) {
			return known
		}
	}
	return "read"
}

func TestCookedYield(t *testing.T) {
	y, err := CookedYield("potato", "scrubbed", "steamed")
	require.NoError(t, err)
	assert.Equal(t, "49/50", y.Factor.RatString(), "common practice, no source: 0.96 to 1.00")
	y, err = CookedYield("runner bean", "trimmed", "boiled")
	require.NoError(t, err)
	assert.Equal(t, "computed", standing(y))
	// (100 - 90.32) / (100 - 89.22), USDA SR28 NDB 11052 and 11053 (read)
	dry := big.NewRat(10000-9032, 10000-8922)
	assert.Equal(t, dry.FloatString(3), y.Factor.FloatString(3))
	_, err = CookedYield("potato", "scrubbed", "fried")
	assert.EqualError(t, err, `cook "fried": no yield for potato scrubbed`)
}

// Every dry-matter row is recomputed from the water contents of USDA SR28
// (read): (100 - raw) / (100 - cooked).
func TestCookedRowsFromDryMatter(t *testing.T) {
	tests := []struct {
		crop, prepared, cooked string
		raw, done              int64 // hundredths of a per cent of water
	}{
		{"potato", "scrubbed", "boiled", 7925, 7698},
		{"potato", "peeled", "boiled", 7925, 7746},
		{"beetroot", "peeled", "boiled", 8758, 8706},
		{"pea", "shelled", "boiled", 7886, 7787},
		{"mangetout", "topped and tailed", "boiled", 8889, 8891},
		{"courgette", "trimmed", "boiled", 9479, 9522},
		{"spinach", "leaves", "boiled", 9140, 9121},
		{"sweetcorn", "kernels", "boiled", 7605, 7341},
		{"asparagus", "trimmed", "boiled", 9322, 9263},
		{"kohlrabi", "peeled", "boiled", 9100, 9030},
	}
	for _, test := range tests {
		y, err := CookedYield(test.crop, test.prepared, test.cooked)
		require.NoError(t, err, test.crop)
		assert.Equal(t, big.NewRat(10000-test.raw, 10000-test.done).FloatString(3), y.Factor.FloatString(3), test.crop)
	}
}

func TestEveryYieldRow(t *testing.T) {
	seen := map[string]bool{}
	for _, row := range yieldTable().prepare {
		y, err := YieldOf(row.Crop, row.To)
		require.NoError(t, err, "%s %s", row.Crop, row.To)
		assert.Positive(t, y.Factor.Sign())
		assert.LessOrEqual(t, y.Factor.Cmp(big.NewRat(1, 1)), 0, "%s %s: preparing never adds weight", row.Crop, row.To)
		key := row.Crop + "/" + row.To
		assert.False(t, seen[key], "%s stands twice", key)
		seen[key] = true
	}
	for _, row := range append(slices.Clone(yieldTable().prepare), yieldTable().cook...) {
		assert.NotEmpty(t, row.Source, "%s %s", row.Crop, row.To)
		assert.Contains(t, []string{"read", "memory", "computed", "practice"}, row.KnownBy, "%s %s", row.Crop, row.To)
		if row.KnownBy == "read" {
			assert.NotEmpty(t, row.Record, "%s %s was read somewhere", row.Crop, row.To)
		}
		assert.Equal(t, row.Crop, CropName(row.Crop), "the table uses its own name")
	}
}
