package planner

import (
	"math/big"
	"slices"
	"sort"
)

// eligible finds the dishes that could be made alone, with the most portions
// each could have by itself, and why the others are out.
func (p *Problem) eligible() (most map[int]int64, out map[int]LeftOut) {
	most, out = map[int]int64{}, map[int]LeftOut{}
	a := p.alone()
	for d := range p.Dishes {
		if n, why := a.mostOf(d, p.Dishes[d].Largest); why != nil {
			out[d] = *why
		} else {
			most[d] = n
		}
	}
	return most, out
}

// An alone is what a dish that is made alone has to keep.
type alone struct {
	*Problem
	stores []*store
	limits []ratRow
	loads  []ratRow
}

func (p *Problem) alone() *alone {
	return &alone{p, p.stores(func(int) bool { return true }), p.limitRows(), p.loadRows()}
}

// mostOf is the most portions up to largest that a dish could have by itself, or
// why it has none.
func (p *alone) mostOf(d, largest int) (int64, *LeftOut) {
	dish := &p.Dishes[d]
	eaters, suits := p.eaters(d)
	if !suits {
		return 0, &LeftOut{Dish: d, Reason: SuitsNobody}
	}
	top := largest
	if p.Guests != nil {
		top = min(top, max(dish.least(), eaters))
	}
	tight := p.tightest(d)
	if tight.limit != nil {
		top = int(min(int64(top), tight.most))
	}
	if top >= dish.least() && !p.hasRoom(d, dish.least()) {
		return 0, &LeftOut{Dish: d, Reason: NoRoom}
	}
	top = sort.Search(top, func(n int) bool { return !p.hasRoom(d, n+1) })
	if top < dish.least() {
		why := p.whyOut(d, tight)
		return 0, &why
	}
	return int64(top), nil
}

// eaters is how many whole portions the guests whom the dish suits could eat
// of it, and whether it suits anyone; without guests any number.
func (p *Problem) eaters(d int) (portions int, suits bool) {
	if p.Guests == nil {
		return MostPortions, true
	}
	halves := 0
	for _, g := range p.Guests {
		switch {
		case !g.Suits[d]:
		case g.Child:
			halves += g.Count
		default:
			halves += 2 * g.Count
		}
	}
	return (halves + 1) / 2, halves > 0
}

// hasRoom reports whether so many portions of one dish alone fit the steamer.
func (p *alone) hasRoom(d, n int) bool {
	if p.Layers == 0 {
		return true
	}
	layers := int64(0)
	for _, r := range p.loads {
		if per := r.coefs[d]; per != nil {
			layers += roundedUp(new(big.Rat).Mul(per, ratInt(n)))
		}
	}
	return layers <= int64(p.Layers)
}

// A tightness is the row that bounds a dish made alone most.
type tightness struct {
	ratRow
	most int64
}

// tightest finds the row that allows the fewest portions of dish d by itself.
func (p *alone) tightest(d int) tightness {
	var tight tightness
	rows := slices.Clip(p.limits)
	for _, s := range p.stores {
		rows = append(rows, s.only(func(dish int) bool { return dish == d }).supplyRows()...)
	}
	for _, r := range rows {
		per := r.coefs[d]
		if per == nil || per.Sign() == 0 {
			continue
		}
		q := new(big.Rat).Quo(r.limit, per)
		n := new(big.Int).Quo(q.Num(), q.Denom())
		if !n.IsInt64() {
			continue
		}
		if tight.limit == nil || n.Int64() < tight.most {
			tight = tightness{r, n.Int64()}
		}
	}
	return tight
}

// whyOut puts the tightest row into a reason.
func (p *Problem) whyOut(d int, tight tightness) LeftOut {
	o := LeftOut{Dish: d, Reason: TooLittle, Of: tight.crop, Unit: "g"}
	if tight.item != "" {
		o.Reason, o.Of, o.Unit = LimitReached, tight.item, tight.unit
	}
	needed := new(big.Rat).Mul(tight.coefs[d], ratInt(p.Dishes[d].least()))
	o.Short = needed.Sub(needed, tight.limit)
	if tight.item == "" && tight.limit.Sign() == 0 {
		o.Reason = NoLot
	}
	return o
}
