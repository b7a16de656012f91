package heat

import "math"

// This file is the first edition's stepping, as fine as wanted: explicit finite
// volumes, the flux capped from step to step. It shares no code with the scheme
// in use, which is judged by it.

// mesh is the body cut into n shells, times already divided out: what a step
// needs and nothing more.
type fineMesh struct {
	n             int
	inner, outer  [80]float64 // alpha·dt·area/(dr·volume) through a shell's faces
	dt            float64     // s
	spacing       float64     // m
	conductivity  float64
	surfaceFactor float64 // alpha·dt·A_N/V_N / k: flux in W/m² to K in the last shell
}

func newFineMesh(body Body, p Properties, n int) fineMesh {
	dr := body.RadiusM / float64(n)
	alpha := p.Diffusivity()
	m := fineMesh{n: n, dt: 0.2 * dr * dr / alpha, spacing: dr, conductivity: p.Conductivity}
	g := body.Exponent
	at := func(i int, power float64) float64 { return math.Pow(float64(i)*dr, power) }
	for i := range n {
		volume := (at(i+1, g+1) - at(i, g+1)) / (g + 1)
		if i > 0 {
			m.inner[i] = alpha * m.dt * at(i, g) / (dr * volume)
		}
		if i < n-1 {
			m.outer[i] = alpha * m.dt * at(i+1, g) / (dr * volume)
		} else {
			m.surfaceFactor = alpha * m.dt * at(n, g) / volume / p.Conductivity
		}
	}
	return m
}

// conductance is from the surroundings to the middle of the last shell, in
// W/(m² K), through a film of that surface coefficient.
func (m *fineMesh) conductance(film float64) float64 {
	return 1 / (1/film + m.spacing/(2*m.conductivity))
}

// step moves the temperatures on by dt under a flux into the surface in W/m².
func (m *fineMesh) step(t []float64, flux float64) {
	last := m.n - 1
	t = t[:last+1]
	outer, inner, next := m.outer[:last], m.inner[:last], t[1:]
	here := t[0]
	below := here
	for i := range outer {
		above := next[i]
		t[i] = here + outer[i]*(above-here) - inner[i]*(here-below)
		below, here = here, above
	}
	t[last] = here + m.surfaceFactor*flux - m.inner[last]*(here-below)
}

// centre is the temperature at radius 0, from a parabola through the first two
// shells.
func fineCentre(t []float64) float64 { return t[0] - (t[1]-t[0])/8 }

// heating is a piece in steam: the question one run answers.
type heating struct {
	mesh   *fineMesh
	film   float64 // surface coefficient, W/(m² K), the body's factor included
	start  float64 // °C
	steam  float64 // °C
	cap    float64 // W/m² on the body's surface; +Inf for steam without end
	target float64 // cook value, minutes at 100 °C
	z      float64 // K
}

// heated is how a run went, in seconds from loading.
type heated struct {
	fullS   float64 // when steam flows freely
	doneS   float64
	centreC float64 // when done
	done    bool
}

// running is a run on its way.
type running struct {
	*heating
	t           []float64 // °C by shell
	conductance float64
	seconds     float64
	demand      float64 // W/m² the surface would take
	cook, rate  float64
	full        bool
	out         heated
}

// run heats the piece until it is done and steam flows freely.
func (h *heating) run() heated {
	var store [80]float64
	r := running{heating: h, t: store[:h.mesh.n], conductance: h.mesh.conductance(h.film)}
	for i := range r.t {
		r.t[i] = h.start
	}
	r.demand = r.conductance * (h.steam - h.start)
	r.full = r.demand <= fullFlowShare*h.cap
	for r.seconds < longestS && !r.over() {
		r.advance()
		if r.full && !r.out.done && h.steam-fineCentre(r.t) < nearlyC {
			r.finish()
			break
		}
	}
	return r.out
}

func (r *running) over() bool {
	return r.full && r.out.done
}

// advance takes one step; moments within it are interpolated, so that answers
// change smoothly with sizes.
func (r *running) advance() {
	dt := r.mesh.dt
	r.mesh.step(r.t, min(r.demand, r.cap))
	r.seconds += dt
	before := r.demand
	r.demand = r.conductance * (r.steam - r.t[r.mesh.n-1])
	if flows := fullFlowShare * r.cap; !r.full && r.demand <= flows {
		r.full = true
		r.out.fullS = r.seconds - dt*(flows-r.demand)/(before-r.demand)
	}
	if middle := fineCentre(r.t); middle >= countsC {
		r.gather(middle, dt)
	}
}

// gather adds a step's cook value, by the trapezium.
func (r *running) gather(middle, dt float64) {
	before := r.rate
	r.rate = math.Exp((middle - 100) * math.Ln10 / r.z)
	gain := (before + r.rate) / 2 * dt / 60
	r.cook += gain
	if !r.out.done && r.cook >= r.target && middle >= softensC {
		r.out.done, r.out.centreC = true, middle
		r.out.doneS = r.seconds - dt*min(1, (r.cook-r.target)/gain)
	}
}

// finish adds the time that is left at a constant rate.
func (r *running) finish() {
	r.out.doneS = r.seconds + max(0, r.target-r.cook)/r.rate*60
	r.out.centreC = fineCentre(r.t)
	r.out.done = r.out.doneS <= longestS && r.out.centreC >= softensC
}

// fine is how a situation of one layer goes, by explicit steps through n shells.
func (s situation) fine(n int) heated {
	m := newFineMesh(s.body, s.props, n)
	h := heating{mesh: &m, film: s.film * s.body.Film, start: s.start, steam: s.steam, cap: s.areaW * s.body.AreaMore, target: s.target, z: s.crop.Z}
	return h.run()
}
