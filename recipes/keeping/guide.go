package keeping

import (
	"fmt"
	"slices"
)

// Guidance is the general guidance on a food, with no batch in hand. Its figures
// are the strictest ones, unless a line says whose they are.
type Guidance struct {
	Food     Food
	Short    string // the answer in one line
	Sections []Section
	Cautions []string
}

// Freezing is the guidance on what goes into a freezer, whatever the food.
func Freezing() Section { return library.sections[library.freezing] }

// Guide gives the guidance on a food by any of its names, on a crop, or on what is
// in a dish by its name; on a food no rule knows that of the strictest limits. A word
// that is nearly a food's name is a [*units.FieldError] that names it.
func Guide(food string) (Guidance, error) {
	f, err := LookupFood(food)
	if err != nil {
		called, wrong := NameFood(food)
		if wrong != nil {
			return Guidance{}, wrong
		}
		if f, err = LookupFood(called.Food); err != nil {
			return Guidance{}, err
		}
		if called.Called != "" {
			f.Short = fmt.Sprintf("No rule knows %q. %s", food, f.Short)
		}
	}
	return Guidance{Food: f, Short: f.Short, Sections: f.guidance(), Cautions: Cautions(false)}, nil
}

// Rules lists the rules the guidance rests on, each once, in order.
func (g Guidance) Rules() []string {
	ids := joined(nil, g.Food.Cites)
	for _, s := range g.Sections {
		for _, line := range s.Lines {
			ids = joined(ids, line.Rules)
		}
	}
	return ids
}

// With adds the limits of one authority to the guidance, as a section of its
// own; the strictest is what the guidance tells anyway.
func (g Guidance) With(a Authority) Guidance {
	if a == Strictest || !g.Food.Cooked {
		return g
	}
	j := &judging{food: g.Food, limits: LimitsOf(a)}
	j.narrow(a)
	g.Sections = append(slices.Clone(g.Sections), Section{Name: "Narrowed to the rules of " + a.name(), Lines: j.limits.inWords()})
	return g
}

// inWords tells limits as lines of guidance.
func (l Limits) inWords() []Reason {
	lines := []Reason{
		{Says: fmt.Sprintf("In the fridge within %s; the fridge at %s or colder.", spanWords(l.Cooling.Most), degrees(l.Fridge.C)), Rules: joined(l.Cooling.Rules, l.Fridge.Rules)},
		{Says: fmt.Sprintf("Out of the fridge %s in all it may go back; it may be eaten out there %s.", l.Back.words(), l.Eat.words()), Rules: joined(l.Back.Rules, l.Eat.Rules)},
		{Says: fmt.Sprintf("Eaten within %s of cooking; by vulnerable people within %s.", spanWords(l.Life.Most), spanWords(l.LifeVulnerable.Most)), Rules: joined(l.Life.Rules, l.LifeVulnerable.Rules)},
		{Says: fmt.Sprintf("Kept hot at %s or hotter; heated up to %s.", degrees(l.Hot.C), l.ReheatWords), Rules: joined(l.Hot.Rules, l.Reheat.Rules)},
	}
	if l.HotAir.IsSet() {
		lines = append(lines, Reason{Says: fmt.Sprintf("In air above %s half the time out.", degrees(l.HotAir.C)), Rules: l.HotAir.Rules})
	}
	return lines
}

// guidance is what the library says of a food.
func (f Food) guidance() []Section {
	var sections []Section
	for _, at := range f.sections {
		sections = append(sections, library.sections[at])
	}
	return sections
}
