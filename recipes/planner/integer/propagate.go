package integer

import "math/bits"

// A wholeTerm is a term of a row whose sums fit a word of the machine.
type wholeTerm struct {
	column int32
	coef   int64
}

// mostSummed is the bit length up to which such sums, and limits, may come.
const mostSummed = 59

// wholeTerms are the row's terms as words of the machine; nil where sums of them over the
// program's box may not fit one.
func (p *program) wholeTerms(r *Row) []wholeTerm {
	terms := make([]wholeTerm, 0, len(r.Terms))
	size := uint64(0)
	for _, t := range r.Terms {
		most := uint64(p.columns[t.Column].Most)
		if t.Coef.BitLen()+bits.Len64(most) > mostSummed {
			return nil
		}
		a := t.Coef.Int64()
		if size += uint64(max(a, -a)) * most; size >= 1<<mostSummed {
			return nil
		}
		if a != 0 {
			terms = append(terms, wholeTerm{int32(t.Column), a})
		}
	}
	return terms
}

// propagate narrows the node's box to what each of the program's rows allows by itself,
// in whole numbers, which a relaxation does not see (M. W. P. Savelsbergh, Preprocessing
// and probing techniques for mixed integer programming problems, ORSA Journal on
// Computing 6, 1994); false where a row allows nothing.
func (s *search) propagate(t *tableau) bool {
	for i := range s.prog.rows {
		terms, limit := t.shape.whole[i], s.prog.rows[i].Limit
		if len(terms) > 0 && limit.BitLen() <= mostSummed && !t.narrowBy(terms, limit.Int64()) {
			return false
		}
	}
	return true
}

// narrowBy narrows the box to where Σ coef·x ≤ limit can still be; false where it is empty.
func (t *tableau) narrowBy(terms []wholeTerm, limit int64) bool {
	for _, in := range terms {
		limit -= in.least(t)
	}
	if limit < 0 {
		return false
	}
	for _, in := range terms {
		if size := max(in.coef, -in.coef); (t.high[in.column]-t.low[in.column])*size > limit && !t.keepWithin(in, limit/size) {
			return false
		}
	}
	return true
}

// least is the least that the term can come to in the box.
func (in wholeTerm) least(t *tableau) int64 {
	if in.coef > 0 {
		return in.coef * t.low[in.column]
	}
	return in.coef * t.high[in.column]
}

// keepWithin narrows a term's column to so many steps from where the term is least; false
// where that leaves it nothing.
func (t *tableau) keepWithin(in wholeTerm, steps int64) bool {
	j := int(in.column)
	low, high, batch := t.low[j], t.high[j], t.shape.batch[j]
	if in.coef > 0 {
		high = low + steps
	} else {
		low = high - steps
	}
	if low > 0 && high < batch {
		return false
	}
	restrictBatch(t, j, low, high, batch)
	return true
}
