package render

import (
	"fmt"
	"io"
	"time"

	"trencher/harvest"
)

// ReweighText tells what is left of a lot, what dried away and what was thrown
// out.
func ReweighText(w io.Writer, a harvest.LoggedReweighed) error {
	var p page
	text := fmt.Sprintf("%s of %s", grams(a.Of.Weight), a.Of.Name)
	switch {
	case a.Dried.Sign() < 0:
		text += fmt.Sprintf(": %s more than the journal had", grams(a.Dried.Neg()))
	case a.Dried.Sign() > 0:
		text += fmt.Sprintf(": %s dried away", grams(a.Dried))
		if a.Usual.Sign() > 0 {
			text += fmt.Sprintf(" (usual %s)", grams(a.Usual))
		}
	}
	if a.Rot.Sign() > 0 {
		text += ", " + grams(a.Rot) + " thrown out"
	}
	p.wrapped("", text)
	if months := a.Of.Expect(a.At); len(months) > 0 {
		p.wrapped("", expectWords(months))
	}
	p.line("written to " + a.File)
	return p.writeTo(w)
}

type reweighedJSON struct {
	Kind   string       `json:"kind"`
	Lot    string       `json:"lot"`
	At     string       `json:"at"`
	Weight string       `json:"weight"`
	Rotten string       `json:"rotten,omitempty"`
	Where  string       `json:"where,omitempty"`
	Air    string       `json:"air,omitempty"`
	HadG   string       `json:"had_g"`
	DriedG string       `json:"dried_g"`
	UsualG string       `json:"usually_dried_g"`
	Of     stockLotJSON `json:"now"`
	File   string       `json:"file"`
}

// ReweighJSON writes a second weighing as it was written.
func ReweighJSON(w io.Writer, a harvest.LoggedReweighed) error {
	r := a.Reweighed
	return writeJSON(w, reweighedJSON{r.Kind(), r.Lot, r.At.Format(time.RFC3339), r.Weight.String(), r.Rotten.String(), r.Where, r.Air.String(),
		a.Had.String(), a.Dried.String(), a.Usual.String(), stockLotOf(a.Of, a.At), a.File})
}
