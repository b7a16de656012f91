package tables_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/harvest/tables"
)

// Ten more tables, invented, and labelled before the reader saw any of them: what
// each weighs, or which question it leaves open.
func TestTablesByAFreshEye(t *testing.T) {
	for _, test := range []struct{ name, text, says string }{
		{"a diary with a title, a note and a sum", "Plot 9 - what we lifted 2031\n(weights washed)\n\nDate\tCrop\tlbs\n14 July\tBeetroot\t2½\n21 July\tBeetroot\t1¾\n\tTotal\t4¼\n",
			"5 2031-07-14 bed-3 2 ½ lb\n6 2031-07-21 bed-3 1 ¾ lb"},
		{"gross and tare", "date;bed;full (g);empty (g);remarks\n2031-08-02;bed-2;2.310;310;first of the row\n2031-08-09;bed-2;1.905;310;\n",
			"open decimal"},
		{"American", "Harvested,Vegetable,Pounds,Ounces\n07/28/31,\"Potatoes, Miller's Dusk\",3,8\n08/15/31,Beets,1,\n",
			"2 2031-07-28 bed-2 3 lb 8 oz\n3 2031-08-15 bed-3 1 lb"},
		{"a column for each bed", "Datum;tub-1;bed-2;bed-3\n12.7.2031;1,2;;0,5\n19.7.2031;;2,75;-\nSumme;1,2;2,75;0,5\n", "open unit"},
		{"units in the cells", "When | What | How much\n2031-07-30 | Miller's Dusk | 1.4kg\n2031-07-31 | Ember Round | 650 g\n2031-08-01 | Quayside Pearl | 2 lb 3 oz\n",
			"2 2031-07-30 bed-2 1.4 kg\n3 2031-07-31 bed-3 650 g\n4 2031-08-01 tub-1 2 lb 3 oz"},
		{"days that may be months", "date,crop,kg\n3/4/2031,beetroot,1\n5/6/2031,beetroot,2\n", "open dates"},
		{"weeks across", "Crop (kg),W/E 13 Jul 2031,W/E 20 Jul 2031\nBeetroot,1.2,0.4\nMiller's Dusk,,3\n",
			"2 2031-07-13 bed-3 1.2 kg\n2 2031-07-20 bed-3 0.4 kg\n3 2031-07-20 bed-2 3 kg"},
		{"quoted, with running totals", "\"Date\",\"Bed\",\"Weight (kg)\",\"Season so far (kg)\"\n\"2031-07-12\",\"bed-3\",\"0.9\",\"0.9\"\n\"2031-07-20\",\"bed-3\",\"1.1\",\"2.0\"\n",
			"2 2031-07-12 bed-3 0.9 kg\n3 2031-07-20 bed-3 1.1 kg"},
		{"the day told once", "Date,Bed,g\n2031-07-12,tub-1,400\n,bed-2,1200\n,bed-3,350\n2031-07-19,bed-3,500\n",
			"2 2031-07-12 tub-1 400 g\n5 2031-07-19 bed-3 500 g\nbad t.csv:3:1: no day\nbad t.csv:4:1: no day"},
		{"words for weights", "2031\nDate,Crop,Weight\nJuly 12,beetroot,about 2 kg\nJuly 19,beetroot,a bucketful\n",
			"3 2031-07-12 bed-3 about 2 kg\n4 2031-07-19 bed-3 a bucketful"},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.says, asRead(test.text))
		})
	}
}

// asRead is what a table weighs, then its lines that cannot be read; or what it
// leaves open.
func asRead(text string) string {
	table, err := tables.Read("t.csv", text, tables.Layout{}, plantings)
	var open tables.Open
	switch {
	case errors.As(err, &open):
		var fields []string
		for _, one := range open {
			fields = append(fields, "open "+one.Field)
		}
		return strings.Join(fields, "\n")
	case err != nil:
		return err.Error()
	}
	out := []string{}
	if len(table.Rows) > 0 {
		out = append(out, said(table))
	}
	for _, bad := range table.Bad {
		out = append(out, "bad "+bad.Error())
	}
	return strings.Join(out, "\n")
}
