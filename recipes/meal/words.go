package meal

import (
	"fmt"
	"strings"

	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/units"
)

// ParseLimit reads "butter=150 g". Its error is of the field limit.
func ParseLimit(text string, system units.System) (Limit, error) {
	item, value, found := strings.Cut(text, "=")
	item = strings.ToLower(strings.TrimSpace(item))
	if !found || item == "" {
		return Limit{}, units.WrongField("limit", text, "no ingredient and amount", "both, as butter=150 g")
	}
	amount, err := units.Parse(strings.TrimSpace(value), system)
	if err != nil {
		return Limit{}, units.InField("limit", text, err)
	}
	if amount.IsToTaste() || amount.IsRange() || amount.Sign() < 0 {
		return Limit{}, units.WrongField("limit", text, "a limit is one amount", "an ingredient and its most, as butter=150 g")
	}
	return Limit{Item: item, Amount: amount}, nil
}

// ParseKeepBack reads "500 g potato": the longest beginning that is a weight,
// and what it is of. Its error is of the field keep-back.
func ParseKeepBack(text string, system units.System) (KeepBack, error) {
	words := strings.Fields(text)
	for n := len(words) - 1; n > 0; n-- {
		weight, err := units.Parse(strings.Join(words[:n], " "), system)
		if err == nil && weight.Dimension() == units.Mass && weight.Sign() > 0 && !weight.IsRange() {
			return KeepBack{Crop: strings.Join(words[n:], " "), Weight: weight}, nil
		}
	}
	return KeepBack{}, units.WrongField("keep-back", text, "not a weight and a crop", "both, as 500 g potato")
}

// The air, in °C, that a meal is eaten in.
const coldestAir, hottestAir = -30, 55

// ParseAir reads the temperature where the food stands, in °C; "" is the
// kitchen's room. Its error is of the field air.
func ParseAir(text string, kitchen recipes.Kitchen) (float64, error) {
	if text == "" {
		return kitchen.RoomC, nil
	}
	air, err := keeping.ParseTemperature("air", text)
	if err == nil && (air.C < coldestAir || air.C > hottestAir) {
		err = units.WrongField("air", text, "no air a meal is eaten in", fmt.Sprintf("%d C to %d C", coldestAir, hottestAir))
	}
	return air.C, err
}

// Hold reads what there is little of ("butter=150 g") and what is held back
// ("500 g potato"). The first that does not read is a *units.FieldError.
func (q *Question) Hold(limits, keepBack []string) error {
	for _, text := range limits {
		limit, err := ParseLimit(text, q.Kitchen.Measures)
		if err != nil {
			return err
		}
		q.Limits = append(q.Limits, limit)
	}
	for _, text := range keepBack {
		back, err := ParseKeepBack(text, q.Kitchen.Measures)
		if err != nil {
			return err
		}
		q.KeepBack = append(q.KeepBack, back)
	}
	return nil
}
