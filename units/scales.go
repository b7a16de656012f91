package units

// band is a step and the amount below which it holds.
type band struct{ below, step number }

// Steps of the scales, in grams, and of the jug, in millilitres (the
// measures dossier's rounding, common practice).
var (
	scaleBands = []band{{whole(50), whole(1)}, {whole(500), whole(5)}, {whole(2000), whole(10)}}
	scaleAbove = whole(50)
	jugBands   = []band{{whole(100), whole(5)}, {whole(500), whole(10)}}
	jugAbove   = whole(25)
	ounceBands = []band{{whole(8), ratio(1, 4)}, {whole(16), ratio(1, 2)}, {whole(64), whole(1)}}
	ounceAbove = whole(4)
	rulerBands = []band{{whole(20), whole(1)}}
	rulerAbove = whole(5)
)

// stepAt is the step for an amount; an instrument's own finest step replaces
// the first and bounds the others.
func stepAt(n number, bands []band, above, finest number) number {
	for i, b := range bands {
		if n.cmp(b.below) < 0 {
			if i == 0 && finest.sign() > 0 {
				return finest
			}
			return larger(b.step, finest)
		}
	}
	return larger(above, finest)
}

// spoonBelow is the weight in grams too small for kitchen scales.
var spoonBelow = whole(2)

func (k Kitchen) onScales(q Quantity, o MeasureOptions) measuredEnd {
	if s := k.system(); isCustomaryMass(q.unit) && (s == UK || s == US) {
		return inOunces(in(q, Ounce), o)
	}
	grams := in(q, Gram)
	finest := number{}
	if k.ScaleStep.hasNumber() && k.ScaleStep.Dimension() == Mass {
		finest = in(k.ScaleStep, Gram)
	}
	coarse := finest.sign() == 0 || finest.cmp(whole(1)) >= 0
	rounded := toStep(grams, stepAt(grams, scaleBands, scaleAbove, finest), o.RoundDown)
	if o.Density != nil && o.Density.Sign() > 0 && coarse {
		spoon := k.inSpoons(grams.quo(fromRat(o.Density)), o)
		bySpoon, byScale := off(spoon.moved, number{}), off(rounded, grams).quo(grams)
		if grams.cmp(spoonBelow) < 0 || byScale.cmp(nearEnough) > 0 && bySpoon.cmp(byScale) < 0 {
			return spoon
		}
	}
	if rounded.cmp(whole(1000)) >= 0 {
		return measured(formatNumber(rounded.quo(whole(1000)))+" kg", rounded, grams, Gram)
	}
	return measured(formatNumber(rounded)+" g", rounded, grams, Gram)
}

func isCustomaryMass(u Unit) bool {
	return u == Ounce || u == Pound || u == Stone
}

// inOunces is for scales marked in pounds and ounces.
func inOunces(ounces number, o MeasureOptions) measuredEnd {
	rounded := toStep(ounces, stepAt(ounces, ounceBands, ounceAbove, number{}), o.RoundDown)
	pounds := floor(rounded.quo(whole(16)))
	rest := rounded.sub(pounds.mul(whole(16)))
	text := printed(rest) + " oz"
	if pounds.sign() > 0 {
		text = printed(pounds) + " lb"
		if rest.sign() > 0 {
			text += " " + printed(rest) + " oz"
		}
	}
	return measured(text, rounded, ounces, Ounce)
}

// onRuler is for lengths: a piece of ginger, a strip. What is written in
// inches stays in inches, by the quarter, where the kitchen has them.
func (k Kitchen) onRuler(q Quantity, o MeasureOptions) measuredEnd {
	if s := k.system(); q.unit == Inch && (s == UK || s == US) {
		rounded := toStep(q.low, ratio(1, 4), o.RoundDown)
		return measured(printed(rounded)+" in", rounded, q.low, Inch)
	}
	mm := in(q, Millimetre)
	rounded := toStep(mm, stepAt(mm, rulerBands, rulerAbove, number{}), o.RoundDown)
	return measured(formatNumber(rounded)+" mm", rounded, mm, Millimetre)
}
