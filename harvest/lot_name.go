package harvest

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// ShortName is the lot's name without the moment of its lift, but with the word
// that the lift was given where an earlier one had the name.
func (l *Lot) ShortName() string { return l.nameWith(l.Called) }

// nameWith is the lot's name with a word that tells its lift from others.
func (l *Lot) nameWith(word string) string { return string(l.appendName(nil, word)) }

func (l *Lot) appendName(name []byte, word string) []byte {
	planting, _, _ := strings.Cut(l.ID, "/")
	name = append(append(append(name, planting...), '/'), l.ID[strings.LastIndexByte(l.ID, '/')+1:]...)
	if word != "" {
		name = append(append(name, '-'), word...)
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
	slices.SortStableFunc(lots, func(a, b *Lot) int { return cmp.Or(a.Lifted.Compare(b.Lifted), strings.Compare(a.ID, b.ID)) })
	naming := naming{taken: make(map[string]bool, len(lots))}
	for _, l := range lots {
		l.Name = naming.free(l)
		naming.taken[l.Name] = true
	}
}

// naming is the giving of names to the lots of a season.
type naming struct {
	taken map[string]bool
	room  [64]byte // for names that are tried
	at    time.Time
	words [2]string // of at: those of its day and minute, which its lift's lots share
}

// free is the first of a lot's names that is not taken.
func (n *naming) free(l *Lot) string {
	name := l.appendName(n.room[:0], l.Called)
	for i := 0; n.taken[string(name)]; i++ {
		if n.words[0] == "" || !n.at.Equal(l.Lifted) || n.at.Location() != l.Lifted.Location() {
			n.at, n.words = l.Lifted, [2]string{dayWord(l.Lifted), minuteWord(l.Lifted)}
		}
		if i == len(n.words) {
			return l.ID
		}
		name = l.appendName(n.room[:0], n.words[i])
	}
	return string(name)
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
