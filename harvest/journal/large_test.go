package journal_test

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest/journal"
)

// A journal of a hundred thousand lifts is waited for, and most of the time goes
// into what is allocated for each: 6 kB a lift from its file to its lots, where it
// was 9.6 until 26 November 2026; it is 4.5.
func TestALiftOnHandTakesLittle(t *testing.T) {
	if raced {
		t.Skip("the race detector empties the pools")
	}
	const lifts = 1000
	dir := newPlot(t)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "plantings.yaml"), []byte("- {id: tub-3, crop: potato, class: second early, planted: 2031-04-02, tub: 30 l}\n"), 0o644))
	folder := filepath.Join(dir, "journal", "2031")
	require.NoError(t, os.MkdirAll(folder, 0o755))
	for i := range lifts {
		name, text := largeEntry(i, true, i)
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644))
	}
	stock := func() (lots int) {
		plot, err := journal.Open(dir)
		require.NoError(t, err)
		ledger, err := plot.Ledger(context.Background(), options, time.Date(2031, 12, 31, 0, 0, 0, 0, time.UTC))
		require.NoError(t, err)
		list, err := ledger.Stock(context.Background())
		require.NoError(t, err)
		return len(list.Lots)
	}
	require.Equal(t, 2*lifts, stock())
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	stock()
	runtime.ReadMemStats(&after)
	assert.Less(t, float64(after.TotalAlloc-before.TotalAlloc)/lifts, 6000.0, "bytes a lift")
}
