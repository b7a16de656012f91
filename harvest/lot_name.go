package harvest

import (
	"cmp"
	"path"
	"slices"
	"strings"
	"time"
)

// ShortName is the lot's name without the moment of its lift, but with the word
// that the lift was given where an earlier one had the name.
func (l *Lot) ShortName() string { return l.nameWith(l.Called) }

// nameWith is the lot's name with a word that tells its lift from others.
func (l *Lot) nameWith(word string) string {
	planting, _, _ := strings.Cut(l.ID, "/")
	name := planting + "/" + path.Base(l.ID)
	if word != "" {
		name += "-" + word
	}
	return name
}

// dayWord and minuteWord are what a lift is called where an earlier one has its
// names: 19jul, 19jul-1640.
func dayWord(at time.Time) string    { return strings.ToLower(at.Format("2Jan")) }
func minuteWord(at time.Time) string { return dayWord(at) + at.Format("-1504") }

// nameLots names lots in the order they were lifted: each gets the first of its
// names that no earlier one has, and its ID where all are taken. Emptied lots
// keep theirs, so that a label never comes to mean another sack.
func nameLots(lots []*Lot) {
	lots = slices.Clone(lots)
	slices.SortStableFunc(lots, func(a, b *Lot) int { return cmp.Or(a.Lifted.Compare(b.Lifted), cmp.Compare(a.ID, b.ID)) })
	taken := make(map[string]bool, len(lots))
	for _, l := range lots {
		l.Name = l.freeName(taken)
		taken[l.Name] = true
	}
}

// freeName is the first of a lot's names that is not taken.
func (l *Lot) freeName(taken map[string]bool) string {
	for _, word := range []func(time.Time) string{func(time.Time) string { return l.Called }, dayWord, minuteWord} {
		if name := l.nameWith(word(l.Lifted)); !taken[name] {
			return name
		}
	}
	return l.ID
}

// distinct is the word to call a lift by, so that none of its lots has a name
// that one of the others has: the word it has, or none, or its day or minute.
func distinct(lots []*Lot, word string, at time.Time, others []*Lot) string {
	taken := map[string]bool{}
	for _, l := range others {
		taken[l.Name], taken[l.ShortName()] = true, true
	}
	free := func(word string) bool {
		return !slices.ContainsFunc(lots, func(l *Lot) bool { return taken[l.nameWith(word)] })
	}
	for _, word := range []string{word, dayWord(at), minuteWord(at)} {
		if free(word) {
			return word
		}
	}
	return at.Format("20060102-150405")
}

// doubtName asks which lot is meant where a name is claimed by a lot of another
// lift too, as when two devices each logged a first lift of a planting.
func doubtName(name string, found *Lot, stock StockList) []Doubt {
	for _, l := range stock.Lots {
		if l != found && name == found.Name && name == l.ShortName() {
			return []Doubt{TwoLots{name, found.ID, l.ID}}
		}
	}
	return nil
}
