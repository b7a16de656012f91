package heat

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What becomes of a tuber under a cut.
func TestPiece(t *testing.T) {
	for _, row := range []struct {
		cut   string
		tuber float64
		want  string
	}{
		{"halves", 45, "halves 45 mm"},
		{"halves 60 mm", 45, "halves 60 mm"},
		{"halves", 0, "halves"},
		{"cube 25 mm", 45, "cube 25 mm"},
		{"cube 25 mm", 25, "whole 25 mm"},
		{"cube 25 mm", 24, "whole 24 mm"},
		{"cube 25 mm", 26, "cube 25 mm"},
		{"cube 25 mm", 0, "cube 25 mm"},
		{"slice 6 mm", 45, "slice 6x45 mm"},
		{"slice 6x30 mm", 45, "slice 6x30 mm"},
		{"slice 6 mm", 6, "whole 6 mm"},
		{"baton 10 mm", 8, "baton 10 mm"},
		{"box 30x20x10 mm", 31, "box 30x20x10 mm"},
		{"box 10x20x30 mm", 30, "whole 30 mm"},
		{"box 10x30x20 mm", 30, "whole 30 mm"},
	} {
		c, err := ParseCut(row.cut)
		require.NoError(t, err)
		assert.Equal(t, row.want, Piece(c, row.tuber).String(), "%s of %g mm", row.cut, row.tuber)
	}
}

// A cut has room in its tuber, or it is refused; a box's length may lie along
// it.
func TestCutsHaveRoom(t *testing.T) {
	for _, row := range []struct {
		cut   string
		tuber float64
		room  bool
	}{
		{"cube 45 mm", 45, true}, {"cube 45.5 mm", 45, false},
		{"halves 60 mm", 45, true}, {"whole", 45, true},
		{"box 90x20x10 mm", 20, true}, {"box 10x90x20 mm", 20, true}, {"box 20x10x90 mm", 20, true},
		{"box 90x21x10 mm", 20, false}, {"box 21x10x90 mm", 20, false}, {"box 10x90x21 mm", 20, false},
		{"slice 12 mm", 12, true}, {"slice 12 mm", 11, false},
	} {
		err := must(ParseCut(row.cut)).CheckTuber(row.tuber)
		assert.Equal(t, row.room, err == nil, "%s of %g mm: %v", row.cut, row.tuber, err)
	}
	for tuber, fine := range map[float64]bool{2: true, 200: true, 1.9: false, 200.1: false} {
		assert.Equal(t, fine, Cut{Shape: Whole}.CheckTuber(tuber) == nil, "%g mm", tuber)
	}
}

func must(c Cut, err error) Cut {
	if err != nil {
		panic(err)
	}
	return c
}

// Without sizes, or with a size in the cut, a lot is one piece.
func TestSteamLotOfOneSize(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for _, row := range []struct {
		cut   string
		sizes Sizes
	}{{"cube 25 mm", Sizes{}}, {"halves 45 mm", Sizes{}}, {"halves 45 mm", Sizes{20, 60}}} {
		lot, err := SteamLot(waxy, cut(t, row.cut), row.sizes, Tender, Conditions{})
		require.NoError(t, err)
		alone, err := Steam(waxy, cut(t, row.cut), Tender, Conditions{})
		require.NoError(t, err)
		assert.Equal(t, alone, lot)
	}
	mixed, err := SteamLot(waxy, cut(t, "cube 25 mm"), Sizes{18, 40}, Tender, Conditions{})
	require.NoError(t, err)
	small, err := Steam(waxy, cut(t, "whole 18 mm"), Tender, Conditions{})
	require.NoError(t, err)
	large, err := Steam(waxy, cut(t, "cube 25 mm"), Tender, Conditions{})
	require.NoError(t, err)
	assert.Equal(t, []float64{large.Minutes, small.Low, large.High}, []float64{mixed.Minutes, mixed.Low, mixed.High})
	assert.Contains(t, mixed.Notes, "tubers no larger than the cube 25 mm stay whole")
	cubes, err := SteamLot(waxy, cut(t, "cube 25 mm"), Sizes{30, 40}, Tender, Conditions{})
	require.NoError(t, err)
	assert.Empty(t, cubes.Notes)
	for _, bad := range []Sizes{{1.9, 40}, {20, 200.5}, {40, 20}} {
		_, err := SteamLot(waxy, cut(t, "cube 25 mm"), bad, Tender, Conditions{})
		assert.ErrorContains(t, err, "lot", "%v", bad)
	}
	_, err = SteamLot(waxy, Cut{Shape: Whole}, Sizes{20, 200}, Soft, Conditions{})
	assert.ErrorIs(t, err, ErrNotDone)
}
