package planner

import (
	"math/big"
	"slices"
)

// alike reports whether two dishes differ in nothing that a plan depends on but
// their place in the order.
func (p *Problem) alike(a, b int) bool {
	one, other := &p.Dishes[a], &p.Dishes[b]
	if one.least() != other.least() || one.Largest != other.Largest || !one.Wish.Equal(other.Wish) ||
		!slices.EqualFunc(one.Needs, other.Needs, Need.alike) {
		return false
	}
	for _, g := range p.Guests {
		if g.Suits[a] != g.Suits[b] {
			return false
		}
	}
	for _, l := range p.Limits {
		if one.uses(l.Item).Cmp(other.uses(l.Item)) != 0 {
			return false
		}
	}
	return true
}

func (n Need) alike(o Need) bool {
	return n.Crop == o.Crop && n.PerPortion.Cmp(o.PerPortion) == 0 && n.Texture == o.Texture && n.Sizes == o.Sizes &&
		n.Load.Class == o.Load.Class && (n.Load.PerPortion == nil) == (o.Load.PerPortion == nil) &&
		(n.Load.PerPortion == nil || n.Load.PerPortion.Cmp(o.Load.PerPortion) == 0)
}

// uses is what a portion takes of an ingredient.
func (d *Dish) uses(item string) *big.Rat {
	sum := new(big.Rat)
	for _, o := range d.Others {
		if o.Item == item {
			sum.Add(sum, o.PerPortion)
		}
	}
	return sum
}
