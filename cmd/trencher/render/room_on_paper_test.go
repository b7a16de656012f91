package render

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Widths in points of type of 11 points: shares of a letter of DejaVu Sans, rounded up
// (its tables of widths; known_by: memory).
func TestWidthsOfText(t *testing.T) {
	for text, points := range map[string]float64{"": 0, "il": 2 * 0.4 * 11, "(,!": 3 * 0.4 * 11, "tf–": 3 * 0.45 * 11, "mW½": 3 * 11, "AB": 2 * 0.75 * 11, "ab3": 3 * 0.64 * 11, "É": 0.75 * 11} {
		assert.InDelta(t, points, wide(text), 1e-9, text)
	}
	ab := wide("ab") // 14.08, and a space is 4.4
	for _, c := range []struct {
		text  string
		width float64
		lines float64
	}{
		{"", 100, 1}, {"ab", 100, 1}, {"ab", ab, 1}, {"ab ab", 2*ab + 4.4, 1}, {"ab ab", 2*ab + 4.3, 2}, {"ab ab ab", 2*ab + 5, 2}, {"ab ab ab", ab, 3},
		{"abab", ab, 2}, {"ababa", ab, 3}, {"ab ababab ab", 2*ab + 4.4, 3},
	} {
		assert.Equal(t, c.lines, linesIn(c.text, c.width), c)
	}
}

// What a dish takes, and what the sides have of their own, line by line: a line 12.7
// points, a table's 12.1 and 1.4 beside it, a head 21.7, a gap 3.
func TestHeightsOnPaper(t *testing.T) {
	const line, row, head, gap = 12.7, 12.1 + 1.4, 21.7, 3.0
	assert.InDelta(t, line+gap, paragraph("a"), 1e-9)
	long := strings.Repeat("abcdefgh ", 20)
	assert.InDelta(t, linesIn(long, 530)*line+gap, paragraph(long), 1e-9)
	assert.InDelta(t, row, rowHigh(0.3, "a", []string{"b", "c"}), 1e-9)
	assert.InDelta(t, row+12.1, rowHigh(0.3, strings.Repeat("abcdefgh ", 3), []string{"b"}), 1e-9, "159 less 6 points of padding hold two such words")
	assert.InDelta(t, row+12.1, rowHigh(0.5, "a", []string{strings.Repeat("abcdefgh ", 2), "b", "c"}), 1e-9, "88 less 6 hold one")

	view := reckonerView{Made: "a"}
	assert.InDelta(t, head+line+gap, view.topHeight(), 1e-9)
	view.OmittedSays = "b"
	assert.InDelta(t, head+2*(line+gap)+2*gap, view.topHeight(), 1e-9)

	dish := reckonedDishView{Name: "Mash", Served: "hot", Portions: []string{"2", "4"}}
	assert.InDelta(t, head+row, dish.height(), 1e-9)
	dish.Rows = []reckonedRow{{What: "a", Cells: []string{"1", "2"}}, {What: "b", Cells: []string{"1", "2"}}}
	assert.InDelta(t, head+3*row, dish.height(), 1e-9)
	dish.Foot = "said"
	assert.InDelta(t, head+3*row+line+gap/2, dish.height(), 1e-9)
	dish.Dangers = []string{"mind"}
	assert.InDelta(t, head+3*row+line+gap/2+line+4*gap, dish.height(), 1e-9)
	dish.Name = strings.Repeat("abcdefgh ", 8)
	assert.InDelta(t, head+line*14/11+3*row+line+gap/2+line+4*gap, dish.height(), 1e-9, "a name of two lines of its larger type")

	view = reckonerView{Kitchen: "k"}
	rest := head + line + gap
	assert.InDelta(t, rest, view.restHeight(), 1e-9)
	view.Care = []string{"a", "b"}
	rest += 2 * (line + 1)
	assert.InDelta(t, rest, view.restHeight(), 1e-9)
	view.Own = []string{"own"}
	rest += head + 2*line + gap + line + gap
	assert.InDelta(t, rest, view.restHeight(), 1e-9)
	view.Times = []timesView{{Sizes: []string{"20", "25"}, Rows: []timesRow{{What: "a"}, {What: strings.Repeat("abcdefgh ", 6)}}}}
	rest += row + (2*12.1 + 1.4) + (3*12.1 + 1.4)
	assert.InDelta(t, rest, view.restHeight(), 1e-9, "two lines at least, and three where two words fit on one")
	view.Loads = []loadsView{{What: "a", Cells: []loadCell{{Takes: "b"}}}, {What: strings.Repeat("abcdefgh ", 7), Cells: []loadCell{{Takes: "b"}}}}
	rest += head + 3*line + gap + 1.4 + (2*12.1 + 1.4) + (3*12.1 + 1.4)
	assert.InDelta(t, rest, view.restHeight(), 1e-9)
	view.Stands, view.StandHeads, view.Heated = []standsView{{Dish: "a", Cells: []string{"b"}}}, []string{"c"}, "d"
	rest += head + row + line + gap + row
	assert.InDelta(t, rest, view.restHeight(), 1e-9)
}

