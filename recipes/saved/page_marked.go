package saved

import (
	"slices"
	"strings"

	"golang.org/x/net/html"
)

// microdata lists the recipes marked by itemscope, itemtype and itemprop
// (HTML Living Standard, Microdata).
func microdata(root *html.Node) []node {
	ids := map[string]*html.Node{}
	var found []node
	for n := range root.Descendants() {
		if id := attr(n, "id"); id != "" && ids[id] == nil {
			ids[id] = n
		}
	}
	for n := range root.Descendants() {
		if len(found) <= mostRecipes && hasAttr(n, "itemscope") && isRecipe(attr(n, "itemtype")) {
			found = append(found, item(n, ids, 0))
		}
	}
	return found
}

func isRecipe(types string) bool {
	return slices.ContainsFunc(strings.Fields(types), func(one string) bool { return lastName(one) == "Recipe" })
}

// item reads one microdata item with what it refers to.
func item(n *html.Node, ids map[string]*html.Node, depth int) node {
	thing := node{"@type": lastName(attr(n, "itemtype"))}
	if depth > mostDeep {
		return thing
	}
	for child := range n.ChildNodes() {
		itemProperties(thing, child, ids, depth)
	}
	others := strings.Fields(attr(n, "itemref"))
	used := map[string]bool{}
	for _, id := range others[:min(len(others), mostDeep)] {
		if other := ids[id]; other != nil && !used[id] {
			used[id] = true
			itemProperties(thing, other, ids, depth+1)
		}
	}
	return thing
}

func itemProperties(thing node, n *html.Node, ids map[string]*html.Node, depth int) {
	if n.Type != html.ElementNode || depth > mostDeep {
		return
	}
	names := attr(n, "itemprop")
	switch {
	case names != "" && hasAttr(n, "itemscope"):
		thing.add(names, item(n, ids, depth+1))
		return
	case names != "":
		thing.add(names, valueOf(n))
	case hasAttr(n, "itemscope"):
		return // another thing, of its own
	}
	for child := range n.ChildNodes() {
		itemProperties(thing, child, ids, depth)
	}
}

// rdfa lists the recipes marked by typeof and property (RDFa Lite 1.1, W3C).
func rdfa(root *html.Node) []node {
	var found []node
	for n := range root.Descendants() {
		if len(found) <= mostRecipes && isRecipe(attr(n, "typeof")) {
			found = append(found, typed(n, 0))
		}
	}
	return found
}

func typed(n *html.Node, depth int) node {
	thing := node{"@type": lastName(first(strings.Fields(attr(n, "typeof"))))}
	if depth <= mostDeep {
		for child := range n.ChildNodes() {
			typedProperties(thing, child, depth)
		}
	}
	return thing
}

func typedProperties(thing node, n *html.Node, depth int) {
	if n.Type != html.ElementNode {
		return
	}
	names := attr(n, "property")
	switch {
	case names != "" && hasAttr(n, "typeof"):
		thing.add(names, typed(n, depth+1))
		return
	case names != "":
		thing.add(names, valueOf(n))
	case hasAttr(n, "typeof"):
		return
	}
	for child := range n.ChildNodes() {
		typedProperties(thing, child, depth)
	}
}
