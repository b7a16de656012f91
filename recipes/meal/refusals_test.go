package meal

import (
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/schedule"
	"trencher/units"
)

// neverDone is a potato of 200 mm that is to be soft whole: heat refuses it, for it is
// not done after three hours.
func neverDone(t *testing.T) Piece {
	t.Helper()
	crop, err := heat.LookupCrop("potato", "waxy")
	require.NoError(t, err)
	whole := heat.Cut{Shape: heat.Whole, SizeMM: 200}
	return Piece{Crop: crop, Cut: whole, Sized: whole, Until: heat.Soft, Grams: 3000, Classes: []heat.SizeClass{{LowMM: 200, HighMM: 200, Grams: 3000}}}
}

func neverDoneLine(cook string) recipes.CropLine {
	return recipes.CropLine{Crop: "potato", Texture: "waxy", Cut: "whole 200 mm", Cook: cook, Until: "soft"}
}

// What heat refuses is refused by every stage that asks it, and named by its dish where
// there is one; nothing goes on with a time of nought.
func TestWhatHeatRefusesIsRefused(t *testing.T) {
	piece := neverDone(t)
	q := Question{Kitchen: recipes.DefaultKitchen(units.Metric)}
	k := newKitchen(q)
	part := func() *Part {
		return &Part{Line: neverDoneLine("steam"), Prepared: decimal.NewFromInt(3000), Piece: piece, Steam: &Steaming{AtOnceG: 1000, Load: heat.Load{GramsPerLayer: 2000}}}
	}
	loaded := func() *Loaded {
		return &Loaded{Dishes: []Dish{{Recipe: recipes.Dish{Name: "Giant"}, Parts: []Part{*part()}}},
			Runs: []Run{{ID: "r1", Parts: []PartAt{{0, 0}}, Tiers: [][]PartAt{{{0, 0}}}}}}
	}
	later := func(p *Part) error { _, err := k.later(p); return err }
	layered := func() error { _, err := k.blanched(piece, true); return err }
	ice := func() error { _, err := iceMinutes(piece, 1); return err }
	size := func(cook string) error { _, err := k.reckonSize(neverDoneLine(cook), piece); return err }
	heatOf := func(cook string) error { _, err := k.reckonHeat(neverDoneLine(cook)); return err }
	loads := func(cook string) error { return k.reckonLoads(&ReckonedHeat{}, neverDoneLine(cook)) }
	heats := func(cook string) error {
		_, err := reckonHeats(Question{Kitchen: q.Kitchen, Dishes: []recipes.Dish{{Name: "Giant", Crops: []recipes.CropLine{neverDoneLine(cook)}}}})
		return err
	}
	for about, c := range map[string]struct {
		err   error
		named bool
	}{
		"alone in the steamer": {k.steamAlone(part()), false}, "its cuts": {k.cut(part()), false}, "how much later it is": {later(part()), false},
		"the cuts of all": {k.cutAll(loaded()), true}, "all that is in the steamer": {k.together(loaded()), true}, "the fillings": {k.fill(loaded(), whatever), true},
		"a size in steam": {size("steam"), false}, "a size in water": {size("boil"), false},
		"loads in steam": {loads("steam"), false}, "loads in water": {loads("boil"), false},
		"a way in steam": {heatOf("steam"), false}, "a way in water": {heatOf("boil"), false}, "all ways": {heats("boil"), true},
		"in boiling water": {k.boil(&Part{Line: neverDoneLine("boil"), Prepared: decimal.NewFromInt(3000)}, recipes.Hot), false},
	} {
		require.ErrorIs(t, c.err, heat.ErrNotDone, about)
		if c.named {
			assert.ErrorContains(t, c.err, "Giant: ", about)
		}
	}
	// What is no cut of a crop heat knows is refused where it is blanched or cooled, too.
	piece.Sized = heat.Cut{Shape: heat.Whole}
	require.Error(t, layered())
	require.Error(t, ice())
	require.Error(t, size("blanch"))
	_, err := (*reckoned)(nil).coolPart(Part{Steam: &Steaming{}, Piece: piece, Cuts: []Cut{{PieceMM: 20}}}, 4, 200)
	require.Error(t, err, "no air is so hot")
}

