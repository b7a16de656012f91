package render

import (
	"strings"
	"unicode"
)

// What a side of the reckoner holds, in points, reckoned with letters as wide as
// those of the widest type there is, so that no printer needs a third side.
const (
	sideHeight = 784.0 // of A4 less its margins, 9 mm above and below, and some to spare
	sideWidth  = 530.0
	letter     = 11.0
	lineHigh   = 12.7
	cellHigh   = 12.1
	rowBesides = 1.4 // padding and rule of a table's row
	headHigh   = 21.7
	gapHigh    = 3.0
)

// place puts the dishes on the two sides, the first full before the second, with
// what the second has of its own; it tells whether they fit.
func (view *reckonerView) place() bool {
	all := append(view.Sides[0], view.Sides[1]...)
	view.Sides = [2][]reckonedDishView{}
	first, second := view.topHeight(), view.restHeight()
	for _, dish := range all {
		switch high := dish.height(); {
		case len(view.Sides[1]) == 0 && first+high <= sideHeight:
			view.Sides[0] = append(view.Sides[0], dish)
			first += high
		case second+high <= sideHeight:
			view.Sides[1] = append(view.Sides[1], dish)
			second += high
		default:
			return false
		}
	}
	return second <= sideHeight
}

// wide is the width of a text in points. The shares of the letter's size are those
// of DejaVu Sans, rounded up (its tables of widths; known_by: memory).
func wide(text string) (points float64) {
	for _, r := range text {
		switch {
		case strings.ContainsRune(" iljI.,;:'()!|", r):
			points += 0.4 * letter
		case strings.ContainsRune("tfr-–", r):
			points += 0.45 * letter
		case strings.ContainsRune("mwMW½¼¾⅓⅔⅛⅜⅝⅞≈×+%", r):
			points += 1.0 * letter
		case unicode.IsUpper(r):
			points += 0.75 * letter
		default:
			points += 0.64 * letter
		}
	}
	return points
}

// linesIn is how many lines a text takes in a width of points, broken between words.
func linesIn(text string, width float64) float64 {
	lines, at := 1.0, 0.0
	for _, word := range strings.Fields(text) {
		long := wide(word)
		if at > 0 && at+wide(" ")+long > width {
			lines, at = lines+1, 0
		}
		if at > 0 {
			at += wide(" ")
		}
		for at += long; at > width; at -= width { // a word too long for any line is broken
			lines++
		}
	}
	return lines
}

func paragraph(text string) float64 { return linesIn(text, sideWidth)*lineHigh + gapHigh }

// rowHigh is the height of a table's row, whose first column has a share of the
// width and the others the rest alike.
func rowHigh(first float64, head string, cells []string) float64 {
	const padding = 6.0
	lines := linesIn(head, sideWidth*first-padding)
	for _, cell := range cells {
		lines = max(lines, linesIn(cell, sideWidth*(1-first)/float64(len(cells))-padding))
	}
	return lines*cellHigh + rowBesides
}

func (view *reckonerView) topHeight() float64 {
	high := headHigh + paragraph(view.Made)
	if view.OmittedSays != "" {
		high += paragraph(view.OmittedSays) + 2*gapHigh
	}
	return high
}

func (d reckonedDishView) height() float64 {
	const first = 0.30
	high := headHigh + (linesIn(d.Name+" "+d.Served, sideWidth*11/14)-1)*lineHigh*14/11
	high += rowHigh(first, "Portions", d.Portions)
	for _, row := range d.Rows {
		high += rowHigh(first, row.What, row.Cells)
	}
	if d.Foot != "" {
		high += paragraph(d.Foot) - gapHigh/2
	}
	for _, danger := range d.Dangers {
		high += paragraph(danger) + 3*gapHigh
	}
	return high
}

// restHeight is the height of what the second side has of its own.
func (view *reckonerView) restHeight() float64 {
	const wide, narrow = 0.34, 0.30
	high := 0.0
	if len(view.Times)+len(view.Own) > 0 {
		high += headHigh + 2*lineHigh + gapHigh
	}
	for _, times := range view.Times {
		high += rowHigh(narrow, "Pieces of so many mm", times.Sizes)
		for _, row := range times.Rows {
			high += max(2, linesIn(row.What, sideWidth*narrow-6))*cellHigh + rowBesides
		}
	}
	for _, own := range view.Own {
		high += paragraph(own)
	}
	if len(view.Loads) > 0 {
		high += headHigh + 3*lineHigh + gapHigh + rowBesides
	}
	for _, load := range view.Loads {
		lines := linesIn(load.What, sideWidth*wide-6)
		for _, cell := range load.Cells {
			lines = max(lines, 1+linesIn(cell.Takes, sideWidth*(1-wide)/3-6))
		}
		high += lines*cellHigh + rowBesides
	}
	if len(view.Stands) > 0 {
		high += headHigh + rowHigh(wide, "Dish", view.StandHeads) + paragraph(view.Heated)
	}
	for _, stands := range view.Stands {
		high += rowHigh(wide, stands.Dish, stands.Cells)
	}
	high += headHigh + paragraph(view.Kitchen)
	for _, care := range view.Care {
		high += linesIn(care, sideWidth-12)*lineHigh + 1
	}
	return high
}
