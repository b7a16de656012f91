package heat_test

import (
	"encoding/csv"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/heat"
)

// tried is a cut that is tested or asked about, as both sides know it.
type tried struct {
	cut   string
	until heat.Doneness
	piece piece
}

func cubeOf(mm float64) piece {
	half := mm / 2e3
	return piece{half: [3]float64{half, half, half}}
}

// tuberOf is 1.3 times as long as wide.
func tuberOf(mm float64) piece {
	half := mm / 2e3
	return piece{half: [3]float64{1.3 * half, half, half}, round: true}
}

// What the cooks test, and what they ask about afterwards: four of the six were never
// tested, and are smaller and larger than all that was.
var (
	tested = []tried{
		{"cube 20 mm", heat.JustTender, cubeOf(20)},
		{"cube 25 mm", heat.JustTender, cubeOf(25)},
		{"cube 25 mm", heat.Tender, cubeOf(25)},
		{"cube 30 mm", heat.JustTender, cubeOf(30)},
		{"whole 40 mm", heat.Tender, tuberOf(40)},
	}
	asked = []tried{
		{"cube 25 mm", heat.JustTender, cubeOf(25)},
		{"whole 40 mm", heat.Tender, tuberOf(40)},
		{"cube 15 mm", heat.JustTender, cubeOf(15)},
		{"cube 35 mm", heat.Tender, cubeOf(35)},
		{"whole 60 mm", heat.Tender, tuberOf(60)},
		{"whole 70 mm", heat.JustTender, tuberOf(70)},
	}
	testsMade = []int{0, 1, 3, 10}
)

const askedOfTested = 2 // of those asked about, the first

// The committed table counts so many kitchens of each family, of which the first few
// are tried again at every run.
const (
	kitchensCounted = 120
	kitchensAgain   = 2
)

// counted is how many readings the band of a family covered, after so many tests.
type counted struct {
	covered, of           int // all sizes
	newCovered, newOf     int // sizes never tested
	againCovered, againOf int // of the first kitchens
}

// kitchenSeed parts these kitchens from those that the band was designed on.
const kitchenSeed = 20313

// coverage counts a family's kitchens.
func coverage(t testing.TB, number int, f family, kitchens int) (out [4]counted) {
	crop, err := heat.LookupCrop("potato", "waxy")
	require.NoError(t, err)
	for k := range kitchens {
		r := rand.New(rand.NewPCG(uint64(kitchenSeed+number), uint64(k)))
		s := usual(crop.Z, crop.Targets)
		f.drawn(r, &s)
		var tests []heat.KnifeTest
		for range testsMade[len(testsMade)-1] {
			tests = append(tests, s.test(t, r, crop))
		}
		var learned [4]heat.Learned
		for i, n := range testsMade {
			var left []error
			learned[i], left = heat.LearnFrom(tests[:n], crop, heat.Conditions{})
			require.Empty(t, left)
		}
		for a, ask := range asked {
			o := drawOccasion(r)
			reading := s.cooked(r, ask.piece, int(ask.until)-1, o)
			for i := range testsMade {
				_, low, high := ask.estimate(t, crop, o, learned[i]).Clock()
				out[i].count(low <= reading && reading <= high, a >= askedOfTested, k < kitchensAgain)
			}
		}
	}
	return out
}

func (c *counted) count(covered, untested, again bool) {
	one := 0
	if covered {
		one = 1
	}
	c.of++
	c.covered += one
	if untested {
		c.newOf++
		c.newCovered += one
	}
	if again {
		c.againOf++
		c.againCovered += one
	}
}

func drawOccasion(r *rand.Rand) occasion {
	return occasion{startC: uniform(r, 6, 24), altitudeM: uniform(r, 0, 900), powerW: uniform(r, 600, 1600), grams: uniform(r, 300, 700)}
}

func (a tried) estimate(t testing.TB, crop heat.Crop, o occasion, learned heat.Learned) heat.Estimate {
	cut, err := heat.ParseCut(a.cut)
	require.NoError(t, err)
	e, err := heat.Steam(crop, cut, a.until, heat.Conditions{StartC: &o.startC, AltitudeM: o.altitudeM, NetPowerW: o.powerW, LoadGrams: o.grams, Learned: learned})
	require.NoError(t, err)
	return e
}

