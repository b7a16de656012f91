package planner

import (
	"cmp"
	"math/big"
	"slices"
)

// Once the portions are decided, which lot goes into which dish is free within
// what each accepts. A cook wants few bowls: the fewest pairings of a lot with a
// dish (a transportation problem with fixed charges; exact for so many tries, and
// beyond them a forest, which has at most lots + dishes − 1), of these the fewest
// takes too small to bother with, then the fewest far sizes in one dish, then the
// most from what perishes sooner.

const (
	leastTake = 30 // grams: less of a lot is avoided where it can be
	farSizes  = 20 // mm between the bands of two lots that should not share a dish
	mostTries = 4_000
)

// draw finds the flows that meet the portions and take so much from the lots to
// be used today, in all crops together.
func (p *Problem) draw(portions []int, first *big.Rat) []Flow {
	spare := new(big.Rat).Neg(first)
	stores := p.stores(func(d int) bool { return portions[d] > 0 })
	most := make([]*big.Rat, len(stores))
	for i, s := range stores {
		n := newNetwork(s, portions)
		n.fill(s.first)
		most[i] = n.given(s.first)
		spare.Add(spare, most[i])
	}
	var flows []Flow
	for i, s := range stores {
		if len(s.demands) == 0 {
			continue
		}
		t := p.takings(s, portions, new(big.Rat).Sub(most[i], spare))
		best := t.best()
		if given := best.given(s.first); given.Cmp(most[i]) < 0 {
			spare.Sub(spare, given.Sub(most[i], given))
		}
		flows = append(flows, best.flows()...)
	}
	slices.SortFunc(flows, func(a, b Flow) int {
		return cmp.Or(cmp.Compare(a.Dish, b.Dish), cmp.Compare(a.Need, b.Need), cmp.Compare(p.Lots[a.Lot].ID, p.Lots[b.Lot].ID))
	})
	return flows
}

// takings looks for the best flow of one crop.
type takings struct {
	*store
	p        *Problem
	portions []int
	whole    *network // nothing carried, every lot open to the demands that accept it
	first    *big.Rat // at least so much from the lots to be used today
	asked    []*big.Rat
	chosen   []*big.Int // by demand: the lots it is paired with
	// In floating point, to rule out what cannot be: what may be is weighed exactly.
	grams []float64 // by demand: asked
	holds []float64 // by lot: its supply
	spare []float64 // by lot: what demands with one lot leave of it
	tries int
	flows int // weighed in full
	found *network
	score [2]int // of found: small takes, far sizes
}

func (p *Problem) takings(s *store, portions []int, first *big.Rat) *takings {
	t := &takings{store: s, p: p, portions: portions, whole: newNetwork(s, portions), first: first, tries: mostTries}
	for _, d := range s.demands {
		t.asked = append(t.asked, new(big.Rat).Mul(d.per, ratInt(portions[d.dish])))
		t.chosen = append(t.chosen, new(big.Int))
	}
	for _, g := range t.asked {
		grams, _ := g.Float64()
		t.grams = append(t.grams, grams)
	}
	for _, g := range s.supply {
		grams, _ := g.Float64()
		t.holds = append(t.holds, grams)
	}
	t.spare = slices.Clone(t.holds)
	return t
}

// best tries ever more pairings until there is a flow.
func (t *takings) best() *network {
	for extra := range t.lots {
		t.pair(0, extra)
		if t.found != nil || t.tries <= 0 {
			break
		}
	}
	if t.found != nil {
		return t.found
	}
	n := newNetwork(t.store, t.portions)
	n.fillInOrder()
	n.breakCycles()
	return n
}

// pair chooses lots for the demands from i on, so many more in all than one for
// each.
func (t *takings) pair(i, extra int) {
	if t.tries <= 0 {
		return
	}
	if i == len(t.demands) {
		if extra == 0 {
			t.tries--
			t.consider()
		}
		return
	}
	for size := 1; size <= extra+1; size++ {
		if i == len(t.demands)-1 && size != extra+1 {
			continue
		}
		t.choose(i, 0, size, 0, func() { t.pair(i+1, extra+1-size) })
	}
}

