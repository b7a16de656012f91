package units

import (
	"strings"
	"unicode/utf8"
)

// ParseUnit reads the name of a unit: "ml", "lbs", "UK pint", "pt (US)",
// "[foz_br]", "gas mark". A regional word without a system of its own takes
// s; with NoSystem it is an *AmbiguousError. An unknown name is a *ParseError.
func ParseUnit(name string, s System) (Unit, error) {
	text := tidy(name)
	e, err := resolve(strings.TrimSpace(text), s)
	if err != nil {
		return Unit{}, withInput(err, name)
	}
	return Unit{e}, nil
}

// resolve finds the unit a phrase names.
func resolve(phrase string, s System) (*entry, error) {
	if w := wordOf(phrase); w != nil {
		return w.pick(s, NoSystem)
	}
	if phrase == "" {
		return nil, &ParseError{Reason: "no unit", Accepted: usualUnits}
	}
	folded := fold(phrase)
	if w := wordOf(folded); w != nil {
		return w.pick(s, NoSystem)
	}
	rest, named := takeQualifier(folded)
	if without, also := takeQualifier(rest); also != NoSystem && also != named {
		return nil, twoSystems(without, named, also)
	}
	if w := wordOf(rest); w != nil && rest != folded {
		return w.pick(s, named)
	}
	if e := packed(phrase, s); e != nil {
		return e, nil
	}
	if first, _, more := strings.Cut(phrase, " "); more {
		if w := wordOf(fold(first)); w != nil {
			return nil, w.withMore(first, phrase)
		}
	}
	return nil, unknownUnit(phrase, suggest(rest))
}

// twoSystems is the error of a unit beside which two systems are named: which of
// them is meant nobody can tell.
func twoSystems(unit string, first, second System) error {
	return &ParseError{Reason: "both " + first.label() + " and " + second.label() + " are named beside it",
		Accepted: "one of " + unit + " " + first.label() + ", " + unit + " " + second.label()}
}

// packed is the unit of a phrase that names a pack after it, as in 400 g tin; nil
// where it names none.
func packed(phrase string, s System) *entry {
	size, ok := withoutPack(phrase)
	if !ok {
		return nil
	}
	e, err := resolve(size, s)
	if err != nil || e.dimension != Mass && e.dimension != Volume && e.dimension != Length {
		return nil
	}
	return e
}

// withMore is the error of a phrase that goes on after a word that is known:
// an ingredient after its unit, or a word that is refused whatever follows, as
// heaped is.
func (w *word) withMore(first, phrase string) error {
	if w.only == nil && len(w.readings()) == 0 {
		return &ParseError{Reason: w.note}
	}
	return unknownUnit(phrase, "the unit alone: "+strings.TrimSuffix(first, "."))
}

// pick chooses a word's reading: by the system named beside it, else by the
// kitchen's.
func (w *word) pick(kitchen, named System) (*entry, error) {
	if w.only != nil {
		if named == Metric && w.only.customary {
			return nil, &ParseError{Reason: "there is no metric " + w.text, Accepted: usualUnits}
		}
		return w.only, nil
	}
	s := named
	if s == NoSystem {
		s = kitchen
	}
	if e := w.regions[s]; e != nil {
		return e, nil
	}
	readings := w.readings()
	if len(readings) == 0 || (named != NoSystem && w.note != "") {
		return nil, &ParseError{Reason: w.note, Accepted: acceptedReadings(readings)}
	}
	return nil, &AmbiguousError{Word: w.text, Readings: readings, Note: w.note}
}

func (w *word) readings() []Reading {
	var list []Reading
	for _, s := range systems {
		if e := w.regions[s]; e != nil {
			list = append(list, Reading{System: s, Unit: Unit{e}})
		}
	}
	return list
}

// takeQualifier takes the word that names a system out of a folded phrase.
func takeQualifier(phrase string) (rest string, s System) {
	fields := strings.Fields(phrase)
	kept := fields[:0]
	for _, field := range fields {
		if found := qualifier(field); found != NoSystem && s == NoSystem {
			s = found
			continue
		}
		if field == "level" { // a level spoon is the spoon
			continue
		}
		kept = append(kept, field)
	}
	return strings.Join(kept, " "), s
}

// fold brings a spelling to the form the table is keyed by: lower case, no
// brackets or full stops, single spaces. A lone letter keeps its case: T is
// not t, nor C c.
func fold(phrase string) string {
	clean := strings.Map(func(r rune) rune {
		switch r {
		case '.':
			return -1
		case '(', ')', ',', '-', '_':
			return ' '
		}
		return r
	}, phrase)
	fields := strings.Fields(clean)
	for i, field := range fields {
		if utf8.RuneCountInString(field) > 1 {
			fields[i] = strings.ToLower(field)
		}
	}
	return strings.Join(fields, " ")
}

const usualUnits = "g, kg, oz, lb, ml, l, tsp, tbsp, cup, pt, mm, cm, m2, C, or a plain number of pieces"
