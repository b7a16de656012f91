package harvest

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"trencher/units"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// table reads a file of published figures, one map a row.
func table(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", "harvest", name))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var list []map[string]string
	for _, row := range rows[1:] {
		fields := map[string]string{}
		for i, key := range rows[0] {
			fields[key] = row[i]
		}
		list = append(list, fields)
	}
	return list
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return value
}

// Every row says where it comes from, in a way that can be looked up.
func TestEveryRowHasASource(t *testing.T) {
	known := map[string]bool{"read": true, "memory": true, "practice": true, "computed": true}
	seen := map[string]bool{}
	check := func(what string, f units.Provenance) {
		assert.True(t, known[f.KnownBy], "%s: known_by %q", what, f.KnownBy)
		assert.NotEmpty(t, f.Source, what)
		assert.NotContains(t, f.Source, "http", what)
		if strings.HasPrefix(f.Source, "common practice") {
			assert.Equal(t, "practice", f.KnownBy, what)
		}
	}
	for _, row := range Crops() {
		assert.False(t, seen[row.ID], "%s stands twice", row.ID)
		seen[row.ID] = true
		require.NotEmpty(t, row.Windows, row.Crop)
		require.NotEmpty(t, row.Signs, row.Crop)
		require.NotEmpty(t, row.Keeps, row.Crop)
		assert.Contains(t, []string{"once", "picked"}, row.Cropping, row.Crop)
		for _, w := range row.Windows {
			check(row.Crop, w.Provenance)
			assert.True(t, w.Opens.IsZero() == w.Closes.IsZero() && w.Opens.IsZero() != (w.Days.High == 0), "%s: by days or by dates", row.Crop)
			assert.LessOrEqual(t, w.Days.Low, w.Days.High, row.Crop)
			assert.Contains(t, []string{SinceSowing, SincePlanting}, w.Since, row.Crop)
			assert.NotEmpty(t, w.Months, row.Crop)
			assert.Equal(t, w.Printed == Months{}, w.PrintedIn == "", row.Crop)
		}
		for _, s := range append(row.Signs, row.Left) {
			check(row.Crop+": "+s.Says, s.Provenance)
			assert.NotEmpty(t, s.Says, row.Crop)
		}
		for _, k := range row.Keeps {
			check(row.Crop, k.Provenance)
			assert.LessOrEqual(t, k.Days.Low, k.Days.High, row.Crop)
			assert.True(t, k.Days.Low > 0 || k.Place == InRoom, "%s: eaten the same day", row.Crop)
		}
		for _, u := range row.Yields {
			check(row.Crop, u.Provenance)
			assert.Contains(t, []string{PerPlant, PerM2, PerMetre, PerLitre}, u.Per, row.Crop)
			assert.True(t, 0 < u.Grams.Low && u.Grams.Low <= u.Grams.High, row.Crop)
		}
		check(row.Crop+" frost", row.Frost.Provenance)
		check(row.Crop+" spacing", row.Spacing.Provenance)
		check(row.Crop+" tub", row.Tub.Provenance)
		assert.Contains(t, []Verb{VerbLift, VerbPull, VerbCut, VerbPick}, row.Verb, row.Crop)
		assert.Contains(t, []FrostEnd{EndsFirst, EndsHard, EndsNever}, row.Frost.Ends, row.Crop)
		assert.True(t, row.Spacing.InRowCM > 0 && row.Spacing.RowsCM > 0 && row.Tub.Litres > 0, row.Crop)
		if s := row.Size; s != nil {
			check(row.Crop, s.Provenance)
			assert.True(t, s.Small < s.Good && s.Good < s.Large, row.Crop)
		}
	}
	assert.GreaterOrEqual(t, len(Crops()), 80)
}

// What a home gets is no longer than the published life at the right cold and
// damp times the share a home gets (1 where the crop is kept as the table has
// it), rounded up to a whole day at the longer end.
func TestKeepingIsNoLongerThanTheSources(t *testing.T) {
	for _, want := range table(t, "keeping.csv") {
		row, ok := LookupCrop(want["crop"])
		require.True(t, ok, want["crop"])
		k, ok := row.keeping(want["class"], "")
		require.True(t, ok, want)
		share := number(t, want["share"])
		assert.LessOrEqual(t, float64(k.Days.Low), number(t, want["trade_low_days"])*share+0.5, "%s: %s", want["crop"], want["source"])
		assert.LessOrEqual(t, float64(k.Days.High), number(t, want["trade_high_days"])*share+1.5, "%s: %s", want["crop"], want["source"])
	}
}

func TestCropNames(t *testing.T) {
	for text, want := range map[string]string{
		"Potatoes": "potato", "potato": "potato", " zucchini ": "courgette", "French beans": "dwarf French bean",
		"Oca": "oca", "lettuce": "lettuce, head", "leaf lettuce": "lettuce, leaf", "bush beans": "dwarf French bean",
		"pole beans": "climbing French bean", "perpetual spinach": "leaf beet", "pumpkins": "pumpkin", "Brussels sprouts": "Brussels sprout",
		"potatos": "potato",
	} {
		assert.Equal(t, want, CropName(text))
	}
}

func TestMisspeltCrops(t *testing.T) {
	for text, want := range map[string]string{"potatoe": "potato", "Carots": "carrot", "beetroott": "beetroot", "oca": "", "swede": "", "pear": "", "potato": ""} {
		meant, ok := Misspelt(text)
		assert.Equal(t, want, meant, text)
		assert.Equal(t, want != "", ok, text)
	}
}

func TestRawKeeping(t *testing.T) {
	for _, row := range []struct {
		crop, class string
		condition   Condition
		days        int
		known       bool
	}{
		{"potato", "second early", Sound, 3, true},
		{"potato", "", Scabby, 3, true},
		{"potato", "late maincrop", Sound, 120, true},
		{"potato", "late maincrop", Damaged, 3, true},
		{"sweetcorn", "", Damaged, 1, true},
		{"oca", "", Damaged, 3, true},
		{"oca", "", Sound, 0, false},
		{"potato", "first early", Green, 0, false},
		{"potato", "first early", Rotten, 0, false},
	} {
		k, known := KeptRaw(row.crop, row.class, row.condition, "")
		assert.Equal(t, row.known, known, row)
		assert.Equal(t, row.days, k.Days.Low, row)
	}
}
