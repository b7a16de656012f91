package heat

// bath is a piece on its way in surroundings that stay as warm as they are: ice
// water, air.
type bath struct {
	layer
	aroundC float64
	seconds float64
	steps   int
}

func (b *bath) start() { b.course = b }

// steady: a bath's pieces are watched until they are asked for no more.
func (b *bath) steady() float64 { return b.aroundC }

func (b *bath) advance() {
	dt, theta := stepOf(b.steps, b.relaxS*fullStep, false)
	b.pace(dt, theta)
	b.reckon()
	flux := b.wants(b.aroundC, 0)
	b.take(flux)
	b.seconds += dt
	b.steps++
	b.write(b.seconds, b.demand(b.aroundC))
}
