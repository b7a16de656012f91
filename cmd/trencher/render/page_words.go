package render

import (
	"fmt"

	"github.com/shopspring/decimal"

	"trencher/cmd/trencher/ask"
)

// Weight writes grams as every face does: whole grams, from one kilogram on
// kilograms to ten grams.
func Weight(g decimal.Decimal) string { return grams(g) }

// SteamLines is the answer to how long one cut takes, first in one sentence,
// then what to know with it. The answer must hold an estimate.
func SteamLines(a ask.SteamAnswer) (answer string, lines []string) {
	e := a.Estimate
	expected, low, high := e.Clock()
	answer = fmt.Sprintf("%s from %s; try a knife from %s.", minutesFine(expected), sinceWords(*e), knifeFromFine(low))
	about := fmt.Sprintf("%s, %s, until %s. It may take %s.", capital(e.Crop.Title()), e.Cut, e.Doneness, upToFine(high))
	if e.FreeFirst {
		about += fmt.Sprintf(" Full steam comes %s after putting them in.", minutesFine(e.ComeUp))
	}
	lines = append(lines, about)
	if text := outerWords(*e); text != "" {
		lines = append(lines, text)
	}
	for _, text := range e.Outside {
		lines = append(lines, "Outside the checked range: "+text+".")
	}
	if l := a.Load; l != nil {
		lines = append(lines, layersWords(*l),
			fmt.Sprintf("Water %s, %s to the boil; %s in all.", millilitres(l.WaterML), minutes(l.ToBoil), minutes(l.TotalMinutes)))
		if l.GasG > 0 {
			lines = append(lines, fmt.Sprintf("Gas: about %.0f g of %s, up to %.0f g.", l.GasG, l.Fuel, l.GasLongestG))
		}
	}
	if a.Learned.Tests > 0 {
		lines = append(lines, learnedWords(a.Learned))
	} else {
		lines = append(lines, "No knife tests yet in this kitchen: printed times for one piece differ widely.")
	}
	return answer, lines
}
