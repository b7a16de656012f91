package heat

import "math"

// never is a moment that does not come, and a supply without end.
var never = math.Inf(1)

// hair is more than a sum of floating point is off by.
const hair = 1e-9

// wholes is how many whole ones a number of them takes.
func wholes(number float64) int { return int(math.Ceil(number - hair)) }

// knot is a piece's temperatures at a moment from loading.
type knot struct{ seconds, centre, surface float64 }

// course is a run on its way: what goes on around one piece or several.
type course interface {
	// advance takes one step and writes down its knots.
	advance()
	// steady is the temperature, in °C, that a centre comes to and stays at from
	// here on; +Inf while that is not settled.
	steady() float64
}

// history is how a piece heats, from loading on: one run, whatever is asked of it
// afterwards, whether doneness, hardening, enzymes or its outside. It goes on by
// itself as far as a question needs.
type history struct {
	course course
	knots  []knot
}

const (
	// longestS is when a run gives up.
	longestS = 3 * 3600
	// softensC: below it pectin does not soften, whatever the cook value
	// (known_by: memory). With the targets in use it binds in large pieces that are
	// to be just tender.
	softensC = 80
	// countsC: below it a cook value grows by nothing worth adding up, for the
	// slowest z there is.
	countsC = 35
	// nearlyC is how near to its surroundings a centre is taken to stay; what is
	// left of a cook value follows at a constant rate.
	nearlyC = 0.005
)

func (h *history) last() knot { return h.knots[len(h.knots)-1] }

// over says whether nothing more comes: the time is up, or the centre stays.
func (h *history) over() bool {
	last := h.last()
	return last.seconds >= longestS || math.Abs(h.course.steady()-last.centre) < nearlyC
}

// reach goes on until that many seconds from loading.
func (h *history) reach(seconds float64) {
	for h.last().seconds < seconds && !h.over() {
		h.course.advance()
	}
}

// doneness is when a cook value is reached.
type doneAt struct {
	seconds float64
	centreC float64
	done    bool
}

// cooked is when the centre has the cook value target, in minutes at 100 °C, by z.
func (h *history) cooked(target, z float64) doneAt {
	gathered := cooking{scale: math.Ln10 / z}
	for i := 0; ; i++ {
		for i+1 >= len(h.knots) {
			if h.over() {
				return h.linger(gathered.value, target, z)
			}
			h.course.advance()
		}
		from, to := h.knots[i], h.knots[i+1]
		if to.centre < countsC {
			continue
		}
		gain := gathered.over(from.seconds, to.seconds, from.centre, to.centre)
		if gathered.value+gain >= target && to.centre >= softensC {
			share := gathered.within(target-gathered.value, to.seconds-from.seconds)
			if from.centre < softensC {
				share = max(share, (softensC-from.centre)/(to.centre-from.centre))
			}
			return doneAt{from.seconds + share*(to.seconds-from.seconds), from.centre + share*(to.centre-from.centre), true}
		}
		gathered.value += gain
	}
}

// linger adds what is left of a target at the temperature the centre stays at.
func (h *history) linger(gathered, target, z float64) doneAt {
	last := h.last()
	if last.seconds >= longestS || last.centre < softensC {
		return doneAt{seconds: longestS, centreC: last.centre}
	}
	rate := math.Exp((last.centre - 100) * math.Ln10 / z)
	d := doneAt{seconds: last.seconds + max(0, target-gathered)/rate*60, centreC: last.centre}
	d.done = d.seconds <= longestS
	return d
}

// cooking adds up a cook value, in minutes at 100 °C. Between two knots the
// temperature is taken to go straight, so that the rate is an exponential.
type cooking struct {
	scale        float64 // 1/K
	value        float64
	first, log   float64 // of the last step: its rate at the start, and how the rate grew
	before, rate float64 // the temperature last reckoned, and its rate
}

func (c *cooking) rateAt(celsius float64) float64 {
	if celsius != c.before {
		c.before, c.rate = celsius, math.Exp((celsius-100)*c.scale)
	}
	return c.rate
}

// over is what a step gains.
func (c *cooking) over(fromS, toS, from, to float64) float64 {
	c.first = c.rateAt(from)
	second := c.rateAt(to)
	c.log = (to - from) * c.scale
	if math.Abs(c.log) < 1e-6 {
		return (c.first + second) / 2 * (toS - fromS) / 60
	}
	return (second - c.first) / c.log * (toS - fromS) / 60
}

// within is the share of the last step, of that many seconds, by which it has
// gained so much.
func (c *cooking) within(gain, seconds float64) float64 {
	part := max(0, gain) * 60 / (seconds * c.first)
	if math.Abs(c.log) < 1e-6 {
		return min(1, part)
	}
	return min(1, math.Log1p(part*c.log)/c.log)
}

// gathered is the cook value between two moments, of the centre or of the
// surface.
func (h *history) gathered(fromS, toS, z float64, of func(knot) float64) float64 {
	h.reach(toS)
	sum := cooking{scale: math.Ln10 / z}
	for i := 1; i < len(h.knots); i++ {
		a, b := h.knots[i-1], h.knots[i]
		start, end := max(a.seconds, fromS), min(b.seconds, toS)
		if end <= start {
			continue
		}
		at := func(s float64) float64 { return of(a) + (of(b)-of(a))*(s-a.seconds)/(b.seconds-a.seconds) }
		sum.value += sum.over(start, end, at(start), at(end))
	}
	if last := h.last(); last.seconds < toS { // it stays as it is
		rate := math.Exp((of(last) - 100) * sum.scale)
		sum.value += (toS - max(last.seconds, fromS)) / 60 * rate
	}
	return sum.value
}

func centreOf(k knot) float64  { return k.centre }
func surfaceOf(k knot) float64 { return k.surface }

// at is how the piece stands at a moment.
func (h *history) at(seconds float64) knot {
	h.reach(seconds)
	for i := 1; i < len(h.knots); i++ {
		a, b := h.knots[i-1], h.knots[i]
		if seconds <= b.seconds {
			share := (seconds - a.seconds) / (b.seconds - a.seconds)
			return knot{seconds, a.centre + share*(b.centre-a.centre), a.surface + share*(b.surface-a.surface)}
		}
	}
	last := h.last()
	last.seconds = seconds
	return last
}
