package heat

import (
	"encoding/csv"
	"flag"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// elementsFile holds what finite elements say of each real shape: when its slowest
// point has had the cook value of each doneness, and how hot it is then.
const elementsFile = "../../testdata/steaming/elements.csv"

var updateElements = flag.Bool("update-elements", false, "solve all shapes by finite elements and write the table anew")

// elementsSteamC and elementsStartC are what all shapes are warmed by and from, and
// elementsCrop is what they are made of: changing the targets of the crops changes
// nothing in the table.
const elementsSteamC, elementsStartC = 100.0, 15.0

var elementsCrop = Crop{Z: 33, Targets: [3]float64{2, 5, 9}}

// solvedRow is a row of the table: a shape at a film and half size.
type solvedRow struct {
	shape    string
	film, mm float64
	referenceCook
}

func (r solvedRow) record() []string {
	row := []string{r.shape, fmt.Sprint(r.film), fmt.Sprint(r.mm)}
	for i := range 3 {
		row = append(row, fmt.Sprintf("%.1f", r.seconds[i]), fmt.Sprintf("%.2f", r.celsius[i]))
	}
	return row
}

// elementsCells lie along a shape's half side or radius.
const elementsCells = 12

// elementsTissue is what the shapes are made of.
func elementsTissue(t testing.TB) Properties {
	return crop(t, "potato", "waxy").Composition.At((elementsStartC + elementsSteamC) / 2)
}

// solve warms a shape by finite elements, at each of its films and sizes.
func (c shapeCheck) solve(t testing.TB, cells int) (rows []solvedRow) {
	p := elementsTissue(t)
	films := []float64{filmHeap, filmNominal, 1500}
	if c.anyCentre {
		films = []float64{filmNominal}
	}
	e := c.mesh(cells).assemble()
	for _, film := range films {
		for _, mm := range c.sizes {
			half := mm / 1e3
			rows = append(rows, solvedRow{c.name, film, mm, cookElements(e, film*half/p.Conductivity, half, p, elementsSteamC, elementsStartC, elementsCrop)})
		}
	}
	return rows
}

func readSolved(t testing.TB) map[string][]solvedRow {
	file, err := os.Open(elementsFile)
	require.NoError(t, err)
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	rows := map[string][]solvedRow{}
	for _, record := range records[1:] {
		var figures []float64
		for _, text := range record[1:] {
			x, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			figures = append(figures, x)
		}
		row := solvedRow{shape: record[0], film: figures[0], mm: figures[1]}
		for i := range 3 {
			row.seconds[i], row.celsius[i] = figures[2+2*i], figures[3+2*i]
		}
		rows[row.shape] = append(rows[row.shape], row)
	}
	return rows
}

// allowed is how far the equivalent body may be from the elements. At the weak
// film that the band's high end takes (Biot number about 5 for small pieces) the
// body is up to 5 % slow, which errs to the safe side.
func allowed(film float64) (time, celsius float64) {
	if film < filmNominal {
		return 0.05, 1
	}
	return 0.035, 0.5
}

// The independent check: the equivalent radial body against finite elements on
// the real shape, over sizes and Biot numbers. Time to each doneness within 3 %, a
// thick slice's within 3.5 %, the centre within 0.5 °C when done; of long tubers, such
// as salad kinds, the time.
func TestBodiesAgainstElements(t *testing.T) {
	solved := readSolved(t)
	p := elementsTissue(t)
	for _, check := range shapeChecks() {
		require.NotEmpty(t, solved[check.name], "%s: -update-elements solves it", check.name)
		for _, want := range solved[check.name] {
			half := want.mm / 1e3
			h := withoutEnd(check.body(half), p, want.film, elementsSteamC, elementsStartC)
			worst, warm := 0.0, 0.0
			for i, target := range elementsCrop.Targets {
				got := h.cooked(target, elementsCrop.Z)
				require.True(t, got.done)
				worst = max(worst, math.Abs(got.seconds/want.seconds[i]-1))
				warm = max(warm, math.Abs(h.at(want.seconds[i]).centre-want.celsius[i]))
			}
			near, nearC := allowed(want.film)
			if check.anyCentre {
				near, nearC = 0.03, 100
			}
			t.Logf("%s, %g mm, Bi %4.1f: time within %.1f %%, centre within %.2f °C", check.name, want.mm, want.film*half/p.Conductivity, worst*100, warm)
			assert.LessOrEqual(t, worst, near, "%s, %g mm, film %g", check.name, want.mm, want.film)
			assert.LessOrEqual(t, warm, nearC, "%s, %g mm, film %g", check.name, want.mm, want.film)
		}
	}
}

// The table is what the elements say, anew: of every other shape with
// TRENCHER_LONG=1, of a thick slice else. TRENCHER_LONG=full solves all, on a finer mesh
// too, from which the table is off by less than a hundredth.
func TestElementsTableIsSolved(t *testing.T) {
	if *updateElements {
		writeSolved(t)
	}
	solved := readSolved(t)
	for i, check := range shapeChecks() {
		thick := strings.HasPrefix(check.name, "slice 1 ")
		if !thick && !whole() && !(thorough() && i%2 == 0) {
			continue
		}
		requireSolved(t, solved[check.name], check.solve(t, elementsCells), 5e-4, 0.02)
		if whole() {
			requireSolved(t, solved[check.name], check.solve(t, 14), 0.01, 0.3)
		}
	}
}

func requireSolved(t *testing.T, want, got []solvedRow, near, nearC float64) {
	t.Helper()
	require.Len(t, got, len(want))
	for k := range want {
		for i := range 3 {
			assert.InEpsilon(t, want[k].seconds[i], got[k].seconds[i], near, "%s, %g mm, film %g", want[k].shape, want[k].mm, want[k].film)
			assert.InDelta(t, want[k].celsius[i], got[k].celsius[i], nearC, "%s, %g mm, film %g", want[k].shape, want[k].mm, want[k].film)
		}
	}
}

func writeSolved(t *testing.T) {
	table := [][]string{{"shape", "film_w_m2k", "half_mm", "just_tender_s", "just_tender_c", "tender_s", "tender_c", "soft_s", "soft_c"}}
	for _, check := range shapeChecks() {
		for _, row := range check.solve(t, elementsCells) {
			table = append(table, row.record())
		}
	}
	file, err := os.Create(elementsFile)
	require.NoError(t, err)
	require.NoError(t, csv.NewWriter(file).WriteAll(table))
	require.NoError(t, file.Close())
}
