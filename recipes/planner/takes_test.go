package planner

import (
	"context"
	"math/big"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// A pairing is one way to pair the demands of a crop with lots, reckoned without a
// network: demands can be met when every set of them asks for no more than its lots
// hold (Hall's condition, as in the transportation problem). Whole grams only.
type pairing struct {
	lots, demands int
	supply, asked []int
	with          []int // by demand: the lots it is paired with, as bits
}

func (p *pairing) count() (n int) {
	for _, set := range p.with {
		for k := range p.lots {
			n += set >> k & 1
		}
	}
	return n
}

// lacking is the most that some set of demands asks for beyond what those of the
// named lots hold that it is paired with: what has to come from the other lots, where
// all of them together will do.
func (p *pairing) lacking(named int, supply, asked []int) (most int) {
	for set := 1; set < 1<<p.demands; set++ {
		lots, sum := 0, 0
		for i := range p.demands {
			if set>>i&1 == 1 {
				lots |= p.with[i]
				sum += asked[i]
			}
		}
		for k := range p.lots {
			if lots&named>>k&1 == 1 {
				sum -= supply[k]
			}
		}
		most = max(most, sum)
	}
	return most
}

// withoutSmall takes the least take out of every lot and demand paired, or all of a
// demand that has one lot and asks for less; false where there is not so much.
func (p *pairing) withoutSmall() (supply, asked []int, ok bool) {
	supply, asked = append(supply, p.supply...), append(asked, p.asked...)
	for i, set := range p.with {
		single := set&(set-1) == 0
		for k := range p.lots {
			if set>>k&1 == 0 {
				continue
			}
			take := leastTake
			if single {
				take = min(take, p.asked[i])
			}
			supply[k] -= take
			asked[i] -= take
			if supply[k] < 0 || asked[i] < 0 {
				return nil, nil, false
			}
		}
	}
	return supply, asked, p.lacking(1<<p.lots-1, supply, asked) == 0
}

// given is what the lots up to each give when the first give all they can.
func (p *pairing) given(supply, asked []int) (upTo []int) {
	all := 0
	for _, a := range asked {
		all += a
	}
	for k := range p.lots {
		upTo = append(upTo, all-p.lacking(1<<(k+1)-1, supply, asked))
	}
	return upTo
}

// Flows have the fewest pairings there can be; of the ways to have so few none with a
// small take where there is one without, of these the fewest far sizes in one dish,
// and of these the most from the lots that come first: every way tried.
func TestTakesAgreeWithEveryPairing(t *testing.T) {
	several, mixed := 0, 0
	for seed := range uint64(1_500) {
		r := rand.New(rand.NewPCG(seed, 48))
		p, portions := takingProblem(r)
		s := p.stores(func(int) bool { return true })[0]
		whole := newNetwork(s, portions)
		if whole.fillInOrder(); whole.unmet() != nil {
			continue
		}
		taken := p.takings(s, portions, new(big.Rat))
		found := taken.best()
		require.Positive(t, taken.tries, "seed %d: all were tried", seed)

		want := pairing{lots: len(s.lots), demands: len(s.demands)}
		for _, g := range s.supply {
			want.supply = append(want.supply, int(g.Num().Int64()))
		}
		for _, d := range s.demands {
			want.asked = append(want.asked, int(d.per.Num().Int64())*portions[d.dish])
		}
		best := everyPairing(&want, s, p)
		pairs := 0
		for k := range found.carried {
			for i := range s.demands {
				if found.grams(k, i).Sign() > 0 {
					pairs++
				}
			}
		}
		require.Equal(t, best.pairs, pairs, "seed %d", seed)
		require.Equal(t, best.small, taken.score[0] > 0, "seed %d: a small take", seed)
		if best.small {
			continue
		}
		require.Equal(t, best.far, taken.score[1], "seed %d: far sizes", seed)
		got, sum := []int(nil), 0
		for k := range found.carried {
			for i := range s.demands {
				sum += int(found.grams(k, i).Num().Int64())
			}
			got = append(got, sum)
		}
		require.Equal(t, best.given, got, "seed %d: what the first lots give", seed)
		if best.ways > 1 {
			several++
		}
		if best.far > 0 {
			mixed++
		}
	}
	require.Greater(t, several, 100)
	require.Greater(t, mixed, 5)
}

// takingProblem draws up to four lots and three dishes of one crop, in whole grams.
func takingProblem(r *rand.Rand) (*Problem, []int) {
	p := &Problem{}
	for range 2 + r.IntN(3) {
		l := Lot{ID: string(rune('a' + len(p.Lots))), Crop: "potato", Supply: decimal.NewFromInt(int64(20 + 10*r.IntN(50)))}
		if r.IntN(4) > 0 {
			l.Sizes = riddle[r.IntN(3)]
		}
		l.Keeps = time.Date(2031, 7, 1+r.IntN(5), 0, 0, 0, 0, time.UTC)
		p.Lots = append(p.Lots, l)
	}
	var portions []int
	for range 1 + r.IntN(3) {
		n := Need{Crop: "potato", PerPortion: ratInt(10 + 10*r.IntN(20))}
		if r.IntN(4) == 0 {
			n.PerPortion = ratInt(5 + r.IntN(20)) // a pinch: all of it may be less than is worth taking
		}
		if r.IntN(3) == 0 {
			n.Sizes = units.Band{Low: 20, High: 65}
		}
		p.Dishes = append(p.Dishes, Dish{Name: "dish", Largest: 9, Wish: decimal.NewFromInt(1), Needs: []Need{n}})
		portions = append(portions, 1+r.IntN(4))
	}
	return p, portions
}

type bestPairing struct {
	pairs, far, ways int
	small            bool
	given            []int
}

func everyPairing(p *pairing, s *store, problem *Problem) bestPairing {
	var best bestPairing
	p.with = make([]int, p.demands)
	var walk func(i int)
	walk = func(i int) {
		if i < p.demands {
			for set := 1; set < 1<<p.lots; set++ {
				if allowed := int(s.demands[i].lots.Int64()); set&^allowed == 0 {
					p.with[i] = set
					walk(i + 1)
				}
			}
			return
		}
		if p.lacking(1<<p.lots-1, p.supply, p.asked) > 0 || best.ways > 0 && p.count() > best.pairs {
			return
		}
		if best.ways == 0 || p.count() < best.pairs {
			best = bestPairing{pairs: p.count(), small: true}
		}
		best.ways++
		supply, asked, ok := p.withoutSmall()
		if !ok {
			return
		}
		far, given := p.farIn(s, problem), p.given(supply, asked)
		for k := range p.lots { // and what was put aside
			for l := range k + 1 {
				given[k] += p.supply[l] - supply[l]
			}
		}
		if best.small || far < best.far || far == best.far && compareInts(given, best.given) > 0 {
			best.small, best.far, best.given = false, far, given
		}
	}
	walk(0)
	return best
}

func compareInts(a, b []int) int {
	for i := range a {
		if a[i] != b[i] {
			return a[i] - b[i]
		}
	}
	return 0
}

// farIn counts the pairs of lots in one demand whose bands lie 20 mm apart or more.
func (p *pairing) farIn(s *store, problem *Problem) (count int) {
	for _, set := range p.with {
		for a := range p.lots {
			for b := range a {
				one, other := problem.Lots[s.lots[a]].Sizes, problem.Lots[s.lots[b]].Sizes
				if set>>a&1 == 1 && set>>b&1 == 1 && one.High > 0 && other.High > 0 && (one.Low-other.High >= 20 || other.Low-one.High >= 20) {
					count++
				}
			}
		}
	}
	return count
}

// How many ways were tried: the work of a search for few lots stays what it is.
func TestTriesOfTakes(t *testing.T) {
	var got []int
	weighed := 0
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 50))
		p, portions := takingProblem(r)
		s := p.stores(func(int) bool { return true })[0]
		taken := p.takings(s, portions, new(big.Rat))
		taken.best()
		got, weighed = append(got, mostTries-taken.tries), weighed+taken.flows
	}
	require.Equal(t, 429, weighed, "what cannot be better is not weighed in full")
	require.Equal(t, []int{8, 45, 4, 5, 157, 18, 7, 30, 32, 18, 64, 31, 7, 250, 6, 12, 3, 228, 6, 4, 12, 19, 4, 5}, got[:24])
}

