package meal

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/units"
)

// EventWords is one event in the life of a cooked batch as a person writes it.
type EventWords struct {
	Event  string // harvest.KindCooked, KindChilled, KindOut, KindReheated, KindEaten or KindBinned
	Name   string // the batch
	At     string // "" = now
	Food   string // cooked
	Dish   string // cooked
	Plan   string // cooked: the ID of the plan it was made by
	Amount string // cooked, eaten, binned; "" = all of it
	Until  string // out
	Air    string // out
	Says   string

	Replaces string // the file of the event this one corrects
}

// longestBatch is how many letters the name of a batch may have when it is
// cooked: it is what people call it by, and a lid has no room for more.
const longestBatch = 120

// Read makes the journal's entry of the words; a batch that is cooked may be one
// of the plot's dishes. Its error is a [units.FieldError].
func (q EventWords) Read(clock units.Clock, system units.System, dishes func() []recipes.Dish) (*harvest.BatchEvent, error) {
	e := &harvest.BatchEvent{Event: q.Event, Name: strings.TrimSpace(q.Name), Says: q.Says, Dish: q.Dish, Plan: q.Plan}
	e.Replaces = q.Replaces
	if e.Name == "" {
		return nil, units.WrongField("batch", "", "the batch has no name", `a name to know it by, such as "potato salad"`)
	}
	if utf8.RuneCountInString(e.Name) > longestBatch && q.Event == harvest.KindCooked {
		return nil, units.WrongField("batch", e.Name, "too long for a name", fmt.Sprintf(`at most %d letters, such as "potato salad"`, longestBatch))
	}
	if err := q.readTimes(e, clock); err != nil {
		return nil, err
	}
	if err := q.readMeasures(e, system); err != nil {
		return nil, err
	}
	if q.Event != harvest.KindCooked {
		return e, nil
	}
	return e, q.readFood(e, dishes())
}

// readTimes reads when the event was, and until when.
func (q EventWords) readTimes(e *harvest.BatchEvent, clock units.Clock) (err error) {
	if q.At != "" || q.Replaces == "" { // else it is of the moment of what it corrects
		if e.At, err = clock.Moment("at", q.At); err != nil {
			return err
		}
	}
	if q.Until != "" {
		e.Until, err = clock.Moment("until", q.Until)
	}
	return err
}

// readMeasures reads how much it is about, and how warm the air was.
func (q EventWords) readMeasures(e *harvest.BatchEvent, system units.System) (err error) {
	if q.Amount != "" {
		e.Amount, err = units.Parse(q.Amount, system)
		if err != nil || e.Amount.Sign() <= 0 || e.Amount.IsRange() || e.Amount.IsToTaste() {
			return units.WrongField("amount", q.Amount, "not an amount", `portions, as "4", or a weight, as "1.2 kg"`)
		}
	}
	if q.Air != "" {
		if _, err = keeping.ParseTemperature("air", q.Air); err != nil {
			return err
		}
		e.Air, _ = units.Parse(q.Air, units.Metric) // it has just been read
	}
	return nil
}

// readFood settles what a cooked batch is: the food given, by any word that
// [keeping.NameBatch] takes, else the one its dish falls under. A dish goes by a
// beginning of its name too; but where the food is given, only a whole name makes
// the batch a dish's.
func (q EventWords) readFood(e *harvest.BatchEvent, dishes []recipes.Dish) error {
	e.Food = q.Food
	found := recipes.Matching(dishes, cmp.Or(q.Dish, e.Name))
	switch byName := q.Dish == ""; {
	case byName && q.Food != "" && (len(found) != 1 || !strings.EqualFold(found[0].Name, e.Name)):
	case len(found) > 1:
		_, err := recipes.FindAs("dish", found, cmp.Or(q.Dish, e.Name))
		return err
	case len(found) == 1:
		e.Dish = found[0].Name
		if byName && !strings.EqualFold(e.Name, e.Dish) {
			e.Name = e.Dish
		}
		kinds := KindsOf(found[0]).Foods
		e.Food, e.Also = cmp.Or(e.Food, kinds[0]), slices.Clone(kinds)
	case !byName && len(dishes) > 0:
		_, err := recipes.FindAs("dish", dishes, q.Dish)
		return err
	}
	if e.Food == "" {
		return units.WrongField("food", "", "missing; "+e.Name+" is no dish of this plot", "what it is: "+strings.Join(keeping.BatchFoods(), ", "))
	}
	if q.Food == "" { // the dish's own
		e.Also = e.Also[1:]
		return nil
	}
	named, err := keeping.NameBatch(q.Food)
	if err != nil {
		return err
	}
	e.Food, e.Also = named.Food, append(named.Also, e.Also...)
	e.Also = slices.DeleteFunc(e.Also, func(kind string) bool { return kind == e.Food })
	return nil
}

// EachOf parts words into the events they tell of: names, each with an amount
// behind it or none, as in `Mash 600g, "Potato salad" 4`. A comma at a word's
// end stands between two of them and says no more. The rest of q holds for
// every event; but a food, a dish or an amount said once is of one batch alone.
// Its error is a [units.FieldError] of batch or amount.
func (q EventWords) EachOf(words []string) (events []EventWords, err error) {
	named := false // the last word was a name
	for _, word := range words {
		word, comma := strings.CutSuffix(strings.TrimSpace(word), ",")
		word = strings.TrimSpace(word)
		switch {
		case word == "" && comma:
		case !isAmount(word):
			next := q
			next.Name = word
			events, named = append(events, next), true
		case !named:
			return nil, units.WrongField("batch", word, "an amount without the name of what it is of", `a name before each amount, as "Spring onion mash" 600g`)
		case !q.TakesAmount():
			return nil, units.WrongField("amount", word, "an amount of what is "+q.Event, "the names alone")
		case q.Amount != "":
			return nil, units.WrongField("amount", q.Amount, "said twice", "each amount behind its name")
		default:
			events[len(events)-1].Amount, named = word, false
		}
	}
	if len(events) > 1 && (q.Amount != "" || q.Food != "" || q.Dish != "") {
		return nil, units.WrongField("batch", "", "several batches, with what is of one alone", "each batch with its amount behind its name; a food or a dish in a command of its own")
	}
	return events, nil
}

// TakesAmount tells that an event may say how much it is about.
func (q EventWords) TakesAmount() bool {
	return q.Event == harvest.KindCooked || q.Event == harvest.KindEaten || q.Event == harvest.KindBinned
}

// isAmount tells an amount from a name: it begins with a figure, and can be read.
func isAmount(word string) bool {
	if !strings.ContainsAny(word[:min(1, len(word))], "0123456789.") && !strings.HasPrefix(word, "½") && !strings.HasPrefix(word, "¼") && !strings.HasPrefix(word, "¾") {
		return false
	}
	_, err := units.Parse(word, units.Metric)
	return err == nil
}
