package planner

import (
	"context"
	"errors"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Every mistake in a problem, with what is said of it and what is accepted; beside
// each the nearest that is none.
func TestEveryMistakeIsTold(t *testing.T) {
	one := func(g Guest) func(p *Problem) { return func(p *Problem) { p.Guests, p.Sides = []Guest{g}, 1 } }
	dish := func(spoil func(d *Dish)) func(p *Problem) { return func(p *Problem) { spoil(&p.Dishes[0]) } }
	need := func(spoil func(n *Need)) func(p *Problem) { return func(p *Problem) { spoil(&p.Dishes[0].Needs[0]) } }
	limit := func(l ...Limit) func(p *Problem) { return func(p *Problem) { p.Limits = l } }
	keep := func(k ...KeepBack) func(p *Problem) { return func(p *Problem) { p.KeepBack = k } }
	for _, c := range []struct {
		says, hint string
		spoil      func(p *Problem)
		near       func(p *Problem)
	}{
		{"dishes: there are none", "at least one dish", func(p *Problem) { p.Dishes = []Dish{} }, nil},
		{`lot "a": appears twice`, "one name for each lot", func(p *Problem) { p.Lots = append(p.Lots, p.Lots[0]) }, func(p *Problem) { p.Lots = append(p.Lots, p.Lots[0]); p.Lots[1].ID = "b" }},
		{`lot "a": has less than nothing`, "0 g or more", func(p *Problem) { p.Lots[0].Supply = decimal.New(-1, -3) }, func(p *Problem) { p.Lots = append(p.Lots, Lot{ID: "empty"}) }},
		{`lot "a": its smallest size is above its largest`, "sizes such as 20-45 mm", func(p *Problem) { p.Lots[0].Sizes = units.Band{Low: 46, High: 45} }, func(p *Problem) { p.Lots[0].Sizes = units.Band{Low: 45, High: 45} }},
		{`dish "mash": smallest is -1`, "1 or more", dish(func(d *Dish) { d.Smallest = -1 }), dish(func(d *Dish) { d.Smallest = 0 })},
		{`dish "mash": smallest 1 is above largest 0`, "smallest at most largest", dish(func(d *Dish) { d.Smallest, d.Largest = 0, 0 }), dish(func(d *Dish) { d.Largest = 2 })},
		{`dish "mash": smallest 3 is above largest 2`, "smallest at most largest", dish(func(d *Dish) { d.Smallest, d.Largest = 3, 2 }), dish(func(d *Dish) { d.Smallest, d.Largest = 3, 3 })},
		{`dish "mash": largest is 100001`, "at most 100000", dish(func(d *Dish) { d.Largest = 100_001 }), dish(func(d *Dish) { d.Largest = 100_000 })},
		{`dish "mash": wish is -1`, "a weight above 0, such as 1 or 2", dish(func(d *Dish) { d.Wish = decimal.NewFromInt(-1) }), dish(func(d *Dish) { d.Wish = decimal.New(1, -3) })},
		{`dish "mash": uses no weighed crop`, "at least one crop", dish(func(d *Dish) { d.Needs = nil }), nil},
		{`dish "mash": needs no potato`, "an amount above 0", need(func(n *Need) { n.PerPortion = nil }), need(func(n *Need) { n.PerPortion = big.NewRat(1, 7) })},
		{`dish "mash": its smallest size of potato is above its largest`, "sizes such as 20-45 mm", need(func(n *Need) { n.Sizes = units.Band{Low: 46, High: 45} }), need(func(n *Need) { n.Sizes = units.Band{Low: 45, High: 45} })},
		{`dish "mash": takes less than no room of potato`, "0 layers or more", need(func(n *Need) { n.Load.PerPortion = big.NewRat(-1, 9) }), need(func(n *Need) { n.Load.PerPortion = new(big.Rat) })},
		{`dish "mash": has no amount of butter`, "0 or more", dish(func(d *Dish) { d.Others[0].PerPortion = nil }), dish(func(d *Dish) { d.Others[0].PerPortion = new(big.Rat) })},
		{`dish "mash": has no amount of butter`, "0 or more", dish(func(d *Dish) { d.Others[0].PerPortion = big.NewRat(-1, 9) }), nil},
		{`limit "butter": has no amount`, "an amount such as 150 g", limit(Limit{"butter", nil, "g"}), limit(Limit{"butter", ratInt(30), "g"})},
		{`limit "butter": has no amount`, "an amount such as 150 g", limit(Limit{"butter", big.NewRat(-1, 9), "g"}), nil},
		{`limit "butter": is given twice`, "one limit for each ingredient", limit(Limit{"butter", ratInt(90), "g"}, Limit{"butter", ratInt(80), "g"}), nil},
		{`limit "butter": is in pieces but "mash" counts it in g`, "the same unit", limit(Limit{"butter", ratInt(90), ""}), nil},
		{`limit "cream": no dish here uses it`, "one of butter, salt", func(p *Problem) {
			p.Limits = []Limit{{"cream", ratInt(90), "g"}}
			p.Dishes[0].Others = append([]Other{{"salt", ratInt(1), "g"}}, p.Dishes[0].Others[0], p.Dishes[0].Others[0])
		}, nil},
		{`keep-back "potato": has no amount`, "a weight such as 500 g", keep(KeepBack{"potato", nil}), keep(KeepBack{"potato", new(big.Rat)})},
		{`keep-back "potato": has no amount`, "a weight such as 500 g", keep(KeepBack{"potato", big.NewRat(-1, 9)}), nil},
		{`keep-back "potato": is given twice`, "one weight for each crop", keep(KeepBack{"potato", ratInt(9)}, KeepBack{"potato", ratInt(8)}), nil},
		{`keep-back "potato": there are only 1000.0 g`, "no more than there is", keep(KeepBack{"potato", big.NewRat(2_001, 2)}), keep(KeepBack{"potato", big.NewRat(1_999, 10)})},
		{`keep-back "leek": there are only 0.0 g`, "no more than there is", keep(KeepBack{"leek", ratInt(1)}), keep(KeepBack{"leek", ratInt(0)})},
		{"sides: -1 helpings for each guest", "1 or more", func(p *Problem) { p.Guests, p.Sides = []Guest{{Count: 1, Suits: []bool{true}}}, -1 }, func(p *Problem) { p.Sides = -1 }},
		{"guests: there are none", "at least one guest", func(p *Problem) { p.Guests, p.Sides = []Guest{}, 1 }, nil},
		{`guests "g": 0 people`, "1 to 100000", one(Guest{Label: "g", Suits: []bool{true}}), one(Guest{Label: "g", Count: 1, Suits: []bool{true}})},
		{`guests "g": 100001 people`, "1 to 100000", one(Guest{Label: "g", Count: 100_001, Suits: []bool{true}}), nil},
		{"guests: too many", "at most 100000 in all", func(p *Problem) {
			p.Guests, p.Sides = []Guest{{Count: 100_000, Suits: []bool{true}}, {Count: 1, Suits: []bool{true}}}, 1
		}, nil},
		{`guests "g": do not say for each dish whether it suits`, "one answer for each dish", one(Guest{Label: "g", Count: 1, Suits: []bool{true, true}}), nil},
		{`guests "g": do not say for each dish whether it suits`, "one answer for each dish", one(Guest{Label: "g", Count: 1, Suits: []bool{true}, Why: []string{}}), one(Guest{Label: "g", Count: 1, Suits: []bool{true}, Why: []string{""}})},
		{`dishes "-1": no number of dishes`, "1 or more", func(p *Problem) { p.MostDishes = -1 }, func(p *Problem) { p.MostDishes = 0 }},
		{`layers "-1": no number of layers`, "1 or more", func(p *Problem) { p.Layers = -1 }, func(p *Problem) { p.Layers = 0 }},
		{`ties "[]": not an order of the dishes`, "each dish once", func(p *Problem) { p.Ties = []int{} }, func(p *Problem) { p.Ties = []int{0} }},
		{`ties "[1]": not an order of the dishes`, "each dish once", func(p *Problem) { p.Ties = []int{1} }, nil},
		{`ties "[0 0]": not an order of the dishes`, "each dish once", func(p *Problem) { p.Ties = []int{0, 0} }, nil},
	} {
		t.Run(c.says, func(t *testing.T) {
			p := oneDish()
			c.spoil(&p)
			plan, err := Solve(context.Background(), p)
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong)
			require.Equal(t, c.says, wrong.Error())
			require.Equal(t, "write "+c.hint, wrong.Hint())
			require.Equal(t, Plan{}, plan)
			if c.near != nil {
				p := oneDish()
				c.near(&p)
				_, err := Solve(context.Background(), p)
				require.NoError(t, err)
			}
		})
	}
	p := oneDish()
	p.Dishes = append(p.Dishes, p.Dishes[0])
	p.Dishes[1].Largest = 0
	require.ErrorContains(t, p.Validate(), "smallest 2 is above largest 0", "the second dish too")
	p = oneDish()
	p.Layers, p.MostDishes = -1, -1
	p.Limits, p.KeepBack = []Limit{{"cream", ratInt(1), "g"}}, []KeepBack{{"leek", ratInt(1)}}
	require.Equal(t, 2, strings.Count(p.Validate().Error(), "\n"), "one of the limits, one of what is kept back, one of the bounds")
}

