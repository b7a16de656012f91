package journal_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/units"
)

// However the file is written, what stands in it stays as it is, remarks and all.
func TestPlantAddsToTheFile(t *testing.T) {
	words := harvest.PlantWords{Called: "bed-7", Crop: "carrot", Bed: "2 m2", Count: "40", Sown: true, Day: time.Date(2031, 4, 12, 0, 0, 0, 0, time.UTC)}
	const entry = "- id: bed-7\n  crop: carrot\n  sown: \"2031-04-12\"\n  seed: {count: 40}\n  bed: 2 m2\n"
	for name, file := range map[string]struct{ before, after string }{
		"no file":                {"", entry},
		"only a remark":          {"# what stands where\n", "# what stands where\n" + entry},
		"an empty list":          {"# none yet\n[]\n", "# none yet\n" + entry},
		"a list":                 {"- id: tub-1 # by the door\n  crop: leek\n  planted: 2031-04-01\n", "- id: tub-1 # by the door\n  crop: leek\n  planted: 2031-04-01\n" + entry},
		"no line end":            {"- {id: tub-1, crop: leek, planted: 2031-04-01}", "- {id: tub-1, crop: leek, planted: 2031-04-01}\n" + entry},
		"an indented list":       {"  - id: tub-1\n    crop: leek\n    planted: 2031-04-01\n", "  - id: tub-1\n    crop: leek\n    planted: 2031-04-01\n  - id: bed-7\n    crop: carrot\n    sown: \"2031-04-12\"\n    seed: {count: 40}\n    bed: 2 m2\n"},
		"the same bed last year": {"- {id: bed-7, crop: leek, planted: 2030-04-01}\n", "- {id: bed-7, crop: leek, planted: 2030-04-01}\n" + entry},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "plantings.yaml")
			require.NoError(t, os.WriteFile(filepath.Join(dir, "kitchen.yaml"), []byte("measures: metric\n"), 0o644))
			if file.before != "" {
				require.NoError(t, os.WriteFile(path, []byte(file.before), 0o644))
			}
			folder, err := journal.Open(dir)
			require.NoError(t, err)
			for range 2 { // twice the same is once
				added, err := folder.Plant(words, units.Metric)
				require.NoError(t, err)
				assert.Equal(t, "bed-7", added.ID)
				assert.Equal(t, 40, added.SeedCount)
				data, err := os.ReadFile(path)
				require.NoError(t, err)
				assert.Equal(t, file.after, string(data))
			}
			other := words
			other.Crop = "parsnip"
			_, err = folder.Plant(other, units.Metric)
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, "called", wrong.Field)
		})
	}
}

// A file that nothing can be added to, and one that is wrong, are left alone.
func TestPlantLeavesOtherFilesAlone(t *testing.T) {
	words := harvest.PlantWords{Called: "bed-7", Crop: "carrot", Day: time.Date(2031, 4, 12, 0, 0, 0, 0, time.UTC)}
	for _, text := range []string{"[{id: tub-1, crop: leek, planted: 2031-04-01}]\n", "- id: tub-1\n  crop: leek\n"} {
		dir := t.TempDir()
		path := filepath.Join(dir, "plantings.yaml")
		require.NoError(t, os.WriteFile(filepath.Join(dir, "kitchen.yaml"), []byte("measures: metric\n"), 0o644))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		folder, err := journal.Open(dir)
		require.NoError(t, err)
		_, err = folder.Plant(words, units.Metric)
		assert.ErrorContains(t, err, "plantings.yaml")
		if strings.HasPrefix(text, "[") {
			assert.EqualError(t, err, "plantings.yaml: is written in a way that nothing can be added to here")
		}
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, text, string(data))
	}
}