// With more lots and dishes than can be tried a plan makes do with a forest of
// pairings, and so does one for which few tries are left.
func TestTakesWithoutPatience(t *testing.T) {
	p := &Problem{}
	var portions []int
	for i := range 12 {
		p.Lots = append(p.Lots, Lot{ID: string(rune('a' + i)), Crop: "potato", Supply: decimal.NewFromInt(int64(101 + 2*i))})
		p.Dishes = append(p.Dishes, Dish{Name: "dish", Largest: 9, Wish: decimal.NewFromInt(1), Needs: []Need{{Crop: "potato", PerPortion: ratInt(103)}}})
		portions = append(portions, 1)
	}
	s := p.stores(func(int) bool { return true })[0]
	taken := p.takings(s, portions, new(big.Rat))
	n := taken.best()
	require.Nil(t, n.unmet())
	require.Nil(t, n.ring())
	require.LessOrEqual(t, len(n.flows()), 23)
	for _, tries := range []int{0, 1} {
		taken = p.takings(s, portions, new(big.Rat))
		taken.tries = tries
		require.Nil(t, taken.best().unmet())
		require.Nil(t, taken.found)
	}
}

// A ring of pairings is opened where it carries least, and everything else stays.
func TestBreakCycles(t *testing.T) {
	p, portions := &Problem{}, []int{1, 1}
	for i, grams := range []int64{500, 700} {
		p.Lots = append(p.Lots, Lot{ID: string(rune('a' + i)), Crop: "potato", Supply: decimal.NewFromInt(grams)})
		p.Dishes = append(p.Dishes, Dish{Name: "dish", Largest: 9, Wish: decimal.NewFromInt(1), Needs: []Need{{Crop: "potato", PerPortion: ratInt(300)}}})
	}
	n := newNetwork(p.stores(func(int) bool { return true })[0], portions)
	for k, row := range [][]int64{{100, 250}, {200, 50}} {
		for i, g := range row {
			n.carried[k][i].SetInt64(g)
			n.wanted[i].Sub(n.wanted[i], big.NewInt(g))
			n.spare[k].Sub(n.spare[k], big.NewInt(g))
		}
	}
	require.Len(t, n.ring(), 4)
	n.breakCycles()
	require.Nil(t, n.ring())
	require.Equal(t, [2][2]string{{"50", "300"}, {"250", "0"}}, [2][2]string{
		{n.grams(0, 0).RatString(), n.grams(0, 1).RatString()}, {n.grams(1, 0).RatString(), n.grams(1, 1).RatString()}})
}

