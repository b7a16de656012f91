package render

import (
	"cmp"
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/cmd/trencher/ask"
	"trencher/units"
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
		text += fmt.Sprintf(" (%.0f–%.0f)", math.Floor(low), math.Ceil(high))
	}
	return text
}

// gradedSizes is the riddle band, or nothing for a lot that is not graded.
func gradedSizes(low, high int) string {
	if low == 0 && high == 0 {
		return ""
	}
	return sizes(low, high)
}

func portions(n int) string { return count(n, "portion", "portions") }

func planTitle(p ask.Plan) string {
	title := longDate(p.On)
	if !p.ServeAt.IsZero() {
		title += ", on the table at " + clockOn(p.ServeAt, p.On)
	}
	return title
}

// lifted is the weight as lifted and the lots it comes from.
func lifted(part ask.CropPart) string {
	if len(part.From) == 1 {
		return grams(part.Lifted) + " of " + cmp.Or(part.From[0].Name, part.From[0].Lot)
	}
	text := grams(part.Lifted)
	for i, take := range part.From {
		if i == 0 {
			text += ": "
		} else {
			text += " + "
		}
		text += grams(take.Grams) + " of " + cmp.Or(take.Name, take.Lot)
	}
	return text
}

// steamWords is the steaming of one crop: the time first, then how to know.
func steamWords(s ask.Steam, until string) string {
	text := "steam " + band(s.Minutes, s.Low, s.High) + " from full steam"
	if until != "" {
		text += ", until " + strings.ReplaceAll(until, "-", " ")
	}
	return text + fmt.Sprintf("; try a knife from %.0f min", math.Max(1, math.Floor(s.Low)))
}

// loadWords says how the steamer is filled.
func loadWords(s ask.Steam) string {
	var parts []string
	if s.Layers > 0 {
		parts = append(parts, count(s.Layers, "layer", "layers"))
	}
	if s.GramsPerLayer > 0 && s.Layers > 1 {
		parts = append(parts, "about "+grams(decimal.NewFromFloat(s.GramsPerLayer))+" a layer")
	}
	if s.Rounds > 1 {
		parts = append(parts, count(s.Rounds, "round", "rounds"))
	}
	if s.WaterML > 0 {
		parts = append(parts, fmt.Sprintf("%.0f ml water", math.Ceil(s.WaterML/10)*10))
	}
	if s.GasG > 0 {
		parts = append(parts, fmt.Sprintf("%.0f g gas", math.Ceil(s.GasG)))
	}
	if len(s.With) > 0 {
		parts = append(parts, "together with "+ask.Listed(s.With))
	}
	return strings.Join(parts, ", ")
}

// exactly is the exact amount behind a rounded measure.
func exactly(line ask.Line) string {
	digits := line.Exact
	if digits == "" && line.Low != "" {
		digits = line.Low + "–" + line.High
	}
	if digits == "" {
		return ""
	}
	text := strings.TrimSpace("exactly " + digits + " " + units.KitchenWord(line.Unit))
	if line.Flag {
		text += ": more than a tenth off"
	}
	return text
}

// gathered puts the notes about one thing ("salad: dress it cold") behind one
// mention of it.
func gathered(notes []string) []string {
	var all []string
	subject := ""
	for _, note := range notes {
		about, says, found := strings.Cut(note, ": ")
		if found && about == subject {
			all[len(all)-1] += " " + capital(says)
			continue
		}
		subject = ""
		if found {
			subject = about
		}
		all = append(all, note)
	}
	return all
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
