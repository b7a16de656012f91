package heat

import "math"

// pot is a load in boiling water on its way: the cold pieces cool the water, the
// stove warms it again.
type pot struct {
	layer
	heldC   float64 // what the water is kept at once it is there: the boil, or a simmer below it
	waterC  float64
	heatJK  float64 // J to warm water and pot by 1 K
	powerW  float64 // what the stove brings into the water
	lossWK  float64 // W lost by wall and lid for each K over the room
	openM2  float64 // of water without a lid
	seconds float64
	paceS   float64
	steps   int
	backS   float64 // when the water is as hot again as it is kept; +Inf until then
	lowestC float64 // the coldest the water gets
	// Joules, since loading.
	made, taken, lost, boiledOff float64
}

// roomC is what wall and lid lose their heat to.
const roomC = 20.0

func (p *pot) start() {
	p.paceS, p.backS, p.lowestC = p.relaxS*fullStep, never, p.waterC
	p.course = p
	if p.waterC >= p.heldC && p.demand(p.waterC)*p.areaM2 <= p.powerW-p.losses(p.waterC) {
		p.backS = 0
	}
}

func (p *pot) back() bool { return p.backS <= p.seconds }

func (p *pot) steady() float64 {
	if p.back() && p.waterC >= p.heldC {
		return p.heldC
	}
	return never
}

// losses is the heat, in W, that wall, lid and an open surface lose.
func (p *pot) losses(waterC float64) float64 {
	loss := p.lossWK * max(0, waterC-roomC)
	if p.openM2 > 0 {
		loss += p.openM2 * evaporating(waterC, roomC)
	}
	return loss
}

func (p *pot) advance() {
	dt, theta := stepOf(p.steps, p.paceS, !p.back())
	p.pace(dt, theta)
	p.reckon()
	power := p.powerW - p.losses(p.waterC)
	warmer := p.waterC + dt*power/p.heatJK // with nothing in it
	cools := dt * p.areaM2 / p.heatJK      // K for 1 W/m²
	mean := func(after float64) float64 { return theta*after + (1-theta)*p.waterC }
	flux := p.wants(mean(warmer), theta*cools)
	after := warmer - cools*flux
	if after > p.heldC { // what is over boils off
		after = p.heldC
		flux = p.wants(mean(after), 0)
		p.boiledOff += power*dt - flux*p.areaM2*dt - (after-p.waterC)*p.heatJK
	}
	p.take(flux)
	p.seconds += dt
	p.steps++
	p.made += p.powerW * dt
	p.lost += (p.powerW - power) * dt
	p.taken += flux * p.areaM2 * dt
	if math.IsInf(p.backS, 1) && after >= p.heldC {
		p.backS = p.seconds - dt*min(1, max(0, (warmer-cools*flux-p.heldC)/(p.heldC-p.waterC+1e-9)))
	}
	p.waterC = after
	p.lowestC = min(p.lowestC, after)
	p.write(p.seconds, p.demand(after))
}

// evaporating is the heat, in W/m², that an open, still water surface gives off by
// evaporation to half-damp air: the convective film of 5 W/(m² K) over the
// psychrometer's 66 Pa/K, by the difference of vapour pressures, which follow
// Magnus (known_by: memory).
func evaporating(waterC, airC float64) float64 {
	const film, psychrometer, damp = 5.0, 66.0, 0.5
	vapour := func(c float64) float64 { return 610.78 * math.Exp(17.27*c/(c+237.3)) }
	return film / psychrometer * max(0, vapour(waterC)-damp*vapour(airC))
}
