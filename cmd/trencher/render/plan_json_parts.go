package render

import (
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"trencher/recipes"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
	"trencher/units"
)

func bandOf(low, high int) []int {
	if low == 0 && high == 0 {
		return nil
	}
	return []int{low, high}
}

func lotOf(l meal.LotUse) lotJSON {
	out := lotJSON{ID: l.ID, Name: l.Name, Crop: l.Crop, Planting: l.Planting.ID, Condition: string(l.Condition),
		Sizes: bandOf(l.Sizes.Low, l.Sizes.High), Supply: l.Supply, First: l.First}
	if !l.KeepsUntil.IsZero() {
		out.KeepsUntil = l.KeepsUntil.Format(time.DateOnly)
	}
	return out
}

func setAsideOf(l meal.Aside) setAsideJSON {
	return setAsideJSON{l.ID, l.Crop, l.Weight, asideWords(l)}
}

func boundsOf(plan meal.Plan) []boundJSON {
	return each(plan.Bounds, func(b meal.Bound) boundJSON { return boundJSON{boundOf(b), boundWords(b, plan)} })
}

func plateOf(p meal.Plate) plateJSON {
	return plateJSON{Guest: p.Guest.Label(), Number: p.Number, Dishes: each(p.Dishes, same), Child: p.Guest.Child, Short: p.Short, Apart: p.Apart}
}

func setApartOf(a meal.Apart) setApartJSON {
	out := setApartJSON{Dish: a.Dish, Guest: a.Guest.Label(), Number: a.People, Portions: units.DecimalOf(a.Portions), Without: a.Without,
		Because: a.Why, Step: a.Step, Rule: "vulnerable-table"}
	if a.Clock.Dish != "" {
		out.LimitAt, out.Holds = instant(a.Clock.LimitAt), &a.Clock.Holds
	}
	return out
}

func dishOf(plan meal.Plan, d int) dishJSON {
	dish := plan.Dishes[d]
	out := dishJSON{
		Name: dish.Name(), Portions: dish.Portions, Factor: units.DecimalOf(dish.Scaled.Factor), Served: string(dish.Recipe.Served),
		Others: each(dish.Scaled.Others, lineOf), Method: dish.Recipe.Method,
		Allergens: allergensOf(dish), Kinds: dish.Makeup.Kinds.Foods,
		Notes: tastingWords(dish), Cautions: dishCautions(plan, dish),
	}
	for _, part := range dish.Parts {
		out.Crops = append(out.Crops, cropOf(part))
	}
	return out
}

func allergensOf(dish meal.Dish) allergensJSON {
	sure, perhaps := dish.Makeup.Allergens()
	out := allergensJSON{Contains: each(sure, recipes.Allergen.String), May: each(perhaps, recipes.Allergen.String),
		Because: map[string]string{}, Unknown: each(dish.Makeup.Unknown(), same)}
	for allergen, word := range dish.Recipe.Because() {
		out.Because[allergen.String()] = word
	}
	return out
}

func cropOf(p meal.Part) cropJSON {
	return cropJSON{
		Crop: p.Line.Crop, Lifted: p.Lifted, Prepared: p.Prepared, Preparation: p.Line.Prepared, Cooked: aboveZero(p.Cooked),
		From: each(p.From, func(t meal.Take) takeJSON { return takeJSON{t.Lot.ID, t.Grams} }),
		Cut:  p.Line.Cut, CutNote: unevenWords(p), Steam: steamOf(p.Steam), Boil: potOf(p.Pot),
		Cuts: each(p.Cuts, func(c meal.Cut) cutJSON { return cutOf(p, c) }),
	}
}

// aboveZero is the number's digits; "" for nothing.
func aboveZero(d decimal.Decimal) string {
	if !d.IsPositive() {
		return ""
	}
	return d.String()
}

func cutOf(p meal.Part, c meal.Cut) cutJSON {
	return cutJSON{Sizes: bandOf(c.Sizes.Low, c.Sizes.High), How: cutWords(p, c), Piece: tenth(c.PieceMM),
		Minutes: tenth(c.Minutes), Low: tenth(c.Low), High: tenth(c.High)}
}

