package heat

import (
	"math"

	"trencher/units"
)

// Medium is what cooked pieces cool in.
type Medium uint8

// What cooked pieces cool in; the zero value is the still air of a room.
const (
	RoomAir Medium = iota
	FridgeAir
	BoxAir    // of a closed box with ice packs
	ColdWater // pieces lie in it, a bowl stands in it
	IceWater
)

var mediumWords = [...]string{"air", "fridge", "box", "cold water", "ice water"}

// String is the word that scripts read: "air", "fridge", "box", "cold water" or "ice
// water".
func (m Medium) String() string { return mediumWords[m] }

// ColdPlace is a place that cools cooked pieces.
type ColdPlace struct {
	In Medium
	// CelsiusC is of the room, of the fridge, of the box while its ice lasts, or of
	// the cold water to begin with. Ice water is always at half a degree.
	CelsiusC float64
	// IceG is what a box or ice water has of ice, in g. A box cools by nothing else;
	// 0 in ice water is as much as it takes.
	IceG float64
	// WaterML is how much cold water there is; 0 = it runs, or is changed before it
	// warms.
	WaterML float64
	// RoomC is the air that a box stands in.
	RoomC float64
}

// Films and losses of cold places (judgement, within the ranges of heat transfer
// textbooks: natural convection of water on food models gives 31 to 248 W/(m² K),
// Carino-Sarabia & Velez-Ruiz (2013), J. Food Engineering 115 173, abstract).
const (
	filmStillWater = 150.0
	boxLeakWK      = 0.5 // W for each K, a closed box of 25 to 30 l (practice: 0.3 to 0.6)
)

// Chilling is a batch in a cold place. It is on the safe side: still air or water,
// a dry surface, and water and ice as warm from the beginning as the batch makes
// them in the end.
type Chilling struct {
	place  ColdPlace
	body   Body
	props  Properties
	heap   *heap   // nil for pieces in one layer
	heatJK float64 // of the whole batch; 0 where no weight is given
}

// ChillIn puts a batch of cooked pieces into a cold place: in one layer, or heaped
// as the spread says (its fridge is not used). Water and ice ask for the batch's
// weight, [Spread.Grams].
//
// [Chilling.MinutesTo] says when the centre is cold enough and [Chilling.After] how
// cold it is after some minutes. A batch that goes from one place to another begins
// in the second with what After said of the first.
func ChillIn(crop Crop, cut Cut, spread Spread, place ColdPlace) (Chilling, error) {
	for _, err := range []error{
		within("cold place", place.CelsiusC, -10, 45, "°C"),
		within("room", place.RoomC, -10, 45, "°C"),
		within("ice", place.IceG, 0, 100000, "g"),
		within("water", place.WaterML, 0, 100000, "ml"),
		within("cool", spread.DepthMM, 0, 400, "mm"),
		within("load", spread.Grams, 0, 50000, "g"),
	} {
		if err != nil {
			return Chilling{}, err
		}
	}
	body, err := BodyOf(crop, cut)
	if err != nil {
		return Chilling{}, err
	}
	c := Chilling{place: place, body: body, props: crop.Composition.At((leavesSteamerC + place.CelsiusC) / 2)}
	c.heatJK = spread.Grams / 1e3 * c.props.HeatCapacity
	deep := spread.deep(body)
	if spread.Grams == 0 && (deep || c.limited()) {
		return Chilling{}, units.WrongField("load", "", "a heap, ice or so much water needs the weight that it is for", "the grams")
	}
	if deep {
		h := newHeap(spread)
		if place.In == ColdWater || place.In == IceWater {
			h.halfM *= 2 // through the bowl's floor and wall only
		}
		c.heap = &h
	}
	return c, nil
}

// deep says whether pieces lie in a heap, not in one layer.
func (s Spread) deep(body Body) bool {
	layerMM := body.VolumeM3 / body.FootprintM2 * 1e3
	return s.Bowl || s.DepthMM > 1.5*layerMM
}

