package meal

import (
	"fmt"

	"trencher/recipes"
	"trencher/recipes/schedule"
)

// cookOwn adds the cooking of a part that does not go into the steamer: in
// boiling water, which is brought to the boil first, or the grower's own way, by
// the minutes of the dish file. Off the heat it goes the way of what is steamed.
func (w *work) cookOwn(at PartAt) {
	if w.loaded.part(at).Pot != nil {
		w.cookInPot(at)
		return
	}
	line := w.loaded.part(at).Line
	if !w.loaded.part(at).IsCookedOwn() {
		w.ready[at.Dish] = append(w.ready[at.Dish], w.prepared[at])
		return
	}
	step := schedule.Step{Kind: schedule.Own, Crop: line.Crop, Dishes: w.dishesOf([]PartAt{at}), After: []string{w.prepared[at]}}
	useThe(line.Uses, &step)
	heats := heatsOf(at)
	key := heats
	if line.IsInWater() {
		boil := step
		boil.Kind, boil.After = schedule.Boil, nil
		step.Kind, step.AtOnce = schedule.BoilIn, w.heat(key, boil, w.pan.potToBoil(w.loaded.part(at).Prepared.InexactFloat64()), at)
		key = ""
	}
	id := w.heat(key, step, float64(line.Minutes), at)
	w.heats[id] = heats
	w.lags = append(w.lags, w.lagsOf(at, id)...)
	w.coolAfter(id, []PartAt{at})
}

// heatsOf is what the cooking of a part is called among what heats.
func heatsOf(at PartAt) string { return fmt.Sprint(at) }

// useThe tells a step what it keeps busy.
func useThe(uses string, step *schedule.Step) {
	ring, place := recipes.PlaceOf(uses)
	if ring {
		step.Ring = theRing
	}
	step.Place = place
}

// The water to boil a crop in, by its weight, and the least (common practice, no
// source).
const (
	potPerGram = 1.5
	potLeastML = 750.0
)

// potML is the water to boil so many grams in.
func potML(grams float64) float64 { return max(potLeastML, potPerGram*grams) }
