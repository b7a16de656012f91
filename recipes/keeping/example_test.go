package keeping_test

import (
	"fmt"
	"strings"
	"time"

	"trencher/recipes/keeping"
)

var cooked = time.Date(2031, 7, 12, 13, 0, 0, 0, time.UTC)

// A salad from the stove to the last helping: what to do with it now, and until
// when it could be eaten if it stayed on the table.
func Example() {
	salad := keeping.Batch{
		Food:      "potato salad",
		CookedAt:  cooked,
		ChilledAt: cooked.Add(time.Hour),
		Fridge:    keeping.Celsius(4),
		Air:       keeping.Celsius(24),
		Out:       []keeping.Spell{{From: cooked.Add(5 * time.Hour)}},
	}
	now := cooked.Add(6 * time.Hour)
	verdict, err := keeping.Judge(salad, keeping.UnitedKingdom, now)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(verdict.Kind, verdict.Head)

	deadline, err := keeping.DeadlineOf(salad, keeping.UnitedKingdom, now)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(deadline.Until.Format("15:04"), deadline.Rule)
	rule, _ := keeping.LookupRule(deadline.Rule)
	fmt.Println(rule.Provenance, "-", rule.KnownBy)
	// Output:
	// fine-now Fine now; back in a cold fridge by 20:00, or eaten by 22:00.
	// 22:00 uk-party-4h
	// Food Standards Scotland; UK law on chill holding: Storing food; Schedule 4 paragraph 5(1) - read
}

// The moment a batch on the table becomes one to throw out.
func ExampleDeadlineOf() {
	batch := keeping.Batch{Food: "mash", CookedAt: cooked, Air: keeping.Celsius(20)}
	for _, authority := range append(keeping.Authorities(), keeping.Strictest) {
		deadline, err := keeping.DeadlineOf(batch, authority, cooked)
		if err != nil {
			fmt.Println(err)
			return
		}
		clock, before := deadline.Clock()
		fmt.Println(authority, clock.Format("15:04"), before, deadline.Holds(cooked.Add(3*time.Hour)))
	}
	// Output:
	// uk 15:00 false false
	// us 15:00 false false
	// au-nz 17:00 true true
	// strictest 15:00 false false
}

// Potatoes cooked at one o'clock and still on the table.
func ExampleJudge() {
	batch := keeping.Batch{Food: "boiled-potatoes", CookedAt: cooked, Air: keeping.Celsius(20)}
	verdict, err := keeping.Judge(batch, keeping.Strictest, cooked.Add(90*time.Minute))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(verdict.Kind)
	fmt.Println(verdict.Head)
	fmt.Println(verdict.Sentence)
	// Output:
	// fine-now
	// Fine now; into the fridge by 15:00, or eaten.
	// Cooked food to be kept has 2 h from the stove to the fridge.
}

// A fact that decides and is missing is named.
func ExampleJudge_missing() {
	verdict, err := keeping.Judge(keeping.Batch{Food: "mash", ChilledAt: cooked}, keeping.Strictest, cooked.Add(time.Hour))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(verdict.Kind, verdict.Missing)
	// Output: unknown cooked_at
}

// What can be asked for goes by its kitchen names.
func ExampleGuide() {
	guide, err := keeping.Guide("potato salad")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(guide.Food.ID)
	fmt.Println(guide.Short)
	// Output:
	// dressed-salad
	// Dress it cold; eaten within 48 h of cooking, out of the fridge for less than 2 h in all.
}

// A salad for half past six: steamed at twenty to four, spread on a tray, in
// the fridge before five.
func ExamplePlanNotes() {
	notes, err := keeping.PlanNotes(keeping.PlanFacts{
		TableFrom: cooked.Add(5*time.Hour + 30*time.Minute),
		Air:       keeping.Celsius(24),
		Dishes: []keeping.PlanDish{{
			Name: "Potato salad",
			History: keeping.Batch{
				Food: "dressed-salad", CookedAt: cooked.Add(2*time.Hour + 40*time.Minute), ChilledAt: cooked.Add(3*time.Hour + 45*time.Minute),
			},
			Heaped: 5 * time.Hour, Spread: time.Hour,
		}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, note := range notes[:2] {
		fmt.Println(note.Kind, note.Dishes, note.Says)
	}
	// Output:
	// cool-by [Potato salad] cooked at 15:40, in the fridge by 17:40. Spread it one layer deep on a tray; heaped in a bowl it would take 5 h.
	// table [Potato salad] on the table from 18:30; eaten or back in the fridge before 20:30, else thrown out.
}

// The rules about thawing, by their ids.
func ExampleRules() {
	for _, rule := range keeping.Rules() {
		if strings.Contains(rule.ID, "thaw") {
			fmt.Println(rule.ID)
		}
	}
	// Output:
	// thaw-2d-scotland
	// thaw-in-fridge
	// thaw-24h
	// thaw-how
}
