package keeping

import (
	"fmt"
	"strings"
	"time"
)

// PlanFacts are a plan's dishes and times, from which PlanNotes tells the
// rules they trigger.
type PlanFacts struct {
	Dishes     []PlanDish
	TableFrom  time.Time   // the serving time
	Air        Temperature // at the table; unknown counts as mild
	Fridge     Temperature
	Vulnerable bool // somebody at the table is
	Authority  Authority
}

// PlanDish is one dish of a plan. Times that are zero are not planned.
type PlanDish struct {
	Name      string
	Food      string    // as LookupFood reads it; FoodOf finds it from a recipe
	CookedAt  time.Time // the end of steaming
	DressedAt time.Time
	ChilledAt time.Time // in the fridge before serving
	// Heaped and Spread are how long it takes to be cool enough for the
	// fridge in its bowl and in one layer on a tray, at the latest; zero
	// where there is no estimate.
	Heaped, Spread time.Duration
}

// Note is one thing a plan's rules ask for, with the clock time in its words.
type Note struct {
	Dishes []string
	At     time.Time // the moment it is about; zero when none
	Rule   string    // the rule that decides
	Rules  []string  // all it rests on, Rule first
	Says   string
}

// PlanNotes tells what the keeping rules ask of a plan, in the order of its
// dishes. A food it does not know or an unknown authority is a
// [*units.FieldError].
func PlanNotes(facts PlanFacts) ([]Note, error) {
	authority, err := ParseAuthority(string(facts.Authority))
	if err != nil {
		return nil, err
	}
	facts.Authority = authority
	var notes []Note
	for _, dish := range facts.Dishes {
		food, err := LookupBatchFood(dish.Food)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", dish.Name, err)
		}
		p := newPlanning(facts, dish, food)
		p.tell()
		notes = append(notes, p.notes...)
	}
	return append(grouped(notes), narrowedNote(authority)...), nil
}

// narrowedNote says so when a plan keeps one authority's rules alone.
func narrowedNote(a Authority) []Note {
	if a == Strictest {
		return nil
	}
	rules := joined(LimitsOf(a).Eat.Rules, LimitsOf(a).Life.Rules)
	says := "Narrowed to the rules of " + a.name() + "; the strictest of all allow less."
	return []Note{{Rule: rules[0], Rules: rules, Says: says}}
}

// planning is one dish of a plan; it shares the limits and the weighing of
// air with a batch under judgement.
type planning struct {
	judging
	facts PlanFacts
	dish  PlanDish
	notes []Note
}

func newPlanning(facts PlanFacts, dish PlanDish, food Food) *planning {
	p := &planning{facts: facts, dish: dish}
	p.food, p.limits = food, LimitsOf(facts.Authority)
	p.Vulnerable, p.Air = facts.Vulnerable, facts.Air
	p.narrow()
	p.now = facts.TableFrom
	if p.now.IsZero() {
		p.now = dish.CookedAt
	}
	return p
}

func (p *planning) note(at time.Time, says string, rules ...[]string) {
	ids := joined(nil, rules...)
	p.notes = append(p.notes, Note{Dishes: []string{p.dish.Name}, At: at, Rule: ids[0], Rules: ids, Says: says})
}

func (p *planning) tell() {
	if p.dish.CookedAt.IsZero() {
		return
	}
	if p.Vulnerable && p.food.notVulnerable != "" {
		p.note(time.Time{}, "not for the vulnerable at the table; it has raw egg.", []string{p.food.notVulnerable})
	}
	if p.chilledFirst() {
		p.tellCooling()
		p.tellDressing()
		p.tellTable()
	} else {
		p.tellStraight()
	}
	p.tellLeft()
	for _, w := range p.food.Warnings {
		p.note(time.Time{}, uncapital(w.Says), w.Rules)
	}
	if p.facts.Fridge.Known && p.facts.Fridge.C > p.limits.Fridge.C {
		p.note(time.Time{}, fmt.Sprintf("the fridge at %s is too warm to keep it in; %s at most.", degrees(p.facts.Fridge.C), degrees(p.limits.Fridge.C)), p.limits.Fridge.Rules)
	}
}

