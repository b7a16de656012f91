package render

import "github.com/shopspring/decimal"

// Weight writes grams as every face does: whole grams, from one kilogram on
// kilograms to ten grams.
func Weight(g decimal.Decimal) string { return grams(g) }
