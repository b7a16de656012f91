package heat

import (
	"encoding/csv"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The spread, in logarithms, of one printed time about another of the same thing:
// where the source's style is known, and where it is not (computed from the rows).
const (
	spreadOfStyle   = 0.22
	spreadOfUnknown = 0.30
)

// judged is how the model stands to a printed row.
type judged struct {
	Printed
	small, large, middle float64 // the model's minutes, the printed offset in them
	met, within          bool    // by the sizes alone; with the band
}

func judge(t testing.TB, p Printed, until Doneness, spread float64) judged {
	at := func(mm float64) float64 {
		minutes, err := p.reckon(crop(t, p.Crop, ""), mm, until)
		require.NoError(t, err, p.ID)
		return minutes
	}
	j := judged{Printed: p, small: at(p.SmallMM), large: at(p.LargeMM), middle: at(p.size(0.5))}
	wide := math.Exp(nineInTen * spread)
	j.met = j.small <= p.High && j.large >= p.Low
	j.within = j.small/wide <= p.High && j.large*wide >= p.Low
	return j
}

// misfits are the rows that not even the band meets where all are asked to be
// tender, each with its reason.
func misfits(t testing.TB) map[string]string {
	f, err := os.Open("../../testdata/steaming/printed-misfits.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	out := map[string]string{}
	for _, r := range rows[1:] {
		require.NotEmpty(t, r[1], "%s: a misfit says why", r[0])
		out[r[0]] = r[1]
	}
	return out
}

// Published times against the model: at least 85 in a hundred rows that it can speak
// about are met with the band, the others are owned to, and it is neither long nor
// short by more than a tenth. The source's style once known, once not: then all
// are asked to be tender.
func TestPrintedTimes(t *testing.T) {
	known := misfits(t)
	for name, style := range map[string]bool{"style by source": true, "style unknown": false} {
		var rows, met, within int
		var sum, squares float64
		for _, p := range PrintedTimes() {
			if !p.modelled() {
				continue
			}
			until, spread := Tender, spreadOfUnknown
			if style {
				until, spread = p.Style, spreadOfStyle
			}
			j := judge(t, p, until, spread)
			rows++
			met += one(j.met)
			within += one(j.within)
			miss := math.Log(j.middle) - math.Log(p.Low*p.High)/2
			sum += miss
			squares += miss * miss
			if style {
				assert.True(t, j.within, "%s %s", p.ID, p.Piece)
			} else {
				assert.Equal(t, known[p.ID] == "", j.within, "%s %s, %s, %s: printed %g-%g, model %.0f to %.0f", p.ID, p.Crop, p.Piece, p.Way, p.Low, p.High, j.small, j.large)
			}
			if !j.within || !j.met && style {
				t.Logf("%s: %s %-14s %-24s %-5s printed %g-%g, model %.0f to %.0f; in the band: %t", name, p.ID, p.Crop, p.Piece, p.Way, p.Low, p.High, j.small, j.large, j.within)
			}
		}
		n := float64(rows)
		bias, sd := math.Exp(sum/n)-1, math.Sqrt(squares/n-sum*sum/(n*n))
		t.Logf("%s: of %d rows %d met by the sizes alone, %d with the band; bias %+.1f %%, sd of ln %.2f", name, rows, met, within, bias*100, sd)
		assert.GreaterOrEqual(t, float64(within)/n, 0.85, name)
		if style { // against one doneness most rows, of the middle of the last century, are softer
			assert.InDelta(t, 0, bias, 0.10, name)
		}
	}
}

// Over half of the rows are of four publications that cook to soft, so that a row taken
// blindly is longer than tender by more than a tenth (TestPrintedTimes says by how much),
// and no targets could have both that and the styles by source within a tenth. A
// publication taken blindly is not: each counts once, asked for tender.
func TestPublicationsOfUnknownStyle(t *testing.T) {
	misses, rows := map[string]float64{}, map[string]float64{}
	soft := 0.0
	for _, p := range PrintedTimes() {
		if !p.modelled() {
			continue
		}
		misses[p.Source] += math.Log(judge(t, p, Tender, spreadOfUnknown).middle) - math.Log(p.Low*p.High)/2
		rows[p.Source]++
		if p.Style == Soft {
			soft++
		}
	}
	assert.Greater(t, soft, 68/2.0)
	sum := 0.0
	for source, miss := range misses {
		sum += miss / rows[source]
	}
	bias := math.Exp(sum/float64(len(misses))) - 1
	t.Logf("style unknown, each of %d publications once: bias %+.1f %%; %.0f of the rows are soft", len(misses), bias*100, soft)
	assert.InDelta(t, 0, bias, 0.10)
}

// The answers' own band, without any test of this kitchen and asked for tender:
// nine rows in ten are met, whatever their style.
func TestAnswersMeetPrintedTimes(t *testing.T) {
	rows, met := 0, 0
	for _, p := range PrintedTimes() {
		if !p.modelled() {
			continue
		}
		answer := func(mm float64) Estimate {
			c := crop(t, p.Crop, "")
			e, err := Steam(c, p.Cut(mm), Tender, Conditions{})
			if p.Way == WayBoil {
				e, err = Boil(c, p.Cut(mm), Tender, Water{}, Conditions{})
			}
			require.NoError(t, err, p.ID)
			if p.From == FromPutIn {
				e.Low, e.High = e.FromLoadingLow, e.FromLoadingHigh
			}
			return e
		}
		rows++
		met += one(answer(p.SmallMM).Low+printedOffset[p.Way] <= p.High && answer(p.LargeMM).High+printedOffset[p.Way] >= p.Low)
	}
	t.Logf("of %d rows %d met by the band of an answer for tender", rows, met)
	assert.GreaterOrEqual(t, float64(met), 0.9*float64(rows))
}

func one(yes bool) int {
	if yes {
		return 1
	}
	return 0
}
