package keeping

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A plan for a table at 18:30: a salad cooked at 15:40 and a hot dish cooked
// at 18:15.
func planFacts(t *testing.T) PlanFacts {
	at := func(clock string) time.Time { return clockOf(t, "2031-07-12T"+clock) }
	return PlanFacts{
		TableFrom: at("18:30"), Air: Celsius(24), Fridge: Celsius(4),
		Dishes: []PlanDish{
			{Name: "Salad", Food: "dressed-salad", CookedAt: at("15:40"), DressedAt: at("16:40"), ChilledAt: at("16:45"), Heaped: 5 * time.Hour, Spread: 62 * time.Minute},
			{Name: "Crushed", Food: "boiled-potatoes", CookedAt: at("18:15")},
		},
	}
}

func says(notes []Note) []string {
	var all []string
	for _, n := range notes {
		all = append(all, n.Says)
	}
	return all
}

func TestPlanNotesTellClockTimes(t *testing.T) {
	notes, err := PlanNotes(planFacts(t))
	require.NoError(t, err)
	assert.Equal(t, []string{
		"Salad: cooked at 15:40, in the fridge by 17:40. Spread it one layer deep on a tray; heaped in a bowl it would take 5 h.",
		"Salad: dress it cold, at 16:40, and back into the fridge until serving.",
		"Salad: on the table from 18:30; eaten or back in the fridge before 20:30, else thrown out.",
		"Salad: what is left and went back in time is eaten by Mon 15:40.",
		"Salad: the dressing buys no time out of the fridge.",
		"Crushed: cooked at 18:15; eaten or in the fridge by 20:15, unless it is kept at 63 °C or hotter.",
		"Crushed: what is left and went back in time is eaten by Mon 18:15, heated up once, to 75 °C in the middle, steaming all through.",
	}, says(notes))
	assert.Equal(t, "uk-cool-home-2h", notes[0].Rule)
	assert.Equal(t, clockOf(t, "2031-07-12T17:40"), notes[0].At)
}

func TestPlanNotesByCircumstance(t *testing.T) {
	cases := []struct {
		name   string
		change func(f *PlanFacts)
		want   string
		rule   string
	}{
		{"air above 32.2 °C halves the time on the table", func(f *PlanFacts) { f.Air = Celsius(34) },
			"Salad: on the table from 18:30; eaten or back in the fridge before 19:30 (half the time, in air of 34 °C), else thrown out.", "uk-picnic-2h"},
		{"and the time to the fridge", func(f *PlanFacts) {
			f.Air, f.Dishes[0].ChilledAt = Celsius(34), f.Dishes[0].CookedAt.Add(50*time.Minute)
		},
			"Salad: cooked at 15:40, in the fridge by 16:40. Even spread out it takes 1 h 2 min; cut it smaller, or stand the tray in cold water.", "uk-cool-home-2h"},
		{"air that is not known is told", func(f *PlanFacts) { f.Air = Temperature{} },
			"Crushed: cooked at 18:15; eaten or in the fridge by 20:15 (half that time in air above 32.2 °C), unless it is kept at 63 °C or hotter.", "uk-cool-home-2h"},
		{"the UK lets it stand longer", func(f *PlanFacts) { f.Authority = UnitedKingdom },
			"Salad: on the table from 18:30; back in the fridge before 20:30, or eaten by 22:30 and then thrown out.", "uk-picnic-2h"},
		{"and says that it is narrowed to the UK", func(f *PlanFacts) { f.Authority = UnitedKingdom },
			"Narrowed to the rules of the UK; the strictest of all allow less.", "uk-party-4h"},
		{"a bowl that cools in time", func(f *PlanFacts) { f.Dishes[0].Heaped = 100 * time.Minute },
			"Salad: cooked at 15:40, in the fridge by 17:40. In its bowl it cools in time.", "uk-cool-home-2h"},
		{"no estimate of the cooling", func(f *PlanFacts) { f.Dishes[0].Heaped, f.Dishes[0].Spread = 0, 0 },
			"Salad: cooked at 15:40, in the fridge by 17:40.", "uk-cool-home-2h"},
		{"a plan that chills too late", func(f *PlanFacts) { f.Dishes[0].ChilledAt = f.Dishes[0].CookedAt.Add(150 * time.Minute) },
			"Salad: cooked at 15:40, in the fridge by 17:40. Spread it one layer deep on a tray; heaped in a bowl it would take 5 h. The plan has it there at 18:10 only, too late to keep.", "uk-cool-home-2h"},
		{"a vulnerable eater", func(f *PlanFacts) { f.Vulnerable = true },
			"Salad: what is left and went back in time is eaten by Sun 15:40.", "au-vulnerable-24h"},
		{"raw egg and a vulnerable eater", func(f *PlanFacts) { f.Vulnerable, f.Dishes[0].Food = true, "dressed-salad-raw-egg" },
			"Salad: not for the vulnerable at the table; it has raw egg.", "raw-egg-24h"},
		{"a warm fridge", func(f *PlanFacts) { f.Fridge = Celsius(7) },
			"Salad, Crushed: the fridge at 7 °C is too warm to keep it in; 5 °C at most.", "us-chill-5c"},
		{"foil", func(f *PlanFacts) { f.Authority, f.Dishes[1].Food = UnitedKingdom, "baked-in-foil" },
			"Crushed: cooked at 18:15; eaten or in the fridge by 20:15, unless it is kept at 63 °C or hotter.", "uk-cool-home-2h"},
		{"a cold dish that goes straight to the table", func(f *PlanFacts) { f.Dishes[0].ChilledAt = time.Time{} },
			"Salad: cooked at 15:40; eaten or in the fridge by 17:40, unless it is kept at 63 °C or hotter.", "uk-cool-home-2h"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			facts := planFacts(t)
			c.change(&facts)
			notes, err := PlanNotes(facts)
			require.NoError(t, err)
			i := slices.Index(says(notes), c.want)
			require.GreaterOrEqual(t, i, 0, "%q", says(notes))
			assert.Equal(t, c.rule, notes[i].Rule)
		})
	}
	_, err := PlanNotes(PlanFacts{Dishes: []PlanDish{{Name: "Pizza", Food: "pizza"}}})
	require.ErrorContains(t, err, "Pizza")
	_, err = PlanNotes(PlanFacts{Authority: "eu"})
	require.ErrorContains(t, err, "authority")
}