// test is one entry of the cook's journal, with what it was made under: one in four
// says only that it was not yet done, or over, at some moment.
func (s simulated) test(t testing.TB, r *rand.Rand, crop heat.Crop) heat.KnifeTest {
	a := tested[r.IntN(len(tested))]
	o := drawOccasion(r)
	told, _, _ := a.estimate(t, crop, o, heat.Learned{}).Clock()
	cut, err := heat.ParseCut(a.cut)
	require.NoError(t, err)
	k := heat.KnifeTest{Crop: "potato", Texture: "waxy", Cut: cut, Until: a.until, LoadG: o.grams,
		Made: heat.MadeUnder{StartC: &o.startC, AltitudeM: &o.altitudeM, NetPowerW: o.powerW, Tier: 1}}
	k.Minutes = s.cooked(r, a.piece, int(a.until)-1, o)
	if r.IntN(4) == 0 {
		looked := told * uniform(r, 0.7, 1.3)
		switch {
		case looked < 0.95*k.Minutes:
			k.Said = heat.NotYet
		case looked > 1.05*k.Minutes:
			k.Said = heat.Over
		}
		k.Minutes = looked
	}
	if r.Float64() < s.slips {
		k.Minutes *= math.Exp(uniform(r, -1, 1))
	}
	k.Minutes = max(0.5, k.Minutes)
	return k
}

const coverageFile = "../../testdata/steaming/coverage.csv"

var updateCoverage = flag.Bool("update-coverage", false, "count all simulated kitchens and write the table anew")

// The band after 0, 1, 3 and 10 knife tests holds the next reading nine times in ten,
// over kitchens of all families, sizes never tested among them. The table is made by
// `TRENCHER_LONG=1 go test ./recipes/heat -run Coverage -update-coverage`; every run
// tries the first kitchens of each family again, and TRENCHER_LONG=1 all of them.
func TestCoverageOfStrangeKitchens(t *testing.T) {
	all := os.Getenv("TRENCHER_LONG") != "" || *updateCoverage
	kitchens := kitchensAgain
	if all {
		kitchens = kitchensCounted
	}
	table := [][]string{{"family", "tests", "kitchens", "readings", "covered", "percent", "never_tested", "never_tested_covered", "never_tested_percent", "first_kitchens", "first_readings", "first_covered"}}
	for number, f := range families {
		found := coverage(t, number, f, kitchens)
		for i, c := range found {
			row := []string{f.name}
			for _, x := range []int{testsMade[i], kitchens, c.of, c.covered} {
				row = append(row, strconv.Itoa(x))
			}
			row = append(row, percentOf(c.covered, c.of), strconv.Itoa(c.newOf), strconv.Itoa(c.newCovered), percentOf(c.newCovered, c.newOf))
			for _, x := range []int{kitchensAgain, c.againOf, c.againCovered} {
				row = append(row, strconv.Itoa(x))
			}
			table = append(table, row)
		}
	}
	if *updateCoverage {
		file, err := os.Create(coverageFile)
		require.NoError(t, err)
		require.NoError(t, csv.NewWriter(file).WriteAll(table))
		require.NoError(t, file.Close())
	}
	file, err := os.Open(coverageFile)
	require.NoError(t, err)
	defer file.Close()
	committed, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Len(t, committed, len(table))
	if all {
		require.Equal(t, table, committed)
	}
	for i, row := range table {
		assert.Equal(t, row[9:], committed[i][9:], "%s after %s tests", row[0], row[1])
	}
	assert.GreaterOrEqual(t, len(families), 5)
	for i, n := range testsMade {
		for name, column := range map[string]int{"all": 3, "never tested": 6} {
			covered, of := 0.0, 0.0
			for f := range families {
				row := committed[1+f*len(testsMade)+i]
				covered, of = covered+number(t, row[column+1]), of+number(t, row[column])
			}
			t.Logf("after %d tests, %s sizes: %.1f %% of %.0f covered", n, name, 100*covered/of, of)
			if name == "all" {
				assert.InDelta(t, 0.90, covered/of, 0.02, "after %d tests", n)
			}
		}
	}
}

func percentOf(some, of int) string { return fmt.Sprintf("%.1f", 100*float64(some)/float64(of)) }

func number(t testing.TB, text string) float64 {
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return x
}
