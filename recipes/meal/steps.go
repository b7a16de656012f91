package meal

import (
	"fmt"
	"math"
	"slices"
	"time"

	"trencher/recipes"
	"trencher/recipes/schedule"
)

// Minutes of handwork, all common practice, no source: they only have to keep
// the steps from being squeezed together.
const (
	scrubPerKilo  = 6.0
	peelPerKilo   = 12.0
	cutPerKilo    = 6.0
	leastPrepare  = 5.0
	loadSteamer   = 2.0
	unloadSteamer = 1.0
	spreadOnTray  = 2.0
	finishHot     = 4.0
	dressWarm     = 4.0
	dressCold     = 10.0
	pickAtLeast   = 3.0
	pickEachPlant = 2.0
	toTable       = 1.0
	changeGas     = 3.0
	topUpPan      = 1.0
	stillBoils    = 1.0
)

// firstBoil is what the first boil of the steamer is called among what heats.
const firstBoil = "the first boil"

// theRing says that a step wants a ring of the stove.
const theRing = 1

// work is the steps of a meal while they are listed: what all dishes share, then
// filling by filling, then dish by dish.
type work struct {
	loaded  Loaded
	cool    coolings
	pan     pan
	split   bool              // fillings of one dish need not follow each other at once
	first   string            // the filling that is first in time, once that is known
	changes map[string]bool   // before what the canister is changed, by the names in heats
	heats   map[string]string // what a step on a ring belongs to, by step
	steps   []schedule.Step
	parts   map[string][]PartAt // by step
	boil    string              // the step that first boils the water, or ""
	pick    string              // the step that picks from the plot, or ""

	does     map[string]string // the words of a dish's own steps
	tails    map[string]string // by the end of a filling, the end of the one that follows it at once
	prepared map[PartAt]string
	ready    map[int][]string // by dish: what has to end before it is finished
	lags     []schedule.Lag
}

// list lists the steps of a meal.
func (w *work) list() {
	w.heats = map[string]string{}
	w.does, w.tails = map[string]string{}, map[string]string{}
	w.parts, w.prepared, w.ready = map[string][]PartAt{}, map[PartAt]string{}, map[int][]string{}
	w.shared()
	for d, dish := range w.loaded.Dishes {
		for p := range dish.Parts {
			w.prepare(PartAt{d, p})
		}
	}
	last := map[int]string{} // by dish, what its last filling ended with
	for _, run := range w.loaded.Runs {
		w.run(run, last)
	}
	var ends []string
	for d := range w.loaded.Dishes {
		ends = append(ends, w.finish(d))
	}
	if len(ends) > 0 {
		w.add(schedule.Step{Kind: schedule.Serve, Hands: 1, Dishes: namesOf(w.loaded.Dishes), After: ends}, toTable)
	}
}

func namesOf(dishes []Dish) []string {
	var names []string
	for _, dish := range dishes {
		names = append(names, dish.Name())
	}
	return names
}

// add adds a step of so many minutes, which it rounds up, and returns its ID.
func (w *work) add(step schedule.Step, minutes float64, parts ...PartAt) string {
	step.ID = fmt.Sprintf("s%d", len(w.steps)+1)
	step.Length = wholeMinutes(minutes)
	w.steps = append(w.steps, step)
	w.parts[step.ID] = parts
	w.heats[step.ID] = step.Run
	return step.ID
}

func wholeMinutes(minutes float64) time.Duration {
	return time.Duration(math.Ceil(minutes-1e-9)) * time.Minute
}

// shared adds the work that all dishes share: picking, and the first boil.
func (w *work) shared() {
	if plants := fromPlot(w.loaded.Dishes); len(plants) > 0 {
		w.pick = w.add(schedule.Step{Kind: schedule.Pick, Hands: 1}, pickAtLeast+pickEachPlant*float64(len(plants)))
	}
	if first := w.pan.toBoil - w.pan.reboil(); first > 0 {
		w.boil = w.heat(firstBoil, schedule.Step{Kind: schedule.Boil, Ring: theRing, Steamer: true}, first)
	}
}

// fromPlot lists what the dishes take from the plot besides their crops, each
// once.
func fromPlot(dishes []Dish) []string {
	var plants []string
	for _, dish := range dishes {
		for _, other := range dish.Scaled.Others {
			if other.FromPlot && !slices.Contains(plants, other.Item) {
				plants = append(plants, other.Item)
			}
		}
	}
	return plants
}

// prepare adds washing and cutting of one part.
func (w *work) prepare(at PartAt) {
	part := w.loaded.part(at)
	kind, rate := schedule.Scrub, scrubPerKilo
	switch part.Line.Handwork() {
	case recipes.Peel:
		kind, rate = schedule.Peel, peelPerKilo
	case recipes.Shell:
		kind = schedule.Peel
	}
	kilos := part.Lifted.InexactFloat64() / 1000
	step := schedule.Step{Kind: kind, Crop: part.Line.Crop, Hands: 1, Dishes: w.dishesOf([]PartAt{at})}
	w.prepared[at] = w.add(step, max(leastPrepare, kilos*(rate+cutPerKilo)), at)
	if part.Steam == nil {
		w.cookOwn(at)
	}
}

func (w *work) dishesOf(parts []PartAt) []string {
	var names []string
	for _, at := range parts {
		if name := w.loaded.Dishes[at.Dish].Name(); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// finish adds what comes last of a dish and returns its last step: hot dishes are
// finished, the others dressed, when all of it is there.
func (w *work) finish(d int) string {
	dish := w.loaded.Dishes[d]
	name := []string{dish.Name()}
	after := w.ready[d]
	if w.pick != "" && len(fromPlot([]Dish{dish})) > 0 {
		after = append(after, w.pick)
	}
	for _, own := range dish.Recipe.Steps {
		step := schedule.Step{Kind: schedule.Own, Dishes: name, Hands: 1}
		switch own.Work {
		case recipes.WarmsUp:
			step.Kind = schedule.Warm
		case recipes.Melts:
			step.Kind = schedule.Melt
		}
		useThe(own.Uses, &step)
		id := w.heat(fmt.Sprint(dish.Name(), ": ", own.Do), step, float64(own.Minutes))
		w.does[id] = own.Do
		after = append(after, id)
	}
	kind, takes := schedule.Finish, finishHot
	switch dish.Recipe.Served {
	case recipes.Warm:
		kind, takes = schedule.Dress, dressWarm
	case recipes.Cold:
		kind, takes = schedule.Dress, dressCold
	}
	soon := dish.Recipe.Served == recipes.Warm // it takes up a dressing better while it is warm
	return w.add(schedule.Step{Kind: kind, Dishes: name, Hands: 1, After: after, Soon: soon}, takes)
}
