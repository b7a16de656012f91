package meal

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"time"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/recipes/heat"
	"trencher/recipes/schedule"
	"trencher/units"
)

// CookLog follows a recorded plan while it is cooked, by what the journal has of
// it, and writes down what the cook says.
type CookLog struct {
	BatchLog
	Record *harvest.Planned
	Plan   Plan // as it was recorded
}

// Cooking is the plan as it stands at the clock's moment. Its errors are those of
// [harvest.Correct] and [Follow].
func (l CookLog) Cooking() (Cooking, error) {
	told, _, err := l.said()
	if err != nil {
		return Cooking{}, err
	}
	return Follow(l.Plan, told, l.Clock.Now)
}

// said is what stands of what the cook has said of the plan, in that order, and
// of all knife tests.
func (l CookLog) said() (told []*harvest.Told, tests []*harvest.Steamed, err error) {
	standing, _, err := harvest.Correct(l.Ledger.Entries)
	if err != nil {
		return nil, nil, err
	}
	harvest.SortEntries(standing)
	for _, e := range standing {
		switch e := e.(type) {
		case *harvest.Told:
			if e.Plan == l.Record.ID {
				told = append(told, e)
			}
		case *harvest.Steamed:
			tests = append(tests, e)
		}
	}
	slices.SortStableFunc(told, func(a, b *harvest.Told) int { return a.LoggedAt().Compare(b.LoggedAt()) })
	return told, tests, nil
}

// Heard is what was written down of something the cook said.
type Heard struct {
	Told   *harvest.Told
	Events []*harvest.BatchEvent
	Knife  *harvest.Steamed // nil: it is no knife test that could be learned from
}

// Tell writes down what the cook says of a step, "" where it is of none: the
// batches that begin or move by it, the knife test, and last what was said. Its
// error is a [units.FieldError] of step or says.
func (l CookLog) Tell(ctx context.Context, step, says string) (Heard, error) {
	c, err := l.Cooking()
	if err != nil {
		return Heard{}, err
	}
	one := &harvest.Told{Plan: l.Record.ID, Step: step, What: harvest.Telling(says)}
	one.At = l.Clock.Now.Truncate(time.Second)
	if err := c.fits(one); err != nil {
		return Heard{}, err
	}
	heard := Heard{Told: one}
	for _, words := range c.Events(one, l.Record.ID) {
		if event := l.event(ctx, words); event != nil {
			heard.Events = append(heard.Events, event)
		}
	}
	if heard.Knife, err = c.KnifeTest(one); err != nil {
		return Heard{}, err
	}
	if known, err := l.isTested(step, heard.Knife); err != nil {
		return Heard{}, err
	} else if known {
		heard.Knife = nil
	}
	return heard, l.write(heard)
}

// write writes all that was heard; the saying comes last, and is what counts.
func (l CookLog) write(heard Heard) error {
	for _, event := range heard.Events {
		if err := l.Ledger.Write(event); err != nil {
			return err
		}
	}
	if heard.Knife != nil {
		if err := l.Ledger.Write(heard.Knife); err != nil {
			return err
		}
	}
	return l.Ledger.Write(heard.Told)
}

// event is what the journal is told of a batch; nil where it has been told
// already, by hand or by a writing that was cut off.
func (l CookLog) event(ctx context.Context, words EventWords) *harvest.BatchEvent {
	if words.Event == harvest.KindCooked && slices.ContainsFunc(l.Ledger.Entries, isCookedBy(l.Record.ID, words.Dish)) {
		return nil
	}
	event, err := l.Check(ctx, words)
	if err != nil {
		return nil
	}
	return event
}

// isTested tells a knife test that the journal has been told already, by hand or
// by a writing that was cut off before what was said: it found the same a moment
// ago, and nothing was said of the step since.
func (l CookLog) isTested(step string, knife *harvest.Steamed) (bool, error) {
	if knife == nil {
		return false, nil
	}
	told, tests, err := l.said()
	return slices.ContainsFunc(tests, func(before *harvest.Steamed) bool {
		ago := knife.At.Sub(before.At)
		return ago >= 0 && ago < knifeAgain && before.Crop == knife.Crop && before.Texture == knife.Texture &&
			before.Cut == knife.Cut && before.Until == knife.Until && before.Said == knife.Said &&
			!slices.ContainsFunc(told, func(one *harvest.Told) bool { return one.Step == step && !one.At.Before(before.At) })
	}), err
}

