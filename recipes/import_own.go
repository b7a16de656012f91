package recipes

import (
	"bytes"
	"cmp"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"trencher/recipes/saved"
)

// A dish that is written as a schema.org Recipe states what the vocabulary has
// no property for among the recipe's additional properties: a key of the dish
// file by its name, and a line of it by the ingredient as it is written, each
// with the dish file's own text as value. So a line that somebody changed since
// is read by what it says now.

// takeOwn makes the dish file of a recipe that states its own lines; false where
// it does not, or where they make no dish.
func (im *importer) takeOwn() bool {
	if len(im.options.Rewrite)+len(im.options.As)+len(im.options.Amounts)+len(im.options.Cook) > 0 {
		return false
	}
	stated := map[string][]*yaml.Node{}
	for _, p := range im.recipe.Properties {
		if node := ownNode(p.Value); node != nil {
			stated[oneLine(p.Name)] = append(stated[oneLine(p.Name)], node)
		}
	}
	if len(stated) == 0 {
		return false
	}
	crops, others, lines := im.ownLines(stated)
	if len(crops) == 0 {
		return false
	}
	im.result.Lines = lines
	im.result.Name = cmp.Or(im.options.Name, im.recipe.Name)
	if own := stated["name"]; len(own) > 0 && im.options.Name == "" {
		im.result.Name = own[0].Value
	}
	im.readPortions()
	file := im.ownFile(stated, crops, others)
	text, err := file.text()
	if err != nil {
		return im.notOwn()
	}
	if _, err := LoadDish(im.file, []byte(text), im.kitchen); err != nil {
		return im.notOwn()
	}
	im.result.Text = im.withRemarks(text)
	return true
}

// ownFile is the dish file of what a recipe states.
func (im *importer) ownFile(stated map[string][]*yaml.Node, crops, others []*yaml.Node) mapping {
	file := mapping{}
	file.add("name", plainNode(im.result.Name))
	file.add("portions", plainNode(strconv.Itoa(im.result.Portions)))
	for _, key := range []string{"served", "smallest", "largest", "wish"} {
		file.addAll(key, stated[key])
	}
	file.add("crops", listNode(crops))
	if len(others) > 0 {
		file.add("others", listNode(others))
	}
	if steps := im.recipe.Of(saved.Step); len(stated["method"]) > 0 {
		file.addAll("method", stated["method"])
	} else if len(steps) > 0 {
		file.add("method", textsNode(steps))
	}
	file.addAll("steps", stated["steps"])
	return file
}

// withRemarks puts the remarks of a dish beside its ingredients again, in their
// order: what they say of allergens counts.
func (im *importer) withRemarks(text string) string {
	var remarks []string
	for _, p := range im.recipe.Properties {
		if p.Name == "remark" {
			remarks = append(remarks, oneLine(p.Value))
		}
	}
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		if len(remarks) > 0 && ofIngredient(line) {
			lines[i], remarks = line+"   # "+remarks[0], remarks[1:]
		}
	}
	return strings.Join(lines, "\n")
}

// notOwn forgets what was read of a recipe's own lines: they make no dish.
func (im *importer) notOwn() bool {
	im.result = Imported{}
	return false
}

// ownLines sorts a recipe's lines into crops and others, as they are stated. A
// line that is not is read as anybody's.
func (im *importer) ownLines(stated map[string][]*yaml.Node) (crops, others []*yaml.Node, lines []ImportedLine) {
	for i, line := range im.recipe.Lines {
		l := ImportedLine{Number: i + 1, Line: line.Line, Text: line.Text}
		switch own := stated[line.Text]; {
		case line.Role == saved.Step:
			l.As = AsStep
		case line.Role != saved.Ingredient:
		case len(own) > 0 && own[0].Kind == yaml.MappingNode:
			stated[line.Text] = own[1:]
			im.readIngredient(&l, line.Text)
			l.As, l.Doubts = AsOther, nil
			if hasKey(own[0], "crop") {
				l.As = AsCrop
				crops = append(crops, own[0])
			} else {
				others = append(others, own[0])
			}
		default:
			im.readIngredient(&l, line.Text)
			if l.As == AsOther {
				others = append(others, im.other(l).node())
			}
		}
		lines = append(lines, l)
	}
	return crops, others, lines
}

func (o writtenOther) node() *yaml.Node {
	m := mapping{}
	m.add("item", plainNode(o.item))
	m.add("amount", plainNode(o.amount.String()))
	if o.state != "" {
		m.add("state", plainNode(o.state))
	}
	return m.node()
}

// mostStated bounds the text of one property.
const mostStated = 20_000

// ownNode reads a property's value as a piece of a dish file; nil where it is
// none.
func ownNode(text string) *yaml.Node {
	var document yaml.Node
	if len(text) > mostStated || yaml.Unmarshal([]byte(text), &document) != nil || len(document.Content) != 1 || refers(&document) {
		return nil
	}
	node := document.Content[0]
	if node.Kind == yaml.MappingNode {
		node.Style = 0 // a line for each key
	}
	return node
}

// refers tells whether a piece of YAML refers to another; no dish file of ours
// does.
func refers(node *yaml.Node) bool {
	return node.Kind == yaml.AliasNode || node.Anchor != "" || slices.ContainsFunc(node.Content, refers)
}

func hasKey(node *yaml.Node, key string) bool {
	for i := 0; i+1 < len(node.Content); i += 2 {
		if node.Content[i].Value == key {
			return true
		}
	}
	return false
}

// mapping is a YAML mapping that keeps the order of its keys.
type mapping struct{ content []*yaml.Node }

func (m *mapping) add(key string, value *yaml.Node) {
	m.content = append(m.content, &yaml.Node{Kind: yaml.ScalarNode, Value: key}, value)
}

func (m *mapping) addAll(key string, values []*yaml.Node) {
	if len(values) > 0 {
		m.add(key, values[0])
	}
}

func (m *mapping) node() *yaml.Node {
	return &yaml.Node{Kind: yaml.MappingNode, Content: m.content}
}

func (m *mapping) text() (string, error) {
	var out bytes.Buffer
	encoder := yaml.NewEncoder(&out)
	encoder.SetIndent(2)
	if err := encoder.Encode(m.node()); err != nil {
		return "", err
	}
	return out.String(), encoder.Close()
}

// inline is the mapping on one line.
func (m *mapping) inline() string {
	node := m.node()
	flow(node)
	return inlineText(node)
}

func flow(node *yaml.Node) {
	if node.Kind != yaml.ScalarNode {
		node.Style = yaml.FlowStyle
	}
	for _, child := range node.Content {
		flow(child)
	}
}

func inlineText(node *yaml.Node) string {
	out, err := yaml.Marshal(node)
	if err != nil {
		return "" // nodes of our own making are always written
	}
	return strings.TrimSuffix(string(out), "\n")
}

func plainNode(text string) *yaml.Node {
	node := &yaml.Node{}
	node.SetString(text)
	if strings.ContainsAny(text, "\n\r\u0085\u2028\u2029") {
		node.Style = yaml.DoubleQuotedStyle
	}
	return node
}

func bareNode(text string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Value: text} }

func listNode(items []*yaml.Node) *yaml.Node {
	return &yaml.Node{Kind: yaml.SequenceNode, Content: slices.Clone(items)}
}

func textsNode(texts []string) *yaml.Node {
	list := &yaml.Node{Kind: yaml.SequenceNode}
	for _, text := range texts {
		list.Content = append(list.Content, plainNode(text))
	}
	return list
}
