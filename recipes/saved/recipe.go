package saved

import (
	"fmt"
	"strconv"
	"strings"

	"trencher/units"
	"trencher/units/charset"
	"trencher/units/strict"
)

// Role is what a line of a recipe is for.
type Role uint8

// The roles. The zero value is a line whose place in the recipe is not clear:
// a greeting, a remark, a time.
const (
	Note       Role = iota
	Title           // the recipe's name
	Yield           // for how many it is: "Serves 4"
	Heading         // a heading over the lines that follow: "For the dressing"
	Ingredient      // something that goes in
	Step            // something to do
)

// Line is one line of a recipe, as it was written.
type Line struct {
	Text string
	Role Role
	Line int // in the file, from 1; 0 where it cannot be told
}

// Property is one of the additional properties a recipe states of itself.
type Property struct{ Name, Value string }

// Recipe is a recipe taken apart into its lines, in their order.
type Recipe struct {
	Name       string // "" where it has none
	Lines      []Line
	CookTime   string     // ISO 8601, as "PT40M"; "" where none is stated
	Method     string     // "Steaming"; "" where none is stated
	Properties []Property // what its writer added to the vocabulary
	Unmarked   bool       // it was taken from what a page shows: nothing in the page says which words are the recipe

	// Of a text without marks: another line may be its name; where one step ends
	// and the next begins, or whether all of them are steps, is not certain.
	NameUnsure, StepsUnsure bool
	ListUnsure              bool // a line that begins with an amount was taken for the rest of a step
}

// Of lists the texts of the lines with one role.
func (r Recipe) Of(role Role) []string {
	var texts []string
	for _, line := range r.Lines {
		if line.Role == role {
			texts = append(texts, line.Text)
		}
	}
	return texts
}

// Options say what a file does not.
type Options struct {
	Charset string // the character set of a file that does not name its own; "" = UTF-8
	Choice  string // which of several recipes: its number from 1, or its name
}

// MostBytes bounds the size of a file: of a page with all that stands around its
// recipe, and MostText that of a recipe alone, as text or JSON-LD.
const (
	MostBytes = 4 << 20
	MostText  = 1 << 20
)

// mostRecipes bounds the recipes of one file.
const mostRecipes = 200

// mostLines bounds the lines of one recipe: a book is no recipe.
const mostLines = 1000

// Read finds the recipe of a file. Its errors are [strict.Error]s with the
// place in the file; an unknown character set, and a choice among several
// recipes that is missing or wrong, are a [units.FieldError] of "charset" and
// "recipe".
func Read(file string, data []byte, o Options) (Recipe, error) {
	if len(data) > MostBytes {
		return Recipe{}, at(file, 0, 0, "the file is larger than 4 MB", "a page saved without its pictures, or the recipe's text alone")
	}
	recipe, err := read(file, data, o)
	if err == nil && len(recipe.Lines) > mostLines {
		err = at(file, 0, 0, fmt.Sprintf("%d lines in one recipe", len(recipe.Lines)), fmt.Sprintf("one recipe, of up to %d lines", mostLines))
	}
	if err != nil {
		return Recipe{}, err
	}
	return recipe, nil
}

// read reads a file as what it looks like. An e-mail is told by its head, which is
// plain ASCII, since each of its parts names a character set of its own.
func read(file string, data []byte, o Options) (Recipe, error) {
	if head := mailData(data); isMail(string(head[:min(len(head), mailHeadBytes)])) {
		if _, err := charset.Text(file, nil, o.Charset); err != nil {
			return Recipe{}, err
		}
		return fromMail(file, data, o)
	}
	text, err := charset.Text(file, data, o.Charset)
	if err != nil {
		return Recipe{}, err
	}
	body := strings.TrimSpace(text)
	if len(body) > MostText && !strings.HasPrefix(body, "<") {
		return Recipe{}, at(file, 0, 0, "a recipe of more than 1 MB", "the recipe's text alone")
	}
	switch {
	case body == "":
		return Recipe{}, at(file, 1, 1, "nothing is in this file", forms)
	case strings.HasPrefix(body, "<"):
		return fromPage(file, text, o)
	case looksLikeJSON(body):
		return fromJSON(file, text, o)
	case isMail(body): // in UTF-16
		return fromMail(file, data, o)
	}
	return fromPlain(text), nil
}

// looksLikeJSON tells JSON by its first two signs: a saved conversation begins with
// a bracket too, and so does a list with boxes to tick.
func looksLikeJSON(body string) bool {
	inner := strings.TrimLeft(body[1:], " \t\r\n\u00a0")
	switch {
	case body[0] == '{':
		return true
	case body[0] != '[':
		return false
	}
	return inner == "" || strings.ContainsAny(inner[:1], "{[\"/<") || inner[0] == ']' && strings.Contains(body, "@type")
}

const forms = "a recipe: JSON-LD, a saved page that carries it as JSON-LD, microdata or RDFa Lite, or plain text"

// at is an error at a place in a file.
func at(file string, line, column int, problem, accepted string) *strict.Error {
	return &strict.Error{File: file, Line: line, Column: column, Problem: problem, Accepted: accepted}
}

// choose picks one of several recipes: the only one that names ingredients,
// else the one asked for.
func choose(file string, all []Recipe, choice string) (Recipe, error) {
	full := withIngredients(all)
	switch {
	case len(full) > mostRecipes:
		return Recipe{}, at(file, 0, 0, "more than 200 recipes in one file", "a file of one recipe, or of a few")
	case len(full) == 0:
		return Recipe{}, at(file, 1, 1, "no recipe in this file", forms)
	case len(full) == 1 && (choice == "" || choice == "1" || strings.EqualFold(choice, full[0].Name)):
		return full[0], nil
	}
	var names []string
	for i, r := range full {
		if number, err := strconv.Atoi(choice); err == nil && number == i+1 || choice != "" && strings.EqualFold(choice, r.Name) {
			return r, nil
		}
		if i < mostNamed {
			names = append(names, fmt.Sprintf("%d %s", i+1, r.Name))
		}
	}
	problem := fmt.Sprintf("%d recipes in one file", len(full))
	if len(full) == 1 {
		problem = "one recipe in the file"
	}
	if choice != "" {
		problem += ", and none of them is that"
	}
	return Recipe{}, units.WrongField("recipe", choice, problem, "the number of one: "+strings.Join(names, "; "))
}

// withIngredients are the recipes that name ingredients, each once; all where none
// does.
func withIngredients(all []Recipe) (full []Recipe) {
	seen := map[string]bool{}
	for _, r := range all {
		key := r.Name + "\n" + strings.Join(r.Of(Ingredient), "\n")
		if len(r.Of(Ingredient)) > 0 && !seen[key] {
			seen[key] = true
			full = append(full, r)
		}
	}
	if len(full) == 0 {
		return all
	}
	return full
}

// mostNamed is how many recipes of a collection an error lists.
const mostNamed = 20

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
