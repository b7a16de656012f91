package journal

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"gopkg.in/yaml.v3"

	"trencher/harvest"
	"trencher/units"
)

// An entry opens with a comment and closes with YAML's own end mark, so that a
// file cut short, even at the end of a line, is known from a whole one. Files
// without the opening comment (written by hand) need no end mark.
const (
	opening = `# entry of the journal; it is whole when its last line is "..."`
	closing = "..."
)

// torn tells whether an entry that promises a closing line lacks it.
func torn(data []byte) bool {
	if !bytes.HasPrefix(data, []byte(opening)) {
		return false
	}
	lines := bytes.TrimRight(data, "\r\n")
	return !bytes.HasSuffix(lines, []byte("\n"+closing))
}

// cutShort tells whether bytes are the beginning of an entry as it is written, and
// not all of it; nothing at all is one, too.
func cutShort(data []byte) bool {
	return torn(data) || bytes.HasPrefix([]byte(opening), data)
}

// encodeEntry writes an entry as the YAML that decodeEntry reads, between the
// opening comment and the closing line.
func encodeEntry(e harvest.Entry) ([]byte, error) {
	m, err := mappingOf(e)
	if err != nil {
		return nil, err
	}
	return m.document()
}

// mappingOf is the entry's keys and values in writing order.
func mappingOf(e harvest.Entry) (*mapping, error) {
	m := &mapping{}
	m.text("kind", e.Kind())
	if l, ok := e.(*harvest.Lift); ok {
		m.text("planting", l.Planting)
	}
	m.time("at", e.When())
	m.text("replaces", e.Head().Replaces)
	m.text("by", e.Head().By)
	if logged := e.Head().Logged; !logged.IsZero() && !logged.Equal(e.When()) {
		m.plain("logged", logged.Format("2006-01-02T15:04:05.999Z07:00"))
	}
	m.text("form", e.Head().Form)
	switch e := e.(type) {
	case *harvest.Lift:
		m.lift(e)
	case *harvest.Move:
		m.text("lot", e.Lot)
		m.amount("weight", e.Weight)
		m.text("dish", e.Dish)
		m.text("whom", e.Whom)
		m.text("where", e.Where)
		m.amount("air", e.Air)
		m.text("because", e.Reason)
	case *harvest.Planned:
		m.planned(e)
	case *harvest.Reweighed:
		m.text("lot", e.Lot)
		m.amount("weight", e.Weight)
		m.amount("rotten", e.Rotten)
		m.text("where", e.Where)
		m.amount("air", e.Air)
	case *harvest.BatchEvent:
		m.batch(e)
	case *harvest.Note:
		m.text("dish", e.Dish)
		m.text("says", e.Says)
	case *harvest.Steamed:
		m.text("crop", e.Crop)
		m.text("texture", e.Texture)
		m.text("cut", e.Cut)
		m.text("until", e.Until)
		m.text("said", e.Said)
		m.plain("minutes", strconv.FormatFloat(e.Minutes, 'f', -1, 64))
		m.amount("load", e.Load)
		m.amount("start", e.Start)
		m.amount("altitude", e.Altitude)
		m.amount("power", e.Power)
		if e.Tier > 0 {
			m.plain("tier", strconv.Itoa(e.Tier))
		}
	case *harvest.Told:
		m.text("plan", e.Plan)
		m.text("step", e.Step)
		m.text("says", string(e.What))
	case *harvest.Void:
		m.text("voids", e.Voids)
		m.text("because", e.Reason)
	default:
		return nil, fmt.Errorf("an entry of kind %s cannot be written", e.Kind())
	}
	return m, nil
}

// mapping builds a YAML mapping with its keys in writing order.
type mapping struct{ content []*yaml.Node }

func (m *mapping) add(key string, value *yaml.Node) {
	m.content = append(m.content, &yaml.Node{Kind: yaml.ScalarNode, Value: key}, value)
}

// text adds a string, quoted where YAML would read something else; an empty
// one is left out.
func (m *mapping) text(key, value string) {
	if value != "" {
		m.add(key, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: value})
	}
}

