package measures

import (
	_ "embed" // the tables
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"maps"
	"math/big"
	"slices"
	"sort"
	"strings"
	"sync"

	"trencher/units"
)

// The tables: measures.csv holds one weighed measure a line; aliases.csv
// other names of an ingredient; sources.csv the titles of the publications.
var (
	//go:embed measures.csv
	measuresCSV string
	//go:embed aliases.csv
	aliasesCSV string
	//go:embed sources.csv
	sourcesCSV string
)

// Row is one weighed measure of an ingredient.
type Row struct {
	Ingredient string
	State      string // "raw, chopped"; empty where the ingredient has but one
	Size       string // of a leaf, a slice or a head: "large", "thin"
	Measure    units.Quantity
	Grams      *big.Rat
	Note       string
	units.Provenance

	ofDefaultState bool         // the state meant when none is named
	chosen         bool         // the best of its state: least rounding
	refused        bool         // disputed, or doubles another row: listed, never used
	region         units.System // UK or US, where sizes differ by country
	own            bool         // the kitchen's own row
	british        bool         // of a British shop: never taken in another kitchen where there is one for anybody
}

// NewRow is a row of the user's own, as kitchen.yaml gives it: so much of an
// ingredient (a volume or a count) weighs so much. Its error is a
// [*units.FieldError] for "measure" or "weight".
func NewRow(ingredient, state string, measure, weight units.Quantity) (Row, error) {
	grams, err := weight.In(units.Gram)
	if err != nil {
		return Row{}, units.WrongField("weight", weight.String(), err.Error(), "grams")
	}
	if d := measure.Dimension(); d != units.Volume && d != units.Count {
		return Row{}, units.WrongField("measure", measure.String(), "a spoon, a volume or a count is wanted, not a "+d.String(), "1 tbsp or 1 piece")
	}
	if measure.Sign() <= 0 || grams.Sign() <= 0 {
		return Row{}, units.WrongField("weight", weight.String(), "the measure and its weight must be above nought", "1 tbsp and 9 g")
	}
	return Row{
		Ingredient: ingredient, State: state, Measure: measure, Grams: grams.Rat(), own: true, chosen: true,
		Provenance: units.Provenance{Source: "this kitchen's own", KnownBy: "practice"},
	}, nil
}

// Table is a set of rows to convert by. The zero Table is empty; Default is
// the project's own.
type Table struct {
	index   *index
	region  units.System
	british bool // the kitchen is a British one, not only a metric one
}

// index finds the rows of an ingredient by its folded name.
type index struct {
	rows    map[string][]Row
	names   []string          // as shown, sorted
	aliases map[string]string // folded alias to folded name

	singular map[string]string // a folded name's singular to the name
	byCrop   map[string]string // a crop's folded names to the name
}

func newIndex() *index {
	return &index{rows: map[string][]Row{}, aliases: map[string]string{}, singular: map[string]string{}, byCrop: map[string]string{}}
}

var loadDefault = sync.OnceValue(func() *index {
	titles := map[string]string{}
	for row := range readTable("sources.csv", sourcesCSV) {
		titles[row["key"]] = row["title"]
	}
	ix := newIndex()
	for fields := range readTable("measures.csv", measuresCSV) {
		ix.add(parseRow(fields, titles))
	}
	for row := range readTable("aliases.csv", aliasesCSV) {
		ix.aliases[lookupKey(row["alias"])] = lookupKey(row["ingredient"])
	}
	ix.finish()
	return ix
})

// Default is the embedded table.
func Default() Table { return Table{index: loadDefault()} }

