package tables_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/tables"
	"trencher/units"
)

// read reads a table that leaves nothing open.
func read(t *testing.T, text string, layout tables.Layout) tables.Table {
	t.Helper()
	table, err := tables.Read("t.csv", text, layout, plantings)
	require.NoError(t, err, text)
	return table
}

// asks is what a table leaves open, a line for each question.
func asks(t *testing.T, text string, layout tables.Layout) string {
	t.Helper()
	_, err := tables.Read("t.csv", text, layout, plantings)
	var open tables.Open
	require.ErrorAs(t, err, &open, text)
	return open.Error()
}

// One date after another, as people write them, in a column whose other dates
// settle nothing.
func TestDatesAsTheyAreWritten(t *testing.T) {
	year := tables.Layout{Year: 2031}
	for text, want := range map[string]string{
		"2031-07-12":               "2031-07-12",
		"2031/7/2":                 "2031-07-02",
		"2031 07 12":               "2031-07-12",
		"13/12/2031":               "2031-12-13",
		"12/13/2031":               "2031-12-13",
		"13-12-31":                 "2031-12-13",
		"13 / 12 / 31":             "2031-12-13",
		"1.8.":                     "2031-08-01",
		"1.8.2031":                 "2031-08-01",
		"5.6.31":                   "2031-06-05",
		"12/12":                    "2031-12-12",
		"Mon 1 Sep 2031":           "2031-09-01",
		"Monday, 1 September 2031": "2031-09-01",
		"fri. 2nd Sept. 31":        "2031-09-02",
		"3rd of":                   "",
		"1 sept":                   "2031-09-01",
		"December 31":              "2031-12-31",
		"January 1st, 2031":        "2031-01-01",
		"Jan 31 31":                "2031-01-31",
		"31 Feb 2031":              "",
		"12 Foo 2031":              "",
		"Foo 12, 2031":             "",
		"2031/0/7":                 "",
		"Week 53":                  "2032-01-04",
		"week 54":                  "",
		"week 0":                   "",
		"29 Feb 2031":              "",
		"31/6/2031":                "",
		"13/6/1":                   "",
		"2031-7-2":                 "2031-07-02",
		"14/14/2031":               "",
		"123/6/2031":               "",
		"2031/6":                   "",
		"1 Mayor 2031":             "",
		"1 M 2031":                 "",
		"12 July 2031 9:05":        "2031-07-12 09:05",
		"2031-07-12T16:40":         "2031-07-12 16:40",
		"2031-07-12 16:40:59":      "2031-07-12 16:40",
	} {
		// Another planting of a place that needs no planting by then: what the day is
		// decides nothing about the row.
		table, err := tables.Read("t.csv", "date,bed,kg\n"+text+",p,1\n", year, []harvest.Planting{{ID: "p", Crop: "beetroot", Planted: day("2030-01-01")}})
		if strings.Contains(text, ", ") {
			table, err = tables.Read("t.csv", "date;bed;kg\n"+text+";p;1\n", year, []harvest.Planting{{ID: "p", Crop: "beetroot", Planted: day("2030-01-01")}})
		}
		require.NoError(t, err, text)
		if want == "" {
			assert.Empty(t, table.Rows, text)
			assert.Len(t, table.Bad, 1, text)
			continue
		}
		if assert.Len(t, table.Rows, 1, text) {
			assert.Equal(t, want, table.Rows[0].At, text)
		}
	}
}

