package integer

import "slices"

// polish betters the incumbent by one column after the other for as long as that helps:
// one more of what the goal wants, or one less of what it does not (local search; E. Aarts
// and J. K. Lenstra, Local Search in Combinatorial Optimization, Wiley 1997, 1). Branching
// comes to such a solution late, as what it rounds breaks rows.
func (s *search) polish() {
	if s.best == nil || s.goal.coefs == nil {
		return
	}
	for again := true; again; {
		again = false
		for j := range s.columns {
			for s.better(j) {
				again = true
			}
		}
	}
}

// better changes column j of the incumbent by one, or by a batch, for the better; false
// where that gives no solution.
func (s *search) better(j int) bool {
	c, had := s.columns[j], s.best[j]
	next := had
	switch s.goal.coefs[j].Sign() {
	case 0:
		return false
	case 1:
		next = max(had+1, c.Batch)
	case -1:
		if next--; next < c.Batch {
			next = 0
		}
	}
	if next < c.Least || next > c.Most {
		return false
	}
	x := slices.Clone(s.best)
	x[j] = next
	if s.prog.repair != nil {
		s.prog.repair(x)
	}
	return s.improve(x, bettered)
}
