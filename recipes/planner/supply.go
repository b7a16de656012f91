package planner

import (
	"cmp"
	"iter"
	"math"
	"math/big"
	"slices"
	"strings"
	"time"
)

// Lots differ only in which needs accept them. A plan's demands can be met
// exactly when every set of needs asks for no more than the lots it can use
// hold (the transportation problem's cut condition, Ford and Fulkerson, Flows
// in Networks, Princeton 1962, II.10). Only sets of needs that are closed under
// a union of accepting sets matter, so that is one row for each such union.

// mostUnions caps the rows written down beforehand for one crop; what they miss
// is found when the flows are drawn and added then (see cut).
const mostUnions = 256

// A demand is one need of one dish.
type demand struct {
	dish, need int
	per        *big.Rat
	lots       *big.Int // the set of lots it accepts, by index in the store
}

// A store is everything about one crop.
type store struct {
	crop    string
	lots    []int // indices into Problem.Lots: those to be used today, then the sooner perishable
	supply  []*big.Rat
	unit    *big.Int   // what the supplies are whole multiples of, as the number of such units in 1
	parts   []*big.Int // the supplies in it
	first   *big.Int   // the set of lots to be used today
	demands []demand
}

// stores are the lots and needs by crop, in the crops' alphabetical order. Only the
// dishes for which with is true count.
func (p *Problem) stores(with func(dish int) bool) []*store {
	sorted := p.sorted
	if sorted == nil {
		sorted = p.sort()
	}
	list := make([]*store, 0, len(sorted))
	for _, s := range sorted {
		if one := s.only(with); len(one.lots)+len(one.demands) > 0 {
			list = append(list, one)
		}
	}
	return list
}

// sort sorts all lots and needs by crop.
func (p *Problem) sort() []*store {
	var crops []string
	for _, l := range p.Lots {
		crops = append(crops, l.Crop)
	}
	for d := range p.Dishes {
		for _, n := range p.Dishes[d].Needs {
			crops = append(crops, n.Crop)
		}
	}
	slices.Sort(crops)
	all := []*store{}
	for _, crop := range slices.Compact(crops) {
		all = append(all, p.store(crop))
	}
	return all
}

// store is everything about one crop.
func (p *Problem) store(crop string) *store {
	s := &store{crop: crop, first: new(big.Int)}
	for i, l := range p.Lots {
		if l.Crop == crop && l.Supply.IsPositive() {
			s.lots = append(s.lots, i)
		}
	}
	s.order(p.Lots)
	for d := range p.Dishes {
		for k, n := range p.Dishes[d].Needs {
			if n.Crop == crop {
				s.demands = append(s.demands, demand{d, k, n.PerPortion, s.accepted(p.Lots, n)})
			}
		}
	}
	return s
}

// withLot is the problem with one more lot. What is sorted of the other crops stays.
func (p *Problem) withLot(lot Lot) Problem {
	q := *p
	q.Lots = append(slices.Clone(p.Lots), lot)
	q.sorted = slices.Clone(p.sorted)
	for i, s := range q.sorted {
		if s.crop == lot.Crop {
			q.sorted[i] = q.store(lot.Crop)
		}
	}
	return q
}

// order sorts the store's lots so that nothing depends on the order given.
func (s *store) order(lots []Lot) {
	slices.SortFunc(s.lots, func(a, b int) int {
		return cmp.Or(compareFirst(lots[a].First, lots[b].First), compareKeeps(lots[a].Keeps, lots[b].Keeps),
			strings.Compare(lots[a].ID, lots[b].ID))
	})
	for k, i := range s.lots {
		s.supply = append(s.supply, lots[i].Supply.Rat())
		if lots[i].First {
			s.first.SetBit(s.first, k, 1)
		}
	}
	s.unit = commonUnit(s.supply...)
	for _, g := range s.supply {
		s.parts = append(s.parts, inUnits(g, s.unit))
	}
}

