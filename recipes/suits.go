package recipes

import (
	"fmt"
	"slices"
	"strings"

	"trencher/units"
)

// apply lays what the dish file says over what the table knows: the label has
// been read, so nothing else is suspected.
func (s stated) apply(c Composition) Composition {
	if !s.said {
		return c
	}
	c.contains |= s.contains
	c.may = 0
	if !c.Known {
		c.Known, c.Provenance = true, units.Provenance{Source: "the dish file's `contains`", KnownBy: "read"}
	}
	return c
}

// Composition is what the crop holds: the table, then the dish file's word.
func (c CropLine) Composition() Composition { return c.stated.apply(Allergens(c.Crop)) }

// Composition is what the ingredient holds, in its state ("dried" apricots
// carry sulphites, fresh ones none): the table, then the dish file's word.
func (o OtherLine) Composition() Composition { return stateOf(o.Item, o.State, o.stated) }

// Composition is what the alternative holds.
func (a Alternative) Composition() Composition { return stateOf(a.Item, a.State, a.stated) }

// stateOf is an ingredient with what the words of its state bring ("fried in
// butter"), and, where the table does not know it, those of its name: the dish
// file's word never overrules them.
func stateOf(item, state string, said stated) Composition {
	known := inState(item, state)
	c := said.apply(known).bring(state)
	if !known.Known {
		c = c.bring(item)
	}
	return c
}

func inState(item, state string) Composition {
	if row, ok := ingredientNamed(fold(state + " " + item)); ok && state != "" {
		c := *row
		c.Item = item
		return c
	}
	return Allergens(item)
}

// part is one thing that goes, or may go, into the dish.
type part struct {
	Composition
	perhaps bool   // only an alternative
	called  string // "butter", "mayonnaise (instead of plain yoghurt)"
}

// Makeup is all that goes, or may go, into a dish, by its lines and by the words of its
// name, steps and remarks: read once where many ask of it. See [Dish.Makeup].
type Makeup struct {
	dish  Dish
	parts []part
}

// Makeup reads everything the cook may put in, optional ingredients and
// alternatives counted.
func (d Dish) Makeup() Makeup { return Makeup{d, d.parts()} }

func (d Dish) parts() []part {
	var parts []part
	for _, c := range d.Crops {
		parts = append(parts, part{Composition: c.Composition(), called: c.Crop})
	}
	for _, o := range d.Others {
		called := o.Item
		if o.Optional {
			called += " (optional)"
		}
		parts = append(parts, part{Composition: o.Composition(), called: called, perhaps: o.Optional})
		parts = append(parts, o.stated.unknownIn(o.Item, o.State)...)
		for _, a := range o.Instead {
			parts = append(parts, part{Composition: a.Composition(), perhaps: true, called: a.Item + " (instead of " + o.Item + ")"})
			parts = append(parts, a.stated.unknownIn(a.Item, a.State)...)
		}
	}
	return append(parts, d.told()...)
}

// unknownIn are the foods nobody knows among the words of an ingredient's state,
// unless the dish file says what it holds.
func (s stated) unknownIn(item, state string) []part {
	var parts []part
	if !s.said {
		for _, word := range unknownServed(state) {
			parts = append(parts, part{called: item + " (" + word + ")", Composition: Composition{Item: word, may: everything, served: true}})
		}
	}
	return parts
}

// Allergens lists which of the fourteen the dish surely contains and which it
// may contain besides, in Annex II's order. An ingredient that is not in the
// table and of which the dish file says nothing may contain all of them;
// optional ingredients and alternatives count as "may".
func (d Dish) Allergens() (contains, may []Allergen) { return d.Makeup().Allergens() }

// Allergens are those of [Dish.Allergens].
func (m Makeup) Allergens() (contains, may []Allergen) {
	sure, perhaps := m.marks()
	return sure.allergens(), (perhaps &^ sure).allergens()
}

