package journal_test

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest/journal"
	"trencher/harvest/tables"
)

// largeTables are tables of each shape with so many rows: every reader's worst.
var largeTables = map[string]func(rows int) string{
	"weights": func(rows int) string { return string(manyWeights(rows)) },
	"own columns": func(rows int) string {
		return strings.Join(journal.Columns, ",") + "\n" + strings.Repeat("2031/x,lift,2031-07-12,tub-3,bowl,1 kg,0.2 kg"+strings.Repeat(",", len(journal.Columns)-7)+"\n", rows)
	},
	"wrong cells": func(rows int) string {
		return "at,planting,weight,sizes,count,condition\n" + strings.Repeat("2031-07-12,tub-3,much,large,few,odd\n", rows)
	},
	"no weights at all": func(rows int) string {
		return "date,plot,kg\n" + strings.Repeat("12 July 2031,tub-3,plenty\n", rows)
	},
	"broken quotes": func(rows int) string {
		return "at,planting,weight\n2031-07-12,tub-3,1 kg\n" + strings.Repeat("2031-07-12,\"tub\"-3,1 kg\n", rows-1)
	},
	"wide": func(rows int) string {
		var head strings.Builder
		for week := range 52 {
			fmt.Fprintf(&head, ",week %d", week+1)
		}
		return "Weights 2031 (kg)\nplot" + head.String() + "\n" + strings.Repeat("tub-3"+strings.Repeat(",", 51)+"1\n", rows-2)
	},
	"long cells": func(rows int) string {
		return "at,planting,weight,says\n" + strings.Repeat("2031-07-12,tub-3,1 kg,"+strings.Repeat("dry ", 350)+"\n", rows)
	},
}

// A table of as many rows as are taken allocates no more than in step with its
// rows, and 200 MB at most in all; one of more rows is refused before it is read.
func TestBoundsOfTables(t *testing.T) {
	folder, err := journal.Open(newPlot(t))
	require.NoError(t, err)
	look := func(data string) (allocated float64, err error) {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err = folder.Look(context.Background(), journal.Source{File: "t.csv", Data: []byte(data)}, tables.Words{}, options, afterTheSeason)
		runtime.ReadMemStats(&after)
		return float64(after.TotalAlloc-before.TotalAlloc) / 1e6, err
	}
	for name, table := range largeTables {
		if quick := name == "weights" || name == "wrong cells"; !quick && volume(0, 1, 1) == 0 {
			continue
		}
		t.Run(name, func(t *testing.T) {
			_, _ = look(table(20)) // what is read once
			small, err := look(table(tables.MostRows / 4))
			require.NoError(t, err)
			large, err := look(table(tables.MostRows - 10))
			require.NoError(t, err)
			t.Logf("%.1f MB for a quarter, %.1f MB for all", small, large)
			if !raced {
				assert.Less(t, large, 200.0, "MB")
			}
			assert.Less(t, large, 6*small+1, "in step")
			refused, err := look(table(3 * tables.MostRows))
			require.ErrorContains(t, err, "more than")
			assert.Less(t, refused, large+1, "what is refused costs no more")
		})
	}
}
