package strict_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/strict"
)

// one reads the value of `a: VALUE` and gives what was found wrong with it.
func one(value string, read func(strict.Node)) error {
	r := strict.Parse("p.yaml", []byte("a: "+value))
	read(r.Root().Map("a").At("a"))
	return r.Err()
}

// Each bound is taken as the comment of its accessor says: the last that is
// accepted, and the first that is not.
func TestBoundsOfValues(t *testing.T) {
	date := func(n strict.Node) { n.Date() }
	moment := func(n strict.Node) { n.Time(time.UTC) }
	number := func(n strict.Node) { n.Decimal() }
	whole := func(n strict.Node) { n.Whole(-3, 500) }
	for _, row := range []struct {
		read           func(strict.Node)
		taken, refused []string
	}{
		{date, []string{"1900-01-01", "2200-12-31", "2028-02-29"}, []string{"1899-12-31", "2201-01-01", "2027-02-29", "2027-1-1"}},
		{moment, []string{"1900-01-01 00:00", "2200-12-31T23:59:59", "2031-07-12T16:40Z", "2031-07-12 16:40+01:00"}, []string{"1899-12-31 23:59", "2201-01-01T00:00:00Z", "2031-07-12"}},
		{number, []string{"1.5", "1,5", "-0.25", "007", strings.Repeat("9", 40), "-" + strings.Repeat("9", 40)}, []string{"1.5.5", ".5", "5.", "1e3", "+1", "1,234.5", "--1", strings.Repeat("9", 41)}},
		{whole, []string{"-3", "0", "500", "0007"}, []string{"-4", "501", "+1", "1.0", "0x10", "99999999999999999999"}},
	} {
		for _, text := range row.taken {
			assert.NoError(t, one(text, row.read), text)
		}
		for _, text := range row.refused {
			assert.Error(t, one(text, row.read), text)
		}
	}
}

// The amounts beyond which no garden and no kitchen goes.
func TestBoundsOfAmounts(t *testing.T) {
	for _, row := range []struct {
		dimension      units.Dimension
		taken, refused []string
	}{
		{units.Mass, []string{"0 g", "1000 tonne", "999 to 1000 tonne"}, []string{"1000.1 tonne", "999 to 1001 tonne"}},
		{units.Volume, []string{"0 ml", "10000 m3"}, []string{"10000.1 m3"}},
		{units.Length, []string{"0 mm", "100 km"}, []string{"100.1 km"}},
		{units.Area, []string{"0 m2", "10000 ha"}, []string{"10000.1 ha"}},
		{units.Temperature, []string{"-90 C", "1000 C"}, []string{"-90.1 C", "1000.1 C"}},
		{units.Count, []string{"0", "10000000"}, []string{"10000001"}},
		{units.Power, []string{"0 W", "1000 kW"}, []string{"1001 kW"}},
		{units.Time, []string{"0 s", "40000 days"}, []string{"40001 days"}},
	} {
		read := func(n strict.Node) { n.Quantity(units.Metric, row.dimension) }
		for _, text := range row.taken {
			assert.NoError(t, one(text, read), text)
		}
		for _, text := range row.refused {
			assert.ErrorContains(t, one(text, read), "too much to be true", text)
		}
	}
}

// What to write instead names the units of what is wanted, several joined.
func TestAcceptedUnits(t *testing.T) {
	for _, row := range []struct {
		dims           []units.Dimension
		problem, write string
	}{
		{[]units.Dimension{units.Mass}, "a mass", "kg, g, lb or oz"},
		{[]units.Dimension{units.Volume}, "a volume", "l, ml, tbsp or tsp"},
		{[]units.Dimension{units.Length}, "a length", "mm, cm, m or in"},
		{[]units.Dimension{units.Area}, "an area", "m2, sq yd or square rods"},
		{[]units.Dimension{units.Temperature}, "a temperature", "C or F, such as 4 C"},
		{[]units.Dimension{units.Count}, "a count", "a plain number"},
		{[]units.Dimension{units.Power}, "a power", "W or kW"},
		{[]units.Dimension{units.Mass, units.Volume}, "a mass or a volume", "kg, g, lb or oz; or l, ml, tbsp or tsp"},
	} {
		_, err := strict.QuantityField("load", "3 h", units.Metric, row.dims...)
		var field *units.FieldError
		require.ErrorAs(t, err, &field)
		assert.Equal(t, "a time where "+row.problem+" is wanted", field.Problem)
		assert.Equal(t, row.write, field.Accepted)
	}
	_, err := strict.QuantityField("load", "3 kg", units.Metric, units.Time)
	assert.EqualError(t, err, `load "3 kg": a mass where a time is wanted`)
	_, err = strict.QuantityField("load", "to taste", units.Metric, units.Mass)
	assert.EqualError(t, err, `load "to taste": an amount is wanted here`)
}