// choose adds size of the lots from k on to those of demand i, and goes on with
// each choice that holds enough.
func (t *takings) choose(i, k, size int, held float64, next func()) {
	if size == 0 {
		if !tooLittle(held, t.grams[i]) {
			next()
		}
		return
	}
	alone := size == 1 && t.chosen[i].Sign() == 0
	for ; k < len(t.lots) && t.tries > 0; k++ {
		switch {
		case t.demands[i].lots.Bit(k) == 0 || t.spare[k] <= hair:
		case alone:
			t.draw(i, k, next)
		default:
			t.chosen[i].SetBit(t.chosen[i], k, 1)
			t.choose(i, k+1, size-1, held+t.holds[k], next)
			t.chosen[i].SetBit(t.chosen[i], k, 0)
		}
	}
}

// draw takes all that a demand asks for of one lot, where it has so much.
func (t *takings) draw(i, k int, next func()) {
	if t.tries--; tooLittle(t.spare[k], t.grams[i]) {
		return
	}
	t.spare[k] -= t.grams[i]
	t.chosen[i].SetBit(t.chosen[i], k, 1)
	next()
	t.chosen[i].SetBit(t.chosen[i], k, 0)
	t.spare[k] += t.grams[i]
}

// consider keeps the flow through the chosen pairings if there is one and it is
// better than what was found.
func (t *takings) consider() {
	far := t.farMixes()
	if t.isOutdone(far) || t.usesTooLittle() || t.overdrawn() {
		return
	}
	t.flows++
	narrow := *t.store
	narrow.demands = slices.Clone(t.demands)
	for i := range narrow.demands {
		narrow.demands[i].lots = new(big.Int).Set(t.chosen[i])
	}
	n := t.whole.through(&narrow)
	small := 0
	if !n.reserve(big.NewRat(leastTake, 1)) || !t.fills(n) {
		n = t.whole.through(&narrow)
		if !t.fills(n) {
			return
		}
		small = n.smallTakes(t.asked)
	}
	score := [2]int{small, far}
	if t.found != nil {
		if c := slices.Compare(score[:], t.score[:]); c > 0 || c == 0 && n.compareSooner(t.found) <= 0 {
			return
		}
	}
	t.found, t.score = n, score
}

// isOutdone reports whether pairings with so many far sizes in one dish cannot be better
// than what was found.
func (t *takings) isOutdone(far int) bool {
	if t.found == nil {
		return false
	}
	c := cmp.Or(cmp.Compare(0, t.score[0]), cmp.Compare(far, t.score[1]))
	return c > 0 || c == 0 && !t.mayBeSooner()
}

// mayBeSooner reports whether the chosen pairings could take more of a sooner lot than
// what was found, which takes so little of none before it as they at most can.
func (t *takings) mayBeSooner() bool {
	var most, given big.Int
	for k, holds := range t.whole.spare {
		most.SetInt64(0)
		given.SetInt64(0)
		for i, wanted := range t.whole.wanted {
			if t.chosen[i].Bit(k) == 1 {
				most.Add(&most, wanted)
			}
			given.Add(&given, t.found.carried[k][i])
			if t.found.kept != nil {
				given.Add(&given, t.found.kept[k][i])
			}
		}
		if most.Cmp(holds) > 0 {
			most.Set(holds)
		}
		if c := most.Cmp(&given); c != 0 {
			return c > 0
		}
	}
	return false
}

// tooLittle reports whether what is held is clearly less than what is asked.
func tooLittle(held, asked float64) bool { return held < asked*(1-hair)-hair }

// usesTooLittle reports whether the chosen pairings take clearly less from the lots to be
// used today than they have to.
func (t *takings) usesTooLittle() bool {
	most := 0.0
	for k, holds := range t.holds {
		if t.store.first.Bit(k) == 1 {
			asked := 0.0
			for i, grams := range t.grams {
				asked += float64(t.chosen[i].Bit(k)) * grams
			}
			most += min(holds, asked)
		}
	}
	least, _ := t.first.Float64()
	return tooLittle(most, least)
}

// mostSets is the number of demands up to which all sets of them are looked at.
const mostSets = 6

// overdrawn reports whether some of the demands ask for more together than the lots
// they are paired with hold: then nothing meets them (Ford and Fulkerson, II.10).
func (t *takings) overdrawn() bool {
	if len(t.demands) > mostSets {
		return false
	}
	var lots big.Int
	for set := 1; set < 1<<len(t.demands); set++ {
		asked, held := 0.0, 0.0
		lots.SetInt64(0)
		for i, grams := range t.grams {
			if set>>i&1 == 1 {
				asked += grams
				lots.Or(&lots, t.chosen[i])
			}
		}
		for k, grams := range t.holds {
			held += float64(lots.Bit(k)) * grams
		}
		if tooLittle(held, asked) {
			return true
		}
	}
	return false
}

