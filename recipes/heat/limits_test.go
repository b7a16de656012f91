package heat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// At the very end of the checked range an answer stands without a word; a hair
// beyond it says what is outside, and by how much.
func TestEndsOfTheCheckedRange(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for _, row := range []struct {
		in, out   string
		inC, outC Conditions
		says      string
	}{
		{"cube 8 mm", "cube 7.5 mm", Conditions{}, Conditions{}, "7.5 mm is 0.5 mm under the 8 mm checked: a matter of minutes only, watch it"},
		{"whole 90 mm", "whole 92 mm", Conditions{}, Conditions{}, "92 mm is 2 mm over the 90 mm checked: cut it, its outside overcooks before the middle is done"},
		{"cube 25 mm", "cube 25 mm", Conditions{StartC: new(40.0)}, Conditions{StartC: new(43.0)}, "a start of 43 °C is 3 °C over the 40 °C checked"},
		{"cube 25 mm", "cube 25 mm", Conditions{AltitudeM: 3000}, Conditions{AltitudeM: 3010}, "3010 m is 10 m over the 3000 m checked: a pressure steamer is advised"},
		{"cube 25 mm", "cube 25 mm", Conditions{LoadGrams: 50}, Conditions{LoadGrams: 49}, "a load of 49 g is under the 50 g checked"},
		{"cube 40 mm", "cube 40 mm", Conditions{LoadGrams: 3000, NetPowerW: 2000}, Conditions{LoadGrams: 3001, NetPowerW: 2000}, "a load of 3001 g is 1 g over the 3000 g checked"},
		{"cube 25 mm", "cube 25 mm", Conditions{NetPowerW: 150, LoadGrams: 100}, Conditions{NetPowerW: 149, LoadGrams: 100}, "149 W of steam is 1 W under the 150 W checked"},
		{"cube 25 mm", "cube 25 mm", Conditions{NetPowerW: 3000}, Conditions{NetPowerW: 3001}, "3001 W of steam is 1 W over the 3000 W checked"},
		{"whole 50x20x20 mm", "whole 52x20x20 mm", Conditions{}, Conditions{}, "2.6 times as long as thick is over the 2.5 checked"},
		{"whole 20x50x20 mm", "whole 20x20x52 mm", Conditions{}, Conditions{}, "2.6 times as long as thick is over the 2.5 checked"},
		{"box 90x25x25 mm", "box 90x25x7 mm", Conditions{}, Conditions{}, "7.0 mm is 1.0 mm under the 8 mm checked: a matter of minutes only, watch it"},
	} {
		e, err := Steam(waxy, cut(t, row.in), JustTender, row.inC)
		require.NoError(t, err, row.in)
		assert.Empty(t, e.Outside, "%s %+v", row.in, row.inC)
		assert.True(t, e.InRange())
		e, err = Steam(waxy, cut(t, row.out), JustTender, row.outC)
		require.NoError(t, err, row.out)
		assert.Equal(t, []string{row.says}, e.Outside)
		assert.False(t, e.InRange())
	}
	slow, err := Steam(waxy, cut(t, "cube 20 mm"), JustTender, Conditions{LoadGrams: 2990, NetPowerW: 300})
	require.NoError(t, err)
	require.False(t, slow.FreeFirst)
	require.Greater(t, slow.FromLoading, 20.0)
	require.Len(t, slow.Outside, 1)
	assert.Contains(t, slow.Outside[0], "minutes they take: the stove is too small for this load, split it")
	free, err := Steam(waxy, cut(t, "cube 20 mm"), Soft, Conditions{LoadGrams: 2990, NetPowerW: 400})
	require.NoError(t, err)
	require.Greater(t, free.ComeUp, 20.0)
	require.Len(t, free.Outside, 1)
	assert.Contains(t, free.Outside[0], "over the 20 checked: the stove is too small for this load, split it")

	// Of a tuber in parts the part's body counts: twice its radius.
	quarters, err := Steam(waxy, cut(t, "quarters 120 mm"), JustTender, Conditions{})
	require.NoError(t, err)
	assert.Empty(t, quarters.Outside)
	small, err := Steam(waxy, cut(t, "eighths 15 mm"), JustTender, Conditions{})
	require.NoError(t, err)
	require.Len(t, small.Outside, 1)
	body, err := BodyOf(waxy, cut(t, "eighths 15 mm"))
	require.NoError(t, err)
	assert.Contains(t, small.Outside[0], millimetres(float64(int(20e3*body.RadiusM+0.5))/10)+" mm is ")
}

