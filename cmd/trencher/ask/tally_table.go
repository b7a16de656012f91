package ask

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"trencher/harvest"
)

// Part is one place grams went to.
type Part struct {
	Name  string
	Grams decimal.Decimal
}

// Parts lists where grams went, in the order a season takes.
func Parts(w harvest.Went) []Part {
	return []Part{{"kitchen", w.Kitchen}, {"stored", w.Stored}, {"given", w.Given}, {"composted", w.Compost}, {"on hand", w.OnHand}}
}

// Bar is g as a percentage of the whole, and the cells its bar takes of a
// given room: at least one for anything above nothing.
func Bar(g, whole decimal.Decimal, room int64) (percent decimal.Decimal, cells int) {
	if whole.Sign() <= 0 || g.Sign() <= 0 {
		return decimal.Zero, 0
	}
	percent = g.Mul(decimal.NewFromInt(100)).DivRound(whole, 1)
	n := g.Mul(decimal.NewFromInt(room)).DivRound(whole, 0).IntPart()
	return percent, int(min(room, max(1, n)))
}

// Seasons is the net weight by crop over several seasons.
type Seasons struct {
	Years []int
	Rows  []SeasonsRow
}

// SeasonsRow is one crop's net grams, season by season.
type SeasonsRow struct {
	Crop string
	Net  []decimal.Decimal
}

// SideBySide sums seasons by crop, crops in order of the alphabet.
func SideBySide(seasons []harvest.Season) Seasons {
	var table Seasons
	net := map[string][]decimal.Decimal{}
	for i, s := range seasons {
		table.Years = append(table.Years, s.Year)
		for _, y := range s.Rows {
			if net[y.Planting.Crop] == nil {
				net[y.Planting.Crop] = make([]decimal.Decimal, len(seasons))
			}
			net[y.Planting.Crop][i] = net[y.Planting.Crop][i].Add(y.Net)
		}
	}
	for crop, grams := range net {
		table.Rows = append(table.Rows, SeasonsRow{crop, grams})
	}
	slices.SortFunc(table.Rows, func(a, b SeasonsRow) int {
		if a.Crop < b.Crop {
			return -1
		}
		return 1
	})
	return table
}

// Picture is a bar chart of seasons, measured out.
type Picture struct {
	Legend []string
	Rows   []PictureRow
}

// PictureRow is one planting's bar.
type PictureRow struct {
	Name  string
	Net   decimal.Decimal
	Parts []PicturePart
}

// PicturePart is one piece of a bar.
type PicturePart struct {
	Part
	Length int
}

// PictureOf measures bars so that the heaviest planting fills the room.
func PictureOf(seasons []harvest.Season, room int64) Picture {
	var picture Picture
	for _, part := range Parts(harvest.Went{}) {
		picture.Legend = append(picture.Legend, part.Name)
	}
	heaviest := decimal.NewFromInt(1)
	for _, s := range seasons {
		for _, y := range s.Rows {
			heaviest = decimal.Max(heaviest, y.Net)
		}
	}
	for _, s := range seasons {
		for _, y := range s.Rows {
			row := PictureRow{Name: fmt.Sprintf("%d  %s  %s", s.Year, y.Planting.ID, y.Planting.Crop), Net: y.Net}
			for _, part := range Parts(y.Went) {
				_, cells := Bar(part.Grams, heaviest, room)
				row.Parts = append(row.Parts, PicturePart{part, cells})
			}
			picture.Rows = append(picture.Rows, row)
		}
	}
	return picture
}
