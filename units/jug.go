package units

// inJug measures in a jug marked in millilitres; what would not cover its
// bottom is measured with spoons.
func (k Kitchen) inJug(ml number, o MeasureOptions) measuredEnd {
	if ml.cmp(k.spoons().tablespoon.entry.factor) < 0 {
		return k.inSpoons(ml, o)
	}
	finest := number{}
	if k.JugStep.hasNumber() && k.JugStep.Dimension() == Volume {
		finest = in(k.JugStep, Millilitre)
	}
	rounded := toStep(ml, stepAt(ml, jugBands, jugAbove, finest), o.RoundDown)
	if rounded.cmp(whole(1000)) >= 0 {
		return measured(formatNumber(rounded.quo(whole(1000)))+" l", rounded, ml, Millilitre)
	}
	return measured(formatNumber(rounded)+" ml", rounded, ml, Millilitre)
}

// Measuring cups are made in these fractions.
var cupFractions = []number{ratio(1, 4), ratio(1, 3), ratio(1, 2), ratio(2, 3), ratio(3, 4), whole(1)}

// manyCups is the number past which a quarter of a cup is near enough.
var manyCups = whole(4)

// inCups measures with cups, and tablespoons where the cups alone would move
// the amount by more than 2 %.
func (k Kitchen) inCups(ml number, o MeasureOptions) measuredEnd {
	cup, spoon := Cup, k.spoons().tablespoon
	if k.system() == US {
		cup = CupUS
	}
	cups := ml.quo(cup.entry.factor)
	if cups.cmp(ratio(1, 4)) < 0 {
		return k.inSpoons(ml, o)
	}
	if cups.cmp(manyCups) >= 0 {
		rounded := toStep(cups, ratio(1, 4), o.RoundDown)
		return measured(counted(rounded, "cup"), rounded, cups, cup)
	}
	full := floor(cups)
	best := full.add(nearestCup(cups.sub(full), o.RoundDown))
	text := counted(best, "cup")
	if off(best, cups).cmp(cups.mul(noteShare)) <= 0 {
		return measured(text, best, cups, cup)
	}
	if with, said := cupsAndSpoons(cups, spoon.entry.factor.quo(cup.entry.factor), o.RoundDown); off(with, cups).cmp(off(best, cups)) < 0 {
		best, text = with, said
	}
	return measured(text, best, cups, cup)
}

// nearestCup is the nearest cup fraction to a part of a cup; nothing is
// allowed here, for the full cups stand before it.
func nearestCup(part number, down bool) number {
	return nearestOf(part, append([]number{{}}, cupFractions...), down)
}

// cupsAndSpoons is the nearest sum of full cups, one fraction of a cup and
// up to three tablespoons.
func cupsAndSpoons(cups, spoon number, down bool) (best number, text string) {
	full := floor(cups)
	for _, part := range append([]number{{}}, cupFractions[:5]...) {
		base := full.add(part)
		if base.sign() == 0 || base.cmp(cups) > 0 {
			continue
		}
		spoons := floor(cups.sub(base).quo(spoon).add(ratio(1, 2)))
		if down {
			spoons = floor(cups.sub(base).quo(spoon))
		}
		spoons = smaller(spoons, whole(3))
		sum := base.add(spoons.mul(spoon))
		if text != "" && off(sum, cups).cmp(off(best, cups)) > 0 {
			continue
		}
		best, text = sum, counted(base, "cup")
		if spoons.sign() > 0 {
			text += " + " + printed(spoons) + " tbsp"
		}
	}
	return best, text
}
