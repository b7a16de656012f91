package measures

import (
	"maps"
	"math/big"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/sorted"
)

// measures.sorted is what measures.csv, aliases.csv and crops.csv make it.
func TestMeasuresAreMade(t *testing.T) {
	texts, aliases := map[string]string{}, map[string]string{}
	rows := map[string][]map[string]string{}
	for row := range readTable("measures.csv", readFile(t, "measures.csv")) {
		kept := map[string]string{}
		for column, cell := range row {
			require.NotContains(t, cell, "\t")
			kept[column] = cell
		}
		key := lookupKey(row["ingredient"])
		require.NotContains(t, leadMarks, key[:1])
		rows[key] = append(rows[key], kept)
	}
	for row := range readTable("aliases.csv", readFile(t, "aliases.csv")) {
		key := lookupKey(row["ingredient"])
		require.Contains(t, rows, key, "aliases.csv: %s leads nowhere", row["alias"])
		aliases[aliasMark+lookupKey(row["alias"])] = key
	}
	ix := &index{book: sorted.Make(aliases), decoded: new(sync.Map), own: map[string][]Row{}, singular: map[string]string{}, byCrop: map[string]string{}}
	for key, all := range rows {
		texts[key] = rowText(all[0]["ingredient"], all)
		ix.own[key] = rowsOf(texts[key])
	}
	ix.leadToOwn()
	for alias, key := range aliases {
		texts[alias] = key
	}
	for form, key := range ix.singular {
		texts[singularMark+form] = key
	}
	for name, key := range ix.byCrop {
		texts[cropMark+name] = key
	}
	made := sorted.Make(texts)
	if *update {
		require.NoError(t, os.WriteFile("measures.sorted", []byte(made), 0o644))
		return
	}
	require.True(t, made == measureTable, "measures.csv, aliases.csv or crops.csv was changed: make measures.sorted anew with `go generate ./units/measures`")
}

// Every row is found by its ingredient's name, as measures.csv has it, in its order.
func TestRowsAreFound(t *testing.T) {
	want := map[string][]string{}
	for row := range readTable("measures.csv", readFile(t, "measures.csv")) {
		grams, ok := new(big.Rat).SetString(row["grams"])
		require.True(t, ok, row["grams"])
		measure, err := units.Parse(row["measure"], units.NoSystem)
		require.NoError(t, err)
		want[row["ingredient"]] = append(want[row["ingredient"]], strings.Join([]string{row["ingredient"], row["state"], row["size"], measure.String(), grams.RatString(), row["record"], row["known_by"], row["note"]}, "|"))
	}
	for name, rows := range want {
		var got []string
		for _, row := range Default().Rows(strings.ToUpper(name)) {
			got = append(got, strings.Join([]string{row.Ingredient, row.State, row.Size, row.Measure.String(), row.Grams.RatString(), row.Record, row.KnownBy, row.Note}, "|"))
		}
		require.Equal(t, rows, got, name)
	}
	require.ElementsMatch(t, slices.Collect(maps.Keys(want)), Default().Ingredients())
}

func readFile(t *testing.T, name string) string {
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	return string(text)
}

// rowText writes rows of one ingredient as measures.sorted has them: its name, and the
// cells of each row.
func rowText(ingredient string, rows []map[string]string) string {
	var text strings.Builder
	text.WriteString(ingredient)
	for _, row := range rows {
		for _, column := range rowColumns {
			text.WriteString("\t" + row[column])
		}
	}
	return text.String()
}
