package meal

import (
	"fmt"
	"math"
	"slices"
	"time"

	"trencher/recipes"
	"trencher/recipes/heat"
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
	finishHot     = 5.0
	dressWarm     = 5.0
	dressCold     = 10.0
	chillCold     = 60.0
	pickAtLeast   = 3.0
	pickEachPlant = 2.0
)

// theRing is the one ring of the stove that the steamer stands on.
const theRing = 1

// work is the steps of a meal while they are listed, in the order in which ties
// between them are decided: what all dishes share, then dish by dish.
type work struct {
	loaded Loaded
	cool   coolings
	steps  []schedule.Step
	parts  map[string][]PartAt // by step
	runs   map[string]string   // the step of each filling of the steamer
	pick   string              // the step that picks from the plot, or ""
	boil   string              // the step that first boils the water, or ""
}

// stepsOf lists the steps of a meal. The map says which parts each is about.
func stepsOf(l Loaded, cool coolings) ([]schedule.Step, map[string][]PartAt) {
	w := &work{loaded: l, cool: cool, parts: map[string][]PartAt{}, runs: map[string]string{}}
	w.shared()
	for d := range l.Dishes {
		w.dish(d)
	}
	return w.steps, w.parts
}

// add adds a step of so many minutes, which it rounds up, and returns its ID.
func (w *work) add(step schedule.Step, minutes float64, parts ...PartAt) string {
	step.ID = fmt.Sprintf("s%d", len(w.steps)+1)
	step.Length = wholeMinutes(minutes)
	w.steps = append(w.steps, step)
	w.parts[step.ID] = parts
	return step.ID
}

func wholeMinutes(minutes float64) time.Duration {
	return time.Duration(math.Ceil(minutes-1e-9)) * time.Minute
}

// step finds a step by its ID.
func (w *work) step(id string) *schedule.Step {
	at := slices.IndexFunc(w.steps, func(s schedule.Step) bool { return s.ID == id })
	return &w.steps[at]
}