// plain adds a scalar as it stands.
func (m *mapping) plain(key, value string) {
	m.add(key, &yaml.Node{Kind: yaml.ScalarNode, Value: value})
}

func (m *mapping) time(key string, t time.Time) {
	if !t.IsZero() {
		m.plain(key, t.Format(time.RFC3339))
	}
}

func (m *mapping) amount(key string, q units.Quantity) {
	if q.IsValid() {
		m.text(key, q.String())
	}
}

func (m *mapping) node(style yaml.Style) *yaml.Node {
	return &yaml.Node{Kind: yaml.MappingNode, Style: style, Content: m.content}
}

func (m *mapping) lift(l *harvest.Lift) {
	bowls := &yaml.Node{Kind: yaml.SequenceNode}
	for _, w := range l.Weighings {
		var bowl mapping
		bowl.amount("gross", w.Gross)
		bowl.amount("tare", w.Tare)
		bowls.Content = append(bowls.Content, bowl.node(yaml.FlowStyle))
	}
	m.add("weighings", bowls)
	if len(l.Grades) > 0 {
		m.add("grades", gradesNode(l.Grades))
	}
	m.amount("mothers", l.Mothers)
	m.amount("soil", l.Soil)
	m.text("left", l.Left)
	m.text("where", l.Where)
	m.text("called", l.Called)
	m.text("says", l.Says)
}

func gradesNode(list []harvest.Grade) *yaml.Node {
	grades := &yaml.Node{Kind: yaml.SequenceNode}
	for _, g := range list {
		var grade mapping
		grade.text("sizes", g.Sizes.String())
		grade.amount("weight", g.Weight)
		if g.Count > 0 {
			grade.plain("count", strconv.Itoa(g.Count))
		}
		grade.text("condition", string(g.Condition))
		grades.Content = append(grades.Content, grade.node(yaml.FlowStyle))
	}
	return grades
}

func (m *mapping) planned(p *harvest.Planned) {
	m.text("plan", p.ID)
	m.text("stock", p.Stock)
	makes, uses := &yaml.Node{Kind: yaml.SequenceNode}, &yaml.Node{Kind: yaml.SequenceNode}
	for _, each := range p.Makes {
		var line mapping
		line.text("dish", each.Dish)
		line.plain("portions", strconv.Itoa(each.Portions))
		makes.Content = append(makes.Content, line.node(yaml.FlowStyle))
	}
	for _, each := range p.Uses {
		var line mapping
		line.text("lot", each.Lot)
		line.amount("weight", each.Weight)
		line.text("dish", each.Dish)
		uses.Content = append(uses.Content, line.node(yaml.FlowStyle))
	}
	if len(p.Makes) > 0 {
		m.add("makes", makes)
	}
	m.add("uses", uses)
	asked := &yaml.Node{Kind: yaml.SequenceNode}
	for _, each := range p.Asked {
		var line mapping
		line.text("field", each.Field)
		line.text("says", each.Says)
		asked.Content = append(asked.Content, line.node(yaml.FlowStyle))
	}
	if len(p.Asked) > 0 {
		m.add("asked", asked)
	}
}

func (m *mapping) batch(b *harvest.BatchEvent) {
	m.text("batch", b.Name)
	m.text("food", b.Food)
	m.text("also", strings.Join(b.Also, ", "))
	m.text("dish", b.Dish)
	m.text("plan", b.Plan)
	m.amount("amount", b.Amount)
	m.time("until", b.Until)
	m.amount("air", b.Air)
	m.text("says", b.Says)
}

func (m *mapping) document() ([]byte, error) {
	var b bytes.Buffer
	fmt.Fprintln(&b, opening)
	e := yaml.NewEncoder(&b)
	e.SetIndent(2)
	if err := errors.Join(e.Encode(m.node(0)), e.Close()); err != nil {
		return nil, err
	}
	fmt.Fprintln(&b, closing)
	return b.Bytes(), nil
}
