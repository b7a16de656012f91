package units

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every kind of space, dash, slash and quote has one form, even where nothing else
// stands beside it.
func TestTidy(t *testing.T) {
	for text, want := range map[string]string{
		"–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-", "‒": "-", "⁄": "/", "∕": "/", "º": "°", "˚": "°", "×": "x", "✕": "x", "’": "'", "ʹ": "'", "“": `"`, "”": `"`,
		"\u00a0": " ", "\u2009": " ", "\u200b": " ", "\t": " ", "½": "½", "½\u2009½": "½ ½", "a – b": "a - b", "": "", "plain": "plain", "\x01": "\x01",
	} {
		assert.Equal(t, want, tidy(text), "%q", text)
	}
}

// A decimal of any number of places is read exactly: so many tenths of tenths.
func TestDecimalsOfAnyLength(t *testing.T) {
	power := big.NewInt(1)
	for places := 1; places <= 40; places++ {
		power.Mul(power, big.NewInt(10))
		text := "0." + strings.Repeat("0", places-1) + "3"
		q, err := Parse(text+" g", Metric)
		require.NoError(t, err)
		want := new(big.Rat).SetFrac(big.NewInt(3), power)
		require.Zero(t, want.Cmp(q.Rat()), text)
		d, exact := q.Decimal()
		assert.True(t, exact)
		assert.Equal(t, text, d.String())
		again, err := Parse(q.String(), NoSystem)
		require.NoError(t, err)
		assert.True(t, again.Same(q), q.String())
		assert.Zero(t, new(big.Rat).SetInt(power).Cmp(tenTo(places).rat()))
	}
	for text, want := range map[string]string{"1/8": "0.125", "-3/40": "-0.075", "0": "0", "1/65536": "0.0000152587890625", "7/1953125": "0.000003584"} {
		n, _ := new(big.Rat).SetString(text)
		d, exact := fromRat(n).decimal()
		assert.True(t, exact)
		assert.Equal(t, want, d.String())
	}
	for den, want := range map[uint64]struct {
		places int
		ends   bool
	}{1: {0, true}, 2: {1, true}, 5: {1, true}, 8: {3, true}, 125: {3, true}, 40: {3, true}, 3: {0, false}, 1 << 18: {18, true}, 1 << 19: {19, false}} {
		places, ends := decimalPlaces(den)
		assert.Equal(t, want.ends, ends, den)
		if ends {
			assert.Equal(t, want.places, places, den)
		}
	}
	assert.True(t, roundSignificant(new(big.Rat), 3).IsZero())
	assert.Equal(t, uint64(7), gcd(0, 7))
	assert.Equal(t, uint64(7), gcd(7, 0))
	assert.Equal(t, uint64(1), gcd(0, 0))
	assert.Equal(t, uint64(6), gcd(54, 24))
}
