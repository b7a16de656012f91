package planner

import (
	"context"
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

// threeDishes has a cause of every kind: two crops, a limit, something held back, two
// dishes of three at most, and a steamer of four layers.
func threeDishes() Problem {
	dish := func(name, crop string, grams int64, smallest, largest int) Dish {
		return Dish{Name: name, Smallest: smallest, Largest: largest, Wish: decimal.NewFromInt(1),
			Needs: []Need{{Crop: crop, PerPortion: big.NewRat(2*grams+1, 2), Load: Load{crop, big.NewRat(1, 3)}}}, Others: []Other{{"butter", big.NewRat(15, 2), "g"}}}
	}
	return Problem{
		Lots:       []Lot{{ID: "a", Crop: "potato", Supply: decimal.NewFromInt(1_000)}, {ID: "b", Crop: "leek", Supply: decimal.NewFromInt(600)}},
		Dishes:     []Dish{dish("mash", "potato", 100, 2, 4), dish("soup", "leek", 80, 1, 9), dish("gratin", "potato", 120, 3, 20)},
		Limits:     []Limit{{"butter", ratInt(60), "g"}},
		KeepBack:   []KeepBack{{"potato", big.NewRat(401, 2)}, {"leek", new(big.Rat)}},
		MostDishes: 2, Layers: 4,
	}
}

// Causes stand in the crops' alphabetical order, whatever the lots', and then as the
// problem has them. What surely bounds nothing is none.
func TestCauses(t *testing.T) {
	p := threeDishes()
	want := []Cause{{Kind: CropShort, Of: "leek", Unit: "g"}, {Kind: CropShort, Of: "potato", Unit: "g"}, {Kind: LimitShort, Of: "butter", Unit: "g"},
		{Kind: HeldBack, Of: "potato", Unit: "g"}, {Kind: DishNumber}, {Kind: SteamerFull}}
	require.Equal(t, want, p.causes())
	p.MostDishes, p.Layers, p.Limits, p.KeepBack = 3, 0, nil, nil
	p.Lots = append(p.Lots, Lot{ID: "c", Crop: "beet", Supply: decimal.NewFromInt(9)})
	require.Equal(t, want[:2], p.causes(), "all dishes may be made, and nothing needs beet")

	p.MostDishes = 0
	require.Equal(t, want[:2], p.causes(), "nor is any number asked for")

	p = threeDishes()
	require.Equal(t, []Cause{{Kind: LargestBatch, Dish: 0}, {Kind: SmallestBatch, Dish: 0}, {Kind: SmallestBatch, Dish: 2}}, p.batchCauses(),
		"1,000 g less 200.5 g are 7 of mash, of which 4 may be; 7 of soup of 9; 6 of gratin of 20")
	p.Dishes[0].Largest = 7
	require.Equal(t, []Cause{{Kind: SmallestBatch, Dish: 0}, {Kind: SmallestBatch, Dish: 2}}, p.batchCauses())
}

// What relaxing a cause makes of the problem, by an amount and wholly; the problem
// itself stays.
func TestRelaxing(t *testing.T) {
	p := threeDishes()
	more := func(c Cause, amount int) Problem {
		if amount < 0 {
			return p.with(c, nil)
		}
		return p.with(c, ratInt(amount))
	}
	crop := Cause{Kind: CropShort, Of: "potato"}
	require.Equal(t, Lot{ID: "\x00more", Crop: "potato", Supply: decimal.NewFromInt(70)}.Supply.String(), more(crop, 70).Lots[2].Supply.String())
	require.Equal(t, "potato", more(crop, 70).Lots[2].Crop)
	require.Equal(t, "2813", more(crop, -1).Lots[2].Supply.String(), "4 × 100.5 + 20 × 120.5 and one: more than all of it")
	require.Equal(t, "80", more(Cause{Kind: LimitShort, Of: "butter"}, 20).Limits[0].Amount.RatString())
	require.Empty(t, more(Cause{Kind: LimitShort, Of: "butter"}, -1).Limits)
	held := Cause{Kind: HeldBack, Of: "potato"}
	require.Equal(t, []string{"361/2", "0", "0"}, []string{more(held, 20).KeepBack[0].Grams.RatString(), more(held, 201).KeepBack[0].Grams.RatString(), more(held, -1).KeepBack[0].Grams.RatString()})
	require.Equal(t, "0", more(held, 20).KeepBack[1].Grams.RatString())
	require.Equal(t, []int{3, 0}, []int{more(Cause{Kind: DishNumber}, 1).MostDishes, more(Cause{Kind: DishNumber}, -1).MostDishes})
	require.Equal(t, []int{6, 0}, []int{more(Cause{Kind: SteamerFull}, 2).Layers, more(Cause{Kind: SteamerFull}, -1).Layers})
	require.Equal(t, []int{4, MostPortions}, []int{more(Cause{Kind: LargestBatch, Dish: 1}, -1).Dishes[0].Largest, more(Cause{Kind: LargestBatch, Dish: 1}, -1).Dishes[1].Largest})
	require.Equal(t, []int{2, 1}, []int{more(Cause{Kind: SmallestBatch, Dish: 2}, -1).Dishes[0].Smallest, more(Cause{Kind: SmallestBatch, Dish: 2}, -1).Dishes[2].Smallest})
	same := threeDishes()
	require.Equal(t, same.causes(), p.causes())
	require.Equal(t, same.batchCauses(), p.batchCauses())
	require.Equal(t, "401/2", p.KeepBack[0].Grams.RatString())
	require.Equal(t, "60", p.Limits[0].Amount.RatString())
	require.Len(t, p.Lots, 2)
}

// In what steps a cause is relaxed, and how many of them relax it wholly.
func TestStepsOfRelaxing(t *testing.T) {
	p := threeDishes()
	for _, c := range []struct {
		cause Cause
		step  string
		most  int64
	}{
		{Cause{Kind: CropShort, Of: "potato"}, "1", 2_813},
		{Cause{Kind: CropShort, Of: "leek"}, "1", 726}, // 9 × 80.5 and one, rounded up
		{Cause{Kind: HeldBack, Of: "potato"}, "1", 201},
		{Cause{Kind: HeldBack, Of: "rye"}, "", 0},
		{Cause{Kind: LimitShort, Of: "butter"}, "1/2", 495}, // 33 portions of 15 halves
		{Cause{Kind: LimitShort, Of: "salt"}, "", 0},
		{Cause{Kind: DishNumber}, "1", 1},
		{Cause{Kind: SteamerFull}, "1", 11},
		{Cause{Kind: LargestBatch}, "", 0},
		{Cause{Kind: SmallestBatch}, "", 0},
	} {
		step, most := p.step(c.cause)
		require.Equal(t, c.most, most, c.cause)
		if c.step == "" {
			require.Nil(t, step, c.cause)
			continue
		}
		require.Equal(t, c.step, step.RatString(), c.cause)
	}
}

// What bounds a plan, all of it by hand: butter for 8 portions, 799.5 g of potatoes
// for 7 of mash, of which 4 may be, or 6 of gratin, and 600 g of leek for 7 of soup;
// two of the three, as even as can be, then as many as can be: 4 of mash or gratin and
// 4 of soup, of which mash goes before gratin.
func TestExplainEveryKindOfCause(t *testing.T) {
	p := threeDishes()
	plan, e := explained(t, p)
	require.Equal(t, []int{4, 4, 0}, plan.Portions)
	require.Equal(t, []LeftOut{{Dish: 2, Reason: EnoughDishes}}, plan.LeftOut)
	var told []string
	for _, b := range e.Bounds {
		told = append(told, relaxingTold(b.Cause, b.Amount)+": "+b.Improves.String())
	}
	require.Equal(t, []string{"limit butter by 15/2 g: portions", "number of dishes by 1 : dishes"}, told)
	require.Equal(t, []int{1}, e.Bounds[0].More, "a fifth soup")
	require.Equal(t, "fed [], over 0, first 0 g, 2 dishes, balance 4, 9 portions", levelsTold(e.Bounds[0].Then))
	require.Equal(t, []int{2}, e.Bounds[1].More)

	// nothing can be told without patience, of none, one or several causes
	x := &explaining{Problem: &p, ctx: context.Background(), plan: plan}
	require.Empty(t, x.boundsAmong(nil))
	require.False(t, x.partly, "nothing was asked")
	require.Empty(t, x.boundsAmong(p.batchCauses()))
	require.True(t, x.partly)
	step, amount := x.smallest(Cause{Kind: LimitShort, Of: "butter"}, &plan, x.atLeast, x.better)
	require.Nil(t, step)
	require.Nil(t, amount)

	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	e, err := Explain(cancelled, p, plan)
	require.ErrorIs(t, err, context.Canceled)
	require.True(t, e.Partly)
	require.Empty(t, e.Bounds)
	p.NodeLimit = 1
	e, err = Explain(context.Background(), p, plan)
	require.NoError(t, err)
	require.True(t, e.Partly, "the problem's own patience")
}

// Of a crop that can be told to suffice a plan says how little; of one that is held
// back too, or of other causes, it does not.
func TestEnoughOfACrop(t *testing.T) {
	p := twoDishes()
	p.Limits, p.Lots[0].Supply = nil, decimal.NewFromInt(1_000) // 5 and 3 use 950 g; 6 and 3 need 1,050 g
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	x := &explaining{Problem: &p, ctx: context.Background(), plan: plan, left: 1_000}
	crop := Cause{Kind: CropShort, Of: "potato", Unit: "g"}
	with, ok := x.levels(x.with(crop, ratInt(64)))
	require.True(t, ok)
	require.Equal(t, int64(50), x.enough(crop, with, 0, 64))
	require.Equal(t, int64(60), x.enough(crop, with, 59, 64), "but above what is known to be too little")
	require.Equal(t, int64(64), x.enough(Cause{Kind: LimitShort, Of: "potato"}, with, 0, 64))
	x.KeepBack = []KeepBack{{"potato", ratInt(1)}}
	require.Equal(t, int64(64), x.enough(crop, with, 0, 64))
	x.KeepBack[0].Crop = "leek"
	require.Equal(t, int64(50), x.enough(crop, with, 0, 64))
}

// How the smallest amount is looked for: ever more until it will do, then one less
// than what that needed, then halves. Here so much will do, and every plan needs all; what
// relaxes the cause wholly is known to do.
func TestSmallestAmounts(t *testing.T) {
	for _, c := range []struct {
		need  int64
		most  int64
		kind  CauseKind
		found string
		asked []int64
	}{
		{1, 64, SteamerFull, "1", []int64{1}},
		{2, 64, SteamerFull, "2", []int64{1, 8, 7, 4, 3, 2}},
		{8, 64, SteamerFull, "8", []int64{1, 8, 7}},
		{9, 64, SteamerFull, "9", []int64{1, 8, 63, 35, 34, 21, 20, 14, 13, 10, 9}},
		{64, 64, SteamerFull, "64", []int64{1, 8, 63}},
		{1, 1, SteamerFull, "1", nil},
		{40, 600, CropShort, "40", nil},
		{65, 600, CropShort, "65", nil},
	} {
		p := &Problem{KeepBack: []KeepBack{{Crop: "potato", Grams: new(big.Rat)}}, Layers: 10, Lots: []Lot{}}
		x := &explaining{Problem: p, ctx: context.Background()}
		var asked []int64
		t1 := trying{x, Cause{Kind: c.kind, Of: "potato"}, big.NewRat(1, 1), func(c Cause, amount *big.Rat) (Plan, bool) {
			q := p.with(c, amount)
			n := int64(q.Layers - 10)
			if c.Kind == CropShort {
				n = q.Lots[0].Supply.IntPart()
			}
			asked = append(asked, n)
			return Plan{Effort: Effort{Nodes: int(n)}}, true
		}, func(plan Plan) bool { return int64(plan.Effort.Nodes) >= c.need }}
		low, high, best := t1.grown(c.most, &Plan{Effort: Effort{Nodes: int(c.need)}})
		best, amount := t1.shrunk(low, high, best)
		require.Equal(t, c.found, amount.RatString(), c.need)
		require.Equal(t, c.need, int64(best.Effort.Nodes))
		if c.kind == CropShort {
			require.Equal(t, int64(64), asked[0], "of a crop the first may be large")
		} else {
			require.Equal(t, c.asked, asked, c.need)
		}
	}
}

// Of two mends the smaller is better, where both are measured alike.
func TestMendsAreCompared(t *testing.T) {
	grams := func(n int) *Mend { return &Mend{Cause{Unit: "g"}, ratInt(n)} }
	require.True(t, grams(5).isLess(grams(6)))
	require.False(t, grams(6).isLess(grams(6)))
	require.False(t, grams(7).isLess(grams(6)))
	require.False(t, (&Mend{Cause{Unit: "g"}, nil}).isLess(grams(6)))
	require.False(t, grams(5).isLess(&Mend{Cause{Unit: "g"}, nil}))
	require.False(t, (&Mend{Cause{}, ratInt(1)}).isLess(grams(6)), "layers and grams")
}

// The most portions of a dish made alone, and why it has none, each by hand.
func TestWhatADishCouldBe(t *testing.T) {
	for _, c := range []struct {
		about string
		ask   func(p *Problem)
		most  int64
		out   string
	}{
		{"by its potatoes", func(p *Problem) {}, 5, ""},
		{"by its largest batch", func(p *Problem) { p.Dishes[0].Largest = 4 }, 4, ""},
		{"by the limit", func(p *Problem) { p.Limits = []Limit{{"butter", ratInt(59), "g"}} }, 3, ""},
		{"by guests", func(p *Problem) {
			p.Guests = []Guest{{Count: 3, Suits: []bool{true}}, {Count: 9, Suits: []bool{false}}}
		}, 3, ""},
		{"by children", func(p *Problem) { p.Guests = []Guest{{Count: 5, Child: true, Suits: []bool{true}}} }, 3, ""},
		{"by guests, the smallest batch at least", func(p *Problem) { p.Guests = []Guest{{Count: 1, Suits: []bool{true}}} }, 2, ""},
		{"by the steamer", func(p *Problem) { p.Layers, p.Dishes[0].Needs[0].Load = 2, Load{"k", big.NewRat(1, 2)} }, 4, ""},
		{"by the steamer, just", func(p *Problem) { p.Layers, p.Dishes[0].Needs[0].Load = 1, Load{"k", big.NewRat(1, 2)} }, 2, ""},
		{"no room", func(p *Problem) { p.Layers, p.Dishes[0].Needs[0].Load = 1, Load{"k", big.NewRat(3, 5)} }, 0, "no room,  "},
		{"too little, and no room either", func(p *Problem) {
			p.Layers, p.Dishes[0].Needs[0].Load, p.Lots[0].Supply = 1, Load{"k", big.NewRat(3, 5)}, decimal.NewFromInt(399)
		}, 0, "too little, potato g 1"},
		{"nothing", func(p *Problem) { p.Lots[0].Supply = decimal.Zero }, 0, "no lot, potato g 400"},
		{"one portion and not two", func(p *Problem) { p.Lots[0].Supply = decimal.NewFromInt(250) }, 0, "too little, potato g 150"},
		{"butter", func(p *Problem) { p.Limits = []Limit{{"butter", big.NewRat(59, 2), "g"}} }, 0, "limit reached, butter g 1/2"},
		{"no butter", func(p *Problem) { p.Limits = []Limit{{"butter", ratInt(0), "g"}} }, 0, "limit reached, butter g 30"},
		{"suits nobody", func(p *Problem) { p.Guests = []Guest{{Count: 9, Suits: []bool{false}}} }, 0, "suits nobody,  "},
	} {
		p := oneDish()
		c.ask(&p)
		n, why := p.alone().mostOf(0, p.Dishes[0].Largest)
		require.Equal(t, c.most, n, c.about)
		if c.out == "" {
			require.Nil(t, why, c.about)
			continue
		}
		told := string(why.Reason) + ", " + why.Of + " " + why.Unit
		if why.Short != nil {
			told += " " + why.Short.RatString()
		}
		require.Equal(t, c.out, told, c.about)
	}
}

// One guest, and not enough for one portion: 50 g more would do.
func TestOneGuestWhoGoesHungry(t *testing.T) {
	p := oneDish()
	p.Lots[0].Supply, p.Dishes[0].Smallest = decimal.NewFromInt(150), 1
	p.Guests, p.Sides = []Guest{{Count: 1, Suits: []bool{true}}}, 1
	plan, err := Solve(context.Background(), p)
	require.ErrorIs(t, err, ErrNothingFits)
	e, err := Explain(context.Background(), p, plan)
	require.NoError(t, err)
	require.Len(t, e.Bounds, 1)
	require.Equal(t, []string{"crop potato by 50 g"}, []string{relaxingTold(e.Bounds[0].Cause, e.Bounds[0].Amount)})
	require.Len(t, e.Shorts, 1)
	short := e.Shorts[0]
	require.Equal(t, "crop potato by 50 g", relaxingTold(short.Mend.Cause, short.Mend.Amount))
	short.Mend = nil
	require.Equal(t, Short{People: 1, Helpings: 1, Suiting: 1}, short)
}

// Relaxed together, causes are relaxed as they are alone, and the problem can be asked
// still; it stays as it was.
func TestRelaxingAllTogether(t *testing.T) {
	p := threeDishes()
	causes := append(p.causes(), p.batchCauses()...)
	all := p.withAll(causes)
	require.NoError(t, all.Validate())
	require.Empty(t, all.Limits)
	require.Equal(t, []int{0, 0}, []int{all.MostDishes, all.Layers})
	require.Len(t, all.Lots, 4, "more of both crops")
	require.Equal(t, []int{MostPortions, 9, 20, 1, 1, 1}, []int{all.Dishes[0].Largest, all.Dishes[1].Largest, all.Dishes[2].Largest,
		all.Dishes[0].Smallest, all.Dishes[1].Smallest, all.Dishes[2].Smallest})
	require.Equal(t, threeDishes(), p)
}

// Batches are asked about together, and so are crops where there are very many dishes.
func TestGroupsOfCauses(t *testing.T) {
	p := threeDishes()
	causes, batches := p.causes(), p.batchCauses()
	var want [][]Cause
	for _, c := range causes {
		want = append(want, []Cause{c})
	}
	require.Equal(t, append(want, batches), p.groups())
	for len(p.Dishes) <= mostAtOnce {
		p.Dishes = append(p.Dishes, p.Dishes[1])
	}
	require.Equal(t, append([][]Cause{causes[:2]}, append(want[2:], batches)...), p.groups())
	p.Limits, p.KeepBack, p.MostDishes, p.Layers = nil, nil, 0, 0
	require.Equal(t, [][]Cause{causes[:2], p.batchCauses()}, p.groups())
}

// On which batches a plan leans: those larger or smaller than they should be.
func TestBatchesThatAPlanLeansOn(t *testing.T) {
	p := threeDishes() // 2 to 4, 1 to 9, 3 to 20
	for _, c := range []struct {
		portions []int
		largest  []bool
		smallest []bool
	}{
		{[]int{5, 9, 0}, []bool{true, false, false}, []bool{false, false, false}},
		{[]int{1, 10, 2}, []bool{false, true, false}, []bool{true, false, true}},
		{[]int{2, 0, 3}, []bool{false, false, false}, []bool{false, false, false}},
	} {
		for d := range p.Dishes {
			require.Equal(t, c.largest[d], p.leansOn(Plan{Portions: c.portions}, Cause{Kind: LargestBatch, Dish: d}), "%v: %d", c.portions, d)
			require.Equal(t, c.smallest[d], p.leansOn(Plan{Portions: c.portions}, Cause{Kind: SmallestBatch, Dish: d}), "%v: %d", c.portions, d)
		}
	}
	x := &explaining{Problem: &p}
	batches := p.batchCauses()
	needed, others := x.parted(batches, Plan{Portions: []int{5, 1, 2}})
	require.Equal(t, [][]Cause{{batches[0], batches[2]}, {batches[1]}}, [][]Cause{needed, others})
	needed, others = x.parted(batches, Plan{Portions: []int{4, 1, 3}})
	require.Equal(t, batches, needed, "who is asked about a plan that is not the best asks of all")
	require.Empty(t, others)
}

// What comes of relaxing a cause is the best plan, though nothing was asked again of the
// levels that it does not better.
func TestWhatComesOfRelaxing(t *testing.T) {
	compared := 0
	for _, kind := range kindsOfProblems {
		for seed := range volume(10, 60, 400) {
			p := outsideProblem(kind, 7_000+seed)
			plan, err := Solve(context.Background(), p)
			if err != nil {
				continue
			}
			x := &explaining{Problem: &p, ctx: context.Background(), plan: plan, left: explainNodes}
			for _, c := range append(p.causes(), p.batchCauses()...) {
				better, ok := x.levels(x.with(c, nil))
				if !ok || !x.better(better) {
					continue
				}
				then, ok := x.then(c, nil, better)
				require.True(t, ok)
				best, err := decide(context.Background(), p.with(c, nil))
				require.NoError(t, err)
				require.Equal(t, best.Levels, then.Levels, "%s %d: %s", kind.name, seed, relaxingTold(c, nil))
				require.Equal(t, best.Portions, then.Portions)
				compared++
			}
		}
	}
	require.Greater(t, compared, 20)
}

// Only the causes about batches are about batches.
func TestCausesOfBatches(t *testing.T) {
	for kind := CropShort; kind <= SmallestBatch; kind++ {
		require.Equal(t, kind == LargestBatch || kind == SmallestBatch, Cause{Kind: kind}.isBatch(), kind)
	}
}