// Weeks as ISO 8601 numbers them, dated by their Sunday: 2031 begins on a Wednesday,
// so that its week 1 ends on 5 January; 2032 has 53 weeks, 2033 begins on a Saturday
// and its week 1 on the Monday after.
func TestWeeksEndOnSundays(t *testing.T) {
	standing := []harvest.Planting{{ID: "p", Crop: "beetroot", Planted: day("2020-01-01")}}
	for _, row := range []struct {
		year int
		week string
		want string
	}{
		{2031, "Week 1", "2031-01-05"}, {2031, "wk 2", "2031-01-12"}, {2031, "W52", "2031-12-28"}, {2032, "week 53", "2033-01-02"},
		{2033, "wk. 1", "2033-01-09"}, {2030, "w 1", "2030-01-06"}, {2027, "w 1", "2027-01-10"}, {2026, "w 1", "2026-01-04"},
	} {
		table, err := tables.Read("t.csv", "bed,"+row.week+",week 30\np,1 kg,-\n", tables.Layout{Year: row.year}, standing)
		require.NoError(t, err, row.week)
		if assert.Len(t, table.Rows, 1, row.week) {
			assert.Equal(t, row.want, table.Rows[0].At, row.week)
		}
	}
	for _, week := range []string{"week 0", "week 54"} {
		table, err := tables.Read("t.csv", "bed,week 29,week 30,"+week+"\np,1 kg,2 kg,3 kg\n", tables.Layout{Year: 2031}, standing)
		require.NoError(t, err, week)
		assert.Len(t, table.Rows, 2, week)
	}
}

// What settles the order of the dates, and what only raises the question.
func TestOrderOfDates(t *testing.T) {
	for name, row := range map[string]struct {
		text, asks string
		order      tables.Order
	}{
		"the thirteenth":              {"13/7/2031,bed-3,1\n3/4/2031,bed-3,1\n", "", tables.DayFirst},
		"the thirteenth, months":      {"7/13/2031,bed-3,1\n5/4/2031,bed-3,1\n", "", tables.MonthFirst},
		"the twelfth may be either":   {"12/7/2031,bed-3,1\n", `dates "12/7/2031": day or month first?`, 0},
		"either the same":             {"7/7/2031,bed-3,1\n", "", tables.AnyOrder},
		"both":                        {"13/7/2031,bed-3,1\n7/13/2031,bed-3,1\n", "dates: some dates have the day first, others the month", 0},
		"years first settle no other": {"2031-07-13,bed-3,1\n3/4/2031,bed-3,1\n", `dates "3/4/2031": day or month first?`, 0},
		"the first open one is told":  {"5/6/2031,bed-3,1\n7/8/2031,bed-3,1\n", `dates "5/6/2031": day or month first?`, 0},
	} {
		if row.asks != "" {
			assert.Equal(t, row.asks, asks(t, "date,bed,kg\n"+row.text, tables.Layout{}), name)
			continue
		}
		assert.Equal(t, row.order, read(t, "date,bed,kg\n"+row.text, tables.Layout{}).Layout.Dates, name)
	}
	told := read(t, "date,bed,kg\n5/6/2031,bed-3,1\n", tables.Layout{Dates: tables.MonthFirst})
	assert.Equal(t, "2031-05-06", told.Rows[0].At)
	assert.Equal(t, "ymd", tables.YearFirst.String())
}

// What settles the decimal mark: one that can be nothing else, and how it then
// reads the ones that could be either.
func TestDecimalMarks(t *testing.T) {
	for _, row := range []struct{ cells, weights, asks string }{
		{"1,5 2,250", "1.5 kg, 2.250 kg", ""},
		{"1.5 2.250", "1.5 kg, 2.250 kg", ""},
		{"1.5 2,250", "1.5 kg, 2250 kg", ""},
		{"1,5 2.250", "1.5 kg, 2250 kg", ""},
		{"2.250", "2.250 kg", ""},
		{"2,250", "", `decimal "2,250": one and a bit, or more than a thousand?`},
		{"1,5 2.5", "", "decimal: some weights have a decimal comma, others a point"},
		{"1.234,5", "1234.5 kg", ""},
		{"1,234.5", "1234.5 kg", ""},
		{"12", "12 kg", ""},
		{"2,25", "2.25 kg", ""},
		{"2,2500", "2.2500 kg", ""},
		{"1.5kg 300g", "1.5 kg, 300 g", ""},
	} {
		text := "date;bed;kg\n"
		for _, cell := range strings.Fields(row.cells) {
			text += "2031-07-12;bed-3;" + cell + "\n"
		}
		if row.asks != "" {
			assert.Equal(t, row.asks, asks(t, text, tables.Layout{}), row.cells)
			continue
		}
		var weights []string
		for _, one := range read(t, text, tables.Layout{}).Rows {
			weights = append(weights, one.Cells["weight"])
		}
		assert.Equal(t, row.weights, strings.Join(weights, ", "), row.cells)
	}
}

