package render

import (
	"fmt"
	"html/template"
	"io"

	"trencher/harvest"
)

// YieldPicture draws each planting's yield against the usual one as one SVG: the
// usual range is a band, the yield a mark, on one scale of times the middle of
// what is usual, with the grams beside it.
func YieldPicture(w io.Writer, t harvest.Tally) error {
	_, err := io.WriteString(w, yieldSVG(t))
	return err
}

// YieldDrawing is the picture for a page of its own.
func YieldDrawing(t harvest.Tally) template.HTML { return template.HTML(yieldSVG(t)) }

func yieldSVG(t harvest.Tally) string {
	most := 2.0
	for _, season := range t.Seasons {
		for _, y := range season.Rows {
			if a, ok := y.AgainstUsual(); ok {
				most = max(most, a.Times, a.High)
			}
		}
	}
	d := newScaleDrawing(most)
	for _, season := range t.Seasons {
		for _, row := range season.Rows {
			if a, ok := row.AgainstUsual(); ok {
				yieldRow(d, fmt.Sprintf("%d %s, %s", season.Year, row.Planting.ID, row.Planting.Crop), a)
			}
		}
	}
	return d.svg("Yields against the usual ones", "yield, times the middle of what is usual;", "the band is what is usual")
}

func yieldRow(d *scaleDrawing, name string, a harvest.AgainstUsual) {
	unit := map[string]string{harvest.PerLitre: "l", harvest.PerM2: "m2", harvest.PerPlant: "plant"}[a.Per]
	y := d.row(name, fmt.Sprintf("%.0f g a %s (usual %d to %d)", a.Grams, unit, a.UsualLow, a.UsualTop))
	fmt.Fprintf(&d.rows, `<rect x="%.1f" y="%d" width="%.1f" height="14" fill="#c9d8b5" stroke="#3f6b3a"/>`+"\n", d.at(a.Low), y-7, d.at(a.High)-d.at(a.Low))
	fmt.Fprintf(&d.rows, `<rect x="%.1f" y="%d" width="5" height="20" fill="#22261f"/>`+"\n", d.at(a.Times)-2.5, y-10)
}
