package planner

import (
	"context"
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

func gramsOf(n int64) *big.Rat { return big.NewRat(n, 1) }

// Two dishes on 1100 g of potatoes with butter for five portions; worked by hand.
func twoDishes() Problem {
	return Problem{
		Lots: []Lot{{ID: "a", Crop: "potato", Supply: decimal.NewFromInt(1100)}},
		Dishes: []Dish{
			{Name: "buttered", Smallest: 1, Largest: 20, Wish: decimal.NewFromInt(1), Needs: []Need{{Crop: "potato", PerPortion: gramsOf(100)}},
				Others: []Other{{Item: "butter", PerPortion: gramsOf(15), Unit: "g"}}},
			{Name: "salad", Smallest: 1, Largest: 3, Wish: decimal.NewFromInt(1), Needs: []Need{{Crop: "potato", PerPortion: gramsOf(150)}}},
		},
		Limits: []Limit{{Item: "butter", Amount: gramsOf(75), Unit: "g"}},
	}
}

func explained(t *testing.T, p Problem) (Plan, Explanation) {
	t.Helper()
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	e, err := Explain(context.Background(), p, plan)
	require.NoError(t, err)
	require.False(t, e.Partly)
	return plan, e
}

func TestExplainByHand(t *testing.T) {
	plan, e := explained(t, twoDishes())
	require.Equal(t, []int{5, 3}, plan.Portions, "balance 3, then as many as there is butter for")
	require.Len(t, e.Bounds, 2)
	require.Equal(t, Cause{Kind: LimitShort, Of: "butter", Unit: "g"}, e.Bounds[0].Cause)
	require.Equal(t, "15", e.Bounds[0].Amount.RatString(), "one portion's butter; there are 150 g of potato left for it")
	require.Equal(t, []int{0}, e.Bounds[0].More)
	require.Equal(t, Portions, e.Bounds[0].Improves)
	require.Equal(t, Cause{Kind: LargestBatch, Dish: 1}, e.Bounds[1].Cause, "a fourth salad is the better balance")

	p := twoDishes()
	p.Limits, p.Lots[0].Supply = nil, decimal.NewFromInt(1000)
	plan, e = explained(t, p)
	require.Equal(t, []int{5, 3}, plan.Portions, "950 g used; 50 g are not enough for another")
	require.Equal(t, CropShort, e.Bounds[0].Kind)
	require.Equal(t, "50", e.Bounds[0].Amount.RatString())

	p.KeepBack = []KeepBack{{Crop: "potato", Grams: gramsOf(200)}}
	plan, e = explained(t, p)
	require.Equal(t, []int{3, 3}, plan.Portions, "800 g to use")
	require.Len(t, e.Bounds, 2, "the salad could not grow anyway")
	require.Equal(t, "50", e.Bounds[0].Amount.RatString())
	require.Equal(t, Cause{Kind: HeldBack, Of: "potato", Unit: "g"}, e.Bounds[1].Cause)
	require.Equal(t, "50", e.Bounds[1].Amount.RatString())
}

// Four eat, and 480 g make three helpings of 150 g: who is short, and what mends
// it.
func TestWhoIsShortAndWhatMendsIt(t *testing.T) {
	p := Problem{
		Lots: []Lot{{ID: "a", Crop: "potato", Supply: decimal.NewFromInt(480)}},
		Dishes: []Dish{
			{Name: "mash", Largest: 9, Wish: decimal.NewFromInt(1), Needs: []Need{{Crop: "potato", PerPortion: gramsOf(150)}}},
			{Name: "leeks", Largest: 9, Wish: decimal.NewFromInt(1), Needs: []Need{{Crop: "leek", PerPortion: gramsOf(100)}}},
		},
		Guests: []Guest{{Label: "adult", Count: 3, Suits: []bool{true, true}}, {Label: "adult, no leek", Count: 1, Suits: []bool{true, false}}},
		Sides:  1,
	}
	plan, e := explained(t, p)
	require.Equal(t, []int{3}, plan.Levels.Fed)
	require.Len(t, e.Shorts, 1)
	short := e.Shorts[0]
	require.Equal(t, 1, short.People)
	require.NotNil(t, short.Mend)
	require.Equal(t, CropShort, short.Mend.Kind)
	require.Contains(t, []string{"leek", "potato"}, short.Mend.Of)
	require.Equal(t, map[string]string{"leek": "100", "potato": "120"}[short.Mend.Of], short.Mend.Amount.RatString())

	p.Sides = 2
	_, e = explained(t, p)
	none := e.Shorts[slices.IndexFunc(e.Shorts, func(s Short) bool { return s.Group == 1 })]
	require.Equal(t, 1, none.Suiting)
	require.Nil(t, none.Mend, "only one dish suits: more of anything does not help")
}

// relaxations are all that could be relaxed, said a second time, each with how.
func relaxations(p Problem) map[string]Problem {
	with := map[string]Problem{}
	for _, crop := range cropsOf(p) {
		q := p
		q.Lots = append(slices.Clone(p.Lots), Lot{ID: "more " + crop, Crop: crop, Supply: decimal.NewFromInt(100_000)})
		with["crop "+crop] = q
	}
	for i, l := range p.Limits {
		q := p
		q.Limits = slices.Delete(slices.Clone(p.Limits), i, i+1)
		with["limit "+l.Item] = q
	}
	for i, k := range p.KeepBack {
		q := p
		q.KeepBack = slices.Delete(slices.Clone(p.KeepBack), i, i+1)
		with["held "+k.Crop] = q
	}
	q := p
	q.MostDishes = len(p.Dishes)
	with["dishes"] = q
	q = p
	q.Layers = 0
	with["steamer"] = q
	for d := range p.Dishes {
		q := p
		q.Dishes = slices.Clone(p.Dishes)
		q.Dishes[d].Largest = max(40, p.Dishes[d].Largest)
		with[fmt.Sprint("largest ", d)] = q
		q.Dishes = slices.Clone(p.Dishes)
		q.Dishes[d].Smallest = 1
		with[fmt.Sprint("smallest ", d)] = q
	}
	return with
}

func cropsOf(p Problem) []string {
	var crops []string
	for _, d := range p.Dishes {
		for _, n := range d.Needs {
			crops = append(crops, n.Crop)
		}
	}
	slices.Sort(crops)
	return slices.Compact(crops)
}

func (c Cause) asRelaxed() string {
	return map[CauseKind]string{CropShort: "crop " + c.Of, LimitShort: "limit " + c.Of, HeldBack: "held " + c.Of, DishNumber: "dishes",
		SteamerFull: "steamer", LargestBatch: fmt.Sprint("largest ", c.Dish), SmallestBatch: fmt.Sprint("smallest ", c.Dish)}[c.Kind]
}

// A cause is named if and only if relaxing it alone improves a level; and what is
// told to be the smallest amount is enough, and a step less is not. What relaxing
// comes to is enumerated where that can be, else solved.
func TestReasonsAreTrue(t *testing.T) {
	named, unnamed := 0, 0
	for seed := range uint64(volume(160, 1_500, 1_500)) {
		r := rand.New(rand.NewPCG(seed, 11))
		p := randomProblem(r, randomSize{dishes: 1 + r.IntN(3), lots: 1 + r.IntN(4), crops: 2, guests: 1 + r.IntN(5), table: r.IntN(2) == 0, fussy: true, yields: r.IntN(3) == 0})
		addBounds(r, &p)
		plan, err := Solve(context.Background(), p)
		if err != nil {
			continue
		}
		e, err := Explain(context.Background(), p, plan)
		require.NoError(t, err)
		require.False(t, e.Partly, "seed %d", seed)
		stated := map[string]bool{}
		for _, b := range e.Bounds {
			stated[b.asRelaxed()] = true
			requireSmallest(t, p, plan, b, seed)
		}
		for name, q := range relaxations(p) {
			then, err := Solve(context.Background(), q)
			require.NoError(t, err, "seed %d: %s", seed, name)
			better := then.Levels.Compare(plan.Levels, &p) > 0
			require.Equal(t, better, stated[name], "seed %d: %s; %+v then %+v", seed, name, plan.Levels, then.Levels)
			require.GreaterOrEqual(t, then.Levels.Compare(plan.Levels, &p), 0, "seed %d: %s makes it worse", seed, name)
			if better {
				named++
			} else {
				unnamed++
			}
		}
	}
	require.Greater(t, named, 100, "causes named")
	require.Greater(t, unnamed, 100, "causes not named")
}

// requireSmallest relaxes a cause by the amount told, and by a step less.
func requireSmallest(t *testing.T, p Problem, plan Plan, b Bound, seed uint64) {
	step, _ := p.step(b.Cause)
	if step == nil {
		require.Nil(t, b.Amount)
		return
	}
	require.NotNil(t, b.Amount, "seed %d: %+v", seed, b.Cause)
	enough, err := Solve(context.Background(), p.with(b.Cause, b.Amount))
	require.NoError(t, err)
	require.Positive(t, enough.Levels.Compare(plan.Levels, &p), "seed %d: %s more of %+v is not enough", seed, b.Amount.RatString(), b.Cause)
	require.Equal(t, b.Improves, enough.Levels.firstAbove(plan.Levels, &p))
	less := new(big.Rat).Sub(b.Amount, step)
	if less.Sign() == 0 {
		return
	}
	short, err := Solve(context.Background(), p.with(b.Cause, less))
	require.NoError(t, err)
	require.Zero(t, short.Levels.Compare(plan.Levels, &p), "seed %d: less than %s of %+v is enough", seed, b.Amount.RatString(), b.Cause)
}

// An explanation gives up as a whole after so many nodes, and then says that it
// tells only a part.
func TestExplanationHasOnePatience(t *testing.T) {
	p := twoDishes()
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	x := &explaining{Problem: &p, ctx: context.Background(), plan: plan}
	require.Empty(t, x.boundsAmong([]Cause{{Kind: LimitShort, Of: "butter", Unit: "g"}}))
	require.True(t, x.partly)
}

// What is asked in vain makes an explanation partial, and it stays so; that nothing fits
// is an answer.
func TestWhatMakesAnExplanationPartial(t *testing.T) {
	p := twoDishes()
	x := &explaining{Problem: &p, ctx: context.Background(), left: 10}
	for _, c := range []struct {
		err         error
		ok, partly  bool
		left, taken int
	}{{nil, true, false, 9, 1}, {ErrNothingFits, true, false, 7, 2}, {&NotProvenError{}, false, true, 4, 3}, {nil, true, true, 1, 3}, {nil, true, true, 0, 1}, {nil, false, true, 0, 9}} {
		_, ok := x.within(p, func(Problem) (Plan, error) { return Plan{Effort: Effort{Nodes: c.taken}}, c.err })
		require.Equal(t, []any{c.ok, c.partly, c.left}, []any{ok, x.partly, x.left})
	}
}
