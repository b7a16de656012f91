package saved

import (
	"encoding/json"
	"fmt"
	"html"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"trencher/units/charset"
	"trencher/units/pattern"
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
		if context, ok := v["@context"].(map[string]any); ok {
			for name, means := range context {
				if text, ok := means.(string); ok && !strings.HasSuffix(text, "/") && !strings.HasSuffix(text, "#") {
					d.names[name] = lastName(text)
				}
			}
		}
		for _, one := range v {
			d.index(one, depth+1)
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
		if id, ok := v["@id"].(string); ok && len(v) == 1 && d.byID[id] != nil && len(d.byID[id]) > 1 {
			v = d.byID[id]
		}
		n := node{}
		for key, one := range v {
			if key == "@context" {
				continue
			}
			name := lastName(key)
			if own, ok := d.names[key]; ok {
				name = own
			}
			n[name] = d.plain(one, depth+1)
		}
		return n
	}
	return value
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
		for _, key := range []string{"@type", "type", "rdf:type"} {
			for _, kind := range texts(v[key]) {
				if lastName(kind) == "Recipe" {
					n, _ := d.plain(v, 0).(node)
					return []node{n}
				}
			}
		}
		for _, key := range slices.Sorted(keysOf(v)) {
			if name := lastName(key); slices.Contains(inside, key) || slices.Contains(inside, name) || slices.Contains(inside, d.names[key]) {
				found = append(found, d.find(v[key], depth+1)...)
			}
		}
	}
	return found
}

func keysOf(m map[string]any) func(func(string) bool) {
	return func(yield func(string) bool) {
		for key := range m {
			if !yield(key) {
				return
			}
		}
	}
}

// recipe takes a Recipe of the vocabulary apart into lines.
func (n node) recipe() Recipe {
	r := Recipe{Name: first(texts(n["name"])), Method: first(texts(n["cookingMethod"]))}
	r.CookTime = first(texts(n["cookTime"]))
	if r.CookTime == "" {
		r.CookTime = first(texts(n["totalTime"]))
	}
	add := func(role Role, text string) {
		if text != "" {
			r.Lines = append(r.Lines, Line{Text: text, Role: role})
		}
	}
	add(Title, r.Name)
	add(Yield, yieldOf(texts(n["recipeYield"])))
	for _, key := range []string{"recipeIngredient", "ingredients", "ingredient", "supply"} {
		before := len(r.Lines)
		for _, text := range ingredients(n[key]) {
			add(Ingredient, text)
		}
		if len(r.Lines) > before {
			break
		}
	}
	done := steps(n["recipeInstructions"])
	for _, line := range done {
		add(line.Role, line.Text)
	}
	if len(done) == 0 {
		for _, text := range allTexts(n["recipeInstructions"], 0) {
			add(Note, text)
		}
	}
	r.Properties = properties(n["additionalProperty"])
	return r
}

func first(all []string) string {
	if len(all) == 0 {
		return ""
	}
	return all[0]
}

// yieldOf is the fullest of several ways to say for how many a recipe is: "6
// servings" before "6".
func yieldOf(all []string) string {
	best := ""
	for _, text := range all {
		if len(text) > len(best) && strings.ContainsAny(text, "0123456789") || best == "" {
			best = text
		}
	}
	return best
}

// ingredients are the ingredient lines of a property: texts, texts of several
// lines, or objects that name a quantity.
func ingredients(value any) []string {
	var all []string
	switch v := value.(type) {
	case string:
		return textLines(v)
	case []any:
		for _, one := range v {
			all = append(all, ingredients(one)...)
		}
	case node:
		if parts := partsOf(v); parts != nil {
			return ingredients(parts)
		}
		amount := first(slices.Concat(texts(v["amount"]), texts(v["requiredQuantity"]), texts(v["quantity"]), texts(v["value"])))
		return []string{strings.TrimSpace(amount + " " + first(append(texts(v["name"]), texts(v["text"])...)))}
	default:
		return texts(value)
	}
	return all
}

// texts reads a property that may hold one text or number or several.
func texts(value any) []string {
	switch v := value.(type) {
	case string:
		if text := plainText(v); text != "" {
			return []string{text}
		}
	case float64:
		return []string{strconv.FormatFloat(v, 'f', -1, 64)}
	case []any:
		var all []string
		for _, one := range v {
			all = append(all, texts(one)...)
		}
		return all
	case map[string]any:
		return texts(node(v))
	case node:
		if unit := first(append(texts(v["unitText"]), texts(v["unitCode"])...)); unit != "" && v["value"] != nil {
			return []string{first(texts(v["value"])) + " " + unit}
		}
		for _, key := range []string{"text", "name", "value", "@value"} {
			if v[key] != nil {
				return texts(v[key])
			}
		}
	}
	return nil
}

