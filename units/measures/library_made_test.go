package measures

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units/literal"
	"trencher/units/sorted"
)

// library.go and crops.sorted are what crops.csv and sources.csv make them.
func TestLibraryIsMade(t *testing.T) {
	crops, names := makeCrops(t)
	var sources []source
	for row := range readTable("sources.csv", readFile(t, "sources.csv")) {
		sources = append(sources, source{row["key"], row["title"]})
	}
	require.NoError(t, literal.Keep(map[string]string{
		"library.go": string(literal.File("measures", "crops.csv and sources.csv", nil,
			literal.Table{Name: "cropTable", About: "are the crops, in the table's order.", Rows: crops},
			literal.Table{Name: "sourceRows", About: "are the publications.", Rows: sources})),
		"crops.sorted": string(names),
	}, *update))
}

func makeCrops(t *testing.T) ([]Crop, sorted.Table) {
	var crops []Crop
	names := map[string]string{}
	for row := range readTable("crops.csv", readFile(t, "crops.csv")) {
		crop := Crop{ID: row["id"], Name: row["name"], kitchen: row["in_kitchen"]}
		for name := range strings.SplitSeq(row["plural"]+";"+row["also"], ";") {
			if name != "" {
				crop.Names = append(crop.Names, name)
			}
		}
		for _, name := range append([]string{crop.Name}, crop.Names...) {
			names[lookupKey(name)] = strconv.Itoa(len(crops))
		}
		crops = append(crops, crop)
	}
	return crops, sorted.Make(names)
}

// readTable reads a table with a line of headings, row by row. A row is good
// until the next one.
func readTable(name, text string) iter.Seq[map[string]string] {
	return func(yield func(map[string]string) bool) {
		in := csv.NewReader(strings.NewReader(text))
		in.ReuseRecord = true
		head, err := in.Read()
		columns := slices.Clone(head)
		row := make(map[string]string, len(columns))
		for err == nil {
			var record []string
			if record, err = in.Read(); err != nil {
				break
			}
			for i, column := range columns {
				row[column] = record[i]
			}
			if !yield(row) {
				return
			}
		}
		if !errors.Is(err, io.EOF) {
			panic(fmt.Sprintf("measures: %s: %v", name, err))
		}
	}
}
