package harvest

import (
	"context"
	"slices"
	"strings"
	"time"
)

// FormOf is what an entry keeps of the form that it is written by: a token that
// each form has of its own, and what the form says. Both are kept as short
// marks.
func FormOf(token, says string) string { return formMark(token) + shortMark(says, formLetters) }

// formLetters are so many that no two forms of one plot ever share a mark.
const formLetters = 10

func formMark(token string) string { return shortMark(token, formLetters) + "-" }

// WrittenBy are the entries that a form of this token wrote, in any season, the
// first that was written first; struck out or not. None: it has not been written.
func (l *Ledger) WrittenBy(ctx context.Context, token string) ([]Entry, error) {
	return l.writtenBy(ctx, formMark(token))
}

// writtenBy are the entries whose form begins so, of the latest season that has
// any.
func (l *Ledger) writtenBy(ctx context.Context, form string) (found []Entry, err error) {
	years, err := l.journal.Seasons()
	if err != nil {
		return nil, err
	}
	for _, year := range slices.Backward(years) {
		season, _, err := l.journal.Season(ctx, year)
		if err != nil {
			return nil, err
		}
		for _, e := range season {
			if strings.HasPrefix(e.Head().Form, form) {
				found = append(found, e)
			}
		}
		if len(found) > 0 {
			break
		}
	}
	slices.SortStableFunc(found, byWriting)
	return found, nil
}

func byWriting(a, b Entry) int {
	switch {
	case isWrittenAfter(a, b):
		return 1
	case isWrittenAfter(b, a):
		return -1
	}
	return 0
}

// Latest are the entries that the ledger's device wrote last and that stand, at
// most so many, the latest first; of what one form wrote the last alone. They
// are those of the clock's season and of the one before it.
func (l *Ledger) Latest(ctx context.Context, most int, clock time.Time) ([]Entry, error) {
	if l.Author.Device == "" {
		return nil, nil
	}
	if err := l.readLatest(ctx, clock); err != nil {
		return nil, err
	}
	standing, _, err := Correct(l.Entries)
	if err != nil {
		return nil, err
	}
	own := slices.DeleteFunc(standing, func(e Entry) bool { return e.Head().By != l.Author.Device })
	slices.SortStableFunc(own, byWriting)
	var latest []Entry
	for _, e := range slices.Backward(own) {
		same := slices.ContainsFunc(latest, func(o Entry) bool { return o.Head().Form != "" && o.Head().Form == e.Head().Form })
		if !same && len(latest) < most {
			latest = append(latest, e)
		}
	}
	return latest, nil
}

// EntryOf is an entry by its file, whether it stands or not; nil where there is
// none.
func (l *Ledger) EntryOf(ctx context.Context, file string) (Entry, error) {
	e, _, err := l.find(ctx, "", file)
	return e, err
}

// AsOf is the ledger as it was when one of its entries was written: without that
// entry and all that was written after it.
func (l *Ledger) AsOf(e Entry) *Ledger {
	then := *l
	moment := e.Head().LoggedAt()
	isLater := func(o Entry) bool {
		return o.Head().File == e.Head().File || o.Head().LoggedAt().After(moment)
	}
	then.Entries = slices.DeleteFunc(slices.Clone(l.Entries), isLater)
	then.later = map[int][]Entry{}
	for year, plans := range l.later {
		then.later[year] = slices.DeleteFunc(slices.Clone(plans), isLater)
	}
	then.read = map[int]bool{}
	for year := range l.read {
		then.read[year] = true
	}
	return &then
}
