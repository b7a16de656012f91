package saved

import (
	"encoding/json"
	"maps"
	"slices"
	"strings"

	"trencher/units/charset"
)

// node is a thing of the vocabulary with its properties by plain name:
// "recipeYield", "@type". JSON-LD, microdata and RDFa Lite all come to it.
type node map[string]any

// fromJSON reads a file of JSON-LD.
func fromJSON(file, text string, o Options) (Recipe, error) {
	value, err := readJSON(text)
	if err != nil {
		line, column := 1, 1
		if wrong, ok := err.(*json.SyntaxError); ok {
			line, column = charset.Place([]byte(text), int(min(max(wrong.Offset-1, 0), int64(len(text)))))
		}
		return Recipe{}, at(file, line, column, "this is not JSON: "+err.Error(), forms)
	}
	recipe, err := choose(file, recipesOf(value), o.Choice)
	return recipe.placed(text), err
}

// readJSON reads JSON as it is found in pages: strictly, and where that fails
// with its usual slips mended.
func readJSON(text string) (any, error) {
	var value any
	err := json.Unmarshal([]byte(text), &value)
	if err == nil {
		return value, nil
	}
	if again := json.Unmarshal([]byte(mendJSON(text)), &value); again == nil {
		return value, nil
	}
	return nil, err
}

// recipesOf takes the recipes of one JSON-LD document apart.
func recipesOf(value any) []Recipe {
	d := document{byID: map[string]map[string]any{}, names: map[string]string{}}
	d.index(value, 0)
	var all []Recipe
	for _, n := range d.find(value, 0) {
		all = append(all, n.recipe())
		if len(all) > mostRecipes {
			break
		}
	}
	return all
}

// document is what one JSON-LD document says beside its values.
type document struct {
	byID  map[string]map[string]any // objects others refer to
	names map[string]string         // the context's own names for properties
	spent int                       // things followed so far
}

// mostThings bounds what references lead to: a few lines can refer to each other
// without end.
const mostThings = 100_000

// mostDeep bounds how deep a recipe is looked for.
const mostDeep = 40

// index notes the objects that have an @id, and the names a context gives.
func (d *document) index(value any, depth int) {
	if depth > mostDeep {
		return
	}
	switch v := value.(type) {
	case []any:
		for _, one := range v {
			d.index(one, depth+1)
		}
	case map[string]any:
		if id, ok := v["@id"].(string); ok && len(v) > len(d.byID[id]) {
			d.byID[id] = v
		}
		d.takeNames(v["@context"])
		for _, key := range slices.Sorted(maps.Keys(v)) {
			d.index(v[key], depth+1)
		}
	}
}

// takeNames notes what a context calls the vocabulary's properties.
func (d *document) takeNames(context any) {
	names, _ := context.(map[string]any)
	for name, means := range names {
		if text, ok := means.(string); ok && !strings.HasSuffix(text, "/") && !strings.HasSuffix(text, "#") {
			d.names[name] = lastName(text)
		}
	}
}

// lastName is a property or type without the vocabulary it is of:
// "http://schema.org/Recipe", "schema:Recipe" and "Recipe" are "Recipe".
func lastName(text string) string { return text[strings.LastIndexAny(text, "/#:")+1:] }

// plain is an object with its properties by plain name, its references
// followed.
func (d *document) plain(value any, depth int) any {
	if d.spent++; depth > mostDeep || d.spent > mostThings {
		return nil
	}
	switch v := value.(type) {
	case []any:
		all := make([]any, len(v))
		for i, one := range v {
			all[i] = d.plain(one, depth+1)
		}
		return all
	case map[string]any:
		return d.plainNode(v, depth)
	}
	return value
}

func (d *document) plainNode(v map[string]any, depth int) node {
	if id, ok := v["@id"].(string); ok && len(v) == 1 && d.byID[id] != nil && len(d.byID[id]) > 1 {
		v = d.byID[id]
	}
	n := node{}
	for _, key := range slices.Sorted(maps.Keys(v)) { // so that the same always stands where two say one thing, or too much is said
		if key == "@context" {
			continue
		}
		name := lastName(key)
		if own, ok := d.names[key]; ok {
			name = own
		}
		n[name] = d.plain(v[key], depth+1)
	}
	return n
}

// inside are the properties under which a page keeps its recipe.
var inside = []string{"@graph", "mainEntity", "mainEntityOfPage", "itemListElement", "item", "hasPart", "about", "subjectOf", "@included"}

// find lists the recipes of a document, however deep the page wraps them.
func (d *document) find(value any, depth int) []node {
	if depth > mostDeep {
		return nil
	}
	var found []node
	switch v := value.(type) {
	case []any:
		for _, one := range v {
			found = append(found, d.find(one, depth+1)...)
		}
	case map[string]any:
		if isRecipeThing(v) {
			n, _ := d.plain(v, 0).(node)
			return []node{n}
		}
		for _, key := range slices.Sorted(maps.Keys(v)) {
			if name := lastName(key); slices.Contains(inside, key) || slices.Contains(inside, name) || slices.Contains(inside, d.names[key]) {
				found = append(found, d.find(v[key], depth+1)...)
			}
		}
	}
	return found
}

// isRecipeThing tells an object that is a recipe, by its type.
func isRecipeThing(v map[string]any) bool {
	for _, key := range []string{"@type", "type", "rdf:type"} {
		if slices.ContainsFunc(texts(v[key]), func(kind string) bool { return lastName(kind) == "Recipe" }) {
			return true
		}
	}
	return false
}
