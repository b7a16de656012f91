package heat

import "math"

// shells is how many shells a body is cut into: 14 against 80 changes a time
// from loading by less than two thousandths.
const shells = 14

// maxShells is the most that a finer run, to compare with, may have.
const maxShells = 32

// fullStep is the longest step, as a share of radius² over diffusivity.
const fullStep = 1.0 / 40

// stepOf is how long the next step is, and its theta: short ones first, over the
// jump at the surface, the very first by backward Euler, and a quarter of the full
// step while steam or boiling water is short.
func stepOf(steps int, full float64, short bool) (dt, theta float64) {
	switch {
	case steps < 4:
		return full / 32, 1
	case steps < 8:
		return full / 16, 0.5
	case steps < 12:
		return full / 8, 0.5
	case steps < 16 || short:
		return full / 4, 0.5
	}
	return full, 0.5
}

// mesh is a body cut into n shells equal in radius, as finite volumes.
type mesh struct {
	n            int
	inner, outer [maxShells]float64 // diffusivity · area / (spacing · volume) through a shell's faces, 1/s
	surface      float64            // K/s in the last shell for 1 W/m² into it
	spacing      float64            // m
	conductivity float64
	relaxS       float64 // radius² / diffusivity, s
	stores       float64 // J/(m² K): what warms the whole body by 1 K, for each m² of its surface
}

// cut works the mesh out for a body; n is set.
func (m *mesh) cut(body Body, p Properties) {
	dr := body.RadiusM / float64(m.n)
	alpha, g := p.Diffusivity(), body.Exponent
	m.spacing, m.conductivity, m.relaxS = dr, p.Conductivity, body.RadiusM*body.RadiusM/alpha
	r, area, inside := 0.0, 0.0, 0.0 // at the inner face; inside: its volume
	for i := range m.n {
		next := float64(i+1) * dr
		outerArea := math.Pow(next, g)
		within := outerArea * next / (g + 1)
		volume := within - inside
		m.inner[i] = alpha * area / (dr * volume)
		m.outer[i] = alpha * outerArea / (dr * volume)
		r, area, inside = next, outerArea, within
	}
	_ = r
	m.stores = inside / area * p.Conductivity / alpha
	m.surface = m.outer[m.n-1] * dr / p.Conductivity
	m.outer[m.n-1] = 0
}

// conductance is from the surroundings to the middle of the last shell, in
// W/(m² K), through a film of that surface coefficient.
func (m *mesh) conductance(film float64) float64 {
	return 1 / (1/film + m.spacing/(2*m.conductivity))
}

// warming is a meshed body on its way: its shells' temperatures, and a step's
// factors. A step is the theta scheme, (I + θ·dt·L) new = (I - (1-θ)·dt·L) old +
// source: Crank-Nicolson at ½, and backward Euler at 1 for the first steps after
// a jump, over which the other would ring (Crank & Nicolson 1947; Rannacher
// 1984; known_by: memory). It is solved by elimination from the centre outwards,
// so that what the surface would take is known before anything is settled.
type warming struct {
	mesh
	t           [maxShells]float64 // °C by shell
	right       [maxShells]float64 // right-hand side, eliminated down to the last row
	pivot, fold [maxShells]float64
	conductance float64 // W/(m² K) from the surroundings to the last shell
	dt, theta   float64 // s; what pivot and fold are for
	gain        float64 // K in the last shell for 1 W/m² through the step
}

// begin sets all shells to one temperature, behind a film of that coefficient.
func (w *warming) begin(film, celsius float64) {
	w.conductance = w.mesh.conductance(film)
	w.dt = 0
	for i := range w.n {
		w.t[i] = celsius
	}
}

// pace sets the length of the steps to come.
func (w *warming) pace(dt, theta float64) {
	if w.dt == dt && w.theta == theta {
		return
	}
	w.dt, w.theta = dt, theta
	implicit := theta * dt
	before := 0.0 // what the row above passes on, over its pivot
	for i := range w.n {
		diagonal := 1 + implicit*(w.inner[i]+w.outer[i]) - implicit*w.inner[i]*before
		w.pivot[i] = 1 / diagonal
		before = implicit * w.outer[i] / diagonal
		w.fold[i] = before
	}
	w.gain = dt * w.surface * w.pivot[w.n-1]
}

// reckon eliminates the step's rows, all but what comes through the surface.
func (w *warming) reckon() {
	last := w.n - 1
	explicit, implicit := (1-w.theta)*w.dt, w.theta*w.dt
	t, inner, outer, pivot, right := w.t[:w.n], w.inner[:w.n], w.outer[:w.n], w.pivot[:w.n], w.right[:w.n]
	below, passed := 0.0, 0.0 // flux in through the inner face times its weight; the row above
	for i := range last {
		above := t[i+1] - t[i]
		row := t[i] + explicit*(outer[i]*above-inner[i]*below) + implicit*inner[i]*passed
		passed = row * pivot[i]
		right[i] = passed
		below = above
	}
	right[last] = (t[last] - explicit*inner[last]*below + implicit*inner[last]*passed) * pivot[last]
}

// wants is the mean flux, in W/m², that the surface would take through the step
// from surroundings of that mean temperature; yield is by how much those cool, in
// K, for 1 W/m² of it.
func (w *warming) wants(celsius, yield float64) float64 {
	last := w.n - 1
	mean := w.theta*w.right[last] + (1-w.theta)*w.t[last] // of the last shell, with nothing coming in
	return w.conductance * (celsius - mean) / (1 + w.conductance*(w.theta*w.gain+yield))
}

// take ends the step with that mean flux into the surface.
func (w *warming) take(flux float64) {
	last := w.n - 1
	w.t[last] = w.right[last] + w.gain*flux
	for i := last - 1; i >= 0; i-- {
		w.t[i] = w.right[i] + w.fold[i]*w.t[i+1]
	}
}

// demand is the flux that the surface would take at this moment.
func (w *warming) demand(celsius float64) float64 {
	return w.conductance * (celsius - w.t[w.n-1])
}

// centre is the temperature at radius 0, from a parabola through the first two
// shells.
func (w *warming) centre() float64 { return w.t[0] - (w.t[1]-w.t[0])/8 }

// outside is the temperature of the surface under a flux.
func (w *warming) outside(flux float64) float64 {
	return w.t[w.n-1] + flux*w.spacing/(2*w.conductivity)
}
