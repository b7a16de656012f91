package meal

import (
	"math"
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
	chill          float64 // how long it lies in the fridge, in minutes, at the least; 0: it does not go there
	cold           bool    // after which it is cold
	judged         bool    // keeping was asked about the fridge
	believed       bool    // it takes the fridge for one: what is in it is not out
	most           float64 // how long it may lie in the air, in minutes, where it does not go into the fridge
}

// onTray is how long it lies on the tray: until it may go into the fridge, or,
// where it does not, until it can be dressed; never so long that there is no
// time to eat it.
func (c cooled) onTray() float64 {
	if c.chill > 0 {
		return c.spread.FridgeLatest
	}
	return max(0, min(c.spread.DressLatest, c.most))
}

// toTheTable is what is left at least of a dish's time when it leaves tray or
// fridge, in minutes: to dress and to serve it, with other work between.
const toTheTable = 30.0

// leastChill is the least time in the fridge that is worth the way, in minutes.
const leastChill = 10.0

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

// coolAll reckons how long the slowest cooked crop of each cold dish takes to
// cool in this kitchen, and how long what the fridge does not keep may be eaten.
func coolAll(q Question, dishes []Dish) (coolings, error) {
	all := coolings{map[string]cooled{}, map[string]time.Duration{}}
	for _, dish := range dishes {
		if !isCooked(dish) {
			continue
		}
		lasts, keepBy, err := lastsUnchilled(q, dish)
		if err != nil {
			return all, err
		}
		c, ok := cool(q.reckoned, q.Kitchen, min(hottestRoom, max(q.Kitchen.RoomC, q.AirC)), dish)
		if ok && dish.Recipe.Served == recipes.Cold {
			if lasts, err = q.coolIn(&c, dish, lasts, keepBy); err != nil {
				return all, err
			}
			all.dishes[dish.Name()] = c
		}
		if c.chill == 0 || !c.believed {
			all.lasts[dish.Name()] = lasts
		}
	}
	return all, nil
}

// coolIn settles whether a cold dish goes into the fridge, which it does where it can
// be there in time to be kept, and tells how long it may be eaten.
func (q Question) coolIn(c *cooled, dish Dish, lasts, keepBy time.Duration) (time.Duration, error) {
	c.most = lasts.Minutes() - toTheTable
	onTime := c.spread.FridgeLatest+unloadSteamer+spreadOnTray <= keepBy.Minutes()
	if !onTime || q.Kitchen.NoFridge {
		return lasts, nil
	}
	inFridge, err := q.chill(c, dish)
	if err != nil || c.chill == 0 {
		return lasts, err
	}
	return inFridge, nil
}

// chill settles how long a dish lies in the fridge, and tells how long after it
// left the heat it may be eaten. In a fridge that keeping believes in that is
// until it is cold; in a warmer one, where the time runs on, no longer than
// leaves enough of it.
func (q Question) chill(c *cooled, dish Dish) (lasts time.Duration, err error) {
	in := unloadSteamer + spreadOnTray + c.spread.FridgeLatest
	soonest := in + c.spread.ChilledLatest + dressCold + toTable
	until, err := q.lastsChilled(dish, in, soonest)
	if err != nil {
		return 0, err
	}
	later, err := q.lastsChilled(dish, in, soonest+anHour)
	if err != nil {
		return 0, err
	}
	c.judged, c.believed = true, later > until
	c.chill = c.spread.ChilledLatest
	if !c.believed {
		c.chill = min(c.chill, math.Floor(until.Minutes()-in-toTheTable))
	}
	if c.chill < leastChill {
		c.chill = 0
	}
	c.cold = c.chill >= c.spread.ChilledLatest && q.Kitchen.FridgeC <= warmestFridge
	return until, nil
}

// anHour is by how much later a dish comes to the table when it is asked whether
// its time stands still in the fridge.
const anHour = 60.0

func isCooked(dish Dish) bool { return slices.ContainsFunc(dish.Parts, Part.IsCooked) }

