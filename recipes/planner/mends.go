package planner

// short counts what a group of guests is short of.
func (x *explaining) short(g int) (Short, bool) {
	s := Short{Group: g}
	s.People, s.Helpings = shortOf(x.plan, g)
	if s.Helpings == 0 {
		return s, false
	}
	most, _ := x.eligible()
	for d, suits := range x.Guests[g].Suits {
		if suits {
			s.Suiting++
			if _, ok := most[d]; ok {
				s.Made++
			}
		}
	}
	return s, true
}

// shortOf counts the people of a group who are short, and by how many helpings.
func shortOf(plan Plan, g int) (people, helpings int) {
	for _, plate := range plan.Plates {
		if plate.Group == g && plate.Short > 0 {
			people++
			helpings += plate.Short
		}
	}
	return people, helpings
}

// mend finds which cause, relaxed alone, leaves none of a group short. Of causes
// measured alike the smallest amount is best; crops come before counts.
func (x *explaining) mend(short Short, bounds []Bound) *Mend {
	if short.Suiting < x.Sides {
		return nil
	}
	served := func(plan Plan) bool {
		_, helpings := shortOf(plan, short.Group)
		return len(plan.Plates) > 0 && helpings == 0
	}
	var best *Mend
	for _, b := range bounds {
		if !b.mayMend(best) {
			continue
		}
		wholly, ok := x.best(b.Cause, nil)
		if !ok || !served(wholly) {
			continue
		}
		plan, amount := x.smallest(b.Cause, &wholly, x.best, served)
		if step, _ := x.step(b.Cause); plan == nil && step != nil {
			continue
		}
		if m := (&Mend{b.Cause, amount}); best == nil || m.isLess(best) {
			best = m
		}
	}
	return best
}

// mayMend reports whether a cause could mend what is short, and better than another does:
// what is measured otherwise is no better.
func (b Bound) mayMend(best *Mend) bool {
	return b.Improves == Fed && (best == nil || best.Unit == b.Unit)
}

// isLess tells a smaller amount of what is measured alike.
func (m *Mend) isLess(o *Mend) bool {
	return m.Unit == o.Unit && m.Amount != nil && o.Amount != nil && m.Amount.Cmp(o.Amount) < 0
}
