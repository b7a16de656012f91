package planner

import (
	"context"
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// randomCompany draws guests who eat differently, of one size.
func randomCompany(r *rand.Rand, dishes int) *company {
	p := &Problem{Sides: 1 + r.IntN(3)}
	var all []int
	for d := range dishes {
		all = append(all, d)
	}
	for range 1 + r.IntN(5) {
		g := Guest{Count: 1 + r.IntN(4)}
		for range dishes {
			g.Suits = append(g.Suits, r.IntN(3) > 0)
		}
		p.Guests = append(p.Guests, g)
	}
	return p.companyOf(false, all)
}

// What finds a taker is the least, over all sets of dishes, of what is cooked of the
// others and what can be taken of the set; and the set told is one of those (the least
// cut, Ford and Fulkerson, I.5). Round by round, nobody losing one.
func TestSeatsAgreeWithEveryCut(t *testing.T) {
	for seed := range uint64(500) {
		r := rand.New(rand.NewPCG(seed, 52))
		dishes := 1 + r.IntN(4)
		c := randomCompany(r, dishes)
		helpings, all := make([]float64, dishes), 0.0
		for i := range helpings {
			if helpings[i] = float64(r.IntN(9)); r.IntN(3) == 0 {
				helpings[i] += float64(r.IntN(4)) / 4
			}
			all += helpings[i]
		}
		s := c.seat(helpings, 0)
		before := 0.0
		for rounds := 1; rounds <= 3; rounds++ {
			s.oneMore()
			least := all
			for set := range 1 << dishes {
				cut, in := 0.0, make([]bool, dishes)
				for i, n := range helpings {
					if in[i] = set>>i&1 == 1; !in[i] {
						cut += n
					}
				}
				least = min(least, cut+float64(c.rank(in, rounds)))
			}
			require.InDelta(t, least, s.served(), 1e-6, "seed %d, %d rounds", seed, rounds)
			require.InDelta(t, all, s.served()+s.unserved(), 1e-6)
			require.GreaterOrEqual(t, s.served(), before-1e-9)
			before = s.served()
			cut := 0.0
			for i, in := range s.tight() {
				if !in {
					cut += helpings[i]
				}
			}
			require.InDelta(t, least, cut+float64(c.rank(s.tight(), rounds)), 1e-6, "seed %d, %d rounds: %v is no least cut", seed, rounds, s.tight())
			for i := range s.taken {
				for k, n := range s.taken[i] {
					require.True(t, n >= -1e-9 && n <= float64(c.kinds[k].count)+1e-9 && (n == 0 || c.kinds[k].suits[i]), seed)
				}
			}
		}
		again := c.seat(helpings, 3)
		require.InDelta(t, before, again.served(), 1e-6, "the rounds at once")
	}
}

// Guests who eat alike are one kind, whatever their order; those whom nothing suits
// are none; children are company of their own.
func TestCompanies(t *testing.T) {
	yes, no := true, false
	p := &Problem{Guests: []Guest{
		{Count: 2, Suits: []bool{no, yes, yes}}, {Count: 3, Suits: []bool{yes, no, yes}}, {Count: 1, Child: true, Suits: []bool{yes, yes, yes}},
		{Count: 4, Suits: []bool{no, yes, no}}, {Count: 5, Suits: []bool{no, no, yes}}, {Count: 6, Suits: []bool{yes, yes, yes}},
	}}
	c := p.companyOf(false, []int{0, 1})
	require.Equal(t, []kind{{[]bool{yes, yes}, 6, []int{5}}, {[]bool{yes, no}, 3, []int{1}}, {[]bool{no, yes}, 6, []int{0, 3}}}, c.kinds)
	require.Equal(t, []int64{9, 12}, c.each)
	require.Equal(t, []int64{0, 9, 15, 21}, []int64{c.rank([]bool{no, no}, 2), c.rank([]bool{yes, no}, 2), c.rank([]bool{yes, yes}, 1), c.rank([]bool{yes, yes}, 2)})
	c = p.companyOf(true, []int{0, 1})
	require.Equal(t, []kind{{[]bool{yes, yes}, 1, []int{2}}}, c.kinds)
	require.Equal(t, []int64{1, 1}, c.each)
}

// How much can be drawn from lots to be used today agrees with every set of needs, and
// what is missing is a row that the portions break and every possible plan keeps.
func TestDrawingAgreesWithEverySetOfNeeds(t *testing.T) {
	short, pieces := 0, 0
	for seed := range uint64(600) {
		p := smallProblem(seed + 5_000)
		r := rand.New(rand.NewPCG(seed, 54))
		portions := make([]int, len(p.Dishes))
		for d := range portions {
			portions[d] = r.IntN(5)
		}
		b := &bruteForce{p: Problem{Lots: p.Lots, Dishes: p.Dishes}} // the lots alone
		used, missing := p.canDraw(portions)
		require.Equal(t, b.feasible(portions), missing == nil, seed)
		if missing != nil {
			short++
			for _, row := range missing.rows {
				require.Positive(t, row.at(portions).Cmp(row.limit), "seed %d: the portions keep it", seed)
				eachPortions(p, func(x []int) {
					if b.feasible(x) {
						require.LessOrEqual(t, row.at(x).Cmp(row.limit), 0, "seed %d: %v is possible", seed, x)
					}
				})
			}
			continue
		}
		require.Zero(t, b.used(portions).Cmp(used), "seed %d: %v", seed, used)
		sum := new(big.Rat)
		for _, piece := range p.missingPiece(portions).pieces {
			require.True(t, slices.ContainsFunc(p.Lots, func(l Lot) bool { return l.First && l.Crop == piece.crop }), "seed %d: %s has nothing to be used first", seed, piece.crop)
			pieces++
			sum.Add(sum, new(big.Rat).Sub(piece.limit, piece.at(portions)))
			eachPortions(p, func(x []int) {
				if b.feasible(x) {
					one := &bruteForce{p: Problem{Dishes: p.Dishes}}
					for _, l := range p.Lots {
						if l.First = l.First && l.Crop == piece.crop; true {
							one.p.Lots = append(one.p.Lots, l)
						}
					}
					require.LessOrEqual(t, one.used(x).Cmp(new(big.Rat).Sub(piece.limit, piece.at(x))), 0, "seed %d: %v takes more", seed, x)
				}
			})
		}
		require.Zero(t, sum.Cmp(used), "seed %d: the pieces say how much", seed)
	}
	require.Greater(t, short, 100)
	require.Greater(t, pieces, 50)
}

// at is what the row's coefficients come to.
func (r *ratRow) at(portions []int) *big.Rat {
	sum := new(big.Rat)
	for d, per := range r.coefs {
		sum.Add(sum, new(big.Rat).Mul(per, ratInt(portions[d])))
	}
	return sum
}

func eachPortions(p Problem, call func(x []int)) {
	x := make([]int, len(p.Dishes))
	var walk func(d int)
	walk = func(d int) {
		if d == len(x) {
			call(x)
			return
		}
		for x[d] = 0; x[d] < 3; x[d]++ {
			walk(d + 1)
		}
	}
	walk(0)
}

// A store is a crop: its lots to be used today first, then what keeps least long, then
// by name; what nobody knows how long it keeps last; what is empty is none.
func TestStores(t *testing.T) {
	day := func(n int) time.Time { return time.Date(2031, 7, n, 0, 0, 0, 0, time.UTC) }
	lot := func(id, crop string, grams int64, first bool, keeps time.Time) Lot {
		return Lot{ID: id, Crop: crop, Supply: decimal.NewFromInt(grams), First: first, Keeps: keeps}
	}
	p := Problem{Lots: []Lot{
		lot("z", "potato", 10, false, time.Time{}), lot("y", "potato", 20, false, day(3)), lot("x", "potato", 30, false, day(2)), lot("w", "potato", 40, true, time.Time{}),
		lot("v", "potato", 50, true, day(9)), lot("c", "potato", 60, false, day(2)), lot("b", "potato", 0, true, day(1)), lot("a", "leek", 5, false, day(1)), lot("u", "potato", 70, false, time.Time{}),
	}, Dishes: []Dish{{Needs: []Need{{Crop: "potato", PerPortion: ratInt(7)}, {Crop: "beet", PerPortion: ratInt(8)}}}, {Needs: []Need{{Crop: "leek", PerPortion: ratInt(9)}}}}}
	stores := p.stores(func(d int) bool { return d == 0 })
	var crops []string
	for _, s := range stores {
		crops = append(crops, s.crop)
	}
	require.Equal(t, []string{"beet", "leek", "potato"}, crops)
	potato := stores[2]
	var lots string
	for _, i := range potato.lots {
		lots += p.Lots[i].ID
	}
	require.Equal(t, "vwcxyuz", lots)
	require.Equal(t, int64(0b11), potato.first.Int64())
	require.Equal(t, "50", potato.supply[0].RatString())
	require.Equal(t, "90", potato.held(potato.first).RatString())
	require.Equal(t, "280", potato.held(potato.all()).RatString())
	require.Equal(t, []demand{{0, 0, ratInt(7), potato.all()}}, potato.demands)
	require.Empty(t, stores[1].demands, "the second dish does not count")
	require.Len(t, stores[0].demands, 1)
	require.Zero(t, stores[0].demands[0].lots.Sign())
	require.Equal(t, "beet", p.fullStore("beet").crop)
	require.Equal(t, &store{crop: "rye", first: new(big.Int)}, p.fullStore("rye"))
}

// Unions: each set and every union of some, each once, the sets first, and so many at
// most.
func TestUnions(t *testing.T) {
	sets := func(list ...int64) (all []*big.Int) {
		for _, n := range list {
			all = append(all, big.NewInt(n))
		}
		return all
	}
	told := func(all []*big.Int) string { return fmt.Sprint(all) }
	require.Equal(t, "[1 2 4 3 5 6 7]", told(unions(sets(1, 2, 4), 99)))
	require.Equal(t, "[1 3]", told(unions(sets(1, 3, 1), 99)))
	require.Equal(t, "[1 2 4 3 5]", told(unions(sets(1, 2, 4), 5)))
	require.Equal(t, "[1 2]", told(unions(sets(1, 2, 4), 2)))
	require.Empty(t, unions(nil, 9))
	require.Len(t, unions(sets(1, 2, 4, 8, 16, 32, 64, 128, 256), mostUnions), 256)
}

func TestRoundedUp(t *testing.T) {
	for text, want := range map[string]int64{"0": 0, "1": 1, "1/3": 1, "4/3": 2, "-1/3": 0, "-4/3": -1, "9223372036854775807": 1<<63 - 1, "9223372036854775808": 1<<63 - 1, "1e30": 1<<63 - 1} {
		r, ok := new(big.Rat).SetString(text)
		require.True(t, ok)
		require.Equal(t, want, roundedUp(r), text)
	}
	require.Equal(t, "60", commonUnit(big.NewRat(1, 4), big.NewRat(5, 6), big.NewRat(2, 5), ratInt(3)).String())
	require.Equal(t, "1", commonUnit().String())
	require.Equal(t, "50", inUnits(big.NewRat(5, 6), big.NewInt(60)).String())
}

// What a portion takes of an ingredient or a crop is the sum of its lines.
func TestSeveralLinesOfOneThing(t *testing.T) {
	p := Problem{
		Lots: []Lot{{ID: "a", Crop: "potato", Sizes: units.Band{Low: 20, High: 45}, Supply: decimal.NewFromInt(1_000)}, {ID: "b", Crop: "potato", Sizes: units.Band{Low: 45, High: 65}, Supply: decimal.NewFromInt(1_000)}},
		Dishes: []Dish{{Name: "mash", Largest: 20, Wish: decimal.NewFromInt(1),
			Needs:  []Need{{Crop: "potato", PerPortion: ratInt(100), Sizes: units.Band{Low: 20, High: 45}}, {Crop: "potato", PerPortion: ratInt(50), Sizes: units.Band{Low: 45, High: 65}}},
			Others: []Other{{"butter", ratInt(10), "g"}, {"salt", ratInt(1), "g"}, {"butter", ratInt(5), "g"}, {"butter", ratInt(0), "g"}}}},
		Limits:   []Limit{{"butter", ratInt(74), "g"}},
		KeepBack: []KeepBack{{"potato", ratInt(1_400)}},
	}
	rows := p.limitRows()
	require.Equal(t, []string{"15", "74", "150", "600"}, []string{rows[0].coefs[0].RatString(), rows[0].limit.RatString(), rows[1].coefs[0].RatString(), rows[1].limit.RatString()})
	require.Equal(t, [4]string{"butter", "g", "", "potato"}, [4]string{rows[0].item, rows[0].unit, rows[1].item, rows[1].crop})
	for d := range p.Dishes[0].ofItem("butter") {
		require.Equal(t, "10", d.RatString(), "the first, and no more where no more is wanted")
		break
	}
	require.Len(t, slices.Collect(p.Dishes[0].ofItem("butter")), 2, "a line of nothing is none")
	for d := range p.Dishes[0].ofCrop("potato") {
		require.Equal(t, "100", d.RatString())
		break
	}
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	require.Equal(t, []int{4}, plan.Portions, "600 g in portions of 150 g, and butter for 4")
	p.Limits[0].Amount = ratInt(75)
	p.KeepBack[0].Grams = ratInt(1_250)
	plan, err = Solve(context.Background(), p)
	require.NoError(t, err)
	require.Equal(t, []int{5}, plan.Portions)
}

// Dishes that differ in anything a plan depends on are not alike.
func TestAlike(t *testing.T) {
	two := func() Problem {
		d := Dish{Name: "a", Smallest: 2, Largest: 9, Wish: decimal.NewFromInt(1), Needs: []Need{{Crop: "potato", PerPortion: ratInt(100), Texture: "waxy", Sizes: units.Band{Low: 20, High: 45}, Load: Load{"k", big.NewRat(1, 5)}}},
			Others: []Other{{"butter", ratInt(10), "g"}}}
		e := d
		e.Name, e.Needs, e.Others = "b", slices.Clone(d.Needs), slices.Clone(d.Others)
		return Problem{Dishes: []Dish{d, e}, Guests: []Guest{{Count: 1, Suits: []bool{true, true}}, {Count: 1, Suits: []bool{false, false}}}, Limits: []Limit{{"butter", ratInt(90), "g"}}}
	}
	same := two()
	require.True(t, same.alike(0, 1))
	for about, spoil := range map[string]func(p *Problem, d *Dish){
		"smallest": func(_ *Problem, d *Dish) { d.Smallest = 1 }, "largest": func(_ *Problem, d *Dish) { d.Largest = 8 }, "wish": func(_ *Problem, d *Dish) { d.Wish = decimal.NewFromInt(2) },
		"more needs": func(_ *Problem, d *Dish) { d.Needs = append(d.Needs, d.Needs[0]) }, "crop": func(_ *Problem, d *Dish) { d.Needs[0].Crop = "leek" },
		"grams": func(_ *Problem, d *Dish) { d.Needs[0].PerPortion = ratInt(101) }, "texture": func(_ *Problem, d *Dish) { d.Needs[0].Texture = "" },
		"sizes": func(_ *Problem, d *Dish) { d.Needs[0].Sizes.High = 65 }, "class": func(_ *Problem, d *Dish) { d.Needs[0].Load.Class = "l" },
		"layers": func(_ *Problem, d *Dish) { d.Needs[0].Load.PerPortion = big.NewRat(1, 6) }, "no layers": func(_ *Problem, d *Dish) { d.Needs[0].Load.PerPortion = nil },
		"limited": func(_ *Problem, d *Dish) { d.Others[0].PerPortion = ratInt(11) }, "guests": func(p *Problem, _ *Dish) { p.Guests[1].Suits = []bool{false, true} },
	} {
		p := two()
		spoil(&p, &p.Dishes[1])
		require.False(t, p.alike(0, 1), about)
		require.False(t, p.alike(1, 0), about)
	}
	for about, change := range map[string]func(p *Problem, d *Dish){
		"the name":                     func(_ *Problem, d *Dish) { d.Name = "c" },
		"0 portions at least are 1":    func(p *Problem, d *Dish) { p.Dishes[0].Smallest, d.Smallest = 0, 1 },
		"what no limit names":          func(_ *Problem, d *Dish) { d.Others = append(d.Others, Other{"salt", ratInt(1), "g"}) },
		"the same in two lines":        func(_ *Problem, d *Dish) { d.Others = []Other{{"butter", ratInt(4), "g"}, {"butter", ratInt(6), "g"}} },
		"no room taken by either need": func(p *Problem, d *Dish) { p.Dishes[0].Needs[0].Load.PerPortion, d.Needs[0].Load.PerPortion = nil, nil },
	} {
		p := two()
		change(&p, &p.Dishes[1])
		require.True(t, p.alike(0, 1), about)
	}
}
