package recipes

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"trencher/units"
	"trencher/units/strict"
)

// ImportOptions answers what a recipe leaves open.
type ImportOptions struct {
	System   units.System              // whose a bare "cup" or "pint" is
	Portions int                       // where the recipe does not say; 0 = take the recipe's
	Amounts  map[string]units.Quantity // amounts for lines that hold this text: "potatoes" → 900 g
}

// maxImport bounds the size of a file to import.
const maxImport = 16 << 20

// ImportRecipe reads one schema.org Recipe, from JSON-LD or from the JSON-LD
// blocks of an HTML page, and returns the text of a dish file to edit. What it
// had to add is marked in comments. Everything that cannot be read (an
// ingredient without an amount, no crop that is weighed, no portions) is
// returned together, as strict.Errors with the place in the file.
func ImportRecipe(file string, data []byte, o ImportOptions) (string, error) {
	im := &importer{file: file, data: data, options: o, used: map[string]bool{}}
	recipe := im.find()
	if recipe == nil {
		return "", im.failed()
	}
	text := im.dishFile(recipe)
	if err := im.failed(); err != nil {
		return "", err
	}
	if _, err := LoadDish(file, []byte(text), DefaultKitchen(o.System)); err != nil {
		return "", fmt.Errorf("%s: the dish file made of it does not load: %w", file, err)
	}
	return text, nil
}

// importer reads one file and collects what is wrong with it.
type importer struct {
	file    string
	data    []byte
	options ImportOptions
	used    map[string]bool // which of options.Amounts a line took
	errs    strict.Errors
}

func (im *importer) failed() error {
	if len(im.errs) == 0 {
		return nil
	}
	return im.errs
}

// fail notes a problem at the place where the text stands in the file.
func (im *importer) fail(at, problem, accepted string) {
	line, column := placeOf(im.data, at)
	im.errs = append(im.errs, &strict.Error{File: im.file, Line: line, Column: column, Problem: problem, Accepted: accepted})
}

// placeOf finds a text as JSON writes it; the top of the file if it is not
// there letter by letter.
func placeOf(data []byte, text string) (line, column int) {
	at := bytes.Index(data, []byte(strconv.Quote(text)))
	if at < 0 {
		at = bytes.Index(data, []byte(text))
	}
	if text == "" || at < 0 {
		return 1, 1
	}
	before := data[:at]
	return bytes.Count(before, []byte("\n")) + 1, at - bytes.LastIndexByte(before, '\n')
}

var linkedBlock = regexp.MustCompile(`(?is)<script\b[^>]*\btype\s*=\s*["']?application/ld\+json[^>]*>(.*?)</script\s*>`)

// find returns the one Recipe of the file.
func (im *importer) find() map[string]any {
	if len(im.data) > maxImport {
		im.fail("", "the file is too large", "up to 16 MB")
		return nil
	}
	trimmed := bytes.TrimSpace(bytes.TrimPrefix(im.data, []byte("\ufeff")))
	blocks := [][]byte{trimmed}
	if bytes.HasPrefix(trimmed, []byte("<")) {
		blocks = nil
		for _, match := range linkedBlock.FindAllSubmatch(trimmed, -1) {
			blocks = append(blocks, bytes.TrimSpace(match[1]))
		}
	}
	var recipes []map[string]any
	for _, block := range blocks {
		var value any
		if err := json.Unmarshal(block, &value); err != nil {
			im.fail(string(block), "this is not JSON: "+err.Error(), "a schema.org Recipe in JSON-LD, or a page that carries one")
			continue
		}
		recipes = append(recipes, recipesIn(value, 0)...)
	}
	return im.one(recipes)
}

func (im *importer) one(recipes []map[string]any) map[string]any {
	switch {
	case len(recipes) == 1:
		im.errs = nil // other blocks of a page may be broken
		return recipes[0]
	case len(recipes) > 1:
		var names []string
		for _, r := range recipes {
			names = append(names, firstText(r["name"]))
		}
		im.fail("", fmt.Sprintf("%d recipes in one file: %s", len(recipes), strings.Join(names, "; ")), "a file with one of them")
	case len(im.errs) == 0:
		im.fail("", "no Recipe in this file", "JSON-LD whose @type is Recipe, or a page with a script block of it")
	}
	return nil
}

// recipesIn finds every object of type Recipe, however deep the page wraps
// it.
func recipesIn(value any, depth int) []map[string]any {
	if depth > 12 {
		return nil
	}
	var found []map[string]any
	switch v := value.(type) {
	case []any:
		for _, one := range v {
			found = append(found, recipesIn(one, depth+1)...)
		}
	case map[string]any:
		for _, kind := range texts(v["@type"]) {
			if name := kind[strings.LastIndexAny(kind, "/:")+1:]; name == "Recipe" {
				return []map[string]any{v}
			}
		}
		for _, key := range []string{"@graph", "mainEntity", "mainEntityOfPage", "itemListElement", "item"} {
			found = append(found, recipesIn(v[key], depth+1)...)
		}
	}
	return found
}

// texts reads a property that may hold one text or number or several.
func texts(value any) []string {
	switch v := value.(type) {
	case string:
		return []string{plainText(v)}
	case float64:
		return []string{strconv.FormatFloat(v, 'f', -1, 64)}
	case []any:
		var all []string
		for _, one := range v {
			all = append(all, texts(one)...)
		}
		return all
	case map[string]any:
		for _, key := range []string{"text", "name", "value", "@value"} {
			if v[key] != nil {
				return texts(v[key])
			}
		}
	}
	return nil
}

func firstText(value any) string {
	if all := texts(value); len(all) > 0 {
		return all[0]
	}
	return ""
}

var markup = regexp.MustCompile(`<[^<>]*>`)

// plainText drops markup and entities and brings white space together.
func plainText(text string) string {
	text = html.UnescapeString(markup.ReplaceAllString(html.UnescapeString(text), " "))
	return strings.Join(strings.Fields(strings.Map(printable, text)), " ")
}

// printable drops what would not be seen on the page: controls and the marks
// that turn the direction of writing.
func printable(c rune) rune {
	switch {
	case unicode.IsSpace(c):
		return ' '
	case unicode.IsControl(c), unicode.Is(unicode.Cf, c), c == utf8.RuneError:
		return -1
	}
	return c
}

// steps reads instructions: one text, a list of texts or steps, or sections
// of steps.
func steps(value any) []string {
	switch v := value.(type) {
	case []any:
		var all []string
		for _, one := range v {
			all = append(all, steps(one)...)
		}
		return all
	case map[string]any:
		if v["itemListElement"] != nil {
			return steps(v["itemListElement"])
		}
	case string:
		var lines []string
		for _, line := range strings.Split(v, "\n") {
			if line = plainText(line); line != "" {
				lines = append(lines, line)
			}
		}
		return lines
	}
	return slices.DeleteFunc(texts(value), func(s string) bool { return s == "" })
}
