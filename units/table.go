package units

import (
	_ "embed" // the three tables
	"encoding/csv"
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// The tables: units.csv holds each unit as a multiple of another, by its legal
// definition where it has one; kinds.csv the kinds of piece a recipe counts;
// words.csv the words with more than one reading, and those refused by name.
var (
	//go:embed units.csv
	unitsCSV string
	//go:embed kinds.csv
	kindsCSV string
	//go:embed words.csv
	wordsCSV string
)

// sourceTitles names the publications behind the keys of the source column.
var sourceTitles = map[string]string{
	"ACT85":    "UK Weights and Measures Act 1985, s. 1 and Schedule 1",
	"WM1878":   "UK Weights and Measures Act 1878",
	"HK68":     "Hong Kong Weights and Measures Ordinance (Cap. 68), schedule as amended 1987: the imperial definitions of the UK Act of 1985",
	"HB44":     "NIST Handbook 44, Appendix C",
	"CFR":      "US 21 CFR 101.9(b)(5)(viii), household measures",
	"NSW":      "New South Wales health authority, cup and spoon conversion chart",
	"GNU":      "GNU units 2.22, definitions file",
	"GAS":      "gas mark rule: mark 1 is 275 °F, each further mark 25 °F more (makers' tables, common practice)",
	"practice": NoSource,
}

// tables is everything looked up by name. It is built once and never changed.
type tables struct {
	entries []*entry
	byName  map[string]*entry
	byCode  map[string]*entry
	words   map[string]*word // every spelling of a unit or regional word
}

// word is what a spelling may mean.
type word struct {
	text    string
	only    *entry                   // the one unit it means, whatever the system
	regions [len(systems) + 1]*entry // or by System
	note    string
	strict  bool // means something only with a system, or nothing at all
}

var table = buildTables()

func buildTables() *tables {
	t := &tables{byName: make(map[string]*entry, 256), byCode: make(map[string]*entry, 256), words: make(map[string]*word, 2048)}
	t.addUnits(readTable("units.csv", unitsCSV))
	t.addKinds(readTable("kinds.csv", kindsCSV))
	t.addWords(readTable("words.csv", wordsCSV))
	t.keepWholeSymbols()
	t.byName["rod"].square = t.byName["square rod"]
	return t
}

// readTable reads an embedded table into rows by column name. A table that
// does not read is our own bug.
func readTable(name, text string) []row {
	records, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("units: %s: %v", name, err))
	}
	columns := make(map[string]int, len(records[0]))
	for i, column := range records[0] {
		columns[column] = i
	}
	rows := make([]row, 0, len(records)-1)
	for _, record := range records[1:] {
		rows = append(rows, row{columns, record})
	}
	return rows
}

// row is one row of an embedded table.
type row struct {
	columns map[string]int
	cells   []string
}

func (r row) at(column string) string { return r.cells[r.columns[column]] }

func (t *tables) addUnits(rows []row) {
	definitions := make(map[string]row, len(rows))
	for _, row := range rows {
		definitions[row.at("name")] = row
	}
	for _, row := range rows {
		dimension, err := parseDimension(row.at("dimension"))
		if err != nil {
			panic("units: " + row.at("name") + ": " + err.Error())
		}
		e := &entry{
			name: row.at("name"), symbol: row.at("symbol"), code: row.at("code"), dimension: dimension,
			factor: size(definitions, row.at("name"), 0), offset: mustNumber(row.at("offset")),
			rough: row.at("rough") == "yes", origin: Provenance{Source: sourceTitles[row.at("source")], KnownBy: row.at("known_by")}, note: row.at("note"), tell: row.at("tell") == "yes",
			spellings: split(row.at("spellings")), customary: isCustomary(definitions, row.at("name")),
		}
		if dimension == Count {
			e.kind = "piece"
		}
		e.bare, e.system = splitSystem(e.symbol)
		t.add(e)
	}
}

// size follows a unit's definition down to the base unit of its dimension.
func size(definitions map[string]row, name string, depth int) number {
	row, ok := definitions[name]
	if !ok || depth > 12 {
		panic("units: no definition of " + name)
	}
	amount := mustNumber(row.at("amount"))
	if row.at("of") == "" {
		return amount
	}
	return amount.mul(size(definitions, row.at("of"), depth+1))
}