// Where the unit of bare figures comes from: the head of the column, what is told,
// the title, the corner; two in the titles settle nothing.
func TestUnitsOfWeights(t *testing.T) {
	for _, row := range []struct{ text, unit, want string }{
		{"date,bed,Weight: grams\n2031-07-12,bed-3,300\n", "", "300 g"},
		{"date,bed,Weight (lbs)\n2031-07-12,bed-3,3\n", "", "3 lb"},
		{"date,bed,pounds\n2031-07-12,bed-3,3\n", "", "3 lb"},
		{"date,bed,ounces\n2031-07-12,bed-3,3\n", "", "3 oz"},
		{"date,bed,yield_kg\n2031-07-12,bed-3,3\n", "", "3 kg"},
		{"date,bed,yield\n2031-07-12,bed-3,3\n", "oz", "3 oz"},
		{"Weights (g)\ndate,bed,yield\n2031-07-12,bed-3,3\n", "", "3 g"},
		{"Weights (g)\ndate,bed,yield\n2031-07-12,bed-3,3\n", "lb", "3 lb"},
		{"Weights (g)\ndate,bed,yield\n2031-07-12,bed-3,2 kg\n", "", "2 kg"},
	} {
		table := read(t, row.text, tables.Layout{Unit: row.unit})
		assert.Equal(t, row.want, table.Rows[0].Cells["weight"], row.text)
	}
	assert.Equal(t, `unit "3": the table does not say in which unit its weights are`,
		asks(t, "Weights (g)\nno kg\ndate,bed,yield\n2031-07-12,bed-3,3\n", tables.Layout{}))
}

// What a row holds that is no weighing, and why it was passed over.
func TestRowsThatArePassedOver(t *testing.T) {
	table := read(t, `My plot
,
Date,Bed,kg,Notes
2031-07-12,bed-3,1,dry
Date,Bed,kg,Notes
2031-07-13,bed-3,-,nothing yet
2031-07-14,bed-3,n/a,
2031-07-14,bed-3,0.0,
Sub-total,,1,
Season total,,1,
Average,,1,
`, tables.Layout{})
	assert.Len(t, table.Rows, 1)
	assert.Equal(t, []tables.Passed{{1, tables.IsTitle, "My plot"}, {3, tables.IsHead, "Date Bed kg Notes"}, {5, tables.IsHead, "Date Bed kg Notes"},
		{6, tables.IsEmpty, "2031-07-13 bed-3 - nothing yet"}, {7, tables.IsEmpty, "2031-07-14 bed-3 n/a"}, {8, tables.IsEmpty, "2031-07-14 bed-3 0.0"},
		{9, tables.IsTotal, "Sub-total 1"}, {10, tables.IsTotal, "Season total 1"}, {11, tables.IsTotal, "Average 1"}}, table.Passed)
}

// Each value of a row knows its column in the file; remarks gather.
func TestValuesKnowTheirColumns(t *testing.T) {
	row := read(t, "Date,Bed,kg,Size,Pieces,State,Notes,Weather\n2031-07-12,bed-3,1.5,20-45 mm,12,scabby,first,wet\n", tables.Layout{}).Rows[0]
	assert.Equal(t, tables.Row{Line: 2, At: "2031-07-12", Name: "bed-3",
		Cells: map[string]string{"planting": "bed-3", "weight": "1.5 kg", "sizes": "20-45 mm", "count": "12", "condition": "scabby", "says": "first; Weather: wet"},
		From:  map[string]int{"planting": 12, "weight": 18, "sizes": 22, "count": 31, "condition": 34, "says": 47}}, row)
}

