package heat

import "math"

// Learned is what knife tests have shown of this kitchen and a crop. Its minutes are
// the model's times Factor, for a target of Doneness times the model's, and Offset
// later. The zero value has learned nothing and changes nothing.
type Learned struct {
	Factor    float64 // the middle of what is likely
	Low, High float64 // the factor lies between them nine times in ten
	Offset    float64 // minutes that the clock is late
	Doneness  float64 // what is called done here, as a share of the target
	Tests     int
	Assumed   int // tests that do not say what they were made under: the kitchen's own conditions stand in
	belief    *belief
}

// leastTest is the shortest time, in minutes, that a knife test says anything
// about, and longestTest the longest that anybody steams for.
const leastTest, longestTest = 0.5, 180.0

// nineInTen is that many standard deviations to either side.
const nineInTen = 1.645

// learn weighs readings against what was likely before. Their order does not
// matter. Those that cannot be (no time expected, or none found) are left out.
func learn(readings []reading) Learned {
	var fit []reading
	for _, r := range readings {
		if r.minutes >= leastTest && r.at >= leastTest {
			fit = append(fit, r)
		}
	}
	if len(fit) == 0 {
		return Learned{}
	}
	b := prior.after(fit)
	phi, spread := b.mean(func(n kitchenNode) float64 { return n.phi })
	clock, _ := b.mean(func(n kitchenNode) float64 { return n.clock })
	delta, _ := b.mean(func(n kitchenNode) float64 { return n.delta })
	return Learned{Factor: math.Exp(phi), Low: math.Exp(phi - nineInTen*spread), High: math.Exp(phi + nineInTen*spread),
		Offset: clock, Doneness: math.Exp(delta), Tests: len(fit), belief: &b}
}

// outlook is the expected minutes of this kitchen, with the band that the next
// reading lies in nine times in ten. Before any test they are the model's own.
func (l Learned) outlook(minutes, sensitivity float64) (expected, low, high float64) {
	if l.belief == nil || minutes <= 0 {
		low, high = prior.band(minutes, sensitivity)
		return minutes, low, high
	}
	o := l.belief.outcome(prior, minutes, sensitivity)
	return o.quantile(0.5, minutes), o.quantile(0.05, minutes), o.quantile(0.95, minutes)
}

// expects is outlook's expected minutes alone.
func (l Learned) expects(minutes, sensitivity float64) float64 {
	if l.belief == nil || minutes <= 0 {
		return minutes
	}
	return l.belief.outcome(prior, minutes, sensitivity).quantile(0.5, minutes)
}
