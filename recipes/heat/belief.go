package heat

import "math"

// reading is a knife test as the model sees it: what the model alone says of the
// piece, how that goes with the target, and what the knife said when.
type reading struct {
	minutes     float64 // of the model
	sensitivity float64 // d ln t / d ln C
	at          float64 // minutes
	said        Finding
}

// belief is how likely each kind of kitchen is after some readings: a grid over what
// [kitchens] spreads.
type belief struct{ nodes []kitchenNode }

// kitchenNode is one kind of kitchen, and how likely it is.
type kitchenNode struct {
	phi, delta, clock float64
	scatter           int // of scatterNodes
	weight            float64
}

// The grid reaches far enough for what a kitchen may be, with that many stops for
// each of its figures.
const (
	beliefReach = 3.5 // standard deviations
	phiStops    = 21
	deltaStops  = 11
	clockStops  = 11
	forgotten   = 1e-6 // of the likeliest
)

// Nodes and weights by which a function of a standard normal variable is averaged in
// three points (Abramowitz & Stegun 1964, table 25.10; known_by: computed).
var (
	scatterNodes   = [...]float64{-math.Sqrt2 * 1.224744871391589, 0, math.Sqrt2 * 1.224744871391589}
	scatterWeights = [...]float64{1.0 / 6, 2.0 / 3, 1.0 / 6}
)

// after is what is believed of a kitchen after its readings, in whatever order.
func (k kitchens) after(readings []reading) belief {
	b := belief{make([]kitchenNode, 0, len(scatterNodes)*phiStops*deltaStops*clockStops)}
	for s, share := range scatterWeights {
		for i := range phiStops {
			for j := range deltaStops {
				for l := range clockStops {
					x, y, z := stop(i, phiStops), stop(j, deltaStops), stop(l, clockStops)
					b.nodes = append(b.nodes, kitchenNode{x * k.phi, y * k.delta, z * k.clock, s, math.Log(share) - (x*x+y*y+z*z)/2})
				}
			}
		}
	}
	for _, r := range readings {
		b.weigh(k, r)
	}
	return b.weighed()
}

// weigh adds how likely a reading is to the weight of every node. Nodes that differ
// by their clock alone lie side by side: what their pieces take is reckoned once.
func (b belief) weigh(k kitchens, r reading) {
	for i := 0; i < len(b.nodes); i += clockStops {
		first := b.nodes[i]
		cooked := first.cooks(r.minutes, r.sensitivity)
		sd := k.spread(cooked, first.scatter)
		for l := range clockStops {
			n := &b.nodes[i+l]
			n.weight += k.likely(r, cooked+n.clock, sd)
		}
	}
}

// stop is where a stop of a grid lies, in standard deviations.
func stop(i, of int) float64 { return beliefReach * (2*float64(i)/float64(of-1) - 1) }

// weighed turns the logarithms of weights into weights that add up to 1, and forgets
// what is next to impossible.
func (b belief) weighed() belief {
	top := math.Inf(-1)
	for _, n := range b.nodes {
		top = max(top, n.weight)
	}
	kept, sum := b.nodes[:0], 0.0
	for _, n := range b.nodes {
		if n.weight = math.Exp(n.weight - top); n.weight >= forgotten {
			kept = append(kept, n)
			sum += n.weight
		}
	}
	for i := range kept {
		kept[i].weight /= sum
	}
	return belief{kept}
}

// likely is the logarithm of how likely a reading is where it is expected at mean, with
// that standard deviation.
func (k kitchens) likely(r reading, mean, sd float64) float64 {
	miss := (r.at - mean) / sd
	switch r.said {
	case NotYet:
		return math.Log(k.wild + (1-k.wild)*0.5*math.Erfc(miss/math.Sqrt2))
	case Over:
		return math.Log(k.wild + (1-k.wild)*0.5*math.Erfc(-miss/math.Sqrt2))
	}
	return math.Log((1-k.wild)*ofNormal/sd*math.Exp(-miss*miss/2) + k.wild/(r.at*anywhere))
}

// ofNormal is 1 over the root of 2 pi.
const ofNormal = 0.3989422804014327

