package harvest

import (
	"context"
	"fmt"
	"maps"
	"slices"
)

// shelf is a journal in memory: its entries by season.
type shelf map[int][]Entry

func (s shelf) Seasons() ([]int, error) { return slices.Sorted(maps.Keys(s)), nil }

func (s shelf) Season(_ context.Context, year int) ([]Entry, []LeftOut, error) {
	entries := slices.Clone(s[year])
	SortEntries(entries)
	return entries, nil, nil
}

func (s shelf) Write(e Entry) (string, error) {
	year := e.When().Year()
	if m, ok := e.(*Move); ok {
		year, _ = SeasonOf(m.Lot)
	}
	if v, ok := e.(*Void); ok {
		fmt.Sscanf(v.Voids, "journal/%d/", &year)
	}
	e.Head().File = fmt.Sprintf("journal/%d/%s-%s-%d.yaml", year, e.When().Format("0102-1504"), e.Kind(), len(s[year]))
	s[year] = append(s[year], e)
	return e.Head().File, nil
}
