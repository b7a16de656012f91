package keeping

import (
	"slices"
	"time"
)

// Kind is a verdict in one word, as scripts read it.
type Kind string

// The verdicts, the strictest first.
const (
	Discard     Kind = "discard"      // throw it out
	Unknown     Kind = "unknown"      // a fact is missing that decides
	FineNow     Kind = "fine-now"     // eat it now, or do what is said, before Until
	ReheatFirst Kind = "reheat-first" // heat it through, and eat it before Until
	EatBy       Kind = "eat-by"       // Until is the last moment
)

// Reason is one sentence with the rules it rests on.
type Reason struct {
	Says  string
	Rules []string
	Ours  bool // a choice of ours that no source makes
}

// Verdict is what is to be done with a batch.
type Verdict struct {
	Kind       Kind
	At         time.Time // the moment it is given for; its times are told in that zone
	Until      time.Time // zero when there is none
	KeepBy     time.Time // fine-now: in the fridge by then it may be kept; zero when it may not
	Since      time.Time // discard: the moment it became one, where there is one
	Missing    Fact      // unknown: the fact that is missing
	Referred   bool      // unknown: no fact would help, an authority is asked
	NotForThem bool      // discard: for this eater only
	Food       Food
	Authority  Authority
	Head       string   // what to do, in a few words with the clock time
	Sentence   string   // why, in one plain sentence
	Warnings   []Reason // what to mind besides
	Reasons    []Reason // what decided, the deciding one first
	Cautions   []string // what goes with every verdict
}

// Rules lists the rules that decided and those that warn, each once, the
// deciding ones first.
func (v Verdict) Rules() []string {
	var ids []string
	for _, r := range append(slices.Clone(v.Reasons), v.Warnings...) {
		ids = joined(ids, r.Rules)
	}
	return ids
}

// Says gives everything a person should be told, in order: what to do, why,
// the warnings and the cautions.
func (v Verdict) Says() []string {
	says := []string{v.Head, v.Sentence}
	for _, w := range v.Warnings {
		says = append(says, w.Says)
	}
	return append(says, v.Cautions...)
}

// The cautions that go with a verdict.
const (
	cautionGeneral = "General guidance from published figures, not professional advice and no test of this food; your food authority, a label or your doctor comes first."
	cautionDoubt   = "If in doubt, throw it out; do not taste it to find out."
	cautionSmell   = "Smell and looks can condemn food, never clear it, and reheating does not undo time left out."
	cautionLabels  = "Allergens: check the labels."
	cautionTrade   = "For sale or charity, ask environmental health; these are home rules."
	cautionEaters  = "Pregnant, under 5, over 65 or of low immunity: stricter rules; ask your midwife or doctor."
	cautionStrict  = "Stricter rules for this eater are used; ask your midwife or doctor."
)

// Cautions are the sentences that go with every verdict and every plan.
func Cautions(vulnerable bool) []string {
	eaters := cautionEaters
	if vulnerable {
		eaters = cautionStrict
	}
	return []string{cautionGeneral, cautionDoubt, cautionSmell, eaters, cautionLabels, cautionTrade}
}