// A column for each bed or day: every cell is a weighing of its own, with the
// remarks of its row; a cell without a weight is none.
func TestColumnsOfBedsAndDays(t *testing.T) {
	beds := read(t, "Date,Bed 3,Miller's Dusk,Notes\n2031-07-12,300 g,200 g,dry\n2031-07-13,-,100 g,\nsome day,1 kg,,\n", tables.Layout{})
	assert.Equal(t, "2 2031-07-12 bed-3 300 g dry\n2 2031-07-12 bed-2 200 g dry\n3 2031-07-13 bed-2 100 g", said(beds))
	require.Len(t, beds.Bad, 1)
	assert.EqualError(t, beds.Bad[0], `t.csv:4:1: "some day": not a day`)

	days := read(t, "Bed,12 July 2031,13 July 2031,Notes\nbed-3,300 g,200 g,dry\nEmber Round,x,100 g,\n", tables.Layout{})
	assert.Equal(t, "2 2031-07-12 bed-3 300 g dry\n2 2031-07-13 bed-3 200 g dry\n3 2031-07-13 bed-3 100 g", said(days))
}

// Which planting a name means on a day: what was planted last by then, of the same
// year all; what was not in the ground yet is told.
func TestPlantingsByNameAndDay(t *testing.T) {
	standing := []harvest.Planting{
		{ID: "tub-1", Crop: "potato", Variety: "Quayside Pearl", Planted: day("2030-03-30")},
		{ID: "tub-2", Crop: "potato", Variety: "Miller's Dusk", Planted: day("2031-04-04")},
		{ID: "tub-3", Crop: "potato", Variety: "Quayside Pearl", Planted: day("2031-06-01")},
	}
	at := func(on, name string) (tables.Table, error) {
		return tables.Read("t.csv", "date,crop,kg\n"+on+","+name+",1\n", tables.Layout{}, standing)
	}
	for _, row := range []struct{ on, name, want string }{
		{"2030-07-12", "potatoes", "tub-1"}, {"2031-04-03", "potatoes", "tub-2"}, {"2031-04-02", "potatoes", "tub-1"}, {"2031-05-12", "spuds", "tub-2"},
		{"2031-07-12", "Quayside Pearl", "tub-3"}, {"2031-07-12", "quayside pearl potatoes", "tub-3"}, {"2031-07-12", "potatoes Quayside Pearl", "tub-3"},
		{"2031-07-12", "Tub 2", "tub-2"}, {"2031-07-12", "the old tub_3", "tub-3"},
	} {
		table, err := at(row.on, row.name)
		require.NoError(t, err, row)
		if assert.Len(t, table.Rows, 1, row) {
			assert.Equal(t, row.want, table.Rows[0].Cells["planting"], row)
		}
	}
	_, err := at("2031-07-12", "potatoes")
	var open tables.Open
	require.ErrorAs(t, err, &open)
	assert.EqualError(t, open, `planting "potatoes": several plantings may be meant`)
	assert.Equal(t, "which, as potatoes=tub-2; those it may be: tub-2, tub-3", open[0].Accepted)
	_, err = at("2031-07-12", "leeks")
	require.ErrorAs(t, err, &open)
	assert.Equal(t, "which it is, as leeks=tub-1; there are tub-1, tub-2, tub-3", open[0].Accepted)
	table, err := at("2029-07-12", "potatoes")
	require.NoError(t, err)
	assert.EqualError(t, table.Bad[0], "t.csv:2:12: potatoes was in no bed by 2029-07-12")
}

// What leaves the table without a head, and where it is looked for: the first
// twenty rows that are not empty.
func TestWhereTheHeadIs(t *testing.T) {
	rows := "date,bed,kg\n2031-07-12,bed-3,1\n"
	assert.Len(t, read(t, strings.Repeat("a title\n", 19)+rows, tables.Layout{}).Rows, 1)
	_, err := tables.Read("t.csv", strings.Repeat("a title\n", 20)+rows, tables.Layout{}, plantings)
	require.EqualError(t, err, "t.csv:1:1: no head of a table: no row names a column of dates and one of weights")
	_, err = tables.Read("t.csv", "\n\ndate,bed\n2031-07-12,bed-3\n", tables.Layout{}, plantings)
	require.EqualError(t, err, "t.csv:3:1: no head of a table: no row names a column of dates and one of weights")
	told := read(t, "when,who,bed,how much\n2031-07-12,Jo,bed-3,1 kg\n", tables.Layout{Columns: map[string]string{"how much": "weight", "who": "says"}})
	assert.Equal(t, "2 2031-07-12 bed-3 1 kg Jo", said(told))
}

