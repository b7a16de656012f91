package ask

import (
	"context"
	"fmt"
	"strings"
	"time"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/units"
)

// ShareWords is a question about the day's harvest, as it was typed.
type ShareWords struct {
	Plot     PlotRef
	Only     []string // only these dishes, in this order; none = all in file-name order
	Without  []string // none of these
	Limits   []string // "butter=150 g"
	KeepBack []string // "500 g potato"
	ServeAt  string   // "18:30"; "" = no timetable
	Air      string   // where the food stands: "24 C"; "" = the kitchen's room
	Guests   []string // table: "6 adults", "2 adults no milk, egg"
	Sides    int      // table: the most helpings a guest takes
	Take     bool     // write the uses into the journal

	NodeLimit int // the search's patience; 0 = the planner's own
}

// MealAnswer is a plan, and the journal entries that record it as used.
type MealAnswer struct {
	meal.Plan
	Taken []string
}

// Share answers the main job: how many portions of what, and all that follows
// from it. Errors: what is wrong in the plot's files, all together; a field that
// cannot be read; [ErrNothingOnHand].
func Share(ctx context.Context, w ShareWords) (MealAnswer, error) {
	return answerMeal(ctx, w, meal.Share)
}

// Table answers the same with the people first: most helpings served, and what
// each guest gets. Its errors are those of [Share].
func Table(ctx context.Context, w ShareWords) (MealAnswer, error) {
	return answerMeal(ctx, w, meal.Table)
}

func answerMeal(ctx context.Context, w ShareWords, mode meal.Mode) (MealAnswer, error) {
	plot, err := Open(w.Plot)
	if err != nil {
		return MealAnswer{}, err
	}
	question, err := plot.readShare(ctx, w, mode)
	if err != nil {
		return MealAnswer{}, err
	}
	plan, err := meal.Make(ctx, question)
	if err != nil || !w.Take {
		return MealAnswer{Plan: plan}, err
	}
	taken, err := plot.take(plan)
	return MealAnswer{Plan: plan, Taken: taken}, err
}

// readShare reads the words into a question about this plot. Everything wrong in
// the plot's files is told before anything wrong in the words.
func (p *Plot) readShare(ctx context.Context, w ShareWords, mode meal.Mode) (meal.Question, error) {
	all := p.Dishes()
	account := p.Account(ctx)
	if err := p.Err(); err != nil {
		return meal.Question{}, err
	}
	q := p.question(mode)
	q.Lots, q.NodeLimit = account.Stock().Lots, w.NodeLimit
	for _, read := range []func() error{
		func() (err error) { q.Dishes, err = choose(all, w.Only, w.Without); return },
		func() (err error) { q.ServeAt, err = p.serving(w.ServeAt); return },
		func() (err error) { q.AirC, err = p.air(w.Air); return },
		func() error { return p.somethingOnHand(q) },
		func() error { return readTable(&q, w) },
		func() (err error) { q.Limits, err = p.limits(w.Limits); return },
		func() (err error) { q.KeepBack, err = p.keepBack(w.KeepBack); return },
	} {
		if err := read(); err != nil {
			return meal.Question{}, err
		}
	}
	return q, nil
}

// question is what any plan asked of the plot rests on.
func (p *Plot) question(mode meal.Mode) meal.Question {
	q := meal.Question{Mode: mode, Plot: p.Name, On: p.On, Now: p.where.Now, Kitchen: p.Kitchen, AirC: p.Kitchen.RoomC,
		Notes: p.tastingNotes(), Remarks: p.Warnings}
	q.KnifeTests, _ = knifeTests(p.entries) // `trencher steam` names those that cannot be read
	return q
}

func (p *Plot) somethingOnHand(q meal.Question) error {
	if len(q.Lots) > 0 {
		return nil
	}
	return fmt.Errorf("%w on %s: no lift is logged that is not used up", ErrNothingOnHand, p.On.Format(time.DateOnly))
}

// mostSides is more than anybody takes.
const mostSides = 20

func readTable(q *meal.Question, w ShareWords) error {
	if q.Mode != meal.Table {
		return nil
	}
	if len(w.Guests) == 0 {
		return units.WrongField("guests", "", "nobody is named", "who eats, one kind at a time: 6 adults; 2 adults no milk; 3 children")
	}
	for _, text := range w.Guests {
		groups, err := recipes.ParseGuests(text)
		if err != nil {
			return units.InField("guests", text, err)
		}
		q.Guests = append(q.Guests, groups...)
	}
	if w.Sides < 1 || w.Sides > mostSides {
		return units.WrongField("sides", fmt.Sprint(w.Sides), "not a number of dishes a guest may take", fmt.Sprintf("a whole number from 1 to %d", mostSides))
	}
	q.Sides = w.Sides
	return nil
}

// limits reads every "butter=150 g".
func (p *Plot) limits(texts []string) ([]meal.Limit, error) {
	var limits []meal.Limit
	for _, text := range texts {
		item, value, found := strings.Cut(text, "=")
		item = strings.ToLower(strings.TrimSpace(item))
		if !found || item == "" {
			return nil, units.WrongField("limit", text, "no ingredient and amount", "both, as butter=150 g")
		}
		amount, err := units.Parse(strings.TrimSpace(value), p.Kitchen.Measures)
		if err != nil {
			return nil, units.InField("limit", text, err)
		}
		if amount.IsToTaste() || amount.IsRange() || amount.Sign() < 0 {
			return nil, units.WrongField("limit", text, "a limit is one amount", "an ingredient and its most, as butter=150 g")
		}
		limits = append(limits, meal.Limit{Item: item, Amount: amount})
	}
	return limits, nil
}

// keepBack reads every "500 g potato": the longest beginning that is a weight,
// and what it is of.
func (p *Plot) keepBack(texts []string) ([]meal.KeepBack, error) {
	var all []meal.KeepBack
	for _, text := range texts {
		words := strings.Fields(text)
		n := len(words) - 1
		for ; n > 0; n-- {
			weight, err := units.Parse(strings.Join(words[:n], " "), p.Kitchen.Measures)
			if err == nil && weight.Dimension() == units.Mass && weight.Sign() > 0 && !weight.IsRange() {
				all = append(all, meal.KeepBack{Crop: strings.Join(words[n:], " "), Weight: weight})
				break
			}
		}
		if n <= 0 {
			return nil, units.WrongField("keep-back", text, "not a weight and a crop", "both, as 500 g potato")
		}
	}
	return all, nil
}

// serving reads the serving time on the day asked for.
func (p *Plot) serving(text string) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	return clock{p.On, p.On.Location()}.onDay("serve-at", text, p.On)
}

// The air, in °C, that a meal is eaten in.
const coldestAir, hottestAir = -30, 55

// air reads the temperature where the food stands; the kitchen's room stands in
// for it.
func (p *Plot) air(text string) (float64, error) {
	if text == "" {
		return p.Kitchen.RoomC, nil
	}
	amount, err := units.Parse(text, p.Kitchen.Measures)
	if err != nil {
		return 0, units.InField("air", text, err)
	}
	celsius, err := amount.Float64(units.Celsius)
	if err != nil {
		return 0, units.InField("air", text, err)
	}
	if celsius < coldestAir || celsius > hottestAir {
		return 0, units.WrongField("air", text, "no air a meal is eaten in", fmt.Sprintf("%d C to %d C", coldestAir, hottestAir))
	}
	return celsius, nil
}
