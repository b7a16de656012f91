package render

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/recipes/heat"
	"trencher/recipes/meal"
)

func day(at time.Time) string { return at.Format("2 January") }

// span is a length of time, or nothing where there is none.
func span(m float64) string {
	if m <= 0 {
		return ""
	}
	return minutes(m)
}

// band is a time with its likely range: "8 min (6–12)".
func band(expected, low, high float64) string {
	text := span(expected)
	if text != "" && high > 0 {
		text += fmt.Sprintf(" (%d–%d)", knifeFrom(low), upTo(high))
	}
	return text
}

func portions(n int) string { return count(n, "portion", "portions") }

func planTitle(p meal.Plan) string {
	title := longDate(p.On)
	if !p.ServeAt.IsZero() {
		title += ", on the table at " + clockOn(p.ServeAt, p.On)
	}
	return title
}

// lifted is the weight as lifted and the lots it comes from.
func lifted(part meal.Part) string {
	if len(part.From) == 1 {
		return grams(part.Lifted) + " of " + part.From[0].Lot.Name
	}
	var from []string
	for _, take := range part.From {
		from = append(from, grams(take.Grams)+" of "+take.Lot.Name)
	}
	return joinNonEmpty(": ", grams(part.Lifted), strings.Join(from, " + "))
}

// steamWords is the steaming of one crop: the time first, then how to know.
func steamWords(part meal.Part) string {
	s := part.Steam
	return fmt.Sprintf("steam %s from %s, until %s; try a knife from %d min",
		band(s.Minutes, s.Low, s.High), sinceWords(s.Estimate), donenessWords(part.Piece.Until), knifeFrom(s.Low))
}

// donenessWords is how tender in the words of a kitchen.
func donenessWords(d heat.Doneness) string {
	switch d {
	case heat.JustTender:
		return "just tender"
	case heat.Soft:
		return "soft"
	}
	return "tender"
}

// loadWords says how the steamer is filled.
func loadWords(p meal.Plan, at meal.PartAt) string {
	load := partOfPlan(p, at).Steam.Load
	parts := []string{count(load.Layers, "layer", "layers")}
	if load.Layers > 1 {
		parts = append(parts, "about "+grams(decimal.NewFromFloat(load.GramsPerLayer))+" a layer")
	}
	if load.Rounds > 1 {
		parts = append(parts, count(load.Rounds, "round", "rounds"))
	}
	parts = append(parts, litres(load.WaterML)+" water")
	if load.GasG > 0 {
		parts = append(parts, fmt.Sprintf("%.0f g gas", math.Ceil(load.GasG)))
	}
	if with := togetherWith(p, at); len(with) > 0 {
		parts = append(parts, "together with "+listed(with))
	}
	return strings.Join(parts, ", ")
}

// sentence begins with a capital and ends with a full stop.
func sentence(text string) string {
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".!?") {
		return capital(text)
	}
	return capital(text) + "."
}

func joinNonEmpty(separator string, parts ...string) string {
	var kept []string
	for _, part := range parts {
		if part != "" {
			kept = append(kept, part)
		}
	}
	return strings.Join(kept, separator)
}
