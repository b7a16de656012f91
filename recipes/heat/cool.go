package heat

import (
	"fmt"
	"math"
	"trencher/units"
)

// Spread is how cooked pieces are set out to cool.
type Spread struct {
	// Bowl: heaped in a bowl. Otherwise one layer on a tray.
	Bowl bool
	// Grams in the bowl, or on the tray when DepthMM is given.
	Grams float64
	// DepthMM of the heap; 0 = as deep as wide in a bowl, one layer on a tray.
	DepthMM float64
	// FridgeC is the fridge they go to; 0 = 4 °C.
	FridgeC float64
}

// Cooling says how long cooked pieces take to cool, in minutes. Expected counts
// on a surface still drying off; Latest does not, and is the one to plan by.
type Cooling struct {
	DressC          float64 // cool enough that herbs do not wilt and dressings do not part
	DressExpected   float64
	DressLatest     float64
	FridgeC         float64 // cool enough for the fridge: hand-warm
	FridgeExpected  float64
	FridgeLatest    float64
	ChilledC        float64 // cold
	ChilledLatest   float64 // from hand-warm to cold, in the fridge
	From63To8Latest float64 // from 63 °C in the room to hand-warm, then to 8 °C in the fridge
	Deep            bool    // reckoned as one heap
	Notes           []string
}

const (
	leavesSteamerC = 98.0
	dressC         = 28.0 // 25 to 30 °C: common practice, no source
	fridgeReadyC   = 35.0 // hand-warm: common practice, no source
	chilledC       = 8.0
	hotHoldC       = 63.0 // the clock of cooling starts where holding hot ends
	kitchenMinutes = 90.0 // from there to cold, for a kitchen that sells food
	filmDry        = 11.0 // still air 5 + radiation 6, W/(m² K) (memory)
	filmMoist      = 18.0 // about a fifth of the surface still wet (judgement)
	filmFridge     = 8.0
	trayArea       = 0.75 // a piece lies on the rest
	bedDensity     = 650.0
	bedHeat        = 3715.0
	bedConducts    = 0.35 // W/(m K), pieces with air between (judgement)
	filmBedDry     = 8.0
	filmBedMoist   = 11.0
	coolLongestS   = 48 * 3600
)

// Cool says how long pieces straight from the steamer take in still air of
// roomC until they can be dressed and until they are ready for the fridge. A
// draught or a fan brings it to a third; that is not counted on.
func Cool(crop Crop, cut Cut, spread Spread, roomC float64) (Cooling, error) {
	spread.FridgeC = or(spread.FridgeC, 4)
	for _, err := range []error{
		within("room", roomC, -10, 45, "°C"),
		within("fridge", spread.FridgeC, 0.1, chilledC-0.5, "°C"),
		within("cool", spread.DepthMM, 0, 400, "mm"),
		within("load", spread.Grams, 0, 50000, "g"),
	} {
		if err != nil {
			return Cooling{}, err
		}
	}
	body, err := BodyOf(crop, cut)
	if err != nil {
		return Cooling{}, err
	}
	c := Cooling{
		DressC:   max(dressC, roomC+3),
		FridgeC:  max(fridgeReadyC, roomC+3),
		ChilledC: chilledC,
		Deep:     spread.deep(body),
	}
	props := crop.Composition.At((leavesSteamerC + roomC) / 2)
	times := c.pieceTimes(body, props)
	if c.Deep {
		if spread.Grams == 0 {
			return Cooling{}, &units.FieldError{Field: "load", Problem: "a heap needs its weight", Accepted: "the grams in the bowl"}
		}
		times = heapTimes(newHeap(spread))
	}
	c.fill(times, roomC, spread.FridgeC)
	c.note(roomC)
	return c, nil
}

// coolingTimes gives seconds from one temperature to another in an air, for
// the film it is reckoned with.
type coolingTimes struct {
	moist, dry, fridge func(from, to, air float64) float64
}

func (c *Cooling) fill(t coolingTimes, roomC, fridgeC float64) {
	c.DressExpected = t.moist(leavesSteamerC, c.DressC, roomC) / 60
	c.DressLatest = t.dry(leavesSteamerC, c.DressC, roomC) / 60
	c.FridgeExpected = t.moist(leavesSteamerC, c.FridgeC, roomC) / 60
	c.FridgeLatest = t.dry(leavesSteamerC, c.FridgeC, roomC) / 60
	c.ChilledLatest = t.fridge(c.FridgeC, chilledC, fridgeC) / 60
	c.From63To8Latest = t.dry(hotHoldC, c.FridgeC, roomC)/60 + c.ChilledLatest
}

func (c *Cooling) note(roomC float64) {
	if c.DressC > dressC {
		c.Notes = append(c.Notes, fmt.Sprintf("a room at %.0f °C never cools them to %.0f °C: spread them, and finish over cold water or in the fridge", roomC, dressC))
	}
	if c.FridgeLatest > kitchenMinutes {
		c.Notes = append(c.Notes, fmt.Sprintf("they may not be ready for the fridge within %g minutes: spread them in one layer, in a draught, or cool the dish in cold water", kitchenMinutes))
	}
	if c.From63To8Latest > kitchenMinutes {
		c.Notes = append(c.Notes, fmt.Sprintf("from %g °C to %g °C may take %s, more than the %g min a kitchen is held to: help it with moving air or cold water",
			hotHoldC, chilledC, hours(c.From63To8Latest), kitchenMinutes))
	}
}

// hours writes minutes as "2 h 19 min".
func hours(minutes float64) string {
	whole := int(math.Round(minutes))
	return fmt.Sprintf("%d h %d min", whole/60, whole%60)
}

func (c *Cooling) pieceTimes(body Body, p Properties) coolingTimes {
	with := func(film float64) func(from, to, air float64) float64 {
		return func(from, to, air float64) float64 { return coolPiece(body, p, film, from, to, air) }
	}
	return coolingTimes{moist: with(filmMoist * trayArea), dry: with(filmDry * trayArea), fridge: with(filmFridge * trayArea)}
}

// coolPiece is how long, in s, the centre of one piece takes from one
// temperature to another in air, through a film that counts for the whole of
// its area: at so low a Biot number the area is what matters.
func coolPiece(body Body, p Properties, film, from, to, air float64) float64 {
	if from <= to {
		return 0
	}
	body.Film = body.AreaMore
	b := bath{aroundC: air}
	b.begin(body, p, shells, film, 1, from)
	b.start()
	return b.until(to, coolLongestS)
}
