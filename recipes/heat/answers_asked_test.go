package heat_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"trencher/recipes/heat"
	"trencher/units"
)

// asking is a question of [TestAnswersStayAsTheyAre].
type asking struct {
	name   string
	answer func() any
}

func questions(t *testing.T) (all []asking) {
	for _, list := range [][]asking{
		figuresAsked(), piecesAsked(t), boilingAsked(t), blanchingAsked(t), loadsAsked(t), tiersAsked(t),
		coolingAsked(t), cuttingAsked(t), learningAsked(t), wordsAsked(t), potsAsked(t), namesAsked(t), refusedAsked(t),
	} {
		all = append(all, list...)
	}
	return all
}

func one(name string, answer func() any) asking { return asking{name, answer} }

func mustCrop(t *testing.T, name, kind string) heat.Crop {
	crop, err := heat.LookupCrop(name, kind)
	require.NoError(t, err)
	return crop
}

func mustCut(t *testing.T, text string) heat.Cut {
	cut, err := heat.ParseCut(text)
	require.NoError(t, err, text)
	return cut
}

func celsius(x float64) *float64 { return &x }

// figuresAsked are tables and formulas by themselves.
func figuresAsked() (all []asking) {
	for _, m := range []float64{-400, 0, 60, 1234, 3000, 5500} {
		all = append(all, one(fmt.Sprintf("steam at %g m", m), func() any { return []float64{heat.SteamC(m), heat.Pressure(m)} }))
	}
	for _, crop := range heat.Crops() {
		all = append(all,
			one(crop.Title()+" at 20 and 90 C", func() any { return []heat.Properties{crop.Composition.At(20), crop.Composition.At(90)} }),
			one(crop.Title()+" by weight", func() any { return []float64{heat.ThicknessMM(crop, 3), heat.ThicknessMM(crop, 80)} }),
			one(crop.Title()+" sizes", func() any { return [][]float64{heat.UsualSizes(crop, heat.Whole), heat.UsualSizes(crop, heat.Cube)} }))
	}
	return all
}

// piecesAsked are pieces of every shape of every crop, under ever other conditions.
func piecesAsked(t *testing.T) (all []asking) {
	around := []heat.Conditions{
		{},
		{AltitudeM: 1500, LoadGrams: 900},
		{StartC: celsius(5), LoadGrams: 1800, NetPowerW: 400},
		{LoadGrams: 1500, NetPowerW: 250},
		{LoadGrams: 2200, Heaped: true, BasketMM: 200, Tiers: 2},
		{LoadGrams: 40, NetPowerW: 3200, AltitudeM: 3400, StartC: celsius(45)},
		{LoadGrams: 3300, NetPowerW: 140, BasketMM: 300},
	}
	n := 0
	for _, crop := range heat.Crops() {
		mm := (crop.Usual.LowMM + crop.Usual.HighMM) / 2
		cuts := []heat.Cut{{Shape: heat.Whole, SizeMM: mm}, {Shape: heat.Whole, SizeMM: 1.5 * crop.Usual.HighMM}}
		if !crop.Ready {
			for shape := heat.Halves; shape <= heat.Wedges; shape++ {
				cuts = append(cuts, heat.Cut{Shape: shape, SizeMM: mm})
			}
			cuts = append(cuts, mustCut(t, "cube 11 mm"), mustCut(t, "cube 25 mm"), mustCut(t, "slice 7 mm"), mustCut(t, "slice 30x20 mm"),
				mustCut(t, "baton 9 mm"), mustCut(t, "baton 12x15 mm"), mustCut(t, "box 30x12x20 mm"), mustCut(t, "whole 60x45x30 mm"), mustCut(t, "quarters 90x45x40 mm"))
		}
		for _, cut := range cuts {
			c, until := around[n%len(around)], heat.JustTender+heat.Doneness(n%3)
			n++
			all = append(all, one(fmt.Sprintf("%s, %s, %s (%d)", crop.Title(), cut, until, n%len(around)), func() any { return of(heat.Steam(crop, cut, until, c)) }))
		}
	}
	for _, crop := range []heat.Crop{mustCrop(t, "potato", "waxy"), mustCrop(t, "potato", "floury"), mustCrop(t, "carrot", "")} {
		all = append(all,
			one(crop.Title()+", body", func() any {
				return []any{of(heat.BodyOf(crop, mustCut(t, "whole 45 mm"))), of(heat.BodyOf(crop, mustCut(t, "wedges 45 mm"))), of(heat.BodyOf(crop, mustCut(t, "box 10x20x35 mm")))}
			}),
			one(crop.Title()+", largest whole", func() any { return of(heat.WholeSizes(crop, heat.Conditions{LoadGrams: 800})) }),
			one(crop.Title()+", followed", func() any { return of(heat.Trace(crop, mustCut(t, "whole 40 mm"), heat.Tender, heat.Conditions{})) }))
	}
	return all
}