func (m Makeup) marks() (sure, perhaps marks) {
	for _, p := range m.parts {
		perhaps |= p.contains | p.may
		if !p.perhaps {
			sure |= p.contains
		}
	}
	return sure, perhaps
}

// Suits reports whether every guest of the diet may eat the dish as the file
// has it, optional ingredients and alternatives included, and if not, which
// ingredients stand in the way. What may be in it counts as in it.
func (d Dish) Suits(diet Diet) (suits bool, reason string) {
	if diet.EatsAnything() {
		return true, ""
	}
	return d.Makeup().Suits(diet)
}

// Suits reports what [Dish.Suits] does.
func (m Makeup) Suits(diet Diet) (suits bool, reason string) {
	if diet.EatsAnything() {
		return true, ""
	}
	var reasons []string
	for _, unfit := range m.dish.UnfitFor(diet.Conditions) {
		reasons = append(reasons, fmt.Sprintf("has %s; for them %s", unfit.Words, unfit.Instead))
	}
	if food := m.dish.leftOut(diet); food != "" {
		reasons = append(reasons, "has "+food)
	}
	for _, p := range m.parts {
		if diet.avoid == 0 && diet.without == "" {
			break // nothing of what is in it matters to them
		}
		if why := p.against(diet); why != "" && !slices.Contains(reasons, why) {
			reasons = append(reasons, why)
		}
	}
	return len(reasons) == 0, strings.Join(reasons, "; ")
}

// against says why a part does not suit the diet; "" when it does.
func (p part) against(diet Diet) string {
	if !p.Known {
		if other := meant(p.Item, Ingredients()); other != "" {
			return fmt.Sprintf("%s is not in the table and may contain anything: write %s if that is meant, else add `contains:` to its line", p.called, other)
		}
		return fmt.Sprintf("%s is not in the table and may contain anything: add `contains:` to its line", p.called)
	}
	var why []string
	if words := p.words(p.contains & diet.avoid); words != nil {
		why = append(why, "contains "+joinAnd(words))
	}
	if words := p.words(p.may &^ p.contains & diet.avoid); words != nil {
		why = append(why, "may contain "+joinAnd(words))
	}
	if why == nil {
		return ""
	}
	return p.called + " " + strings.Join(why, " and ")
}

// words names marks as they sit in this part: what cheese has of meat is
// rennet.
func (p part) words(m marks) []string {
	words := m.words()
	if at := slices.Index(words, "meat"); at >= 0 && p.contains&mark(Milk) != 0 {
		words[at] = "animal rennet"
	}
	return words
}

func joinAnd(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// Unknown lists the ingredients of which nothing is known, so that their
// labels can be read and the dish file told.
func (d Dish) Unknown() []string { return d.Makeup().Unknown() }

// Unknown lists those of [Dish.Unknown].
func (m Makeup) Unknown() []string {
	var names []string
	for _, p := range m.parts {
		if !p.Known {
			names = append(names, p.called)
		}
	}
	return names
}

// UnknownServed lists the foods that only the words of a text name, a step, a state
// or the dish's own name, and that nobody knows.
func (d Dish) UnknownServed() []string { return d.Makeup().UnknownServed() }

// UnknownServed lists those of [Dish.UnknownServed].
func (m Makeup) UnknownServed() []string {
	var words []string
	for _, p := range m.parts {
		if p.served {
			words = append(words, p.Item)
		}
	}
	return words
}

// Tell lists what the table says to look for on labels or to tell a guest,
// each with its ingredient: "lovage: ...". Lines whose label the dish file has
// read are left out.
func (d Dish) Tell() []string {
	var lines []string
	add := func(c Composition, s stated) {
		if c.Tell != "" && !s.said {
			lines = append(lines, c.Item+": "+c.Tell)
		}
	}
	for _, c := range d.Crops {
		add(c.Composition(), c.stated)
	}
	for _, o := range d.Others {
		add(o.Composition(), o.stated)
		for _, a := range o.Instead {
			add(a.Composition(), a.stated)
		}
	}
	return lines
}
