package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The tables of parts and sectors, worked out again from the slowest mode of
// each: a spherical Bessel function times a harmonic polynomial, or a Bessel
// function times a sine, zero on every face.

// sphericalBessel is j of the order l, by its recurrence upwards; good for x
// well above l.
func sphericalBessel(l int, x float64) float64 {
	if x < 0.3 { // its series
		term := 1.0
		for i := 1; i <= l; i++ {
			term *= x / float64(2*i+1)
		}
		return term * (1 - x*x/float64(2*(2*l+3)) + x*x*x*x/float64(8*(2*l+3)*(2*l+5)))
	}
	before, now := math.Sin(x)/x, math.Sin(x)/(x*x)-math.Cos(x)/x
	if l == 0 {
		return before
	}
	for i := 1; i < l; i++ {
		before, now = now, float64(2*i+1)/x*now-before
	}
	return now
}

// bessel is J of a whole order.
func bessel(order int, x float64) float64 { return math.Jn(order, x) }

// sum integrates f from 0 to 1 by the midpoint rule.
func sum(f func(float64) float64) float64 {
	const stops = 400
	total := 0.0
	for i := range stops {
		total += f((float64(i) + 0.5) / stops)
	}
	return total / stops
}

// partMode is the slowest mode of a part: its order and the harmonic polynomial,
// in the octant x, y, z > 0 that stands for the whole part by symmetry; a wedge
// is the lower half of that octant.
type partMode struct {
	order  int
	harm   func(x, y, z float64) float64
	turn   float64 // of the octant about the long axis
	zero   int     // order of the Bessel function across, far stretched
	quanta float64
}

var partModes = map[Shape]partMode{
	Whole:        {0, func(x, y, z float64) float64 { return 1 }, math.Pi / 2, 0, 1},
	Halves:       {1, func(x, y, z float64) float64 { return y }, math.Pi / 2, 1, 1},
	HalvesAcross: {1, func(x, y, z float64) float64 { return x }, math.Pi / 2, 0, 3},
	Quarters:     {2, func(x, y, z float64) float64 { return y * z }, math.Pi / 2, 2, 1},
	Eighths:      {3, func(x, y, z float64) float64 { return x * y * z }, math.Pi / 2, 2, 3},
	Wedges:       {4, func(x, y, z float64) float64 { return y * z * (y*y - z*z) }, math.Pi / 4, 4, 1},
}

// value is the mode at a place, for the wave number k.
func (m partMode) value(k float64, p point) float64 {
	r := math.Sqrt(dot(p, p))
	return sphericalBessel(m.order, k*r) / math.Pow(r, float64(m.order)) * m.harm(p[0], p[1], p[2])
}

// over adds up f over the directions of the octant; most is its largest value.
func (m partMode) over(f func(x, y, z float64) float64) (total, most float64) {
	const stops = 160
	for i := range stops {
		x := (float64(i) + 0.5) / stops // equal steps along the axis are equal areas
		for j := range stops {
			round := (float64(j) + 0.5) / stops * m.turn
			at := f(x, math.Sqrt(1-x*x)*math.Cos(round), math.Sqrt(1-x*x)*math.Sin(round))
			total += at * m.turn / (stops * stops)
			most = max(most, at)
		}
	}
	return total, most
}

// Decay is the square of the first zero of a spherical Bessel function, and of
// a Bessel function for the far stretched: tabulated zeros (Abramowitz & Stegun
// 1964, tables 9.5 and 10.6, memory). Exponent gives the radial body the mode's
// lag where it is slowest.
func TestPartsFollowFromTheirModes(t *testing.T) {
	spherical := []float64{math.Pi, 4.493409, 5.763459, 6.987932, 8.182561}
	plain := []float64{2.404826, 3.831706, 5.135622, 0, 7.588342}
	for shape, m := range partModes {
		p := parts[shape]
		assert.InEpsilon(t, spherical[m.order]*spherical[m.order], p.decay, 1e-6, shape)
		assert.InEpsilon(t, plain[m.zero], p.zero, 1e-6, shape)
		assert.Equal(t, m.quanta, p.quanta, shape)

		k := spherical[m.order]
		top := 0.0
		for r := 0.001; r < 1; r += 0.001 {
			top = max(top, sphericalBessel(m.order, k*r))
		}
		once := sum(func(r float64) float64 { return sphericalBessel(m.order, k*r) * r * r })
		square := sum(func(r float64) float64 { return math.Pow(sphericalBessel(m.order, k*r), 2) * r * r })
		angle, most := m.over(m.harm)
		angles, _ := m.over(func(x, y, z float64) float64 { return math.Pow(m.harm(x, y, z), 2) })
		_, lag := radial(p.exponent)
		assert.InEpsilon(t, top*most*once*angle/(square*angles), lag, 0.004, "lag of %v", shape)
	}
	assert.Len(t, partModes, len(parts))
}