func boilingAsked(t *testing.T) (all []asking) {
	waxy, carrot, peas := mustCrop(t, "potato", "waxy"), mustCrop(t, "carrot", ""), mustCrop(t, "peas", "")
	for i, w := range []heat.Water{{}, {ML: 700}, {HeldC: 93}, {Lidless: true}, {Cold: true}, {Lidless: true, Cold: true, ML: 2500}} {
		for _, c := range []heat.Conditions{{}, {LoadGrams: 1400, NetPowerW: 600, AltitudeM: 900, StartC: celsius(8)}} {
			all = append(all,
				one(fmt.Sprintf("boiled potato %d", i), func() any { return of(heat.Boil(waxy, mustCut(t, "cube 25 mm"), heat.Tender, w, c)) }),
				one(fmt.Sprintf("boiled carrot %d", i), func() any { return of(heat.Boil(carrot, mustCut(t, "slice 8 mm"), heat.JustTender, w, c)) }))
		}
		for _, e := range []heat.Equipment{{}, {PowerW: 1500, Fuel: "propane", Windy: true, PotML: 2000}, {PowerW: 2000, Fuel: "electric", PotML: 6000, DiameterMM: 200, PanKg: 1.5}} {
			all = append(all,
				one(fmt.Sprintf("a pot of potatoes %d", i), func() any {
					return of(heat.BoilPlan(waxy, mustCut(t, "whole 45 mm"), heat.Soft, 1700, e, w, heat.Conditions{}))
				}),
				one(fmt.Sprintf("a pot of peas %d", i), func() any {
					return of(heat.BoilPlan(peas, mustCut(t, "whole 9 mm"), heat.Tender, 350, e, w, heat.Conditions{StartC: celsius(20)}))
				}))
		}
	}
	return all
}

func blanchingAsked(t *testing.T) (all []asking) {
	for _, crop := range heat.Crops() {
		cut := heat.Cut{Shape: heat.Whole, SizeMM: crop.Usual.LowMM}
		if !crop.Ready && crop.Name != "potato" && crop.Name != "carrot" {
			cut = heat.Cut{Shape: heat.Cube, SizeMM: 13}
		}
		for i, e := range []heat.Equipment{{}, {PowerW: 3500, Fuel: "natural gas", PotML: 8000}} {
			c := heat.Conditions{AltitudeM: float64(i) * 1500, StartC: celsius(15 + 3*float64(i))}
			all = append(all, one(fmt.Sprintf("blanched %s, %s", crop.Title(), cut), func() any { return of(heat.Blanch(crop, cut, 450*float64(1+i), e, c)) }))
		}
	}
	turnip := mustCrop(t, "turnip", "")
	for _, mm := range []float64{8, 10.35, 11.5, 13, 14.4, 16, 20} {
		cut := heat.Cut{Shape: heat.Cube, SizeMM: mm}
		all = append(all, one(fmt.Sprintf("blanched turnip, %s", cut), func() any { return of(heat.Blanch(turnip, cut, 200, heat.Equipment{}, heat.Conditions{})) }))
	}
	all = append(all, one("why blanched so", func() any {
		b, err := heat.Blanch(turnip, mustCut(t, "cube 13 mm"), 300, heat.Equipment{}, heat.Conditions{})
		require.NoError(t, err)
		return b.Reasons()
	}))
	return all
}

// equipments are kitchens.
var equipments = []heat.Equipment{
	{}, {DiameterMM: 200, Tiers: 1, PowerW: 1800, Fuel: "butane"}, {DiameterMM: 280, Tiers: 3, PowerW: 2600, Fuel: "propane", Windy: true},
	{PowerW: 2000, Fuel: "electric", Efficiency: 0.8, PanKg: 2}, {PowerW: 3000, Fuel: "natural gas", Windy: true, PotML: 5000}, {DiameterMM: 160, PowerW: 900, Fuel: "electric", Windy: true},
}

