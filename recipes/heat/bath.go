package heat

import "math"

// bath is a piece on its way in surroundings that stay as warm as they are: ice
// water, air.
type bath struct {
	layer
	aroundC float64
	slowS   float64 // that the whole piece takes to come e times nearer, were it as warm inside as outside
	seconds float64
	steps   int
}

// Once a quarter of radius² over diffusivity is past, what is left of a piece's
// profile goes as its slowest part does, and the steps as well: slowStep of the time
// it takes moves a cooling time by less than a thousandth.
const (
	settledShare = 1.0 / 4
	slowStep     = 1.0 / 20
)

// newBath puts a piece that is one temperature all through into surroundings, behind
// a film.
func newBath(body Body, p Properties, film, fromC, aroundC float64) *bath {
	b := &bath{aroundC: aroundC}
	b.begin(body, p, shells, film, 0, fromC)
	b.start()
	return b
}

func (b *bath) start() {
	b.course = b
	b.slowS = b.stores / b.warming.conductance
}

// steady: a bath's pieces are watched until they are asked for no more.
func (b *bath) steady() float64 { return b.aroundC }

func (b *bath) advance() {
	full := b.relaxS * fullStep
	if b.seconds > b.relaxS*settledShare {
		full = max(full, b.slowS*slowStep)
	}
	dt, theta := stepOf(b.steps, full, false)
	b.pace(dt, theta)
	b.reckon()
	flux := b.wants(b.aroundC, 0)
	b.take(flux)
	b.seconds += dt
	b.steps++
	b.write(b.seconds, b.demand(b.aroundC))
}

// until is when the centre passes a temperature, in s from the beginning; the longest
// where it does not by then. Between two steps it nears its surroundings by an
// exponential.
func (b *bath) until(celsius, longest float64) float64 {
	before := b.knots[0]
	if (celsius-b.aroundC)*(before.centre-b.aroundC) <= 0 {
		return longest // it only nears its surroundings
	}
	for i := 1; before.seconds < longest; i++ {
		if i == len(b.knots) {
			b.advance()
		}
		now := b.knots[i]
		if (now.centre <= celsius) == (before.centre > celsius) {
			share := math.Log((before.centre-b.aroundC)/(celsius-b.aroundC)) / math.Log((before.centre-b.aroundC)/(now.centre-b.aroundC))
			return before.seconds + (now.seconds-before.seconds)*share
		}
		before = now
	}
	return before.seconds
}
