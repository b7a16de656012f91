package strict_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/strict"
)

// FuzzParse: no file stops the reader; every mistake has a place inside the
// file and a problem to name; a file read without a mistake reads the same
// again.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		planting, "seed: 3 stonez", "a: &x 1\nb: *x", "<<: {a: 1}", "count: 1\n---\ncount: 2", "\xef\xbb\xbfseed: 1 g\r\n",
		"seed:\n\tweight: 3 g", "- 1\n- [2, {a: 3}]", "? [a, b]\n: c", "a: !!binary aGk=", "a: |\n  text\n\tmore", "{", "--- ---", "a: \"\\u202e\"",
		"at: 2031-07-12T16:40:00+01:00", "tub: 30 l\ntub: 31 l", "rate: 1,5", "bed: 10 rods", "%YAML 1.2\n---\na: 1", "a: 'b", "\x00", "a: 0x10",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		first, again := readAll(data), readAll(data)
		require.Equal(t, first, again, "the same file, the same answer")
		var all strict.Errors
		if !errors.As(first.err, &all) {
			return
		}
		lines := strings.Count(string(data), "\n") + strings.Count(string(data), "\r") + 3
		for _, one := range all {
			require.NotEmpty(t, one.Problem)
			require.GreaterOrEqual(t, one.Line, 0)
			require.LessOrEqual(t, one.Line, lines, "%v", one)
			require.NotContains(t, one.Problem, "yaml:", "the library's own words")
		}
	})
}

// result is what reading a file through by every accessor gave.
type result struct {
	texts []string
	err   error
}

func readAll(data []byte) result {
	r := strict.Parse("p.yaml", data)
	var out result
	m := r.Root().AnyMap()
	for _, key := range m.Keys() {
		out.texts = append(out.texts, key)
		out.walk(m.At(key), 0)
	}
	m.At("seed").Quantity(units.Metric, units.Mass)
	m.At("tub").Quantity(units.UK)
	m.At("bed").Quantity(units.NoSystem, units.Area)
	m.At("count").Whole(1, 500)
	m.At("rate").Decimal()
	m.At("planted").Date()
	m.At("at").Time(time.UTC)
	m.At("early").Bool()
	m.At("class").Choice("first early", "maincrop")
	m.Require("id").Text()
	out.err = r.Err()
	return out
}

func (out *result) walk(n strict.Node, depth int) {
	switch {
	case depth > 60:
	case n.IsMap():
		m := n.AnyMap()
		for _, key := range m.Keys() {
			out.walk(m.At(key), depth+1)
		}
	case n.IsList():
		for _, element := range n.List() {
			out.walk(element, depth+1)
		}
	default:
		out.texts = append(out.texts, n.Text())
	}
}
