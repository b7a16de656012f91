package render

import (
	"fmt"
	"time"

	"github.com/shopspring/decimal"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/keeping"
)

// The plans here are invented: they are laid out, not worked out.

func britishSummer() *time.Location { return time.FixedZone("BST", 3600) }

func g(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func at(hour, minute int) time.Time {
	return time.Date(2031, 7, 12, hour, minute, 0, 0, britishSummer())
}

// examplePlan is five dishes over a two-tier steamer, on the table at 18:30.
func examplePlan() ask.Plan {
	return ask.Plan{
		Mode: "share", Plot: "the demo plot", On: at(0, 0), ServeAt: at(18, 30),
		Lots: []ask.Lot{
			{ID: "tub-3/20-45-sound", Crop: "potato", Variety: "Weir Gold", Planting: "tub-3", LowMM: 20, HighMM: 45, Condition: "sound", Supply: g("1640"), Taken: g("1640"), KeepsUntil: at(0, 0).AddDate(0, 0, 12)},
			{ID: "tub-3/45-65-sound", Crop: "potato", Variety: "Weir Gold", Planting: "tub-3", LowMM: 45, HighMM: 65, Condition: "sound", Supply: g("1980"), Taken: g("1867.5")},
			{ID: "bed-1/damaged", Crop: "potato", Variety: "Millrace", Planting: "bed-1", Condition: "damaged", Supply: g("324.7"), Taken: g("324.7"), First: true},
			{ID: "bed-2/40-60-sound", Crop: "beetroot", Planting: "bed-2", LowMM: 40, HighMM: 60, Condition: "sound", Supply: g("710"), Taken: g("640")},
		},
		SetAside: []ask.SetAside{{Lot: "tub-3/green", Crop: "potato", Grams: g("60"), Because: "green tubers are never eaten"}},
		Dishes:   []ask.Dish{crushed(), coldSalad(), minted(), beetroot(), warmBowl()},
		LeftOut:  []ask.LeftOut{{Dish: "Jacket potatoes with leeks", Because: "no lot of 65 mm and over"}},
		Left: []ask.Left{
			{Lot: "tub-3/45-65-sound", Crop: "potato", Grams: g("112.5"), Advice: "store in the dark, 5–8 °C"},
			{Lot: "bed-2/40-60-sound", Crop: "beetroot", Grams: g("70")},
		},
		Levels: ask.Levels{UseFirst: g("324.7"), Balance: "5/2", Portions: 24},
		Bounds: []ask.Bound{
			{What: "potato", Says: "Another 180 g of potatoes would make one more portion of Crushed potatoes with lovage."},
			{What: "soured cream", Says: "The soured cream ran out."},
		},
		Pick: []ask.Line{
			{Item: "chives", State: "chopped", Exact: "4.5", Unit: "[tbs_m]", Measured: "4½ tbsp", Dishes: []string{"Crushed potatoes with lovage", "Cold potato and radish salad"}},
			{Item: "lovage", State: "chopped", Exact: "1.75", Unit: "[tbs_m]", Measured: "1¾ tbsp", Dishes: []string{"Crushed potatoes with lovage"}},
			{Item: "mint", Exact: "12", Unit: "{piece}", Measured: "12 sprigs", Dishes: []string{"New potatoes in mint butter"}},
			{Item: "radish", Exact: "14", Unit: "{piece}", Measured: "14", Dishes: []string{"Cold potato and radish salad"}},
		},
		Buy: []ask.Line{
			{Item: "butter", Exact: "186.25", Unit: "g", Measured: "186 g", Dishes: []string{"Crushed potatoes with lovage", "New potatoes in mint butter"}},
			{Item: "soured cream", Exact: "210", Unit: "mL", Measured: "210 ml", Dishes: []string{"Cold potato and radish salad", "Beetroot and potato in dill cream"}},
			{Item: "egg", Exact: "3.75", Unit: "{piece}", Measured: "4", Flag: false, ShowExact: true, Advice: "or 188 g beaten egg", Dishes: []string{"Cold potato and radish salad"}},
			{Item: "black pepper", Measured: "to taste", Dishes: []string{"all dishes"}},
		},
		Timetable: exampleTimetable(),
		Keep: []keeping.Note{
			{Rule: "cool-2h", Says: "Leftovers: into the fridge by 20:30, in shallow dishes."},
			{Rule: "salad-out", Says: "The dressed salad stands out until 20:30 at the latest; then throw it away."},
		},
		Warnings: []string{"Trim the damaged tubers and use them today."},
		Cautions: []string{
			"Steam burns: open the lid away from you and lift the tiers with dry cloths.",
			"A gas stove only outdoors or with open windows; check the hose before lighting.",
			"Never eat green or bitter tubers; cooking does not make them safe.",
			"Follow your local food authority where it is stricter.",
		},
	}
}

func steamed(minutes, low, high float64, rounds int) *ask.Steam {
	return &ask.Steam{Minutes: minutes, Low: low, High: high, ComeUp: 2.2, SteamC: 99.8, CentreC: 88, InRange: true,
		Layers: 2, Rounds: rounds, GramsPerLayer: 630, WaterML: 412, GasG: 23.4, ToBoil: 6.5}
}

func crushed() ask.Dish {
	return ask.Dish{Name: "Crushed potatoes with lovage", Portions: 7, Factor: g("1.75"), Served: "hot",
		Crops: []ask.CropPart{{Crop: "potato", Lifted: g("1260"), Prepared: g("1247.4"), Preparation: "scrubbed",
			From: []ask.Take{{Lot: "tub-3/45-65-sound", Grams: g("935.3")}, {Lot: "bed-1/damaged", Grams: g("324.7")}},
			Cut:  "cube 25 mm", Until: "tender", Steam: steamed(8.4, 6.1, 11.9, 1),
			Cuts: []ask.CutPart{
				{LowMM: 45, HighMM: 65, How: "cube 25 mm", Shape: "cube", PieceMM: 25, Minutes: 8.4, Low: 6.1, High: 11.9},
				{How: "trim, then cube 25 mm", Shape: "cube", PieceMM: 25, Minutes: 8.4, Low: 6.1, High: 11.9},
			}}},
		Others: []ask.Line{
			{Item: "butter", Exact: "105", Unit: "g", Measured: "105 g"},
			{Item: "lovage", State: "chopped", Exact: "1.75", Unit: "[tbs_m]", Measured: "1¾ tbsp", FromPlot: true},
			{Item: "chives", State: "chopped", Exact: "3.5", Unit: "[tbs_m]", Measured: "3½ tbsp", FromPlot: true},
			{Item: "salt", Exact: "6.125", Unit: "g", Measured: "1 tsp", ErrorPercent: -4.2, ShowExact: true, Advice: "start low, taste"},
			{Item: "black pepper", Measured: "to taste"},
		},
		Method:    []string{"Steam the potatoes.", "Crush them with a fork, skins and all, while hot.", "Fold in the butter, then the herbs."},
		Allergens: ask.Allergens{Contains: []string{"milk"}},
		Notes:     []string{"a little more lovage"},
	}
}

func coldSalad() ask.Dish {
	return ask.Dish{Name: "Cold potato and radish salad", Portions: 5, Factor: g("1.25"), Served: "cold",
		Crops: []ask.CropPart{{Crop: "potato", Lifted: g("900"), Prepared: g("891"), Preparation: "scrubbed",
			From: []ask.Take{{Lot: "tub-3/20-45-sound", Grams: g("900")}}, Cut: "halves", Until: "just-tender", Steam: steamed(13.2, 10.4, 17.1, 1),
			Cuts: []ask.CutPart{
				{LowMM: 20, HighMM: 30, How: "leave whole", Shape: "whole", PieceMM: 25, Minutes: 12.6, Low: 9.9, High: 16},
				{LowMM: 30, HighMM: 45, How: "halve lengthways", Shape: "halves", PieceMM: 38, Minutes: 13.2, Low: 10.4, High: 17.1, Note: "2 minutes longer than the small ones"},
			}}},
		Others: []ask.Line{
			{Item: "egg", Exact: "3.75", Unit: "{piece}", Measured: "4", ErrorPercent: 6.7, ShowExact: true, Advice: "or 188 g beaten egg"},
			{Item: "radish", State: "sliced", Exact: "14", Unit: "{piece}", Measured: "14", FromPlot: true},
			{Item: "soured cream", Exact: "125", Unit: "mL", Measured: "125 ml"},
			{Item: "spring onion", Exact: "3.75", Unit: "{piece}", Measured: "4", Instead: []string{"1 shallot", "5 Welsh onions"}},
			{Item: "capers", Low: "1.25", High: "2.5", Unit: "[tsp_m]", Measured: "1¼–2½ tsp", Optional: true},
		},
		Method:    []string{"Steam the potatoes and let them cool for half an hour.", "Mix the dressing; fold everything together.", "Keep cold until served."},
		Allergens: ask.Allergens{Contains: []string{"egg", "milk"}, May: []string{"mustard", "sulphites"}},
	}
}

func minted() ask.Dish {
	return ask.Dish{Name: "New potatoes in mint butter", Portions: 4, Factor: g("1"), Served: "hot",
		Crops: []ask.CropPart{{Crop: "potato", Lifted: g("740"), Prepared: g("732.6"), Preparation: "scrubbed",
			From: []ask.Take{{Lot: "tub-3/20-45-sound", Grams: g("740")}}, Cut: "whole", Until: "tender", Steam: steamed(17.8, 14.1, 22.6, 1),
			Cuts: []ask.CutPart{{LowMM: 20, HighMM: 45, How: "leave whole", Shape: "whole", PieceMM: 33, Minutes: 17.8, Low: 14.1, High: 22.6}}}},
		Others: []ask.Line{
			{Item: "butter", Exact: "81.25", Unit: "g", Measured: "81 g"},
			{Item: "mint", Exact: "12", Unit: "{piece}", Measured: "12 sprigs", FromPlot: true},
		},
		Method:    []string{"Steam the potatoes whole.", "Melt the butter over them with the torn mint."},
		Allergens: ask.Allergens{Contains: []string{"milk"}},
	}
}

func beetroot() ask.Dish {
	return ask.Dish{Name: "Beetroot and potato in dill cream", Portions: 4, Factor: g("1"), Served: "warm",
		Crops: []ask.CropPart{
			{Crop: "beetroot", Lifted: g("640"), Prepared: g("512"), Preparation: "peeled",
				From: []ask.Take{{Lot: "bed-2/40-60-sound", Grams: g("640")}}, Cut: "slice 12 mm", Until: "tender", Steam: steamed(21, 16, 29, 1),
				Cuts: []ask.CutPart{{LowMM: 40, HighMM: 60, How: "slice 12 mm", Shape: "slice", PieceMM: 12, Minutes: 21, Low: 16, High: 29}}},
			{Crop: "potato", Lifted: g("420"), Prepared: g("357"), Preparation: "peeled",
				From: []ask.Take{{Lot: "tub-3/45-65-sound", Grams: g("420")}}, Cut: "quarters", Until: "tender", Steam: steamed(15, 12, 19, 1),
				Cuts: []ask.CutPart{{LowMM: 45, HighMM: 65, How: "quarter lengthways", Shape: "quarters", PieceMM: 28, Minutes: 15, Low: 12, High: 19}}},
		},
		Others:    []ask.Line{{Item: "soured cream", Exact: "85", Unit: "mL", Measured: "85 ml"}, {Item: "dill", State: "chopped", Exact: "2", Unit: "[tbs_m]", Measured: "2 tbsp", FromPlot: true}},
		Method:    []string{"Steam both, the beetroot in the lower tier so that it does not stain.", "Stir into the cream off the heat."},
		Allergens: ask.Allergens{Contains: []string{"milk"}},
	}
}

func warmBowl() ask.Dish {
	return ask.Dish{Name: "Warm potato batons with broad beans", Portions: 4, Factor: g("1"), Served: "warm",
		Crops: []ask.CropPart{{Crop: "potato", Lifted: g("512.2"), Prepared: g("435.4"), Preparation: "peeled",
			From: []ask.Take{{Lot: "tub-3/45-65-sound", Grams: g("512.2")}}, Cut: "baton 15 mm", Until: "just-tender", Steam: steamed(5.6, 4.2, 8, 1),
			Cuts: []ask.CutPart{{LowMM: 45, HighMM: 65, How: "batons 15 mm thick", Shape: "baton", PieceMM: 15, Minutes: 5.6, Low: 4.2, High: 8}}}},
		Others: []ask.Line{{Item: "broad beans", State: "shelled", Exact: "300", Unit: "g", Measured: "300 g", FromPlot: true}, {Item: "oil", Exact: "3", Unit: "[tbs_m]", Measured: "3 tbsp"}},
		Method: []string{"Steam the beans with the potatoes for the last 4 minutes.", "Dress with the oil."},
	}
}

func exampleTimetable() []ask.Task {
	cold, hot := "Cold potato and radish salad", "Crushed potatoes with lovage"
	mint, beet, bowl := "New potatoes in mint butter", "Beetroot and potato in dill cream", "Warm potato batons with broad beans"
	return []ask.Task{
		{At: at(16, 20), Minutes: 12, Do: "Scrub and halve 891 g potato", Dish: cold, Uses: "cook"},
		{At: at(16, 25), Minutes: 7, Do: "Bring the steamer to the boil", Uses: ""},
		{At: at(16, 32), Minutes: 15.4, Do: "Steam potato", Dish: cold, Uses: "steamer"},
		{At: at(16, 48), Minutes: 40, Do: "Let the potatoes cool", Dish: cold},
		{At: at(16, 50), Minutes: 15, Do: "Peel and slice 512 g beetroot", Dish: beet, Uses: "cook"},
		{At: at(17, 5), Minutes: 10, Do: "Peel and quarter 357 g potato", Dish: beet, Uses: "cook"},
		{At: at(17, 18), Minutes: 23.2, Do: "Steam beetroot and potato", Dish: beet, Uses: "steamer"},
		{At: at(17, 28), Minutes: 8, Do: "Dress the salad", Dish: cold, Uses: "cook"},
		{At: at(17, 36), Minutes: 54, Do: "Chill the salad", Dish: cold},
		{At: at(17, 36), Minutes: 3, Do: "Scrub 733 g potato", Dish: mint, Uses: "cook"},
		{At: at(17, 40), Minutes: 10, Do: "Scrub and cube 1.25 kg potato", Dish: hot, Uses: "cook"},
		{At: at(17, 42), Minutes: 20, Do: "Steam potato", Dish: mint, Uses: "steamer"},
		{At: at(17, 52), Minutes: 8, Do: "Peel and cut 435 g potato into batons", Dish: bowl, Uses: "cook"},
		{At: at(18, 3), Minutes: 10.6, Do: "Steam potato", Dish: hot, Uses: "steamer"},
		{At: at(18, 15), Minutes: 5, Do: "Crush and butter", Dish: hot, Uses: "cook"},
		{At: at(18, 15), Minutes: 8, Do: "Steam potato and beans", Dish: bowl, Uses: "steamer"},
		{At: at(18, 24), Minutes: 3, Do: "Dress with oil", Dish: bowl, Uses: "cook"},
		{At: at(18, 30), Minutes: 0, Do: "On the table", Uses: "cook"},
	}
}

// uglyPlans are the shapes a sheet must survive.
func uglyPlans() map[string]ask.Plan {
	return map[string]ask.Plan{
		"a forty-letter dish name":   longNames(),
		"twelve dishes":              twelveDishes(),
		"nothing to share":           {Mode: "share", On: at(0, 0), LeftOut: []ask.LeftOut{{Dish: "Crushed potatoes with lovage", Because: "there is no potato"}}},
		"nothing but green tubers":   greenOnly(),
		"angle brackets everywhere":  bracketed(),
		"a night and a day of tasks": overnight(),
	}
}

func longNames() ask.Plan {
	plan := examplePlan()
	plan.Dishes[0].Name = "Mashedpotatoeswithlovagechivesandbutters"
	plan.Dishes[0].Others[0].Item = "Schlagsahnebuttermilchzubereitungsersatz"
	plan.Timetable[0].Dish = plan.Dishes[0].Name
	return plan
}

func twelveDishes() ask.Plan {
	plan := examplePlan()
	for i := len(plan.Dishes); i < 12; i++ {
		dish := plan.Dishes[i%5]
		dish.Name = fmt.Sprintf("%s, no. %d", dish.Name, i+1)
		plan.Dishes = append(plan.Dishes, dish)
	}
	for i := range 14 {
		plan.Timetable = append(plan.Timetable, ask.Task{At: at(16, 30).Add(time.Duration(i) * 9 * time.Minute), Minutes: float64(i), Do: "Stir", Dish: plan.Dishes[i%12].Name, Uses: "cook"})
	}
	return plan
}

func greenOnly() ask.Plan {
	return ask.Plan{Mode: "share", On: at(0, 0),
		SetAside: []ask.SetAside{{Lot: "tub-3/green", Crop: "potato", Grams: g("2140"), Because: "green tubers are never eaten"}},
		LeftOut:  []ask.LeftOut{{Dish: "Crushed potatoes with lovage", Because: "no lot of potato may be eaten"}},
		Cautions: examplePlan().Cautions}
}

func bracketed() ask.Plan {
	plan := examplePlan()
	hostile := `<script>alert("x")</script><img src=x onerror=y>&amp;`
	plan.Dishes[0].Name = hostile
	plan.Dishes[0].Method = []string{hostile}
	plan.Dishes[0].Crops[0].Cuts[0].How = hostile
	plan.Timetable[0].Do = hostile
	plan.Lots[0].ID = hostile
	return plan
}

func overnight() ask.Plan {
	plan := examplePlan()
	plan.Timetable = append([]ask.Task{{At: at(18, 0).AddDate(0, 0, -1), Minutes: 600, Do: "Chill the salad", Dish: "Cold potato and radish salad"}}, plan.Timetable...)
	return plan
}
