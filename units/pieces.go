package units

// nearEnough is how far off a coarser cut may be before a finer one is taken.
var nearEnough = ratio(10, 100)

// pieces counts: whole ones, at least one; halves and quarters where a knife can
// cut them and whole ones are more than a tenth off.
func pieces(q Quantity, o MeasureOptions) measuredEnd {
	exact := in(q, q.unit.piece())
	finest := max(1, o.Knife)
	if o.Halves {
		finest = max(2, finest)
	}
	rounded := toStep(exact, whole(1), o.RoundDown)
	for parts := 1; parts <= finest; parts *= 2 {
		finer := toStep(exact, ratio(1, int64(parts)), o.RoundDown)
		if off(finer, exact).cmp(off(rounded, exact)) < 0 {
			rounded = finer
		}
		if off(rounded, exact).cmp(exact.mul(nearEnough)) <= 0 {
			break
		}
	}
	text := printed(rounded)
	if kind := q.unit.Kind(); kind != Piece.Kind() {
		text = counted(rounded, kind)
	}
	return measured(text, rounded, exact, q.unit.piece())
}

// piece is the single one of what u counts: a dozen is of pieces.
func (u Unit) piece() Unit {
	if u.Kind() == Piece.Kind() {
		return Piece
	}
	return u
}

// rough rounds pinches, sprigs and knobs to the half: nobody takes 3.7
// pinches.
func (k Kitchen) rough(q Quantity) measuredEnd {
	rounded := toStep(q.low, ratio(1, 2), false)
	return measured(counted(rounded, q.unit.Symbol()), rounded, q.low, q.unit)
}

// weighed is a count as a weight, for the cook who wants it exact: three and
// a half eggs are a whisked weight.
func (k Kitchen) weighed(q Quantity, o MeasureOptions) string {
	low, high := o.Each.Scale(q.low.rat()), o.Each.Scale(q.high.rat())
	text := k.measureEnd(low.Low(), MeasureOptions{}).text
	if q.IsRange() {
		text += " to " + k.measureEnd(high.High(), MeasureOptions{}).text
	}
	if o.EachName == "" {
		return "or " + text
	}
	return "or " + text + " of " + o.EachName
}