// With is the table with the user's own rows before all others: where a
// kitchen has weighed its own spoon of something, that is the figure.
func (t Table) With(rows ...Row) Table {
	old := t.index
	if old == nil {
		old = newIndex()
	}
	ix := newIndex()
	for _, row := range rows {
		row.own = true
		if key, ok := old.find(row.Ingredient); ok && len(old.rows[key]) > 0 {
			row.Ingredient = old.rows[key][0].Ingredient
		}
		ix.add(row)
	}
	for key, rows := range old.rows {
		ix.rows[key] = append(slices.Clip(ix.rows[key]), rows...)
	}
	for alias, name := range old.aliases {
		if len(ix.rows[alias]) == 0 {
			ix.aliases[alias] = name
		}
	}
	ix.finish()
	return Table{index: ix, region: t.region, british: t.british}
}

// For is the table for a kitchen of that system: where eggs or potatoes of
// two countries differ in size, it takes those of the kitchen's.
func (t Table) For(s units.System) Table {
	t.region, t.british = units.UK, s == units.UK
	if s == units.US {
		t.region = units.US
	}
	return t
}

func (ix *index) add(row Row) {
	key := lookupKey(row.Ingredient)
	ix.rows[key] = append(ix.rows[key], row)
}

// finish lists the names, their singulars and the crops once all rows are there.
func (ix *index) finish() {
	for _, key := range slices.Sorted(maps.Keys(ix.rows)) {
		ix.names = append(ix.names, ix.rows[key][0].Ingredient)
		for _, form := range Singulars(key) {
			if _, taken := ix.singular[form]; !taken {
				ix.singular[form] = key
			}
		}
	}
	ix.weighCrops()
}

// parseRow reads one embedded row; one that does not read is our own bug.
func parseRow(f map[string]string, titles map[string]string) Row {
	grams, ok := new(big.Rat).SetString(f["grams"])
	measure, err := units.Parse(f["measure"], units.NoSystem)
	title, known := titles[f["source"]]
	if !ok || err != nil || !known {
		panic(fmt.Sprintf("measures: bad row %v: %v", f, err))
	}
	region, _ := units.ParseSystem(f["region"])
	return Row{
		Ingredient: f["ingredient"], State: f["state"], Size: f["size"], Measure: measure, Grams: grams,
		Note: f["note"], Provenance: units.Provenance{Source: title, Record: f["record"], KnownBy: f["known_by"]},
		ofDefaultState: f["default"] == "yes", chosen: f["use"] == "yes", refused: f["use"] == "no", british: f["use"] == "uk", region: region,
	}
}

// readTable reads a table with a line of headings, row by row. A row is good
// until the next one.
func readTable(name, text string) iter.Seq[map[string]string] {
	return func(yield func(map[string]string) bool) {
		in := csv.NewReader(strings.NewReader(text))
		in.ReuseRecord = true
		head, err := in.Read()
		columns := slices.Clone(head)
		row := make(map[string]string, len(columns))
		for err == nil {
			var record []string
			if record, err = in.Read(); err != nil {
				break
			}
			for i, column := range columns {
				row[column] = record[i]
			}
			if !yield(row) {
				return
			}
		}
		if !errors.Is(err, io.EOF) {
			panic(fmt.Sprintf("measures: %s: %v", name, err))
		}
	}
}

// Ingredients lists the names of all ingredients, sorted.
func (t Table) Ingredients() []string {
	if t.index == nil {
		return nil
	}
	return slices.Clone(t.index.names)
}

// Rows lists every row of an ingredient, the user's own first.
func (t Table) Rows(ingredient string) []Row {
	if t.index == nil {
		return nil
	}
	key, _ := t.index.find(ingredient)
	return slices.Clone(t.index.rows[key])
}

// Has tells whether the table knows an ingredient, by any of its names.
func (t Table) Has(ingredient string) bool { return len(t.Rows(ingredient)) > 0 }

// States lists the states of an ingredient that the table knows, sorted.
func (t Table) States(ingredient string) []string {
	var list []string
	for _, row := range t.Rows(ingredient) {
		if row.State != "" && !slices.Contains(list, row.State) {
			list = append(list, row.State)
		}
	}
	sort.Strings(list)
	return list
}
