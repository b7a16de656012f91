package units_test

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math/big"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/spelled"
)

// reviewed compares answers with those that somebody last read. It notices what
// moves; what is right the other tests say, by their sources.
// `go test ./units -run Reviewed -update` writes the golden files anew.
func reviewed(t *testing.T, name, got string) {
	t.Helper()
	path := "../testdata/units/" + name
	if flag.Lookup("update").Value.String() == "true" { // table_made_test.go has it
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, spelled.Difference(string(want), got))
}

// writeError writes all that an error tells.
func writeError(out *strings.Builder, err error) {
	fmt.Fprint(out, "! ", err)
	var hinted interface{ Hint() string }
	if errors.As(err, &hinted) {
		fmt.Fprint(out, " | ", hinted.Hint())
	}
	var ambiguous *units.AmbiguousError
	if errors.As(err, &ambiguous) {
		fmt.Fprint(out, " | ", ambiguous.Accepted())
	}
	fmt.Fprintln(out)
}

// Every unit by all that is told of it, and what one and two and a half of it are in
// the first units of its dimension.
func TestEveryUnitIsToldAsReviewed(t *testing.T) {
	var out strings.Builder
	for _, u := range units.All() {
		fmt.Fprintf(&out, "%s|%s|%s|%s|%s|%s|%s|%s|%s|%s|%s\n", u, u.Symbol(), u.Code(), units.KitchenWord(u.Code()), u.Dimension(), u.Kind(), u.One(), u.System(), u.Definition(), u.Note(), u.Caution())
		fmt.Fprintf(&out, "  rough %t, size %t, pack %t, base %t; %s, %s\n", u.IsRough(), u.IsSize(), u.IsPack(), u.IsBase(), u.Origin(), u.Origin().KnownBy)
		for _, to := range []units.Unit{units.Ounce, units.Teaspoon, units.CupUS, units.Inch, units.SquareRod, units.Fahrenheit, units.GasMark, units.Hour, units.Kilojoule} {
			q, err := units.FromRat(big.NewRat(5, 2), u).In(to)
			var mark *units.MarkError
			switch {
			case err == nil:
				low, exact := q.Rounded(6)
				fmt.Fprintf(&out, "  2.5 are %s %t\n", low, exact)
			case errors.As(err, &mark):
				fmt.Fprintf(&out, "  2.5 are %s near %t\n", mark, mark.IsNear())
			}
		}
	}
	fmt.Fprintln(&out, units.Symbols(), units.SystemNames())
	reviewed(t, "told.txt", out.String())
}

