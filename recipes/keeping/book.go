package keeping

import (
	_ "embed" // the book
	"encoding/json"
	"fmt"
	"sync"
)

// book.json is the YAML of rules/, authorities.yaml and foods.yaml, which is read
// ten times as fast. `go generate ./recipes/keeping` makes it anew
// (book_made_test.go), and TestBookIsMade fails until it is.
//
//go:generate go test -run TestBookIsMade -update .
//go:embed book.json
var bookJSON []byte

// bookRows is everything embedded, as its files have it.
type bookRows struct {
	Rules       []ruleRow
	Authorities map[Authority]authorityRow
	Foods       []foodRow
	Sections    []sectionRow
}

// book is everything embedded, read once.
type book struct {
	rules       []Rule
	byID        map[string]int
	authorities map[Authority]Limits
	strictest   Limits
	foods       []Food
	foodNamed   map[string]int // by every plain name
	freezing    Section
}

var library = sync.OnceValue(func() *book {
	var rows bookRows
	err := json.Unmarshal(bookJSON, &rows)
	if err == nil {
		b, wrong := bookOf(rows)
		if wrong == nil {
			return b
		}
		err = wrong
	}
	panic("keeping: embedded rules: " + err.Error())
})

func bookOf(rows bookRows) (*book, error) {
	b := &book{rules: make([]Rule, 0, len(rows.Rules)), byID: make(map[string]int, len(rows.Rules))}
	for _, row := range rows.Rules {
		r := row.rule()
		if _, twice := b.byID[r.ID]; twice {
			return nil, fmt.Errorf("rule %s stands twice", r.ID)
		}
		b.byID[r.ID] = len(b.rules)
		b.rules = append(b.rules, r)
	}
	if err := b.addAuthorities(rows.Authorities); err != nil {
		return nil, err
	}
	return b, b.addFoods(rows)
}

// figureOf reads one figure of a rule.
func (b *book) figureOf(id, name string) (Value, error) {
	i, ok := b.byID[id]
	if !ok {
		return Value{}, fmt.Errorf("no rule %q", id)
	}
	value, ok := b.rules[i].Values[name]
	if !ok || !value.number {
		return Value{}, fmt.Errorf("rule %s has no figure %q", id, name)
	}
	return value, nil
}
