package strict

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/spelled"
)

// `go test ./units/strict -update` writes the golden files anew.
var update = flag.Bool("update", false, "write the golden files anew")

func reviewed(t *testing.T, name, got string) {
	t.Helper()
	path := "testdata/" + name
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, spelled.Difference(string(want), got))
}

// values are what may stand behind a key, as people write it and as they slip.
var values = []string{
	"1", "-3", "- 3", "-", "--", "-x", "x", "x y", "x  y ", " x", "½ l", "10:05", "a:b", "a: b", "a:", ":a", "#x", "x#y", "x #y", "x # y: z", "~", "null", "Null", "NULL", "nul", "true", "yes", "1e3", "2031-07-12",
	"'x'", "'x' ", "'x'y", "'x' # y", "'x'#y", "'it''s'", "'x", "''", "'a: b'", "'x': y", "'x' : y", `"x"`, `"x\n"`, `"x`, `""`, `"a: b" # y`, `"x" y`, "`x`", "@x", "%x", "&x", "&x y", "*x", "!x", "!!int 1", "|", ">", "?", "? x", "?x", "<<", "<", "{", "}", "[", "]",
	"{}", "[]", "{ }", "[ ]", "{b: c}", "{b: c,}", "{b: c, d: e}", "{b:c}", "{b: c: d}", "{b}", "{'b': c}", "{b: }", "{b: {c: d}}", "{b: [c, d]}", "{b: c d, e: 'f, g'}", "{b: 10:05}", "{b: c#d}", "{b: c #d}", "{b: c} # x", "{b: c}# x", "{b: c} x", "{b: c", "{b: c]", "{1b: c}", "{b1: c}", "{b-1: c}", "{b c: d}", "{b : c}", "{~: c}", "{null: c}", "{b: ~}",
	"[b]", "[b, c]", "[b, c, ]", "[b c]", "[b: c]", "['b', \"c\"]", "[[b], [c]]", "[{b: c}, {b: d}]", "[b] # x", "[b]x", "[b", "[b}", "[-1, - 1]", "[?]", "[b?]", "[a #b]", "[[[[[[[[[[x]]]]]]]]]]", "[[[[[[[[[[[x]]]]]]]]]]]", "[[[[[[[[[[[[x]]]]]]]]]]]]",
	"größe", "größe: 1", "\u00a0x", "x\u0085y", "x\u200by", "\U0001F954", "x\ty", "a\x7f", "\u202ex", "...", "---", "--- x", "x: 'y", "x, y", "x]", "x}", "{b: c}, d", "a?b", "a!b", "a&b", "a*b", "a|b", "a>b", "a%b", "a@b", "a`b", "x'y", `x"y`, "it's", ",x", "_x", "x_1", "1x", "0x10", ".5", "1.", "+1",
}

// places are where a value may stand.
var places = []string{
	"a: V", "- V", "V: x", "V", "a:\n  b: V", "a:\n- V", "a:\n  - V\n  - V", "a: V\nb: V", "- a: V\n  b: V", "a: V\n  V", "a: V\n b: 1", "a: V # c", "a: {b: V}", "a: {b: V, c: 1}", "a: [V]", "a: [1, V]", " a: V", "# V\na: 1", "a: V\n...", "a: V\n...\n", "a: V\n---\n", "-   V", "a:   V", "a:\n    b: 1\n    V", "- V\na: 1", "a:V", "a: 1\nV: 2", "größe: V\nb: V",
}

// Values in their places: which are read plainly, and then as the library reads them;
// the rest and what is wrong with it, as when somebody last read the difference.
func TestValuesInTheirPlaces(t *testing.T) {
	var out strings.Builder
	for _, value := range values {
		plain := ""
		for _, place := range places {
			if sameAsLibrary(t, strings.ReplaceAll(place, "V", value)) {
				plain += "p"
			} else {
				plain += "-"
			}
		}
		fmt.Fprintf(&out, "%q %s\n", value, plain)
		for _, place := range places[:len(places)/3] {
			text := strings.ReplaceAll(place, "V", value)
			r := Parse("p", []byte(text))
			told := walked(r.Root())
			if err := r.Err(); err != nil {
				told = strings.ReplaceAll(err.Error(), "\n", " | ")
			}
			fmt.Fprintf(&out, "  %s\n", told)
		}
	}
	reviewed(t, "places.txt", out.String())
}