// anywhere is the logarithm of the longest time that is read over the shortest: a
// reading that says nothing is as likely in any doubling.
var anywhere = math.Log(longestTest / leastTest)

// cooks is what the model's minutes are in such a kitchen, before its clock.
func (n kitchenNode) cooks(minutes, sensitivity float64) float64 {
	return minutes * math.Exp(n.phi+sensitivity*n.delta)
}

// spread is the standard deviation, in minutes, of a reading about so many minutes.
func (k kitchens) spread(minutes float64, scatter int) float64 {
	share := k.pieces*k.pieces + k.lot*k.lot
	return math.Exp(k.scatter*scatterNodes[scatter]) * math.Sqrt(k.glance*k.glance+share*minutes*minutes)
}

// outcome is where a reading may fall, as a mixture of normal distributions.
type outcome []place

// place is where some kitchens expect a reading, and how it scatters about that; in
// minutes.
type place struct{ mean, sd, weight float64 }

// below is the share of readings under so many minutes, and how it grows there, a
// minute.
func (o outcome) below(minutes float64) (share, slope float64) {
	for _, p := range o {
		off := (minutes - p.mean) / p.sd
		share += p.weight * 0.5 * math.Erfc(-off/math.Sqrt2)
		slope += p.weight * ofNormal / p.sd * math.Exp(-off*off/2)
	}
	return share, slope
}

// normal is the normal distribution as wide as the outcome, about its mean.
func (o outcome) normal() (mean, sd float64) {
	square := 0.0
	for _, p := range o {
		mean += p.weight * p.mean
		square += p.weight * (p.sd*p.sd + p.mean*p.mean)
	}
	return mean, math.Sqrt(max(0, square-mean*mean))
}

// quantile is what a share of the readings is under, to a thousandth of minutes: by
// Newton's rule from a normal distribution's, within the halves that bisection would
// leave. A very short time may be over before the clock has started: it is not under
// a twentieth of minutes.
func (o outcome) quantile(share, minutes float64) float64 {
	from, to := 0.0, 0.0
	for _, p := range o {
		to = max(to, p.mean+4*p.sd)
	}
	mean, sd := o.normal()
	at := mean + sd*math.Sqrt2*math.Erfinv(2*share-1)
	for to-from > 1e-3*minutes {
		if !(at > from && at < to) {
			if at = (from + to) / 2; at <= from || at >= to {
				break // no number lies between
			}
		}
		reached, slope := o.below(at)
		if reached < share {
			from = at
		} else {
			to = at
		}
		step := (share - reached) / slope
		at += step
		if math.Abs(step) < 1e-4*minutes {
			break
		}
	}
	return max(0.05*minutes, min(to, max(from, at)))
}

// outcome is what the next reading may be, for a time of that many minutes by the
// model. What all kitchens expect is gathered in bins of a fortieth of the span,
// each with its own mean.
func (b belief) outcome(k kitchens, minutes, sensitivity float64) outcome {
	const bins = 40
	means := make([]float64, len(b.nodes))
	low, high := never, math.Inf(-1)
	for i, n := range b.nodes {
		means[i] = n.cooks(minutes, sensitivity) + n.clock
		low, high = min(low, means[i]), max(high, means[i])
	}
	var sums [len(scatterNodes)][bins]struct{ mean, cooked, weight float64 }
	for i, n := range b.nodes {
		at := &sums[n.scatter][min(bins-1, int((means[i]-low)/(high-low)*bins))]
		at.mean += means[i] * n.weight
		at.cooked += (means[i] - n.clock) * n.weight
		at.weight += n.weight
	}
	var o outcome
	for scatter := range sums {
		for _, p := range sums[scatter] {
			if p.weight > 0 {
				o = append(o, place{p.mean / p.weight, k.spread(p.cooked/p.weight, scatter), p.weight})
			}
		}
	}
	return o
}

// mean is what is believed of a figure of the kitchen on the whole, with its
// standard deviation.
func (b belief) mean(of func(kitchenNode) float64) (mean, spread float64) {
	square := 0.0
	for _, n := range b.nodes {
		x := of(n)
		mean += n.weight * x
		square += n.weight * x * x
	}
	return mean, math.Sqrt(max(0, square-mean*mean))
}
