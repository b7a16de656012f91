package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// soaking is a load of pieces alike, one of them meshed by finite elements, in
// surroundings that change: water that the pieces cool, steam that is short.
// Temperatures are in °C, the mesh is of half size 1, and steps are backward Euler.
type soaking struct {
	e            *elements
	filmed, bare *flat
	t            []float64
	half, dt     float64 // m, s
	p            Properties
	biot         float64
	meshes       float64 // that many of the mesh make up the load
	cook         float64 // minutes at 100 °C
	before       float64 // the rate at the last step
	work         [3][]float64
}

func soak(e *elements, half, film, grams, startC, dt float64, p Properties) *soaking {
	s := &soaking{e: e, half: half, dt: dt, p: p, biot: film * half / p.Conductivity}
	s.meshes = grams / 1e3 / p.Density / (e.volume * half * half * half)
	n := len(e.load)
	s.t = make([]float64, n)
	for i := range s.t {
		s.t[i] = startC
	}
	s.work = [3][]float64{make([]float64, n), make([]float64, n), make([]float64, n)}
	fourier := dt * p.Diffusivity() / (half * half)
	s.filmed, s.bare = e.flatten(s.biot), e.flatten(0)
	s.filmed.set(fourier)
	s.bare.set(fourier)
	return s
}

// wants is the heat in W that the whole load would take from such surroundings.
func (s *soaking) wants(celsius float64) float64 {
	sum := 0.0
	for i, share := range s.e.load {
		sum += share * (celsius - s.t[i])
	}
	return s.meshes * s.biot * s.p.Conductivity * s.half * sum
}

// step warms the load through dt in surroundings of that temperature, with so many W
// at the most, and says what it took.
func (s *soaking) step(celsius, most float64) (watts float64) {
	fourier := s.dt * s.p.Diffusivity() / (s.half * s.half)
	right := make([]float64, len(s.t))
	s.filmed.times(s.filmed.m, s.t, right)
	before := 0.0 // heat in the mesh, in units of its capacity
	for _, x := range right {
		before += x
	}
	matrix, each := s.filmed, fourier*s.biot*celsius
	if s.wants(celsius) > most {
		matrix, each = s.bare, fourier*most/(s.meshes*s.e.area*s.p.Conductivity*s.half)
	}
	for i, share := range s.e.load {
		right[i] += each * share
	}
	matrix.solve(right, s.t, s.work)
	after := 0.0
	matrix.times(matrix.m, s.t, right)
	for _, x := range right {
		after += x
	}
	return (after - before) * s.meshes * s.p.Density * s.p.HeatCapacity * s.half * s.half * s.half / s.dt
}

// coldest is the temperature of the slowest place.
func (s *soaking) coldest() float64 {
	turned := make([]float64, len(s.t))
	for i, x := range s.t {
		turned[i] = -x
	}
	return -s.e.peak(turned)
}

// done gathers the cook value and says whether the target is reached.
func (s *soaking) done(crop Crop, target float64) bool {
	now := s.coldest()
	rate := math.Pow(10, (now-100)/crop.Z)
	s.cook += (rate + s.before) / 2 * s.dt / 60
	s.before = rate
	return s.cook >= target && now >= softensC
}

// mediumCases are pieces by their mesh and by the body that stands for them.
var mediumCases = []struct {
	cut  string
	half float64
	mesh func(cells int) solid
}{
	{"cube 25 mm", 0.0125, func(n int) solid { return brickPart(1, 1, 1, [3]int{n, n, n}) }},
	{"whole 45 mm", 0.0225, func(n int) solid { return ballPart(Whole, 1.3, 1, 1, [3]int{n, n, n}) }},
	{"quarters 60 mm", 0.03, func(n int) solid { return ballPart(Quarters, 1.3, 1, 1, [3]int{n, n, n}) }},
	{"slice 12 mm", 0.006, func(n int) solid { return discPart(50.0/12, 1, [3]int{n, n, n}) }},
}

// mediumCells along each side of a mesh, and the step in s for a half size: coarse
// enough to be quick, and half a per cent from finer ones.
func mediumCells() int {
	if thorough() {
		return 11
	}
	return 7
}

func fineStep(half float64, p Properties) float64 {
	share := 0.004
	if thorough() {
		share = 0.002
	}
	return share * half * half / p.Diffusivity()
}

