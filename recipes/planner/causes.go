package planner

import (
	"math/big"
	"slices"

	"github.com/shopspring/decimal"
)

// CauseKind is a kind of thing that may hold a plan back.
type CauseKind uint8

// The kinds of causes.
const (
	CropShort     CauseKind = iota // there is no more of a crop
	LimitShort                     // nor of an ingredient
	HeldBack                       // some of a crop is held back
	DishNumber                     // no more dishes are to be made
	SteamerFull                    // there are no more layers
	LargestBatch                   // a dish is not made larger
	SmallestBatch                  // nor smaller
)

// A Cause is one thing that may hold a plan back: one that could be relaxed
// alone.
type Cause struct {
	Kind CauseKind
	Of   string // the crop or the ingredient
	Unit string // of amounts: of a crop "g", of an ingredient its own; "" where they are counted
	Dish int    // of the kinds about batches
}

// causes lists what could bound the problem besides its batches: crops in
// alphabetical order, limits, what is held back, the number of dishes, the steamer.
// What surely bounds nothing is left out.
func (p *Problem) causes() []Cause {
	var list []Cause
	for _, s := range p.stores(func(int) bool { return true }) {
		if len(s.demands) > 0 {
			list = append(list, Cause{Kind: CropShort, Of: s.crop, Unit: "g"})
		}
	}
	for _, l := range p.Limits {
		list = append(list, Cause{Kind: LimitShort, Of: l.Item, Unit: l.Unit})
	}
	for _, k := range p.KeepBack {
		if k.Grams.Sign() > 0 {
			list = append(list, Cause{Kind: HeldBack, Of: k.Crop, Unit: "g"})
		}
	}
	if p.MostDishes > 0 && p.MostDishes < len(p.Dishes) {
		list = append(list, Cause{Kind: DishNumber})
	}
	if p.Layers > 0 {
		list = append(list, Cause{Kind: SteamerFull})
	}
	return list
}

// groups are the causes, those beside one another that are asked about together: batches,
// few of which mostly bound anything, and of hundreds of dishes the crops, as every
// question then takes long.
func (p *Problem) groups() [][]Cause {
	causes := p.causes()
	var groups [][]Cause
	if len(p.Dishes) > mostAtOnce {
		crops := slices.IndexFunc(append(causes, Cause{Kind: DishNumber}), func(c Cause) bool { return c.Kind != CropShort })
		groups, causes = [][]Cause{causes[:crops]}, causes[crops:]
	}
	groups = slices.AppendSeq(groups, slices.Chunk(causes, 1))
	return append(groups, p.batchCauses())
}

// batchCauses lists the batches that could bound the problem, the largest before the
// smallest.
func (p *Problem) batchCauses() []Cause {
	var largest, smallest []Cause
	alone := p.alone()
	for d := range p.Dishes {
		if room, _ := alone.mostOf(d, MostPortions); int64(p.Dishes[d].Largest) < room {
			largest = append(largest, Cause{Kind: LargestBatch, Dish: d})
		}
		if p.Dishes[d].least() > 1 {
			smallest = append(smallest, Cause{Kind: SmallestBatch, Dish: d})
		}
	}
	return append(largest, smallest...)
}

// with is the problem with one cause relaxed: wholly, or by an amount, in whole
// grams of a crop.
func (p *Problem) with(c Cause, amount *big.Rat) Problem {
	q := *p
	switch c.Kind {
	case CropShort:
		if amount == nil {
			amount = p.wanted(c.Of)
		}
		return p.withLot(Lot{ID: "\x00" + c.Of, Crop: c.Of, Supply: decimal.NewFromBigInt(amount.Num(), 0)})
	case LimitShort:
		i := slices.IndexFunc(p.Limits, func(l Limit) bool { return l.Item == c.Of })
		q.Limits = slices.Clone(p.Limits)
		if amount == nil {
			q.Limits = slices.Delete(q.Limits, i, i+1)
			break
		}
		q.Limits[i].Amount = new(big.Rat).Add(q.Limits[i].Amount, amount)
	case HeldBack:
		i := slices.IndexFunc(p.KeepBack, func(k KeepBack) bool { return k.Crop == c.Of })
		q.KeepBack = slices.Clone(p.KeepBack)
		if amount == nil || amount.Cmp(q.KeepBack[i].Grams) >= 0 {
			amount = q.KeepBack[i].Grams
		}
		q.KeepBack[i].Grams = new(big.Rat).Sub(q.KeepBack[i].Grams, amount)
	case DishNumber:
		q.MostDishes = counted(p.MostDishes, amount)
	case SteamerFull:
		q.Layers = counted(p.Layers, amount)
	case LargestBatch, SmallestBatch:
		q.Dishes = slices.Clone(p.Dishes)
		q.freeBatch(c)
	}
	return q
}

