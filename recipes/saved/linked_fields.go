package saved

import (
	"html"
	"maps"
	"slices"
	"strconv"
	"strings"
	"trencher/units/pattern"
	"unicode"
)

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
	yields := texts(n["recipeYield"])
	if len(yields) == 0 {
		yields = texts(n["yield"]) // a property of how-tos
	}
	add(Yield, yieldOf(yields))
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
	r.StepsUnsure = inOneText(Recipe{Lines: done}.Of(Step))
	for _, line := range done {
		add(line.Role, line.Text)
	}
	if len(done) == 0 {
		for _, text := range allTexts(n["recipeInstructions"]) {
			add(Note, text)
		}
	}
	r.Properties = properties(n["additionalProperty"])
	return r
}

// inOneText tells instructions that are a single text of several sentences, or that
// number steps inside a text.
func inOneText(steps []string) bool {
	return len(steps) == 1 && sentenceInside.MatchString(steps[0]) || slices.ContainsFunc(steps, manySteps.MatchString)
}

var sentenceInside = pattern.New(`[.!]\s+\p{Lu}`)

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
// that is known. It goes no deeper than the value was read.
func allTexts(value any) []string {
	var all []string
	switch v := value.(type) {
	case string:
		return textLines(v)
	case []any:
		for _, one := range v {
			all = append(all, allTexts(one)...)
		}
	case node:
		for _, key := range slices.Sorted(maps.Keys(v)) {
			if !strings.HasPrefix(key, "@") && key != "url" && key != "image" {
				all = append(all, allTexts(v[key])...)
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
