package heat

import "math"

// bath is a piece on its way in surroundings that stay as warm as they are: ice
// water, air.
type bath struct {
	layer
	aroundC float64
	seconds float64
	steps   int
}

// newBath puts a piece that is one temperature all through into surroundings, behind
// a film.
func newBath(body Body, p Properties, film, fromC, aroundC float64) *bath {
	b := &bath{aroundC: aroundC}
	b.begin(body, p, shells, film, 0, fromC)
	b.start()
	return b
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

// until is when the centre passes a temperature, in s; the longest where it does not
// by then. Between two steps it nears its surroundings by an exponential.
func (b *bath) until(celsius, longest float64) float64 {
	before := b.last()
	for before.seconds < longest {
		b.advance()
		now := b.last()
		if (now.centre <= celsius) == (before.centre > celsius) {
			share := math.Log((before.centre-b.aroundC)/(celsius-b.aroundC)) / math.Log((before.centre-b.aroundC)/(now.centre-b.aroundC))
			return before.seconds + (now.seconds-before.seconds)*share
		}
		before = now
	}
	return before.seconds
}

// after is how warm the centre is after so many seconds.
func (b *bath) after(seconds float64) float64 {
	before, now := b.last(), b.last()
	for now.seconds < seconds {
		b.advance()
		before, now = now, b.last()
	}
	if now.seconds == before.seconds {
		return now.centre
	}
	return before.centre + (now.centre-before.centre)*(seconds-before.seconds)/(now.seconds-before.seconds)
}
