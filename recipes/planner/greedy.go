package planner

import (
	"cmp"
	"math"
	"slices"

	"trencher/recipes/planner/integer"
)

// A greedy plan is a good start: the search then has something to beat, and a
// search that gives up something to hand out.

// A weighing says whether portions keep the rows about lots, limits and layers.
// It reckons in floating point; what it says is checked exactly before it is used.
type weighing struct {
	m    *model
	rows []weighed
}

type weighed struct {
	coefs []float64 // by dish of the model
	limit float64
	class bool // the limit is one layer, of which whole ones are counted
}

// weigh reads the rows of a model's dishes.
func (m *model) weigh(rows []ratRow) *weighing {
	w := &weighing{m: m}
	add := func(r ratRow, class bool) {
		row := weighed{coefs: make([]float64, len(m.dishes)), class: class}
		row.limit, _ = r.limit.Float64()
		for i, c := range m.dishes {
			if per := r.coefs[c.dish]; per != nil {
				row.coefs[i], _ = per.Float64()
			}
		}
		w.rows = append(w.rows, row)
	}
	for _, r := range rows {
		add(r, false)
	}
	if m.p.Layers > 0 {
		for _, r := range m.p.loadRows() {
			add(r, true)
		}
	}
	return w
}

// layers is how many whole layers a load takes.
func (r *weighed) layers(load float64) int64 { return int64(math.Ceil(load/r.limit - hair)) }

// fits reports whether the portions keep all rows.
func (w *weighing) fits(portions []int64) bool {
	if !w.m.mayMake(portions) {
		return false
	}
	layers := 0
	for _, r := range w.rows {
		sum := 0.0
		for i, n := range portions {
			sum += r.coefs[i] * float64(n)
		}
		if r.class {
			layers += int(r.layers(sum))
			continue
		}
		if sum > r.limit*(1+hair)+hair {
			return false
		}
	}
	return w.m.p.Layers == 0 || layers <= w.m.p.Layers
}

// mayMake reports whether no dish is too large, nor too many are made.
func (m *model) mayMake(portions []int64) bool {
	made := 0
	for i, n := range portions {
		if n > m.dishes[i].most {
			return false
		}
		if n > 0 {
			made++
		}
	}
	return m.p.MostDishes <= 0 || made <= m.p.MostDishes
}

// shareOut makes dishes in the order of ties, and then every dish one portion
// larger by turns for as long as that fits.
func (w *weighing) shareOut() []int64 {
	portions := make([]int64, len(w.m.dishes))
	var order []int
	for _, d := range w.m.p.tieOrder() {
		if i := slices.IndexFunc(w.m.dishes, func(c dishColumns) bool { return c.dish == d }); i >= 0 {
			order = append(order, i)
		}
	}
	for _, i := range order {
		if portions[i] = w.m.dishes[i].least; !w.fits(portions) {
			portions[i] = 0
		}
	}
	growing := slices.DeleteFunc(order, func(i int) bool { return portions[i] == 0 })
	for len(growing) > 0 {
		growing = slices.DeleteFunc(growing, func(i int) bool {
			portions[i]++
			if w.fits(portions) {
				return false
			}
			portions[i]--
			return true
		})
	}
	return portions
}

// feed gives everybody a helping by turns, those first who may eat least, of what
// is made already where that will do.
func (w *weighing) feed() eating {
	m := w.m
	e := eating{make([]int64, len(m.dishes)), make([]int64, len(m.dishes)), make([]int64, len(m.dishes))}
	parties := append(partiesOf(m.adults, e.adults), partiesOf(m.children, e.children)...)
	slices.SortStableFunc(parties, func(a, b *party) int { return cmp.Compare(a.suiting, b.suiting) })
	for round := 1; round <= m.p.Sides; round++ {
		for _, p := range parties {
			w.serve(e, p, true, round)
			w.serve(e, p, false, round)
		}
	}
	return e
}

// party is guests of one kind while they are fed.
type party struct {
	kind
	helpings []int64 // of each dish: the adults' or the children's
	taken    []int64 // by dish
	suiting  int     // dishes
}

func partiesOf(who *company, helpings []int64) []*party {
	var parties []*party
	for _, k := range who.kinds {
		p := &party{kind: k, helpings: helpings, taken: make([]int64, len(helpings))}
		for _, s := range k.suits {
			if s {
				p.suiting++
			}
		}
		parties = append(parties, p)
	}
	return parties
}

// wants is how many helpings a party lacks to have so many each.
func (p *party) wants(each int) int64 {
	wants := int64(p.count * each)
	for _, n := range p.taken {
		wants -= n
	}
	return wants
}

// serve gives a party what it lacks to so many helpings each, of dishes that are made
// already or of the others.
func (w *weighing) serve(e eating, p *party, made bool, each int) {
	wants := p.wants(each)
	for i, s := range p.suits {
		if s && wants > 0 && (e.portions[i] > 0) == made {
			got := w.most(e, i, p.helpings, min(wants, int64(p.count)-p.taken[i]))
			p.taken[i] += got
			wants -= got
		}
	}
}

// most gives as many helpings of dish i as fit, up to so many.
func (w *weighing) most(e eating, i int, helpings []int64, wants int64) int64 {
	had := helpings[i]
	try := func(n int64) bool {
		helpings[i] = had + n
		e.portions[i] = 0
		if e.adults[i]+e.children[i] > 0 {
			e.portions[i] = max(w.m.dishes[i].least, e.eaten(i))
		}
		return w.fits(e.portions)
	}
	low := int64(0)
	for high := wants; low < high; {
		if middle := (low + high + 1) / 2; try(middle) {
			low = middle
		} else {
			high = middle - 1
		}
	}
	try(low)
	return low
}

// startShares are the portions to begin from where nobody in particular eats: those of a
// plan, if there is one, else as they come.
func (m *model) startShares(plan Plan) []int64 {
	if len(plan.Portions) == 0 {
		return m.weighing.shareOut()
	}
	return m.portionsOf(plan)
}

// startEating is what is eaten to begin with: what a plan says, if there is one, else as
// it comes.
func (m *model) startEating(plan Plan) eating {
	if len(plan.Portions) == 0 {
		return m.weighing.feed()
	}
	return m.eatingOf(plan)
}

// begin sets a start: the point given if it is a solution, else nothing made, if
// that is one.
func (m *model) begin(x []int64) {
	for _, start := range [][]int64{x, make([]int64, len(m.prog.Columns))} {
		if m.prog.Start = start; integer.Keeps(m.prog, start) {
			return
		}
	}
	m.prog.Start = nil
}