func steamOf(s *meal.Steaming) *steamJSON {
	if s == nil {
		return nil
	}
	e, load := s.Estimate, s.Load
	return &steamJSON{
		Minutes: tenth(s.Minutes), Low: tenth(s.Low), High: tenth(s.High), FromLoading: tenth(e.FromLoading), ComeUp: tenth(e.ComeUp),
		SteamC: tenth(e.SteamC), CentreC: tenth(e.CentreC), InRange: e.InRange(), KnifeTests: e.KnifeTests,
		Layers: load.Layers, Rounds: load.Rounds, GramsPerLayer: tenth(load.GramsPerLayer),
		WaterML: tenth(load.WaterML), GasG: tenth(load.GasG), ToBoil: tenth(load.ToBoil),
	}
}

// sourceOf says where an ingredient comes from.
func sourceOf(fromPlot bool) string {
	if fromPlot {
		return "plot"
	}
	return "shop"
}

func lineOf(l recipes.ScaledLine) lineJSON {
	words := scaledWords(l)
	out := lineJSON{Item: l.Item, State: l.State, Measured: words.Measured, Advice: words.Advice, Instead: words.Instead,
		Optional: l.Optional, From: sourceOf(l.FromPlot), ErrorPercent: tenth(l.Measured.ErrorPercent.InexactFloat64())}
	out.Exact, out.Low, out.High, out.Unit = exactDigits(l.Exact)
	return out
}

func wantOf(want meal.Want) lineJSON {
	words := wantWords(want)
	out := lineJSON{Item: want.Item, State: want.State, Measured: words.Measured, Optional: want.Optional,
		From: sourceOf(want.FromPlot), Dishes: want.Dishes, Cupboard: want.Cupboard}
	out.Exact, out.Low, out.High, out.Unit = exactDigits(want.Exact)
	return out
}

func levelsOf(plan meal.Plan) *levelsJSON {
	l := plan.Levels
	out := &levelsJSON{Fed: l.Fed, Dishes: l.Dishes, Balance: balance(l), Portions: l.Portions}
	if l.UseFirst != nil {
		out.UseFirst = units.DecimalOf(l.UseFirst)
	}
	if l.Fed != nil {
		out.Over = &l.Over
	}
	return out
}

func loadClassOf(l meal.LoadClass) loadClassJSON {
	return loadClassJSON{Class: l.Class, Dishes: l.Dishes, Grams: l.Grams, PerLayer: l.PerLayer.InexactFloat64(), Layers: l.Layers}
}

func runOf(plan meal.Plan, r meal.Run) runJSON {
	out := runJSON{ID: r.ID}
	out.Dishes = dishesAt(plan, r.Parts)
	for _, tier := range r.Tiers {
		out.Tiers = append(out.Tiers, dishesAt(plan, tier))
	}
	first, last := time.Time{}, time.Time{}
	for _, step := range plan.Steps {
		if step.Run != r.ID || step.Kind != schedule.Steam {
			continue
		}
		if first.IsZero() || step.At.Before(first) {
			first = step.At
		}
		if step.End().After(last) {
			last = step.End()
		}
	}
	out.At, out.Minutes = instant(first), int(last.Sub(first).Minutes())
	return out
}

// dishesAt names the dishes that parts belong to, each once.
func dishesAt(plan meal.Plan, parts []meal.PartAt) []string {
	var names []string
	for _, at := range parts {
		if dish := plan.Dishes[at.Dish].Name(); !slices.Contains(names, dish) {
			names = append(names, dish)
		}
	}
	return names
}

func stepOf(plan meal.Plan, s meal.Step) stepJSON {
	out := stepJSON{ID: s.ID, Kind: string(s.Kind), At: instant(s.At), Minutes: int(s.Length.Minutes()), Do: stepWords(plan, s),
		Dish: strings.Join(s.Dishes, ", "), Dishes: each(s.Dishes, same), Crop: s.Crop, Run: s.Run, Hands: s.Hands, Ring: s.Ring, Tier: s.Tier,
		After: each(s.After, same)}
	if s.AtOnce != "" {
		out.After = append(out.After, s.AtOnce)
	}
	if kind := lane(s); kind != laneWait {
		out.Uses = kind
	}
	return out
}

func clockOf(c meal.Clock) clockJSON {
	return clockJSON{Dish: c.Dish, Food: c.History.Food, CookedAt: instant(c.History.CookedAt), ChilledAt: instant(c.History.ChilledAt),
		DressedAt: instant(c.DressedAt), ServeAt: instant(c.ServeAt), LimitAt: instant(c.LimitAt), Rule: c.Rule, Holds: c.Holds}
}

func warningOf(plan meal.Plan, w meal.Warning) warningJSON {
	return warningJSON{Severity: string(w.Severity), Dish: w.Dish, Rule: w.Rule, Says: warningWords(w, plan), Mend: mendWords(w, plan)}
}
