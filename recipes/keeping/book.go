package keeping

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"sync"

	"gopkg.in/yaml.v3"
)

//go:embed rules/*.yaml authorities.yaml foods.yaml
var data embed.FS

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
	b, err := readBook(data)
	if err != nil {
		panic("keeping: embedded rules: " + err.Error())
	}
	return b
})

func readBook(files fs.FS) (*book, error) {
	b := &book{byID: map[string]int{}}
	names, err := fs.Glob(files, "rules/*.yaml")
	if err != nil {
		return nil, err
	}
	slices.Sort(names)
	for _, name := range names {
		var rows []ruleRow
		if err := readYAML(files, name, &rows); err != nil {
			return nil, err
		}
		for _, row := range rows {
			r := row.rule()
			if _, twice := b.byID[r.ID]; twice {
				return nil, fmt.Errorf("%s: rule %s stands twice", name, r.ID)
			}
			b.byID[r.ID] = len(b.rules)
			b.rules = append(b.rules, r)
		}
	}
	if err := b.readAuthorities(files); err != nil {
		return nil, err
	}
	return b, b.readFoods(files)
}

func readYAML(files fs.FS, name string, into any) error {
	file, err := files.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	decoder := yaml.NewDecoder(file)
	decoder.KnownFields(true)
	if err := decoder.Decode(into); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
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
