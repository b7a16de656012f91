package ask

import (
	"context"
	"fmt"

	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/units"
)

// SteamQuestion asks how long pieces take in steam, and what goes with it. The
// texts are as typed; "" = not given.
type SteamQuestion struct {
	PlotRef
	heat.Words
	Found, At string // a knife test: "9 min just-tender"
}

// SteamAnswer is how long, and whatever else was asked.
type SteamAnswer struct {
	heat.Answer
	Found    *WrittenTest // the knife test that was written down; nil without one
	Assumed  []string     // what stands in for a kitchen
	Warnings []string
}

// Steaming answers a steaming question. With Found it first writes the knife test
// to the plot's journal, and answers by it.
func Steaming(ctx context.Context, q SteamQuestion) (SteamAnswer, error) {
	a, err := q.answer(ctx)
	return a, q.AsTyped(err, q.Found)
}

func (q SteamQuestion) answer(ctx context.Context) (SteamAnswer, error) {
	kitchen, err := openSteamKitchen(q.PlotRef)
	if err != nil {
		return SteamAnswer{}, err
	}
	question, assumed, err := q.Read(kitchen.question, kitchen.system, kitchen.fridgeC)
	if err != nil {
		return SteamAnswer{}, err
	}
	a := SteamAnswer{Assumed: append(kitchen.assumed, assumed...)}
	if q.Found != "" {
		if a.Found, err = kitchen.writeTest(q, question); err != nil {
			return SteamAnswer{}, err
		}
	}
	if question.Conditions.Learned, a.Warnings, err = kitchen.learned(ctx, question.Crop); err != nil {
		return SteamAnswer{}, err
	}
	if a.Answer, err = question.Answer(); err != nil {
		return SteamAnswer{}, err
	}
	if why, must := recipes.MustBoil(question.Crop.Name); must {
		a.Cautions = append([]string{fmt.Sprintf("Steam alone does not make %s safe: boil them in water for %d min (%s).", question.Crop.Name, int(why.Boil.Minutes()), why.Rule)}, a.Cautions...)
	}
	return a, nil
}

// steamKitchen is where a steaming question is asked: the plot's kitchen, or
// what stands in for one.
type steamKitchen struct {
	where    PlotRef
	folder   *journal.Folder // nil without a plot
	system   units.System
	question heat.Question // the equipment, what it makes of steam, and the room
	fridgeC  float64       // 0 = as usual
	assumed  []string
}

// openSteamKitchen takes the steamer, the stove and the altitude from the plot;
// with no plot named and none here, the defaults stand in.
func openSteamKitchen(w PlotRef) (steamKitchen, error) {
	folder, kitchen, err := openKitchen(w)
	if err != nil {
		return steamKitchen{}, err
	}
	if folder == nil {
		return steamKitchen{where: w, system: units.Metric, question: heat.Question{RoomC: kitchen.RoomC},
			assumed: []string{"no kitchen: a 240 mm steamer of two tiers, 700 W into steam, sea level, a room at 20 °C"}}, nil
	}
	k := steamKitchen{where: w, folder: folder, system: kitchen.Measures, fridgeC: kitchen.FridgeC}
	for _, text := range kitchen.Assumed {
		k.assumed = append(k.assumed, "assumed: "+text)
	}
	k.question = heat.Question{Equipment: kitchen.Equipment(), RoomC: kitchen.RoomC}
	k.question.Conditions.AltitudeM = kitchen.AltitudeM
	k.question.NoFridge = kitchen.NoFridge
	if box := kitchen.ColdBox; box.There {
		k.question.Box = heat.ColdPlace{In: heat.BoxAir, CelsiusC: box.HoldsC, IceG: box.IceG, RoomC: kitchen.RoomC}
	}
	if k.question.Conditions, err = k.question.Equipment.In(k.question.Conditions); err != nil {
		return k, fmt.Errorf("%s: %w", kitchen.File, err)
	}
	return k, nil
}