// walked is all that a node holds, with the place of each value.
func walked(n Node) string {
	_, line, column := n.Place()
	at := fmt.Sprintf("@%d:%d", line, column)
	var parts []string
	switch {
	case n.IsMap():
		m := n.AnyMap()
		for _, key := range m.Keys() {
			parts = append(parts, key+"="+walked(m.At(key)))
		}
		return "{" + strings.Join(parts, " ") + "}" + at
	case n.IsList():
		for _, one := range n.List() {
			parts = append(parts, walked(one))
		}
		return "[" + strings.Join(parts, " ") + "]" + at
	}
	return n.Text() + at
}

// written are values as files have them, for each kind that may be asked for.
var written = []string{"1", "0", "-1", "500", "501", "007", "+1", "1.5", "1,5", "1,500", "-0.5", ".5", "5.", "1e3", "x", "", "true", "Yes", "no", "FALSE", "maybe", "Late", "late", "250 g", "2 pt", "3 stones", "a knob", "to taste", "1-2 kg", "3 rods", "3 l", "20 C", "-100 C", "1 h", "2000 tonne", "3 smoots", "2 kWh", "1 bar",
	"2031-07-12", "2031-7-12", "2031-02-30", "1899-12-31", "2031-07-12 16:40", "2031-07-12T16:40", "2031-07-12 16:40:30", "2031-07-12T16:40Z", "2031-07-12 16:40+01:00", "2031-07-12T16:40:30.5Z", "2031-03-30 01:30", "2031-10-26 01:30", "16:40", "[1, 2]", "{a: 1}", "{b: 2, a: 1}", "{B: 2}", "{ab: 2}"}

// Each of them, as each kind of value: what it is read as, or what is wrong with it.
func TestValuesAsEachKind(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	require.NoError(t, err)
	kinds := []struct {
		name string
		read func(Node) any
	}{
		{"whole", func(n Node) any { return n.Whole(0, 500) }}, {"negative", func(n Node) any { return n.Whole(-5, -1) }}, {"decimal", func(n Node) any { return n.Decimal() }}, {"bool", func(n Node) any { return n.Bool() }}, {"choice", func(n Node) any { return n.Choice("early", "late") }},
		{"amount", func(n Node) any { return n.Quantity(units.NoSystem) }}, {"uk", func(n Node) any { return n.Quantity(units.UK, units.Mass, units.Volume) }}, {"mass", func(n Node) any { return n.Quantity(units.Metric, units.Mass) }}, {"area", func(n Node) any { return n.Quantity(units.Metric, units.Area) }}, {"heat", func(n Node) any { return n.Quantity(units.Metric, units.Temperature) }},
		{"date", func(n Node) any { return n.Date() }}, {"time", func(n Node) any { return n.Time(london) }}, {"text", func(n Node) any { return n.Text() }}, {"list", func(n Node) any { return len(n.List()) }}, {"map", func(n Node) any { return n.Map("a", "c").Keys() }}, {"required", func(n Node) any { return n.Map("a", "b").Require("b").Text() }},
	}
	var out strings.Builder
	for _, value := range written {
		fmt.Fprintf(&out, "%q\n", value)
		for _, kind := range kinds {
			r := Parse("p", []byte("k: "+value))
			got := fmt.Sprint(kind.read(r.Root().AnyMap().At("k")))
			if err := r.Err(); err != nil {
				got += " ! " + strings.ReplaceAll(err.Error(), "\n", " | ")
				for _, one := range err.(Errors) {
					got += " | " + one.Hint()
				}
			}
			fmt.Fprintf(&out, "  %s: %s\n", kind.name, got)
		}
		for _, unit := range []units.Unit{units.Gram, units.Millimetre} {
			figure, err := FigureField("load", value, units.Metric, unit)
			fmt.Fprintf(&out, "  in %s: %g %v\n", unit, figure, err)
		}
	}
	reviewed(t, "kinds.txt", out.String())
}
