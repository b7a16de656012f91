package planner

import (
	"cmp"
	"fmt"
	"math/big"
)

// A Plan is the best way to share out a Problem. Every list that is "by dish"
// or "by lot" is indexed like the Problem's.
type Plan struct {
	Portions []int // by dish; 0 for a dish left out
	Flows    []Flow
	Left     []*big.Rat // by lot: the grams not used
	LeftOut  []LeftOut  // the dishes with no portion, in dish order
	Levels   Levels
	Plates   []Plate // with guests: who eats what, every guest once
	Effort   Effort
	Proven   bool // false only in the plan a NotProvenError carries
}

// A Flow is what one need of one dish takes from one lot, in as-lifted grams,
// exact. Flows are listed by dish, then need, then lot.
type Flow struct {
	Lot, Dish, Need int
	Grams           *big.Rat
}

// Levels are the values the optimum is ordered by.
type Levels struct {
	Fed      []int    // guests with at least one helping, two, … up to Sides; nil without guests
	Over     int      // whole portions that nobody eats
	UseFirst *big.Rat // grams taken from lots to be used today, in whole steps of UseStep
	Dishes   int      // made
	Balance  *big.Rat // the smallest portions ÷ wish over the dishes made
	Portions int
}

// UseStep is the grams in which what is used first is counted: nobody weighs
// finer.
const UseStep = 10

// Compare orders the levels of two plans for one question, the worse first. Of
// two plans with the same levels, ties decide.
func (l Levels) Compare(o Levels, p *Problem) int {
	first := 0
	for r := range min(len(l.Fed), len(o.Fed)) {
		first = cmp.Or(first, cmp.Compare(l.Fed[r], o.Fed[r]))
	}
	dishes, portions := cmp.Compare(l.Dishes, o.Dishes), cmp.Compare(l.Portions, o.Portions)
	balance := l.Balance.Cmp(o.Balance)
	first = cmp.Or(first, cmp.Compare(o.Over, l.Over), l.UseFirst.Cmp(o.UseFirst))
	switch {
	case p.Guests == nil:
		return cmp.Or(first, dishes, balance, portions)
	case p.ManyDishes:
		return cmp.Or(first, dishes, -portions, balance)
	}
	return cmp.Or(first, -dishes, -portions, balance)
}

// A Level is one of the levels the optimum is ordered by.
type Level uint8

// The levels. Without guests Balance comes before Portions.
const (
	Fed Level = iota
	Over
	UseFirst
	Dishes
	Portions
	Balance
	Ties
)

// String is the level's name.
func (l Level) String() string {
	return [...]string{"fed", "nothing over", "use first", "dishes", "portions", "balance", "ties"}[l]
}

// Effort says what the search did.
type Effort struct {
	Nodes  int // nodes of branch and bound, over all levels
	Pivots int // steps of the relaxation
}

// Reason says why a dish has no portions.
type Reason string

// The reasons a dish is left out.
const (
	NoLot        Reason = "no lot"        // nothing on hand that it accepts
	TooLittle    Reason = "too little"    // not even its smallest batch, made alone
	LimitReached Reason = "limit reached" // a limit does not allow its smallest batch
	SuitsNobody  Reason = "suits nobody"  // no guest may eat it
	NoRoom       Reason = "no room"       // not even its smallest batch fits the steamer
	NotNeeded    Reason = "not needed"    // it could be made, but as many are fed, as well, without it
	EnoughDishes Reason = "enough dishes" // as many are made as may be
	Outweighed   Reason = "outweighed"    // it could be made, but what comes first goes further without it
)

// A LeftOut is a dish without portions and why. For TooLittle and LimitReached,
// Short is how much more of Of its smallest batch would need, by itself.
type LeftOut struct {
	Dish   int
	Reason Reason
	Of     string   // the crop or the ingredient that is short
	Unit   string   // the unit of Short
	Short  *big.Rat // nil when nothing is short
}

// NotProvenError is what Solve returns when it had to stop before the optimum
// was proven: the node limit was reached or the context ended.
type NotProvenError struct {
	Plan  Plan     // the best plan found; it keeps every rule
	Level Level    // at which it stopped
	Best  *big.Rat // that level's value in Plan; for portions at a table negative, fewer being better
	Bound *big.Rat // no plan can do better than this; nil when nothing is known
	Cause error    // the context's error, or nil for the node limit
}

// Gap is how far the best plan's level may be from the optimum, or nil.
func (e *NotProvenError) Gap() *big.Rat {
	if e.Bound == nil {
		return nil
	}
	return new(big.Rat).Sub(e.Bound, e.Best)
}

// Error says "not proven best" and by how much at most.
func (e *NotProvenError) Error() string {
	gap := fmt.Sprintf("%s could be better, by how much is not known", e.Level)
	if g := e.Gap(); g != nil {
		gap = fmt.Sprintf("%s could be better by at most %s", e.Level, g.FloatString(1))
	}
	why := fmt.Sprintf("stopped after %d steps of the search", e.Plan.Effort.Nodes)
	if e.Cause != nil {
		why = e.Cause.Error()
	}
	return fmt.Sprintf("not proven best: %s; %s", why, gap)
}

// Unwrap gives the context's error, if that is what ended the search.
func (e *NotProvenError) Unwrap() error { return e.Cause }
