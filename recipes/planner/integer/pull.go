package integer

import (
	"math/big"
	"slices"
)

// A pull is a goal that every solution has to bring to least. Where the relaxation
// says that little more can be had, its prices draw the columns in (reduced-cost
// fixing; Nemhauser and Wolsey, Integer and Combinatorial Optimization, Wiley 1988,
// II.5.2), which holds in every search for any solution, whatever it is for.
type pull struct {
	goal  objective
	least *big.Int
	row   int     // that holds it, or -1
	held  float64 // how many columns it nearly holds
}

// pull keeps an aim in mind as one that has to come to least, and narrows the
// columns by it for good.
func (s *session) pull(a *aim, least *big.Int) {
	if a.row >= 0 {
		s.pulls = slices.DeleteFunc(s.pulls, func(p pull) bool { return p.row == a.row })
	}
	s.pulls = append(s.pulls, pull{goal: a.objective, least: least, row: a.row})
	s.purge()
	s.drawIn(s.base, &s.pulls[len(s.pulls)-1])
	s.narrow()
}

// narrow keeps for good what pulls have narrowed.
func (s *session) narrow() {
	for j := range s.prog.columns {
		c := &s.prog.columns[j]
		c.Least, c.Most = s.base.low[j], s.base.high[j]
	}
}

// loosen lets go, in one relaxation, of the rows that hold later goals and leave the
// pull's nothing to spare: few portions, once as many as can be are asked for. What
// follows without them follows.
func (s *session) loosen(t *tableau, p *pull) (fasten func()) {
	var rows []int
	for i := range s.pulls {
		if q := &s.pulls[i]; q.row > p.row && p.row >= 0 && s.prog.rows[q.row].along(&p.goal) {
			rows = append(rows, q.row)
		}
	}
	for _, i := range rows {
		least, _ := s.prog.slackRange(&s.prog.rows[i])
		t.tighten(i, new(big.Int).Sub(s.prog.rows[i].Limit, least))
	}
	return func() {
		for _, i := range rows {
			t.tighten(i, s.prog.rows[i].Limit)
		}
	}
}

// along reports whether whatever makes the row's sum greater makes the goal better.
func (r *Row) along(o *objective) bool {
	if o.coefs == nil {
		return false
	}
	for _, t := range r.Terms {
		if t.Coef.Sign()*o.coefs[t.Column].Sign() <= 0 {
			return false
		}
	}
	return true
}

// drawAll lets pulls narrow the columns of a relaxation; false says that they leave
// nothing.
func (s *session) drawAll(t *tableau, pulls []pull) bool {
	for i := range pulls {
		if pulls[i].least != nil && !s.drawIn(t, &pulls[i]) {
			return false
		}
	}
	return true
}

// drawIn narrows the columns of a relaxation to where the pull's goal can come to its
// least; false says that it cannot.
func (s *session) drawIn(t *tableau, p *pull) bool {
	p.held = 0
	s.work.drawn++
	t.aim(p.goal)
	defer s.loosen(t, p)()
	st := t.reoptimise(s.work)
	bound, shut := s.cert.judge(t, st, new(big.Int).Sub(p.least, big.NewInt(1)))
	if shut {
		return false
	}
	if st == optimal && bound != nil {
		s.cert.squeeze(t, p.least)
		p.held = s.cert.held(t, p.least)
	}
	return true
}