// Conditions that cannot be are refused at their field, and taken up to the
// very end of what can.
func TestEndsOfWhatCanBe(t *testing.T) {
	waxy, cubes := crop(t, "potato", "waxy"), cut(t, "cube 25 mm")
	for _, row := range []struct {
		low, under, high, over Conditions
		field, accepted        string
	}{
		{Conditions{StartC: new(0.0)}, Conditions{StartC: new(-0.01)}, Conditions{StartC: new(60.0)}, Conditions{StartC: new(60.01)}, "start", "0 to 60 °C"},
		{Conditions{AltitudeM: -430}, Conditions{AltitudeM: -431}, Conditions{AltitudeM: 5500}, Conditions{AltitudeM: 5501}, "altitude", "-430 to 5500 m"},
		{Conditions{LoadGrams: 1}, Conditions{LoadGrams: 0.99}, Conditions{LoadGrams: 20000, NetPowerW: 9000}, Conditions{LoadGrams: 20001}, "load", "1 to 20000 g"},
		{Conditions{NetPowerW: 50, LoadGrams: 10}, Conditions{NetPowerW: 49.9}, Conditions{NetPowerW: 10000}, Conditions{NetPowerW: 10001}, "net power", "50 to 10000 W"},
	} {
		for _, fine := range []Conditions{row.low, row.high} {
			_, err := Steam(waxy, cubes, JustTender, fine)
			assert.NoError(t, err, "%s: %+v", row.field, fine)
		}
		for _, bad := range []Conditions{row.under, row.over} {
			_, err := Steam(waxy, cubes, JustTender, bad)
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong, "%s: %+v", row.field, bad)
			assert.Equal(t, row.field, wrong.Field)
			assert.Contains(t, wrong.Accepted, row.accepted)
		}
	}
	for text, fine := range map[string]bool{"cube 2 mm": true, "cube 200 mm": true, "cube 1.9 mm": false, "cube 200.1 mm": false,
		"box 2x200x2 mm": true, "box 1x20x20 mm": false, "slice 6x1 mm": false} {
		_, err := ParseCut(text)
		assert.Equal(t, fine, err == nil, text)
	}
	for _, bad := range []Cut{{Shape: Cube, SizeMM: 1.9}, {Shape: Cube, SizeMM: 201}, {Shape: Cube, SizeMM: -5}, {Shape: Slice, SizeMM: 5, AcrossMM: 300},
		{Shape: Box, Sides: [3]float64{20, 20, 1}}, {Shape: Box, Sides: [3]float64{20, 1, 20}}, {Shape: Whole, Sides: [3]float64{1, 20, 20}}} {
		_, err := BodyOf(waxy, bad)
		assert.ErrorContains(t, err, "out of reach", "%+v", bad)
	}
}

// What stands beside a time: the crop's own cautions, and where the come-up
// alone cooks.
func TestNotesOfATime(t *testing.T) {
	for _, row := range []struct {
		crop, kind, cut string
		c               Conditions
		notes           []string
	}{
		{"potato", "waxy", "cube 25 mm", Conditions{}, nil},
		{"potato", "floury", "cube 25 mm", Conditions{}, []string{"the doneness of potato (floury) is a judgement", "floury tubers fall apart near tender"}},
		{"sweetcorn", "", "whole 9 mm", Conditions{}, []string{"the doneness of sweetcorn (kernels) is a judgement"}},
		{"potato", "waxy", "slice 3 mm", Conditions{LoadGrams: 3000, NetPowerW: 200}, []string{"done before steam flows freely", "they warm slowly"}},
	} {
		e, err := Steam(crop(t, row.crop, row.kind), cut(t, row.cut), JustTender, row.c)
		require.NoError(t, err)
		require.Len(t, e.Notes, len(row.notes), "%s %s", row.crop, row.cut)
		for i, note := range row.notes {
			assert.Contains(t, e.Notes[i], note)
		}
	}
}

// Above 3000 m the band is stretched by half of itself for every kilometre.
func TestBandWidensAboveTheChecked(t *testing.T) {
	low, high := widen(10, 8, 15, 1000)
	assert.InDelta(t, 10*0.8*0.894427, low, 1e-4, "0.8 to the power 1.5")
	assert.InDelta(t, 10*1.5*1.224745, high, 1e-4, "1.5 to the power 1.5")
	for _, over := range []float64{0, -500} {
		low, high := widen(10, 8, 15, over)
		assert.Equal(t, []float64{8, 15}, []float64{low, high})
	}
	low, high = widen(0, 0, 3, 1000)
	assert.Equal(t, []float64{0, 3}, []float64{low, high}, "no time, no stretch")
}