// steps reads instructions: one text, a list of texts or steps, or sections of
// steps under their names.
func steps(value any) []Line {
	var all []Line
	switch v := value.(type) {
	case string:
		for _, text := range textLines(v) {
			all = append(all, Line{Text: dropNumber(text), Role: Step})
		}
	case []any:
		for _, one := range v {
			all = append(all, steps(one)...)
		}
	case node:
		parts := partsOf(v)
		if parts == nil {
			for _, text := range texts(v) {
				all = append(all, Line{Text: dropNumber(text), Role: Step})
			}
			return all
		}
		if name := first(texts(v["name"])); name != "" && !isKind(v, "HowToStep") {
			all = append(all, Line{Text: name, Role: Heading})
		}
		all = append(all, steps(parts)...)
	}
	return all
}

// partsOf is what a list or a section holds; nil for a thing of its own.
func partsOf(n node) any {
	for _, key := range []string{"itemListElement", "step", "steps", "@list", "@set", "item", "hasPart"} {
		if n[key] != nil {
			return n[key]
		}
	}
	return nil
}

// allTexts are the texts of a value however it is built, for what has no shape
// that is known.
func allTexts(value any, depth int) []string {
	var all []string
	switch v := value.(type) {
	case string:
		return textLines(v)
	case []any:
		for _, one := range v {
			all = append(all, allTexts(one, depth)...)
		}
	case node:
		for _, key := range slices.Sorted(keysOf(v)) {
			if depth < mostDeep && !strings.HasPrefix(key, "@") && key != "url" && key != "image" {
				all = append(all, allTexts(v[key], depth+1)...)
			}
		}
	}
	return all
}

func isKind(n node, kind string) bool {
	return slices.ContainsFunc(texts(n["@type"]), func(name string) bool { return lastName(name) == kind })
}

// IsPlainStep tells a step that comes back from a recipe just as it went in: it
// has neither markup nor a number before it, and stands on one line.
func IsPlainStep(text string) bool {
	lines := textLines(text)
	return len(lines) == 1 && lines[0] == text && dropNumber(text) == text
}

// properties are the additional properties that have both a name and a value;
// the value is as it was written, the name as a line would be.
func properties(value any) []Property {
	var all []Property
	switch v := value.(type) {
	case []any:
		for _, one := range v {
			all = append(all, properties(one)...)
		}
	case node:
		name, ok := v["name"].(string)
		value, valued := v["value"].(string)
		if ok && valued {
			all = append(all, Property{plainText(name), value})
		}
	}
	return all
}

var (
	lineBreak = pattern.New(`(?i)<(?:br|/?p|/?li|/?div|/?h[1-6]|/?[uo]l)\b[^<>]*>`)
	markup    = pattern.New(`</?[A-Za-z][^<>]*>|<!--.*?-->`)
)

// textLines are the lines of a text that may hold markup.
func textLines(text string) []string {
	text = html.UnescapeString(text)
	var all []string
	for line := range strings.SplitSeq(lineBreak.ReplaceAllString(text, "\n"), "\n") {
		if line = plainText(line); line != "" {
			all = append(all, line)
		}
	}
	return all
}

// plainText drops markup and entities and brings white space together. What
// its writer's machine could not write, U+FFFD, stays: it stands for
// something.
func plainText(text string) string {
	text = html.UnescapeString(markup.ReplaceAllString(html.UnescapeString(text), " "))
	return strings.Join(strings.Fields(strings.Map(printable, text)), " ")
}

// printable drops what would not be seen on the page: controls and the marks
// that turn the direction of writing.
func printable(c rune) rune {
	switch {
	case unicode.IsSpace(c), c == '\u200b':
		return ' '
	case unicode.IsControl(c), unicode.Is(unicode.Cf, c):
		return -1
	}
	return c
}

// placed is the recipe with the line of the file that each of its lines stands in.
func (r Recipe) placed(text string) Recipe {
	where := finder{text: text}
	for i := range r.Lines {
		r.Lines[i].Line = where.line(r.Lines[i].Text)
	}
	return r
}

// finder finds the lines of a recipe in the file it came from. It only looks
// on from the line before: a recipe is written in its own order.
type finder struct {
	text   string
	at     int // where to look on from
	passed int // the line breaks before at
	missed int
}

// mostMissed is after how many lines that are not there letter by letter the
// finder gives up.
const mostMissed = 20

// line is the line of the file a text stands in; 0 if it is not there as it
// is.
func (f *finder) line(text string) int {
	if f.missed >= mostMissed {
		return 0
	}
	quoted := strings.Trim(strconv.Quote(text), `"`)
	found := strings.Index(f.text[f.at:], quoted)
	if found < 0 {
		found = strings.Index(f.text[f.at:], text)
	}
	if found < 0 {
		f.missed++
		return 0
	}
	f.passed += strings.Count(f.text[f.at:f.at+found], "\n")
	f.at += found
	return f.passed + 1
}

// String is the recipe for a person to look at: each line with its role.
func (r Recipe) String() string {
	var out strings.Builder
	for _, line := range r.Lines {
		fmt.Fprintf(&out, "%-10s %s\n", line.Role, line.Text)
	}
	return out.String()
}

// String is the role in a word.
func (r Role) String() string {
	return [...]string{"note", "title", "yield", "heading", "ingredient", "step"}[r]
}