// A unit nobody knows is answered by what the field takes, and by what any field
// takes where none is named; the mistake behind it can still be asked for.
func TestUnknownUnits(t *testing.T) {
	_, err := strict.QuantityField("load", "3 stonez", units.Metric)
	var field *units.FieldError
	require.ErrorAs(t, err, &field)
	var parse *units.ParseError
	require.ErrorAs(t, err, &parse)
	assert.Equal(t, parse.Accepted, field.Accepted)
	assert.Equal(t, "3 stonez", field.Value)
	assert.NotEmpty(t, field.Accepted)

	err = one("3 stonez", func(n strict.Node) { n.Quantity(units.Metric, units.Mass) })
	var of *strict.Error
	require.ErrorAs(t, err, &of)
	require.ErrorAs(t, of, &parse, "the cause stays to be asked for")
}

// A rod is a length, but a bed of ten rods is an area; nothing else is squared.
func TestRodsOfGround(t *testing.T) {
	area, err := strict.QuantityField("bed", "10 rods", units.Metric, units.Area)
	require.NoError(t, err)
	assert.Equal(t, units.Area, area.Dimension())
	_, err = strict.QuantityField("bed", "10 m", units.Metric, units.Area)
	require.ErrorContains(t, err, "a length where an area is wanted")
	length, err := strict.QuantityField("row", "10 rods", units.Metric, units.Length)
	require.NoError(t, err)
	assert.Equal(t, units.Length, length.Dimension())
	either, err := strict.QuantityField("bed", "10 rods", units.Metric, units.Area, units.Length)
	require.NoError(t, err)
	assert.Equal(t, units.Length, either.Dimension())
}

// A rough amount will not do for one dimension, but will where any is taken.
func TestRoughAmounts(t *testing.T) {
	_, err := strict.QuantityField("fat", "a knob", units.Metric, units.Mass)
	require.ErrorContains(t, err, "too vague here")
	q, err := strict.QuantityField("fat", "a knob", units.Metric)
	require.NoError(t, err)
	assert.True(t, q.IsRough())
}

func TestWords(t *testing.T) {
	for text, want := range map[string]bool{"yes": true, "TRUE": true, "true": true, "no": false, "False": false} {
		r := strict.Parse("p.yaml", []byte("a: "+text))
		assert.Equal(t, want, r.Root().Map("a").At("a").Bool(), text)
		assert.NoError(t, r.Err(), text)
	}
	r := strict.Parse("p.yaml", []byte("a: MAINCROP\nb: 1,25\nc: -2.50"))
	m := r.Root().AnyMap()
	assert.Equal(t, "maincrop", m.At("a").Choice("early", "maincrop"))
	assert.Equal(t, "1.25", m.At("b").Decimal().String())
	assert.Equal(t, "-2.5", m.At("c").Decimal().String())
	require.NoError(t, r.Err())
}

