package meal

import (
	"cmp"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/units"
)

// NextWords asks what to plant, as it was typed.
type NextWords struct {
	Season int      // 0: the one that is usual
	For    string   // who will eat; "" = the kitchen's household
	Eat    []string // "late maincrop potato, 3 a week, 26 weeks"
}

// Read makes the question of the words, for a kitchen's household and a usual
// season. Its errors are units.FieldErrors of for and eat.
func (w NextWords) Read(household []recipes.Guests, usual int) (q harvest.NextQuestion, err error) {
	q.Year = cmp.Or(w.Season, usual)
	if err = harvest.CheckSeasons(q.Year); err != nil {
		return q, err
	}
	people := household
	if w.For != "" {
		if people, err = recipes.ParseEaters(w.For); err != nil {
			return q, recipes.NotWhoEats(w.For)
		}
		switch {
		case len(household) == 0 && len(w.Eat) == 0:
			return q, units.WrongField("for", w.For, "more or fewer than who? The kitchen names no household to compare with", "household: 2 adults in kitchen.yaml, or leave it out")
		case len(household) > 0:
			q.People = recipes.HelpingsOf(people) / recipes.HelpingsOf(household)
		}
	}
	for _, text := range w.Eat {
		a, err := harvest.ParseAppetite(text)
		if err != nil {
			return q, err
		}
		a.Helpings, a.Prepared = recipes.HelpingsOf(people), recipes.OnThePlate(a.Crop, a.Portion.Cooked)
		if a.Helpings == 0 {
			return q, units.WrongField("eat", text, "for nobody: the kitchen names no household", `who eats, as --for "2 adults, 1 child", or household: in kitchen.yaml`)
		}
		q.Eat = append(q.Eat, a)
	}
	return q, nil
}
