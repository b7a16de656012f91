package tables

import (
	"strings"

	"trencher/units/measures"
	"trencher/units/pattern"
)

// column is one column of a table by its head.
type column struct {
	head string
	kind string // one of kinds; "" = not known
	unit string // of a weight: kg, g, lb, oz; "" = its cells or the table say it
	day  date   // where each column is a day or a week
	name string // where each column is a planting: its name
}

// headWords are what the heads of columns say, by what they hold. The words
// are ordinary English, no source.
var headWords = map[string][]string{
	"date":      {"date", "day", "when", "at", "date picked", "date lifted", "date dug", "date harvested", "harvest date", "harvested on", "picked on", "lifted on", "dug on"},
	"planting":  {"planting", "crop", "vegetable", "veg", "what", "bed", "plot", "tub", "row", "plant", "variety", "where", "item", "produce", "name", "from"},
	"weight":    {"how much", "weight", "wt", "yield", "amount", "harvest", "harvested", "picked", "lifted", "dug", "quantity", "qty", "net", "net weight", "total weight", "weighed", "kept"},
	"gross":     {"gross", "gross weight", "full", "with bowl", "full bowl"},
	"tare":      {"tare", "tare weight", "empty", "bowl", "empty bowl", "container", "basket"},
	"sizes":     {"sizes", "size", "grade"},
	"count":     {"count", "pieces", "number", "no", "how many"},
	"condition": {"condition", "state", "quality"},
	"says":      {"says", "note", "notes", "remark", "remarks", "comment", "comments"},
	"nothing":   {"so far", "season so far", "to date", "total", "totals", "sum", "running total", "cumulative", "average", "mean", "week total", "season total", "grand total", "#", "nr"},
}

var headUnit = pattern.New(`(?i)^(.*?)[\s_]*[\[(]?\b(kilo(?:gram)?s?|kgs?|grams?|gms?|g|pounds?|lbs?|ounces?|oz)\b[\])]?\.?$`)

// unitWords bring the words for a unit to the unit.
func unitWord(word string) string {
	switch word = strings.ToLower(word); {
	case strings.HasPrefix(word, "k"):
		return "kg"
	case strings.HasPrefix(word, "g"):
		return "g"
	case strings.HasPrefix(word, "p"), strings.HasPrefix(word, "l"):
		return "lb"
	}
	return "oz"
}

// readHead says what a column holds by its head and by what is told of it.
func readHead(head string, told map[string]string) column {
	c := column{head: head}
	text := strings.Trim(strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(head, "_", " ")), " ")), " :.")
	if kind, ok := told[measures.Fold(head)]; ok {
		c.kind = kind
	}
	c.readUnit(text)
	if c.kind == "" {
		c.kind = kindOf(text)
	}
	if c.kind != "" {
		return c
	}
	if day, ok := readDate(head); ok {
		c.day, c.kind = day, "day"
	}
	return c
}

// readUnit reads the unit that a head ends with; a head that is nothing else is of
// weights.
func (c *column) readUnit(text string) {
	u := headUnit.FindStringSubmatch(text)
	if u == nil {
		return
	}
	base := strings.TrimRight(u[1], " :.,/-")
	kind := kindOf(base)
	if base == "" {
		kind = "weight"
	}
	if c.kind == "" && (isWeight(kind) || kind == "nothing") {
		c.kind = kind
	}
	if isWeight(c.kind) {
		c.unit = unitWord(u[2])
	}
}

func isWeight(kind string) bool { return kind == "weight" || kind == "gross" || kind == "tare" }

func kindOf(text string) string {
	for kind, words := range headWords {
		for _, word := range words {
			if text == word {
				return kind
			}
		}
	}
	return ""
}

var totalRow = pattern.New(`(?i)^(?:(?:grand|sub|season|week|month|year|running)[ -]?)?(?:totals?|sum|average|avg|mean|subtotals?)\b`)

// isTotal tells a row of totals by its first word.
func isTotal(cells []string) bool {
	for _, cell := range cells {
		if cell != "" {
			return totalRow.MatchString(cell)
		}
	}
	return false
}

// isDitto tells a cell that means the one above.
func isDitto(text string) bool {
	switch strings.ToLower(strings.Trim(text, ". ")) {
	case `"`, "''", "”", "〃", "ditto", "do", ",,":
		return true
	}
	return false
}