// What a plan promises holds when the batch is judged as it went: on the table
// from serving until the moment named, it is fine; a minute later it is not.
func TestPlanNotesAgreeWithTheVerdict(t *testing.T) {
	for _, a := range append(Authorities(), Strictest) {
		for _, air := range []float64{20, 34} {
			facts := planFacts(t)
			facts.Authority, facts.Air = a, Celsius(air)
			facts.Dishes[0].ChilledAt = facts.Dishes[0].CookedAt.Add(55 * time.Minute)
			notes, err := PlanNotes(facts)
			require.NoError(t, err)
			i := slices.IndexFunc(notes, func(n Note) bool { return strings.Contains(n.Says, "Salad: on the table") })
			require.GreaterOrEqual(t, i, 0)
			batch := Batch{Food: "dressed-salad", CookedAt: facts.Dishes[0].CookedAt, ChilledAt: facts.Dishes[0].ChilledAt,
				Fridge: Celsius(4), Air: Celsius(air), Out: []Spell{{From: facts.TableFrom}}}
			for _, past := range []time.Duration{-time.Minute, time.Minute} {
				v, err := Judge(batch, a, notes[i].At.Add(past))
				require.NoError(t, err)
				assert.Equal(t, past > 0, v.Kind == Discard, "%s, air %g, %s", a, air, v.Sentence)
			}
		}
	}
}

func TestStandingNotes(t *testing.T) {
	var rules []string
	for _, n := range StandingNotes() {
		rules = append(rules, n.Rule)
		assert.NotEmpty(t, n.Says)
		_, ok := LookupRule(n.Rule)
		assert.True(t, ok, n.Rule)
	}
	assert.Subset(t, rules, []string{"stove-co", "steam-lid", "scald-20min"})
	assert.Contains(t, Cautions(false), "Allergens: check the labels.")
}

func TestFoodOfARecipe(t *testing.T) {
	cases := []struct {
		recipe Recipe
		food   string
	}{
		{Recipe{Name: "Crushed potatoes", Crops: []string{"potato"}}, "boiled-potatoes"},
		{Recipe{Name: "Spring onion mash", Crops: []string{"potato"}}, "mash"},
		{Recipe{Name: "Embers", Crops: []string{"potato"}, Method: []string{"Wrap in foil."}}, "baked-in-foil"},
		{Recipe{Name: "Salad", Cold: true, Method: []string{"Cover the bowl with foil."}}, "dressed-salad"},
		{Recipe{Name: "Salad", Cold: true, Crops: []string{"potato"}, Items: []string{"mayonnaise"}}, "dressed-salad"},
		{Recipe{Name: "Beets", Crops: []string{"beetroot"}}, "cooked-vegetables"},
		{Recipe{Name: "Salad", Cold: true, Items: []string{"egg hard-boiled"}}, "dressed-salad"},
		{Recipe{Name: "Salad", Cold: true, Items: []string{"egg"}}, "dressed-salad-raw-egg"},
		{Recipe{Name: "Salad", Cold: true, Items: []string{"egg yolk"}}, "dressed-salad-raw-egg"},
		{Recipe{Name: "Salad", Cold: true, Items: []string{"home-made mayonnaise"}}, "dressed-salad-raw-egg"},
		{Recipe{Name: "Hot with egg", Crops: []string{"potato"}, Items: []string{"egg"}}, "boiled-potatoes"},
		{Recipe{Name: "Hot with raw egg", Crops: []string{"potato"}, Items: []string{"raw egg yolk"}}, "dressed-salad-raw-egg"},
		{Recipe{Name: "Salad", Cold: true, Items: []string{"eggplant"}}, "dressed-salad"},
	}
	for _, c := range cases {
		assert.Equal(t, c.food, FoodOf(c.recipe), "%+v", c.recipe)
		_, err := LookupBatchFood(FoodOf(c.recipe))
		assert.NoError(t, err)
	}
}