// amountsWritten are amounts as people write them, well and badly, beside those of the
// corpus of recipe lines.
var amountsWritten = []string{
	"", " ", "3", "3.", ".5 g", "-.5 C", "1.5.2 g", "1,5 kg", "1,500 g", "0,500 kg", "00,500 kg", "1,50 g", "12,345 g", "1½ pt", "1 ½ pt", "1 1/2 pint", "1-1/2 cups", "1-3/2 cups", "2-1/4 cups", "1-½ cup", "3/2 cup", "1 3/2 cup",
	"1 2/2 cup", "½", "½½ g", "½ 1/2 g", "1/2 ½ g", "1/0 g", "0/1 g", "1/ g", "1/2/3 g", "1.5 1/2 g", "1.5½ g", "1 1/2 1/2 g", "1 0/2 g", "↉ g", "1 12 g", "10/12 g", "1-10/12 g", "1-12/10 g", "1- g", "1-/2 g",
	"a pinch", "an ounce", "half a pint", "half an ounce", "half pint", "a half pint", "half of a pint", "a quarter of a pound", "three quarters of a pint", "two thirds cup", "one third cup", "one and a half cups", "two and a quarter pounds", "one and half",
	"twelve eggs", "thirteen eggs", "six", "a dozen", "half a dozen", "half-dozen", "one-half cup", "two-thirds cup", "quarter-pound", "three halves lb", "a few", "several", "some", "a", "an", "half", "quarter", "one and", "one and a", "of", "minus 5 C", "minus 5 g", "-5 C", "- 5 C", "minus half C",
	"2 lb 4 oz", "2 lb, 4 oz", "2lb4oz", "4 oz 2 lb", "1 lb 1 lb", "½ lb 2 oz", "½ lb + 2 oz", "2 lb and 4 oz", "2 lb plus 4 oz", "2 lb & 4 oz", "2 lb 4", "2 lb 4 ml", "1 h 30 min", "1 m 20 cm", "20 C 3 F", "20 C + 3 C", "1 cup + 1 tbsp + 1 tsp", "2 lb 4 oz 3 g",
	"1-2 tbsp", "1–2 tbsp", "1 - 2 tbsp", "1 to 2 tbsp", "1 tsp to 1 tbsp", "2-1 tbsp", "1 g-2 ml", "1-2", "1-1 g", "100 g-0.2 kg", "-5--2 C", "-5 to -2 C", "5 to -2 C", "1-2-3 g", "1-x g", "half to one cup", "a to b", "1-", "1 to", "1-2 x 400 g", "1-2x400g tins", "1-2 (400 g) tins", "2-1 x 400 g",
	"2 x 400 g tins", "2x400 g", "2 X 400 g", "2*400 g", "2 × 400 g", "2 x", "2 x large", "2 x 400", "2 x 20 C", "2 x 5 min", "2 x 3 cloves", "2 x 5 cm", "2 xl", "2 (14 oz) cans", "2 (14 oz can", "2 (14) cans", "2 (about 14 oz) cans", "2 (14 oz) peas", "2 400 g tins", "2 400 tins", "2 400 g", "2 14-oz cans", "1 14-", "a 15 g bunch", "400 g tin", "400 g tins", "20 C tin", "2 tin tins", "1 large tin",
	"200 ml/7 fl oz", "200 ml / 7 fl oz", "200 ml (7 fl oz)", "200 ml (about 7 fl oz)", "200 ml (approx 7 fl oz)", "200 ml (or 7 fl oz)", "200 ml (7 fl oz", "200 ml (7)", "200 ml (x)", "200 ml/x", "200 ml/7", "200 g/1 lb", "200 g (240 g)", "200 g (241 g)", "200 g (160 g)", "200 g (159 g)", "1 cup (120 g)", "1 cup (120 g) more", "200 ml (7 fl oz) x", "1-2 cups (250-500 ml)", "1-2 cups (250-900 ml)", "2 C (35 F)",
	"gas mark 6", "gas 6", "Gas Mark 6", "gm 6", "regulo 6", "gas mark", "gas", "gas mark ¼", "gas mark 1/2", "gas mark 3/4", "gas mark 0", "gas mark 10", "gas mark 11", "gas mark 1.5", "gas mark 4-6", "gas mark 4 to 6", "gas mark 6-4", "gas mark 4-11", "gas mark 4-x", "gas mark 4 g", "gas mark x", "gas mark -1", "mark 6",
	"to taste", "To Taste", " to taste ", "to taste it", "taste",
	"250g", "250 G", "250 gms", "250 g.", "2 m2", "2 m 2", "2 cm3", "2 m3", "2 m4", "2 m23", "2 sq m", "2 km2", "5 [foz_us]", "5 [foz_us", "5 {clove}", "5 {clove", "2 fl oz", "2 fl. oz.", "2 fluid ounces", "2 UK pints", "2 pints UK", "2 pt (UK)", "2 pt UK (US)", "2 imperial pints", "2 American cups", "2 metric cups", "2 metric pints", "2 metric lb", "2 US dsp", "2 old British tbsp", "2 us g", "2 pint us x",
	"1 heaped tbsp", "2 heaping tsp US", "1 level tsp", "1 scant cup", "1 rounded tbsp", "heaped", "1 heaped", "1 sack", "1 tin of peas", "1 handful", "2 handfuls", "2 bunches", "2 leaves", "1 leaf", "3 large", "2 small eggs", "2 very large", "2 gross", "2 brace", "1 score", "1 knob", "1 drizzle", "1 turn", "3 in", "3 inches", "3 inchs", "3\"", "3“", "3'", "180°", "180 ° C", "180 ºC", "180°F", "350 degrees", "350 degrees F", "0 K", "-1 K", "-273.15 C", "-273.16 C", "-459.67 F", "-459.68 F",
	"3 smoots", "3 gramms", "3 tablespon", "3 teaspoonn", "3 ouncez", "3 killogram", "3 qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqq", "3 litrs", "3 pimt", "3 cuup", "3 z", "3 gx", "3 mll", "3 tbps", "3 tsps", "2 g butter", "2 oz. butter", "2 pints milk", "2 heaped butter", "2 tsp. mustard", "2 gram butter of mine",
	"1e3 g", "1 g 2", "1 g)", "(1 g)", "/ g", "( g", "1 g (", "1 g /", "1 g()", "\t5\u00a0g\u2009", "5\u200bg", "5 ’", "1⁄2 cup", "1∕2 cup", "5\ng", "999999999999999999 g", "1000000000000000000 g", "12345678901234567890 g", "0.1234567890123456789 g", "1/12345678901234567890 g", "12345678901234567890/3 g", "0.0000000000000000001 g", "1/3 g", "83 1/3 g", "1/7 kg to 1/3 kg",
}