// A cut or a doneness that is none, and a crop that nobody has figures of, are told
// wherever a line is read; a line without figures has no times, and no error.
func TestLinesThatCannotBeRead(t *testing.T) {
	k := newKitchen(Question{Kitchen: recipes.DefaultKitchen(units.Metric)})
	for _, c := range []struct {
		line    recipes.CropLine
		unknown bool
	}{
		{recipes.CropLine{Crop: "potato", Cut: "cube of 3", Until: "soft"}, false},
		{recipes.CropLine{Crop: "potato", Cut: "cube 25 mm", Until: "burnt"}, false},
		{recipes.CropLine{Crop: "moonfruit", Cut: "cube 25 mm", Until: "soft"}, true},
	} {
		_, err := pieceOf(Part{Line: c.line})
		require.Error(t, err)
		assert.Equal(t, c.unknown, assert.ObjectsAreEqual(heat.ErrNoFigures, rootOf(err)), err)
		_, _, err = Part{Line: c.line}.whatCools()
		require.Error(t, err)
		_, known := k.layer(c.line)
		assert.False(t, known)
		require.Error(t, k.reckonLoads(&ReckonedHeat{}, c.line))
		for _, cook := range []string{"steam", "boil", "blanch"} {
			c.line.Cook = cook
			part := Part{Line: c.line}
			h, err := k.reckonHeat(c.line)
			if c.unknown {
				require.NoError(t, k.steamAlone(&part))
				require.NoError(t, k.boil(&part, recipes.Hot))
				require.NoError(t, err)
				assert.Empty(t, h.Sizes)
				assert.Nil(t, part.Steam)
				assert.Nil(t, part.Pot)
				continue
			}
			require.Error(t, err, cook)
			require.Equal(t, cook == "steam", k.steamAlone(&part) != nil, cook)
			require.Equal(t, cook != "steam", k.boil(&part, recipes.Hot) != nil, cook)
		}
	}
}

func rootOf(err error) error {
	for {
		inner, ok := err.(interface{ Unwrap() error })
		if !ok || inner.Unwrap() == nil {
			return err
		}
		err = inner.Unwrap()
	}
}

// A part without figures is not called cold by the inspector on any time in the fridge
// or in ice.
func TestTheInspectorCallsNothingColdOnAGuess(t *testing.T) {
	piece := neverDone(t)
	piece.Sized = heat.Cut{Shape: heat.Whole}
	part := Part{Line: recipes.CropLine{Crop: "moonfruit", Cook: "boil"}, Piece: piece, Pot: &Pot{Blanched: &heat.Blanched{}, Rounds: 1}}
	day := []Step{stepAt("s1", schedule.Chill, 0, 24*60, 0), stepAt("s2", schedule.Cool, 0, 24*60, 0)}
	day[0].Parts, day[1].Parts = []PartAt{{0, 0}}, []PartAt{{0, 0}}
	c := check{plan: Plan{Kitchen: recipes.Kitchen{FridgeC: 4}, Dishes: []Dish{{Parts: []Part{part}}}, Steps: day, Supplies: Supplies{IceG: 500}}}
	assert.False(t, c.isColdEnough(part, day[:1]))
	assert.False(t, c.isIced(PartAt{0, 0}, day[:1]))

	var err error
	part.Line = recipes.CropLine{Crop: "french-bean", Cut: "whole", Cook: "blanch", Until: "tender"}
	part.Piece, err = pieceOf(part)
	require.NoError(t, err)
	c.plan.Dishes[0].Parts[0] = part
	assert.True(t, c.isIced(PartAt{0, 0}, day[:1]), "a day in ice water")
	c.plan.Supplies.IceG = 0
	assert.False(t, c.isIced(PartAt{0, 0}, day[:1]), "of which there is none")
	assert.False(t, c.isColdEnough(part, nil), "it is in no fridge")
}