// The weights of a stretched part are the shares of its mode's slope along each
// axis (Rayleigh's quotient), and with the far stretched body's they give the
// sphere's decay its value and slope.
func TestStretchedPartsFollowFromTheirModes(t *testing.T) {
	const step = 1e-4
	for shape, m := range partModes {
		p := parts[shape]
		k := math.Sqrt(p.decay)
		var along point
		const stops = 24
		for i := range stops {
			r := (float64(i) + 0.5) / stops
			for j := range stops {
				x := r * (float64(j) + 0.5) / stops
				for l := range stops {
					round := (float64(l) + 0.5) / stops * m.turn
					at := point{x, math.Sqrt(r*r-x*x) * math.Cos(round), math.Sqrt(r*r-x*x) * math.Sin(round)}
					for axis := range along {
						up, down := at, at
						up[axis], down[axis] = up[axis]+step, down[axis]-step
						slope := (m.value(k, up) - m.value(k, down)) / (2 * step)
						along[axis] += slope * slope * r * r
					}
				}
			}
		}
		if shape == Wedges { // half of an octant stands for both
			along[1], along[2] = (along[1]+along[2])/2, (along[1]+along[2])/2
		}
		whole := along[0] + along[1] + along[2]
		for axis := range along {
			assert.InDelta(t, along[axis]/whole, p.along[axis], 0.004, "%v along axis %d", shape, axis)
		}
		assert.InDelta(t, 1, p.along[0]+p.along[1]+p.along[2], 1e-12)

		assert.InEpsilon(t, p.decay, p.slowest(1, 1, 1), 1e-9, shape)
		assert.InEpsilon(t, p.decay/4, p.slowest(2, 2, 2), 1e-9, "four times as slow, twice as large")
		slope := (p.slowest(1/(1+step), 1, 1) - p.slowest(1/(1-step), 1, 1)) / (2 * step)
		assert.InEpsilon(t, 2*p.decay*p.along[0], slope, 0.001, "%v a little stretched", shape)
		far := p.slowest(1000, 1, 1)
		assert.InDelta(t, p.zero*p.zero+p.quanta*p.zero/1000, far, 0.001, "%v far stretched", shape)
		flat := (p.slowest(1, 1, 1/(1+step)) - p.slowest(1, 1, 1/(1-step))) / (2 * step)
		assert.InEpsilon(t, 2*p.decay*p.along[2], flat, 0.001, "%v a little flatter", shape)
	}
}

// A stick cut lengthwise: J of half the parts times a sine, in the same way.
// film has the radial body answer to a film as the mode does, whose outer
// surface answers with 2 k² and each flat face with the square of its slope.
func TestSectorsFollowFromTheirModes(t *testing.T) {
	zeros := map[int]float64{1: 3.831706, 2: 5.135622, 4: 7.588342}
	for shape, s := range sectors {
		order := int(s.parts) / 2
		k := zeros[order]
		assert.InEpsilon(t, k*k, s.decay, 1e-6, shape)
		top := 0.0
		for r := 0.001; r < 1; r += 0.001 {
			top = max(top, bessel(order, k*r))
		}
		once := sum(func(r float64) float64 { return bessel(order, k*r) * r })
		square := sum(func(r float64) float64 { return math.Pow(bessel(order, k*r), 2) * r })
		turn := math.Pi / float64(order)
		zero, lag := radial(s.exponent)
		assert.InEpsilon(t, top*once/square*2/float64(order)/(turn/2), lag, 0.001, "lag of %v", shape)
		flat := 2 * sum(func(r float64) float64 { return math.Pow(float64(order)*bessel(order, k*r)/r, 2) }) / (square * turn / 2)
		assert.InEpsilon(t, 2*k*k*k/zero/(2*k*k+flat), s.film, 0.002, "film of %v", shape)
	}
	assert.Equal(t, map[Shape]float64{Halves: 2, Quarters: 4, Eighths: 4, Wedges: 8},
		map[Shape]float64{Halves: sectors[Halves].parts, Quarters: sectors[Quarters].parts, Eighths: sectors[Eighths].parts, Wedges: sectors[Wedges].parts})
}

