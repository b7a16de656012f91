package integer

import "math/big"

// extend writes a new row into the program; tableaus take it up before they
// are next optimised.
func (s *shape) extend(r Row) {
	s.prog.cuts = append(s.prog.cuts, r)
	s.addRow(&r, -1, -1)
}

// refused asks Separate about a candidate, and writes down the rows it breaks.
func (s *search) refused(x []int64) bool {
	if s.prog.separate == nil {
		return false
	}
	at := make([]float64, len(x))
	for j, v := range x {
		at[j] = float64(v)
	}
	refused := false
	var sum, term big.Int
	for _, r := range s.ask(at) {
		if r.breaks(x, &sum, &term) {
			s.write(r)
			refused = true
		}
	}
	return refused || s.fault != nil
}

// separate rounds rows at the root and asks Separate about the relaxation's point, and
// writes down the rows that cut it off clearly.
func (s *search) separate(t *tableau, depth int) {
	at := make([]float64, len(s.columns))
	for j := range at {
		at[j] = t.value(j)
	}
	if depth == 0 && (s.closely || len(s.columns) >= s.work.columns) {
		s.writeDown(t, s.prog.roundings(at))
	}
	if s.prog.separate != nil {
		s.writeDown(t, s.ask(at))
	}
}

// writeDown writes those of the rows that cut off the relaxation's point clearly.
func (s *search) writeDown(t *tableau, rows []Row) {
	for _, r := range rows {
		if t.cutsOff(&r) {
			s.write(r)
		}
	}
}

// write writes a row down.
func (s *search) write(r Row) {
	s.work.written++
	s.shape.extend(r)
}

// ask calls Separate, which may be at fault.
func (s *search) ask(at []float64) []Row {
	rows := s.prog.separate(at)
	for _, r := range rows {
		if s.fault = r.check(len(s.columns)); s.fault != nil {
			return nil
		}
	}
	return rows
}

// leastGain is how far a row must cut off the relaxation's point to be worth
// writing down.
const leastGain = 0.002

// cutsOff reports whether the relaxation's point breaks the row clearly.
func (t *tableau) cutsOff(r *Row) bool {
	bits := bitsOf(r.Terms)
	if bits == 0 {
		return false
	}
	sum := -scaled(r.Limit, -bits)
	for _, in := range r.Terms {
		sum += float64(scaled(in.Coef, -bits) * t.value(in.Column))
	}
	return sum > leastGain
}
