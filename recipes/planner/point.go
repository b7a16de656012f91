package planner

// An eating is how much is cooked and taken of each dish of a model.
type eating struct{ portions, adults, children []int64 }

// meal reads portions and helpings off a solution, and cooks no more than what
// is eaten or the smallest batch.
func (m *model) meal(x []int64) eating {
	e := eating{make([]int64, len(m.dishes)), make([]int64, len(m.dishes)), make([]int64, len(m.dishes))}
	for i, c := range m.dishes {
		for _, t := range c.adults {
			e.adults[i] += t.n * x[t.column]
		}
		for _, t := range c.children {
			e.children[i] += t.n * x[t.column]
		}
		if e.adults[i]+e.children[i] > 0 {
			e.portions[i] = max(c.least, e.eaten(i))
		}
	}
	return e
}

// eaten is the whole portions that are taken of dish i, halves rounded up.
func (e eating) eaten(i int) int64 { return e.adults[i] + (e.children[i]+1)/2 }

// over is how many whole portions nobody eats.
func (e eating) over() int64 {
	sum := int64(0)
	for i, n := range e.portions {
		sum += n - e.eaten(i)
	}
	return sum
}

// fedBy is how many helpings there are, by round.
func (m *model) fedBy(e eating) []int64 {
	fed := make([]int64, m.p.Sides)
	for w, who := range []*company{m.adults, m.children} {
		s := who.seat(floats([2][]int64{e.adults, e.children}[w]), 0)
		for r := range fed {
			s.oneMore()
			fed[r] += int64(s.served() + 0.5)
		}
	}
	return fed
}

func floats(list []int64) []float64 {
	var out []float64
	for _, n := range list {
		out = append(out, float64(n))
	}
	return out
}

// point is the solution that says what is cooked and taken.
func (m *model) point(e eating) []int64 {
	x := make([]int64, len(m.prog.Columns))
	for i, c := range m.dishes {
		x[c.portions] = e.portions[i]
		set := func(column int, n int64) {
			if column > 0 {
				x[column] = n
			}
		}
		set(c.made, min(1, e.portions[i]))
		set(c.over, e.portions[i]-e.eaten(i))
		set(c.shared, (e.children[i]+1)/2)
		set(c.odd, e.children[i]%2)
		if e.portions[i] > c.least {
			set(c.beyond, 1)
		}
	}
	if m.pairs > 0 {
		for _, n := range e.children {
			x[m.pairs] += (n + 1) / 2
		}
	}
	m.fillLayers(x)
	m.fillTotals(x)
	fed := m.fedBy(e)
	for r, column := range m.fed {
		x[column] = fed[r]
	}
	return x
}

// sharePoint is the solution that says what is made where nobody in particular
// eats.
func (m *model) sharePoint(portions []int64) []int64 {
	x := make([]int64, len(m.prog.Columns))
	for i, c := range m.dishes {
		if x[c.portions] = portions[i]; portions[i] > 0 {
			x[c.made] = 1
		}
	}
	m.fillLayers(x)
	m.fillTotals(x)
	return x
}

// fillLayers sets how many layers each class of the load takes.
func (m *model) fillLayers(x []int64) {
	class := 0
	for _, r := range m.weighing.rows {
		if !r.class {
			continue
		}
		sum := 0.0
		for i, c := range m.dishes {
			sum += r.coefs[i] * float64(x[c.portions])
		}
		if column := m.layers[class]; column > 0 {
			x[column] = r.layers(sum)
		}
		class++
	}
}
