package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// volumes are the shares of a body's volume that its shells hold, for shells
// as thick as one another.
func volumes(exponent float64, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = math.Pow(float64(i+1)/float64(n), exponent+1) - math.Pow(float64(i)/float64(n), exponent+1)
	}
	return list
}

// heatOf is the mean temperature of a body's shells.
func heatOf(t []float64, exponent float64) float64 {
	sum := 0.0
	for i, volume := range volumes(exponent, len(t)) {
		sum += volume * t[i]
	}
	return sum
}

// A step's new temperatures satisfy the equation they were solved from: what each
// shell gains is what comes through its faces, old and new weighed by theta.
func TestStepsSolveTheirEquations(t *testing.T) {
	for _, theta := range []float64{0.5, 1} {
		for _, exponent := range []float64{0, 0.7, 1, 2, 2.4} {
			var w warming
			w.n = 8
			w.cut(Body{RadiusM: 0.02, Exponent: exponent}, Properties{0.6, 1060, 3700})
			w.begin(500, 0)
			old := []float64{15, 16, 19, 30, 42, 61, 77, 90}
			copy(w.t[:], old)
			const dt, flux = 7.0, 3000.0
			w.pace(dt, theta)
			w.reckon()
			w.take(flux)
			dr, alpha := 0.02/8, 0.6/(1060*3700)
			for i := range old {
				volume := (math.Pow(float64(i+1)*dr, exponent+1) - math.Pow(float64(i)*dr, exponent+1)) / (exponent + 1)
				through := func(face int, t []float64) float64 {
					area := math.Pow(float64(face)*dr, exponent)
					switch face {
					case 0:
						return 0
					case 8:
						return area * flux / 0.6
					}
					return area * (t[face] - t[face-1]) / dr
				}
				net := func(t []float64) float64 { return alpha / volume * (through(i+1, t) - through(i, t)) }
				assert.InDelta(t, dt*(theta*net(w.t[:8])+(1-theta)*net(old)), w.t[i]-old[i], 1e-9, "shell %d, exponent %g", i, exponent)
			}
			assert.InEpsilon(t, flux*dt*(exponent+1)/0.02/(1060*3700), heatOf(w.t[:8], exponent)-heatOf(old, exponent), 1e-9, "no heat is lost")
		}
	}
	var even warming
	even.n = 8
	even.cut(Body{RadiusM: 0.02, Exponent: 1.3}, Properties{0.6, 1060, 3700})
	even.begin(500, 50)
	even.pace(7, 0.5)
	even.reckon()
	even.take(0)
	for i := range 8 {
		assert.InDelta(t, 50, even.t[i], 1e-12, "an even temperature stays")
	}
}

// What the surface wants through a step is what its film carries at the mean of
// the step's ends, from surroundings that may themselves cool by it.
func TestSurfaceTakesWhatItsFilmCarries(t *testing.T) {
	for _, yield := range []float64{0, 0.002} {
		var w warming
		w.n = 8
		w.cut(Body{RadiusM: 0.02, Exponent: 2}, Properties{0.6, 1060, 3700})
		w.begin(500, 15)
		assert.InEpsilon(t, 1/(1/500.0+0.0025/2/0.6), w.conductance, 1e-12, "the film, and half a shell behind it")
		w.pace(5, 0.5)
		before := w.t[7]
		w.reckon()
		flux := w.wants(100, yield)
		w.take(flux)
		assert.InEpsilon(t, w.conductance*(100-yield*flux-(before+w.t[7])/2), flux, 1e-9)
	}
	var parabola warming
	parabola.n, parabola.t[0], parabola.t[1] = 2, 3+0.25, 3+2.25
	assert.Equal(t, 3.0, parabola.centre(), "of 3 + r², at half a shell and at one and a half")
}

// The scheme in use against explicit steps through eighty shells, from loading:
// within three thousandths, for every shape and size, a strong stove and a weak.
func TestSchemeAgainstExplicitSteps(t *testing.T) {
	cuts, loads, powers := []string{"cube 25 mm", "whole 60 mm", "slice 13 mm"}, []float64{500}, []float64{300, 700}
	if thorough() {
		cuts = []string{"whole 9 mm", "cube 10 mm", "cube 15 mm", "cube 25 mm", "whole 40 mm", "whole 60 mm", "whole 90 mm", "slice 8 mm", "slice 13 mm", "baton 12 mm", "quarters 60 mm"}
		loads, powers = []float64{200, 500, 1500}, []float64{300, 700, 2500}
	}
	worst := 0.0
	for _, text := range cuts {
		for _, load := range loads {
			for _, power := range powers {
				for until := JustTender; until <= Soft; until++ {
					s, err := newSituation(crop(t, "potato", "waxy"), cut(t, text), until, Conditions{LoadGrams: load, NetPowerW: power}.filled())
					require.NoError(t, err)
					s.layers, s.film = 1, filmNominal
					want, got := s.fine(80), s.time()
					require.True(t, got.done && want.done)
					assert.InEpsilon(t, want.doneS, got.seconds, 0.003, "%s, %g g, %g W, %s", text, load, power, until)
					if got.freeFirst() {
						assert.InDelta(t, want.fullS, got.freeS, max(2, 0.01*want.doneS), "%s, %g g, %g W: full steam", text, load, power)
					}
					worst = max(worst, math.Abs(got.seconds/want.doneS-1))
				}
			}
		}
	}
	t.Logf("worst %.2f %%", worst*100)
}

