package recipes

import (
	"slices"
	"strings"
)

// Diet is what a guest does not eat. The zero value eats anything; two diets
// that avoid the same things are ==.
type Diet struct {
	avoid   marks
	without string // foods by name, joined
	// Conditions are what makes stricter rules hold for the guest.
	Conditions Conditions
}

const (
	notVegetarian = meat | 1<<Fish | 1<<Crustaceans | 1<<Molluscs
	notVegan      = notVegetarian | 1<<Milk | 1<<Egg | honey
)

// Weak tells that stricter keeping rules hold for the guest.
func (d Diet) Weak() bool { return d.Conditions.Weak() }

// EatsAnything reports whether nothing is left out.
func (d Diet) EatsAnything() bool { return d == Diet{} }

// leaveOut adds foods by name, each once, in order of the alphabet.
func (d *Diet) leaveOut(foods ...string) {
	all := d.Without()
	for _, food := range foods {
		if food != "" && !slices.Contains(all, food) {
			all = append(all, food)
		}
	}
	slices.Sort(all)
	d.without = strings.Join(all, ";")
}

// Without lists the foods left out by name, beside the allergens.
func (d Diet) Without() []string {
	if d.without == "" {
		return nil
	}
	return strings.Split(d.without, ";")
}

// LeavesOut tells that a food or a family of foods is left out by this name.
func (d Diet) LeavesOut(food string) bool { return slices.Contains(d.Without(), food) }

// String names the diet: "vegan, no gluten"; "" for a guest who eats
// anything.
func (d Diet) String() string {
	var parts []string
	left := d.avoid
	trees := left&(mark(Nuts)|mark(Peanuts)) == mark(Nuts)
	if left&mark(Nuts) != 0 && !trees {
		left &^= mark(Peanuts) // "no nuts" leaves peanuts out too
	}
	switch {
	case left&notVegan == notVegan:
		parts, left = append(parts, "vegan"), left&^notVegan
	case left&notVegetarian == notVegetarian:
		parts, left = append(parts, "vegetarian"), left&^notVegetarian
	case left&meat != 0:
		parts, left = append(parts, "pescetarian"), left&^meat // "no meat" leaves fish out too
	}
	for _, word := range left.words() {
		if word == "nuts" && trees {
			word = "tree nuts"
		}
		parts = append(parts, "no "+word)
	}
	for _, food := range d.Without() {
		parts = append(parts, "no "+food)
	}
	return strings.Join(append(parts, d.Conditions.names()...), ", ")
}