// An authority that keeping does not know is told by every stage that asks keeping.
func TestWhatKeepingRefusesIsRefused(t *testing.T) {
	kitchen := recipes.DefaultKitchen(units.Metric)
	kitchen.Authority = "nobody"
	dish := Dish{Recipe: recipes.Dish{Name: "Salad", Served: recipes.Cold}, Parts: []Part{{Steam: &Steaming{}}}}
	dish.Makeup.Kinds = keeping.Kinds{Foods: []string{"boiled-potatoes"}}
	q := Question{On: noon.Truncate(24 * time.Hour), Kitchen: kitchen, AirC: 20, ServeAt: atMinute(60)}
	steam := stepAt("s1", schedule.Steam, 0, 20, 1)
	steam.Dishes, steam.Parts = []string{"Salad"}, []PartAt{{0, 0}}
	steps := []Step{steam}

	_, err := coolAll(q, []Dish{dish})
	require.ErrorContains(t, err, "Salad: ")
	_, err = q.lastsChilled(dish, 30, 90)
	require.ErrorContains(t, err, "Salad: ")
	_, err = q.chill(&cooled{spread: heat.Cooling{FridgeLatest: 30, ChilledLatest: 60}}, dish)
	require.ErrorContains(t, err, "Salad: ")
	_, err = q.coolIn(&cooled{spread: heat.Cooling{FridgeLatest: 30, ChilledLatest: 60}}, dish, 4*time.Hour, 4*time.Hour)
	require.ErrorContains(t, err, "Salad: ")
	_, err = Keep(q, Loaded{Dishes: []Dish{dish}}, Timetable{Steps: steps})
	require.ErrorContains(t, err, "Salad: ")
	one, err := apartOf(q, dish, recipes.Guests{Count: 1}, steps)
	require.ErrorContains(t, err, "Salad: ")
	assert.Equal(t, "Salad", one.Dish)
	plan := Plan{Kitchen: kitchen, Dishes: []Dish{dish}, Steps: steps, ServeAt: q.ServeAt, Clocks: []Clock{{Dish: "Salad"}},
		Plates: []Plate{{Guest: recipes.Guests{Count: 1}, Number: 1, Apart: []string{"Salad"}}}}
	_, err = plan.apartsOf(q, steps)
	require.ErrorContains(t, err, "Salad: ")
	_, err = Follow(plan, nil, noon)
	require.ErrorContains(t, err, "Salad: ")
	_, err = Reckon(Question{On: q.On, Kitchen: kitchen, AirC: 20, Dishes: []recipes.Dish{{Name: "Salad", Smallest: 1, Largest: 1, Portions: 1}}})
	require.ErrorContains(t, err, "Salad: ")
}

// A fridge of 7.5 °C makes cold what the rules let lie in it so long, a warmer one
// nothing; what would be chilled for less than ten minutes is not.
func TestWhichFridgeMakesCold(t *testing.T) {
	dish := Dish{Recipe: recipes.Dish{Name: "Salad", Served: recipes.Cold}}
	dish.Makeup.Kinds = keeping.Kinds{Foods: []string{"boiled-potatoes"}}
	q := Question{On: noon.Truncate(24 * time.Hour), Kitchen: recipes.DefaultKitchen(units.Metric), AirC: 20}
	q.Kitchen.Authority = "uk"
	for _, c := range []struct {
		fridgeC, takes float64
		chill          float64
		cold           bool
	}{{4, 60, 60, true}, {7.5, 60, 60, true}, {7.6, 60, 60, false}, {4, 10, 10, true}, {4, 9.9, 0, false}} {
		q.Kitchen.FridgeC = c.fridgeC
		tray := cooled{spread: heat.Cooling{FridgeLatest: 30, ChilledLatest: c.takes}}
		lasts, err := q.chill(&tray, dish)
		require.NoError(t, err)
		assert.Positive(t, lasts)
		assert.Equal(t, []any{true, true, c.chill, c.cold}, []any{tray.judged, tray.believed, tray.chill, tray.cold}, c)
	}
}
