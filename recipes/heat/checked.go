package heat

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"trencher/units"
)

// mostChecked is how many printed rows an answer is held against.
const mostChecked = 3

// checkedRows are the printed rows that are nearest to a piece cooked in a way, the
// nearest in size first: of the same crop, and of its shape where there are any.
func checkedRows(crop Crop, cut Cut, ways ...Way) []Printed {
	mm := characteristicMM(cut)
	var rows []Printed
	figures := figuresFor(crop.Name)
	for _, p := range printedTimes {
		if slices.Contains(ways, p.Way) && p.Shape != 0 && !p.old && (p.Crop == crop.Name || figuresFor(p.Crop) == figures) {
			rows = append(rows, p)
		}
	}
	far := func(p Printed) float64 {
		miss := math.Abs(math.Log(mm / p.size(0.5)))
		if p.Shape != cut.Shape {
			miss += 10
		}
		return miss
	}
	slices.SortStableFunc(rows, func(a, b Printed) int { return cmp.Compare(far(a), far(b)) })
	if i := slices.IndexFunc(rows, func(p Printed) bool { return p.Shape != cut.Shape }); i > 0 {
		rows = rows[:i]
	}
	return rows
}

// whyChecked says which printed rows the model was held against for such a piece,
// and how far from each it is, by the style of its source.
func (e Estimate) whyChecked() []units.Reason {
	way := WaySteam
	if e.Method == Boiling {
		way = WayBoil
	}
	var list []units.Reason
	for _, p := range checkedRows(e.Crop, e.Cut, way) {
		minutes, err := p.reckon(e.Crop, p.size(0.5), p.Style)
		if err != nil {
			continue
		}
		off := minutes/math.Sqrt(p.Low*p.High) - 1
		list = append(list, units.Reason{Figure: "checked against",
			Value:      fmt.Sprintf("%s, %s, %s: printed %g-%g min; the model has %.0f, %s, for %s (%+.0f %%)", p.Crop, p.Piece, p.Way, p.Low, p.High, minutes, p.Style, p.Cut(math.Round(p.size(0.5))), off*100),
			Provenance: p.Provenance})
		if len(list) == mostChecked {
			break
		}
	}
	if len(list) == 0 {
		list = append(list, units.Why("checked against", "no printed row of "+e.Crop.Title()+" cooked so", "the printed tables this tool carries hold none", "read"))
	}
	return list
}
