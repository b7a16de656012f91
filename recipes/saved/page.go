package saved

import (
	"fmt"
	"strings"

	"golang.org/x/net/html"

	"trencher/units/charset"
)

// mostTags bounds the elements of a page, and with them the memory it takes to
// read it.
const mostTags = 200_000

// fromPage reads a saved page: its JSON-LD, else its microdata, else its RDFa
// Lite. A page says its recipe in one of them, or the same in several.
func fromPage(file, text string, o Options) (Recipe, error) {
	if tags := strings.Count(text, "<"); tags > mostTags {
		return Recipe{}, at(file, 0, 0, fmt.Sprintf("%d tags in one page", tags), "a page of one recipe, or the recipe's text alone")
	}
	root, err := html.Parse(strings.NewReader(text))
	if err != nil {
		return Recipe{}, at(file, 1, 1, "this page cannot be read: "+err.Error(), forms)
	}
	all, broken := linkedBlocks(file, root, text)
	for _, way := range []func(*html.Node) []node{microdata, rdfa} {
		if anyIngredient(all) {
			break
		}
		for _, n := range way(root) {
			all = append(all, n.recipe())
		}
	}
	if len(all) > 0 {
		recipe, err := choose(file, all, o.Choice)
		return recipe.placed(text), err
	}
	if shown := fromShown(root); len(shown.Of(Ingredient)) > 1 || shown.isTold() {
		return shown, nil
	}
	if broken != nil {
		return Recipe{}, broken
	}
	return Recipe{}, at(file, 1, 1, "no recipe is marked in this page", "a page that carries its recipe as JSON-LD, microdata or RDFa Lite; or the recipe's words copied into a text file")
}

func anyIngredient(all []Recipe) bool {
	for _, r := range all {
		if len(r.Of(Ingredient)) > 0 {
			return true
		}
	}
	return false
}

// linkedBlocks are the recipes in a page's blocks of JSON-LD, and the error of
// the first block that is no JSON.
func linkedBlocks(file string, root *html.Node, text string) (all []Recipe, broken error) {
	for n := range root.Descendants() {
		if n.Type != html.ElementNode || n.Data != "script" || !strings.HasPrefix(strings.ToLower(strings.TrimSpace(attr(n, "type"))), "application/ld+json") || n.FirstChild == nil {
			continue
		}
		if len(n.FirstChild.Data) > MostText {
			continue
		}
		value, err := readJSON(n.FirstChild.Data)
		switch {
		case err == nil:
			all = append(all, recipesOf(value)...)
		case broken == nil:
			line, column := charset.Place([]byte(text), max(strings.Index(text, n.FirstChild.Data), 0))
			broken = at(file, line, column, "this is not JSON: "+err.Error(), forms)
		}
	}
	return all, broken
}

func attr(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name && a.Namespace == "" {
			return a.Val
		}
	}
	return ""
}

func hasAttr(n *html.Node, name string) bool {
	for _, a := range n.Attr {
		if a.Key == name {
			return true
		}
	}
	return false
}

// blocks are the elements that begin a line of their own.
var blocks = map[string]bool{"p": true, "li": true, "div": true, "tr": true, "h1": true, "h2": true, "h3": true, "h4": true, "h5": true, "h6": true,
	"ul": true, "ol": true, "dt": true, "dd": true, "section": true, "article": true, "blockquote": true, "table": true}

// textOf is what an element shows, blocks on lines of their own.
func textOf(n *html.Node) string {
	var w textWriter
	w.node(n)
	return w.String()
}

// fromShown reads a page that marks no recipe by what it shows: its headings, its
// lists, its paragraphs, without what stands around them on every page.
func fromShown(root *html.Node) Recipe {
	w := textWriter{layout: true, most: mostShown}
	w.node(root)
	recipe := fromNamed(w.String(), onlyHeading(root), false)
	recipe.Unmarked = true
	for i := range recipe.Lines {
		recipe.Lines[i].Line = 0 // of what is shown, not of the file
	}
	return recipe
}

