package heat_test

import (
	"math"
	"math/rand/v2"
)

// This file simulates kitchens by another hand than the model's: a piece is a block
// of small cells in three dimensions, warmed by explicit steps, and a cook looks at
// it with a clock of her own. It knows the package under test by nothing but what it
// exports, and shares no formula with it.

// substance is what a crop is like in a kitchen. Potato: 0.57 W/(m K), 1080 kg/m³,
// 3600 J/(kg K), published diffusivities spread by a fifth either way.
type substance struct {
	conductivity, density, heat float64
	z                           float64 // K for ten times the rate
	targets                     [3]float64
}

// piece is half of each axis of a block or, round, of an ellipsoid, in m.
type piece struct {
	half  [3]float64
	round bool
}

// fireside is the steam around a piece.
type fireside struct {
	celsius, startC float64
	film            float64 // W/(m² K)
	wattsPerKg      float64 // that the stove has for each kg in the steamer
}

// across is how many cells lie along the shortest half axis.
const across = 6

// block is an eighth of a piece, cut into cells.
type block struct {
	n       [3]int
	edge    [3]float64
	t, next []float64
	inside  []bool
	faces   []float64 // m² of each cell's surface to the steam
	volume  float64
}

func cutUp(p piece) *block {
	b := &block{}
	shortest := math.Min(p.half[0], math.Min(p.half[1], p.half[2]))
	for i, half := range p.half {
		b.n[i] = int(math.Round(math.Min(across*half/shortest, 2*across)))
		b.edge[i] = half / float64(b.n[i])
	}
	total := b.n[0] * b.n[1] * b.n[2]
	b.t, b.next, b.inside, b.faces = make([]float64, total), make([]float64, total), make([]bool, total), make([]float64, total)
	for i := range b.inside {
		x, y, z := b.place(i)
		out := 0.0
		for axis, at := range []int{x, y, z} {
			out += math.Pow((float64(at)+0.5)*b.edge[axis]/p.half[axis], 2)
		}
		b.inside[i] = !p.round || out <= 1
	}
	cell := b.edge[0] * b.edge[1] * b.edge[2]
	for i, in := range b.inside {
		if !in {
			continue
		}
		b.volume += cell
		for axis := range 3 {
			if b.beyond(i, axis) < 0 {
				b.faces[i] += cell / b.edge[axis]
			}
		}
	}
	if p.round { // steps have more surface than what they stand for
		b.smooth(ellipsoidArea(p.half) / 8)
	}
	return b
}

func (b *block) place(i int) (x, y, z int) {
	return i % b.n[0], i / b.n[0] % b.n[1], i / (b.n[0] * b.n[1])
}

// beyond is the neighbour outwards along an axis, -1 where the steam is.
func (b *block) beyond(i, axis int) int {
	x, y, z := b.place(i)
	at, step := []int{x, y, z}[axis], []int{1, b.n[0], b.n[0] * b.n[1]}[axis]
	if at+1 == b.n[axis] || !b.inside[i+step] {
		return -1
	}
	return i + step
}

func (b *block) smooth(area float64) {
	sum := 0.0
	for _, face := range b.faces {
		sum += face
	}
	for i := range b.faces {
		b.faces[i] *= area / sum
	}
}

// ellipsoidArea is by Thomsen's formula (2004), good to a hundredth.
func ellipsoidArea(half [3]float64) float64 {
	const p = 1.6075
	a, b, c := math.Pow(half[0], p), math.Pow(half[1], p), math.Pow(half[2], p)
	return 4 * math.Pi * math.Pow((a*b+a*c+b*c)/3, 1/p)
}

// cook warms a piece until its middle has had the cook value, and says after how many
// minutes in the steamer that was, and when three tenths of the steam first escaped.
func (b *block) cook(s substance, around fireside, target float64) (done, free float64) {
	diffusivity := s.conductivity / (s.density * s.heat)
	fastest := 0.0
	for i := range b.t {
		b.t[i] = around.startC
	}
	for _, edge := range b.edge {
		fastest += 2 * diffusivity / (edge * edge)
	}
	dt := 0.8 / fastest
	cell := b.edge[0] * b.edge[1] * b.edge[2]
	free = math.Inf(1)
	supply := around.wattsPerKg * b.volume * s.density // W for this eighth
	value := 0.0
	for seconds := 0.0; seconds < 4*3600; seconds += dt {
		copy(b.next, b.t)
		for axis := range 3 {
			share := diffusivity * dt / (b.edge[axis] * b.edge[axis])
			for i, in := range b.inside {
				if !in {
					continue
				}
				if other := b.beyond(i, axis); other >= 0 {
					flow := share * (b.t[other] - b.t[i])
					b.next[i] += flow
					b.next[other] -= flow
				}
			}
		}
		asked := 0.0
		thin := math.Min(b.edge[0], math.Min(b.edge[1], b.edge[2])) / 2
		through := 1 / (1/around.film + thin/s.conductivity)
		for i, face := range b.faces {
			asked += face * through * (around.celsius - b.t[i])
		}
		share := math.Min(1, supply/asked)
		if asked < 0.7*supply && math.IsInf(free, 1) {
			free = seconds / 60
		}
		for i, face := range b.faces {
			if face > 0 {
				b.next[i] += share * face * through * (around.celsius - b.t[i]) * dt / (cell * s.density * s.heat)
			}
		}
		b.t, b.next = b.next, b.t
		if value += math.Pow(10, (b.t[0]-100)/s.z) * dt / 60; value >= target && b.t[0] >= 80 {
			return (seconds + dt) / 60, free
		}
	}
	return 4 * 60, free
}

