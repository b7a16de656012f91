package journal_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/harvest/journal"
	"trencher/harvest/tables"
)

// manyWeights is an old table with a weight on each row.
func manyWeights(rows int) []byte {
	var out strings.Builder
	out.WriteString("date,planting,weight\n")
	for i := range rows {
		day := time.Date(2031, 6, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, i/28%140)
		fmt.Fprintf(&out, "%s,tub-3,%.2f kg\n", day.Format(time.DateOnly), 0.2+float64(i%170)/100)
	}
	return []byte(out.String())
}

// BenchmarkImportTable brings an old table of as many rows as are taken into an empty journal,
// synced.
func BenchmarkImportTable(b *testing.B) {
	data := manyWeights(tables.MostRows)
	dir := newPlot(b)
	folder, err := journal.Open(dir)
	require.NoError(b, err)
	for b.Loop() {
		done, err := folder.Import(context.Background(), journal.Source{File: "weights.csv", Data: data}, tables.Words{}, options, afterTheSeason)
		require.NoError(b, err)
		require.Len(b, done.Written, tables.MostRows)
		require.NoError(b, os.RemoveAll(filepath.Join(dir, "journal")))
	}
}