// Most guests are 100,000 in all, and so many are seated.
func TestTheMostGuests(t *testing.T) {
	p := oneDish()
	p.Guests, p.Sides = []Guest{{Count: 99_999, Suits: []bool{true}}, {Count: 1, Suits: []bool{true}}}, 1
	require.NoError(t, p.Validate())
}

// Whether a need takes a lot: its crop, a texture that fits or is not known, and sizes
// within its own, ends included.
func TestAccepts(t *testing.T) {
	band := units.Band{Low: 20, High: 45}
	for _, c := range []struct {
		need Need
		lot  Lot
		want bool
	}{
		{Need{Crop: "potato"}, Lot{Crop: "potato"}, true},
		{Need{Crop: "potato"}, Lot{Crop: "leek"}, false},
		{Need{Texture: "waxy"}, Lot{Texture: "waxy"}, true},
		{Need{Texture: "waxy"}, Lot{Texture: "floury"}, false},
		{Need{Texture: "waxy"}, Lot{}, true},
		{Need{Texture: "any"}, Lot{Texture: "floury"}, true},
		{Need{}, Lot{Texture: "floury"}, true},
		{Need{Sizes: band}, Lot{Sizes: band}, true},
		{Need{Sizes: band}, Lot{Sizes: units.Band{Low: 19, High: 45}}, false},
		{Need{Sizes: band}, Lot{Sizes: units.Band{Low: 20, High: 46}}, false},
		{Need{Sizes: band}, Lot{}, true},
		{Need{}, Lot{Sizes: band}, true},
	} {
		require.Equal(t, c.want, c.need.accepts(c.lot), c)
	}
}

