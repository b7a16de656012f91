package planner

import (
	"slices"
	"strings"
)

// A kind is all guests who eat alike.
type kind struct {
	suits  []bool // by dish of the model
	count  int
	groups []int // indices into Problem.Guests
}

// A company is all guests with helpings of one size, by kinds. What they can
// take of the dishes is a flow from dishes to kinds, so sets of dishes bound it:
// see rank.
type company struct {
	kinds []kind
	each  []int64  // by dish of the model: how many may eat it
	seats *seating // scratch: that of the last call of seat
}

// companyOf gathers the adults or the children who may eat any of the dishes.
// The order of the guests changes nothing but the groups.
func (p *Problem) companyOf(child bool, dishes []int) *company {
	index := map[string]int{}
	var keys []string
	c := &company{each: make([]int64, len(dishes))}
	for g, guest := range p.Guests {
		if guest.Child != child {
			continue
		}
		suits := make([]bool, len(dishes))
		var key strings.Builder
		for i, d := range dishes {
			if suits[i] = guest.Suits[d]; suits[i] {
				c.each[i] += int64(guest.Count)
				key.WriteByte('1')
			} else {
				key.WriteByte('0')
			}
		}
		if !slices.Contains(suits, true) {
			continue
		}
		k, ok := index[key.String()]
		if !ok {
			k = len(keys)
			index[key.String()] = k
			keys = append(keys, key.String())
			c.kinds = append(c.kinds, kind{suits: suits})
		}
		c.kinds[k].count += guest.Count
		c.kinds[k].groups = append(c.kinds[k].groups, g)
	}
	slices.SortFunc(c.kinds, func(a, b kind) int { return compareSuits(a.suits, b.suits) })
	return c
}

func compareSuits(a, b []bool) int {
	return slices.CompareFunc(a, b, func(a, b bool) int {
		switch {
		case a == b:
			return 0
		case a:
			return -1
		}
		return 1
	})
}

// rank is the most helpings that the company can take of a set of dishes when
// nobody takes more than rounds: Σ over the kinds of count × min(rounds, dishes
// of the set that suit).
func (c *company) rank(set []bool, rounds int) int64 {
	total := 0
	for _, k := range c.kinds {
		n := 0
		for i, in := range set {
			if in && k.suits[i] {
				n++
			}
		}
		total += k.count * min(rounds, n)
	}
	return int64(total)
}

// A seating is helpings on their way from dishes to kinds: a flow, sent along
// augmenting paths (Ford and Fulkerson, Flows in Networks, Princeton 1962, I.8).
// It counts in floating point, which is exact for whole helpings.
type seating struct {
	*company
	left  []float64   // by dish: helpings not yet taken
	room  []float64   // by kind: helpings it could still take
	taken [][]float64 // by dish and kind
	// what the last search reached, and from where
	dishFrom, kindFrom []int
	queue              []int // scratch
}

// seat sends what it can of the helpings given, nobody taking more than rounds. It
// overwrites what it returned before.
func (c *company) seat(helpings []float64, rounds int) *seating {
	if c.seats == nil {
		c.seats = &seating{company: c, left: make([]float64, len(helpings)), room: make([]float64, len(c.kinds)),
			dishFrom: make([]int, len(helpings)), kindFrom: make([]int, len(c.kinds))}
		for range helpings {
			c.seats.taken = append(c.seats.taken, make([]float64, len(c.kinds)))
		}
	}
	s := c.seats
	copy(s.left, helpings)
	clear(s.room)
	for _, taken := range s.taken {
		clear(taken)
	}
	for range rounds {
		s.oneMore()
	}
	return s
}

const hair = 1e-9 // fractions below it count as nothing

// oneMore lets everybody take one helping more. Nobody loses one by it.
func (s *seating) oneMore() {
	for k := range s.kinds {
		s.room[k] += float64(s.kinds[k].count)
	}
	for i := range s.left {
		for k := range s.kinds {
			if s.kinds[k].suits[i] && s.left[i] > 0 && s.room[k] > 0 {
				s.send(i, k, min(s.left[i], s.room[k], float64(s.kinds[k].count)-s.taken[i][k]))
			}
		}
	}
	for s.augment() {
	}
}

// send moves a direct amount from dish i to kind k.
func (s *seating) send(i, k int, amount float64) {
	s.left[i] -= amount
	s.room[k] -= amount
	s.taken[i][k] += amount
}

// augment sends what one shortest path can carry; false when there is none.
func (s *seating) augment() bool {
	end := s.search()
	if end < 0 {
		return false
	}
	amount, start := s.room[end], -1
	for k := end; ; {
		i := s.kindFrom[k]
		amount = min(amount, float64(s.kinds[k].count)-s.taken[i][k])
		if k = s.dishFrom[i]; k < 0 {
			start = i
			break
		}
		amount = min(amount, s.taken[i][k])
	}
	amount = min(amount, s.left[start])
	for k := end; ; {
		i := s.kindFrom[k]
		s.taken[i][k] += amount
		if k = s.dishFrom[i]; k < 0 {
			break
		}
		s.taken[i][k] -= amount
	}
	s.room[end] -= amount
	s.left[start] -= amount
	return true
}

const (
	unreached = -2
	source    = -1
)

// search goes breadth first from the dishes with helpings left to a kind with
// room, or returns -1 and leaves in dishFrom which dishes it reached.
func (s *seating) search() int {
	s.begin()
	for next := 0; next < len(s.queue); next++ {
		i := s.queue[next]
		for k := range s.kinds {
			if s.kindFrom[k] != unreached || !s.kinds[k].suits[i] || float64(s.kinds[k].count)-s.taken[i][k] <= hair {
				continue
			}
			s.kindFrom[k] = i
			if s.room[k] > hair {
				return k
			}
			s.queueTaken(k)
		}
	}
	return -1
}

// begin queues the dishes with helpings left.
func (s *seating) begin() {
	s.queue = s.queue[:0]
	for i := range s.left {
		s.dishFrom[i] = unreached
		if s.left[i] > hair {
			s.dishFrom[i] = source
			s.queue = append(s.queue, i)
		}
	}
	for k := range s.kindFrom {
		s.kindFrom[k] = unreached
	}
}

// queueTaken queues the dishes not yet reached of which a kind has helpings.
func (s *seating) queueTaken(k int) {
	for o := range s.left {
		if s.dishFrom[o] == unreached && s.taken[o][k] > hair {
			s.dishFrom[o] = k
			s.queue = append(s.queue, o)
		}
	}
}

// tight is the set of dishes whose helpings cannot all be taken: with it the
// helpings that are comes to those of the other dishes plus the set's rank (the
// least cut). It holds after the last search failed.
func (s *seating) tight() []bool {
	set := make([]bool, len(s.dishFrom))
	for i, from := range s.dishFrom {
		set[i] = from != unreached
	}
	return set
}

// served is how many helpings are taken.
func (s *seating) served() float64 {
	sum := 0.0
	for i := range s.taken {
		for _, n := range s.taken[i] {
			sum += n
		}
	}
	return sum
}

// unserved is how many helpings nobody takes.
func (s *seating) unserved() float64 {
	sum := 0.0
	for _, n := range s.left {
		sum += n
	}
	return sum
}