func loadsAsked(t *testing.T) (all []asking) {
	waxy, carrot, peas := mustCrop(t, "potato", "waxy"), mustCrop(t, "carrot", ""), mustCrop(t, "peas", "")
	for i, e := range equipments {
		for k, c := range []heat.Conditions{{}, {AltitudeM: 800, StartC: celsius(6)}, {Heaped: true}} {
			grams := 400 + 700*float64(k)
			all = append(all,
				one(fmt.Sprintf("kitchen %d, potatoes %d", i, k), func() any { return of(heat.LoadPlan(waxy, mustCut(t, "cube 25 mm"), heat.JustTender, grams, e, c)) }),
				one(fmt.Sprintf("kitchen %d, carrots %d", i, k), func() any { return of(heat.LoadPlan(carrot, mustCut(t, "slice 8 mm"), heat.Soft, grams, e, c)) }),
				one(fmt.Sprintf("kitchen %d, peas %d", i, k), func() any { return of(heat.LoadPlan(peas, mustCut(t, "whole 9 mm"), heat.Tender, grams, e, c)) }))
		}
		all = append(all, one(fmt.Sprintf("kitchen %d", i), func() any {
			in, _ := e.In(heat.Conditions{})
			boil, _ := e.PotToBoil(1500, 600)
			return []any{in, boil, e.GasPerMinute(), heat.Cautions(e), heat.PotCautions(e)}
		}))
	}
	all = append(all, one("why a load", func() any {
		l, err := heat.LoadPlan(waxy, mustCut(t, "cube 25 mm"), heat.JustTender, 1400, heat.Equipment{}, heat.Conditions{})
		require.NoError(t, err)
		return append(l.Reasons(), l.Estimate.Reasons()...)
	}), one("fuels", func() any { return heat.FuelRows() }))
	return all
}

func tiersAsked(t *testing.T) (all []asking) {
	load := func(crop, cut string, until heat.Doneness, grams float64) heat.TierLoad {
		return heat.TierLoad{Crop: mustCrop(t, crop, ""), Cut: mustCut(t, cut), Until: until, Grams: grams}
	}
	small, large := load("potato", "cube 20 mm", heat.JustTender, 500), load("potato", "whole 45 mm", heat.Tender, 700)
	beets, peas := load("beetroot", "quarters 70 mm", heat.Tender, 400), load("peas", "whole 9 mm", heat.Tender, 600)
	for i, tiers := range [][]heat.TierLoad{{small, large}, {large, small}, {small, small}, {beets, small, large}, {small, peas, beets}, {peas}} {
		for _, c := range []heat.Conditions{{}, {NetPowerW: 380, AltitudeM: 500, StartC: celsius(10)}} {
			all = append(all, one(fmt.Sprintf("tiers %d", i), func() any { return of(heat.ArrangeTiers(tiers, c)) }))
		}
	}
	return all
}

