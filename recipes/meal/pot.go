package meal

import (
	"errors"
	"math"
	"time"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/schedule"
)

// Pot is the cooking of one part in boiling water, as heat reckons it for the
// kitchen's pot and stove. Minutes, Low and High count from when the water boils
// again, or from loading where the pieces are done before; BackToBoil is the time
// from loading until then, zero in the second case.
type Pot struct {
	Estimate           heat.Estimate // of what is boiled; zero of what is blanched
	Blanched           *heat.Blanched
	Minutes, Low, High float64
	BackToBoil         float64
	ToBoil             float64 // minutes, from cold water
	WaterML            float64
	Rounds             int // fillings of the pot, one after the other
	GramsPerRound      float64
	AtLeast            time.Duration // that such a crop has to boil, whatever the knife says
	IceG               float64       // of what is blanched for a cold dish
	IceMinutes         float64       // that it lies in ice water
}

// Longest is the most minutes that a filling keeps the pot, from loading.
func (p Pot) Longest() float64 { return p.BackToBoil + p.High }

// FromLoading is the time that a filling usually takes, from loading, in minutes.
func (p Pot) FromLoading() float64 { return p.BackToBoil + p.Minutes }

// boil reckons a part that is cooked in boiling water. A crop without figures is
// left to the minutes of its dish file.
func (k *kitchen) boil(part *Part, served recipes.Served) error {
	if !part.Line.IsInWater() {
		return nil
	}
	piece, err := pieceOf(*part)
	if errors.Is(err, heat.ErrNoFigures) {
		return nil
	}
	if err != nil {
		return err
	}
	part.Piece = piece
	if part.Line.Cook == "blanch" {
		part.Pot, err = k.blanched(piece, served == recipes.Cold)
		return err
	}
	b, err := k.boilPlan(piece)
	if err != nil {
		return err
	}
	pot := &Pot{Estimate: b.Estimate, ToBoil: b.ToBoil, WaterML: b.WaterML, Rounds: b.Rounds, GramsPerRound: b.GramsPerRound}
	pot.Minutes, pot.Low, pot.High = b.Estimate.Clock()
	if b.Estimate.FreeFirst {
		pot.BackToBoil = b.Estimate.ComeUp
	}
	if why, must := recipes.MustBoil(part.Line.Crop); must {
		pot.AtLeast = why.Boil
		pot.Minutes, pot.Low, pot.High = max(pot.Minutes, why.Boil.Minutes()), max(pot.Low, why.Boil.Minutes()), max(pot.High, why.Boil.Minutes())
	}
	part.Pot = pot
	return nil
}

// blanched is the blanching of a piece, for a cold dish with its ice water.
func (k *kitchen) blanched(piece Piece, iced bool) (*Pot, error) {
	b, err := k.blanch(piece)
	if err != nil {
		return nil, err
	}
	pot := &Pot{Blanched: &b, Minutes: b.Minutes, Low: b.Minutes, High: b.Minutes, BackToBoil: b.BackToBoil,
		ToBoil: b.ToBoil, WaterML: b.WaterML, Rounds: b.Rounds, GramsPerRound: b.GramsPerRound}
	if iced {
		pot.IceG = b.IceG
		pot.IceMinutes, err = iceMinutes(piece, b.CoolMinutes)
	}
	return pot, err
}

// iceMinutes is how long pieces straight from the pot lie in ice water until they
// are cold in the middle.
func iceMinutes(piece Piece, stirred float64) (float64, error) {
	ice, err := heat.ChillIn(piece.Crop, piece.Sized, heat.Spread{}, heat.ColdPlace{In: heat.IceWater})
	if err != nil {
		return 0, err
	}
	still, _ := ice.MinutesTo(straightFromThePot, coldC)
	return max(stirred, still), nil
}

// straightFromThePot is how warm pieces are when they leave it, in °C.
const straightFromThePot = 98.0

// cookInPot adds the cooking of a part in boiling water: the water boils, each
// filling goes in, is tested and lifted out, the next one follows at once.
func (w *work) cookInPot(at PartAt) {
	part := w.loaded.part(at)
	pot, heats := part.Pot, heatsOf(at)
	of := func(kind schedule.Kind) schedule.Step {
		return schedule.Step{Kind: kind, Crop: part.Line.Crop, Dishes: w.dishesOf([]PartAt{at})}
	}
	boil := of(schedule.Boil)
	boil.Ring = theRing
	last, first := w.heat(heats, boil, pot.ToBoil, at), ""
	for round := range pot.Rounds {
		in := of(schedule.BoilIn)
		in.Ring, in.AtOnce = theRing, last
		if round == 0 {
			in.After = []string{w.prepared[at]}
		}
		id := w.add(in, pot.Longest(), at)
		w.heats[id] = heats
		if from := math.Floor(pot.BackToBoil + pot.Low); pot.Low < pot.High {
			test := of(schedule.Test)
			test.Hands, test.Beside, test.Offset = 1, id, time.Duration(from)*time.Minute
			w.add(test, 1, at)
		}
		w.lags = append(w.lags, w.lagsOf(at, id)...)
		out := of(schedule.LiftOut)
		out.Hands, out.AtOnce = 1, id
		last = w.add(out, unloadSteamer, at)
		if round == 0 {
			first = last
		}
		if pot.IceMinutes == 0 {
			w.coolAfter(last, []PartAt{at})
		}
	}
	if pot.IceMinutes > 0 {
		w.ice(first, at)
	}
}

// ice adds the ice water of a part that is blanched for a cold dish, from when the
// first filling is lifted out until the last is cold, and the fridge where there is
// one for the dish.
func (w *work) ice(id string, at PartAt) {
	part, dish := w.loaded.part(at), w.loaded.Dishes[at.Dish]
	name := []string{dish.Name()}
	each := math.Ceil(part.Pot.Longest()-1e-9) + unloadSteamer
	takes := part.Pot.IceMinutes + float64(part.Pot.Rounds-1)*each
	cold := w.add(schedule.Step{Kind: schedule.Cool, AtOnce: id, Dishes: name, Crop: part.Line.Crop}, takes, at)
	if place, ok := w.cool.of(dish); ok && place.chill > 0 {
		cold = w.add(schedule.Step{Kind: schedule.Chill, AtOnce: cold, Dishes: name, Crop: part.Line.Crop}, leastChill, at)
	}
	w.ready[at.Dish] = append(w.ready[at.Dish], cold)
}