// In water that the load cools and the stove warms again, pieces are done when finite
// elements on their real shape have them done: within 3.5 %, counted from putting in.
func TestBoilingAgainstElements(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	for i, one := range mediumCases {
		if !thorough() && i > 0 {
			continue
		}
		for _, pot := range []struct{ grams, ml, watts float64 }{{500, 1000, 900}, {1000, 1500, 700}} {
			s, err := newSituation(waxy, cut(t, one.cut), Tender, Conditions{LoadGrams: pot.grams}.filled())
			require.NoError(t, err)
			s.layers = 1
			f := fire{powerW: pot.watts, lossWK: 0.6, panJK: 400}
			h := s.boiling(pot.grams, Water{ML: pot.ml}, f)
			got := h.cooked(s.target, waxy.Z)

			dt := fineStep(one.half, s.props)
			e := soak(one.mesh(mediumCells()).assemble(), one.half, filmBoiling, pot.grams, s.start, dt, s.props)
			water, seconds, lowest := s.steam, 0.0, s.steam
			for !e.done(waxy, s.target) {
				took := e.step(water, math.Inf(1))
				water += dt * (pot.watts - f.lossWK*(water-roomC) - took) / (pot.ml/1e3*waterHeat + f.panJK)
				water = min(water, s.steam)
				lowest = min(lowest, water)
				seconds += dt
			}
			t.Logf("%s, %g g in %g ml at %g W: %.0f s by elements, %.0f s by the body; water down to %.1f and %.1f °C", one.cut, pot.grams, pot.ml, pot.watts, seconds, got.seconds, lowest, h.lowestC)
			assert.InEpsilon(t, seconds, got.seconds, 0.035, one.cut)
			assert.InDelta(t, lowest, h.lowestC, 0.5+(s.steam-lowest)/3, "%s: how far the water cools", one.cut)
		}
	}
}

// Two tiers take the steam one after the other: each is done when finite elements have
// it done, within 3.5 % from loading (thin slices, at a Biot number of 5, within 5 % as in
// steam without end), and steam flows freely at the same time.
func TestTiersAgainstElements(t *testing.T) {
	waxy := crop(t, "potato", "waxy")
	orders := [][2]int{{0, 1}}
	if thorough() {
		orders = [][2]int{{0, 1}, {1, 0}, {2, 0}, {3, 1}}
	}
	for _, order := range orders {
		const grams, watts = 500.0, 700.0
		var loads []TierLoad
		for _, i := range order {
			loads = append(loads, TierLoad{Crop: waxy, Cut: cut(t, mediumCases[i].cut), Until: Tender, Grams: grams})
		}
		f, err := newTiered(loads, Conditions{NetPowerW: watts})
		require.NoError(t, err)
		run := f.run(nil, math.Inf(1))

		dt := min(fineStep(mediumCases[order[0]].half, f.situations[0].props), fineStep(mediumCases[order[1]].half, f.situations[1].props))
		var tiers [2]*soaking
		for i, which := range order {
			one := mediumCases[which]
			tiers[i] = soak(one.mesh(mediumCells()).assemble(), one.half, filmNominal, grams, DefaultStartC, dt, f.situations[i].props)
		}
		done, seconds, free := [2]float64{}, 0.0, 0.0
		for done[0] == 0 || done[1] == 0 {
			left := watts
			for i, tier := range tiers {
				left -= tier.step(SteamC(0), (1-passesBy)*left)
				if tier.done(waxy, waxy.Target(Tender)) && done[i] == 0 {
					done[i] = seconds + dt
				}
			}
			seconds += dt
			if free == 0 && left >= (1-fullFlowShare)*watts {
				free = seconds
			}
		}
		for i := range tiers {
			got := run.last(i).cooked(waxy.Target(Tender), waxy.Z)
			t.Logf("tier %d, %s: %.0f s by elements, %.0f s by the body", i+1, loads[i].Cut, done[i], got.seconds)
			near := 0.035
			if filmNominal*mediumCases[order[i]].half/f.situations[i].props.Conductivity < 6 {
				near = 0.05
			}
			assert.InEpsilon(t, done[i], got.seconds, near, "tier %d, %s", i+1, loads[i].Cut)
		}
		assert.InDelta(t, free, run.freeS, 0.05*free+10)
	}
}
