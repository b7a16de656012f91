package planner

import (
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// bowls is a crop of three lots that every demand takes, and what is carried of them, in
// grams by lot and demand.
func bowls(carried ...[]int64) *network {
	p := Problem{Dishes: []Dish{{Needs: []Need{{Crop: "potato", PerPortion: ratInt(60)}}}, {Needs: []Need{{Crop: "potato", PerPortion: ratInt(45)}}}}}
	for k := range carried {
		p.Lots = append(p.Lots, Lot{ID: string(rune('a' + k)), Crop: "potato", Supply: decimal.NewFromInt(100)})
	}
	n := newNetwork(p.fullStore("potato"), []int{1, 1})
	for k := range carried {
		for i, grams := range carried[k] {
			n.carried[k][i].Mul(big.NewInt(grams), n.unit)
		}
	}
	return n
}

// A take is small under 30 g, unless it is all that is asked for; what is put aside
// beforehand counts with it.
func TestSmallTakes(t *testing.T) {
	asked := []*big.Rat{ratInt(60), ratInt(20)}
	for _, c := range []struct {
		carried [][]int64
		small   int
	}{
		{[][]int64{{60, 20}}, 0}, {[][]int64{{30, 20}, {30, 0}}, 0}, {[][]int64{{29, 20}, {31, 0}}, 1}, {[][]int64{{31, 19}, {29, 1}}, 3}, {[][]int64{{40, 0}, {20, 20}}, 1}, {[][]int64{{0, 0}}, 0},
	} {
		require.Equal(t, c.small, bowls(c.carried...).smallTakes(asked), c.carried)
	}
	n := bowls([]int64{29, 20}, []int64{31, 0})
	n.kept = [][]*big.Int{{n.unit, new(big.Int)}, {new(big.Int), new(big.Int)}}
	require.Equal(t, 0, n.smallTakes(asked), "29 g and one put aside")
	require.Equal(t, "30", n.grams(0, 0).RatString())
}

// Of two flows the one that takes more of an earlier lot is the sooner, whatever the
// later ones give.
func TestCompareSooner(t *testing.T) {
	one := bowls([]int64{40, 0}, []int64{20, 20}, []int64{0, 25})
	for _, c := range []struct {
		other *network
		want  int
	}{
		{bowls([]int64{0, 40}, []int64{40, 0}, []int64{20, 5}), 0}, {bowls([]int64{41, 0}, []int64{0, 0}, []int64{0, 0}), -1},
		{bowls([]int64{39, 0}, []int64{99, 0}, []int64{0, 0}), 1}, {bowls([]int64{40, 0}, []int64{39, 0}, []int64{99, 0}), 1}, {bowls([]int64{40, 0}, []int64{40, 0}, []int64{26, 0}), -1},
	} {
		require.Equal(t, c.want, one.compareSooner(c.other))
		require.Equal(t, -c.want, c.other.compareSooner(one))
	}
}

// The least take is put aside of every lot paired, or all that is asked for where no
// other lot is; not where there is not so much.
func TestWhatIsPutAside(t *testing.T) {
	for _, c := range []struct {
		about  string
		supply []int64
		lots   []int64 // by demand, as bits
		ok     bool
		kept   [2][2]int64
	}{
		{"of two lots each", []int64{100, 100}, []int64{0b11, 0b10}, true, [2][2]int64{{30, 0}, {30, 30}}},
		{"as much as there is", []int64{30, 60}, []int64{0b11, 0b10}, true, [2][2]int64{{30, 0}, {30, 30}}},
		{"a gram less", []int64{29, 100}, []int64{0b11, 0b10}, false, [2][2]int64{}},
		{"a gram less for the second", []int64{30, 59}, []int64{0b11, 0b10}, false, [2][2]int64{}},
	} {
		n := bowls([]int64{0, 0}, []int64{0, 0})
		for k, grams := range c.supply {
			n.spare[k].Mul(big.NewInt(grams), n.unit)
		}
		for i, set := range c.lots {
			n.s.demands[i].lots = big.NewInt(set)
		}
		require.Equal(t, c.ok, n.reserve(big.NewRat(leastTake, 1)), c.about)
		if !c.ok {
			continue
		}
		for k := range c.kept {
			for i, grams := range c.kept[k] {
				require.Equal(t, ratInt(int(grams)).RatString(), n.grams(k, i).RatString(), "%s: lot %d, demand %d", c.about, k, i)
			}
		}
	}
	// 45 g are asked for: of one lot all of it, of two 30 g of either are too much.
	n := bowls([]int64{0, 0}, []int64{0, 0})
	n.s.demands[0].lots, n.s.demands[1].lots = big.NewInt(0b01), big.NewInt(0b11)
	require.False(t, n.reserve(big.NewRat(leastTake, 1)), "15 g are left for the second lot")
	n = bowls([]int64{0, 0}, []int64{0, 0})
	n.s.demands[0].lots, n.s.demands[1].lots = big.NewInt(0b10), big.NewInt(0b01)
	require.True(t, n.reserve(ratInt(50)))
	require.Equal(t, []string{"45", "50"}, []string{n.grams(0, 1).RatString(), n.grams(1, 0).RatString()})
}

// Sizes are far from each other from 20 mm between the bands on; what is not graded is
// far from nothing.
func TestFarSizes(t *testing.T) {
	for _, c := range []struct {
		one, other units.Band
		far        bool
	}{
		{units.Band{Low: 20, High: 30}, units.Band{Low: 50, High: 60}, true}, {units.Band{Low: 20, High: 31}, units.Band{Low: 50, High: 60}, false},
		{units.Band{Low: 20, High: 30}, units.Band{Low: 25, High: 90}, false}, {units.Band{}, units.Band{Low: 50, High: 60}, false}, {units.Band{}, units.Band{}, false},
	} {
		s := &store{lots: []int{1, 0}, demands: make([]demand, 2)}
		for _, sizes := range [][]units.Band{{c.one, c.other}, {c.other, c.one}} {
			a := &takings{store: s, p: &Problem{Lots: []Lot{{Sizes: sizes[0]}, {Sizes: sizes[1]}}}, chosen: []*big.Int{big.NewInt(0b11), big.NewInt(0b11)}}
			require.Equal(t, c.far, a.far(0, 1), c)
			require.Equal(t, c.far, a.farMixes() == 2, "in either dish")
			a.chosen[1] = big.NewInt(0b01)
			require.Equal(t, c.far, a.farMixes() == 1, "in one")
		}
	}
}

// The last of the tries is made too: 150 g are in neither of two lots of 100 g, which
// takes two tries to see, and the third finds that both together do.
func TestTheLastTryIsMade(t *testing.T) {
	p := Problem{Lots: []Lot{{ID: "a", Crop: "potato", Supply: decimal.NewFromInt(100)}, {ID: "b", Crop: "potato", Supply: decimal.NewFromInt(100)}},
		Dishes: []Dish{{Needs: []Need{{Crop: "potato", PerPortion: ratInt(150)}}}}}
	for tries, found := range map[int]bool{2: false, 3: true, 4: true} {
		taken := p.takings(p.fullStore("potato"), []int{1}, new(big.Rat))
		taken.tries = tries
		require.Len(t, taken.best().flows(), 2)
		require.Equal(t, found, taken.found != nil, tries)
		require.Equal(t, max(0, tries-3), taken.tries, "no more are made than it takes")
	}
}

// What is used first is counted in steps of 10 g over all crops: of 18 g in three crops
// 8 may stay where that saves a bowl, so that one crop is drawn from one lot, and the two
// others are not.
func TestWhatMayStayOfWhatIsUsedFirst(t *testing.T) {
	p := Problem{Dishes: []Dish{{}}}
	for _, crop := range []string{"beet", "carrot", "leek"} {
		p.Lots = append(p.Lots, Lot{ID: crop + " today", Crop: crop, First: true, Supply: decimal.NewFromInt(6)}, Lot{ID: crop, Crop: crop, Supply: decimal.NewFromInt(900)})
		p.Dishes[0].Needs = append(p.Dishes[0].Needs, Need{Crop: crop, PerPortion: ratInt(50)})
	}
	flows := p.draw([]int{1}, ratInt(10))
	first := new(big.Rat)
	for _, f := range flows {
		if p.Lots[f.Lot].First {
			first.Add(first, f.Grams)
		}
	}
	require.Equal(t, "12", first.RatString())
	require.Len(t, flows, 5)
	require.Len(t, p.draw([]int{1}, ratInt(18)), 6, "nothing may stay")
	require.Len(t, p.draw([]int{1}, new(big.Rat)), 3, "all of it may")
}

// What the planner takes for granted, beside what it is asked: how patient it is, what
// nobody weighs finer, what a cook would rather not do.
func TestWhatThePlannerTakesForGranted(t *testing.T) {
	require.Equal(t, []int{200_000, 20_000, 30, 4_000}, []int{DefaultNodeLimit, explainNodes, firstLook, mostTries})
	require.Equal(t, []int{100_000, 100_000, 1_000_000}, []int{MostPortions, mostGuests, mostHelpings})
	require.Equal(t, []int{10, 30, 20, 256, 6}, []int{UseStep, leastTake, farSizes, mostUnions, mostSets})
	require.Equal(t, []float64{3, 4, 1024, 0.02}, []float64{levelShare, mostMended, roundingParts, leastBroken})
}
