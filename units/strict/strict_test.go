package strict_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/strict"
)

const planting = `id: tub-3
planted: 2031-04-02
seed: {count: 3, weight: 190 g}
bed: 10 rods
at: 2031-07-12 16:40
share: 1e3
early: yes
class: Second early
sizes: [20 mm, 45 mm]
`

func TestReadThrough(t *testing.T) {
	r := strict.Parse("plantings.yaml", []byte(planting))
	m := r.Root().Map("id", "planted", "seed", "bed", "at", "share", "early", "class", "sizes", "tub")
	seed := m.At("seed").Map("count", "weight")

	assert.Equal(t, "tub-3", m.Require("id").Text())
	assert.Equal(t, "2031-04-02", m.At("planted").Date().Format(time.DateOnly))
	assert.Equal(t, 3, seed.At("count").Whole(1, 500))
	assert.Equal(t, "190 g", seed.At("weight").Quantity(units.Metric, units.Mass).String())
	assert.Equal(t, "10 sq rod", m.At("bed").Quantity(units.Metric, units.Area).String())
	assert.Equal(t, 16, m.At("at").Time(time.UTC).Hour())
	assert.Equal(t, "1e3", m.At("share").Text(), "the text stays as written")
	assert.True(t, m.At("early").Bool())
	assert.Equal(t, "second early", m.At("class").Choice("first early", "second early"))
	assert.Len(t, m.At("sizes").List(), 2)
	assert.False(t, m.At("tub").Quantity(units.Metric).IsValid(), "an absent key is no amount and no mistake")
	require.NoError(t, r.Err())
}

// Every mistake, its place, and what to write instead.
func TestMistakes(t *testing.T) {
	read := func(r *strict.Reader) {
		m := r.Root().Map("seed", "count", "planted", "at", "early", "class", "list", "tub", "rate")
		m.At("seed").Quantity(units.Metric, units.Mass)
		m.At("tub").Quantity(units.Metric, units.Volume)
		m.At("count").Whole(1, 500)
		m.At("planted").Date()
		m.At("at").Time(time.UTC)
		m.At("early").Bool()
		m.At("class").Choice("first early", "maincrop")
		m.At("list").List()
		m.At("rate").Decimal()
	}
	for _, row := range []struct{ name, file, says, hint string }{
		{"unknown unit", `seed: 3 stonez`, `p.yaml:1:7: seed "3 stonez": unknown unit "stonez"`, "write kg, g, lb or oz"},
		{"wrong dimension", `seed: 3 l`, `p.yaml:1:7: seed "3 l": a volume where a mass is wanted`, "write kg, g, lb or oz"},
		{"too vague", `seed: a knob`, `p.yaml:1:7: seed "a knob": too vague here`, "write kg, g, lb or oz"},
		{"below zero", `seed: -3 g`, `p.yaml:1:7: seed "-3 g": below zero`, "write kg, g, lb or oz"},
		{"absurd", `seed: 30000 tonne`, `p.yaml:1:7: seed "30000 tonne": too much to be true`, "write a smaller amount, in the right unit"},
		{"ambiguous", `tub: 3 gallons`, `p.yaml:1:6: tub "3 gallons": a gallon may be 4546.09 ml (UK, AU) or 3785.411784 ml (US); there is no metric gallon`, "write gal UK or gal US, or set the kitchen's measures"},
		{"nothing there", `seed:`, `p.yaml:1:6: seed "": nothing is written here`, "write a value, or leave the key out"},
		{"not whole", `count: 2.5`, `p.yaml:1:8: count "2.5": not a whole number from 1 to 500`, "write digits alone, such as 1"},
		{"out of range", `count: 0`, `p.yaml:1:8: count "0": not a whole number from 1 to 500`, "write digits alone, such as 1"},
		{"no date", `planted: 12/7/2031`, `p.yaml:1:10: planted "12/7/2031": not a date`, "write year-month-day, such as 2031-07-12"},
		{"no day", `planted: 2031-02-30`, `p.yaml:1:10: planted "2031-02-30": not a date`, "write year-month-day, such as 2031-07-12"},
		{"no time", `at: noon`, `p.yaml:1:5: at "noon": not a time`, "write 2031-07-12T16:40:00+01:00, or 2031-07-12 16:40 in local time"},
		{"no yes", `early: perhaps`, `p.yaml:1:8: early "perhaps": neither yes nor no`, "write true or false"},
		{"no choice", `class: late`, `p.yaml:1:8: class "late": not one of the words known here`, "write first early | maincrop"},
		{"no list", `list: one`, `p.yaml:1:7: list "one": one value where a list is wanted`, "write each element on a line of its own after `- `"},
		{"no number", `rate: 1e3`, `p.yaml:1:7: rate "1e3": not a number`, "write digits, with a point if need be, such as 1.5"},
		{"unknown key", "count: 1\nsede: 2 g", `p.yaml:2:1: unknown key "sede"`, "write seed, if that is meant; the keys here are seed, count, planted, at, early, class, list, tub, rate"},
		{"key twice", "count: 1\ncount: 2", `p.yaml:2:1: key "count" stands twice, first in line 1`, "write it once"},
		{"second document", "count: 1\n---\ncount: 2", `p.yaml:2:1: a second document begins here`, "write one document a file, without a line of ---"},
		{"alias", "count: &a 1\ntub: *a", "p.yaml:1:8: &a is an anchor\np.yaml:2:6: *a is an alias", ""},
		{"merge", "<<: {count: 1}", "p.yaml:1:1: << merges another mapping in", "write the keys themselves"},
		{"tag", "count: !!int 1", "p.yaml:1:8: !!int is a tag", "write the value alone"},
		{"tab", "count: 1\nseed:\n\tweight: 3 g", "p.yaml:3:1: a tab in the indentation", "write spaces"},
		{"syntax", "count: [1", "p.yaml:1:1: not readable as YAML: did not find expected ',' or ']'", "write plain YAML: lines of `key: value`, indented with spaces"},
		{"empty", "", "p.yaml:1:1: the file is empty", "write plain YAML: lines of `key: value`, indented with spaces"},
		{"a list at the top", "- 1", "p.yaml:1:1: a mapping is wanted here", "write lines of `key: value`"},
		{"hidden", `class: "first\u202eearly"`, `p.yaml:1:8: class "first\u202eearly": the hidden character U+202E`, "write plain text"},
		{"not UTF-8", "count: 1\nclass: \xff", "p.yaml:2:8: this is not UTF-8 text", "write the file again, saved as UTF-8"},
		{"UTF-16", "\xff\xfec\x00", "p.yaml:1:1: the file is saved as UTF-16", "write the file again, saved as UTF-8"},
		{"odd line ends", "count: 1\u2028tub: 3 l", "p.yaml:1:9: an unusual line break", "write lines that end in a line feed"},
		{"old line ends", "count: 1\rtub: 3 l", "p.yaml:1:9: a carriage return without a line feed", "write lines that end in a line feed"},
	} {
		t.Run(row.name, func(t *testing.T) {
			r := strict.Parse("p.yaml", []byte(row.file))
			read(r)
			require.EqualError(t, r.Err(), row.says)
			var one *strict.Error
			if row.hint != "" && assert.ErrorAs(t, r.Err(), &one) {
				assert.Equal(t, row.hint, one.Hint())
			}
		})
	}
}

