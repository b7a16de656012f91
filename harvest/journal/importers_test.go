package journal_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest/journal"
	"trencher/harvest/tables"
)

// rowsToKill are the rows of the table whose import is killed.
const rowsToKill = 400

// beImporter brings a table into the plot, telling when it begins.
func beImporter(dir string) int {
	folder, err := journal.Open(dir)
	if err == nil {
		fmt.Println("begins")
		_, err = folder.Import(context.Background(), weightsTable(rowsToKill), tables.Words{}, options, afterTheSeason)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return 0
}

func weightsTable(rows int) journal.Source {
	return journal.Source{File: "weights.csv", Data: manyWeights(rows)}
}

// An import is killed at a random moment. No half entry is there, and the same
// table brought in again completes the journal: each row once, and
// nothing but torn files left over.
func TestKilledImportsAreCompleted(t *testing.T) {
	kills := volume(1, 20, 60)
	random := rand.New(rand.NewPCG(7, 12))
	self, err := os.Executable()
	require.NoError(t, err)
	partly := 0
	for range kills {
		dir := newPlot(t)
		cmd := exec.Command(self)
		cmd.Env = append(os.Environ(), "TRENCHER_TEST_IMPORTER="+dir)
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, cmd.Start())
		_, err = out.Read(make([]byte, 1))
		require.NoError(t, err)
		time.Sleep(time.Duration(random.IntN(400)) * time.Millisecond)
		cmd.Process.Kill()
		cmd.Wait() // killed, or done before that

		folder, err := journal.Open(dir)
		require.NoError(t, err)
		there, _, err := folder.Season(context.Background(), 2031, options)
		require.NoError(t, err, "no half entry is ever read")
		if len(there) > 0 && len(there) < rowsToKill {
			partly++
		}
		done, err := folder.Import(context.Background(), weightsTable(rowsToKill), tables.Words{}, options, afterTheSeason)
		require.NoError(t, err)
		assert.Equal(t, len(there), done.Already, "what is in stays in once")
		assert.Len(t, done.Written, rowsToKill-len(there))
		entries, _, err := folder.Season(context.Background(), 2031, options)
		require.NoError(t, err)
		assert.Len(t, entries, rowsToKill)
		mended, err := folder.Mend(context.Background(), options, time.Now().Add(time.Hour))
		require.NoError(t, err)
		assert.Empty(t, mended.Finished, "what was left unfinished holds no entry that is not in")
	}
	t.Logf("%d imports killed, %d of them with some entries in and not all", kills, partly)
}
