package meal_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/meal"
)

// One by one, everything of three plans is moved a little, and what the inspector
// finds is looked at in full. Three hundred ways to spoil a plan, most of them by a
// minute: what he does not find has to be slack that the plan really has.
func TestWhatTheInspectorFinds(t *testing.T) {
	dishes := func(texts ...string) (all []recipes.Dish) {
		for i, text := range texts {
			all = append(all, loadDish(t, fmt.Sprintf("dishes/%d.yaml", i), text))
		}
		return all
	}
	beans, carrots, potatoes := lot("bed-2/beans", "french-bean", 900, 0, 0), lot("bed-3/carrots", "carrot", 300, 0, 0), lot("tub-1/a", "potato", 2400, 20, 45)
	cold := question(t, dishes(salad, blanched, embers), potatoes, beans, carrots)
	cold.Kitchen = loadKitchen(t, "fridge: 4 C\ncold-box: {ice: 2 kg, holds: 5 C}\nstove: {power: 1.8 kW, rings: 2, canister: 190 g}\npot: {volume: 5 l}\nhands: 2\n")
	pots := question(t, dishes(crushed, beanStew), lot("tub-1/a", "potato", 3000, 30, 60), beans)
	pots.Dishes[0].Largest = 16
	pots.Kitchen = loadKitchen(t, "steamer: {diameter: 220 mm, tiers: 1}\nstove: {power: 1.2 kW, canister: 100 g, rings: 2}\nwater: carried 1 l\npot: {volume: 2 l}\nhands: 2\n")
	table := question(t, dishes(eggSalad, twoCrops), potatoes, lot("bed-1/b", "beetroot", 900, 35, 55))
	table.Mode, table.Sides, table.Guests = meal.Table, 2, guests(t, "3 adults, 1 adult pregnant, 1 adult no milk")
	for name, q := range map[string]meal.Question{"cold-box": cold, "two-pots": pots, "at-table": table} {
		t.Run(name, func(t *testing.T) {
			plan := makePlan(t, q)
			var out strings.Builder
			for _, s := range spoilings(plan) {
				spoilt := plan
				spoilt.Steps, spoilt.Clocks, spoilt.Lots, spoilt.Left = slices.Clone(plan.Steps), slices.Clone(plan.Clocks), slices.Clone(plan.Lots), slices.Clone(plan.Left)
				spoilt.Apart, spoilt.Plates = slices.Clone(plan.Apart), slices.Clone(plan.Plates)
				s.spoil(&spoilt)
				fmt.Fprintf(&out, "%s\n", s.what)
				for _, found := range meal.Check(spoilt) {
					fmt.Fprintf(&out, "    %s: %s\n", found.Dish, found.Says)
				}
			}
			golden(t, "testdata/spoilt/"+name+".txt", out.String())
			require.Empty(t, meal.Check(plan), "the plan itself is as it was")
		})
	}
}

type spoiling struct {
	what  string
	spoil func(*meal.Plan)
}

