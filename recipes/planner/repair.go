package planner

// mend makes of rounded portions a meal that keeps the rows, where it can: as
// large as helps, and seated. It is the relaxation's best guess made whole.
func (m *model) mend(x []int64) {
	portions := make([]int64, len(m.dishes))
	for i, c := range m.dishes {
		portions[i] = x[c.portions]
	}
	if !m.weighing.fits(portions) {
		return
	}
	if m.asked == nil {
		m.weighing.grow(portions)
	}
	copy(x, m.point(m.served(portions)))
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
	for grown := true; grown; {
		grown = false
		for i, c := range w.m.dishes {
			had := portions[i]
			if had >= w.m.adults.each[i]+(w.m.children.each[i]+1)/2 {
				continue
			}
			if portions[i] = max(had+1, c.least); w.fits(portions) {
				grown = true
			} else {
				portions[i] = had
			}
		}
	}
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
