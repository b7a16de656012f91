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
	// In is what cools them first: the room's air, cold water that runs or is changed
	// before it warms, or ice water with as much ice as it takes.
	In Medium
	// FridgeC is the fridge they go to; 0 = 4 °C.
	FridgeC float64
	// NoFridge is a kitchen without one. Box is then where they go, if it has ice.
	NoFridge bool
	Box      ColdPlace
}

// TapC is how warm cold water is taken to be, in °C: extension services ask for
// 16 °C or colder to cool blanched vegetables (known_by: read).
const TapC = 15.0

// Cooling says how long cooked pieces take to cool, in minutes. Expected counts
// on a surface still drying off; Latest does not, and is the one to plan by.
type Cooling struct {
	DressC          float64 // cool enough that herbs do not wilt and dressings do not part
	DressExpected   float64
	DressLatest     float64
	FridgeC         float64 // cool enough for the fridge: hand-warm
	FridgeExpected  float64
	FridgeLatest    float64
	In              Medium  // what cooled them so far
	Then            Medium  // where they get cold: the fridge, the box, the ice water; RoomAir where nothing here does that
	ChilledC        float64 // cold
	ChilledLatest   float64 // from hand-warm to cold, there; 0 where nothing here does that
	From63To8Latest float64 // from 63 °C to hand-warm, then to cold there; 0 where nothing here does that
	IceG            float64 // that ice water takes for them, until they are cold; 0 without
	Deep            bool    // reckoned as one heap
	Notes           []string
}

const (
	leavesSteamerC = 98.0
	dressC         = 28.0 // 25 to 30 °C: common practice, no source
	fridgeReadyC   = 35.0 // hand-warm: common practice, no source
	chilledC       = 8.0
	warmestFridgeC = 12.0
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
		within("fridge", spread.FridgeC, 0.1, warmestFridgeC, "°C"),
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
		In:       spread.In,
		Deep:     spread.deep(body),
	}
	if spread.In != RoomAir {
		c.DressC, c.FridgeC = dressC, fridgeReadyC
	}
	props := crop.Composition.At((leavesSteamerC + roomC) / 2)
	times := c.pieceTimes(body, props)
	if c.Deep {
		if spread.Grams == 0 {
			return Cooling{}, &units.FieldError{Field: "load", Problem: "a heap needs its weight", Accepted: "the grams in the bowl"}
		}
		times = heapTimes(newHeap(spread))
	}
	if spread.In != RoomAir {
		wet, err := ChillIn(crop, cut, spread, ColdPlace{In: spread.In, CelsiusC: TapC})
		if err != nil {
			return Cooling{}, err
		}
		times.moist, times.dry = wet.seconds, wet.seconds
		if spread.In == IceWater {
			c.IceG = wet.iceFor(leavesSteamerC, chilledC)
		}
	}
	if err := c.fill(times, roomC, crop, cut, spread); err != nil {
		return Cooling{}, err
	}
	c.note(roomC)
	return c, nil
}

// coolingTimes gives seconds from one temperature to another in an air, for
// the film it is reckoned with.
type coolingTimes struct {
	moist, dry, fridge func(from, to, air float64) float64
}

func (c *Cooling) fill(t coolingTimes, roomC float64, crop Crop, cut Cut, spread Spread) error {
	c.DressExpected = t.moist(leavesSteamerC, c.DressC, roomC) / 60
	c.DressLatest = t.dry(leavesSteamerC, c.DressC, roomC) / 60
	c.FridgeExpected = t.moist(leavesSteamerC, c.FridgeC, roomC) / 60
	c.FridgeLatest = t.dry(leavesSteamerC, c.FridgeC, roomC) / 60
	switch {
	case spread.In == IceWater: // they stay in it
		c.Then, c.ChilledLatest = IceWater, (t.dry(leavesSteamerC, chilledC, roomC)-t.dry(leavesSteamerC, c.FridgeC, roomC))/60
	case !spread.NoFridge && spread.FridgeC < chilledC:
		c.Then, c.ChilledLatest = FridgeAir, t.fridge(c.FridgeC, chilledC, spread.FridgeC)/60
	case spread.Box.In == BoxAir:
		box := spread
		box.Grams = or(box.Grams, DefaultLoadGrams)
		there, err := ChillIn(crop, cut, box, spread.Box)
		if err != nil {
			return err
		}
		if minutes, ok := there.MinutesTo(c.FridgeC, chilledC); ok {
			c.Then, c.ChilledLatest = BoxAir, minutes
		}
	}
	switch c.Then {
	case RoomAir:
	case IceWater:
		c.From63To8Latest = t.dry(hotHoldC, chilledC, roomC) / 60
	default:
		c.From63To8Latest = t.dry(hotHoldC, c.FridgeC, roomC)/60 + c.ChilledLatest
	}
	return nil
}

func (c *Cooling) note(roomC float64) {
	if c.DressC > dressC {
		c.Notes = append(c.Notes, fmt.Sprintf("a room at %.0f °C never cools them to %.0f °C: spread them, and finish over cold water or in the fridge", roomC, dressC))
	}
	if c.FridgeLatest > kitchenMinutes {
		c.Notes = append(c.Notes, fmt.Sprintf("they may not be ready for the fridge within %g minutes: spread them in one layer, in a draught, or cool the dish in cold water", kitchenMinutes))
	}
	if c.Then == RoomAir {
		c.Notes = append(c.Notes, fmt.Sprintf("nothing here brings them to %g °C, no fridge and no box with ice enough: eat them in the time that keep gives", chilledC))
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
		var b *bath // of the last question: the next is often when it is colder
		return func(from, to, air float64) float64 {
			if from <= to {
				return 0
			}
			if b == nil || b.knots[0].centre != from || b.aroundC != air {
				b = airBath(body, p, film, from, air)
			}
			return b.until(to, coolLongestS)
		}
	}
	return coolingTimes{moist: with(filmMoist * trayArea), dry: with(filmDry * trayArea), fridge: with(filmFridge * trayArea)}
}

// airBath is a piece in air, behind a film that counts for the whole of its area: at
// so low a Biot number the area is what matters.
func airBath(body Body, p Properties, film, fromC, airC float64) *bath {
	body.Film = body.AreaMore
	return newBath(body, p, film, fromC, airC)
}
