package meal

import (
	"cmp"
	"slices"
	"strings"

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
	Amount string // cooked, eaten, binned; "" = all of it
	Until  string // out
	Air    string // out
	Says   string
}

// Read makes the journal's entry of the words; a batch that is cooked may be one
// of the plot's dishes. Its error is a [units.FieldError].
func (q EventWords) Read(clock units.Clock, system units.System, dishes func() []recipes.Dish) (*harvest.BatchEvent, error) {
	e := &harvest.BatchEvent{Event: q.Event, Name: strings.TrimSpace(q.Name), Says: q.Says, Dish: q.Dish}
	if e.Name == "" {
		return nil, units.WrongField("batch", "", "the batch has no name", `a name to know it by, such as "potato salad"`)
	}
	var err error
	if e.At, err = clock.Moment("at", q.At); err != nil {
		return nil, err
	}
	if q.Until != "" {
		if e.Until, err = clock.Moment("until", q.Until); err != nil {
			return nil, err
		}
	}
	if q.Amount != "" {
		e.Amount, err = units.Parse(q.Amount, system)
		if err != nil || e.Amount.Sign() <= 0 || e.Amount.IsRange() || e.Amount.IsToTaste() {
			return nil, units.WrongField("amount", q.Amount, "not an amount", `portions, as "4", or a weight, as "1.2 kg"`)
		}
	}
	if q.Air != "" {
		if _, err = keeping.ParseTemperature("air", q.Air); err != nil {
			return nil, err
		}
		e.Air, _ = units.Parse(q.Air, units.Metric) // it has just been read
	}
	if q.Event != harvest.KindCooked {
		return e, nil
	}
	return e, q.readFood(e, dishes())
}

// readFood settles what a cooked batch is: the food given, else the one the
// dish of that name falls under.
func (q EventWords) readFood(e *harvest.BatchEvent, dishes []recipes.Dish) error {
	e.Food = q.Food
	name := cmp.Or(q.Dish, e.Name)
	if i := slices.IndexFunc(dishes, func(d recipes.Dish) bool { return strings.EqualFold(d.Name, name) }); i >= 0 {
		e.Dish = dishes[i].Name
		kinds := KindsOf(dishes[i]).Foods
		e.Food = cmp.Or(e.Food, kinds[0])
		e.Also = slices.DeleteFunc(slices.Clone(kinds), func(kind string) bool { return kind == e.Food })
	}
	if e.Food == "" {
		return units.WrongField("food", "", "missing; "+e.Name+" is no dish of this plot", "what it is: "+strings.Join(keeping.BatchFoods(), ", "))
	}
	food, err := keeping.LookupBatchFood(e.Food)
	if err != nil {
		return err
	}
	e.Food = food.ID
	return nil
}
