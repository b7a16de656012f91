package planner

import (
	"math/big"
	"sort"
)

// eligible finds the dishes that could be made alone, with the most portions
// each could have by itself, and why the others are out.
func (p *Problem) eligible() (most map[int]int64, out map[int]LeftOut) {
	most, out = map[int]int64{}, map[int]LeftOut{}
	limits := p.limitRows()
	for d := range p.Dishes {
		dish := &p.Dishes[d]
		eaters, suits := p.eaters(d)
		if !suits {
			out[d] = LeftOut{Dish: d, Reason: SuitsNobody}
			continue
		}
		top := dish.Largest
		if p.Guests != nil {
			top = min(top, max(dish.least(), eaters))
		}
		tight := p.tightest(d, limits)
		if tight.limit != nil {
			top = int(min(int64(top), tight.most))
		}
		if top >= dish.least() && !p.hasRoom(d, dish.least()) {
			out[d] = LeftOut{Dish: d, Reason: NoRoom}
			continue
		}
		top = sort.Search(top, func(n int) bool { return !p.hasRoom(d, n+1) })
		if top < dish.least() {
			out[d] = p.whyOut(d, tight)
			continue
		}
		most[d] = int64(top)
	}
	return most, out
}

// eaters is how many whole portions the guests whom the dish suits could eat
// of it, and whether it suits anyone; a share has no such bound.
func (p *Problem) eaters(d int) (portions int, suits bool) {
	if p.Guests == nil {
		return p.Dishes[d].Largest, true
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
func (p *Problem) hasRoom(d, n int) bool {
	if p.Layers == 0 {
		return true
	}
	portions := make([]int, len(p.Dishes))
	portions[d] = n
	return p.layers(portions) <= int64(p.Layers)
}

// A tightness is the row that bounds a dish made alone most.
type tightness struct {
	ratRow
	most int64
}

// tightest finds the row that allows the fewest portions of dish d by itself.
func (p *Problem) tightest(d int, limits []ratRow) tightness {
	var tight tightness
	rows := limits
	for _, s := range p.stores(func(o int) bool { return o == d }) {
		rows = append(rows[:len(rows):len(rows)], s.supplyRows()...)
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