// exactMinutes is how long a sphere takes in steam without end, by the exact
// series of its centre (Carslaw & Jaeger 1959): no shells, no body that stands
// for it.
func exactMinutes(radiusM, film, steamC, startC, target, z float64, p Properties) float64 {
	terms := sphere.series(film*radiusM/p.Conductivity, 40)
	rate := func(seconds float64) float64 {
		theta := centreTheta(terms, p.Diffusivity()*seconds/(radiusM*radiusM))
		return math.Pow(10, (steamC-theta*(steamC-startC)-100)/z)
	}
	const step = 0.5
	cook, seconds := 0.0, 0.0
	for cook < target {
		cook += (rate(seconds) + rate(seconds+step)) / 2 * step / 60
		seconds += step
	}
	return seconds / 60
}

// A round beetroot alone in endless steam, by a second route for the whole of
// the model: film, start, steam, z and target. The figures are typed again here.
func TestRoundPieceBySeries(t *testing.T) {
	beetroot := crop(t, "beetroot", "")
	for _, row := range []struct {
		mm, start float64
		until     Doneness
		target    float64
	}{{50, 15, Tender, 13}, {30, 5, JustTender, 5.7}, {70, 25, Soft, 23}} {
		e, err := Steam(beetroot, Cut{Shape: Whole, SizeMM: row.mm}, row.until, Conditions{StartC: new(row.start), LoadGrams: 1, NetPowerW: 10000})
		require.NoError(t, err)
		assert.Less(t, e.ComeUp, 0.01, "nothing holds up the steam")
		assert.True(t, e.FreeFirst)
		p := beetroot.Composition.At((row.start + e.SteamC) / 2)
		radius := row.mm / 2e3
		assert.InEpsilon(t, exactMinutes(radius, 500, e.SteamC, row.start, row.target, 25, p), e.Minutes, 0.003, "%g mm", row.mm)
		perMM := exactMinutes(radius*1.05, 500, e.SteamC, row.start, row.target, 25, p) - exactMinutes(radius*0.95, 500, e.SteamC, row.start, row.target, 25, p)
		assert.InEpsilon(t, perMM/(0.1*row.mm), e.PerMM, 0.02)
		assert.Equal(t, row.target, e.Target)
		assert.Equal(t, e.Modelled, e.Minutes)
		assert.Equal(t, e.ComeUp+e.Minutes, e.FromLoading)
		assert.InDelta(t, row.mm*0.839, e.EdgeMM, row.mm*0.002, "a sphere's half over a cube's 0.5961 of its edge (Carslaw & Jaeger 1959)")
	}
}

// A heap is layers in series, with films of 250: each takes what the one below
// leaves, and the last to be done counts.
func TestHeapIsLayersInSeries(t *testing.T) {
	beetroot := crop(t, "beetroot", "")
	whole := Cut{Shape: Whole, SizeMM: 40}
	c := Conditions{LoadGrams: 2000, NetPowerW: 700, Heaped: true}
	heap, err := Steam(beetroot, whole, Tender, c)
	require.NoError(t, err)
	body, err := BodyOf(beetroot, whole)
	require.NoError(t, err)
	s, err := newSituation(beetroot, whole, Tender, c.filled())
	require.NoError(t, err)
	layer := 0.75 * math.Pi / 4 * 0.24 * 0.24 / body.FootprintM2 * body.VolumeM3 * s.props.Density * 1e3
	assert.Equal(t, int(math.Ceil(2000/layer)), heap.LayersDeep)
	assert.Equal(t, 250.0, s.film)
	f := s.run(shells)
	var before float64
	for _, l := range f.only[0].layers {
		now := l.cooked(s.target, beetroot.Z).seconds
		assert.Greater(t, now, before, "each later than the one below")
		before = now
	}
	assert.InEpsilon(t, before/60, heap.FromLoading, 1e-9)
	c.Heaped = false
	even, err := Steam(beetroot, whole, Tender, c)
	require.NoError(t, err)
	assert.Greater(t, heap.FromLoading, even.FromLoading)
	assert.Equal(t, 1, even.LayersDeep)
}