// lastsUnchilled is how long keeping lets a dish be eaten that stands in the
// air from when it leaves the heat, and by when it has to be in the fridge to be
// kept.
func lastsUnchilled(q Question, dish Dish) (eaten, kept time.Duration, err error) {
	cooked := q.On.Add(supper)
	foods := dish.Makeup.Kinds.Foods
	history := keeping.Batch{Food: foods[0], Also: foods[1:], CookedAt: cooked, Vulnerable: q.feedsWeak(dish)}
	clock, err := clockOf(q.facts(cooked), keeping.PlanDish{Name: dish.Name(), History: history})
	if err != nil || clock.LimitAt.Before(cooked) {
		return 0, 0, err
	}
	if by := clock.Deadline.Verdict.KeepBy; by.After(cooked) {
		kept = by.Sub(cooked)
	}
	return clock.LimitAt.Sub(cooked).Truncate(time.Minute), kept, nil
}

// lastsChilled is how long after it left the heat keeping lets a dish be eaten
// that goes into the kitchen's fridge after so many minutes and comes to the
// table after so many.
func (q Question) lastsChilled(dish Dish, in, table float64) (time.Duration, error) {
	cooked := q.On.Add(supper)
	foods := dish.Makeup.Kinds.Foods
	history := keeping.Batch{Food: foods[0], Also: foods[1:], CookedAt: cooked, ChilledAt: cooked.Add(wholeMinutes(in)),
		Vulnerable: q.feedsWeak(dish)}
	clock, err := clockOf(q.facts(cooked.Add(wholeMinutes(table))), keeping.PlanDish{Name: dish.Name(), History: history})
	if err != nil || clock.LimitAt.Before(cooked) {
		return 0, err
	}
	return clock.LimitAt.Sub(cooked).Truncate(time.Minute), nil
}

// The warmest and the coldest fridge that heat reckons with, in °C. A warmer one
// makes nothing cold: there food lies as long as a usual fridge would need.
const (
	warmestFridge = 7.5
	coldestFridge = 0.1
	usualFridge   = 4.0
)

// fridgeFor is the fridge that heat is asked about.
func fridgeFor(k recipes.Kitchen) float64 {
	if k.FridgeC > warmestFridge {
		return usualFridge
	}
	return max(k.FridgeC, coldestFridge)
}

// coldC is what cold means at the table, in °C: nothing warmer is called so.
const coldC = 8

// hottestRoom is the hottest air that heat reckons with, in °C.
const hottestRoom = 45

// cool is the cooling of a dish; ok is false where nothing in it is steamed, or
// no figure can be given.
func cool(r *reckoned, k recipes.Kitchen, airC float64, dish Dish) (slowest cooled, ok bool) {
	iced := 0.0
	for _, part := range dish.Parts {
		if !part.IsCooked() {
			continue
		}
		if part.Pot != nil && part.Pot.IceMinutes > 0 {
			iced = max(iced, part.Pot.IceMinutes)
			continue
		}
		one, err := r.coolPart(part, fridgeFor(k), airC)
		if err != nil {
			return cooled{}, false
		}
		if !ok || one.spread.FridgeLatest >= slowest.spread.FridgeLatest {
			slowest, ok = one, true
		}
	}
	if !ok && iced > 0 { // nothing lies on a tray
		slowest, ok = cooled{spread: heat.Cooling{DressLatest: iced, FridgeLatest: iced, ChilledLatest: leastChill}}, true
	}
	return slowest, ok
}

// coolPart is the cooling of a part, on a tray and in a bowl. The error tells that
// heat has no figures for it.
func (r *reckoned) coolPart(part Part, fridgeC, airC float64) (one cooled, err error) {
	crop, piece, err := part.whatCools()
	if err != nil {
		return one, err
	}
	if one.spread, err = r.cool(crop, piece, heat.Spread{FridgeC: fridgeC}, airC); err != nil {
		return one, err
	}
	one.heaped, err = r.cool(crop, piece, heat.Spread{Bowl: true, Grams: part.Prepared.InexactFloat64(), FridgeC: fridgeC}, airC)
	return one, err
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