// fits makes sure that something can be said of a step of the plan.
func (c Cooking) fits(one *harvest.Told) error {
	if !slices.Contains(harvest.Tellings(), one.What) {
		return units.WrongField("says", string(one.What), "nothing a cook says here", "done, not-yet, over or five-late")
	}
	if one.What == harvest.ToldFiveLate {
		return nil
	}
	i := slices.IndexFunc(c.Plan.Steps, func(s Step) bool { return s.ID == one.Step })
	switch {
	case i < 0:
		return units.WrongField("step", one.Step, "the plan has no such step", "a step of the plan")
	case c.over[one.Step]:
		return units.WrongField("step", one.Step, "it is done already", "what is still to do")
	case one.What != harvest.ToldDone && !cooks(c.Plan.Steps[i]):
		return units.WrongField("says", string(one.What), "said of food on the heat alone", string(harvest.ToldDone))
	}
	return nil
}

// Events are what the journal is told of the batches when a step is over: a
// dish's batch begins when the first of it leaves the heat, goes into the fridge
// and comes out onto the table. plan is the ID of the plan that is cooked.
func (c Cooking) Events(one *harvest.Told, plan string) []EventWords {
	i := slices.IndexFunc(c.Plan.Steps, func(s Step) bool { return s.ID == one.Step })
	if i < 0 || one.What != harvest.ToldDone && one.What != harvest.ToldOver {
		return nil
	}
	step := c.Plan.Steps[i]
	var events []EventWords
	for _, dish := range step.Dishes {
		event := EventWords{Name: dish}
		switch {
		case cooks(step) && !c.hasBegun(dish, step.ID):
			event.Event, event.Dish, event.Plan = harvest.KindCooked, dish, plan
			event.Amount = strconv.Itoa(c.portions(dish))
		case step.Kind == schedule.Chill:
			event.Event = harvest.KindChilled
		case step.Kind == schedule.Serve && c.isChilled(dish):
			event.Event = harvest.KindOut
		default:
			continue
		}
		events = append(events, event)
	}
	return events
}

// hasBegun tells a dish of which another part is off the heat already.
func (c Cooking) hasBegun(dish, step string) bool {
	return slices.ContainsFunc(c.Plan.Steps, func(s Step) bool {
		return s.ID != step && cooks(s) && c.over[s.ID] && slices.Contains(s.Dishes, dish)
	})
}

func (c Cooking) isChilled(dish string) bool {
	return slices.ContainsFunc(c.Plan.Steps, func(s Step) bool { return s.Kind == schedule.Chill && slices.Contains(s.Dishes, dish) })
}

func (c Cooking) portions(dish string) int {
	at := slices.IndexFunc(c.Plan.Dishes, func(d Dish) bool { return d.Name() == dish })
	return c.Plan.Dishes[at].Portions
}

// KnifeTest is what the knife said of a steaming, as the journal keeps it; nil
// where it is of none, of pieces without one size, or too early to be learned
// from. The largest load of its parts counts.
func (c Cooking) KnifeTest(one *harvest.Told) (*harvest.Steamed, error) {
	i := slices.IndexFunc(c.Plan.Steps, func(s Step) bool { return s.ID == one.Step })
	if i < 0 || c.Plan.Steps[i].Kind != schedule.Steam || one.What == harvest.ToldFiveLate {
		return nil, nil
	}
	step := c.Plan.Steps[i]
	part := c.Plan.Dishes[step.Parts[0].Dish].Parts[step.Parts[0].Part]
	if !part.Piece.Sized.Sized() || part.Steam == nil {
		return nil, nil
	}
	said := part.Piece.Until.String()
	if one.What != harvest.ToldDone {
		said = string(one.What) + " " + said
	}
	since := one.At.Sub(step.At) - minutes(part.Steam.Estimate.ComeUp)
	if since < leastTest {
		return nil, nil // before there is steam no knife says anything of it
	}
	q := heat.Question{Crop: part.Piece.Crop, Cut: part.Piece.Sized, Until: part.Piece.Until}
	entry, err := KnifeEntry(q, fmt.Sprintf("%.1f min %s", since.Minutes(), said))
	if err != nil {
		return nil, nil // no answer could rest on it
	}
	entry.At, entry.Tier = one.At, step.Tier
	entry.Load = units.New(decimal.NewFromFloat(part.Steam.AtOnceG).Round(0), units.Gram)
	return entry, nil
}

// leastTest is the shortest steaming that the journal keeps a knife test of.
const leastTest = 30 * time.Second
