package ask

import (
	"fmt"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
)

// BoilQuestion asks how pieces boil, or are blanched, in the words typed.
type BoilQuestion struct {
	PlotRef
	heat.PotWords
}

// PotSays is what stands beside an answer about a pot.
type PotSays struct{ Cautions, Assumed []string }

// BoilAnswer is how long they boil.
type BoilAnswer struct {
	heat.Boiled
	PotSays
}

// BlanchAnswer is how they are blanched.
type BlanchAnswer struct {
	heat.Blanched
	PotSays
	Freezing keeping.Section // what holds once they are in the freezer
}

// Boiling answers how long pieces boil.
func Boiling(q BoilQuestion) (a BoilAnswer, err error) {
	question, err := q.read(&a.PotSays, "Boil %s for at least %d min, whatever the knife says: less does not make them safe (%s).")
	if err == nil {
		a.Boiled, err = question.Boil()
	}
	return a, q.AsTyped(err)
}

// Blanching answers how pieces are blanched for the freezer.
func Blanching(q BoilQuestion) (a BlanchAnswer, err error) {
	question, err := q.read(&a.PotSays, "Blanched %s are not cooked: boil them for at least %d min before they are eaten (%s).")
	if err == nil {
		a.Freezing = keeping.Freezing()
		a.Blanched, err = question.Blanch()
	}
	return a, q.AsTyped(err)
}

// read reads the words in the plot's kitchen; strict is the caution for a crop that
// must be boiled.
func (q BoilQuestion) read(says *PotSays, strict string) (question heat.PotQuestion, err error) {
	kitchen, err := openSteamKitchen(q.PlotRef)
	if err != nil {
		return question, err
	}
	if question, says.Assumed, err = q.ReadPot(kitchen.question, kitchen.system); err != nil {
		return question, err
	}
	if kitchen.folder == nil {
		kitchen.assumed = []string{"no kitchen: a lidded pot of 3 l, 900 W into the water, sea level"}
	}
	says.Assumed = append(kitchen.assumed, says.Assumed...)
	if why, must := recipes.MustBoil(question.Crop.Name); must {
		says.Cautions = append(says.Cautions, fmt.Sprintf(strict, question.Crop.Name, int(why.Boil.Minutes()), why.Rule))
	}
	says.Cautions = append(says.Cautions, heat.PotCautions(question.Equipment)...)
	return question, nil
}
