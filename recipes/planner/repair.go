package planner

import "slices"

// A mending is what mend made of portions: nil where they do not keep the rows.
type mending struct{ portions, point []int64 }

// mostMended is how many mendings are kept: one node of a search after the other rounds
// to the same portions, to the nearest and downwards.
const mostMended = 4

// mend makes of rounded portions a meal that keeps the rows, where it can: as
// large as helps, and seated. It is the relaxation's best guess made whole.
func (m *model) mend(x []int64) {
	portions := make([]int64, len(m.dishes))
	for i, c := range m.dishes {
		portions[i] = x[c.portions]
	}
	at := slices.IndexFunc(m.mended, func(d mending) bool { return slices.Equal(d.portions, portions) })
	if at < 0 {
		if len(m.mended) == mostMended {
			m.mended = slices.Delete(m.mended, 0, 1)
		}
		at = len(m.mended)
		m.mended = append(m.mended, mending{portions, m.mendingOf(slices.Clone(portions))})
	}
	copy(x, m.mended[at].point)
}

// mendingOf is the point that mend makes of portions, which it may change; nil where they
// do not keep the rows.
func (m *model) mendingOf(portions []int64) []int64 {
	if !m.weighing.fits(portions) {
		return nil
	}
	if m.asked == nil {
		m.weighing.grow(portions)
	}
	return m.point(m.served(portions))
}

// settle sets, where nobody in particular eats, what follows from the portions.
func (m *model) settle(x []int64) {
	portions := make([]int64, len(m.dishes))
	for i, c := range m.dishes {
		portions[i] = x[c.portions]
	}
	copy(x, m.sharePoint(portions))
}

// grow makes dishes larger by turns, one portion or a smallest batch, for as long
// as that fits and there are people to eat it.
func (w *weighing) grow(portions []int64) {
	f := w.filling(portions)
	for grown := true; grown; {
		grown = false
		for i, c := range w.m.dishes {
			if had := portions[i]; had < w.m.adults.each[i]+(w.m.children.each[i]+1)/2 && f.raise(i, max(had+1, c.least)) {
				grown = true
			}
		}
	}
}

// A filling is portions that keep the rows, and what each row comes to with them.
type filling struct {
	*weighing
	portions []int64
	sums     []float64 // by row
	made     int
}

func (w *weighing) filling(portions []int64) *filling {
	f := &filling{weighing: w, portions: portions, sums: make([]float64, len(w.rows))}
	for i, n := range portions {
		if n > 0 {
			f.made++
		}
		for r := range w.rows {
			f.sums[r] += float64(w.rows[r].coefs[i] * float64(n))
		}
	}
	return f
}

// raise makes a dish larger if that fits.
func (f *filling) raise(i int, to int64) bool {
	p, had := f.m.p, f.portions[i]
	if to > f.m.dishes[i].most || had == 0 && p.MostDishes > 0 && f.made == p.MostDishes {
		return false
	}
	more, layers := float64(to-had), 0
	for r := range f.rows {
		sum := f.sums[r] + float64(f.rows[r].coefs[i]*more)
		if f.rows[r].class {
			layers += int(f.rows[r].layers(sum))
		} else if sum > f.rows[r].limit*(1+hair)+hair {
			return false
		}
	}
	if p.Layers > 0 && layers > p.Layers {
		return false
	}
	for r := range f.rows {
		f.sums[r] += float64(f.rows[r].coefs[i] * more)
	}
	if had == 0 {
		f.made++
	}
	f.portions[i] = to
	return true
}

// served seats what portions there are, turn by turn: the children first, whose
// helpings are smaller, then the adults. What nobody takes is not cooked.
func (m *model) served(portions []int64) eating {
	none := make([]float64, len(m.dishes))
	adults, children := m.adults.seat(none, 0), m.children.seat(none, 0)
	e := eating{make([]int64, len(m.dishes)), make([]int64, len(m.dishes)), make([]int64, len(m.dishes))}
	for range m.p.Sides {
		for i, n := range portions {
			children.left[i] = float64(2*(n-e.adults[i]) - e.children[i])
		}
		children.oneMore()
		children.count(e.children)
		for i, n := range portions {
			adults.left[i] = float64(n - e.adults[i] - (e.children[i]+1)/2)
		}
		adults.oneMore()
		adults.count(e.adults)
	}
	for i, c := range m.dishes {
		if e.eaten(i) > 0 {
			e.portions[i] = max(c.least, e.eaten(i))
		}
	}
	return e
}

// count writes down how many helpings of each dish are taken.
func (s *seating) count(helpings []int64) {
	for i := range s.taken {
		sum := 0.0
		for _, n := range s.taken[i] {
			sum += n
		}
		helpings[i] = int64(sum + 0.5)
	}
}