// A moment with a zone keeps it; one without is in the place's own time.
func TestMoments(t *testing.T) {
	lisbon := time.FixedZone("WEST", 3600)
	for text, want := range map[string]string{
		"2031-07-12T16:40:30Z":   "2031-07-12T16:40:30Z",
		"2031-07-12T16:40+02:00": "2031-07-12T14:40:00Z",
		"2031-07-12 16:40+02:00": "2031-07-12T14:40:00Z",
		"2031-07-12T16:40:05":    "2031-07-12T15:40:05Z",
		"2031-07-12 16:40:05":    "2031-07-12T15:40:05Z",
		"2031-07-12T16:40":       "2031-07-12T15:40:00Z",
		"2031-07-12 16:40":       "2031-07-12T15:40:00Z",
	} {
		at, err := strict.ParseTime(text, lisbon)
		require.NoError(t, err, text)
		assert.Equal(t, want, at.UTC().Format(time.RFC3339), text)
	}
	at, err := strict.ParseTime("2031-07-12 16:40", nil)
	require.NoError(t, err)
	assert.Equal(t, time.UTC, at.Location())
	_, err = strict.ParseTime("2201-01-01 00:00", nil)
	require.EqualError(t, err, "not a time: the year 2201")
}

// One figure is one: no range, no word, in the unit asked for.
func TestFigureField(t *testing.T) {
	millimetres, err := strict.FigureField("thick", "2.5 cm", units.Metric, units.Millimetre)
	require.NoError(t, err)
	assert.Equal(t, 25.0, millimetres)
	_, err = strict.FigureField("thick", "2 to 3 cm", units.Metric, units.Millimetre)
	require.EqualError(t, err, `thick "2 to 3 cm": not one figure`)
	_, err = strict.FigureField("thick", "2.5 kg", units.Metric, units.Millimetre)
	require.EqualError(t, err, `thick "2.5 kg": a mass where a length is wanted`)
}

// Amounts of no dimension that is asked for, and the hint for a time of day.
func TestAmountsInWords(t *testing.T) {
	_, err := strict.QuantityField("wait", "3 kg", units.Metric, units.Time)
	var field *units.FieldError
	require.ErrorAs(t, err, &field)
	assert.Equal(t, "min, h or days", field.Accepted)
	_, err = strict.QuantityField("load", "to taste", units.Metric, units.Mass)
	require.ErrorAs(t, err, &field)
	assert.Equal(t, "kg, g, lb or oz", field.Accepted)
	require.EqualError(t, one("7", func(n strict.Node) { n.Whole(3, 5) }), `p.yaml:1:4: a "7": not a whole number from 3 to 5`)
	assert.Equal(t, "write digits alone, such as 3", hint(t, one("7", func(n strict.Node) { n.Whole(3, 5) })))
	assert.Equal(t, "write digits alone, such as 1", hint(t, one("7", func(n strict.Node) { n.Whole(0, 5) })))
	r := strict.Parse("p.yaml", []byte("a: 7"))
	assert.Zero(t, r.Root().AnyMap().At("a").Whole(1, 5), "what is out of bounds is not used")
}

// Files are read up to the size that is named, ordinary ones alone.
func TestReadFile(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "old.csv")
	require.NoError(t, os.WriteFile(name, make([]byte, 2<<20), 0o600))
	data, err := strict.ReadFile(name, 2<<20)
	require.NoError(t, err)
	assert.Len(t, data, 2<<20)
	_, err = strict.ReadFile(name, 2<<20-1)
	require.EqualError(t, err, name+": is larger than 1 MB")
	_, err = strict.ReadFile(name, 1<<20)
	require.EqualError(t, err, name+": is larger than 1 MB")
	_, err = strict.ReadFile(dir, 1<<20)
	require.EqualError(t, err, dir+": is no ordinary file")
	_, err = strict.ReadFile(filepath.Join(dir, "none"), 1<<20)
	require.ErrorIs(t, err, fs.ErrNotExist)
	var told *strict.Error
	require.ErrorAs(t, err, &told)
	assert.Equal(t, filepath.Join(dir, "none"), told.File)
	assert.NotContains(t, told.Problem, dir, "the name stands once")
}