// Plans are compared level by level, the worse first; a level that comes after counts
// only where those before are alike.
func TestLevelsAreCompared(t *testing.T) {
	base := func() Levels {
		return Levels{Fed: []int{4, 2}, Over: 1, UseFirst: ratInt(50), Dishes: 3, Balance: ratInt(2), Portions: 9}
	}
	change := map[Level]func(l *Levels, by int){
		Fed: func(l *Levels, by int) { l.Fed[0] += by }, Over: func(l *Levels, by int) { l.Over -= by }, UseFirst: func(l *Levels, by int) { l.UseFirst = ratInt(50 + 10*by) },
		Dishes: func(l *Levels, by int) { l.Dishes += by }, Balance: func(l *Levels, by int) { l.Balance = ratInt(2 + by) }, Portions: func(l *Levels, by int) { l.Portions += by },
	}
	for _, c := range []struct {
		about string
		p     Problem
		order []Level
		fewer []Level // of which less is better
	}{
		{"nobody in particular", Problem{}, []Level{Fed, Over, UseFirst, Dishes, Balance, Portions}, nil},
		{"guests", Problem{Guests: []Guest{{}}}, []Level{Fed, Over, UseFirst, Dishes, Portions, Balance}, []Level{Dishes, Portions}},
		{"guests, many dishes", Problem{Guests: []Guest{{}}, ManyDishes: true}, []Level{Fed, Over, UseFirst, Dishes, Portions, Balance}, []Level{Portions}},
	} {
		for i, level := range c.order {
			by := 1
			if slices.Contains(c.fewer, level) {
				by = -1
			}
			better := base()
			change[level](&better, by)
			for _, later := range c.order[i+1:] { // all after it are worse
				worse := -1
				if slices.Contains(c.fewer, later) {
					worse = 1
				}
				change[later](&better, worse)
			}
			require.Positive(t, better.Compare(base(), &c.p), "%s: %v", c.about, level)
			require.Negative(t, base().Compare(better, &c.p), "%s: %v", c.about, level)
			require.Equal(t, level, better.firstAbove(base(), &c.p), c.about)
		}
		require.Zero(t, base().Compare(base(), &c.p))
		require.Equal(t, Ties, base().firstAbove(base(), &c.p))
	}
	second := base()
	second.Fed[1]++
	require.Positive(t, second.Compare(base(), &Problem{}), "the second helping too")
	second.Fed[0]--
	require.Negative(t, second.Compare(base(), &Problem{}), "but after the first")
}