func coolingAsked(t *testing.T) (all []asking) {
	waxy, peas := mustCrop(t, "potato", "waxy"), mustCrop(t, "peas", "")
	spreads := []heat.Spread{
		{}, {Grams: 800, DepthMM: 60}, {Grams: 1200, Bowl: true}, {Grams: 600, In: heat.ColdWater}, {Grams: 600, In: heat.IceWater}, {Grams: 900, In: heat.IceWater, Bowl: true},
		{Grams: 500, NoFridge: true}, {Grams: 500, NoFridge: true, Box: heat.ColdPlace{In: heat.BoxAir, CelsiusC: 5, IceG: 2000, RoomC: 22}},
		{Grams: 700, FridgeC: 9}, {Grams: 700, FridgeC: 2.5, DepthMM: 20},
	}
	for i, spread := range spreads {
		for _, room := range []float64{19, 34} {
			all = append(all,
				one(fmt.Sprintf("cooling %d at %g C", i, room), func() any {
					c, err := heat.Cool(waxy, mustCut(t, "cube 25 mm"), spread, room)
					return both{Answer: []any{c, c.Reasons()}, Err: err}
				}),
				one(fmt.Sprintf("cooling peas %d at %g C", i, room), func() any {
					c, err := heat.Cool(peas, mustCut(t, "whole 9 mm"), spread, room)
					return both{Answer: []any{c, c.Reasons()}, Err: err}
				}))
		}
	}
	for i, place := range []heat.ColdPlace{
		{CelsiusC: 20}, {In: heat.FridgeAir, CelsiusC: 4}, {In: heat.BoxAir, CelsiusC: 6, IceG: 1500, RoomC: 25}, {In: heat.BoxAir, CelsiusC: 3, IceG: 200, RoomC: 30},
		{In: heat.ColdWater, CelsiusC: 15}, {In: heat.ColdWater, CelsiusC: 12, WaterML: 2000}, {In: heat.IceWater}, {In: heat.IceWater, IceG: 300, WaterML: 1500}, {In: heat.IceWater, IceG: 2500, WaterML: 1500},
	} {
		for _, spread := range []heat.Spread{{Grams: 750}, {Grams: 750, Bowl: true}, {Grams: 750, DepthMM: 45}} {
			all = append(all, one(fmt.Sprintf("cold place %d", i), func() any {
				c, err := heat.ChillIn(waxy, mustCut(t, "whole 35 mm"), spread, place)
				require.NoError(t, err)
				var told []float64
				for _, minutes := range []float64{0, 4, 33, 400} {
					told = append(told, c.After(90, minutes))
				}
				for _, to := range []float64{60, 36, 22, 8} {
					minutes, ok := c.MinutesTo(90, to)
					if told = append(told, minutes); ok {
						told = append(told, 1)
					}
				}
				return told
			}))
		}
	}
	for i, box := range []heat.ColdBox{{IceG: 2000, HoldsC: 5}, {IceG: 500, HoldsC: -2}, {IceG: 80, HoldsC: 6}} {
		all = append(all, one(fmt.Sprintf("cold box %d", i), func() any {
			return []any{box.Lasts(600, 35, 24), box.Lasts(0, 0, 30), box.Lasts(300, 2, 8), box.Reason(box.Lasts(600, 35, 24), 24)}
		}))
	}
	return all
}

func cuttingAsked(t *testing.T) (all []asking) {
	small, middle, large := heat.SizeClass{LowMM: 20, HighMM: 35}, heat.SizeClass{LowMM: 35, HighMM: 50}, heat.SizeClass{Grams: 1500, Count: 9}
	for i, classes := range [][]heat.SizeClass{{middle}, {small, middle}, {small, large}, {{LowMM: 20, HighMM: 75, Grams: 900}}} {
		for _, cut := range []heat.Cut{{}, {Shape: heat.Whole}, {Shape: heat.Halves}, mustCut(t, "cube 25 mm"), mustCut(t, "quarters 60 mm"), mustCut(t, "slice 9 mm")} {
			for k, c := range []heat.Conditions{{}, {LoadGrams: 1600, NetPowerW: 350}} {
				crop := mustCrop(t, []string{"potato", "beetroot"}[k], "")
				wish := heat.Wish{Cut: cut, Until: heat.JustTender + heat.Doneness(i%3), Sparing: k == 1}
				all = append(all, one(fmt.Sprintf("cutting %s %d to %s", crop.Title(), i, cut), func() any { return of(heat.PlanCuts(crop, classes, wish, c)) }))
			}
		}
		all = append(all, one(fmt.Sprintf("lot %d", i), func() any {
			bands, err := heat.Bands(mustCrop(t, "potato", ""), classes)
			require.NoError(t, err)
			return []any{bands, of(heat.SteamLot(mustCrop(t, "potato", ""), mustCut(t, "cube 30 mm"), bands[0], heat.Tender, heat.Conditions{}))}
		}))
	}
	return all
}