// Bricks, discs and sticks: the lag of a product is the product of the lags, of
// slab 4/pi and cylinder 1.60197 (Carslaw & Jaeger 1959), and a side one and a
// half times as long counts for no less.
func TestLagsOfProducts(t *testing.T) {
	const slabs, cylinders = 4 / math.Pi, 1.60197
	for name, row := range map[string]struct {
		body Body
		lag  float64
	}{
		"cube":            {brickBody(20, 20, 20), slabs * slabs * slabs},
		"short brick":     {brickBody(20, 30, 29), slabs * slabs * slabs},
		"bar":             {brickBody(20, 2e4, 20), slabs * slabs},
		"board":           {brickBody(20, 2e4, 2e4), slabs},
		"stub":            {discBody(20, 20), slabs * cylinders},
		"thick disc":      {discBody(29, 20), slabs * cylinders},
		"plate":           {discBody(2e4, 20), slabs},
		"rod":             {discBody(20, 2e4), cylinders},
		"endless halves":  {stickBody(Halves, 20, 2e4), lagOf(sectors[Halves].exponent)},
		"endless wedges":  {stickBody(Wedges, 20, 2e4), lagOf(sectors[Wedges].exponent)},
		"a stick in half": {stickBody(HalvesAcross, 20, 2e4), cylinders},
	} {
		assert.InEpsilon(t, row.lag, lagOf(row.body.Exponent), 0.0005, name)
	}
	assert.Equal(t, []float64{1, 1, 0.25}, []float64{beside(1), beside(1.5), beside(3)})
}

func lagOf(exponent float64) float64 {
	_, lag := radial(exponent)
	return lag
}

// The radius has the centre pass a tenth when the exact product does, and the
// film answers to first order as the product's decay: a wide plate is a slab.
func TestBodiesPassATenthWithTheirProduct(t *testing.T) {
	for name, row := range map[string]struct {
		body  Body
		theta func(fo float64) float64 // by time times diffusivity in mm²
	}{
		"brick": {brickBody(20, 30, 44), func(s float64) float64 {
			return slabCentre(s/100) * slabCentre(s/225) * slabCentre(s/484)
		}},
		"disc": {discBody(40, 14), func(s float64) float64 { return cylinderCentre(s/400) * slabCentre(s/49) }},
		"stub": {discBody(14, 40), func(s float64) float64 { return cylinderCentre(s/49) * slabCentre(s/400) }},
	} {
		zero, lag := radial(row.body.Exponent)
		moment := math.Log(lag/0.1) * math.Pow(row.body.RadiusM*1e3/zero, 2)
		assert.InDelta(t, 0.1, row.theta(moment), 1e-4, name)
	}
	// A halved stick of 20 by 60 mm: its section's mode times a slab along it.
	half := stickBody(Halves, 20, 60)
	zero, lag := radial(half.Exponent)
	sectorZero, sectorLag := radial(1.10325)
	moment := math.Log(lag/0.1) * math.Pow(half.RadiusM/zero, 2)
	assert.InDelta(t, 0.1, sectorLag*math.Exp(-14.68197*moment/1e-4)*slabCentre(moment/9e-4), 1e-4)
	sectorRadius := sectorZero / 3.831706 * 0.010
	pull := 14.68197/1e-4/(sectorRadius*0.83433) + math.Pi*math.Pi/4/2.7e-5
	assert.InEpsilon(t, zero*zero/math.Pow(half.RadiusM, 3)/pull, half.Film, 1e-4)
	assert.InEpsilon(t, 1.10325+1.0899*2.25*math.Pow(sectorRadius/0.030, 2), half.Exponent, 1e-4, "its length counts a little")
	brick := brickBody(20, 30, 44)
	zero, _ = radial(brick.Exponent)
	pull = math.Pi * math.Pi / 4 * (1/1e-6 + 1/3.375e-6 + 1/1.0648e-5)
	assert.InEpsilon(t, zero*zero/math.Pow(brick.RadiusM, 3)/pull, brick.Film, 1e-9)
	assert.InEpsilon(t, 1.0528+1.0916*2.25/(2.2*2.2), brick.Exponent, 1e-9)
	disc := discBody(40, 14)
	zero, _ = radial(disc.Exponent)
	pull = math.Pi*math.Pi/4/3.43e-7 + 2.404826*2.404826/8e-6
	assert.InEpsilon(t, zero*zero/math.Pow(disc.RadiusM, 3)/pull, disc.Film, 1e-9)
	assert.InEpsilon(t, 1, brickBody(20, 2e4, 2e4).Film, 0.001)
	assert.InEpsilon(t, 1, discBody(2e4, 20).Film, 0.001)
	assert.InEpsilon(t, 1, discBody(20, 2e4).Film, 0.001)
	assert.InEpsilon(t, 0.010, brickBody(20, 2e4, 2e4).RadiusM, 0.001)
	assert.InEpsilon(t, 0.010, discBody(20, 2e4).RadiusM, 0.001)
	halves := stickBody(Halves, 20, 2e4)
	assert.InEpsilon(t, sectors[Halves].film, halves.Film, 0.001)
	assert.InEpsilon(t, sectorZero/3.831706*0.010, halves.RadiusM, 0.001)
}