// limited says whether the place takes up only so much heat.
func (c Chilling) limited() bool {
	switch c.place.In {
	case BoxAir:
		return true
	case ColdWater:
		return c.place.WaterML > 0
	case IceWater:
		return c.place.IceG > 0
	}
	return false
}

// around is how warm the place is for a batch of that temperature.
func (c Chilling) around(fromC float64) float64 {
	p := c.place
	switch {
	case p.In == IceWater && p.IceG == 0:
		return iceC
	case p.In == IceWater:
		return max(iceC, c.mixed(fromC, iceC, p.WaterML+p.IceG, p.IceG*iceMeltsJkg/1e3))
	case p.In == ColdWater && p.WaterML > 0:
		return c.mixed(fromC, p.CelsiusC, p.WaterML, 0)
	}
	return p.CelsiusC
}

// mixed is how warm a batch and so much water, in g, become together, when some
// joules besides go into melting.
func (c Chilling) mixed(fromC, waterC, waterG, meltingJ float64) float64 {
	waterJK := waterG / 1e3 * waterHeat
	return (c.heatJK*fromC + waterJK*waterC - meltingJ) / (c.heatJK + waterJK)
}

// iceLeavesC is the coldest that a box's ice can have brought a batch to after some
// minutes: what the ice takes up in melting and warming to the box's air, less what
// leaks in. Ice is reckoned at 0 °C. -Inf where no ice is asked for.
func (c Chilling) iceLeavesC(fromC, minutes float64) float64 {
	if c.place.In != BoxAir {
		return math.Inf(-1)
	}
	holds := max(0, c.place.CelsiusC)
	ice := c.place.IceG / 1e3 * (iceMeltsJkg + waterHeat*holds)
	leak := boxLeakWK * max(0, c.place.RoomC-holds) * minutes * 60
	return min(fromC-(ice-leak)/c.heatJK, max(fromC, c.place.RoomC))
}

// MinutesTo is how long the centre takes from one temperature to another, in °C; ok
// is false where the place never brings it there, or not within two days.
func (c Chilling) MinutesTo(fromC, toC float64) (minutes float64, ok bool) {
	if fromC <= toC {
		return 0, true
	}
	around := c.around(fromC)
	if toC <= around {
		return 0, false
	}
	if c.heap != nil {
		minutes = heapCools(c.heap.centre(c.heapFilm()), fromC, toC, around) / 60
	} else {
		b := c.bath(fromC, around)
		minutes = b.until(toC, coolLongestS) / 60
	}
	return minutes, minutes*60 < coolLongestS && c.iceLeavesC(fromC, minutes) <= toC
}

// bath is a single piece in the place.
func (c Chilling) bath(fromC, around float64) *bath {
	body, film := c.body, filmStillWater
	if c.place.In != ColdWater && c.place.In != IceWater {
		body.Film, film = body.AreaMore, c.airFilm()*trayArea // at so low a Biot number the area is what matters
	}
	return newBath(body, c.props, film, fromC, around)
}

// airFilm is that of a dry surface.
func (c Chilling) airFilm() float64 {
	if c.place.In == RoomAir {
		return filmDry
	}
	return filmFridge
}

func (c Chilling) heapFilm() float64 {
	if c.place.In == ColdWater || c.place.In == IceWater {
		return filmStillWater
	}
	return filmBedDry
}

// seconds is MinutesTo for a place that does not tire; what never gets there takes two
// days.
func (c Chilling) seconds(fromC, toC, _ float64) float64 {
	minutes, ok := c.MinutesTo(fromC, toC)
	if !ok {
		return coolLongestS
	}
	return minutes * 60
}

// iceFor is the ice in g, at 0 °C, that takes up a batch's heat between two
// temperatures and ends as water of the second.
func (c Chilling) iceFor(fromC, toC float64) float64 {
	return c.heatJK * (fromC - toC) / (iceMeltsJkg + waterHeat*toC) * 1e3
}
