package planner

import (
	"cmp"
	"math/big"
	"slices"
)

// A network carries the grams of one crop from its lots to its demands: a
// transportation problem, solved by augmenting paths over whole units (Ford and
// Fulkerson, Flows in Networks, Princeton 1962, I.8), shortest paths first.
type network struct {
	s       *store
	unit    *big.Int     // units in a gram
	spare   []*big.Int   // by lot: what it still holds
	wanted  []*big.Int   // by demand: what it still lacks
	carried [][]*big.Int // by lot and demand
	kept    [][]*big.Int // the same, put aside beforehand; nil for nothing
	turn    []int        // the lots in the order they are drawn on: the least wanted first
	trail   trail        // scratch: of the last search
	queue   []int        // scratch
}

func newNetwork(s *store, portions []int) *network {
	var numbers []*big.Rat
	numbers = append(numbers, s.supply...)
	asked := make([]*big.Rat, len(s.demands))
	for i, d := range s.demands {
		asked[i] = new(big.Rat).Mul(d.per, ratInt(portions[d.dish]))
		numbers = append(numbers, asked[i])
	}
	n := &network{s: s, unit: commonUnit(numbers...)}
	for _, g := range s.supply {
		n.spare = append(n.spare, inUnits(g, n.unit))
		n.carried = append(n.carried, zeros(len(asked)))
	}
	for _, a := range asked {
		n.wanted = append(n.wanted, inUnits(a, n.unit))
	}
	n.takeTurns()
	return n
}

// takeTurns orders the lots by how many demands accept them.
func (n *network) takeTurns() {
	n.turn = make([]int, len(n.s.supply))
	wanted := make([]int, len(n.s.supply))
	for k := range n.turn {
		n.turn[k], wanted[k] = k, n.s.wantedBy(k)
	}
	slices.SortStableFunc(n.turn, func(a, b int) int { return cmp.Compare(wanted[a], wanted[b]) })
}

// through is a network that carries nothing yet between the same lots and
// demands, along the pairings of s.
func (n *network) through(s *store) *network {
	o := &network{s: s, unit: n.unit, spare: copies(n.spare), wanted: copies(n.wanted)}
	for range o.spare {
		o.carried = append(o.carried, zeros(len(o.wanted)))
	}
	o.takeTurns()
	return o
}

func copies(numbers []*big.Int) []*big.Int {
	all := zeros(len(numbers))
	for i, x := range numbers {
		all[i].Set(x)
	}
	return all
}

func zeros(count int) []*big.Int {
	room := make([]big.Int, count)
	all := make([]*big.Int, count)
	for i := range room {
		all[i] = &room[i]
	}
	return all
}

// wantedBy counts the demands that accept lot k.
func (s *store) wantedBy(k int) int {
	n := 0
	for _, d := range s.demands {
		n += int(d.lots.Bit(k))
	}
	return n
}

// fill sends what it can from the lots of the set to the demands. A lot that
// has given never takes back, so filling from some lots first and from all
// afterwards takes the most from the first.
func (n *network) fill(from *big.Int) {
	for n.augment(from) {
	}
}

// A step of a search: the lot through which a demand was reached, and the
// demand through which a lot was.
type trail struct {
	lotFrom, demandFrom []int // -2 not reached, -1 a start
}

// reach searches breadth first from the lots of the set that have something to
// spare, and returns the first demand that lacks something, or -1. The next search
// overwrites the trail.
func (n *network) reach(from *big.Int) (trail, int) {
	n.trail = trail{nowhere(n.trail.lotFrom, len(n.spare)), nowhere(n.trail.demandFrom, len(n.wanted))}
	t, queue := n.trail, n.queue[:0]
	for _, k := range n.turn {
		if from.Bit(k) == 1 && n.spare[k].Sign() > 0 {
			t.lotFrom[k] = -1
			queue = append(queue, k)
		}
	}
	for next := 0; next < len(queue); next++ {
		k := queue[next]
		for i, d := range n.s.demands {
			if t.demandFrom[i] != -2 || d.lots.Bit(k) == 0 {
				continue
			}
			t.demandFrom[i] = k
			if n.wanted[i].Sign() > 0 {
				return t, i
			}
			queue = n.giving(t, i, queue)
			n.queue = queue
		}
	}
	return t, -1
}

// nowhere is a trail to so many places of which none is reached, in the room of another.
func nowhere(room []int, places int) []int {
	room = slices.Grow(room[:0], places)[:places]
	for i := range room {
		room[i] = -2
	}
	return room
}

