package render

import (
	"fmt"
	"strings"

	"trencher/harvest"
	"trencher/harvest/journal"
)

// Version is one of the entries that contradict each other.
type Version struct {
	File    string
	Says    string // what it says
	Written string // when, and by which device
}

// VersionOf tells an entry apart from others about the same thing.
func VersionOf(e harvest.Entry) Version {
	v := Version{File: e.Head().File, Says: capital(EntryWords(e))}
	if lift, ok := e.(*harvest.Lift); ok {
		var grades []string
		for _, g := range lift.Grades {
			grades = append(grades, joinNonEmpty(" ", g.Weight.String(), g.Sizes.String(), string(g.Condition)))
		}
		v.Says = joinNonEmpty("; ", v.Says, strings.Join(grades, ", "))
	}
	v.Written = "written " + e.Head().LoggedAt().Format("Mon 2 Jan 15:04")
	if by := e.Head().By; by != "" {
		v.Written += " by device " + by
	}
	return v
}

// ContradictionWords says what was corrected in more than one way.
func ContradictionWords(c harvest.Contradiction) string {
	what := "An entry that is not here"
	if c.Corrected != nil {
		what = capital(EntryWords(c.Corrected))
	}
	switch {
	case len(c.Instead) == 0:
		return what + ": corrected by one device, struck out by another."
	case c.Voided:
		return what + ": corrected in several ways, and struck out."
	}
	return what + ": corrected in several ways."
}

// OverdraftWords says which entry takes more than there was.
func OverdraftWords(o harvest.Overdraft) string {
	return fmt.Sprintf("%s: but only %s was left of %s.", capital(EntryWords(o.Entry)), grams(o.Had), o.Lot)
}

// OpenWords says how much is open between devices; "" where nothing is.
func OpenWords(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return "One thing that two devices wrote does not fit together."
	}
	return fmt.Sprintf("%d things that two devices wrote do not fit together.", n)
}

// MendedWords says what mending the journal came to.
func MendedWords(m journal.Mended) string {
	n := len(m.Written) + len(m.Finished) + len(m.Aside)
	if n == 0 {
		return "Nothing of it can be settled by itself."
	}
	return "Settled, in " + count(n, "file", "files") + "."
}
