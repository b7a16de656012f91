package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// bias is how far the fit's tender is from the printed middles of some rows, as a
// share: each row counting once, and each publication once.
func (f *fit) bias(t testing.TB, rows []*fittedRow) (byRow, byPublication float64) {
	sums, counts := map[string]float64{}, map[string]float64{}
	for _, r := range rows {
		c := crop(t, r.crop, "")
		if own, fitted := f.c[r.crop]; fitted {
			c.Z, c.Targets[Tender-1] = f.z[r.crop], own
		}
		minutes, err := r.reckon(c, r.size(0.5), Tender)
		assert.NoError(t, err, r.ID)
		minutes += f.offset[r.Way] - printedOffset[r.Way]
		miss := math.Log(minutes) - r.printed()
		byRow += miss / float64(len(rows))
		sums[r.Source] += miss
		counts[r.Source]++
	}
	for source := range sums {
		byPublication += sums[source] / counts[source] / float64(len(sums))
	}
	return math.Exp(byRow) - 1, math.Exp(byPublication) - 1
}

// No targets bring both measures of an unknown style within a tenth: the less the
// fit makes of what parts one source from another, the nearer tender comes to the
// rows, over half of which are of four publications that cook to soft, and the
// farther from the publications. Between the two there is always about a fifth.
func TestNoTargetsSuitRowsAndPublications(t *testing.T) {
	apart := []float64{0.11}
	if thorough() {
		apart = []float64{fitStyle, 0.15, 0.125, 0.12, 0.115, 0.11, 0.1, 0.07, 0.05, 0.001}
	}
	rows := fitRows(t)
	for _, sd := range apart {
		f := refitTo(t, rows, sd)
		byRow, byPublication := f.bias(t, rows)
		t.Logf("styles apart by %.3f: by rows %+.1f %%, by publication %+.1f %%", sd, byRow*100, byPublication*100)
		assert.False(t, math.Abs(byRow) <= 0.1 && math.Abs(byPublication) <= 0.1, "styles apart by %.3f suits both: give the unknown style such targets", sd)
	}
	if !thorough() {
		return
	}
	// One half of the rows fitted, the other held out: told, and nothing rests on it.
	var half, held []*fittedRow
	for i, r := range rows {
		if i%2 == 0 {
			half = append(half, r)
		} else {
			held = append(held, r)
		}
	}
	for _, sd := range apart {
		f := refitTo(t, half, sd)
		byRow, byPublication := f.bias(t, held)
		t.Logf("styles apart by %.3f, rows held out: by rows %+.1f %%, by publication %+.1f %%", sd, byRow*100, byPublication*100)
	}
}
