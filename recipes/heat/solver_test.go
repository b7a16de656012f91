package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The shells against the exact series of slab, cylinder and sphere (Carslaw &
// Jaeger 1959), without come-up: within 0.2 % in time at the shells in use, and
// four times nearer for twice as many.
func TestShellsAgainstSeries(t *testing.T) {
	for g, name := range map[geometry]string{slab: "slab", cylinder: "cylinder", sphere: "sphere"} {
		for _, biot := range []float64{2, 10, 25, 1000} {
			for _, theta := range []float64{0.5, 0.1, 0.05} {
				exact := exactBody(g, biot, theta)
				got := shellsPassing(float64(g), biot, theta, shells)
				assert.InEpsilon(t, exact, got, 0.002, "%s, Bi %g, theta %g", name, biot, theta)
			}
		}
		exact := exactBody(g, 10, 0.1)
		coarse := math.Abs(shellsPassing(float64(g), 10, 0.1, 3)/exact - 1)
		fine := math.Abs(shellsPassing(float64(g), 10, 0.1, 6)/exact - 1)
		t.Logf("%s: 3 shells %.3f %%, 6 shells %.3f %%: order %.2f", name, coarse*100, fine*100, math.Log2(coarse/fine))
		assert.InDelta(t, 2, math.Log2(coarse/fine), 0.4, name)
	}
}

func exactBody(g geometry, biot, theta float64) float64 {
	terms := g.series(biot, 20)
	return root(1e-3, 20, func(fo float64) float64 { return centreTheta(terms, fo) - theta })
}

func shellsPassing(exponent, biot, theta float64, n int) float64 {
	return bathPassing(Body{RadiusM: 1, Exponent: exponent, Film: 1}, biot, Properties{1, 1, 1}, theta, n)
}

// Tabulated zeros and lags of the radial body of any exponent: slab, cylinder
// and sphere are textbook values (pi/2, 4/pi; 2.4048, 1.6020; pi, 2), those
// between computed from J_nu elsewhere.
func TestRadialBody(t *testing.T) {
	for _, row := range []struct{ exponent, zero, lag float64 }{
		{0, math.Pi / 2, 4 / math.Pi}, {1, 2.404826, 1.60197}, {2, math.Pi, 2},
		{0.4, 1.92285, 1.39733}, {1.6, 2.85410, 1.83153}, {2.4, 3.42189, 2.18201},
	} {
		zero, lag := radial(row.exponent)
		assert.InDelta(t, row.zero, zero, 1e-5)
		assert.InDelta(t, row.lag, lag, 1e-5)
	}
}

// What a cooling piece gives off through its surface is what its shells lose:
// the balance closes far within 1 %, and the heat is the real piece's.
func TestEnergyBalance(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for _, text := range []string{"cube 25 mm", "whole 40 mm", "halves 45 mm", "slice 10x50 mm", "baton 12 mm"} {
		body, err := BodyOf(waxy, cut(t, text))
		require.NoError(t, err)
		p := waxy.Composition.At(60)
		const air, film = 20.0, 11.0
		body.Film = body.AreaMore
		b := bath{aroundC: air}
		b.begin(body, p, shells, film, body.AreaM2/body.AreaMore, 98)
		b.start()
		given := 0.0 // J, through the real surface
		for range 100 {
			before := b.layer.t[shells-1]
			b.advance()
			mean := b.theta*b.layer.t[shells-1] + (1-b.theta)*before
			given += b.conductance * (mean - air) * b.areaM2 * b.dt
		}
		held := heatOf(b.layer.t[:shells], body.Exponent)
		lost := p.Density * p.HeatCapacity * body.VolumeM3 * (98 - held)
		assert.Greater(t, given, 100.0)
		assert.InEpsilon(t, lost, given, 0.001, text)
	}
}

// Steps need no memory of their own; a run has one piece of it.
func TestRunsHardlyAllocate(t *testing.T) {
	s, err := newSituation(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), JustTender, Conditions{}.filled())
	require.NoError(t, err)
	assert.LessOrEqual(t, testing.AllocsPerRun(10, func() { s.time() }), 1.0)
	f := s.run(shells)
	assert.Zero(t, testing.AllocsPerRun(20, f.advance))
}

func BenchmarkOneRun(b *testing.B) {
	s, err := newSituation(crop(b, "potato", "waxy"), cut(b, "cube 25 mm"), JustTender, Conditions{}.filled())
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		s.time()
	}
}

// The first edition's run, at its 24 shells: what OneRun is eight times as fast as.
func BenchmarkOneRunExplicit(b *testing.B) {
	s, err := newSituation(crop(b, "potato", "waxy"), cut(b, "cube 25 mm"), JustTender, Conditions{}.filled())
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		s.fine(24)
	}
}

func BenchmarkAnswerWithBand(b *testing.B) {
	waxy, cubes := crop(b, "potato", "waxy"), cut(b, "cube 25 mm")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Steam(waxy, cubes, JustTender, Conditions{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCuttingPlan(b *testing.B) {
	waxy := crop(b, "potato", "waxy")
	classes := []SizeClass{{LowMM: 20, HighMM: 45}, {LowMM: 45, HighMM: 65}}
	wish := Wish{Cut: cut(b, "cube 25 mm"), Until: JustTender}
	for b.Loop() {
		if _, err := PlanCuts(waxy, classes, wish, Conditions{}); err != nil {
			b.Fatal(err)
		}
	}
}

// A kitchen's ten knife tests weighed, each run through the model.
func BenchmarkLearnFrom(b *testing.B) {
	waxy := crop(b, "potato", "waxy")
	var tests []KnifeTest
	for i := range 10 {
		tests = append(tests, KnifeTest{Crop: "potato", Cut: Cut{Shape: Cube, SizeMM: 20 + float64(i)}, Until: Tender, Minutes: 10 + float64(i)})
	}
	for b.Loop() {
		if learned, _ := LearnFrom(tests, waxy, Conditions{}); learned.Tests != 10 {
			b.Fatal(learned.Tests)
		}
	}
}
