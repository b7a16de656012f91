package units_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units"
)

func TestDecimalsOfRatios(t *testing.T) {
	for _, c := range []struct {
		num, den               int64
		decimal, floored, text string
	}{
		{5, 4, "1.25", "1.25", "1.25"},
		{0, 7, "0", "0", "0"},
		{250, 3, "83.33333333333333", "83.333", "250/3"},
		{2, 3, "0.6666666666666667", "0.666", "2/3"},
		{-2, 3, "-0.6666666666666667", "-0.667", "-2/3"},
		{7, 1, "7", "7", "7"},
	} {
		r := big.NewRat(c.num, c.den)
		assert.Equal(t, c.decimal, units.DecimalOf(r).String())
		assert.Equal(t, c.floored, units.FlooredDecimal(r, 3).String())
		assert.Equal(t, c.text, units.RatioText(r))
	}
}

func TestCeilTo(t *testing.T) {
	for _, c := range []struct{ num, den, stepNum, stepDen, want, wantDen int64 }{
		{7, 2, 1, 1, 4, 1}, {4, 1, 1, 1, 4, 1}, {17, 8, 1, 4, 9, 4}, {41, 1, 5, 1, 45, 1}, {0, 1, 5, 1, 0, 1},
	} {
		got := units.CeilTo(big.NewRat(c.num, c.den), big.NewRat(c.stepNum, c.stepDen))
		assert.Equal(t, big.NewRat(c.want, c.wantDen).RatString(), got.RatString())
	}
}
