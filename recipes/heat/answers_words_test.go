package heat_test

import (
	"errors"
	"fmt"
	"testing"

	"trencher/recipes/heat"
	"trencher/units"
)

// potsAsked are whole questions about a pot as they are typed.
func potsAsked(t *testing.T) (all []asking) {
	for i, words := range []heat.PotWords{
		{Words: heat.Words{Crop: "potato", Cut: "whole 40 mm", Until: "tender", Load: "1.2 kg"}, Water: "2 l"},
		{Words: heat.Words{Crop: "carrot", Cut: "slice 6 mm"}, Cold: true}, {Words: heat.Words{Crop: "beetroot", Cut: "whole 60 mm", Load: "900 g"}, Simmer: "94 C", Lidless: true},
		{Words: heat.Words{Crop: "peas", Altitude: "1600 m", Start: "4 C"}}, {Words: heat.Words{Crop: "broccoli", Load: "2 lb"}, Water: "6 pt UK"},
	} {
		q, assumed, err := words.ReadPot(heat.Question{Equipment: equipments[i%3]}, units.UK)
		all = append(all,
			one(fmt.Sprintf("pot %d", i), func() any { return both{Answer: []any{assumed, q.Grams, q.Water, of(q.Boil())}, Err: err} }),
			one(fmt.Sprintf("pot %d, blanched", i), func() any { return of(q.Blanch()) }),
			one(fmt.Sprintf("pot %d, why", i), func() any {
				boiled, err := q.Boil()
				if err != nil {
					return err
				}
				blanched, err := q.Blanch()
				return both{Answer: append(boiled.Estimate.Reasons(), blanched.Reasons()...), Err: err}
			}))
	}
	return all
}

// namesAsked are the lists of words, and words taken apart.
func namesAsked(t *testing.T) (all []asking) {
	all = append(all, one("words", func() any {
		return []any{heat.CropNames(), heat.DonenessNames(), heat.FindingNames(), heat.Fuels(), len(heat.PrintedTimes())}
	}))
	for _, text := range [][]string{nil, {"potato"}, {"cube", "25", "mm"}, {"sweet", "potato", "cube 2 cm"}, {"carrot slice 5 mm"}, {"green", "beans"}, {"granite", "cube", "3", "mm"}, {"green granite"}} {
		all = append(all, one(fmt.Sprintf("%q", text), func() any {
			crop, cut := heat.CropAndCut(text)
			return []string{"crop", crop, "cut", cut}
		}))
	}
	for _, row := range heat.PrintedTimes()[:150] {
		if row.Shape == 0 {
			continue
		}
		all = append(all, one("row "+row.ID, func() any {
			return []any{row.Crop, string(row.Way), row.Low, row.High, string(row.From), row.SmallMM, row.LargeMM, row.Style}
		}))
	}
	for _, crop := range []string{"potato", "carrot", "peas"} {
		for _, name := range []string{"cube 20 mm", "whole 30 mm"} {
			for i, e := range equipments {
				all = append(all, one(fmt.Sprintf("a layer of %s, %s, in kitchen %d", crop, name, i), func() any {
					return []any{of(heat.LayerGrams(mustCrop(t, crop, ""), mustCut(t, name), heat.JustTender, e, heat.Conditions{AltitudeM: 700})),
						of(heat.LayerGrams(mustCrop(t, crop, ""), mustCut(t, name), heat.Soft, e, heat.Conditions{StartC: celsius(5)}))}
				}))
			}
		}
	}
	return all
}

