package journal_test

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"trencher/harvest/journal"
)

const entriesASeason = 500

// manySeasons makes a plot of which every season has 500 entries: 100 lifts of
// four lots and 400 moves, the last season being 2031.
func manySeasons(b *testing.B, seasons int) string {
	b.Helper()
	dir := newPlot(b)
	var list strings.Builder
	for year := 2031 - seasons + 1; year <= 2031; year++ {
		fmt.Fprintf(&list, "- {id: tub-3, crop: potato, class: second early, planted: %d-04-02, tub: 30 l}\n", year)
		folder := filepath.Join(dir, "journal", fmt.Sprint(year))
		require.NoError(b, os.MkdirAll(folder, 0o755))
		for n := range entriesASeason {
			name, text := seasonEntry(year, n)
			require.NoError(b, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644))
		}
	}
	require.NoError(b, os.WriteFile(filepath.Join(dir, "plantings.yaml"), []byte(list.String()), 0o644))
	return dir
}

func seasonEntry(year, n int) (name, text string) {
	lifted := n / 5
	at := time.Date(year, 7, 1+lifted/10, 8+lifted%10, 0, 0, 0, time.UTC)
	if n%5 == 0 {
		return at.Format("0102-1504") + "-lift-tub-3.yaml", strings.Replace(lift, "2031-07-12T16:40:00+01:00", at.Format(time.RFC3339), 1)
	}
	lot := []string{"45-65-sound", "20-45-scabby", "ungraded-damaged", "ungraded-sound"}[n%5-1]
	text = fmt.Sprintf("kind: %s\nlot: tub-3/%s/%s\nweight: %d g\nat: %s\n", []string{"use", "give", "compost", "store"}[n%4],
		at.Format("2006-0102-1504"), lot, 10+n%80, at.Add(30*time.Hour).Format(time.RFC3339))
	return at.Add(30*time.Hour).Format("0102-1504") + fmt.Sprintf("-move-%d.yaml", n), text
}

// BenchmarkStockOfOneSeason is one season, from the files to the account: of
// lifts of two lots each, and of one lift to seven uses. With TRENCHER_LONG=full
// they are 100,000 entries.
func BenchmarkStockOfOneSeason(b *testing.B) {
	n := volume(10_000, 10_000, 100_000)
	for name, aLiftEvery := range map[string]int{"lifts": 1, "lifts and uses": 8} {
		dir := newPlot(b)
		require.NoError(b, os.WriteFile(filepath.Join(dir, "plantings.yaml"), []byte("- {id: tub-3, crop: potato, class: second early, planted: 2031-04-02, tub: 30 l}\n"), 0o644))
		folder := filepath.Join(dir, "journal", "2031")
		require.NoError(b, os.MkdirAll(folder, 0o755))
		for i := range n {
			name, text := largeEntry(i, i%aLiftEvery == 0, i/aLiftEvery*aLiftEvery)
			require.NoError(b, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644))
		}
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				drawUp(b, dir)
			}
		})
	}
}

// largeEntry is the i-th entry of a season as it is written: a lift, or a use of
// another one.
func largeEntry(i int, isLift bool, lift int) (name, text string) {
	moment := func(i int) time.Time { return time.Date(2031, 6, 1, 0, 0, 150*i, 0, time.UTC) }
	at := moment(i)
	head := fmt.Sprintf("at: %s\nby: cf64az\nlogged: %s\n", at.Format(time.RFC3339), at.Format(time.RFC3339))
	text = "# entry of the journal; it is whole when its last line is \"...\"\n"
	if isLift {
		return fmt.Sprintf("%s-lift-tub-3-%06d.yaml", at.Format("0102-1504"), i),
			text + "kind: lift\nplanting: tub-3\n" + head + fmt.Sprintf("weighings:\n  - {gross: 1.46 kg, tare: 0.31 kg}\ngrades:\n  - {sizes: 20-45 mm, weight: %d g, condition: scabby}\n...\n", 100+i%900)
	}
	return fmt.Sprintf("%s-use-%06d.yaml", at.Format("0102-1504"), i),
		text + "kind: use\n" + head + fmt.Sprintf("lot: tub-3/2031-%s-%06d/ungraded-sound\nweight: %d g\ndish: Mash\n...\n", moment(lift).Format("0102-1504"), lift, 10+i%20)
}

// BenchmarkStockAsSeasonsPass is what every answer about today costs at the
// journal, with one season on the disk and with fifty: the season asked for
// and the one before are read, and no others.
func BenchmarkStockAsSeasonsPass(b *testing.B) {
	for _, seasons := range []int{2, 50} {
		dir := manySeasons(b, seasons)
		b.Run(fmt.Sprintf("seasons=%d", seasons), func(b *testing.B) {
			for b.Loop() {
				drawUp(b, dir)
			}
		})
	}
}

// drawUp is the account of a plot at the end of 2031.
func drawUp(b *testing.B, dir string) {
	folder, err := journal.Open(dir)
	require.NoError(b, err)
	ledger, err := folder.Ledger(context.Background(), options, time.Date(2031, 12, 31, 0, 0, 0, 0, time.UTC))
	require.NoError(b, err)
	_, err = ledger.Account()
	require.NoError(b, err)
}

// BenchmarkTallyOfAllSeasons reads and settles fifty seasons; beside it, the
// bare decoding of the same bytes by the YAML library.
func BenchmarkTallyOfAllSeasons(b *testing.B) {
	dir := manySeasons(b, 50)
	b.Run("tally", func(b *testing.B) {
		for b.Loop() {
			folder, err := journal.Open(dir)
			require.NoError(b, err)
			years, err := folder.Seasons()
			require.NoError(b, err)
			ledger, err := folder.Ledger(context.Background(), options, time.Time{}, years...)
			require.NoError(b, err)
			account, err := ledger.Account()
			require.NoError(b, err)
			require.Len(b, account.Season(1990).Rows, 1)
		}
	})
	b.Run("yaml alone", func(b *testing.B) {
		for b.Loop() {
			require.NoError(b, filepath.WalkDir(filepath.Join(dir, "journal"), func(path string, d fs.DirEntry, err error) error {
				if err != nil || d.IsDir() {
					return err
				}
				data, err := os.ReadFile(path)
				if err != nil {
					return err
				}
				var entry map[string]any
				return yaml.Unmarshal(data, &entry)
			}))
		}
	})
}
