package measures

import (
	_ "embed" // the tables
	"fmt"
	"iter"
	"math/big"
	"slices"
	"sort"
	"strings"
	"sync"

	"trencher/units"
	"trencher/units/sorted"
)

// measures.csv holds one weighed measure a line; aliases.csv other names of an
// ingredient; sources.csv the titles of the publications.
//
// measures.sorted is the first two by what is looked for: a folded name and the rows
// of that ingredient; "@" and an alias, "~" and a singular, "#" and a name of a crop,
// and the folded name it leads to. A program that weighs butter need not read what
// potatoes weigh. `go generate ./units/measures` makes it anew
// (measures_made_test.go), and TestMeasuresAreMade fails until it is.
var (
	//go:embed measures.sorted
	measureTable sorted.Table
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
	book    sorted.Table // the embedded rows
	decoded *sync.Map    // those of the book that were asked for: a folded name to a []Row

	own      map[string][]Row  // the kitchen's own
	singular map[string]string // a folded name's singular to the name, of the kitchen's own
	byCrop   map[string]string // a crop's folded names to the name, where the kitchen has any of its own
}

// The marks before what leads to an ingredient in measures.sorted.
const (
	aliasMark, singularMark, cropMark = "@", "~", "#"

	leadMarks = aliasMark + singularMark + cropMark
)

// Default is the embedded table.
func Default() Table { return defaultTable() }

var defaultTable = sync.OnceValue(func() Table { return Table{index: &index{book: measureTable, decoded: new(sync.Map)}} })

// source is the title of a publication by what measures.csv calls it.
type source struct{ key, title string }

// titleOf is the title of a publication; ok is false where sources.csv has none.
func titleOf(key string) (title string, ok bool) {
	at := slices.IndexFunc(sourceRows, func(s source) bool { return s.key == key })
	if at < 0 {
		return "", false
	}
	return sourceRows[at].title, true
}

// With is the table with the user's own rows before all others: where a
// kitchen has weighed its own spoon of something, that is the figure.
func (t Table) With(rows ...Row) Table {
	old := t.index
	if old == nil {
		old = &index{decoded: new(sync.Map)}
	}
	ix := &index{book: old.book, decoded: old.decoded, own: map[string][]Row{}, singular: map[string]string{}, byCrop: map[string]string{}}
	for _, row := range rows {
		row.own = true
		key, _ := old.find(row.Ingredient)
		if known := old.rows(key); len(known) > 0 {
			row.Ingredient = known[0].Ingredient
		}
		ix.own[lookupKey(row.Ingredient)] = append(ix.own[lookupKey(row.Ingredient)], row)
	}
	for key, rows := range old.own {
		ix.own[key] = append(ix.own[key], rows...)
	}
	ix.leadToOwn()
	return Table{index: ix, region: t.region, british: t.british}
}

// rows are those of an ingredient by its folded name, the kitchen's own first.
func (ix *index) rows(key string) []Row {
	if own := ix.own[key]; len(own) > 0 {
		return append(slices.Clip(own), ix.bookRows(key)...)
	}
	return ix.bookRows(key)
}

func (ix *index) bookRows(key string) []Row {
	if known, ok := ix.decoded.Load(key); ok {
		return known.([]Row)
	}
	text, ok := ix.book.Find(key)
	if !ok || strings.ContainsAny(key[:1], leadMarks) {
		return nil
	}
	rows := rowsOf(text)
	ix.decoded.Store(key, rows)
	return rows
}

// has tells that an ingredient goes by that folded name.
func (ix *index) has(key string) bool {
	if len(ix.own[key]) > 0 {
		return true
	}
	_, ok := ix.book.Find(key)
	return ok && !strings.ContainsAny(key[:1], leadMarks)
}

// leads is the folded name of an ingredient that a marked word leads to.
func (ix *index) leads(mark, form string, own map[string]string) (key string, ok bool) {
	if key, ok := own[form]; ok {
		return key, true
	}
	return ix.book.Find(mark + form)
}

// all are the folded names and the names as shown of all ingredients, and the
// marked words that lead to them.
func (ix *index) all() iter.Seq2[string, string] {
	return func(yield func(string, string) bool) {
		for key, rows := range ix.own {
			if !yield(key, rows[0].Ingredient) {
				return
			}
		}
		for key, text := range ix.book.All() {
			shown := text
			if !strings.ContainsAny(key[:1], leadMarks) {
				shown, _, _ = strings.Cut(text, "\t")
			}
			if !yield(key, shown) {
				return
			}
		}
	}
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

// rowColumns are the columns of measures.csv behind the ingredient's name.
var rowColumns = [...]string{"state", "default", "size", "measure", "grams", "region", "use", "source", "record", "known_by", "note"}

// rowsOf reads rows of measures.sorted. It is our own data: the package's tests read every
// row.
func rowsOf(text string) []Row {
	ingredient, cells, _ := strings.Cut(text, "\t")
	all := strings.Split(cells, "\t")
	rows := make([]Row, 0, len(all)/len(rowColumns))
	for row := range slices.Chunk(all, len(rowColumns)) {
		rows = append(rows, rowOf(ingredient, [len(rowColumns)]string(row)))
	}
	return rows
}

// rowOf reads the cells of one row; those that do not read are our own bug.
func rowOf(ingredient string, cells [len(rowColumns)]string) Row {
	grams, ok := new(big.Rat).SetString(cells[4])
	measure, err := units.Parse(cells[3], units.NoSystem)
	title, known := titleOf(cells[7])
	if !ok || err != nil || !known {
		panic(fmt.Sprintf("measures: bad row of %s %v: %v", ingredient, cells, err))
	}
	region, _ := units.ParseSystem(cells[5])
	use := cells[6]
	return Row{
		Ingredient: ingredient, State: cells[0], Size: cells[2], Measure: measure, Grams: grams,
		Note: cells[10], Provenance: units.Provenance{Source: title, Record: cells[8], KnownBy: cells[9]},
		ofDefaultState: cells[1] == "yes", chosen: use == "yes", refused: use == "no", british: use == "uk", region: region,
	}
}

// Ingredients lists the names of all ingredients, sorted.
func (t Table) Ingredients() []string {
	if t.index == nil {
		return nil
	}
	var names []string
	for key, name := range t.index.all() {
		if !strings.ContainsAny(key[:1], leadMarks) {
			names = append(names, name)
		}
	}
	slices.SortFunc(names, func(a, b string) int { return strings.Compare(lookupKey(a), lookupKey(b)) })
	return slices.Compact(names)
}

// Rows lists every row of an ingredient, the user's own first.
func (t Table) Rows(ingredient string) []Row {
	if t.index == nil {
		return nil
	}
	key, _ := t.index.find(ingredient)
	return slices.Clone(t.index.rows(key))
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
