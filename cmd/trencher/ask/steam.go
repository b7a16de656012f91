package ask

import (
	"context"
	"fmt"

	"trencher/harvest/journal"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/units"
	"trencher/units/strict"
)

// SteamQuestion asks how long pieces take in steam, and what goes with it. The
// texts are as typed; "" = not given.
type SteamQuestion struct {
	PlotRef
	Crop, Kind, Cut, Until string
	Start, Altitude        string
	Load                   string
	Heaped                 bool
	Sizes                  string   // a table by size: "15..60"
	UsualSizes             bool     // or by the sizes that the crop and cut are worth a table at
	Lots                   []string // sizes to cut for one time: "20-45 mm", "820 g 9 pieces"
	Tuber                  string   // what the cut is made from: "40 mm"
	Cool                   string   // "tray", "bowl" or "bowl 60 mm"
	Room                   string
	Found, At              string // a knife test: "9 min just-tender"
	Curve                  bool   // follow the temperatures, for a chart
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
	return a, q.asTyped(err)
}

func (q SteamQuestion) answer(ctx context.Context) (SteamAnswer, error) {
	kitchen, err := openSteamKitchen(q.PlotRef)
	if err != nil {
		return SteamAnswer{}, err
	}
	question, assumed, err := q.read(kitchen)
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
	return a, nil
}

// asTyped has the error of a field show what was typed into it, where the
// domain shows the value it was read as.
func (q SteamQuestion) asTyped(err error) error {
	wrong, ok := err.(*units.FieldError)
	if !ok {
		return err
	}
	typed := map[string]string{"crop": q.Crop, "kind": q.Kind, "cut": q.Cut, "until": q.Until, "start": q.Start, "altitude": q.Altitude,
		"load": q.Load, "tuber": q.Tuber, "cool": q.Cool, "room": q.Room, "found": q.Found}[wrong.Field]
	if typed == "" {
		return err
	}
	shown := *wrong
	shown.Value = typed
	return &shown
}

// steamKitchen is where a steaming question is asked: the plot's kitchen, or
// what stands in for one.
type steamKitchen struct {
	where      PlotRef
	folder     *journal.Folder // nil without a plot
	system     units.System
	equipment  heat.Equipment
	conditions heat.Conditions
	roomC      float64
	fridgeC    float64 // 0 = as usual
	assumed    []string
}

// openSteamKitchen takes the steamer, the stove and the altitude from the plot;
// with no plot named and none here, the defaults stand in.
func openSteamKitchen(w PlotRef) (steamKitchen, error) {
	folder, kitchen, err := openKitchen(w)
	if err != nil {
		return steamKitchen{}, err
	}
	if folder == nil {
		return steamKitchen{where: w, system: units.Metric, roomC: kitchen.RoomC,
			assumed: []string{"no kitchen: a 240 mm steamer of two tiers, 700 W into steam, sea level, a room at 20 °C"}}, nil
	}
	k := steamKitchen{where: w, folder: folder, system: kitchen.Measures, equipment: equipmentOf(kitchen), roomC: kitchen.RoomC, fridgeC: kitchen.FridgeC}
	for _, text := range kitchen.Assumed {
		k.assumed = append(k.assumed, "assumed: "+text)
	}
	k.conditions, err = conditionsOf(kitchen)
	return k, err
}

// equipmentOf is a kitchen's steamer and stove as steaming knows them.
func equipmentOf(k recipes.Kitchen) heat.Equipment {
	return heat.Equipment{
		DiameterMM: k.Steamer.DiameterMM, Tiers: k.Steamer.Tiers,
		PowerW: k.Stove.PowerW, Fuel: k.Stove.Gas, Efficiency: k.Stove.Efficiency, Windy: k.Stove.Windy,
	}
}

// conditionsOf is what a kitchen sets for every steaming: where it lies and the
// steam its stove makes.
func conditionsOf(k recipes.Kitchen) (heat.Conditions, error) {
	net, err := equipmentOf(k).NetPowerW()
	if err != nil {
		return heat.Conditions{}, fmt.Errorf("%s: %w", k.File, err)
	}
	return heat.Conditions{AltitudeM: k.AltitudeM, NetPowerW: net}, nil
}

// physicalFlag reads one figure of a dimension in a unit.
func physicalFlag(flag, text string, system units.System, unit units.Unit) (float64, error) {
	q, err := strict.QuantityField(flag, text, system, unit.Dimension())
	if err != nil {
		return 0, err
	}
	if q.IsRange() || !q.IsValid() || q.IsToTaste() {
		return 0, units.WrongField(flag, text, "not one figure", "one figure, such as 25 "+unit.Name())
	}
	return q.Float64(unit)
}