// shared adds the work that all dishes share: picking, and the first boil.
func (w *work) shared() {
	if plants := fromPlot(w.loaded.Dishes); len(plants) > 0 {
		w.pick = w.add(schedule.Step{Kind: schedule.Pick, Hands: 1}, pickAtLeast+pickEachPlant*float64(len(plants)))
	}
	if minutes := longestBoil(w.loaded.Dishes); minutes > 0 {
		w.boil = w.add(schedule.Step{Kind: schedule.Boil, Ring: theRing}, minutes)
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

// longestBoil is the most minutes that any part's water takes to the boil.
func longestBoil(dishes []Dish) float64 {
	longest := 0.0
	for _, dish := range dishes {
		for _, part := range dish.Parts {
			if part.Steam != nil {
				longest = max(longest, part.Steam.Load.ToBoil)
			}
		}
	}
	return longest
}

// ranks decide which dish's work is done earlier where either could be.
var ranks = map[recipes.Served]int{recipes.Cold: 0, recipes.Warm: 1, recipes.Hot: 2}

// dish adds the chain of one dish: prepare, steam, finish.
func (w *work) dish(d int) {
	dish := w.loaded.Dishes[d]
	c := &chain{work: w, dish: dish, rank: ranks[dish.Recipe.Served]}
	for p := range dish.Parts {
		c.prepare(PartAt{d, p})
	}
	for _, run := range c.runsOf() {
		c.steam(run)
	}
	c.finish()
}

// chain is the steps of one dish, each after the one before.
type chain struct {
	*work
	dish    Dish
	rank    int
	last    string // the last step so far
	steamed bool   // and it is a filling of the steamer
}

// then adds a step after the last.
func (c *chain) then(step schedule.Step, minutes float64, parts ...PartAt) {
	step.Dishes, step.Rank = []string{c.dish.Name()}, c.rank
	if c.last != "" && step.StraightFrom == "" {
		step.After = []string{c.last}
	}
	c.last, c.steamed = c.add(step, minutes, parts...), false
}

// prepare adds washing and cutting of one part.
func (c *chain) prepare(at PartAt) {
	part := c.loaded.part(at)
	kind, rate := schedule.Scrub, scrubPerKilo
	switch part.Line.Handwork() {
	case recipes.Peel:
		kind, rate = schedule.Peel, peelPerKilo
	case recipes.Shell:
		kind = schedule.Peel
	}
	kilos := part.Lifted.InexactFloat64() / 1000
	c.then(schedule.Step{Kind: kind, Crop: part.Line.Crop, Hands: 1}, max(leastPrepare, kilos*(rate+cutPerKilo)), at)
}

// runsOf lists the dish's fillings of the steamer: its own first, then those it
// shares in the order they have.
func (c *chain) runsOf() []Run {
	var own, shared []Run
	for _, part := range c.dish.Parts {
		if part.Steam == nil {
			continue
		}
		for _, id := range part.Steam.Runs {
			switch run := c.loaded.run(id); {
			case len(run.Parts) == 1:
				own = append(own, run)
			case !slices.ContainsFunc(shared, func(r Run) bool { return r.ID == id }):
				shared = append(shared, run)
			}
		}
	}
	slices.SortStableFunc(shared, func(a, b Run) int {
		return slices.IndexFunc(c.loaded.Runs, func(r Run) bool { return r.ID == a.ID }) -
			slices.IndexFunc(c.loaded.Runs, func(r Run) bool { return r.ID == b.ID })
	})
	return append(own, shared...)
}

// steam adds a filling of the steamer, or joins the one that another dish has
// added: it then waits for both.
func (c *chain) steam(run Run) {
	if id, there := c.runs[run.ID]; there {
		shared := c.step(id)
		shared.After = append(shared.After, c.last)
		shared.Rank = max(shared.Rank, c.rank)
		shared.Dishes = append(shared.Dishes, c.dish.Name())
		c.last, c.steamed = id, true
		return
	}
	longest := 0.0
	crop := c.loaded.part(run.Parts[0]).Line.Crop
	for _, at := range run.Parts {
		part := c.loaded.part(at)
		longest = max(longest, part.Steam.Longest())
		if part.Line.Crop != crop {
			crop = ""
		}
	}
	c.then(schedule.Step{Kind: schedule.Steam, Run: run.ID, Crop: crop, Ring: theRing}, loadSteamer+longest, run.Parts...)
	c.runs[run.ID], c.steamed = c.last, true
	if c.boil != "" {
		step := c.step(c.last)
		step.After = append(step.After, c.boil)
	}
}

// finish adds what follows steaming: hot dishes are finished and go straight to
// the table, warm ones are dressed, cold ones cool, chill and are dressed. The
// last of it waits for what is picked from the plot.
func (c *chain) finish() {
	straight := ""
	if c.steamed {
		straight = c.last
	}
	switch c.dish.Recipe.Served {
	case recipes.Hot:
		c.then(schedule.Step{Kind: schedule.Finish, Hands: 1, StraightFrom: straight}, finishHot)
	case recipes.Warm:
		c.then(schedule.Step{Kind: schedule.Dress, Hands: 1, StraightFrom: straight}, dressWarm)
	default:
		if tray, ok := c.cool.of(c.dish); ok {
			c.then(schedule.Step{Kind: schedule.Cool}, tray.spread.FridgeLatest)
			c.then(schedule.Step{Kind: schedule.Chill}, chillCold)
		}
		c.then(schedule.Step{Kind: schedule.Dress, Hands: 1}, dressCold)
	}
	if c.pick != "" && len(fromPlot([]Dish{c.dish})) > 0 {
		last := c.step(c.last)
		last.After = append(last.After, c.pick)
	}
}

// cooled is how long a dish takes to cool, spread on a tray and heaped in a
// bowl.
type cooled struct{ spread, heaped heat.Cooling }

// coolings are the dishes that have something steamed to cool, by name.
type coolings map[string]cooled

func (c coolings) of(dish Dish) (cooled, bool) {
	known, ok := c[dish.Name()]
	return known, ok
}

// coolAll reckons how long the slowest steamed crop of each cold dish takes to
// cool in this kitchen.
func coolAll(q Question, dishes []Dish) coolings {
	all := coolings{}
	for _, dish := range dishes {
		if dish.Recipe.Served != recipes.Cold {
			continue
		}
		if c, ok := cool(q.Kitchen, dish); ok {
			all[dish.Name()] = c
		}
	}
	return all
}

// cool is the cooling of a dish; ok is false where nothing in it is steamed, or
// no figure can be given.
func cool(k recipes.Kitchen, dish Dish) (slowest cooled, ok bool) {
	for _, part := range dish.Parts {
		if part.Steam == nil {
			continue
		}
		piece := heat.Cut{Shape: heat.Cube, SizeMM: part.largestPiece()}
		tray, err := heat.Cool(part.Piece.Crop, piece, heat.Spread{FridgeC: k.FridgeC}, k.RoomC)
		if err != nil {
			return cooled{}, false
		}
		bowl, err := heat.Cool(part.Piece.Crop, piece, heat.Spread{Bowl: true, Grams: part.Piece.Grams, FridgeC: k.FridgeC}, k.RoomC)
		if err != nil {
			return cooled{}, false
		}
		if !ok || tray.FridgeLatest >= slowest.spread.FridgeLatest {
			slowest, ok = cooled{tray, bowl}, true
		}
	}
	return slowest, ok
}

// largestPiece is the edge, in mm, of the cube that takes as long as the
// largest piece.
func (p Part) largestPiece() float64 {
	largest := 0.0
	for _, cut := range p.Cuts {
		largest = max(largest, cut.PieceMM)
	}
	return largest
}