// fills reports whether the network can meet all demands, with enough from the
// lots to be used today.
func (t *takings) fills(n *network) bool {
	n.fillInOrder()
	return n.unmet() == nil && n.given(t.store.first).Cmp(t.first) >= 0
}

// fillInOrder takes the most from the lots that come first, in their order.
func (n *network) fillInOrder() {
	set := new(big.Int)
	for k := range n.spare {
		set = new(big.Int).SetBit(set, k, 1)
		n.fill(set)
	}
}

// reserve sends the least take through every pairing; false when there is not as
// much. Later paths may not take it back, so it is put aside.
func (n *network) reserve(least *big.Rat) bool {
	units := new(big.Int).Quo(new(big.Int).Mul(least.Num(), n.unit), least.Denom())
	n.kept = make([][]*big.Int, len(n.spare))
	for k := range n.spare {
		n.kept[k] = zeros(len(n.wanted))
	}
	for i, d := range n.s.demands {
		for k := range n.spare {
			if d.lots.Bit(k) == 1 && !n.keep(k, i, units) {
				return false
			}
		}
	}
	return true
}

// keep sets aside so much of a lot for a demand, or all the demand wants where it has
// no other lot; false where there is not so much.
func (n *network) keep(k, i int, amount *big.Int) bool {
	if n.wanted[i].Cmp(amount) < 0 {
		if bits(n.s.demands[i].lots) > 1 {
			return false
		}
		amount = new(big.Int).Set(n.wanted[i])
	}
	if n.spare[k].Cmp(amount) < 0 {
		return false
	}
	n.spare[k].Sub(n.spare[k], amount)
	n.wanted[i].Sub(n.wanted[i], amount)
	n.kept[k][i].Set(amount)
	return true
}

func bits(set *big.Int) int {
	n := 0
	for k := range set.BitLen() {
		n += int(set.Bit(k))
	}
	return n
}

// smallTakes counts what is under the least take, and not all that is asked for.
func (n *network) smallTakes(asked []*big.Rat) int {
	count := 0
	for k := range n.carried {
		for i := range n.carried[k] {
			g := n.grams(k, i)
			if g.Sign() > 0 && g.Cmp(big.NewRat(leastTake, 1)) < 0 && g.Cmp(asked[i]) < 0 {
				count++
			}
		}
	}
	return count
}

// grams is what lot k gives to demand i.
func (n *network) grams(k, i int) *big.Rat {
	sum := new(big.Int).Set(n.carried[k][i])
	if n.kept != nil {
		sum.Add(sum, n.kept[k][i])
	}
	return new(big.Rat).SetFrac(sum, n.unit)
}

// compareSooner compares how much two flows take of the lots in their order; more
// of an earlier one is greater.
func (n *network) compareSooner(o *network) int {
	for k := range n.carried {
		only := new(big.Int).SetBit(new(big.Int), k, 1)
		if c := n.given(only).Cmp(o.given(only)); c != 0 {
			return c
		}
	}
	return 0
}

// farMixes counts the pairs of lots of far sizes that share a dish.
func (t *takings) farMixes() int {
	count := 0
	for i := range t.demands {
		for a := range t.lots {
			for b := range a {
				if t.chosen[i].Bit(a) == 1 && t.chosen[i].Bit(b) == 1 && t.far(a, b) {
					count++
				}
			}
		}
	}
	return count
}

func (t *takings) far(a, b int) bool {
	one, other := t.p.Lots[t.lots[a]].Sizes, t.p.Lots[t.lots[b]].Sizes
	return one.IsGraded() && other.IsGraded() && max(one.Low, other.Low)-min(one.High, other.High) >= farSizes
}

// breakCycles takes a pairing out of every ring of lots and dishes, until the
// pairings are a forest. What a lot gives in all, and a dish gets, stays.
func (n *network) breakCycles() {
	for {
		ring := n.ring()
		if ring == nil {
			return
		}
		least := n.carried[ring[1][0]][ring[1][1]]
		for at := 3; at < len(ring); at += 2 {
			if c := n.carried[ring[at][0]][ring[at][1]]; c.Cmp(least) < 0 {
				least = c
			}
		}
		least = new(big.Int).Set(least)
		for at, pair := range ring {
			c := n.carried[pair[0]][pair[1]]
			if at%2 == 0 {
				c.Add(c, least)
			} else {
				c.Sub(c, least)
			}
		}
	}
}