// While the load would condense more than the stove makes, it takes exactly
// what the stove makes; steam flows freely once it takes no more than seven
// tenths of it.
func TestComeUpTakesWhatTheStoveMakes(t *testing.T) {
	s, err := newSituation(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), Tender, Conditions{LoadGrams: 1000, NetPowerW: 700})
	require.NoError(t, err)
	// All surface of the load together takes the net power, no more: 1000 g in
	// cubes of 25 mm have 6 / 0.025 m of surface for each of their volume.
	assert.InEpsilon(t, 700, s.areaW*(1/s.props.Density)*6/0.025, 1e-9)

	f := s.run(shells)
	require.False(t, f.free())
	for !f.free() {
		before := f.escapes
		f.advance()
		assert.GreaterOrEqual(t, f.escapes, before)
	}
	body := s.body
	gained := (heatOf(f.single.t[:shells], body.Exponent) - 15) * s.props.Density * s.props.HeatCapacity * body.RadiusM / (body.Exponent + 1)
	assert.InEpsilon(t, f.taken, gained/body.AreaMore, 1e-9)
	assert.InEpsilon(t, f.made, f.taken+f.escaped, 1e-9)
	assert.LessOrEqual(t, f.single.flux*f.single.areaM2, 0.7*f.powerW)
	assert.Less(t, f.freeS, f.seconds)
	assert.Greater(t, f.freeS, f.seconds-f.single.dt, "within the last step")
	assert.Equal(t, f.freeS, s.time().freeS)

	endless := s
	endless.areaW = math.Inf(1)
	assert.Zero(t, endless.time().freeS)
	enough := s
	enough.areaW = f.single.conductance * (s.steam - s.start) / s.body.AreaMore / 0.7 * (1 + 1e-12)
	assert.Zero(t, enough.time().freeS, "just enough from the start")
	enough.areaW *= 0.999
	assert.Positive(t, enough.time().freeS)
}

// The surface drives the flux that the outer half shell conducts.
func TestSurfaceTemperature(t *testing.T) {
	s, err := newSituation(crop(t, "potato", "waxy"), cut(t, "cube 25 mm"), Tender, Conditions{}.filled())
	require.NoError(t, err)
	f := s.run(shells)
	l := &f.single
	for range 50 {
		f.advance()
		assert.InEpsilon(t, l.flux, (f.last().last().surface-l.t[shells-1])*2*l.conductivity/l.spacing, 1e-9)
	}
}

// Below 80 °C nothing softens, and a run gives up after three hours.
func TestRunsEnd(t *testing.T) {
	s, err := newSituation(crop(t, "potato", "waxy"), cut(t, "cube 10 mm"), Tender, Conditions{}.filled())
	require.NoError(t, err)
	tepid := s
	tepid.steam, tepid.target = 79.5, 0.001
	assert.False(t, tepid.time().done, "no pectin softens in it (memory)")
	tepid.steam = 81
	assert.True(t, tepid.time().done)

	slow := s
	slow.target = 168
	ready := slow.time()
	require.True(t, ready.done)
	assert.InDelta(t, 168, (ready.seconds-ready.freeS)/60, 10, "in steam of 100 °C a minute counts for about one")
	slow.target = 185
	assert.False(t, slow.time().done, "more than three hours")
}

// A history answers alike however far it has gone before: one target after
// another, or each by itself.
func TestOneHistoryForAllQuestions(t *testing.T) {
	for _, text := range []string{"cube 25 mm", "whole 9 mm", "cube 60 mm"} {
		s, err := newSituation(crop(t, "potato", "waxy"), cut(t, text), Soft, Conditions{}.filled())
		require.NoError(t, err)
		shared := s.run(shells).last()
		shared.reach(5000)
		for _, z := range []float64{20, 36} {
			for _, target := range []float64{9, 2, 5} {
				alone := s.run(shells).last()
				assert.Equal(t, alone.cooked(target, z), shared.cooked(target, z), "%s, %g at %g", text, target, z)
			}
		}
		done := shared.cooked(5, 30)
		assert.InEpsilon(t, 5, shared.gathered(0, done.seconds, 30, centreOf), 0.005)
		assert.InDelta(t, done.centreC, shared.at(done.seconds).centre, 0.01)
	}
}

// A millimetre more is one for every piece of the load: the same weight in
// larger pieces has less surface to condense on.
func TestPerMillimetreIsOfTheWholeLoad(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	c := Conditions{LoadGrams: 1200, NetPowerW: 600}
	minutes := func(text string) float64 {
		e, err := Steam(waxy, cut(t, text), Tender, c)
		require.NoError(t, err)
		return e.Minutes
	}
	e, err := Steam(waxy, cut(t, "cube 20 mm"), Tender, c)
	require.NoError(t, err)
	assert.InEpsilon(t, (minutes("cube 21 mm")-minutes("cube 19 mm"))/2, e.PerMM, 0.001)
	box, err := Steam(waxy, cut(t, "box 40x20x30 mm"), Tender, c)
	require.NoError(t, err)
	assert.InEpsilon(t, (minutes("box 42x21x31.5 mm")-minutes("box 38x19x28.5 mm"))/2, box.PerMM, 0.001, "of its thinnest side")
}
