package harvest

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"trencher/units"
)

// Lift is one weighed lift of one planting: the bowls, and how the net weight
// grades out. Mothers and Soil were weighed apart from the bowls and are in no
// net weight.
type Lift struct {
	Header
	Planting  string
	Weighings []Weighing
	Grades    []Grade
	Mothers   units.Quantity // the rotted seed tubers thrown out
	Soil      units.Quantity // soil and haulm swept off
	Left      string         // LeftSome, LeftNone or "": what still stands in the ground
	Where     string         // where the crop lies now
	Called    string         // what its lots' names end in, where an earlier lift has the names without
	Says      string
}

// Kind is "lift".
func (*Lift) Kind() string { return KindLift }

// What a lift leaves in the ground. When it does not say, a tub is emptied and
// a bed is lifted bit by bit.
const (
	LeftSome = "some"
	LeftNone = "none"
)

// emptied tells whether nothing of the planting stands any more.
func (l *Lift) emptied(p Planting) bool {
	if l.Left == "" {
		return p.Tub.IsValid()
	}
	return l.Left == LeftNone
}

// Weighing is one bowl on the scale. A missing tare is an unweighed vessel of
// no weight (a bag).
type Weighing struct{ Gross, Tare units.Quantity }

// Grade is a part of the net weight that is alike in size and condition.
type Grade struct {
	Sizes     units.Band
	Weight    units.Quantity
	Count     int // pieces, 0 when not counted
	Condition Condition
}

// Grams is a weight in exact decimal grams; an absent weight is 0 g. ok is
// false for what is no weight or has no finite decimal.
func Grams(q units.Quantity) (g decimal.Decimal, ok bool) {
	in, ok := inGrams(q)
	if !ok || !in.IsValid() {
		return decimal.Zero, ok
	}
	return in.Decimal()
}

// inGrams is a weight in grams, no amount where it is absent; ok is false for what
// is no weight.
func inGrams(q units.Quantity) (in units.Quantity, ok bool) {
	if !q.IsValid() {
		return q, true
	}
	if q.Dimension() != units.Mass || q.IsRange() {
		return units.Quantity{}, false
	}
	in, err := q.In(units.Gram)
	return in, err == nil
}

// IsWeight tells whether Grams has an answer, and costs less to ask: an absent
// weight, or one in grams with a finite decimal.
func IsWeight(q units.Quantity) bool {
	in, ok := inGrams(q)
	return ok && (!in.IsValid() || in.IsDecimal())
}

// grams is Grams for weights that have been checked.
func grams(q units.Quantity) decimal.Decimal {
	g, _ := Grams(q)
	return g
}

// total adds weights up, in grams, and takes others off; exactly, and without the
// decimals that a hundred thousand lifts would make.
type total struct{ units.Quantity }

var noGrams = units.New(decimal.Zero, units.Gram)

func (t *total) add(q units.Quantity) {
	if sum, err := t.Add(q); err == nil { // an absent weight adds nothing
		t.Quantity = sum
	}
}

func (t *total) takeOff(q units.Quantity) {
	if rest, err := t.Sub(q); err == nil {
		t.Quantity = rest
	}
}

// Net is the sum of gross less tare over the bowls, in grams.
func (l *Lift) Net() decimal.Decimal { return grams(l.net()) }

func (l *Lift) net() units.Quantity {
	net := total{noGrams}
	for _, w := range l.Weighings {
		net.add(w.Gross)
		net.takeOff(w.Tare)
	}
	return net.Quantity
}

// Graded is the sum of the grades, in grams.
func (l *Lift) Graded() decimal.Decimal {
	sum := total{noGrams}
	for _, g := range l.Grades {
		sum.add(g.Weight)
	}
	return grams(sum.Quantity)
}

// Rest is the part of the net weight no grade names: one ungraded sound lot.
func (l *Lift) Rest() decimal.Decimal { return grams(l.rest()) }

func (l *Lift) rest() units.Quantity {
	rest := total{l.net()}
	for _, g := range l.Grades {
		rest.takeOff(g.Weight)
	}
	return rest.Quantity
}

// Problem is a rule that a lift breaks, at one of its keys.
type Problem struct {
	Key      string // "weighings[0].tare", "grades[2].weight" or ""
	Text     string
	Accepted string
}