// chilledFirst tells that the dish goes into the fridge before the table.
func (p *planning) chilledFirst() bool {
	return !p.dish.ChilledAt.IsZero() && (p.facts.TableFrom.IsZero() || p.dish.ChilledAt.Before(p.facts.TableFrom))
}

func (p *planning) weight() time.Duration { return time.Duration(max(1, p.weightIn(p.Air))) }

// coolBy is the last moment for the fridge.
func (p *planning) coolBy() time.Time { return p.dish.CookedAt.Add(p.limits.Cooling.Most / p.weight()) }

func (p *planning) tellCooling() {
	deadline, d := p.coolBy(), p.dish
	allowed := deadline.Sub(d.CookedAt)
	says := fmt.Sprintf("cooked at %s, in the fridge by %s.", p.at(d.CookedAt), p.at(deadline))
	rules := [][]string{p.limits.Cooling.Rules, p.hotAirRules()}
	switch {
	case d.Heaped > 0 && d.Heaped <= allowed:
		says += " In its bowl it cools in time."
	case d.Spread > 0 && d.Spread <= allowed:
		says += " Spread it one layer deep on a tray"
		if d.Heaped > 0 {
			says += fmt.Sprintf("; heaped in a bowl it would take %s", spanWords(d.Heaped))
		}
		says += "."
		rules = append(rules, []string{"cool-spread-steamed", "cool-square-law"})
	case d.Spread > 0:
		says += fmt.Sprintf(" Even spread out it takes %s; cut it smaller, or stand the tray in cold water.", spanWords(d.Spread))
		rules = append(rules, []string{"cool-ice-bath"})
	}
	if d.ChilledAt.After(deadline) {
		says += fmt.Sprintf(" The plan has it there at %s only, too late to keep.", p.at(d.ChilledAt))
	}
	p.note(deadline, says, rules...)
}

func (p *planning) tellDressing() {
	if p.dish.DressedAt.IsZero() {
		return
	}
	p.note(p.dish.DressedAt, fmt.Sprintf("dress it cold, at %s, and back into the fridge until serving.", p.at(p.dish.DressedAt)), []string{"mix-oldest-ingredient", "mayo-no-shield"})
}

// tellTable is about a dish that comes to the table from the fridge.
func (p *planning) tellTable() {
	from := p.facts.TableFrom
	if from.IsZero() {
		return
	}
	w, l := p.weight(), p.limits
	back, eat := from.Add(l.Back.Most/w), from.Add(l.Eat.Most/w)
	says := fmt.Sprintf("on the table from %s; eaten by %s%s, and then thrown out.", p.at(from), p.at(eat), p.airWords())
	if back.Before(eat) {
		says = fmt.Sprintf("on the table from %s; back in the fridge before %s, or eaten by %s%s and then thrown out.", p.at(from), p.at(back), p.at(eat), p.airWords())
	} else if l.Back.Under || back.Equal(eat) {
		says = fmt.Sprintf("on the table from %s; eaten or back in the fridge before %s%s, else thrown out.", p.at(from), p.at(back), p.airWords())
	}
	p.note(eat, says, l.Back.Rules, l.Eat.Rules, p.hotAirRules())
}

// tellStraight is about a dish that goes from the stove to the table.
func (p *planning) tellStraight() {
	w, l, d := p.weight(), p.limits, p.dish
	cold, eat := p.coolBy(), d.CookedAt.Add(l.Eat.Most/w)
	says := fmt.Sprintf("cooked at %s; eaten or in the fridge by %s%s, unless it is kept at %s or hotter.", p.at(d.CookedAt), p.at(cold), p.airWords(), degrees(l.Hot.C))
	if cold.Before(eat) {
		says += fmt.Sprintf(" After that it may be eaten until %s, but not kept.", p.at(eat))
	}
	p.note(cold, says, l.Cooling.Rules, l.Eat.Rules, l.Hot.Rules, p.hotAirRules())
}

// tellLeft is about what is left over.
func (p *planning) tellLeft() {
	end := p.dish.CookedAt.Add(p.limits.Life.Most)
	says := fmt.Sprintf("what is left and went back in time is eaten by %s", p.at(end))
	rules := [][]string{p.limits.Life.Rules}
	if p.food.Reheats {
		says += ", heated up once, to " + p.limits.ReheatWords
		rules = append(rules, p.limits.Reheatings.Rules, p.limits.Reheat.Rules)
	}
	p.note(end, says+".", rules...)
}

