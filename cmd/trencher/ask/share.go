package ask

import (
	"context"
	"errors"
	"fmt"
	"math/big"
	"time"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/planner"
	"trencher/units"
)

// ShareQuestion asks for today's harvest shared out among dishes.
type ShareQuestion struct {
	Plot     PlotRef
	Only     []string // only these dishes, in this order; none = all in file-name order
	Without  []string // none of these
	Limits   []string // "butter=150 g"
	KeepBack []string // "500 g potato"
	ServeAt  string   // "18:30"; "" = no timetable (the demo serves all the same)
	Air      string   // outdoors, where the food stands: "24 C"; "" = the kitchen's room
	Guests   []string // table: "6 adults", "2 adults no milk, egg"
	Sides    int      // table: the most helpings a guest takes
	Take     bool     // write the uses into the journal

	NodeLimit int // the search's patience; 0 = the planner's own
}

// sharing is one question being answered.
type sharing struct {
	question ShareQuestion
	plot     *Plot
	serveAt  time.Time
	airC     float64
	lots     []*harvest.Lot // those that may go to the kitchen
	dishes   []recipes.Dish
	guests   []recipes.Guests
	problem  planner.Problem
	solved   planner.Plan
	scaled   map[string]recipes.Scaled // by dish name
	details  map[partAt]steamed
	cools    map[string]cooled // by dish and piece
	plan     Plan
}

// Share answers the main job: how many portions of what, and all that follows
// from it. Errors: what is wrong in the plot's files, all together; a flag
// that cannot be read; *planner.NotProvenError when the search gave up.
func Share(ctx context.Context, q ShareQuestion) (Plan, error) {
	return answer(ctx, q, "share")
}

// Table answers the same with the people first: most helpings served, and
// what each guest gets. Its errors are those of Share.
func Table(ctx context.Context, q ShareQuestion) (Plan, error) {
	return answer(ctx, q, "table")
}

func answer(ctx context.Context, q ShareQuestion, mode string) (Plan, error) {
	s, err := newSharing(ctx, q, mode)
	if err != nil {
		return Plan{}, err
	}
	s.plan.Mode = mode
	if err := s.solve(ctx); err != nil {
		return Plan{}, err
	}
	s.tellLots()
	if err := s.tellDishes(); err != nil {
		return Plan{}, err
	}
	s.tellLevels()
	if err := s.tellBounds(ctx); err != nil {
		return Plan{}, err
	}
	s.tellPlates()
	s.tellShopping()
	if err := s.tellTimetable(); err != nil {
		return Plan{}, err
	}
	if err := s.tellKeeping(); err != nil {
		return Plan{}, err
	}
	s.tellReasons()
	if q.Take {
		return s.plan, s.take()
	}
	return s.plan, nil
}

// solve asks the planner. A search that gave up hands out its best plan, which
// then says first of all that it is not proven best.
func (s *sharing) solve(ctx context.Context) error {
	s.problem.NodeLimit = s.question.NodeLimit
	plan, err := planner.Solve(ctx, s.problem)
	var unproven *planner.NotProvenError
	switch {
	case err == nil, errors.Is(err, planner.ErrNothingFits):
	case errors.As(err, &unproven) && ctx.Err() == nil:
		s.plan.Warnings = append([]string{unproven.Error()}, s.plan.Warnings...)
	default:
		return err
	}
	s.solved = plan
	return nil
}

// newSharing opens the plot, reads the flags and puts the planner's problem.
func newSharing(ctx context.Context, q ShareQuestion, mode string) (*sharing, error) {
	plot, err := Open(q.Plot)
	if err != nil {
		return nil, err
	}
	all := plot.Dishes()
	account := plot.Account(ctx)
	if err := plot.Err(); err != nil {
		return nil, err
	}
	s := &sharing{question: q, plot: plot, scaled: map[string]recipes.Scaled{}, details: map[partAt]steamed{}, cools: map[string]cooled{}}
	s.plan = Plan{Plot: plot.Name, On: plot.On, Warnings: plot.Warnings}
	if s.dishes, err = choose(all, q.Only, q.Without); err != nil {
		return nil, err
	}
	if s.serveAt, err = plot.serving(q.ServeAt); err != nil {
		return nil, err
	}
	if s.airC, err = plot.air(q.Air); err != nil {
		return nil, err
	}
	s.plan.ServeAt = s.serveAt
	s.sort(account)
	if len(s.lots)+len(s.plan.SetAside) == 0 {
		return nil, fmt.Errorf("%w on %s: no lift is logged that is not used up", ErrNothingOnHand, plot.On.Format(time.DateOnly))
	}
	if mode == "table" {
		if s.guests, err = parseGuests(q.Guests); err != nil {
			return nil, err
		}
		if q.Sides < 1 || q.Sides > 20 {
			return nil, units.WrongField("sides", fmt.Sprint(q.Sides), "not a number of dishes a guest may take", "a whole number from 1 to 20")
		}
	}
	return s, s.pose()
}

// sort parts the stock into what may go to the kitchen and what never does.
func (s *sharing) sort(account *harvest.Account) {
	for _, lot := range account.Stock().Lots {
		switch {
		case !lot.Condition.Edible():
			s.plan.SetAside = append(s.plan.SetAside, SetAside{Lot: lot.ID, Name: lot.Name, Crop: lot.Crop,
				Grams: lot.Weight, Because: asideReason(lot.Condition)})
		default:
			s.lots = append(s.lots, lot)
		}
	}
}

