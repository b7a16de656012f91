package tables_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/tables"
)

func day(text string) time.Time {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return t
}

// plantings of an invented plot.
var plantings = []harvest.Planting{
	{ID: "tub-1", Crop: "potato", Variety: "Quayside Pearl", Planted: day("2031-03-28")},
	{ID: "tub-1", Crop: "potato", Variety: "Quayside Pearl", Planted: day("2030-03-30")},
	{ID: "bed-2", Crop: "potato", Variety: "Miller's Dusk", Planted: day("2031-04-04")},
	{ID: "bed-3", Crop: "beetroot", Variety: "Ember Round", Planted: day("2031-04-20")},
}

// said is a table as it was read: a line for each weighing.
func said(t tables.Table) string {
	var out []string
	for _, row := range t.Rows {
		weight := row.Cells["weight"]
		if row.Cells["gross"] != "" {
			weight = row.Cells["gross"] + " - " + row.Cells["tare"]
		}
		out = append(out, strings.TrimSpace(fmt.Sprintf("%d %s %s %s %s", row.Line, row.At, row.Cells["planting"], weight, row.Cells["says"])))
	}
	return strings.Join(out, "\n")
}

func TestOldTables(t *testing.T) {
	for _, test := range []struct{ name, text, says string }{
		{"day first", "Date,Crop,kg\n13/07/2031,Beetroot,1.25\n1/8/2031,Beetroot,0.8\n",
			"2 2031-07-13 bed-3 1.25 kg\n3 2031-08-01 bed-3 0.8 kg"},
		{"month first", "Date,Crop,kg\n7/13/2031,Beetroot,1.25\n8/1/31,Beetroot,0.8\n",
			"2 2031-07-13 bed-3 1.25 kg\n3 2031-08-01 bed-3 0.8 kg"},
		{"months in words", "When;What;Weight (kg)\nSat 12 July 2031;Beets;1\nAug 3rd, 2031;beetroots;2\n4-Sep-31;beets;3\n",
			"2 2031-07-12 bed-3 1 kg\n3 2031-08-03 bed-3 2 kg\n4 2031-09-04 bed-3 3 kg"},
		{"semicolons and decimal commas", "Date;Bed;Weight kg;Weather\n12.07.2031;bed 3;1,25;wet, cold\n13.07.2031;bed-3;0,800;\n",
			"2 2031-07-12 bed-3 1.25 kg Weather: wet, cold\n3 2031-07-13 bed-3 0.800 kg"},
		{"thousands", "date;bed;grams\n2031-07-12;bed-3;1.250,5\n2031-07-13;bed-3;1.250\n",
			"2 2031-07-12 bed-3 1250.5 g\n3 2031-07-13 bed-3 1250 g"},
		{"tabs", "Date\tPlanting\tWeight\n2031-07-12\tbed-3\t1.5 kg\n", "2 2031-07-12 bed-3 1.5 kg"},
		{"pounds and ounces", "date,crop,lb,oz\n2031-07-12,beetroot,2,4\n2031-07-13,beetroot,,12\n2031-07-14,beetroot,3,\n2031-07-15,beetroot,0,0\n",
			"2 2031-07-12 bed-3 2 lb 4 oz\n3 2031-07-13 bed-3 12 oz\n4 2031-07-14 bed-3 3 lb"},
		{"a column a week", "Yields 2031 (kg)\nCrop,Week 28,Wk 29,w30,Total\nBeetroot,1.2,,0.4,1.6\nMiller's Dusk,-,2.5,,2.5\nTotal,1.2,2.5,0.4,4.1\n",
			"3 2031-07-13 bed-3 1.2 kg\n3 2031-07-27 bed-3 0.4 kg\n4 2031-07-20 bed-2 2.5 kg"},
		{"a column a day", "kg,12/07/2031,13/07/2031\nbed-3,1,2\n", "2 2031-07-12 bed-3 1 kg\n2 2031-07-13 bed-3 2 kg"},
		{"a column a bed", "Season 2031 in g\nDate,Bed 3,Miller's Dusk,Notes\n12 July,300,,dry\n13 July,,450,\n",
			"3 2031-07-12 bed-3 300 g dry\n4 2031-07-13 bed-2 450 g"},
		{"titles, totals, ditto, gaps", "My harvest\n\nDate,Bed,kg\n2031-07-12,bed-3,1\n,,\n\"\"\"\",ditto,2\nsubtotal,,3\nDate,Bed,kg\n2031-07-13,bed-3,0\n2031-07-14,bed-3,4\nGrand total,,7\n",
			"4 2031-07-12 bed-3 1 kg\n6 2031-07-12 bed-3 2 kg\n10 2031-07-14 bed-3 4 kg"},
		{"varieties, and both", "date,plant,kg\n2031-07-12,Ember Round,1\n2031-07-12,Miller's Dusk potatoes,2\n2031-07-12,Potato Quayside Pearl,3\n",
			"2 2031-07-12 bed-3 1 kg\n3 2031-07-12 bed-2 2 kg\n4 2031-07-12 tub-1 3 kg"},
		{"last year's planting", "date,plant,kg\n2030-07-12,potatoes,1\n", "2 2030-07-12 tub-1 1 kg"},
		{"bowls", "date,bed,gross kg,tare kg\n2031-07-12,bed-3,1.5,0.3\n", "2 2031-07-12 bed-3 1.5 kg - 0.3 kg"},
		{"a total that does not say so", "Season 2031\nPlanting,Wk 28,Wk 29,Total\nMillers Dusk,1.2 kg,800 g,2.0 kg\nBeetroot,,0.35 kg,0.35 kg\n,1.2 kg,1.15 kg,2.35 kg\n",
			"3 2031-07-13 bed-2 1.2 kg\n3 2031-07-20 bed-2 800 g\n4 2031-07-20 bed-3 0.35 kg"},
		{"a formula at the end", "date,bed,kg\n2031-07-12,bed-3,1\n2031-07-13,bed-3,2\n,,=SUM(C2:C3)\n", "2 2031-07-12 bed-3 1 kg\n3 2031-07-13 bed-3 2 kg"},
		{"guarded cells", "date,bed,kg,says\n2031-07-12,bed-3,1,'=wet\n", "2 2031-07-12 bed-3 1 kg =wet"},
		{"a time of day", "date,bed,kg\n12/07/2031 9:30,bed-3,1\n13/07/2031 16:05:00,bed-3,1\n", "2 2031-07-12 09:30 bed-3 1 kg\n3 2031-07-13 16:05 bed-3 1 kg"},
	} {
		t.Run(test.name, func(t *testing.T) {
			table, err := tables.Read("t.csv", test.text, tables.Layout{}, plantings)
			require.NoError(t, err)
			assert.Empty(t, table.Bad)
			assert.Equal(t, test.says, said(table))
		})
	}
}