// withAll is the problem with all of several causes relaxed wholly.
func (p *Problem) withAll(causes []Cause) Problem {
	q := *p
	q.Dishes = slices.Clone(p.Dishes)
	for _, c := range causes {
		if c.isBatch() {
			q.freeBatch(c)
		} else {
			q = q.with(c, nil)
		}
	}
	return q
}

func (c Cause) isBatch() bool { return c.Kind == LargestBatch || c.Kind == SmallestBatch }

// freeBatch lets a dish of the problem be made as large, or as small, as may be.
func (p *Problem) freeBatch(c Cause) {
	if c.Kind == LargestBatch {
		p.Dishes[c.Dish].Largest = MostPortions
	} else {
		p.Dishes[c.Dish].Smallest = 1
	}
}

// leansOn reports whether a plan makes a batch that the cause would not allow.
func (p *Problem) leansOn(plan Plan, c Cause) bool {
	n, dish := plan.Portions[c.Dish], &p.Dishes[c.Dish]
	return c.Kind == LargestBatch && n > dish.Largest || c.Kind == SmallestBatch && n > 0 && n < dish.least()
}

// counted is a bound raised by a whole amount, or none.
func counted(bound int, amount *big.Rat) int {
	if amount == nil {
		return 0
	}
	return bound + int(amount.Num().Int64())
}

// wanted is more than all dishes together could ask for of a crop, in grams.
func (p *Problem) wanted(crop string) *big.Rat {
	sum := big.NewRat(1, 1)
	for _, dish := range p.Dishes {
		for _, n := range dish.Needs {
			if n.Crop == crop {
				sum.Add(sum, new(big.Rat).Mul(n.PerPortion, ratInt(dish.Largest)))
			}
		}
	}
	return ratInt(int(roundedUp(sum)))
}

// step is the smallest amount by which a cause is relaxed, and how many of them
// relax it wholly; 0 where it is no matter of amounts.
func (p *Problem) step(c Cause) (step *big.Rat, most int64) {
	one := big.NewRat(1, 1)
	switch c.Kind {
	case CropShort:
		return one, roundedUp(p.wanted(c.Of))
	case HeldBack:
		for _, k := range p.KeepBack {
			if k.Crop == c.Of {
				return one, roundedUp(k.Grams)
			}
		}
	case LimitShort:
		return p.limitStep(c.Of)
	case DishNumber:
		return one, int64(len(p.Dishes) - p.MostDishes)
	case SteamerFull:
		return one, p.layersOfAll()
	}
	return nil, 0
}

// layersOfAll is how many layers the largest batches of all dishes take.
func (p *Problem) layersOfAll() int64 {
	layers := int64(0)
	for _, r := range p.loadRows() {
		room := new(big.Rat)
		for d, per := range r.coefs {
			room.Add(room, new(big.Rat).Mul(per, ratInt(p.Dishes[d].Largest)))
		}
		layers += roundedUp(room)
	}
	return layers
}

// limitStep is the finest amount in which the dishes can come to a limit.
func (p *Problem) limitStep(item string) (step *big.Rat, most int64) {
	for _, r := range p.limitRows() {
		if r.item != item {
			continue
		}
		unit := commonUnit(r.numbers()...)
		sum := new(big.Rat)
		for d, per := range r.coefs {
			sum.Add(sum, new(big.Rat).Mul(per, ratInt(p.Dishes[d].Largest)))
		}
		return new(big.Rat).SetFrac(big.NewInt(1), unit), roundedUp(sum.Mul(sum, new(big.Rat).SetInt(unit)))
	}
	return nil, 0
}
