package render

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/recipes"
	"trencher/units"
)

// A cup beside a cup is the same cup: half a US one is 0.47 of the kitchen's 250 ml
// (236.5882365 ml a US cup, NIST Handbook 44, Appendix C).
func TestExactAmountIsInTheKitchensUnit(t *testing.T) {
	half := units.FromRat(big.NewRat(1, 2), units.CupUS)
	line := recipes.ScaledLine{Exact: half, Measured: units.Measured{Value: units.FromRat(big.NewRat(9, 20), units.Cup), Text: "⅓ cup + 2 tbsp", Note: true}}
	assert.Equal(t, "0.47 cup", scaledWords(line).Exact)
	line.Measured.Value = units.FromRat(big.NewRat(1, 2), units.CupUS)
	assert.Equal(t, "0.5 cup", scaledWords(line).Exact)
	line.Measured.Value = units.FromRat(big.NewRat(8, 1), units.Tablespoon)
	assert.Equal(t, "0.5 cup", scaledWords(line).Exact, "what is measured in spoons keeps the recipe's own unit")
}