// What a table leaves open is asked, never guessed; told, it is read.
func TestWhatATableLeavesOpen(t *testing.T) {
	for _, test := range []struct {
		name, text, asks string
		told             tables.Words
		says             string
	}{
		{"which order", "date,bed,kg\n3/4/2031,bed-3,1\n", `dates "3/4/2031": day or month first?`, tables.Words{Dates: "mdy"}, ""},
		{"which unit", "date,bed,weight\n2031-07-12,bed-3,1\n", `unit "1": the table does not say in which unit`, tables.Words{Unit: "lb"}, "2 2031-07-12 bed-3 1 lb"},
		{"which year", "date,bed,kg\n12 July,bed-3,1\n", `year: the table does not say of which year`, tables.Words{Year: 2031}, "2 2031-07-12 bed-3 1 kg"},
		{"comma or thousand", "date;bed;g\n2031-07-12;bed-3;1,250\n", `decimal "1,250": one and a bit, or more than a thousand?`, tables.Words{Decimal: "point"}, "2 2031-07-12 bed-3 1250 g"},
		{"which of two", "date,crop,kg\n2031-07-12,potatoes,1\n", `planting "potatoes": several plantings may be meant`, tables.Words{Plantings: []string{"Potatoes=bed-2"}}, "2 2031-07-12 bed-2 1 kg"},
		{"what name", "date,crop,kg\n2031-07-12,the old row,1\n", `planting "the old row": no planting is called that`, tables.Words{Plantings: []string{"the old row = bed-3"}}, "2 2031-07-12 bed-3 1 kg"},
		{"of what at all", "date,kg\n2031-07-12,1\n", "planting: the table does not say what was weighed", tables.Words{Plantings: []string{"bed-3"}}, "2 2031-07-12 bed-3 1 kg"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := tables.Read("t.csv", test.text, tables.Layout{}, plantings)
			var open tables.Open
			require.True(t, errors.As(err, &open), "%v", err)
			assert.Contains(t, err.Error(), test.asks)
			assert.NotEmpty(t, open[0].Hint())
			layout, err := test.told.Layout(plantings)
			require.NoError(t, err)
			table, err := tables.Read("t.csv", test.text, layout, plantings)
			require.NoError(t, err)
			if test.says != "" {
				assert.Equal(t, test.says, said(table))
			} else {
				assert.Len(t, table.Bad, 1, "in March nothing stood there yet")
			}
			var answered tables.Words
			answer := map[string]string{"dates": "mdy", "unit": "lb", "year": "2031", "decimal": "point", "planting": "bed-3"}[open[0].Field]
			require.NoError(t, answered.Answer(open[0], answer, plantings))
			require.Error(t, answered.Answer(open[0], "what?", plantings))
		})
	}
}

