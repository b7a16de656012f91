package ask_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/demo"
	"trencher/harvest"
	"trencher/units"
)

// garden is a copy of the demo plot, which is invented, on the evening of its
// lift.
func garden(t testing.TB) ask.PlotRef {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "plot")
	require.NoError(t, os.CopyFS(dir, demo.Plot()))
	return ask.PlotRef{Dir: dir, Now: demo.Day().Add(20 * time.Hour)}
}

// requireField is that an error is of a field, wherever it stands among others.
func requireField(t *testing.T, field string, err error) {
	t.Helper()
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong)
	require.Equal(t, field, wrong.Field, "%v", err)
}

// entries counts the files of the journal.
func entries(t *testing.T, w ask.PlotRef) int {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(w.Dir, "journal", "*", "*.yaml"))
	require.NoError(t, err)
	return len(files)
}

// damage writes an entry that cannot be read.
func damage(t *testing.T, w ask.PlotRef) {
	t.Helper()
	write(t, w.Dir, "journal/2031/0719-1100-lift-bed-3.yaml", "kind: lift\nplanting: bed-3\n")
}

func lifted(t *testing.T, w ask.PlotRef, words harvest.LiftWords) harvest.LoggedLift {
	t.Helper()
	answer, err := ask.Lift(t.Context(), ask.LiftQuestion{PlotRef: w, LiftWords: words})
	require.NoError(t, err)
	return answer
}
