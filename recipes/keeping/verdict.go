package keeping

import (
	"slices"
	"strings"
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

// Leniency orders verdicts: of two, the one with the smaller number allows
// less.
func (k Kind) Leniency() int {
	return slices.Index([]Kind{Discard, Unknown, FineNow, ReheatFirst, EatBy}, k)
}

// Reason is one sentence with the rules it rests on.
type Reason struct {
	Says  string
	Rules []string
	Ours  bool // a choice of ours that no source makes
}

// Verdict is what is to be done with a batch.
type Verdict struct {
	Kind      Kind
	Until     time.Time // zero when there is none
	KeepBy    time.Time // fine-now: in the fridge by then it may be kept; zero when it may not
	Since     time.Time // discard: the moment it became one, where there is one
	Missing   Fact      // unknown: the fact that is missing
	Food      Food
	Authority Authority
	Head      string   // what to do, in a few words with the clock time
	Sentence  string   // why, in one plain sentence
	Warnings  []Reason // what to mind besides
	Reasons   []Reason // what decided, the deciding one first
	Cautions  []string // what goes with every verdict
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

// clockTime writes a moment for the kitchen: the time alone on the day of
// now, else with the day, else with the date.
func clockTime(t, now time.Time) string {
	t = t.In(now.Location())
	days := daysBetween(now, t)
	switch {
	case days == 0:
		return t.Format("15:04")
	case days > -7 && days < 7:
		return t.Format("Mon 15:04")
	case t.Year() == now.Year():
		return t.Format("Mon 2 Jan 15:04")
	}
	return t.Format("Mon 2 Jan 2006 15:04")
}

// daysBetween counts civil days from a to b.
func daysBetween(a, b time.Time) int {
	day := func(t time.Time) time.Time {
		return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
	}
	return int(day(b).Sub(day(a)) / (24 * time.Hour))
}

// spanWords writes a span for the kitchen: "2 h", "1 h 30 min", "48 h".
func spanWords(d time.Duration) string {
	text := d.Truncate(time.Minute).String()
	text = strings.TrimSuffix(text, "0s")
	if d < time.Minute {
		return "under a minute"
	}
	text = strings.Replace(text, "h", " h ", 1)
	text = strings.Replace(text, "m", " min", 1)
	return strings.TrimSpace(strings.TrimSuffix(text, " 0 min"))
}

// uncapital lets a sentence go on after a colon or a semicolon.
func uncapital(text string) string {
	if len(text) < 2 || text[1] >= 'A' && text[1] <= 'Z' {
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}
