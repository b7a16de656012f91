package units

import "slices"

// spoonSet is a kitchen's spoons, in teaspoons.
type spoonSet struct {
	teaspoon, tablespoon Unit
	size                 number   // of a teaspoon, in ml
	perTablespoon        number   // 3, or 4 where the tablespoon is 20 ml
	below                []number // fractions of a teaspoon it can measure, and 1
	finest               number   // the smallest spoon, in teaspoons
}

func (k Kitchen) spoons() spoonSet {
	s := spoonSet{teaspoon: Teaspoon, tablespoon: Tablespoon}
	switch k.system() {
	case US:
		s.teaspoon, s.tablespoon = TeaspoonUS, SpoonUS
	case AU:
		s.tablespoon = SpoonAU
	}
	s.size = s.teaspoon.entry.factor
	s.perTablespoon = s.tablespoon.entry.factor.quo(s.size)
	s.finest = k.finestSpoon(s)
	owns := func(n number) bool { return len(k.Spoons) == 0 || k.ownsSpoon(n.mul(s.size)) }
	third := len(k.Spoons) > 0 && owns(ratio(1, 3)) // few sets have one
	for _, part := range []struct {
		of  number
		has bool
	}{
		{ratio(1, 8), owns(ratio(1, 8))},
		{ratio(1, 4), owns(ratio(1, 4))},
		{ratio(1, 3), third},
		{ratio(1, 2), owns(ratio(1, 2))},
		{ratio(2, 3), third},
		{ratio(3, 4), owns(ratio(1, 4)) || owns(ratio(3, 4))},
	} {
		if part.has {
			s.below = append(s.below, part.of)
		}
	}
	if owns(whole(1)) || len(s.below) > 0 {
		s.below = append(s.below, whole(1))
	}
	return s
}

// finestSpoon is the smallest spoon of a kitchen, in teaspoons: an eighth where none
// is named.
func (k Kitchen) finestSpoon(s spoonSet) number {
	if len(k.Spoons) == 0 {
		return ratio(1, 8)
	}
	finest := s.perTablespoon
	for _, spoon := range k.Spoons {
		if spoon.Dimension() == Volume && spoon.low.sign() > 0 {
			finest = smaller(finest, in(spoon, Millilitre).quo(s.size))
		}
	}
	return finest
}

// ownsSpoon tells whether a spoon of that many ml hangs in the drawer.
func (k Kitchen) ownsSpoon(ml number) bool {
	for _, spoon := range k.Spoons {
		if spoon.Dimension() == Volume && in(spoon, Millilitre).cmp(ml) == 0 {
			return true
		}
	}
	return false
}

// manySpoons is the number of tablespoons past which a jug or a cup is used.
var manySpoons = whole(4)

// pinchBelow is the share of a teaspoon under which it is a pinch.
var pinchBelow = ratio(1, 16)

// nearerPinch is the share of a teaspoon below which a pinch is nearer than the
// smallest spoon there is, an eighth.
var nearerPinch = ratio(3, 32)

// inSpoons measures with spoons: a fraction of a teaspoon, teaspoons by the
// quarter, then tablespoons and half teaspoons.
func (k Kitchen) inSpoons(ml number, o MeasureOptions) measuredEnd {
	s := k.spoons()
	tsp := ml.quo(s.size)
	if tsp.cmp(manySpoons.mul(s.perTablespoon)) > 0 {
		if k.system() == US {
			return k.inCups(ml, o)
		}
		return k.inJug(ml, o)
	}
	if tsp.cmp(nearerPinch) < 0 {
		return measured("a pinch", pinchBelow, tsp, s.teaspoon)
	}
	rounded := s.round(tsp, o.RoundDown)
	return measured(s.text(rounded), rounded, tsp, s.teaspoon)
}

func (s spoonSet) round(tsp number, down bool) number {
	step := ratio(1, 2)
	switch {
	case tsp.cmp(whole(1)) < 0 && len(s.below) > 0:
		return s.part(tsp, down)
	case tsp.cmp(s.perTablespoon) < 0:
		step = ratio(1, 4)
	}
	return toStep(tsp, larger(step, s.finest), down)
}

// part is a part of a teaspoon: a spoon there is, or where those are far off an
// odd number of eighths, which is a spoon and an eighth.
func (s spoonSet) part(tsp number, down bool) number {
	best := nearestOf(tsp, s.below, down)
	far := off(best, tsp).cmp(tsp.mul(mostShort)) > 0 || down && best.cmp(tsp) > 0
	if s.below[0].cmp(ratio(1, 8)) != 0 || !far {
		return best
	}
	return nearestOf(tsp, s.eighths(), down)
}

// eighths are the parts of a teaspoon with an eighth beside them, or with a pinch
// where eighths are far apart, rising.
func (s spoonSet) eighths() []number {
	list := append(slices.Clone(s.below), ratio(3, 16), ratio(5, 16), ratio(3, 8), ratio(5, 8), ratio(7, 8))
	slices.SortFunc(list, number.cmp)
	return list
}

// text says so many teaspoons in the fewest spoons: "2 tbsp + ½ tsp".
func (s spoonSet) text(tsp number) string {
	big := floor(tsp.quo(s.perTablespoon))
	rest := tsp.sub(big.mul(s.perTablespoon))
	switch {
	case tsp.below() == pinchBelow.below():
		return printed(tsp.sub(pinchBelow)) + " tsp + a pinch"
	case big.sign() == 0:
		return printed(rest) + " tsp"
	case rest.sign() == 0:
		return printed(big) + " tbsp"
	case rest.cmp(s.perTablespoon.mul(ratio(1, 2))) == 0:
		return printed(big.add(ratio(1, 2))) + " tbsp"
	}
	return printed(big) + " tbsp + " + printed(rest) + " tsp"
}