// isCustomary tells whether a unit is defined by the pound, the yard, the
// gallon or the cubic inch.
func isCustomary(definitions map[string]row, name string) bool {
	for name != "" {
		switch name {
		case "pound", "yard", "square yard", "gallon (UK)", "cubic inch":
			return true
		}
		name = definitions[name].at("of")
	}
	return false
}

func (t *tables) addKinds(rows []row) {
	for _, row := range rows {
		t.add(&entry{
			name: row.at("name"), symbol: row.at("name"), bare: row.at("name"),
			code: "{" + strings.ReplaceAll(row.at("name"), " ", "_") + "}", dimension: Count, kind: row.at("name"),
			factor: whole(1), rough: row.at("rough") == "yes", grams: mustNumber(row.at("grams")), pack: row.at("pack") == "yes",
			origin: Practice, note: row.at("note"), tell: row.at("note") != "", spellings: split(row.at("spellings")),
		})
	}
}

func (t *tables) add(e *entry) {
	t.entries = append(t.entries, e)
	t.byName[e.name] = e
	if e.code != "" {
		t.byCode[e.code] = e
		t.spell(e.code, &word{text: e.code, only: e})
	}
	w := &word{text: e.name, only: e}
	for _, spelling := range append([]string{e.name, e.symbol}, e.spellings...) {
		folded := fold(spelling)
		t.spell(spelling, w)
		t.spell(folded, w)
		t.spell(plural(folded), w)
	}
}

func (t *tables) addWords(rows []row) {
	for _, row := range rows {
		w := &word{text: row.at("word"), note: row.at("note"), strict: true}
		for _, s := range systems {
			if name := row.at(s.String()); name != "" {
				w.regions[s] = t.byName[name]
				if w.regions[s] == nil {
					panic("units: words.csv names no unit: " + name)
				}
			}
		}
		for _, spelling := range append(split(row.at("spellings")), row.at("word")) {
			t.words[spelling] = w
		}
	}
}

// keepWholeSymbols leaves a symbol whole that means nothing without its
// system: "tbsp old British" is no British "tbsp old".
func (t *tables) keepWholeSymbols() {
	for _, e := range t.entries {
		if e.bare != e.symbol && t.words[e.bare] == nil {
			e.bare = e.symbol
		}
	}
}

// spell records a spelling; the first unit to claim one keeps it.
func (t *tables) spell(spelling string, w *word) {
	if spelling != "" && t.words[spelling] == nil {
		t.words[spelling] = w
	}
}

func split(list string) []string {
	if list == "" {
		return nil
	}
	return strings.Split(list, "|")
}

// plural is the regular plural of a spelled-out name; short symbols and
// names in brackets have none.
func plural(name string) string {
	if len(name) < 3 || name[0] == '[' || name[0] == '{' || strings.ContainsAny(name, "()°²³/") {
		return ""
	}
	for _, hiss := range []string{"s", "x", "ch", "sh"} {
		if strings.HasSuffix(name, hiss) {
			return name + "es"
		}
	}
	return name + "s"
}

// splitSystem parts "pt UK" into "pt" and UK.
func splitSystem(symbol string) (bare string, s System) {
	if i := strings.LastIndexByte(symbol, ' '); i > 0 {
		if s := qualifier(strings.ToLower(symbol[i+1:])); s != NoSystem {
			return symbol[:i], s
		}
	}
	return symbol, NoSystem
}

// mustNumber reads a figure of an embedded table: decimal, fraction, or the
// ratio of two decimals.
func mustNumber(text string) number {
	if text == "" {
		return number{}
	}
	if n, err := strconv.ParseInt(text, 10, 64); err == nil {
		return whole(n)
	}
	over, under, isRatio := strings.Cut(text, "/")
	if !isRatio {
		under = "1"
	}
	n, ok1 := new(big.Rat).SetString(over)
	d, ok2 := new(big.Rat).SetString(under)
	if !ok1 || !ok2 || d.Sign() == 0 {
		panic("units: bad figure " + text)
	}
	return fromRat(n.Quo(n, d))
}