// asideReason says why a condition never goes to the kitchen.
func asideReason(condition harvest.Condition) string {
	if condition == harvest.Green {
		return "green: bitter and poisonous, cooking does not help; throw them out"
	}
	return "rotten: throw them out, and keep them away from the sound ones"
}

// pose puts the question to the planner in its own terms.
func (s *sharing) pose() error {
	for _, lot := range s.lots {
		s.problem.Lots = append(s.problem.Lots, planner.Lot{
			ID: lot.ID, Crop: recipes.CropName(lot.Crop), Texture: lot.Texture,
			Sizes: [2]int{lot.Sizes.Low, lot.Sizes.High}, Supply: lot.Supply, First: lot.First})
	}
	for _, dish := range s.dishes {
		posed, err := poseDish(dish)
		if err != nil {
			return err
		}
		s.problem.Dishes = append(s.problem.Dishes, posed)
	}
	if err := s.poseLimits(); err != nil {
		return err
	}
	if err := s.poseKeepBack(); err != nil {
		return err
	}
	s.poseGuests()
	return nil
}

func poseDish(dish recipes.Dish) (planner.Dish, error) {
	posed := planner.Dish{Name: dish.Name, Smallest: dish.Smallest, Largest: dish.Largest, Wish: dish.Wish}
	for i, line := range dish.Crops {
		need, _, err := dish.NeedPerPortion(i)
		if err != nil {
			return posed, fmt.Errorf("%s: %w", dish.File, err)
		}
		posed.Needs = append(posed.Needs, planner.Need{Crop: line.Crop, PerPortion: need,
			Texture: line.Texture, Sizes: [2]int{line.Sizes.Low, line.Sizes.High}})
	}
	for _, other := range dish.Others {
		if other.Amount.IsToTaste() || !other.Amount.IsValid() {
			continue
		}
		_, most := other.Amount.Ends()
		posed.Others = append(posed.Others, planner.Other{Item: other.Item, Unit: other.Amount.Unit().Code(),
			PerPortion: new(big.Rat).Quo(most, big.NewRat(int64(dish.Portions), 1))})
	}
	return posed, nil
}

// poseGuests turns each group into the planner's guests: which dish suits, and
// where not, why.
func (s *sharing) poseGuests() {
	for _, group := range s.guests {
		guest := planner.Guest{Label: group.Label(), Count: group.Count, Child: group.Child}
		for _, dish := range s.dishes {
			suits, why := dish.Suits(group.Diet)
			guest.Suits = append(guest.Suits, suits)
			guest.Why = append(guest.Why, why)
		}
		s.problem.Guests = append(s.problem.Guests, guest)
	}
	s.problem.Sides = s.question.Sides
}

func parseGuests(texts []string) ([]recipes.Guests, error) {
	if len(texts) == 0 {
		return nil, units.WrongField("guests", "", "nobody is named", "who eats, one kind at a time: 6 adults; 2 adults no milk; 3 children")
	}
	var guests []recipes.Guests
	for _, text := range texts {
		groups, err := recipes.ParseGuests(text)
		if err != nil {
			return nil, units.InField("guests", text, err)
		}
		guests = append(guests, groups...)
	}
	return guests, nil
}

// tellLots lists the kitchen's lots with what the plan takes of each, and
// what is left: what is taken and what is left add up to the supply exactly.
func (s *sharing) tellLots() {
	taken := make([]decimal.Decimal, len(s.lots))
	for _, flow := range s.solved.Flows {
		taken[flow.Lot] = taken[flow.Lot].Add(flooredGrams(flow.Grams))
	}
	for i, lot := range s.lots {
		left := lot.Supply.Sub(taken[i])
		s.plan.Lots = append(s.plan.Lots, Lot{ID: lot.ID, Name: lot.Name, Crop: lot.Crop, Variety: lot.Variety, Planting: lot.Planting,
			LowMM: lot.Sizes.Low, HighMM: lot.Sizes.High, Condition: string(lot.Condition),
			Supply: lot.Supply, Taken: taken[i], First: lot.First, KeepsUntil: lot.KeepsUntil})
		if left.IsPositive() {
			s.plan.Left = append(s.plan.Left, Left{Lot: lot.ID, Name: lot.Name, Crop: lot.Crop, Grams: left, Advice: leftAdvice(lot)})
		}
	}
}

// leftAdvice says what to do with what is left of a lot.
func leftAdvice(lot *harvest.Lot) string {
	switch {
	case lot.First:
		return "use today, or compost it"
	case !lot.KeepsUntil.IsZero():
		return "keeps raw until about " + lot.KeepsUntil.Format("2 January") + ", dark, cool and airy"
	}
	return "keep dark, cool and airy"
}

func (s *sharing) tellLevels() {
	levels := s.solved.Levels
	s.plan.Levels = Levels{Fed: levels.Fed, Portions: levels.Portions, Balance: "0",
		UseFirst: decimal.Zero, Effort: fmt.Sprintf("proven best after %d steps of the search", s.solved.Effort.Nodes)}
	if !s.solved.Proven {
		s.plan.Levels.Effort = fmt.Sprintf("not proven best, given up after %d steps of the search", s.solved.Effort.Nodes)
	}
	if levels.UseFirst != nil {
		s.plan.Levels.UseFirst = decimalOf(levels.UseFirst)
	}
	if levels.Balance != nil {
		s.plan.Levels.Balance = ratioText(levels.Balance)
	}
}
