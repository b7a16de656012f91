package keeping

import (
	"cmp"
	"errors"
	"strings"
	"time"

	"trencher/units"
)

// JudgeLogged is [Judge] for a history that was written down some time ago, so
// that nobody can be asked about it now: one that cannot be true is [Unknown],
// with what is wrong with it.
func JudgeLogged(b Batch, a Authority, now time.Time) Verdict {
	v, err := Judge(b, a, now)
	var wrong *units.FieldError
	if !errors.As(err, &wrong) {
		return v
	}
	fact := FactIn(wrong.Field)
	return Verdict{
		Kind: Unknown, At: now, Missing: fact, Authority: a,
		Head:     "Cannot say: " + wrong.In(string(fact)) + ".",
		Sentence: "Mend its entries in the journal; if you cannot find out, throw it out.",
		Cautions: Cautions(b.Vulnerable),
	}
}

// MoreUrgent orders verdicts as [cmp.Compare] does: what is to be thrown out
// comes first, then what cannot be told, then the rest by the last moment; what
// has none comes last.
func MoreUrgent(a, b Verdict) int {
	return cmp.Or(cmp.Compare(a.urgency(), b.urgency()), a.Until.Compare(b.Until))
}

func (v Verdict) urgency() int {
	switch {
	case v.Kind == Discard:
		return 0
	case v.Kind == Unknown:
		return 1
	case !v.Until.IsZero():
		return 2
	}
	return 3
}

// RuleReasons are the rules behind a verdict, with their sources.
func (v Verdict) RuleReasons() []units.Reason {
	var list []units.Reason
	for _, id := range v.Rules() {
		if rule, ok := LookupRule(id); ok {
			list = append(list, units.Reason{Figure: "rule " + id, Value: strings.TrimRight(rule.Says, "."), Provenance: rule.Provenance})
		}
	}
	return list
}