// simulated is a cook's kitchen: what it is like, and what her readings are like.
type simulated struct {
	crop    substance
	film    float64
	airK    float64 // by how much air under the lid cools the steam
	palate  float64 // ln of what is called done here, over the usual
	late    float64 // minutes that the clock is started late; below nought early
	look    float64 // minutes, sd of a look
	sizes   float64 // sd of ln of the size of the piece that is prodded
	lots    float64 // sd of ln of the target, from lot to lot
	gusts   float64 // sd of ln of the power, from time to time
	weaker  float64 // ln of the power, over what is told
	toWhole float64 // minutes that a reading is rounded to; 0 = not
	slips   float64 // share of entries that are wrong
	palates []float64
}

// occasion is what a cook can tell of one time.
type occasion struct{ startC, altitudeM, powerW, grams float64 }

// usual is a kitchen in which all is as the books have it.
func usual(z float64, targets [3]float64) simulated {
	return simulated{
		crop: substance{conductivity: 0.57, density: 1080, heat: 3600, z: z, targets: targets},
		film: 500, look: 0.6, sizes: 0.05, lots: 0.15,
	}
}

// family draws kitchens that are all strange in one way.
type family struct {
	name  string
	drawn func(r *rand.Rand, s *simulated)
}

// families are the ways in which kitchens are strange. Each is wide enough by itself
// for what tables print: the times of one piece differ by a factor of 1.3 either way
// from source to source (a spread of 0.27 in the logarithm), and by 0.2 within one.
var families = []family{
	{"two palates: half stop early, half go on", func(r *rand.Rand, s *simulated) {
		s.palate = 0.6
		if r.IntN(2) == 0 {
			s.palate = -0.6
		}
	}},
	{"poor steam: a thin film, air under the lid, a lid often lifted", func(r *rand.Rand, s *simulated) {
		s.film = math.Exp(uniform(r, math.Log(60), math.Log(600)))
		s.airK, s.late = uniform(r, 0, 4), uniform(r, -1, 2)
		s.palate = 0.4 * r.NormFloat64()
	}},
	{"another potato: its diffusivity, its z, a target far from the usual now and then", func(r *rand.Rand, s *simulated) {
		s.crop.conductivity *= math.Exp(0.15 * r.NormFloat64())
		s.crop.z = math.Exp(uniform(r, math.Log(18), math.Log(45)))
		s.palate = 0.35 * r.NormFloat64() / math.Sqrt(r.ExpFloat64())
		s.palate = min(max(s.palate, -1.5), 1.5)
	}},
	{"clocks: started whenever there is time, read to five minutes", func(r *rand.Rand, s *simulated) {
		s.late, s.toWhole = r.ExpFloat64()*2-1, 5
		s.palate = 0.45 * r.NormFloat64()
	}},
	{"uneven lots: pieces of any size, tubers of any age", func(r *rand.Rand, s *simulated) {
		s.sizes, s.lots = 0.12, 0.45
		s.palate = 0.3 * r.NormFloat64()
	}},
	{"a stove in the wind: weaker than its plate, never the same", func(r *rand.Rand, s *simulated) {
		s.weaker, s.gusts = math.Log(uniform(r, 0.45, 1)), 0.25
		s.film = math.Exp(uniform(r, math.Log(200), math.Log(900)))
		s.palate = 0.45 * r.NormFloat64()
	}},
	{"slips of the pen: one entry in eight is of another pot, and two people cook", func(r *rand.Rand, s *simulated) {
		s.slips = 0.125
		middle := 0.35 * r.NormFloat64()
		s.palates = []float64{middle - 0.25, middle + 0.25}
	}},
}

func uniform(r *rand.Rand, from, to float64) float64 { return from + (to-from)*r.Float64() }

// cooked is what the clock shows when a piece is done, on one occasion.
func (s simulated) cooked(r *rand.Rand, p piece, until int, o occasion) float64 {
	bigger := math.Exp(s.sizes * r.NormFloat64())
	for i := range p.half {
		p.half[i] *= bigger
	}
	palate := s.palate
	if len(s.palates) > 0 {
		palate = s.palates[r.IntN(len(s.palates))]
	}
	target := s.crop.targets[until] * math.Exp(palate+s.lots*r.NormFloat64())
	around := fireside{
		celsius: 100 - 0.0034*o.altitudeM - s.airK, startC: o.startC, film: s.film,
		wattsPerKg: o.powerW * math.Exp(s.weaker+s.gusts*r.NormFloat64()) / (o.grams / 1000),
	}
	done, free := cutUp(p).cook(s.crop, around, target)
	minutes := max(0.3, done-min(free, done)+s.late+s.look*r.NormFloat64())
	if free >= done {
		minutes = done
	}
	if s.toWhole > 0 {
		minutes = max(1, math.Round(minutes/s.toWhole)*s.toWhole)
	}
	return minutes
}
