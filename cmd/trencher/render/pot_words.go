package render

import (
	"fmt"
	"math"
	"strconv"

	"trencher/recipes/meal"
)

// potWords say how long a part boils or is blanched, by the heat model: the time
// first, then how to know.
func potWords(part meal.Part) string {
	pot := part.Pot
	since := "boiling again"
	if pot.BackToBoil == 0 {
		since = "when it goes in"
	}
	if pot.Blanched != nil {
		text := fmt.Sprintf("blanched %s from boiling again", minutesFine(pot.Minutes))
		if pot.IceMinutes > 0 {
			text += fmt.Sprintf(", %s in ice water (%s of ice)", minutes(pot.IceMinutes), iceWords(pot.IceG))
		}
		return text
	}
	text := fmt.Sprintf("boiled %s from %s, knife from %d, up to %d", minutes(pot.Minutes), since, knifeFrom(pot.Low), upTo(pot.High))
	if pot.AtLeast > 0 {
		text += fmt.Sprintf(", never under %s", lengthWords(pot.AtLeast))
	}
	return text
}

// potLine adds what the pot takes.
func potLine(part meal.Part) string {
	return fmt.Sprintf("%s; %s, %s of water", potWords(part), count(part.Pot.Rounds, "pot", "pots"), litres(part.Pot.WaterML))
}

// iceWords are grams of ice to two figures, rounded up: they are to be enough.
func iceWords(g float64) string {
	if g >= 1000 {
		return strconv.FormatFloat(math.Ceil(g/100-slip)/10, 'f', -1, 64) + " kg"
	}
	return twoFigures(g) + " g"
}

// partPotJSON is the cooking of a part in boiling water; minutes count from when it
// boils again.
type partPotJSON struct {
	Minutes       float64 `json:"minutes"`
	Low           float64 `json:"low"`
	High          float64 `json:"high"`
	BackToBoil    float64 `json:"back_to_boil_minutes"`
	FromLoading   float64 `json:"from_loading"`
	ToBoil        float64 `json:"to_boil_minutes"`
	WaterML       float64 `json:"water_ml"`
	Rounds        int     `json:"rounds"`
	GramsPerRound float64 `json:"grams_per_round"`
	IceG          float64 `json:"ice_g,omitempty"`
	IceMinutes    float64 `json:"cool_minutes,omitempty"`
}

func potOf(p *meal.Pot) *partPotJSON {
	if p == nil {
		return nil
	}
	return &partPotJSON{Minutes: tenth(p.Minutes), Low: tenth(p.Low), High: tenth(p.High), BackToBoil: tenth(p.BackToBoil), FromLoading: tenth(p.FromLoading()),
		ToBoil: tenth(p.ToBoil), WaterML: tenth(p.WaterML), Rounds: p.Rounds, GramsPerRound: tenth(p.GramsPerRound), IceG: tenth(p.IceG), IceMinutes: tenth(p.IceMinutes)}
}