func compareFirst(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// compareKeeps puts what keeps longest, or nobody knows how long, last.
func compareKeeps(a, b time.Time) int {
	if a.IsZero() != b.IsZero() {
		return compareFirst(b.IsZero(), a.IsZero())
	}
	return a.Compare(b)
}

// only is the store as some of the dishes see it.
func (s *store) only(with func(dish int) bool) *store {
	if !slices.ContainsFunc(s.demands, func(d demand) bool { return !with(d.dish) }) {
		return s
	}
	one := *s
	one.demands = make([]demand, 0, len(s.demands))
	for _, d := range s.demands {
		if with(d.dish) {
			one.demands = append(one.demands, d)
		}
	}
	return &one
}

func (s *store) accepted(lots []Lot, n Need) *big.Int {
	set := new(big.Int)
	for k, i := range s.lots {
		if n.accepts(lots[i]) {
			set.SetBit(set, k, 1)
		}
	}
	return set
}

// held is what the lots of the set hold together.
func (s *store) held(set *big.Int) *big.Rat {
	sum := new(big.Int)
	for k, g := range s.parts {
		if set.Bit(k) == 1 {
			sum.Add(sum, g)
		}
	}
	if sum.Sign() == 0 {
		return new(big.Rat)
	}
	return new(big.Rat).SetFrac(sum, s.unit)
}

// all is the set of all lots of the store.
func (s *store) all() *big.Int {
	set := new(big.Int)
	for k := range s.lots {
		set.SetBit(set, k, 1)
	}
	return set
}

// within is the row of the needs that can only use lots of the set.
func (s *store) within(set *big.Int) ratRow {
	r := ratRow{coefs: map[int]*big.Rat{}, limit: s.held(set), crop: s.crop}
	var outside big.Int
	for _, d := range s.demands {
		if outside.AndNot(d.lots, set).Sign() == 0 {
			r.add(d.dish, d.per)
		}
	}
	return r
}

// supplyRows are the crop's rows, one for each union of accepting sets.
func (s *store) supplyRows() []ratRow {
	var sets []*big.Int
	for _, d := range s.demands {
		sets = append(sets, d.lots)
	}
	var rows []ratRow
	for _, u := range unions(sets, mostUnions) {
		if r := s.within(u); len(r.coefs) > 0 {
			rows = append(rows, r)
		}
	}
	return rows
}

// firstPieces are the pieces of the grams taken from lots to be used today: for
// a set of needs, what the lots hold that other needs cannot use, plus all that
// the set asks for; the taking is the least of them (the least cut).
func (s *store) firstPieces() []ratRow {
	var sets []*big.Int
	for k := range s.lots {
		if s.first.Bit(k) == 1 {
			sets = append(sets, s.users(k))
		}
	}
	pieces := []ratRow{s.firstPiece(new(big.Int))}
	for _, u := range unions(sets, mostUnions) {
		if u.Sign() > 0 {
			pieces = append(pieces, s.firstPiece(u))
		}
	}
	return pieces
}

// users is the set of demands that accept lot k.
func (s *store) users(k int) *big.Int {
	set := new(big.Int)
	for i, d := range s.demands {
		if d.lots.Bit(k) == 1 {
			set.SetBit(set, i, 1)
		}
	}
	return set
}

// firstPiece is the piece of one set of demands, as taken − Σ coefs·x ≤ limit:
// its coefficients are negative.
func (s *store) firstPiece(needs *big.Int) ratRow {
	rest := new(big.Int)
	var outside big.Int
	for k := range s.lots {
		if s.first.Bit(k) == 1 && outside.AndNot(s.users(k), needs).Sign() != 0 {
			rest.SetBit(rest, k, 1)
		}
	}
	r := ratRow{coefs: map[int]*big.Rat{}, limit: s.held(rest), crop: s.crop}
	for i, d := range s.demands {
		if needs.Bit(i) == 1 {
			r.add(d.dish, new(big.Rat).Neg(d.per))
		}
	}
	return r
}

// unions lists the distinct unions of the sets, each set first, at most most.
func unions(sets []*big.Int, most int) []*big.Int {
	seen := map[string]bool{}
	var list []*big.Int
	push := func(s *big.Int) {
		if key := s.Text(62); !seen[key] && len(list) < most {
			seen[key] = true
			list = append(list, s)
		}
	}
	for _, s := range sets {
		push(s)
	}
	singles := slices.Clone(list)
	for i := 0; i < len(list); i++ {
		for _, s := range singles {
			push(new(big.Int).Or(list[i], s))
		}
	}
	return list
}

// loadRows say of each class of the steamer's load what a portion of each dish
// takes of it; the limit is one layer. They stand in the classes' order.
func (p *Problem) loadRows() []ratRow {
	var rows []ratRow
	for d := range p.Dishes {
		for _, n := range p.Dishes[d].Needs {
			if n.Load.PerPortion == nil || n.Load.PerPortion.Sign() == 0 {
				continue
			}
			at := slices.IndexFunc(rows, func(r ratRow) bool { return r.class == n.Load.Class })
			if at < 0 {
				at = len(rows)
				rows = append(rows, ratRow{coefs: map[int]*big.Rat{}, limit: big.NewRat(1, 1), class: n.Load.Class})
			}
			rows[at].add(d, n.Load.PerPortion)
		}
	}
	slices.SortFunc(rows, func(a, b ratRow) int { return strings.Compare(a.class, b.class) })
	return rows
}

// roundedUp is the smallest whole number not below r, or the largest int64.
func roundedUp(r *big.Rat) int64 {
	n := new(big.Int).Add(r.Num(), r.Denom())
	n.Sub(n, big.NewInt(1)).Div(n, r.Denom())
	if !n.IsInt64() {
		return math.MaxInt64
	}
	return n.Int64()
}

// limitRows are the rows of the limits and of what is kept back.
func (p *Problem) limitRows() []ratRow {
	var rows []ratRow
	for _, l := range p.Limits {
		rows = append(rows, ratRow{coefs: p.portionsOf(func(d Dish) iter.Seq[*big.Rat] { return d.ofItem(l.Item) }), limit: l.Amount, item: l.Item, unit: l.Unit})
	}
	for _, k := range p.KeepBack {
		left := p.onHand(k.Crop)
		rows = append(rows, ratRow{coefs: p.portionsOf(func(d Dish) iter.Seq[*big.Rat] { return d.ofCrop(k.Crop) }), limit: left.Sub(left, k.Grams), crop: k.Crop})
	}
	return rows
}

// portionsOf sums up what a portion of each dish takes of something.
func (p *Problem) portionsOf(takes func(Dish) iter.Seq[*big.Rat]) map[int]*big.Rat {
	r := ratRow{coefs: map[int]*big.Rat{}}
	for d, dish := range p.Dishes {
		for amount := range takes(dish) {
			r.add(d, amount)
		}
	}
	return r.coefs
}

// ofItem are the amounts a portion takes of an ingredient, line by line.
func (d Dish) ofItem(item string) iter.Seq[*big.Rat] {
	return func(yield func(*big.Rat) bool) {
		for _, o := range d.Others {
			if o.Item == item && o.PerPortion.Sign() > 0 && !yield(o.PerPortion) {
				return
			}
		}
	}
}

// ofCrop are the grams a portion takes of a crop, need by need.
func (d Dish) ofCrop(crop string) iter.Seq[*big.Rat] {
	return func(yield func(*big.Rat) bool) {
		for _, n := range d.Needs {
			if n.Crop == crop && !yield(n.PerPortion) {
				return
			}
		}
	}
}