func TestWordsOfAnUnprovenPlan(t *testing.T) {
	e := &NotProvenError{Plan: Plan{Effort: Effort{Nodes: 7}}, Level: UseFirst, Best: ratInt(40), Bound: big.NewRat(181, 4)}
	require.Equal(t, "not proven best: stopped after 7 steps of the search; use first could be better by at most 5.3", e.Error())
	require.Equal(t, "21/4", e.Gap().RatString())
	require.NoError(t, errors.Unwrap(e))
	e.Bound, e.Cause = nil, context.DeadlineExceeded
	require.Equal(t, "not proven best: context deadline exceeded; use first could be better, by how much is not known", e.Error())
	require.Nil(t, e.Gap())
	require.ErrorIs(t, e, context.DeadlineExceeded)
	var names []string
	for level := Fed; level <= Ties; level++ {
		names = append(names, level.String())
	}
	require.Equal(t, []string{"fed", "nothing over", "use first", "dishes", "portions", "balance", "ties"}, names)
}

// So many helpings are counted with, and no more: 100,000 people may have ten each, of
// whom there is food for some, and a dish more than they may take changes nothing. Of
// dishes that are alike any number is counted, past what one column of the search may hold.
func TestTheMostHelpings(t *testing.T) {
	crowd := func(dishes, sides int, child bool) Problem {
		p := oneDish()
		p.Sides, p.Guests = sides, []Guest{{Count: 100_000, Child: child}}
		p.Dishes[0].Smallest, p.Dishes[0].Largest = 1, MostPortions
		for d := range dishes {
			if d > 0 {
				more := p.Dishes[0]
				more.Needs = []Need{{Crop: "potato", PerPortion: ratInt(200 + d)}}
				p.Dishes = append(p.Dishes, more)
			}
			p.Guests[0].Suits = append(p.Guests[0].Suits, true)
		}
		return p
	}
	for _, c := range []struct {
		dishes, sides int
		child         bool
		fed           int
	}{{10, 12, false, 5}, {12, 10, true, 10}, {25, 1, true, 10}} {
		p := crowd(c.dishes, c.sides, c.child)
		plan, err := Solve(context.Background(), p)
		require.NoError(t, err, c)
		require.Equal(t, c.fed, plan.Levels.Fed[0], "1,000 g are five portions, a child's is half of one: %v", c)
	}
	for sides, each := range map[int]string{11: "11", 12: "11", 20: "11"} {
		p := crowd(11, sides, false)
		err := p.Validate()
		require.EqualError(t, err, "guests: too many for "+each+" helpings each")
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong)
		require.Equal(t, "write at most 1000000 helpings in all", wrong.Hint())
	}

	p := crowd(1, 1, false)
	p.Guests, p.Lots[0].Supply = nil, decimal.NewFromInt(11*MostPortions*200)
	for range 10 {
		p.Dishes = append(p.Dishes, p.Dishes[0])
	}
	plan, err := Solve(context.Background(), p)
	require.NoError(t, err)
	require.Equal(t, 11*MostPortions, plan.Levels.Portions)
}