// The first side is filled before the second; what fits on neither does not fit.
func TestDishesArePutOnTwoSides(t *testing.T) {
	of := func(rows int) reckonedDishView {
		return reckonedDishView{Name: fmt.Sprint(rows), Portions: []string{"4"}, Rows: make([]reckonedRow, rows)}
	}
	for _, c := range []struct {
		rows          []int
		first, second string
		fits          bool
	}{
		{[]int{10, 10}, "10 10", "", true},     // 784 points less 37.4 hold some 50 rows with their heads
		{[]int{30, 30}, "30", "30", true},      //
		{[]int{30, 30, 5}, "30", "30 5", true}, // behind the second, though the first had room
		{[]int{30, 30, 30}, "30", "30", false},
		{[]int{60}, "", "", false},
		{[]int{52}, "52", "", true}, // 21.7 + 53 rows of 13.5 are 737.2 of 746.6
		{[]int{53}, "", "", false},
		{nil, "", "", true},
	} {
		view := reckonerView{Made: "a", Kitchen: "k"}
		for _, rows := range c.rows {
			view.Sides[1] = append(view.Sides[1], of(rows))
		}
		fits := view.place()
		var sides [2][]string
		for i := range sides {
			for _, dish := range view.Sides[i] {
				sides[i] = append(sides[i], dish.Name)
			}
		}
		assert.Equal(t, []string{c.first, c.second}, []string{strings.Join(sides[0], " "), strings.Join(sides[1], " ")}, c.rows)
		assert.Equal(t, c.fits, fits, c.rows)
	}
	full := reckonerView{Kitchen: "k", Care: make([]string, 60)}
	assert.False(t, full.place(), "what the second side has of its own does not fit")
}

// Cuts lie within half a width, evenly about the middle, or run through it; a marked
// piece reaches from cut to cut and never beyond the outline.
func TestWhereCutsLie(t *testing.T) {
	assert.Nil(t, spacing{}.positions(30))
	assert.Equal(t, []float64{0}, spacing{middle: true}.positions(30))
	assert.Equal(t, []float64{-10, 10}, spacing{every: 20}.positions(30))
	assert.Equal(t, []float64{-10, 10, -30, 30}, spacing{every: 20}.positions(30.1))
	assert.Nil(t, spacing{every: 60}.positions(30), "one piece")
	assert.Nil(t, spacing{every: 1}.positions(30), "too fine to be drawn")
	bounds := func(s spacing, half float64) [2]float64 { low, high := s.bounds(half); return [2]float64{low, high} }
	assert.Equal(t, [2]float64{-30, 30}, bounds(spacing{}, 30))
	assert.Equal(t, [2]float64{-30, 0}, bounds(spacing{middle: true}, 30))
	assert.Equal(t, [2]float64{-10, 10}, bounds(spacing{every: 20}, 30))
	assert.Equal(t, [2]float64{-30, 30}, bounds(spacing{every: 80}, 30))
	assert.Equal(t, [2]float64{-30, 30}, bounds(spacing{every: 1}, 30))

	e := ellipse{x: 50, y: 40, a: 30, b: 20}
	assert.Equal(t, "M20.0 40.0a30.0 20.0 0 1 0 60.0 0a30.0 20.0 0 1 0 -60.0 0z", e.outline())
	assert.Equal(t, "M50.0 20.0V60.0M20.0 40.0H80.0", e.lines(spacing{middle: true}, spacing{middle: true}))
	assert.Equal(t, "M32.0 24.0V56.0M68.0 24.0V56.0", e.lines(spacing{every: 36}, spacing{}), "at 18 of 30 the outline is four fifths as high")
	for _, c := range []struct {
		x, y float64
		want string
	}{{0, -50, "L50.0 20.0"}, {0, 50, "L50.0 60.0"}, {0, 5, "L50.0 45.0"}, {30, 50, "L80.0 40.0"}, {31, 50, "L81.0 40.0"}, {18, -50, "L68.0 24.0"}} {
		var path strings.Builder
		e.edgePoint(&path, c.x, c.y)
		assert.Equal(t, c.want, path.String())
	}
	piece := e.piece(spacing{middle: true}, spacing{middle: true})
	assert.True(t, strings.HasPrefix(piece, "M20.0 40.0L"), piece)
	assert.True(t, strings.HasSuffix(piece, "z"))
	assert.Equal(t, 33, strings.Count(piece, "L"), "34 points")
	assert.Equal(t, "M10.0 10.0h25.0v25.0h-25.0z", rectangle(10, 10, 25, 25))
}