// The year comes from the one that the titles or the head name; two name none.
func TestYearOfTheTitles(t *testing.T) {
	assert.Equal(t, "3 2031-07-12 bed-3 1 kg", said(read(t, "Plot 2031\ndate,bed,kg\n12 July,bed-3,1\n", tables.Layout{})))
	assert.Equal(t, "2 2031-07-12 bed-3 1 kg", said(read(t, "date,bed,kg,season 2031\n12 July,bed-3,1,\n", tables.Layout{})))
	assert.Equal(t, "year: the table does not say of which year its dates are", asks(t, "Plot 2030 to 2031\ndate,bed,kg\n12 July,bed-3,1\n", tables.Layout{}))
	assert.Equal(t, "3 2030-07-12 tub-1 1 kg", said(read(t, "Plot 2031\ndate,bed,kg\n12 July,tub 1,1\n", tables.Layout{Year: 2030})))
}

// Bounds on a table, at them and past them.
func TestBoundsOfTables(t *testing.T) {
	for more, ok := range []bool{true, false} {
		_, err := tables.Read("t.csv", "date,bed,kg\n"+strings.Repeat("2031-07-12,bed-3,1\n", tables.MostRows-1+more), tables.Layout{}, plantings)
		require.Equal(t, ok, err == nil, "%d rows: %v", tables.MostRows-1+more, err)
		_, err = tables.Read("t.csv", "date,bed-3,bed-2\n"+strings.Repeat("2031-07-12,1 kg,2 kg\n", tables.MostRows/2+more), tables.Layout{}, plantings)
		require.Equal(t, ok, err == nil, "%d weighings: %v", 2*(tables.MostRows/2+more), err)
	}
	_, err := tables.Read("t.csv", "date,bed,kg\n"+strings.Repeat("2031-07-12,bed-3,1\n", 3), tables.Layout{}, plantings)
	require.NoError(t, err)
	_, err = tables.Read("t.csv", "date,bed,kg"+strings.Repeat(",x", tables.MostColumns-3)+"\n2031-07-12,bed-3,1\n", tables.Layout{}, plantings)
	require.NoError(t, err)
	broken, err := tables.Read("t.csv", "date,bed,kg\n2031-07-12,bed-3,1\n2031-07-13,\"bed\n", tables.Layout{}, plantings)
	require.NoError(t, err)
	assert.NotEmpty(t, append(broken.Bad, nil))
}

// An answer to a question is kept, and beside it those before; one that is no
// answer changes nothing.
func TestAnswersAreKept(t *testing.T) {
	var words tables.Words
	ask := func(field, value string) *units.FieldError { return &units.FieldError{Field: field, Value: value} }
	require.NoError(t, words.Answer(ask("dates", "3/4/2031"), "mdy", plantings))
	require.NoError(t, words.Answer(ask("decimal", "1,250"), "comma", plantings))
	require.NoError(t, words.Answer(ask("unit", "3"), "lb", plantings))
	require.NoError(t, words.Answer(ask("year", ""), "2031", plantings))
	require.NoError(t, words.Answer(ask("planting", "the old row"), "bed-3", plantings))
	require.NoError(t, words.Answer(ask("planting", "tubs"), "tub-1", plantings))
	kept := tables.Words{Dates: "mdy", Decimal: "comma", Unit: "lb", Year: 2031, Plantings: []string{"the old row=bed-3", "tubs=tub-1"}}
	assert.Equal(t, kept, words)
	for _, field := range []string{"dates", "decimal", "unit", "year", "planting"} {
		require.Error(t, words.Answer(ask(field, "x"), "what?", plantings), field)
		assert.Equal(t, kept, words, field)
	}
}

// A cell of a lone apostrophe is one, and no more is taken off than was put on.
func TestApostrophes(t *testing.T) {
	for cell, want := range map[string]string{"'": "'", "''": "'", "'x": "'x", "'=x": "=x", "": ""} {
		assert.Equal(t, want, tables.Plain(cell), cell)
	}
}

