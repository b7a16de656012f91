package meal

import (
	"slices"
	"time"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
)

// cooled is how long a dish takes to cool, spread on a tray and heaped in a
// bowl.
type cooled struct {
	spread, heaped heat.Cooling
	chills         bool    // there is a cold place for it, and it is ready for that in time
	most           float64 // how long it may lie in the air, in minutes, where it is not chilled
}

// onTray is how long it lies on the tray: until it may go into the fridge, or,
// where it does not, until it can be dressed; never so long that there is no
// time to eat it.
func (c cooled) onTray() float64 {
	if c.chills {
		return c.spread.FridgeLatest
	}
	return max(0, min(c.spread.DressLatest, c.most))
}

// toTheTable is what is left at least of a dish's time when it leaves the tray,
// in minutes: to dress and to serve it, with other work between.
const toTheTable = 30.0

// coolings are the dishes that have something steamed to cool, and how long
// dishes may wait that are not chilled, by name.
type coolings struct {
	dishes map[string]cooled
	lasts  map[string]time.Duration
}

func (c coolings) of(dish Dish) (cooled, bool) {
	known, ok := c.dishes[dish.Name()]
	return known, ok
}

// coolAll reckons how long the slowest steamed crop of each cold dish takes to
// cool in this kitchen, and how long what is not chilled may be eaten.
func coolAll(q Question, dishes []Dish) (coolings, error) {
	all := coolings{map[string]cooled{}, map[string]time.Duration{}}
	for _, dish := range dishes {
		c, ok := cool(q.reckoned, q.Kitchen, min(hottestRoom, max(q.Kitchen.RoomC, q.AirC)), dish)
		if !isCooked(dish) {
			continue
		}
		lasts, keepBy, err := lastsUnchilled(q, dish)
		if err != nil {
			return all, err
		}
		if ok = ok && dish.Recipe.Served == recipes.Cold; ok {
			c.most = lasts.Minutes() - toTheTable
			c.chills = c.chills && c.spread.FridgeLatest+unloadSteamer+spreadOnTray <= keepBy.Minutes()
			all.dishes[dish.Name()] = c
		}
		if !ok || !c.chills {
			all.lasts[dish.Name()] = lasts
		}
	}
	return all, nil
}

func isCooked(dish Dish) bool { return slices.ContainsFunc(dish.Parts, Part.IsCooked) }

// lastsUnchilled is how long keeping lets a dish be eaten that stands in the
// air from when it leaves the heat, and by when it has to be in the fridge to be
// kept.
func lastsUnchilled(q Question, dish Dish) (eaten, kept time.Duration, err error) {
	cooked := q.On.Add(supper)
	kinds := KindsOf(dish.Recipe).Foods
	history := keeping.Batch{Food: kinds[0], Also: kinds[1:], CookedAt: cooked}
	clock, err := clockOf(q.facts(cooked), keeping.PlanDish{Name: dish.Name(), History: history})
	if err != nil || clock.LimitAt.Before(cooked) {
		return 0, 0, err
	}
	if by := clock.Deadline.Verdict.KeepBy; by.After(cooked) {
		kept = by.Sub(cooked)
	}
	return clock.LimitAt.Sub(cooked).Truncate(time.Minute), kept, nil
}

// warmestFridge is the warmest that heat reckons with, in °C.
const warmestFridge, coldestFridge = 7.5, 0.1

// coldC is what cold means at the table, in °C: nothing warmer is called so.
const coldC = 8

// hasColdPlace tells that something in the kitchen chills food to 8 °C: a fridge
// that is warmer than heat reckons with is none.
func hasColdPlace(k recipes.Kitchen) bool { return !k.NoFridge && k.FridgeC <= warmestFridge }

// hottestRoom is the hottest air that heat reckons with, in °C.
const hottestRoom = 45

// cool is the cooling of a dish; ok is false where nothing in it is steamed, or
// no figure can be given.
func cool(r *reckoned, k recipes.Kitchen, airC float64, dish Dish) (slowest cooled, ok bool) {
	fridge := min(max(k.FridgeC, coldestFridge), warmestFridge)
	for _, part := range dish.Parts {
		if !part.IsCooked() {
			continue
		}
		crop, piece, err := part.whatCools()
		if err != nil {
			return cooled{}, false
		}
		tray, err := r.cool(crop, piece, heat.Spread{FridgeC: fridge}, airC)
		if err != nil {
			return cooled{}, false
		}
		bowl, err := r.cool(crop, piece, heat.Spread{Bowl: true, Grams: part.Prepared.InexactFloat64(), FridgeC: fridge}, airC)
		if err != nil {
			return cooled{}, false
		}
		if !ok || tray.FridgeLatest >= slowest.spread.FridgeLatest {
			slowest, ok = cooled{spread: tray, heaped: bowl, chills: hasColdPlace(k)}, true
		}
	}
	return slowest, ok
}

// whatCools is the crop and its largest piece. The error tells that nothing is
// known of it.
func (p Part) whatCools() (heat.Crop, heat.Cut, error) {
	if p.Steam != nil {
		return p.Piece.Crop, heat.Cut{Shape: heat.Cube, SizeMM: p.largestPiece()}, nil
	}
	piece, err := pieceOf(p)
	return piece.Crop, piece.Sized, err
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