// Every amount above and of the corpus of lines, by the measures of each kitchen.
func TestEveryAmountIsReadAsReviewed(t *testing.T) {
	file, err := os.Open("../testdata/recipes/lines.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	texts := amountsWritten
	for _, row := range rows[1:] {
		texts = append(texts, row[2])
	}
	var out strings.Builder
	for i, text := range texts {
		if i < len(amountsWritten) || i%3 == 0 {
			fmt.Fprintf(&out, "%q\n", text)
			before := ""
			for s := units.NoSystem; s <= units.AU; s++ {
				if told := amountTold(text, s); told != before {
					fmt.Fprintf(&out, "  %s %s", s, told)
					before = told
				}
			}
		}
	}
	reviewed(t, "amounts.txt", out.String())
}

// amountTold is all that is told of an amount that was read.
func amountTold(text string, s units.System) string {
	var out strings.Builder
	q, err := units.Parse(text, s)
	if err != nil {
		writeError(&out, err)
		return out.String()
	}
	data, err := json.Marshal(q)
	if err != nil {
		return err.Error()
	}
	fmt.Fprintf(&out, "%s | %s | %s %s | %s\n", q, q.Format(units.US), q.Low(), q.High(), data)
	return out.String()
}

// Amounts from next to nothing to far too much in every measure, as each kitchen
// measures them out.
func TestEveryAmountIsMeasuredAsReviewed(t *testing.T) {
	parse := func(texts ...string) (all []units.Quantity) {
		for _, text := range texts {
			all = append(all, units.MustParse(text))
		}
		return all
	}
	kitchens := []struct {
		name string
		units.Kitchen
	}{
		{"metric", units.Kitchen{}}, {"uk", units.Kitchen{System: units.UK}}, {"us", units.Kitchen{System: units.US}}, {"au", units.Kitchen{System: units.AU}},
		{"own", units.Kitchen{System: units.Metric, ScaleStep: units.MustParse("0.5 g"), JugStep: units.MustParse("20 ml"), Spoons: parse("1 tbsp", "1 tsp", "1/3 tsp", "1/2 tsp", "3/4 tsp")}},
		{"coarse", units.Kitchen{System: units.UK, ScaleStep: units.MustParse("20 g"), JugStep: units.MustParse("3 g"), Spoons: parse("1 tbsp", "1/4 tsp")}},
		{"odd", units.Kitchen{System: units.US, ScaleStep: units.MustParse("2 ml"), Spoons: parse("2 g", "0 ml", "2 tbsp")}},
	}
	options := []struct {
		name string
		units.MeasureOptions
	}{
		{"", units.MeasureOptions{}}, {"down", units.MeasureOptions{RoundDown: true}},
		{"cut", units.MeasureOptions{Halves: true, Knife: 4, Each: units.MustParse("51 g"), EachName: "beaten egg", Density: big.NewRat(6, 5)}},
		{"knife", units.MeasureOptions{Knife: 2, Each: units.MustParse("40-60 g"), Density: big.NewRat(-1, 2), Style: units.ByCup}},
		{"spoons", units.MeasureOptions{Style: units.BySpoon, Density: big.NewRat(1, 2), RoundDown: true}}, {"jug", units.MeasureOptions{Style: units.ByJug}},
		{"scale", units.MeasureOptions{Style: units.ByScale}}, {"piece", units.MeasureOptions{Style: units.ByPiece, Halves: true}},
	}
	steps := []string{"0", "1/40", "3/64", "1/11", "3/32", "1/8", "1/5", "1/4", "0.31", "1/3", "3/8", "0.45", "1/2", "0.6", "2/3", "3/4", "0.8", "7/8", "0.95", "1", "1.06", "1.2", "5/4", "1.45", "3/2", "1.7", "1.9", "2", "2.2", "5/2", "3", "3.3", "3.75", "4", "4.1", "5", "6.6", "7.5", "8", "9.9", "12", "12.6", "15.7", "16", "19.5", "20", "33", "49.6", "50", "63", "64", "65", "72.5", "97.4", "100", "123", "142", "250", "333", "495", "499", "500", "777", "994", "995", "1005", "1999", "2000", "2031", "3333", "12345"}
	measures := []string{"g", "oz", "lb", "tsp", "tbsp", "ml", "cup", "fl oz UK", "", "cloves", "dozen", "pinches", "mm", "in", "knobs", "stone"}
	var out strings.Builder
	for m, measure := range measures {
		for n, step := range steps {
			q := units.MustParse(strings.TrimSpace(step + " " + measure))
			if n%9 == 4 {
				q = units.FromRange(q.Rat(), new(big.Rat).Mul(q.Rat(), big.NewRat(8, 5)), q.Unit())
			}
			for i := range 3 { // each amount in some of the kitchens, with some of the options
				k, o := kitchens[(m+n+3*i)%len(kitchens)], options[(n+n/len(kitchens)+5*i)%len(options)]
				got := k.Measure(q, o.MeasureOptions)
				fmt.Fprintf(&out, "%s, %s %s: %s = %s", q, k.name, o.name, got.Text, got.Value)
				if !got.ErrorPercent.IsZero() {
					fmt.Fprintf(&out, " %s%% %t %t", got.ErrorPercent, got.Note, got.Flag)
				}
				if got.Alternative != "" {
					fmt.Fprint(&out, " ", got.Alternative)
				}
				fmt.Fprintln(&out)
			}
		}
	}
	reviewed(t, "measured.txt", out.String())
}

// timesTyped are times and days as people type them, well and badly.
var timesTyped = []string{
	"", " ", "now", "NOW", "today", " Today ", "yesterday", "tomorrow", "saturday", "Sunday", "next saturday", "last saturday", "last sunday", "next", "last", "this saturday", "next week", "2031-07-12", " 2031-07-13 ", "2031-02-30", "31-07-12", "12.7.2031",
	"16:40", "16:41", "1:05", "25:00", "16.40", "4:40 pm", "4:40PM", "4 pm", "4pm", "4.40 pm", "13 pm", "12 am", "12 pm", "0:30 am", "today 16:00", "yesterday 16:00", "tomorrow 16:00", "saturday 10:00", "last saturday 10:00", "next saturday 10:00", "yesterday 4 pm",
	"2031-07-12 16:00", "2031-07-12T16:00", "2031-07-12T16:00:30", "2031-07-12 16:00:30", "2031-07-12T16:00Z", "2031-07-12T16:00+05:30", "2031-07-12T16:00:59Z", "2031-03-30 01:30", "2031-10-26 01:30", "2031-10-26T01:30+01:00", "2031-12-24 9:00", "soon", "in 45 min", "in 1 h 30 min", "in 24 h", "in 1441 min", "in 1440 min", "in -5 min", "in 5-10 min", "in 5 g", "in", "in 90 s", "in half an hour", "now 5", "2031-07-12 4 pm",
}

// Every time above, as each reading takes it at two moments.
func TestEveryTimeIsReadAsReviewed(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	require.NoError(t, err)
	var out strings.Builder
	for _, now := range []time.Time{time.Date(2031, 7, 12, 16, 40, 25, 500, london), time.Date(2031, 12, 31, 23, 59, 59, 0, time.UTC)} {
		c := units.Clock{Now: now, Zone: london}
		day := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, london)
		for _, text := range timesTyped {
			fmt.Fprintf(&out, "%q at %s, time of day %t\n", text, now.Format(time.RFC3339), units.IsTimeOfDay(text))
			before := ""
			for _, as := range []struct {
				name string
				read func() (time.Time, error)
			}{
				{"moment", func() (time.Time, error) { return c.Moment("at", text) }},
				{"or day", func() (time.Time, error) { return c.MomentOrDay("at", text) }},
				{"past", func() (time.Time, error) { return c.Past("at", text) }},
				{"day", func() (time.Time, error) { return c.Day("at", text) }},
				{"today", func() (time.Time, error) { return c.OnDay("at", text, day) }},
				{"tomorrow", func() (time.Time, error) { return c.OnDay("at", text, day.AddDate(0, 0, 1)) }},
			} {
				var told strings.Builder
				if at, err := as.read(); err != nil {
					writeError(&told, err)
				} else {
					fmt.Fprintln(&told, at.Format(time.RFC3339Nano))
				}
				if told.String() != before {
					fmt.Fprintf(&out, "  %s %s", as.name, told.String())
				}
				before = told.String()
			}
		}
	}
	reviewed(t, "times.txt", out.String())
}