func TestTablesThatAreNone(t *testing.T) {
	for name, row := range map[string]struct{ text, says string }{
		"a letter":            {"Dear all,\nit rained.\n", "t.csv:1:1: no head of a table"},
		"nothing":             {"", "t.csv:1:1: no head of a table"},
		"two weights":         {"date,bed,kg,lb\n2031-07-12,bed-3,1,2.2\n", "t.csv:1:1: 2 columns of weights: which of them counts?"},
		"more than a wall":    {"date,bed,kg" + strings.Repeat(",x", tables.MostColumns) + "\n2031-07-12,bed-3,1\n", "t.csv:1:1: more than 80 columns"},
		"more than a season":  {"Weights 2031\nplot" + weeks(52) + "\n" + strings.Repeat("bed-3"+strings.Repeat(",1 kg", 52)+"\n", 60), "more than 2500 rows or weighings"},
		"more than a library": {"date,bed,kg\n" + strings.Repeat("2031-07-12,bed-3,1\n", tables.MostRows), "more than 2500 rows or weighings"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := tables.Read("t.csv", row.text, tables.Layout{}, plantings)
			require.ErrorContains(t, err, row.says)
		})
	}
	table, err := tables.Read("t.csv", "date,bed,kg\n2031-07-12,bed-3,1\nsome day,bed-3,1\n31/6/2031,bed-3,1\n,bed-3,2\n", tables.Layout{}, plantings)
	require.NoError(t, err)
	assert.Len(t, table.Rows, 1)
	require.Len(t, table.Bad, 3)
	assert.ErrorContains(t, table.Bad[0], `t.csv:3:1: "some day": not a day`)
	assert.ErrorContains(t, table.Bad[1], `t.csv:4:1: "31/6/2031": no such day`)
	assert.ErrorContains(t, table.Bad[2], `t.csv:5:1: no day`)
}

// A row without a planting that sums up nothing is a weighing somebody forgot to
// label: it is said, once.
func TestWeightsOfNothingAreNoTotal(t *testing.T) {
	table, err := tables.Read("t.csv", "Planting,12/07/2031,13/07/2031\nbed-3,1 kg,2 kg\n,1 kg,3 kg\n", tables.Layout{}, plantings)
	require.NoError(t, err)
	assert.Len(t, table.Rows, 2)
	require.Len(t, table.Bad, 1)
	assert.ErrorContains(t, table.Bad[0], "t.csv:3:1: no planting")
}

func TestWordsOfALayout(t *testing.T) {
	for _, test := range []struct {
		words tables.Words
		says  string
	}{
		{tables.Words{Dates: "ddmm"}, `dates "ddmm": no order of a date`},
		{tables.Words{Decimal: "x"}, `decimal "x"`},
		{tables.Words{Unit: "stone"}, `unit "stone"`},
		{tables.Words{Year: 31}, `year "31"`},
		{tables.Words{Separator: "|"}, `separator "|"`},
		{tables.Words{Plantings: []string{"Row=bed-9"}}, `planting "Row=bed-9"`},
		{tables.Words{Columns: []string{"Row=what"}}, `column "Row=what"`},
	} {
		_, err := test.words.Layout(plantings)
		assert.ErrorContains(t, err, test.says)
	}
}