// What is used first is used as far as the level asks, and no pairing more for it:
// 300 g to be used today and 900 g else, of which 400 g go in one dish.
func TestTakesUseFirst(t *testing.T) {
	p := Problem{MostDishes: 1,
		Lots:   []Lot{{ID: "a", Crop: "potato", Supply: decimal.NewFromInt(900)}, {ID: "b", Crop: "potato", Supply: decimal.NewFromInt(305), First: true}},
		Dishes: []Dish{{Name: "mash", Smallest: 4, Largest: 4, Wish: decimal.NewFromInt(1), Needs: []Need{{Crop: "potato", PerPortion: ratInt(100)}}}}}
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	require.Equal(t, "300", plan.Levels.UseFirst.RatString())
	require.Len(t, plan.Flows, 2)
	require.Equal(t, []string{"95", "305"}, []string{plan.Flows[0].Grams.RatString(), plan.Flows[1].Grams.RatString()})
	p.Lots[1].First = false
	plan, err = Solve(context.Background(), p)
	require.NoError(t, err)
	require.Len(t, plan.Flows, 1, "of one lot, where nothing has to be used")
}

// Lots are drawn on in the order of how many demands accept them, the least first, and
// those alike in their own order.
func TestTurnsOfLots(t *testing.T) {
	s := &store{supply: []*big.Rat{ratInt(1), ratInt(1), ratInt(1), ratInt(1)}, demands: []demand{{lots: big.NewInt(0b0101), per: ratInt(1)}, {lots: big.NewInt(0b1101), per: ratInt(1)}, {lots: big.NewInt(0b0001), per: ratInt(1)}}}
	require.Equal(t, []int{3, 0, 2, 1}, []int{s.wantedBy(0), s.wantedBy(1), s.wantedBy(2), s.wantedBy(3)})
	n := newNetwork(s, []int{1})
	require.Equal(t, []int{1, 3, 2, 0}, n.turn)
	require.Equal(t, []int{1, 3, 2, 0}, n.through(s).turn)
}