func (p *planning) hotAirRules() []string {
	if p.limits.HotAir.IsSet() && (!p.Air.Known || p.weight() == 2) {
		return p.limits.HotAir.Rules
	}
	return nil
}

// airWords tells what the air does to the time.
func (p *planning) airWords() string {
	hot := p.limits.HotAir
	switch {
	case !hot.IsSet():
		return ""
	case p.weight() == 2:
		return fmt.Sprintf(" (half the time, in air of %s)", degrees(p.Air.C))
	case !p.Air.Known:
		return fmt.Sprintf(" (half that time in air above %s)", degrees(hot.C))
	}
	return ""
}

// grouped joins notes that say the same of several dishes, and puts the names
// of the dishes before the words.
func grouped(notes []Note) []Note {
	var joinedNotes []Note
	place := map[string]int{}
	for _, n := range notes {
		if i, ok := place[n.Says]; ok {
			joinedNotes[i].Dishes = joined(joinedNotes[i].Dishes, n.Dishes)
			continue
		}
		place[n.Says] = len(joinedNotes)
		joinedNotes = append(joinedNotes, n)
	}
	for i := range joinedNotes {
		joinedNotes[i].Says = strings.Join(joinedNotes[i].Dishes, ", ") + ": " + joinedNotes[i].Says
	}
	return joinedNotes
}

// StandingNotes are the cautions of the stove and the sink that go with any
// plan, whatever its dishes; Cautions has those on eating.
func StandingNotes() []Note {
	var notes []Note
	for _, one := range []struct{ rule, says string }{
		{"stove-co", "A gas stove, lit or still warm, stays outdoors, never in a tent, awning, caravan, shed or greenhouse; carbon monoxide cannot be seen or smelt."},
		{"steam-lid", "Steam scalds: flame down, lid up far edge first, face and arms back; top up with hot water only."},
		{"scald-20min", "A scald goes under cool running water for 20 minutes."},
		{"green-bitter-discard", "Throw out green, bitter or strongly sprouted potatoes, and pour the steaming water away."},
		{"wash-soil-off", "Scrub the soil off away from food that is ready to eat; then wash hands, board and sink."},
	} {
		notes = append(notes, Note{Rule: one.rule, Rules: []string{one.rule}, Says: one.says})
	}
	return notes
}

// Recipe is what FoodOf looks at.
type Recipe struct {
	Name   string
	Cold   bool     // served cold
	Crops  []string // the weighed crops
	Items  []string // the other ingredients, with their state: "egg hard-boiled"
	Method []string
}

// FoodOf finds the food whose rules a recipe falls under; where its words
// leave it open, the stricter one.
func FoodOf(r Recipe) string {
	method := strings.ToLower(r.Name + " " + strings.Join(r.Method, " "))
	switch {
	case strings.Contains(method, "in foil"):
		return "baked-in-foil"
	case rawEgg(r):
		return "dressed-salad-raw-egg"
	case r.Cold:
		return "dressed-salad"
	case strings.Contains(method, "mash"):
		return "mash"
	}
	for _, crop := range r.Crops {
		if strings.Contains(strings.ToLower(crop), "potato") {
			return "boiled-potatoes"
		}
	}
	return "cooked-vegetables"
}

// rawEgg tells that a recipe may have raw egg in it: an egg that is not said
// to be cooked, or mayonnaise made at home.
func rawEgg(r Recipe) bool {
	for _, item := range r.Items {
		item = strings.ToLower(item)
		egg := strings.Contains(item, "egg") && !strings.Contains(item, "eggplant") && !strings.Contains(item, "egg-free")
		cooked := false
		for _, word := range []string{"boiled", "cooked", "poached", "fried", "scrambled"} {
			cooked = cooked || strings.Contains(item, word)
		}
		homeMade := strings.Contains(item, "mayonnaise") && (strings.Contains(item, "home-made") || strings.Contains(item, "homemade"))
		if egg && !cooked && (r.Cold || strings.Contains(item, "raw")) || homeMade {
			return true
		}
	}
	return false
}

func uncapital(text string) string {
	if len(text) < 2 || text[1] >= 'A' && text[1] <= 'Z' {
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}