// A cell that a spreadsheet would run is guarded, and every cell comes back as
// it was.
func TestCellsAreGuarded(t *testing.T) {
	for _, cell := range []string{"=1+1", "+x", "-x", "@x", "\tx", "\rx", "'", "''", "'=x", "x", "", "it's", "½"} {
		guarded := tables.Guarded(cell)
		assert.NotContains(t, "=+-@\t\r", guarded[:min(len(guarded), 1)]+"#")
		assert.Equal(t, cell, tables.Plain(guarded))
	}
	random := rand.New(rand.NewPCG(16, 8))
	for range 5000 {
		cell := ""
		for range random.IntN(6) {
			cell += string([]rune("='+-@\tax ")[random.IntN(9)])
		}
		require.Equal(t, cell, tables.Plain(tables.Guarded(cell)))
	}
}

// However a table is written, the same weighings come out of it.
func TestOneTableInManyLayouts(t *testing.T) {
	random := rand.New(rand.NewPCG(16, 9))
	for range 300 {
		var want []string
		order := []string{"02/01/2006", "01/02/2006", "2006-01-02", "2 Jan 2006"}[random.IntN(4)]
		separator := []string{";", "\t", ","}[random.IntN(3)]
		comma := separator != "," && random.IntN(2) == 0
		lines := []string{strings.Join([]string{"Date", "Bed", "Weight (kg)"}, separator)}
		if random.IntN(2) == 0 {
			lines = append([]string{"The harvest of our plot"}, lines...)
		}
		for i := range 2 + random.IntN(20) {
			on := day("2031-07-13").AddDate(0, 0, i*3)
			bed := []string{"tub-1", "bed-2", "bed-3"}[random.IntN(3)]
			weight := fmt.Sprintf("%d.%02d", random.IntN(9), 1+random.IntN(99))
			want = append(want, fmt.Sprintf("%s %s %s kg", on.Format(time.DateOnly), bed, weight))
			if comma {
				weight = strings.Replace(weight, ".", ",", 1)
			}
			lines = append(lines, strings.Join([]string{on.Format(order), bed, weight}, separator))
		}
		lines = append(lines, strings.Join([]string{"Total", "", "99"}, separator))
		table, err := tables.Read("t.csv", strings.Join(lines, "\n"), tables.Layout{}, plantings)
		require.NoError(t, err, strings.Join(lines, "\n"))
		var got []string
		for _, row := range table.Rows {
			got = append(got, strings.Join([]string{row.At, row.Cells["planting"], row.Cells["weight"]}, " "))
		}
		require.Equal(t, want, got, strings.Join(lines, "\n"))
	}
}

// FuzzTable: whatever the table, reading it ends, and every line of a table
// that is read is a weighing, passed over with a reason, or named as bad.
func FuzzTable(f *testing.F) {
	f.Add("Date,Crop,kg\n13/07/2031,Beetroot,1.25\nTotal,,1\n")
	f.Add("Crop;Week 28;Week 29\nbed-3;1,2;\n")
	f.Fuzz(func(t *testing.T, text string) {
		table, err := tables.Read("t.csv", text, tables.Layout{Year: 2031, Dates: tables.DayFirst, Unit: "kg", Decimal: '.'}, plantings)
		if err != nil {
			return
		}
		told := map[int]bool{}
		for _, row := range table.Rows {
			told[row.Line] = true
		}
		for _, row := range table.Passed {
			told[row.Line] = true
		}
		for _, bad := range table.Bad {
			told[bad.Line] = true
		}
		if !strings.Contains(text, `"`) && !strings.Contains(text, "\r") {
			for i, line := range strings.Split(text, "\n") {
				if strings.Trim(line, ",;\t \u00a0") == line && len(strings.Fields(line)) > 0 && !strings.ContainsAny(line, "'") {
					require.True(t, told[i+1], "line %d of %q", i+1, text)
				}
			}
		}
	})
}

func ExampleRead() {
	table, err := tables.Read("weights.csv", "Date;Bed;kg\n13.07.2031;Beetroot;1,25\n", tables.Layout{}, plantings)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(table.Rows[0].At, table.Rows[0].Cells["planting"], table.Rows[0].Cells["weight"])
	// Output: 2031-07-13 bed-3 1.25 kg
}

// weeks is a head for each of so many weeks.
func weeks(n int) string {
	var out strings.Builder
	for week := range n {
		fmt.Fprintf(&out, ",week %d", week+1)
	}
	return out.String()
}