func spoilings(plan meal.Plan) (all []spoiling) {
	add := func(what string, spoil func(*meal.Plan)) { all = append(all, spoiling{what, spoil}) }
	for i, step := range plan.Steps {
		called := fmt.Sprintf("%s %s %s", step.ID, step.Kind, strings.Join(step.Dishes, ", "))
		of := func(what string, spoil func(*meal.Step)) {
			add(called+what, func(p *meal.Plan) { spoil(&p.Steps[i]) })
		}
		of(" a minute sooner", func(s *meal.Step) { s.At = s.At.Add(-time.Minute) })
		of(" a minute later", func(s *meal.Step) { s.At = s.At.Add(time.Minute) })
		of(" a minute longer", func(s *meal.Step) { s.Length += time.Minute })
		of(" a minute shorter", func(s *meal.Step) { s.Length -= time.Minute })
		add(called+" left out", func(p *meal.Plan) { p.Steps = slices.Delete(p.Steps, i, i+1) })
		if step.Hands > 0 {
			of(" by one more", func(s *meal.Step) { s.Hands++ })
		}
		if step.Ring > 0 {
			of(" on the other ring", func(s *meal.Step) { s.Ring = 3 - s.Ring })
			of(" on a third ring", func(s *meal.Step) { s.Ring = 3 })
		}
	}
	for i, clock := range plan.Clocks {
		of := func(what string, spoil func(*meal.Clock)) {
			add("clock of "+clock.Dish+what, func(p *meal.Plan) { spoil(&p.Clocks[i]) })
		}
		of(" told the other way", func(c *meal.Clock) { c.Holds = !c.Holds })
		of(" from a minute sooner", func(c *meal.Clock) { c.History.CookedAt = c.History.CookedAt.Add(-time.Minute) })
		of(" chilled a minute sooner", func(c *meal.Clock) { c.History.ChilledAt = c.History.ChilledAt.Add(-time.Minute) })
		of(" dressed a minute later", func(c *meal.Clock) { c.DressedAt = c.DressedAt.Add(time.Minute) })
		of(" never out", func(c *meal.Clock) { c.History.Out = nil })
		of(" of another dish", func(c *meal.Clock) { c.Dish = "another" })
	}
	gram := decimal.NewFromInt(1)
	for i, lot := range plan.Lots {
		add(lot.Name+" told to give a gram more", func(p *meal.Plan) { p.Lots[i].Taken = p.Lots[i].Taken.Add(gram) })
		add(lot.Name+" a gram smaller than it is", func(p *meal.Plan) {
			less := *lot.Lot
			less.Supply = less.Supply.Sub(gram)
			p.Lots[i].Lot = &less
		})
		add(lot.Name+" gives more than it has", func(p *meal.Plan) {
			less := *lot.Lot
			less.Supply = lot.Taken.Sub(gram)
			p.Lots[i].Lot = &less
			p.Left = []meal.Leftover{{Lot: &less, Grams: gram.Neg()}}
		})
	}
	for i := range plan.Left {
		add(plan.Left[i].Name+" with a gram more left", func(p *meal.Plan) { p.Left[i].Grams = p.Left[i].Grams.Add(gram) })
	}
	for d, dish := range plan.Dishes {
		for i, part := range dish.Parts {
			of := func(what string, spoil func(*meal.Part)) {
				add(dish.Name()+", "+part.Line.Crop+what, func(p *meal.Plan) {
					p.Dishes = slices.Clone(p.Dishes)
					p.Dishes[d].Parts = slices.Clone(p.Dishes[d].Parts)
					spoil(&p.Dishes[d].Parts[i])
				})
			}
			of(" a gram more lifted", func(p *meal.Part) { p.Lifted = p.Lifted.Add(gram) })
			of(" from nothing", func(p *meal.Part) { p.From = []meal.Take{} })
			of(" and nothing of another lot", func(p *meal.Part) {
				p.From = append(slices.Clone(p.From), meal.Take{Lot: &harvest.Lot{ID: "x", Name: "x", Planting: &harvest.Planting{}}})
			})
			if part.Pot != nil {
				pot := *part.Pot
				of(" boiled once more", func(p *meal.Part) { more := pot; more.Rounds++; p.Pot = &more })
				of(" that has to boil an hour", func(p *meal.Part) { more := pot; more.AtLeast = time.Hour; p.Pot = &more })
			}
			if part.IsCookedOwn() {
				of(" for two minutes more", func(p *meal.Part) { p.Line.Minutes += 2 })
			}
		}
	}
	for i, one := range plan.Apart {
		of := func(what string, spoil func(*meal.Apart)) {
			add(one.Dish+" set apart"+what, func(p *meal.Plan) { spoil(&p.Apart[i]) })
		}
		of(" for one more", func(a *meal.Apart) { a.People++ })
		of(" at no step", func(a *meal.Apart) { a.Step = "" })
		of(" without nothing", func(a *meal.Apart) { a.Without = nil })
		of(" of no dish", func(a *meal.Apart) { a.Dish = "none" })
		of(" told the other way", func(a *meal.Apart) { a.Clock.Holds = !a.Clock.Holds })
		of(" for the strong", func(a *meal.Apart) { a.Clock.History.Vulnerable = false })
		add(one.Dish+" not set apart", func(p *meal.Plan) { p.Apart = slices.Delete(p.Apart, i, i+1) })
	}
	for i, plate := range plan.Plates {
		add("the plate of "+plate.Guest.Label()+" once more", func(p *meal.Plan) { p.Plates[i].Number++ })
		add("the plate of "+plate.Guest.Label()+" with all dishes", func(p *meal.Plan) {
			p.Plates[i].Dishes = nil
			for _, dish := range p.Dishes {
				p.Plates[i].Dishes = append(p.Plates[i].Dishes, dish.Name())
			}
		})
		add("the plate of "+plate.Guest.Label()+" with another dish", func(p *meal.Plan) { p.Plates[i].Dishes = []string{"none"} })
	}
	add("all two minutes sooner than served", func(p *meal.Plan) { p.ServeAt = p.ServeAt.Add(2 * time.Minute) })
	add("served half an hour later than it is", func(p *meal.Plan) { p.ServeAt = p.ServeAt.Add(31 * time.Minute) })
	add("no warnings", func(p *meal.Plan) { p.Warnings = nil })
	add("one pair of hands", func(p *meal.Plan) { p.Kitchen.Hands = 1 })
	add("one ring", func(p *meal.Plan) { p.Kitchen.Stove.Rings = 1 })
	add("a small canister", func(p *meal.Plan) { p.Kitchen.Stove.CanisterG = 20 })
	add("no canister told", func(p *meal.Plan) { p.Supplies.Canisters = 0 })
	add("a gram of gas more", func(p *meal.Plan) { p.Supplies.GasG++ })
	add("little water", func(p *meal.Plan) { p.Supplies.WaterML = p.Supplies.StartML })
	add("a pan nearly empty", func(p *meal.Plan) { p.Supplies.StartML = 50 })
	add("a warm fridge", func(p *meal.Plan) { p.Kitchen.FridgeC = 9 })
	add("a hot room", func(p *meal.Plan) { p.AirC = 38 })
	add("a warm cold box", func(p *meal.Plan) { p.Kitchen.ColdBox.HoldsC = 9 })
	add("next to no ice", func(p *meal.Plan) { p.Kitchen.ColdBox.IceG = 20 })
	add("no ice for what is blanched", func(p *meal.Plan) { p.Supplies.IceG = 0 })
	return all
}
