package meal

import (
	"math/big"
	"slices"

	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/schedule"
)

// Apart is what of a dish is set apart for guests whom stricter rules hold for,
// before what they must not have goes in: the rule vulnerable-table.
type Apart struct {
	Dish     string
	Guest    recipes.Guests
	People   int
	Portions *big.Rat // a child's is a half
	Without  []string // the ingredients of the dish that do not go in
	Why      string   // what it has that is not for them, and what they get instead
	Step     string   // the step in which it is set apart, by ID; "" where there is no timetable
	Clock    Clock    // of what is set apart, by the rules of who eats it; zero where nothing of it is cooked
}

// suiting is how a dish suits a guest.
type suiting struct {
	asMade  bool
	why     string // why not as it is made
	apart   bool   // a portion set apart would
	without []string
}

// suitingOf tells how a dish suits a guest. A portion is set apart for who a guest
// is, never for what they do not eat: what an allergy is to is not put beside what
// is to be without it.
func suitingOf(dish recipes.Dish, m Makeup, g recipes.Guests) suiting {
	var s suiting
	if s.asMade, s.why = suitsGuest(dish, m, g); s.asMade || unfitFor(dish, m, g) == "" {
		return s
	}
	var words []string
	for _, unfit := range dish.UnfitFor(g.Conditions()) {
		words = append(words, unfit.Words)
	}
	rest, without, ok := dish.Without(append(words, m.Kinds.NotForVulnerable()...))
	if ok {
		s.apart, _ = suitsGuest(rest, MakeupOf(rest), g)
		s.without = without
	}
	return s
}

// apartsOf lists what is set apart of the dishes that are made, for whom the
// plates have it.
func (p *Plan) apartsOf(q Question, steps []Step) ([]Apart, error) {
	var all []Apart
	for _, plate := range p.Plates {
		for _, name := range plate.Apart {
			at := slices.IndexFunc(all, func(a Apart) bool { return a.Dish == name && a.Guest.IsLike(plate.Guest) })
			if at < 0 {
				d := slices.IndexFunc(p.Dishes, func(d Dish) bool { return d.Name() == name })
				one, err := apartOf(q, p.Dishes[d], plate.Guest, steps)
				if err != nil {
					return nil, err
				}
				at, all = len(all), append(all, one)
			}
			all[at].People += plate.Number
			all[at].Portions.Add(all[at].Portions, new(big.Rat).Mul(helping(plate.Guest), big.NewRat(int64(plate.Number), 1)))
		}
	}
	return all, nil
}

func helping(g recipes.Guests) *big.Rat {
	if g.Child {
		return big.NewRat(1, 2)
	}
	return big.NewRat(1, 1)
}

// apartOf is what is set apart of one dish for a guest, with nobody counted yet. Its
// clock is that of the dish without the foods that are not for them.
func apartOf(q Question, dish Dish, g recipes.Guests, steps []Step) (Apart, error) {
	suits := suitingOf(dish.Recipe, dish.Makeup, g)
	one := Apart{Dish: dish.Name(), Guest: g, Portions: new(big.Rat), Without: suits.without, Why: suits.why}
	for _, step := range steps {
		if slices.Contains(step.Dishes, dish.Name()) && (step.Kind == schedule.Dress || step.Kind == schedule.Finish) {
			one.Step = step.ID
		}
	}
	history := planned(dish, steps, q.Kitchen.ColdBox)
	if history.History.CookedAt.IsZero() {
		return one, nil
	}
	foods := slices.DeleteFunc(slices.Clone(dish.Makeup.Kinds.Foods), func(food string) bool { return keeping.NotForVulnerable([]string{food}) != "" })
	if len(foods) == 0 { // the kind of the rest, cooked
		rest, _, _ := dish.Recipe.Without(nil)
		foods = KindsOf(rest).Foods
	}
	history.History.Food, history.History.Also, history.History.Vulnerable = foods[0], foods[1:], true
	clock, err := clockOf(q.facts(q.ServeAt), history)
	one.Clock = clock
	return one, err
}

// unfitFor is why a dish that a guest's diet allows is not for them by who they
// are; "" where it is.
func unfitFor(dish recipes.Dish, m Makeup, g recipes.Guests) string {
	if !g.Conditions().Weak() {
		return ""
	}
	anybody := g
	anybody.Diet.Conditions, anybody.OverFive = 0, true
	if suits, _ := suitsGuest(dish, m, anybody); !suits {
		return ""
	}
	_, why := suitsGuest(dish, m, g)
	return why
}

// cutFor is what of a dish is cut or ground for a child of untold age; "" where
// nothing is.
func cutFor(dish recipes.Dish, m Makeup, g recipes.Guests) string {
	if g.Conditions()&recipes.AgeUntold == 0 {
		return ""
	}
	g.Diet.Conditions |= recipes.UnderFive
	return unfitFor(dish, m, g)
}

// apartWarnings tell which of the dishes made are not for somebody whom stricter
// rules hold for, and what of them is set apart instead; a portion set apart that may
// not be eaten any more is a danger.
func (p *Plan) apartWarnings(q Question) []Warning {
	var warnings []Warning
	for _, g := range q.Guests {
		for _, dish := range p.Dishes {
			if w, amiss := p.apartWarning(dish, g); amiss {
				warnings = append(warnings, w)
			}
		}
	}
	for _, one := range p.Apart {
		if !one.Clock.Holds && one.Clock.Dish != "" {
			warnings = append(warnings, Warning{Severity: Danger, Concern: ClockBroken, Dish: one.Dish, Rule: one.Clock.Rule, Clock: one.Clock, Guest: one.Guest, Apart: one})
		}
	}
	return warnings
}

// apartWarning tells that a dish is not for a guest as it is made; amiss is false
// where it is.
func (p *Plan) apartWarning(dish Dish, g recipes.Guests) (w Warning, amiss bool) {
	w = Warning{Severity: Notice, Dish: dish.Name(), Guest: g}
	if w.Says = unfitFor(dish.Recipe, dish.Makeup, g); w.Says == "" {
		w.Concern, w.Rule, w.Says = CutSmall, "vulnerable-who", cutFor(dish.Recipe, dish.Makeup, g)
		return w, w.Says != ""
	}
	w.Concern, w.Rule = SetApart, "vulnerable-table"
	if at := slices.IndexFunc(p.Apart, func(a Apart) bool { return a.Dish == w.Dish && a.Guest.IsLike(g) }); at >= 0 {
		w.Apart = p.Apart[at]
	}
	return w, true
}
