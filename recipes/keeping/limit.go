package keeping

import (
	"slices"
	"time"
)

// Span is a limit of time. The zero Span is no limit.
type Span struct {
	Most  time.Duration
	Under bool // Most itself is already too long
	Rules []string
}

// IsSet tells a limit from none.
func (s Span) IsSet() bool { return len(s.Rules) > 0 }

// Passed tells whether d is longer than the limit allows.
func (s Span) Passed(d time.Duration) bool {
	return s.IsSet() && (d > s.Most || s.Under && d == s.Most)
}

// words writes the limit for a sentence: "under 2 h", "up to 2 h".
func (s Span) words() string {
	if s.Under {
		return "under " + spanWords(s.Most)
	}
	return "up to " + spanWords(s.Most)
}

// by is the word before a last moment: "before" where it is too late itself.
func (s Span) by() string {
	if s.Under {
		return "before"
	}
	return "by"
}

// Degrees is a limit of temperature in °C. The zero Degrees is no limit.
type Degrees struct {
	C     float64
	Rules []string
}

// IsSet tells a limit from none.
func (d Degrees) IsSet() bool { return len(d.Rules) > 0 }

// Times is a limit of how often. The zero Times is no limit.
type Times struct {
	Most  int
	Rules []string
}

// shorter takes the stricter of two spans; rules with the same figure are all
// named, and "under" wins a tie.
func shorter(a, b Span) Span {
	switch {
	case !b.IsSet():
		return a
	case !a.IsSet() || b.Most < a.Most:
		return b
	case a.Most < b.Most:
		return a
	}
	return Span{a.Most, a.Under || b.Under, joined(a.Rules, b.Rules)}
}

func colder(a, b Degrees) Degrees {
	switch {
	case !b.IsSet():
		return a
	case !a.IsSet() || b.C < a.C:
		return b
	case a.C < b.C:
		return a
	}
	return Degrees{a.C, joined(a.Rules, b.Rules)}
}

func hotter(a, b Degrees) Degrees {
	switch {
	case !b.IsSet():
		return a
	case !a.IsSet() || b.C > a.C:
		return b
	case a.C > b.C:
		return a
	}
	return Degrees{a.C, joined(a.Rules, b.Rules)}
}

// joined appends what is not yet there.
func joined(ids []string, more ...[]string) []string {
	ids = slices.Clone(ids)
	for _, list := range more {
		for _, id := range list {
			if !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	return ids
}
