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
		coarse := math.Abs(shellsPassing(float64(g), 10, 0.1, 10)/exact - 1)
		fine := math.Abs(shellsPassing(float64(g), 10, 0.1, 20)/exact - 1)
		t.Logf("%s: 10 shells %.3f %%, 20 shells %.3f %%: order %.2f", name, coarse*100, fine*100, math.Log2(coarse/fine))
		assert.InDelta(t, 2, math.Log2(coarse/fine), 0.4, name)
	}
}

func exactBody(g geometry, biot, theta float64) float64 {
	terms := g.series(biot, 20)
	return root(1e-3, 20, func(fo float64) float64 { return centreTheta(terms, fo) - theta })
}

func shellsPassing(exponent, biot, theta float64, n int) float64 {
	m := newMesh(Body{RadiusM: 1, Exponent: exponent, Film: 1}, Properties{1, 1, 1}, n)
	var store [maxShells]float64
	temperatures := store[:n]
	for i := range temperatures {
		temperatures[i] = 1
	}
	conductance := m.conductance(biot)
	seconds, before := 0.0, 1.0
	for {
		m.step(temperatures, -conductance*temperatures[n-1])
		seconds += m.dt
		now := centre(temperatures)
		if now <= theta {
			return seconds - m.dt*(theta-now)/(before-now)
		}
		before = now
	}
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
		m := newMesh(body, p, shells)
		var store [maxShells]float64
		temperatures := store[:m.n]
		for i := range temperatures {
			temperatures[i] = 98
		}
		const air, film = 20.0, 11.0
		conductance := m.conductance(film * body.AreaMore)
		given := 0.0 // J, through the real surface
		for range 4000 {
			flux := conductance * (air - temperatures[m.n-1])
			given -= flux / body.AreaMore * body.AreaM2 * m.dt
			m.step(temperatures, flux)
		}
		held := 0.0
		g := body.Exponent
		for i, celsius := range temperatures {
			share := math.Pow(float64(i+1)/shells, g+1) - math.Pow(float64(i)/shells, g+1)
			held += share * celsius
		}
		lost := p.Density * p.HeatCapacity * body.VolumeM3 * (98 - held)
		assert.Greater(t, given, 100.0)
		assert.InEpsilon(t, lost, given, 0.01, text)
	}
}

func TestRunsDoNotAllocate(t *testing.T) {
	s, err := newSituation(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), JustTender, Conditions{}.filled())
	require.NoError(t, err)
	assert.Zero(t, testing.AllocsPerRun(10, func() { s.run() }))
}

func BenchmarkOneRun(b *testing.B) {
	s, err := newSituation(crop(b, "potato", "waxy"), cut(b, "cube 25 mm"), JustTender, Conditions{}.filled())
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		s.run()
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