func TestMistakesAreAllCollectedInOrder(t *testing.T) {
	r := strict.Parse("p.yaml", []byte("b: x\na: y\n"))
	m := r.Root().Map("a", "b", "c")
	m.At("a").Whole(0, 9)
	m.At("b").Whole(0, 9)
	m.Require("c")
	var all strict.Errors
	require.ErrorAs(t, r.Err(), &all)
	require.Len(t, all, 3)
	assert.Contains(t, all[0].Problem, "missing")
	assert.Equal(t, 1, all[1].Line)
	assert.Equal(t, 2, all[2].Line)
}

func TestWindowsFilesRead(t *testing.T) {
	r := strict.Parse("p.yaml", []byte("\xef\xbb\xbfcount: 1\r\nclass: sound\r\n"))
	m := r.Root().Map("count", "class")
	assert.Equal(t, 1, m.At("count").Whole(1, 2))
	assert.Equal(t, "sound", m.At("class").Text())
	require.NoError(t, r.Err())
}

func TestQuantityField(t *testing.T) {
	_, err := strict.QuantityField("load", "1.2 pints", units.NoSystem, units.Mass)
	var ambiguous *units.AmbiguousError
	require.ErrorAs(t, err, &ambiguous)
	assert.True(t, strings.HasPrefix(err.Error(), `load "1.2 pints": a pint may be`), err)
	q, err := strict.QuantityField("load", "1.2 kg", units.NoSystem, units.Mass)
	require.NoError(t, err)
	assert.Equal(t, "1.2 kg", q.String())
}

func TestDeepFilesAreRefused(t *testing.T) {
	deep := strings.Repeat("[", 200) + strings.Repeat("]", 200)
	r := strict.Parse("p.yaml", []byte(deep))
	require.Error(t, r.Err())
	assert.Contains(t, r.Err().Error(), "nested too deeply")
	var all strict.Errors
	assert.True(t, errors.As(r.Err(), &all))
}
