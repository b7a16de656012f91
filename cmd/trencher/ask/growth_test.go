package ask

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/demo"
)

// BenchmarkShareAsSeasonsPass is the main job on the demo plot with one past
// season of 500 entries behind it, and with fifty: the answer rests on this
// season and the last, and reads no others.
func BenchmarkShareAsSeasonsPass(b *testing.B) {
	for _, past := range []int{1, 50} {
		dir := filepath.Join(b.TempDir(), "plot")
		require.NoError(b, os.CopyFS(dir, demo.Plot()))
		pastSeasons(b, dir, past)
		b.Run(fmt.Sprintf("past=%d", past), func(b *testing.B) {
			for b.Loop() {
				plan, err := Share(context.Background(), ShareWords{Plot: PlotRef{Dir: dir, On: "2031-07-19", Now: demo.Day()}})
				require.NoError(b, err)
				require.NotEmpty(b, plan.Dishes)
			}
		})
	}
}

// pastSeasons adds seasons of 250 lifts, each given away the same day.
func pastSeasons(b *testing.B, dir string, seasons int) {
	b.Helper()
	plantings, err := os.ReadFile(filepath.Join(dir, "plantings.yaml"))
	require.NoError(b, err)
	var rows strings.Builder
	for year := 2030; year > 2030-seasons; year-- {
		fmt.Fprintf(&rows, "- {id: old, crop: potato, class: first early, planted: %d-04-01, bed: 1 m2}\n", year)
		folder := filepath.Join(dir, "journal", fmt.Sprint(year))
		require.NoError(b, os.MkdirAll(folder, 0o755))
		for n := range 250 {
			at := time.Date(year, 7, 1, 8, n, 0, 0, time.UTC)
			write := func(kind, text string) {
				name := at.Format("0102-1504") + "-" + kind + "-old.yaml"
				require.NoError(b, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644))
			}
			write("lift", fmt.Sprintf("kind: lift\nplanting: old\nat: %s\nweighings: [{gross: 1.46 kg, tare: 0.31 kg}]\n", at.Format(time.RFC3339)))
			write("give", fmt.Sprintf("kind: give\nlot: old/%s/ungraded-sound\nweight: 1.15 kg\nat: %s\n", at.Format("2006-0102-1504"), at.Format(time.RFC3339)))
		}
	}
	require.NoError(b, os.WriteFile(filepath.Join(dir, "plantings.yaml"), append(plantings, rows.String()...), 0o644))
}
