package heat

import "math"

// fullFlowShare is the share of the steam that still condenses on the load when
// the flow counts as full: three tenths escape.
const fullFlowShare = 0.7

// tier is a layer of pieces, or a heap of several, in the steamer.
type tier struct {
	layers []*layer // lowest first
	bypass float64  // share of the steam that passes by its side
}

// layer is one layer of pieces on its way.
type layer struct {
	warming
	history
	areaM2 float64 // of the bodies' surfaces: the heat, in W, that all pieces take for 1 W/m² into a body
	flux   float64 // W/m² into the body at the last knot
}

// begin puts a layer of that body's pieces behind a film; wattsPerFlux is the
// heat, in W, that all of them take for 1 W/m² into the body.
func (l *layer) begin(body Body, p Properties, n int, film, wattsPerFlux, startC float64) {
	l.mesh.n = n
	l.mesh.cut(body, p)
	l.warming.begin(film*body.Film, startC)
	l.areaM2 = wattsPerFlux
	if l.knots == nil {
		l.knots = make([]knot, 0, 96)
	}
	l.knots = append(l.knots[:0], knot{0, startC, startC})
}

// write notes a step's end.
func (l *layer) write(seconds, flux float64) {
	l.knots = append(l.knots, knot{seconds, l.centre(), l.outside(flux)})
}

// steamer is a filling on its way: steam goes through its tiers from below, each
// takes what it can of what reaches it, and what is left goes on.
type steamer struct {
	tiers   []tier
	steamC  float64
	powerW  float64 // +Inf for steam without end
	paceS   float64 // the full step
	seconds float64
	steps   int
	freeS   float64 // when steam flows freely; +Inf until then
	escapes float64 // W, at the last knot
	swapS   float64 // when the lowest and the uppermost tier change places; 0 or +Inf = never
	// Joules, since loading.
	made, taken, escaped float64
}

// start makes the steamer ready to advance.
func (s *steamer) start() {
	s.paceS, s.freeS = never, never
	for _, t := range s.tiers {
		for _, l := range t.layers {
			s.paceS = min(s.paceS, l.relaxS*fullStep)
			l.course = s
		}
	}
	s.escapes = s.escaping()
	if s.escapes >= (1-fullFlowShare)*s.powerW {
		s.freeS = 0
	}
}

// free says whether steam flows freely.
func (s *steamer) free() bool { return s.freeS <= s.seconds }

func (s *steamer) steady() float64 {
	if s.free() {
		return s.steamC
	}
	return never
}

func (s *steamer) advance() {
	dt, theta := stepOf(s.steps, s.paceS, !s.free())
	if s.seconds < s.swapS && s.seconds+dt >= s.swapS {
		dt = s.swapS - s.seconds
		defer s.swap()
	}
	power := s.powerW
	for i := range s.tiers {
		t := &s.tiers[i]
		within := (1 - t.bypass) * power
		for _, l := range t.layers {
			l.pace(dt, theta)
			l.reckon()
			flux := l.wants(s.steamC, 0)
			if flux*l.areaM2 > within {
				flux = within / l.areaM2
			}
			l.take(flux)
			within -= flux * l.areaM2
			power -= flux * l.areaM2
			s.taken += flux * l.areaM2 * dt
		}
	}
	s.seconds += dt
	s.steps++
	s.made += s.powerW * dt
	s.escaped += power * dt
	s.mark(dt)
}

// swap lets the lowest and the uppermost tier change places.
func (s *steamer) swap() {
	top := len(s.tiers) - 1
	s.tiers[0], s.tiers[top] = s.tiers[top], s.tiers[0]
}

// mark writes the knots of a step, and when steam began to flow freely in it.
func (s *steamer) mark(dt float64) {
	before := s.escapes
	s.escapes = s.escaping()
	for _, t := range s.tiers {
		for _, l := range t.layers {
			l.write(s.seconds, l.flux)
		}
	}
	if enough := (1 - fullFlowShare) * s.powerW; math.IsInf(s.freeS, 1) && s.escapes >= enough {
		s.freeS = s.seconds - dt*(s.escapes-enough)/(s.escapes-before)
	}
}

// escaping is the steam, in W, that none of the tiers takes at this moment.
func (s *steamer) escaping() float64 {
	power := s.powerW
	for i := range s.tiers {
		t := &s.tiers[i]
		within := (1 - t.bypass) * power
		for _, l := range t.layers {
			l.flux = min(l.demand(s.steamC), within/l.areaM2)
			within -= l.flux * l.areaM2
			power -= l.flux * l.areaM2
		}
	}
	return power
}
