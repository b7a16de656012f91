package heat

import "math"

// weighedTest is what a knife showed: pieces that were to take expected minutes
// from full flow, by the model alone, were done after found.
type weighedTest struct{ expected, found float64 }

// Learned is this kitchen's own truth: the factor between its minutes and the
// model's. The zero value has learned nothing and changes nothing.
type Learned struct {
	Factor    float64 // the middle of what is likely
	Low, High float64 // the factor lies between them nine times in ten
	Tests     int
	spread    float64 // standard deviation of the factor's logarithm
}

// What is known before the first test. The band of an estimate is read as
// holding nine times in ten; its logarithm's spread is parted into the sizes of
// pieces, which no test can learn away, and the rest, which belongs to this
// kitchen and crop. A knife test adds the cook's eye and the next prod's
// distance.
const (
	nineInTen    = 1.645 // standard deviations to either side
	bandSpread   = 0.203 // of a whole band, in logarithms: ln(11.9/6.1)/2 by nineInTen
	piecesSpread = 0.073 // ±7 % of size, time going with size to the power 1.73
	factorSpread = 0.189 // the root of bandSpread² less piecesSpread²
	testSpread   = 0.14
	// testTail is the freedom of Student's t that a test is taken to scatter
	// by: small, so that a wild entry pulls little.
	testTail = 4.0
)

// learn weighs knife tests against what was likely before: a log-normal prior
// as wide as the band, and for each test a likelihood with heavy tails, so that
// one wild entry moves little. The order of tests does not matter. Tests that
// cannot be (no time expected, or none found) are left out.
func learn(tests []weighedTest) Learned {
	const stops, reach = 601, 1.5
	var weight [stops]float64
	at := func(i int) float64 { return reach * (2*float64(i)/(stops-1) - 1) }
	count := 0
	for i := range weight {
		weight[i] = -at(i) * at(i) / (2 * factorSpread * factorSpread)
	}
	for _, test := range tests {
		if !(test.expected >= leastTest && test.found >= leastTest) {
			continue
		}
		count++
		ratio := math.Log(test.found / test.expected)
		for i := range weight {
			miss := (ratio - at(i)) / testSpread
			weight[i] -= (testTail + 1) / 2 * math.Log1p(miss*miss/testTail)
		}
	}
	if count == 0 {
		return Learned{}
	}
	return summed(weight[:], at, count)
}

// leastTest is the shortest time, in minutes, that a knife test says anything
// about.
const leastTest = 0.5

// summed turns the logarithms of weights into a factor with its band.
func summed(weight []float64, at func(int) float64, count int) Learned {
	top := weight[0]
	for _, w := range weight {
		top = max(top, w)
	}
	sum, mean, square := 0.0, 0.0, 0.0
	for i, w := range weight {
		weight[i] = math.Exp(w - top)
		sum += weight[i]
		mean += weight[i] * at(i)
		square += weight[i] * at(i) * at(i)
	}
	mean /= sum
	l := Learned{Tests: count, Factor: math.Exp(mean), spread: math.Sqrt(max(0, square/sum-mean*mean))}
	l.Low = math.Exp(share(weight, at, sum*0.05))
	l.High = math.Exp(share(weight, at, sum*0.95))
	return l
}

// share finds where the weights up to it reach part.
func share(weight []float64, at func(int) float64, part float64) float64 {
	run := 0.0
	for i, w := range weight {
		if run+w >= part {
			step := at(1) - at(0)
			return at(i) + step*((part-run)/w-0.5)
		}
		run += w
	}
	return at(len(weight) - 1)
}

// band scales minutes with their low and high: all by the factor, and the ends
// nearer as tests add up, never nearer than the sizes of pieces spread.
func (l Learned) band(minutes, low, high float64) (scaled, lower, higher float64) {
	if l.Tests == 0 || minutes <= 0 {
		return minutes, low, high
	}
	narrow := min(1, math.Hypot(l.spread, piecesSpread)/math.Hypot(factorSpread, piecesSpread))
	scaled = minutes * l.Factor
	return scaled, scaled * math.Pow(low/minutes, narrow), scaled * math.Pow(high/minutes, narrow)
}
