package journal

import (
	"context"
	"errors"
	"fmt"
	"path"
	"strconv"
	"time"

	"trencher/harvest"
	"trencher/units/strict"
)

// settle finds which records the journal has already, gives the new ones their
// names, and leaves out those that contradict the plantings, the journal or
// each other, until none is left that does.
func (t *importing) settle(ctx context.Context) error {
	existing, err := t.existing(ctx)
	if err != nil {
		return err
	}
	t.matchExisting(existing)
	for range mostRounds {
		entries := append([]harvest.Entry(nil), existing...)
		for _, r := range t.records {
			if !r.already {
				entries = append(entries, r.entry)
			}
		}
		dropped, err := t.drop(entries)
		if err != nil || !dropped {
			return err
		}
	}
	return &strict.Error{File: t.file, Problem: "its rows contradict each other, and leaving out those that do leaves others without what they rest on, again and again",
		Accepted: "the rows in smaller tables, the first first"}
}

// mostRounds is how often rows are left out for those left out before them.
const mostRounds = 12

// existing reads the seasons the records belong to.
func (t *importing) existing(ctx context.Context) ([]harvest.Entry, error) {
	var entries []harvest.Entry
	read := map[int]bool{}
	for _, r := range t.records {
		year := seasonOf(r.entry)
		if read[year] {
			continue
		}
		read[year] = true
		season, _, err := t.folder.Season(ctx, year, t.options)
		if err != nil {
			return nil, err
		}
		entries = append(entries, season...)
	}
	return entries, nil
}

// matchExisting pairs records with equal entries of the journal, one to one,
// and names the others: by the table's name where it is free.
func (t *importing) matchExisting(existing []harvest.Entry) {
	there := map[string][]harvest.Entry{}
	taken, last := map[string]bool{}, map[string]int{}
	for _, e := range existing {
		key := contents(e)
		there[key] = append(there[key], e)
		taken[e.Head().File] = true
	}
	for _, r := range t.records {
		folder := path.Join("journal", strconv.Itoa(seasonOf(r.entry)))
		key := contents(r.entry)
		if same := there[key]; len(same) > 0 {
			there[key] = same[1:]
			r.already = true
			continue
		}
		stem := path.Join(folder, r.stem)
		n := max(last[stem], 1) // names up to it are taken
		for n == 1 && taken[stem+".yaml"] || n > 1 && taken[stem+"-"+strconv.Itoa(n)+".yaml"] {
			n++
		}
		if last[stem] = n; n > 1 {
			r.stem += "-" + strconv.Itoa(n)
		}
		file := path.Join(folder, r.stem+".yaml")
		taken[file] = true
		r.entry.Head().File = file
	}
}

func lastDay(entries []harvest.Entry) time.Time {
	var last time.Time
	for _, e := range entries {
		if e.When().After(last) {
			last = e.When()
		}
	}
	return last
}

// contents is all that an entry says, however its file is laid out.
func contents(e harvest.Entry) string {
	data, err := encodeEntry(e)
	if err != nil {
		return fmt.Sprintf("%p", e)
	}
	return string(data)
}

// drop leaves out the records that the account of all entries faults.
func (t *importing) drop(entries []harvest.Entry) (dropped bool, err error) {
	_, err = harvest.Settle(t.plantings, entries, lastDay(entries))
	var several strict.Errors
	if err == nil || !errors.As(err, &several) {
		return false, err
	}
	faults := map[string]*strict.Error{}
	for _, one := range several {
		if faults[one.File] == nil {
			faults[one.File] = one
		}
	}
	var kept []*record
	for _, r := range t.records {
		fault := faults[r.entry.Head().File]
		if r.already || fault == nil {
			kept = append(kept, r)
			continue
		}
		t.bad(r.line, 1, fault.Problem, fault.Accepted)
		dropped = true
	}
	t.records = kept
	if !dropped {
		return false, several // the journal was at odds with itself before
	}
	return true, nil
}
