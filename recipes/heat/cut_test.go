package heat

import (
	"errors"
	"testing"
	"trencher/units"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseCut(t *testing.T) {
	for _, row := range []struct {
		text string
		want Cut
		form string // as written back, if not as it was
	}{
		{"whole 35 mm", Cut{Shape: Whole, SizeMM: 35}, ""},
		{"whole 45x35x35 mm", Cut{Shape: Whole, Sides: [3]float64{45, 35, 35}}, ""},
		{"whole 45 × 35 × 35 mm", Cut{Shape: Whole, Sides: [3]float64{45, 35, 35}}, "whole 45x35x35 mm"},
		{"Whole", Cut{Shape: Whole}, "whole"},
		{"halves 45 mm", Cut{Shape: Halves, SizeMM: 45}, ""},
		{"halved 4.5 cm", Cut{Shape: Halves, SizeMM: 45}, "halves 45 mm"},
		{"halves across 45 mm", Cut{Shape: HalvesAcross, SizeMM: 45}, ""},
		{"quarters 60 mm", Cut{Shape: Quarters, SizeMM: 60}, ""},
		{"eighths 80 mm", Cut{Shape: Eighths, SizeMM: 80}, ""},
		{"wedges 80 mm", Cut{Shape: Wedges, SizeMM: 80}, ""},
		{"cube 25 mm", Cut{Shape: Cube, SizeMM: 25}, ""},
		{"cubes 1 inch", Cut{Shape: Cube, SizeMM: 25.4}, "cube 25.4 mm"},
		{"cubes ¾ in", Cut{Shape: Cube, SizeMM: 19.05}, "cube 19.05 mm"},
		{"cube 2,5 cm", Cut{Shape: Cube, SizeMM: 25}, "cube 25 mm"},
		{"slice 6 mm", Cut{Shape: Slice, SizeMM: 6}, ""},
		{"slice 6x40 mm", Cut{Shape: Slice, SizeMM: 6, AcrossMM: 40}, ""},
		{"baton 10x60mm", Cut{Shape: Baton, SizeMM: 10, AcrossMM: 60}, "baton 10x60 mm"},
		{"box 30x20x10 mm", Cut{Shape: Box, Sides: [3]float64{30, 20, 10}}, ""},
	} {
		got, err := ParseCut(row.text)
		require.NoError(t, err, row.text)
		assert.Equal(t, row.want, got, row.text)
		form := row.form
		if form == "" {
			form = row.text
		}
		assert.Equal(t, form, got.String())
	}
}

func TestParseCutRefuses(t *testing.T) {
	for text, problem := range map[string]string{
		"":                      "not a cut this tool knows",
		"julienne 3 mm":         "not a cut this tool knows",
		"cube":                  "no size",
		"cube 25":               "no unit of length",
		"cube 25 g":             `"25 g" is no length`,
		"cube -25 mm":           `"-25 mm" is below zero`,
		"cube 0 mm":             "0 mm is no size for a piece or a tuber; 2 to 200 mm are",
		"cube 2500 mm":          "2500 mm is no size for a piece or a tuber; 2 to 200 mm are",
		"cube NaN mm":           `"nan mm" is no length`,
		"cube inf mm":           `"inf mm" is no length`,
		"cube twenty mm":        `"twenty mm" is no length`,
		"cube 25x25 mm":         "2 sizes are too many or too few for it",
		"box 25 mm":             "a box has three sides",
		"whole 45x35 mm":        "2 sizes are too many or too few for it",
		"box 30x20x10x5 mm":     "a box has three sides",
		"halves across the bed": `"the bed" is no length`,
	} {
		_, err := ParseCut(text)
		var input *units.FieldError
		require.ErrorAs(t, err, &input, text)
		assert.Equal(t, problem, input.Problem, text)
		assert.Contains(t, input.Hint(), "cube 25 mm")
	}
}

// Whatever is read is written so that it is read back alike.
func FuzzParseCut(f *testing.F) {
	for _, seed := range []string{"halves across 45 mm", "slice 6x40 mm"} { // and the cases in testdata
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ParseCut(text)
		if err != nil {
			return
		}
		again, err := ParseCut(got.String())
		if err != nil {
			t.Fatalf("%q is written %q: %v", text, got, err)
		}
		if again.String() != got.String() {
			t.Fatalf("%q is written %q, then %q", text, got, again)
		}
	})
}

func TestLookupCrop(t *testing.T) {
	for _, row := range [][3]string{
		{"potato", "", "potato (waxy)"}, {"Potatoes", "floury", "potato (floury)"}, {"potato", "any", "potato (waxy)"},
		{"carrots", "", "carrot"}, {"zucchini", "", "courgette"}, {"pea", "", "peas"}, {"runner beans", "", "green beans"}, {"dwarf French bean", "", "green beans"}, {"Summer Squash", "", "courgette"}, {"beet", "", "beetroot"},
	} {
		got, err := LookupCrop(row[0], row[1])
		require.NoError(t, err, row[0])
		assert.Equal(t, row[2], got.Title())
	}
	_, err := LookupCrop("dandelion", "")
	var input *units.FieldError
	require.True(t, errors.As(err, &input))
	assert.Contains(t, input.Hint(), "potato, beetroot, carrot")
	assert.ErrorIs(t, err, ErrNoFigures)
	assert.Equal(t, "crop", input.Field)
	for _, row := range [][3]string{{"carrot", "waxy", "write nothing for the kind"}, {"potato", "purple", "write waxy or floury"}, {"sweetcorn", "cobs", "write kernels"}} {
		_, err = LookupCrop(row[0], row[1])
		require.True(t, errors.As(err, &input), row[0])
		assert.Equal(t, "kind", input.Field)
		assert.Equal(t, "no such kind of "+row[0], input.Problem)
		assert.Equal(t, row[2], input.Hint())
		assert.NotErrorIs(t, err, ErrNoFigures)
	}
	_, err = LookupCrop("", "")
	assert.ErrorIs(t, err, ErrNoFigures)
	_, err = LookupCrop("e", "")
	assert.Error(t, err)
}

// Every row of the crops' table says where it comes from and can be steamed.
func TestCropRows(t *testing.T) {
	for _, c := range Crops() {
		sum := 0.0
		for _, part := range c.Composition.parts() {
			sum += part
		}
		assert.InDelta(t, 100, sum, 1.0, c.Title())
		for _, text := range []string{c.CompositionFrom.Source, c.CompositionFrom.KnownBy, c.TargetsFrom.Source, c.TargetsFrom.KnownBy} {
			assert.NotEmpty(t, text, c.Title())
		}
		assert.Greater(t, c.Target(Tender), c.Target(JustTender))
		assert.Greater(t, c.Target(Soft), c.Target(Tender))
		e, err := Steam(c, Cut{Shape: Whole, SizeMM: c.WidthMM}, Tender, Conditions{})
		require.NoError(t, err, c.Title())
		assert.Positive(t, e.Minutes)
	}
}
