package planner

import (
	"fmt"
	"math/big"
)

// levelError says at which level the search stopped.
type levelError struct {
	level string
	best  *big.Rat
	bound *big.Rat // nil when nothing is known
	cause error
}

func (e *levelError) Error() string { return fmt.Sprintf("%s: %v", e.level, e.cause) }
func (e *levelError) Unwrap() error { return e.cause }

// A part is a piece of the problem that shares nothing with the other pieces
// but the levels.
type part struct {
	*model
	*session
}

// A climb takes the parts of a problem through the five levels together.
type climb []part

// to the top: it returns the levels' values, and a levelError when the search
// had to stop, with every part's incumbent in place.
func (c climb) toTheTop() (Levels, error) {
	err := c.each(part.feed)
	if err == nil {
		err = c.each(part.useFirst)
	}
	if err == nil {
		err = c.balance()
	}
	if err == nil {
		err = c.each(part.count)
	}
	if err == nil {
		err = c.each(part.breakTies)
	}
	return c.levels(), err
}

// each takes every part through a level that is the sum of its parts' values.
func (c climb) each(level func(part) error) error {
	for _, p := range c {
		if err := level(p); err != nil {
			return err
		}
	}
	return nil
}

// levels are the values of all levels at the incumbents.
func (c climb) levels() Levels {
	l := Levels{UseFirst: new(big.Rat)}
	for _, p := range c {
		p.read(p.x, &l)
	}
	return l
}

// balance is level 3: the largest t with x ≥ t × wish for every dish. That is
// the least of what the parts can reach, and every part is then held to it.
func (c climb) balance() error {
	var t *big.Rat
	for _, p := range c {
		reached, err := p.balance()
		if err != nil {
			return err
		}
		if t == nil || reached.Cmp(t) < 0 {
			t = reached
		}
	}
	for _, p := range c {
		low := p.floorsAt(t)
		for _, j := range sortedKeys(low) {
			p.hold(j, low[j], p.model.prog.columns[j].most)
		}
	}
	return nil
}

// feed is level 1: the most helpings served.
func (p part) feed() error {
	if p.fedRow < 0 {
		return nil
	}
	fed, err := p.maximiseFromAbove(p.helpings(), big.NewInt(1), 1)
	if err != nil {
		return p.stopped("fed", fed, big.NewInt(1), err)
	}
	p.holdRow(p.fedRow, new(big.Int).Neg(fed))
	return nil
}

// useFirst is level 2: the most grams from lots to be used today.
func (p part) useFirst() error {
	if p.useFloor < 0 {
		return nil
	}
	used, err := p.maximiseFromAbove(objective{gains: p.useGains}, p.gramUnit, 8)
	if err != nil {
		return p.stopped("use first", used, p.gramUnit, err)
	}
	p.holdFloor(p.useFloor, used)
	return nil
}

// balance finds the part's own largest t. As portions are whole, t is a multiple
// of one over the common multiple of the wishes' numerators, so it is found by
// halving among those.
func (p part) balance() (*big.Rat, error) {
	unit := p.balanceUnit()
	low := inUnits(p.balanceOf(p.x), unit)
	high := inUnits(p.balanceOf(p.mosts()), unit)
	for low.Cmp(high) < 0 {
		middle := new(big.Int).Add(low, high)
		middle.Add(middle, big.NewInt(1)).Rsh(middle, 1)
		t := new(big.Rat).SetFrac(middle, unit)
		ok, err := p.canRaise(p.floorsAt(t), objective{})
		if err != nil {
			return nil, &levelError{"balance", p.balanceOf(p.x), new(big.Rat).SetFrac(high, unit), err}
		}
		if ok {
			low = inUnits(p.balanceOf(p.x), unit)
		} else {
			high = middle.Sub(middle, big.NewInt(1))
		}
	}
	return p.balanceOf(p.x), nil
}

// balanceUnit is how many of the steps that t can take make 1.
func (m *model) balanceUnit() *big.Int {
	var inverses []*big.Rat
	for _, w := range m.wish {
		inverses = append(inverses, new(big.Rat).Inv(w))
	}
	return commonUnit(inverses...)
}

// mosts is the most portions of each column.
func (m *model) mosts() []int64 {
	var x []int64
	for k := range m.wish {
		x = append(x, m.prog.columns[k].most)
	}
	return x
}

// balanceOf is the smallest portions ÷ wish over the dishes.
func (m *model) balanceOf(x []int64) *big.Rat {
	var t *big.Rat
	for k, w := range m.wish {
		q := new(big.Rat).SetInt64(x[k])
		if q.Quo(q, w); t == nil || q.Cmp(t) < 0 {
			t = q
		}
	}
	return t
}

// floorsAt is the fewest portions of each dish that a balance of t asks for.
func (m *model) floorsAt(t *big.Rat) map[int]int64 {
	low := map[int]int64{}
	if t.Sign() <= 0 {
		return low
	}
	for k, w := range m.wish {
		n := ceiling(new(big.Rat).Mul(t, w))
		low[k] = max(n, m.prog.columns[k].batch)
	}
	return low
}

// ceiling is the smallest whole number not below r.
func ceiling(r *big.Rat) int64 {
	n := new(big.Int).Add(r.Num(), r.Denom())
	n.Sub(n, big.NewInt(1))
	return n.Div(n, r.Denom()).Int64()
}

// count is level 4: the most portions, or at a table the fewest.
func (p part) count() error {
	n, err := p.maximiseFromAbove(p.portions(), big.NewInt(1), 1)
	if err != nil {
		return p.stopped("portions", n, big.NewInt(1), err)
	}
	p.holdRow(p.countRow, new(big.Int).Neg(n))
	return nil
}

// breakTies is level 5: more of the dish that stands first, then the next.
func (p part) breakTies() error {
	for k := range p.dishes {
		n, err := p.mostOf(k)
		if err != nil {
			most := p.model.prog.columns[k].most
			return &levelError{"ties", new(big.Rat).SetInt64(n), new(big.Rat).SetInt64(most), err}
		}
		p.hold(k, n, n)
	}
	return nil
}

// mostOf is the most portions column k can have, found by asking for one more
// until there is none: mostly the incumbent has them already.
func (p part) mostOf(k int) (int64, error) {
	goal := p.portions()
	for p.x[k] < p.model.prog.columns[k].most {
		more := max(p.x[k]+1, p.model.prog.columns[k].batch)
		raised, err := p.canRaise(map[int]int64{k: more}, goal)
		if err != nil || !raised {
			return p.x[k], err
		}
	}
	return p.x[k], nil
}

// stopped is the error of a level that was interrupted, its values divided by unit.
func (p part) stopped(level string, best, unit *big.Int, cause error) error {
	e := &levelError{level: level, best: new(big.Rat).SetFrac(best, unit), cause: cause}
	if p.open != nil {
		e.bound = new(big.Rat).SetFrac(p.open, unit)
	}
	return e
}