// A document of a megabyte is read, one of a byte more is not; forty deep, not
// forty-one.
func TestBoundsOfFiles(t *testing.T) {
	file := "a: " + strings.Repeat("x", 1<<20-3)
	require.NoError(t, strict.Parse("p.yaml", []byte(file)).Err())
	err := strict.Parse("p.yaml", []byte(file+"x")).Err()
	require.EqualError(t, err, "p.yaml: the file is larger than 1 MB")
	assert.Equal(t, "write a shorter file", hint(t, err))

	nested := func(deep int) string { return strings.Repeat("[", deep) + "x" + strings.Repeat("]", deep) }
	require.NoError(t, strict.Parse("p.yaml", []byte(nested(40))).Err())
	require.EqualError(t, strict.Parse("p.yaml", []byte(nested(41))).Err(), "p.yaml:1:42: nested too deeply")
}

func hint(t *testing.T, err error) string {
	var of *strict.Error
	require.ErrorAs(t, err, &of)
	return of.Hint()
}

// What plain files do without is told wherever it stands, however deep, once.
func TestWhatPlainFilesDoWithout(t *testing.T) {
	for file, says := range map[string]string{
		"a: {b: [1, &x 2]}":        "p.yaml:1:12: &x is an anchor",
		"a: {b: 1, b: 2}":          `p.yaml:1:11: key "b" stands twice, first in line 1`,
		"? [a, b]\n: c":            "p.yaml:1:3: a key that is not a word",
		"? {a: b}\n: c":            "p.yaml:1:3: a key that is not a word",
		"a: &x 1\n*x : 2":          "p.yaml:1:4: &x is an anchor\np.yaml:2:1: *x is an alias",
		"a: {<<: {b: 1}}":          "p.yaml:1:5: << merges another mapping in",
		"a: &x !!int 1":            "p.yaml:1:4: &x is an anchor",
		"\xfe\xff\x00a":            "p.yaml:1:1: the file is saved as UTF-16",
		"a: 1\nb\x00: 2":           "p.yaml:2:2: a zero byte",
		"a: 1\nbé\xff":             "p.yaml:2:3: this is not UTF-8 text",
		"\xff":                     "p.yaml:1:1: this is not UTF-8 text",
		"a: b\xc3":                 "p.yaml:1:5: this is not UTF-8 text",
		"a: \uFFFD":                "",
		"\ra: 1":                   "p.yaml:1:1: a carriage return without a line feed",
		"\x00a: 1":                 "p.yaml:1:1: a zero byte",
		"- 1\n- b:\n\t2":           "p.yaml:3:1: a tab in the indentation",
		"a: 1\r":                   "p.yaml:1:5: a carriage return without a line feed",
		"\r\na: 1\r\nb: 2\r\n":     "",
		"a: 1\u0085b: 2":           "p.yaml:1:5: an unusual line break",
		"a: 1\u2029b: 2":           "p.yaml:1:5: an unusual line break",
		"a: 1\n  \tb: 2":           "p.yaml:2:3: a tab in the indentation",
		"a: 1\n--- \nb: 2":         "p.yaml:2:1: a second document begins here",
		"a: 1\n--- \nb: [2":        "p.yaml:2:1: not readable as YAML: did not find expected ',' or ']'",
		"a: 1\n b: c: d\n\n\tlast": "p.yaml:2:1: not readable as YAML: mapping values are not allowed in this context",
		"a:\tb":                    "",
	} {
		err := strict.Parse("p.yaml", []byte(file)).Err()
		if says == "" {
			assert.NoError(t, err, "%q", file)
			continue
		}
		assert.EqualError(t, err, says, "%q", file)
	}
}

// A key that stands twice keeps its first value; keys that are no words are not
// among the keys.
func TestKeysAsTheyStand(t *testing.T) {
	r := strict.Parse("p.yaml", []byte("b: 1\na: 2\nb: 3\n[c]: 4\n<<: {d: 5}\ne: 6\n"))
	m := r.Root().AnyMap()
	assert.Equal(t, []string{"b", "a", "e"}, m.Keys())
	assert.Equal(t, "1", m.At("b").Text())
}