// onlyHeading is the text of a page's one main heading; "" where it has none or
// several.
func onlyHeading(root *html.Node) string {
	text := ""
	for n := range root.Descendants() {
		if n.Type == html.ElementNode && n.Data == "h1" {
			if text != "" {
				return ""
			}
			text = strings.Join(strings.Fields(textOf(n)), " ")
		}
	}
	return text
}

// mostText and mostShown bound what one element and what a page says: longer is no
// line of a recipe, and no recipe.
const (
	mostText  = 100_000
	mostShown = 400_000
)

// textWriter writes what elements show.
type textWriter struct {
	strings.Builder
	layout bool // headings, bullets and cells are marked, and what is not the page's own is left out
	most   int  // the longest text; 0 = mostText
}

// around are the elements that stand around what a page is about.
var around = map[string]bool{"nav": true, "footer": true, "aside": true, "form": true, "button": true, "select": true, "head": true, "noscript": true, "svg": true, "iframe": true}

// layoutMarks stand before the lines of a page as they would in a plain text.
var layoutMarks = map[string]string{"li": "• ", "h1": "# ", "h2": "# ", "h3": "# ", "h4": "# ", "h5": "# ", "h6": "# "}

func (w *textWriter) node(n *html.Node) {
	switch {
	case w.Len() > max(w.most, mostText):
	case n.Type == html.TextNode:
		w.WriteString(strings.Join(strings.FieldsFunc(" "+n.Data+" ", func(c rune) bool { return c == '\n' || c == '\r' }), " "))
	case n.Type == html.ElementNode && (n.Data == "script" || n.Data == "style" || n.Data == "template" || w.layout && around[n.Data]):
	case n.Type == html.ElementNode && n.Data == "br":
		w.WriteByte('\n')
	default:
		w.element(n)
	}
}

func (w *textWriter) element(n *html.Node) {
	block := n.Type == html.ElementNode && blocks[n.Data]
	if block && !(w.layout && n.Data == "dd" && beside(n.PrevSibling, false) == "dt") {
		w.WriteByte('\n')
	}
	if w.layout {
		w.WriteString(layoutMarks[n.Data])
	}
	for child := range n.ChildNodes() {
		w.node(child)
	}
	switch {
	case w.layout && n.Data == "dt" && beside(n.NextSibling, true) == "dd":
		w.WriteString(": ") // a name and what is said of it are one line
	case block:
		w.WriteByte('\n')
	case w.layout && (n.Data == "td" || n.Data == "th"):
		w.WriteByte('\t')
	}
}

// beside is the name of the next element from a node on, forward or back.
func beside(n *html.Node, forward bool) string {
	for n != nil && n.Type != html.ElementNode {
		if forward {
			n = n.NextSibling
		} else {
			n = n.PrevSibling
		}
	}
	if n == nil {
		return ""
	}
	return n.Data
}

// valueOf is what an element says where a property is set on it: by its
// attribute where it has one for that, else what it shows.
func valueOf(n *html.Node) string {
	if hasAttr(n, "content") {
		return attr(n, "content")
	}
	name := map[string]string{"a": "href", "area": "href", "link": "href", "img": "src", "audio": "src", "video": "src", "embed": "src", "iframe": "src", "source": "src",
		"time": "datetime", "data": "value", "meter": "value"}[n.Data]
	if name != "" && hasAttr(n, name) {
		return attr(n, name)
	}
	return textOf(n)
}

// add gives a thing another value of a property, in the order of the page.
func (n node) add(names string, value any) {
	for _, name := range strings.Fields(names) {
		list, _ := n[lastName(name)].([]any)
		n[lastName(name)] = append(list, value)
	}
}

// pageText is what a page shows, for reading as plain text.
func pageText(text string) string {
	root, err := html.Parse(strings.NewReader(text))
	if err != nil {
		return text
	}
	return textOf(root)
}