// Field is the field of a typed lift that the key stands for.
func (p Problem) Field() string {
	switch key, _, _ := strings.Cut(p.Key, "["); key {
	case "grades":
		return "grade"
	case "mothers", "soil":
		return key
	}
	return "weighing"
}

// heaviestBowl is what nobody puts on a kitchen or platform scale in one go.
var heaviestBowl = units.New(decimal.NewFromInt(1_000_000), units.Gram)

// Problems lists every rule of weighing the lift breaks; none means that its
// weights make sense together.
func (l *Lift) Problems() []Problem {
	if len(l.Weighings) == 0 {
		return []Problem{{"", "a lift without a weighing", "at least one bowl: gross and tare"}}
	}
	found := l.bowlProblems()
	for i, g := range l.Grades {
		found = append(found, in("grades", i, gradeProblems(g))...)
	}
	found = append(found, weightProblems("mothers", l.Mothers)...)
	found = append(found, weightProblems("soil", l.Soil)...)
	if len(found) > 0 {
		return found
	}
	if l.net().Sign() == 0 {
		found = append(found, Problem{"weighings", "the bowls were empty: the lift weighs nothing", "gross: 1.46 kg and tare: 0.31 kg"})
	}
	if rest := l.rest(); rest.Sign() < 0 {
		found = append(found, Problem{"grades",
			fmt.Sprintf("the grades add up to %s g, %s g more than the net weight of %s g", l.Graded(), grams(rest).Neg(), l.Net()),
			"grades that fit into the net weight, or the bowl that is missing"})
	}
	return found
}

// Check is the first of Problems as a [units.FieldError] of weighing, grade,
// mothers or soil; nil when there is none.
func (l *Lift) Check() error {
	for _, p := range l.Problems() {
		return units.WrongField(p.Field(), "", p.Text, p.Accepted)
	}
	return nil
}

// in puts problems at the i-th element of a list.
func in(list string, i int, found []Problem) []Problem {
	for n := range found {
		found[n].Key = fmt.Sprintf("%s[%d]%s", list, i, found[n].Key)
	}
	return found
}

func (l *Lift) bowlProblems() []Problem {
	var found []Problem
	for i, w := range l.Weighings {
		bad := weightProblems(".gross", w.Gross)
		bad = append(bad, weightProblems(".tare", w.Tare)...)
		switch {
		case len(bad) > 0:
		case !w.Gross.IsValid() || w.Gross.Sign() == 0:
			bad = append(bad, Problem{"", "a bowl without a gross weight", "gross: 1.46 kg and tare: 0.31 kg"})
		case heavier(w.Tare, w.Gross):
			bad = append(bad, Problem{".tare", fmt.Sprintf("the empty bowl, %s, weighs more than the full one, %s", w.Tare, w.Gross),
				"the full bowl as gross, the empty one as tare"})
		}
		found = append(found, in("weighings", i, bad)...)
	}
	return found
}

func gradeProblems(g Grade) []Problem {
	found := weightProblems(".weight", g.Weight)
	if len(found) == 0 && g.Weight.Sign() == 0 {
		found = append(found, Problem{".weight", "a grade that weighs nothing", "its weight, or leave the grade out"})
	}
	if g.Count < 0 {
		found = append(found, Problem{".count", "a count below nothing", "how many pieces there are, or leave it out"})
	}
	return found
}

func weightProblems(key string, q units.Quantity) []Problem {
	switch {
	case !IsWeight(q):
		return []Problem{{key, fmt.Sprintf("%s is not one weight", q), "one weight in kg, g, lb or oz"}}
	case q.Sign() < 0:
		return []Problem{{key, fmt.Sprintf("a weight of %s is below nothing", q), "the weight the scale shows"}}
	case heavier(q, heaviestBowl):
		return []Problem{{key, fmt.Sprintf("%s in one bowl is beyond any scale of a garden", q), "the right unit: kg, g, lb or oz"}}
	}
	return nil
}

// heavier tells whether a weight is more than another; an absent one never is.
func heavier(q, than units.Quantity) bool {
	order, err := q.Compare(than)
	return err == nil && order > 0
}
