package ask

import (
	"math/big"
	"strings"

	"github.com/shopspring/decimal"
)

// The smallest share of a gram that flows are told to. A flow without a finite
// decimal is cut off here, never rounded up, so that no lot gives more than it
// has; what is cut off stays in the lot.
const flowPlaces = 9

// flooredGrams is a flow as a decimal: exact where it terminates, else cut off
// at flowPlaces.
func flooredGrams(r *big.Rat) decimal.Decimal {
	d := decimalOf(r)
	if d.Rat().Cmp(r) == 0 {
		return d
	}
	scaled := new(big.Rat).Mul(r, new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(flowPlaces), nil)))
	return decimal.NewFromBigInt(new(big.Int).Quo(scaled.Num(), scaled.Denom()), -flowPlaces)
}

// decimalOf is the decimal of a ratio: exact where it terminates within 18
// places, else to 16 significant digits.
func decimalOf(r *big.Rat) decimal.Decimal {
	for places := 0; places <= 18; places++ {
		text := r.FloatString(places)
		if back, ok := new(big.Rat).SetString(text); ok && back.Cmp(r) == 0 {
			return decimal.RequireFromString(text)
		}
	}
	whole := len(new(big.Int).Quo(r.Num(), r.Denom()).String())
	return decimal.RequireFromString(r.FloatString(max(0, 16-whole)))
}

// ratioText writes a ratio as a decimal where it terminates, else as a
// fraction.
func ratioText(r *big.Rat) string {
	d := decimalOf(r)
	if d.Rat().Cmp(r) == 0 {
		return d.String()
	}
	return r.RatString()
}

// Listed joins words as a sentence does: "a, b and c".
func Listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// joinWords joins what is not empty.
func joinWords(between string, words ...string) string {
	var said []string
	for _, word := range words {
		if word != "" {
			said = append(said, word)
		}
	}
	return strings.Join(said, between)
}