// The nearest key is named only when it is near.
func TestNearestKey(t *testing.T) {
	for key, near := range map[string]string{"sede": "seed", "plantd": "planted", "colour": "", "ct": "at", "xy": "", "at ": "at"} {
		r := strict.Parse("p.yaml", fmt.Appendf(nil, "%q: 1", key))
		r.Root().Map("seed", "planted", "at", "rotten")
		told := hint(t, r.Err())
		if near == "" {
			assert.Equal(t, "write one of seed, planted, at, rotten", told, key)
		} else {
			assert.Equal(t, "write "+near+", if that is meant; the keys here are seed, planted, at, rotten", told, key)
		}
	}
}

// Several keys of one mapping may be missing; each is told, with the mapping's own
// key where it has one.
func TestMissingKeys(t *testing.T) {
	r := strict.Parse("p.yaml", []byte("seed: {weight: 3 g}"))
	m := r.Root().Map("seed", "id")
	m.Require("id")
	seed := m.At("seed").Map("weight", "count", "grade")
	seed.Require("count")
	seed.Require("grade")
	seed.Require("weight")
	assert.EqualError(t, r.Err(), `p.yaml:1:1: the key "id" is missing
p.yaml:1:7: seed: the key "count" is missing
p.yaml:1:7: seed: the key "grade" is missing`)
	assert.Equal(t, "write a line `id: …`", hint(t, r.Err()))

	r = strict.Parse("p.yaml", []byte("seed: 3"))
	r.Root().AnyMap().At("seed").Map("weight").Require("weight")
	assert.EqualError(t, r.Err(), `p.yaml:1:7: seed "3": a mapping is wanted here`, "of what is no mapping nothing is missing")
}

// One text is wanted: not several, not none, not blanks; a written null is a word.
func TestTexts(t *testing.T) {
	text := func(n strict.Node) { n.Text() }
	for value, says := range map[string]string{
		"[1, 2]":    "p.yaml:1:4: a: one value is wanted here, not several",
		"{b: 1}":    "p.yaml:1:4: a: one value is wanted here, not several",
		`""`:        `p.yaml:1:4: a "": nothing is written here`,
		`"  "`:      `p.yaml:1:4: a "  ": nothing is written here`,
		"~":         "",
		"null":      "",
		"":          `p.yaml:1:3: a "": nothing is written here`,
		`"  soft "`: "",
	} {
		if err := one(value, text); says == "" {
			assert.NoError(t, err, value)
		} else {
			assert.EqualError(t, err, says, value)
		}
	}
	r := strict.Parse("p.yaml", []byte("a: '  soft '\nlist: [b, c]"))
	assert.Equal(t, "soft", r.Root().AnyMap().At("a").Text())
	var list []string
	for _, n := range r.Root().AnyMap().At("list").List() {
		list = append(list, n.Text())
	}
	assert.Equal(t, []string{"b", "c"}, list)
}

// An element of a list is told by the list's key, a mistake at one value once.
func TestMistakesInLists(t *testing.T) {
	r := strict.Parse("p.yaml", []byte("sizes: [20 mm, many]"))
	for _, n := range r.Root().AnyMap().At("sizes").List() {
		n.Quantity(units.Metric, units.Length)
		n.Quantity(units.Metric, units.Length)
	}
	var all strict.Errors
	require.ErrorAs(t, r.Err(), &all)
	require.Len(t, all, 1)
	assert.Equal(t, 16, all[0].Column)
	assert.True(t, strings.HasPrefix(all[0].Problem, `sizes "many": `), all[0].Problem)
}

// Mistakes are sorted by file, line and column, and each can be asked for.
func TestMistakesInOrder(t *testing.T) {
	cause := errors.New("cause")
	err := strict.Join(
		&strict.Error{File: "b", Line: 1, Column: 1, Problem: "5"}, &strict.Error{File: "a", Line: 2, Column: 1, Problem: "4"},
		&strict.Error{File: "a", Line: 1, Column: 9, Problem: "3"}, &strict.Error{File: "a", Line: 1, Column: 2, Problem: "2"}, cause)
	assert.EqualError(t, err, "cause\na:1:2: 2\na:1:9: 3\na:2:1: 4\nb:1:1: 5")
	assert.ErrorIs(t, err, cause)
}