// refusedAsked are questions that are refused, with what is said of each.
func refusedAsked(t *testing.T) (all []asking) {
	refused := func(name string, err error) {
		all = append(all, one("refused, "+name, func() any { return told(err) }))
	}
	waxy := mustCrop(t, "potato", "waxy")
	for i, words := range []heat.Words{
		{Crop: "granite"}, {Crop: "potato", Kind: "purple"}, {Crop: "potato"}, {Crop: "potato", Cut: "cube"}, {Crop: "potato", Cut: "cube 1 mm"}, {Crop: "potato", Cut: "cube -5 mm"},
		{Crop: "potato", Cut: "cube 25 mm", Until: "hard"}, {Crop: "potato", Cut: "cube 25 mm", Start: "warm"}, {Crop: "potato", Cut: "cube 25 mm", Altitude: "3 kg"},
		{Crop: "potato", Cut: "cube 25 mm", Load: "3 m"}, {Crop: "potato", Cut: "cube 25 mm", Room: "nice"}, {Crop: "potato", Cut: "cube 25 mm", Tier: "0"}, {Crop: "potato", Cut: "cube 25 mm", Tier: "7"},
		{Crop: "potato", Cut: "cube 25 mm", Tier: "top"}, {Crop: "potato", Cut: "cube 25 mm", Cool: "oven"}, {Crop: "potato", Cut: "cube 25 mm", Cool: "tray in ice water"}, {Crop: "potato", Cut: "cube 25 mm", Cool: "bowl wide"},
		{Crop: "potato", Cut: "cube 25 mm", Tuber: "heavy"}, {Crop: "potato", Cut: "cube 25 mm", Tuber: "20-30 mm"}, {Crop: "potato", Cut: "cube 25 mm", Tuber: "20 mm"}, {Crop: "potato", Cut: "whole", Tuber: "250 mm"},
		{Crop: "potato", Sizes: "60..20"}, {Crop: "potato", Sizes: "1..20"}, {Crop: "potato", Sizes: "20..201"}, {Crop: "potato", Sizes: "20..60:0.4"}, {Crop: "potato", Sizes: "20 to 60"}, {Crop: "potato", Curve: true, Sizes: "20..40"},
		{Crop: "potato", Lots: []string{""}}, {Crop: "potato", Lots: []string{"some"}}, {Crop: "potato", Lots: []string{"820 g 2-3 pieces"}}, {Crop: "potato", Lots: []string{"820 g"}}, {Crop: "potato", Lots: []string{"820 g 1.5 pieces"}},
		{Crop: "potato", Lots: []string{"60-20 mm"}}, {Crop: "potato", Lots: []string{"20-300 mm"}}, {Crop: "potato", Lots: []string{"20 l 3"}}, {Crop: "potato", Lots: []string{"9 kg 2 pieces"}}, {Crop: "potato", Lots: []string{"1-2 kg 9 pieces"}},
	} {
		_, _, err := words.Read(heat.Question{}, units.Metric, 4)
		refused(fmt.Sprintf("typed %d", i), err)
	}
	for i, words := range []heat.PotWords{
		{Words: heat.Words{Crop: "potato", Cut: "halves"}}, {Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}, Water: "wet"}, {Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}, Water: "0 l"},
		{Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}, Simmer: "low"}, {Words: heat.Words{Crop: "turnips and more", Cut: "cube 25 mm"}}, {Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}, Simmer: "-3 C"},
	} {
		_, _, err := words.ReadPot(heat.Question{}, units.Metric)
		refused(fmt.Sprintf("pot %d", i), err)
	}
	for _, text := range []string{"", "blob 3 mm", "box 3x4 mm", "cube 3x4 mm", "slice 2x3x4 mm", "cube 25", "cube 25 g", "cube 20-30 mm", "baton 10xmany mm", "whole -3 mm", "whole 1e9 mm", "halves across 3 kg", "cube 201 mm"} {
		_, err := heat.ParseCut(text)
		refused("cut "+text, err)
	}
	for _, text := range []string{"", "9 min", "tender", "9 min raw", "0.4 min tender", "181 min tender", "nine min tender", "9 kg tender"} {
		_, err := heat.ParseFound(text)
		refused("found "+text, err)
	}
	for _, text := range []string{"whole 3", "", "blob"} {
		_, err := heat.ParseShape(text)
		refused("shape "+text, err)
	}
	for _, text := range []string{"nearly", "not"} {
		_, err := heat.ParseFinding(text)
		refused("finding "+text, err)
	}
	_, err := heat.Steam(waxy, heat.Cut{}, heat.Tender, heat.Conditions{})
	refused("no cut", err)
	_, err = heat.Steam(waxy, heat.Cut{Shape: heat.Halves}, heat.Tender, heat.Conditions{})
	refused("no size", err)
	_, err = heat.Steam(waxy, mustCut(t, "cube 150 mm"), heat.Soft, heat.Conditions{})
	refused("never done", err)
	_, err = heat.Steam(waxy, mustCut(t, "cube 25 mm"), heat.Soft, heat.Conditions{StartC: celsius(-1)})
	refused("frozen", err)
	_, err = heat.Equipment{Fuel: "peat"}.NetPowerW()
	refused("peat", err)
	_, err = heat.Equipment{PowerW: 250}.NetPowerW()
	refused("weak", err)
	_, err = heat.Equipment{PowerW: 250, Fuel: "peat"}.PotToBoil(1000, 0)
	refused("weak pot", err)
	_, err = heat.BoilPlan(waxy, mustCut(t, "cube 25 mm"), heat.Tender, 500, heat.Equipment{}, heat.Water{HeldC: 70}, heat.Conditions{})
	refused("simmer", err)
	_, err = heat.Blanch(waxy, mustCut(t, "cube 25 mm"), 500, heat.Equipment{PotML: 50000, PowerW: 700}, heat.Conditions{})
	refused("a pot too large", err)
	_, err = heat.Cool(waxy, mustCut(t, "cube 25 mm"), heat.Spread{Bowl: true}, 20)
	refused("a bowl of nothing", err)
	_, err = heat.ChillIn(waxy, mustCut(t, "cube 25 mm"), heat.Spread{}, heat.ColdPlace{In: heat.IceWater, IceG: 100})
	refused("ice for nothing", err)
	_, err = heat.PlanCuts(waxy, nil, heat.Wish{}, heat.Conditions{})
	refused("no sizes", err)
	_, err = heat.SteamLot(waxy, mustCut(t, "cube 25 mm"), heat.Sizes{LowMM: 50, HighMM: 30}, heat.Tender, heat.Conditions{})
	refused("sizes upside down", err)
	_, err = heat.SteamTiers(nil, heat.Conditions{})
	refused("no tiers", err)
	return all
}

// told is an error as a face shows it.
func told(err error) []string {
	var field *units.FieldError
	if errors.As(err, &field) {
		return []string{field.Field, field.Value, field.Problem, field.Accepted}
	}
	return []string{fmt.Sprint(err)}
}