// The words of a layout, each as it is accepted.
func TestLayoutsAsTheyAreTold(t *testing.T) {
	l, err := tables.Words{Separator: "semicolon", Dates: "DMY", Decimal: "comma", Unit: "g", Year: 1900,
		Plantings: []string{"Row 3=bed-3"}, Columns: []string{"Picked by= says"}}.Layout(plantings)
	require.NoError(t, err)
	assert.Equal(t, tables.Layout{Separator: ';', Dates: tables.DayFirst, Decimal: ',', Unit: "g", Year: 1900,
		Plantings: map[string]string{"row 3": "bed-3"}, Columns: map[string]string{"picked by": "says"}}, l)
	for word, want := range map[string]rune{"": 0, ",": ',', "comma": ',', ";": ';', "tab": '\t', "\t": '\t'} {
		l, err := tables.Words{Separator: word}.Layout(plantings)
		require.NoError(t, err)
		assert.Equal(t, want, l.Separator, word)
	}
	for word, want := range map[string]rune{"": 0, ".": '.', "point": '.', ",": ',', "comma": ','} {
		l, err := tables.Words{Decimal: word}.Layout(plantings)
		require.NoError(t, err)
		assert.Equal(t, want, l.Decimal, word)
	}
	for year, ok := range map[int]bool{1899: false, 1900: true, 2999: true, 3000: false, -1: false} {
		_, err := tables.Words{Year: year}.Layout(plantings)
		assert.Equal(t, ok, err == nil, year)
	}
}

// A total is known by its weight whatever the decimal mark and the unit: within half a
// hundredth of what stands above it.
func TestTotalsByTheirWeight(t *testing.T) {
	for _, row := range []struct {
		text  string
		total bool
	}{
		{"date;bed;kg\n2031-07-12;bed-3;1,25\n2031-07-13;bed-3;2,5\n;;3,75\n", true},
		{"date,bed,kg\n2031-07-12,bed-3,1.25\n2031-07-13,bed-3,\"1,002.5\"\n,,\"1,003.75\"\n", true},
		{"date,bed,kg\n2031-07-12,bed-3,1.25\n2031-07-13,bed-3,500 g\n,,1.75\n", true},
		{"date,bed,kg\n2031-07-12,bed-3,100\n2031-07-13,bed-3,100\n,,201\n", true},
		{"date,bed,kg\n2031-07-12,bed-3,100\n2031-07-13,bed-3,100\n,,201.1\n", false},
		{"date,bed,kg\n2031-07-12,bed-3,100\n2031-07-13,bed-3,100\n,,198.9\n", false},
		{"date,bed,kg,count\n2031-07-12,bed-3,100,4\n2031-07-13,bed-3,100,5\n,,=SUM(C2:C3),9\n", true},
		{"date,bed,kg\n2031-07-12,bed-3,100\n2031-07-13,bed-3,100\n,bed-3,200\n", false},
	} {
		table := read(t, row.text, tables.Layout{})
		assert.Len(t, table.Rows, 2, row.text)
		assert.Equal(t, row.total, len(table.Bad) == 0, "%s %v", row.text, table.Bad)
	}
}

// Where a fault stands is told though the cell is not there; a row without a weight is
// passed over, and is no total.
func TestFaultsOfShortRows(t *testing.T) {
	for _, c := range []struct {
		text, bad    string
		rows, passed int
	}{
		{"date,bed,kg\n2031-07-12\n", "", 0, 2}, {"date,bed,kg\n2031-07-12,bed-3,1\n,,x\n", "", 1, 2},
		{"date,bed,kg\n2031-07-12,bed-3,1\n2031-07-13,,1\n", "t.csv:3:1: no planting", 1, 1},
		{"kg,date,bed\n1,2031-07-12,bed-3\n1,2031-07-13\n", "t.csv:3:1: no planting", 1, 1},
		{"kg,date,bed\n1,2031-07-12,bed-3\n1\n1,2031-07-13,bed-3\n", `t.csv:3:1: "1": not a day`, 2, 1},
	} {
		table := read(t, c.text, tables.Layout{})
		var bad []string
		for _, one := range table.Bad {
			bad = append(bad, one.Error())
		}
		assert.Equal(t, c.bad, strings.Join(bad, "; "), c.text)
		assert.Equal(t, []int{c.rows, c.passed}, []int{len(table.Rows), len(table.Passed)}, c.text)
	}
}
