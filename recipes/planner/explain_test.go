package planner

import (
	"context"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

func gramsOf(n int64) *big.Rat { return big.NewRat(n, 1) }

// Two dishes on 1000 g of potatoes with butter for five portions; worked by
// hand.
func twoDishes() Problem {
	return Problem{
		Lots: []Lot{{ID: "a", Crop: "potato", Supply: decimal.NewFromInt(1000)}},
		Dishes: []Dish{
			{Name: "buttered", Smallest: 1, Largest: 20, Wish: decimal.NewFromInt(1), Needs: []Need{{Crop: "potato", PerPortion: gramsOf(100)}},
				Others: []Other{{Item: "butter", PerPortion: gramsOf(15), Unit: "g"}}},
			{Name: "salad", Smallest: 1, Largest: 3, Wish: decimal.NewFromInt(1), Needs: []Need{{Crop: "potato", PerPortion: gramsOf(150)}}},
		},
		Limits: []Limit{{Item: "butter", Amount: gramsOf(75), Unit: "g"}},
	}
}

func TestExplainByHand(t *testing.T) {
	p := twoDishes()
	p.Lots[0].Supply = decimal.NewFromInt(1100)
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	require.Equal(t, []int{5, 3}, plan.Portions, "balance 3, then as many as there is butter for")
	e, err := Explain(context.Background(), p, plan)
	require.NoError(t, err)
	require.Len(t, e.Bounds, 2)
	require.Equal(t, "butter", e.Bounds[0].Of)
	require.Equal(t, "15", e.Bounds[0].Short.RatString())
	require.Empty(t, e.Bounds[1].Of, "the salad is at its largest batch")
	require.Len(t, e.Extras, 1)
	require.True(t, e.Extras[0].Limit)
	require.Equal(t, "15", e.Extras[0].Amount.RatString())
	require.Equal(t, []int{0}, e.Extras[0].More)

	p = twoDishes()
	p.Limits = nil
	plan, err = Solve(context.Background(), p)
	require.NoError(t, err)
	require.Equal(t, []int{5, 3}, plan.Portions, "950 g used; 50 g are not enough for another")
	e, err = Explain(context.Background(), p, plan)
	require.NoError(t, err)
	require.Equal(t, "potato", e.Bounds[0].Of)
	require.Equal(t, "50", e.Bounds[0].Short.RatString())
	require.Len(t, e.Extras, 1)
	require.Equal(t, "50", e.Extras[0].Amount.RatString())

	p.KeepBack = []KeepBack{{Crop: "potato", Grams: gramsOf(200)}}
	plan, err = Solve(context.Background(), p)
	require.NoError(t, err)
	e, err = Explain(context.Background(), p, plan)
	require.NoError(t, err)
	require.Equal(t, []int{3, 3}, plan.Portions, "800 g to use, balance 3")
	require.Equal(t, "50", e.Bounds[0].Short.RatString(), "what is kept back is not there to take")
}

// What is told to buy one more does, and a gram less does not.
func TestExtrasBuyOneMore(t *testing.T) {
	told := 0
	for seed := range uint64(150) {
		random := rand.New(rand.NewPCG(seed, 11))
		p := randomProblem(random, randomSize{dishes: 1 + random.IntN(4), lots: 1 + random.IntN(5), crops: 2, guests: 6, table: seed%3 == 0})
		plan, err := Solve(context.Background(), p)
		if err != nil {
			continue
		}
		e, err := Explain(context.Background(), p, plan)
		require.NoError(t, err)
		for _, extra := range e.Extras {
			told++
			thing := scarceThing{of: extra.Of, limit: -1, unit: extra.Unit}
			step := gramsOf(1)
			for i, l := range p.Limits {
				if extra.Limit && l.Item == extra.Of {
					thing.limit = i
				}
			}
			if extra.Limit {
				continue
			}
			asking := &explaining{Problem: &p, plan: plan, left: explainNodes}
			again, err := asking.withExtra(context.Background(), thing, extra.Amount)
			require.NoError(t, err)
			require.NotNil(t, again, "seed %d: %s g of %s buy nothing", seed, extra.Amount.RatString(), extra.Of)
			less, err := asking.withExtra(context.Background(), thing, new(big.Rat).Sub(extra.Amount, step))
			require.NoError(t, err)
			require.Nil(t, less, "seed %d: a gram less of %s buys as much", seed, extra.Of)
		}
	}
	require.Greater(t, told, 50, "extras told")
}

// An explanation gives up as a whole after so many nodes, and then tells less.
func TestExplanationHasOnePatience(t *testing.T) {
	p := twoDishes()
	p.Limits = nil
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	spent := &explaining{Problem: &p, plan: plan, left: 0}
	extra, err := spent.smallestExtra(context.Background(), p.scarce(plan)[0])
	require.NoError(t, err)
	require.Nil(t, extra)
	fresh := &explaining{Problem: &p, plan: plan, left: explainNodes}
	extra, err = fresh.smallestExtra(context.Background(), p.scarce(plan)[0])
	require.NoError(t, err)
	require.NotNil(t, extra)
	require.Less(t, fresh.left, explainNodes)
}
