package recipes

import (
	"math"
	"strings"

	"trencher/units"
	"trencher/units/strict"
)

// ownSteps reads a dish's own steps: what is done, how long it takes, whether on
// a ring, and that it comes before the dish is finished.
func ownSteps(m strict.Map) []OwnStep {
	var steps []OwnStep
	for _, n := range m.At("steps").List() {
		keys := n.Map("do", "takes", "uses", "before")
		words := strings.Fields(keys.Require("do").Text())
		step := OwnStep{Do: strings.Join(words, " ")}
		if len(words) > 0 {
			step.Work = ownWork[strings.ToLower(words[0])]
		}
		step.Minutes = mostMinutes(keys.Require("takes"))
		if keys.Has("uses") {
			step.Uses = keys.At("uses").Choice(keepsBusy...)
		}
		if keys.Has("before") {
			keys.At("before").Choice("finish")
		}
		steps = append(steps, step)
	}
	return steps
}

// ownMinutes reads how long a crop takes that is not steamed, and what it keeps
// busy meanwhile: a ring for boiling and blanching, else what the file says.
func ownMinutes(m strict.Map, c *CropLine) {
	if c.Cook == "" { // a word that is not known, and told: whether it takes minutes is not
		return
	}
	if c.IsSteamed() || c.IsRaw() {
		for _, key := range []string{"takes", "uses"} {
			if m.Has(key) {
				m.At(key).Fail("not with `cook: "+c.Cook+"`", "it with boil, blanch or own, or leave it out")
			}
		}
		return
	}
	if m.Has("takes") || !c.IsInWater() { // in water heat reckons the minutes where it has figures
		c.Minutes = mostMinutes(m.Require("takes"))
	}
	c.Uses = usesNothing
	if c.IsInWater() {
		c.Uses = onRing
	}
	if m.Has("uses") {
		c.Uses = m.At("uses").Choice(keepsBusy...)
	}
}

// keepsBusy is what a way of cooking can keep busy; "nothing" stands for it.
var keepsBusy = []string{onRing, "oven", "grill", "embers", usesNothing}

const onRing, usesNothing = "ring", "nothing"

// PlaceOf splits what is used into a ring of the stove, of which there may be
// several, and a place of which there is one; "" where none is.
func PlaceOf(uses string) (ring bool, place string) {
	switch uses {
	case onRing:
		return true, ""
	case "", usesNothing:
		return false, ""
	}
	return false, uses
}

// ownWork says what a step does by the word it begins with.
var ownWork = map[string]OwnWork{"warm": WarmsUp, "melt": Melts}

// mostMinutes reads a time, of a range the longer end, in whole minutes.
func mostMinutes(n strict.Node) int {
	const accepted = "minutes, as 5 min or 35-40 min, up to 12 h"
	q := n.Quantity(units.Metric, units.Time)
	if !q.IsValid() {
		return 0
	}
	longest, err := q.High().Float64(units.Minute)
	if err == nil && longest > 0 && longest <= mostOwnMinutes {
		return int(math.Ceil(longest))
	}
	n.Fail("no time that a step takes", accepted)
	return 0
}

// mostOwnMinutes is more than any step of a meal takes.
const mostOwnMinutes = 720