// giving queues the lots not yet reached that give to a demand.
func (n *network) giving(t trail, demand int, queue []int) []int {
	for l := range n.spare {
		if t.lotFrom[l] == -2 && n.carried[l][demand].Sign() > 0 {
			t.lotFrom[l] = demand
			queue = append(queue, l)
		}
	}
	return queue
}

// augment sends as much as one shortest path can carry.
func (n *network) augment(from *big.Int) bool {
	t, end := n.reach(from)
	if end < 0 {
		return false
	}
	amount := new(big.Int).Set(n.wanted[end])
	start := -1
	for i := end; ; {
		k := t.demandFrom[i]
		if t.lotFrom[k] == -1 {
			start = k
			break
		}
		i = t.lotFrom[k]
		if c := n.carried[k][i]; c.Cmp(amount) < 0 {
			amount.Set(c)
		}
	}
	if n.spare[start].Cmp(amount) < 0 {
		amount.Set(n.spare[start])
	}
	for i := end; ; {
		k := t.demandFrom[i]
		n.carried[k][i].Add(n.carried[k][i], amount)
		if t.lotFrom[k] == -1 {
			break
		}
		i = t.lotFrom[k]
		n.carried[k][i].Sub(n.carried[k][i], amount)
	}
	n.spare[start].Sub(n.spare[start], amount)
	n.wanted[end].Sub(n.wanted[end], amount)
	return true
}

// unmet returns the lots that no unmet demand can draw on any more grams from:
// the demands that only use those ask for more than they hold. It returns nil
// when every demand is met.
func (n *network) unmet() *big.Int {
	met := true
	for _, w := range n.wanted {
		met = met && w.Sign() == 0
	}
	if met {
		return nil
	}
	t, _ := n.reach(n.s.all())
	set := new(big.Int)
	for k, from := range t.lotFrom {
		if from == -2 {
			set.SetBit(set, k, 1)
		}
	}
	return set
}

// given is what the lots of the set have given, in grams.
func (n *network) given(set *big.Int) *big.Rat {
	sum := new(big.Int)
	for k := range n.carried {
		if set.Bit(k) == 1 {
			for i, c := range n.carried[k] {
				sum.Add(sum, c)
				if n.kept != nil {
					sum.Add(sum, n.kept[k][i])
				}
			}
		}
	}
	return new(big.Rat).SetFrac(sum, n.unit)
}

// canDraw reports how much the lots to be used today can give when the portions
// are met. When they cannot be met it returns the rows that say so.
func (p *Problem) canDraw(portions []int) (used *big.Rat, missing *cuts) {
	used = new(big.Rat)
	for _, s := range p.stores(func(d int) bool { return portions[d] > 0 }) {
		n := newNetwork(s, portions)
		n.fill(s.first)
		n.fill(s.all())
		if set := n.unmet(); set != nil {
			if missing == nil {
				missing = &cuts{}
			}
			missing.rows = append(missing.rows, p.fullStore(s.crop).within(set))
			continue
		}
		used.Add(used, n.given(s.first))
	}
	return used, missing
}

// wanting is how many grams of a crop its lots leave wanting of the portions.
func (p *Problem) wanting(crop string, portions []int) *big.Rat {
	n := newNetwork(p.fullStore(crop).only(func(d int) bool { return portions[d] > 0 }), portions)
	n.fill(n.s.all())
	sum := new(big.Int)
	for _, w := range n.wanted {
		sum.Add(sum, w)
	}
	return new(big.Rat).SetFrac(sum, n.unit)
}

// flows lists what is carried.
func (n *network) flows() []Flow {
	var list []Flow
	for k := range n.carried {
		for i, d := range n.s.demands {
			if g := n.grams(k, i); g.Sign() > 0 {
				list = append(list, Flow{n.s.lots[k], d.dish, d.need, g})
			}
		}
	}
	return list
}

// fullStore is the crop's store with every dish of the problem.
func (p *Problem) fullStore(crop string) *store {
	for _, s := range p.stores(func(int) bool { return true }) {
		if s.crop == crop {
			return s
		}
	}
	return &store{crop: crop, first: new(big.Int)}
}

// missingPiece finds the pieces that show how much can be taken from the lots
// to be used today: the demands that those lots with something left can reach.
func (p *Problem) missingPiece(portions []int) *cuts {
	missing := &cuts{}
	for _, s := range p.stores(func(int) bool { return true }) {
		if s.first.Sign() == 0 {
			continue
		}
		n := newNetwork(s, portions)
		n.fill(s.first)
		t, _ := n.reach(s.first)
		needs := new(big.Int)
		for i, from := range t.demandFrom {
			if from != -2 {
				needs.SetBit(needs, i, 1)
			}
		}
		missing.pieces = append(missing.pieces, s.firstPiece(needs))
	}
	return missing
}