func learningAsked(t *testing.T) (all []asking) {
	test := func(cut string, until heat.Doneness, said heat.Finding, minutes float64, made heat.MadeUnder, grams float64) heat.KnifeTest {
		return heat.KnifeTest{Crop: "potato", Texture: "waxy", Cut: mustCut(t, cut), Until: until, Said: said, Minutes: minutes, LoadG: grams, Made: made, Place: "in a test"}
	}
	own := heat.MadeUnder{StartC: celsius(12), AltitudeM: celsius(300), NetPowerW: 550}
	tests := []heat.KnifeTest{
		test("cube 25 mm", heat.JustTender, heat.JustRight, 9.5, own, 500), test("whole 50 mm", heat.Tender, heat.JustRight, 30, heat.MadeUnder{}, 0),
		test("cube 20 mm", heat.JustTender, heat.Over, 8, own, 700), test("cube 30 mm", heat.JustTender, heat.NotYet, 12.5, own, 900),
		test("cube 25 mm", heat.Tender, heat.JustRight, 15, heat.MadeUnder{Tier: 1}, 0),
		test("cube 25 mm", heat.Tender, heat.JustRight, 14, heat.MadeUnder{Tier: 1, NetPowerW: 600}, 2600), test("halves 45 mm", heat.Soft, heat.NotYet, 22, own, 2600),
		{Crop: "carrot", Cut: mustCut(t, "slice 8 mm"), Until: heat.Tender, Minutes: 9}, test("cube 25 mm", heat.Tender, heat.JustRight, 0.4, own, 0), test("cube 25 mm", heat.Tender, heat.JustRight, 10, heat.MadeUnder{Tier: 5}, 500),
	}
	waxy := mustCrop(t, "potato", "waxy")
	for _, c := range []heat.Conditions{{Tiers: 2}, {LoadGrams: 800, NetPowerW: 900, BasketMM: 200, Tiers: 3}} {
		for _, n := range []int{1, 2, 4, 6, len(tests)} {
			all = append(all, one(fmt.Sprintf("after %d knife tests", n), func() any {
				learned, left := heat.LearnFrom(tests[:n], waxy, c)
				c.Learned = learned
				return []any{learned, left, learned.Reasons(waxy), of(heat.Steam(waxy, mustCut(t, "cube 35 mm"), heat.Tender, c)), of(heat.Steam(waxy, mustCut(t, "cube 10 mm"), heat.JustTender, c))}
			}))
		}
		for i, one := range tests {
			all = append(all, asking{fmt.Sprintf("knife test %d", i), func() any { return of(one.Expected(c)) }})
		}
	}
	return all
}

// wordsAsked are whole questions as they are typed.
func wordsAsked(t *testing.T) (all []asking) {
	for i, words := range []heat.Words{
		{Crop: "potato", Cut: "cube 1 inch", Until: "tender", Start: "60 F", Altitude: "900 ft", Load: "1.5 kg"},
		{Crop: "potato", Kind: "floury", Cut: "halves", Lots: []string{"20-45 mm 400 g", "820 g 9 pieces"}, Load: "1 kg", Cool: "bowl 60 mm", Room: "24 C"},
		{Crop: "peas", Load: "800 g", Cool: "ice water"}, {Crop: "beetroot", Cut: "whole", Sizes: "30..70"}, {Crop: "carrot", Cut: "slice", UsualSizes: true},
		{Crop: "carrot", Cut: "baton 10 mm", Tuber: "30 mm", Cool: "tray", Curve: true}, {Crop: "potato", Cut: "cube 25 mm", Tuber: "24 g", Heaped: true, Load: "3 kg"},
		{Crop: "potato", Cut: "quarters 80 mm", Until: "soft", Tier: "2", Load: "2 kg"}, {Crop: "potato", Lots: []string{"30-60 mm"}}, {Crop: "potato", Cut: "cube 25 mm", Lots: []string{"20-45 mm", "45-70 mm"}, Load: "2.5 kg"},
		{Crop: "potato", Cut: "halves", Lots: []string{"25-55 mm"}, Load: "2 kg", Until: "tender"}, {Crop: "potato", Cut: "halves 50 mm", Lots: []string{"25-55 mm"}, Load: "2 kg"}, {Crop: "swede", Cut: "cube 15 mm", Cool: "bowl in ice water", Load: "600 g"},
	} {
		all = append(all, one(fmt.Sprintf("typed %d", i), func() any {
			q, assumed, err := words.Read(heat.Question{Equipment: equipments[i%3], RoomC: 20}, units.Metric, 5)
			require.NoError(t, err)
			a, err := q.Answer()
			return both{Answer: []any{assumed, q.Table, a, a.Reasons()}, Err: err}
		}))
	}
	return all
}
