package keeping

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// All that is told of one dish, where what is left out matters as much.
func TestAllNotesOfADish(t *testing.T) {
	at := func(clock string) time.Time { return clockOf(t, "2031-07-12T"+clock) }
	salad := Batch{Food: "dressed-salad", CookedAt: at("15:40"), ChilledAt: at("16:45")}
	mash := Batch{Food: "boiled-potatoes", CookedAt: at("15:40"), ChilledAt: at("16:45")}
	const left = "what is left and went back in time is eaten by Mon 15:40"
	cases := []struct {
		name   string
		batch  Batch
		change func(f *PlanFacts)
		want   []string
	}{
		{"from the fridge", mash, func(*PlanFacts) {}, []string{
			"cooked at 15:40, in the fridge by 17:40.",
			"on the table from 18:30; eaten or back in the fridge before 20:30, else thrown out.",
			left + ", heated up once, to 75 °C in the middle, steaming all through.",
		}},
		{"a fridge at its limit", mash, func(f *PlanFacts) { f.Fridge = Celsius(5) }, []string{
			"cooked at 15:40, in the fridge by 17:40.",
			"on the table from 18:30; eaten or back in the fridge before 20:30, else thrown out.",
			left + ", heated up once, to 75 °C in the middle, steaming all through.",
		}},
		{"no fridge, nothing is kept", mash, func(f *PlanFacts) {
			f.NoFridge, f.TableFrom, f.Dishes[0].History.ChilledAt = true, at("16:30"), time.Time{}
		}, []string{
			"cooked at 15:40; eaten by 17:40, unless it is kept at 63 °C or hotter.",
		}},
		{"no fridge and served too late", mash, func(f *PlanFacts) { f.NoFridge, f.Dishes[0].History.ChilledAt = true, time.Time{} }, []string{
			"cooked at 15:40; eaten by 17:40, unless it is kept at 63 °C or hotter. The plan has it on the table at 18:30 only, too late to eat.",
		}},
		{"chilled too late, nothing is left", mash, func(f *PlanFacts) { f.Dishes[0].History.ChilledAt = at("17:41") }, []string{
			"cooked at 15:40, in the fridge by 17:40. The plan has it there at 17:41 only, too late to keep.",
			"not for the table at 18:30: its time ran out at 17:40. It took 2 h 1 min to get into the fridge; 2 h is the most.",
		}},
		{"chilled in the last minute", mash, func(f *PlanFacts) { f.Dishes[0].History.ChilledAt = at("17:40") }, []string{
			"cooked at 15:40, in the fridge by 17:40.",
			"on the table from 18:30; eaten or back in the fridge before 20:30, else thrown out.",
			left + ", heated up once, to 75 °C in the middle, steaming all through.",
		}},
		{"on the table too late, nothing is left", mash, func(f *PlanFacts) { f.Dishes[0].History.ChilledAt = time.Time{} }, []string{
			"cooked at 15:40; eaten or in the fridge by 17:40, unless it is kept at 63 °C or hotter. The plan has it on the table at 18:30 only, too late to eat.",
		}},
		{"heated up for the table, nothing is left", mash, func(f *PlanFacts) { f.Dishes[0].History.HeatedUp = true }, []string{
			"cooked at 15:40, in the fridge by 17:40.",
			"on the table from 18:30; eaten by 20:30, and then thrown out.",
		}},
		{"chilled too late with no table", mash, func(f *PlanFacts) { f.TableFrom, f.Dishes[0].History.ChilledAt = time.Time{}, at("17:41") }, []string{
			"cooked at 15:40, in the fridge by 17:40. The plan has it there at 17:41 only, too late to keep.",
		}},
		{"kept hot for nobody knows how long", mash, func(f *PlanFacts) { f.Dishes[0].History.HotAt = Celsius(70) }, []string{
			"cooked at 15:40; fine while it stays at 63 °C or hotter; eat it by Mon 15:40 at the latest. Once it falls below 63 °C it has 2 h to be in the fridge.",
			"cannot say without knowing until when it was kept hot (hot_until). Find it out and ask again; if you cannot, throw it out, for smell and looks do not tell.",
		}},
		{"kept hot till shortly before the fridge", mash, func(f *PlanFacts) {
			f.Dishes[0].History.HotAt, f.Dishes[0].History.HotUntil = Celsius(70), at("16:30")
		}, []string{
			"cooked at 15:40, in the fridge by 18:30.",
			"on the table from 18:30; eaten or back in the fridge before 20:30, else thrown out.",
			left + ", heated up once, to 75 °C in the middle, steaming all through.",
		}},
		{"kept hot to the table", mash, func(f *PlanFacts) {
			f.Dishes[0].History.HotAt, f.Dishes[0].History.ChilledAt = Celsius(70), time.Time{}
		}, []string{
			"cooked at 15:40; fine while it stays at 63 °C or hotter; eat it by Mon 15:40 at the latest. Once it falls below 63 °C it has 2 h to be in the fridge.",
			left + ", heated up once, to 75 °C in the middle, steaming all through.",
		}},
		{"raw egg and the vulnerable, with the clocks of the others", salad, func(f *PlanFacts) {
			f.Vulnerable, f.Dishes[0].History.Food = true, "dressed-salad-raw-egg"
		}, []string{
			"not for the vulnerable at the table: it has salad with raw egg, which is not for this eater; the others at the table may have it within its times.",
			"cooked at 15:40, in the fridge by 17:40.",
			"on the table from 18:30; eaten or back in the fridge before 20:30, else thrown out.",
			"what is left and went back in time is eaten by Sun 15:40.",
			"UK scheme eggs and pasteurised ones would be allowed longer; 24 h is kept all the same.",
			"the dressing buys no time out of the fridge.",
		}},
		{"air of its own, hot, on the table as well", mash, func(f *PlanFacts) {
			f.Air, f.Dishes[0].History.Air, f.Dishes[0].History.ChilledAt = Temperature{}, Celsius(34), at("16:30")
		}, []string{
			"cooked at 15:40, in the fridge by 16:40.",
			"on the table from 18:30; eaten or back in the fridge before 19:30 (half the time, in air of 34 °C), else thrown out.",
			left + ", heated up once, to 75 °C in the middle, steaming all through.",
		}},
		{"out already, in hotter air than the table's", mash, func(f *PlanFacts) {
			f.Dishes[0].History.Out = []Spell{{From: at("18:00"), Air: Celsius(34)}, {From: at("17:00"), To: at("17:10")}}
		}, []string{
			"cooked at 15:40, in the fridge by 17:40.",
			"on the table from 18:30; eaten or back in the fridge before 18:55 (half the time, in air of 34 °C), else thrown out.",
			left + ", heated up once, to 75 °C in the middle, steaming all through.",
		}},
		{"not cooked", Batch{Food: "mash", ChilledAt: at("16:45")}, func(*PlanFacts) {}, nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			facts := PlanFacts{TableFrom: at("18:30"), Air: Celsius(24), Fridge: Celsius(4), Dishes: []PlanDish{{Name: "Dish", History: c.batch}}}
			c.change(&facts)
			notes, err := PlanNotes(facts)
			require.NoError(t, err)
			var words []string
			for _, n := range notes {
				assert.Equal(t, []string{"Dish"}, n.Dishes)
				words = append(words, n.Says)
			}
			assert.Equal(t, c.want, words)
		})
	}
}

// Each note names the rules it rests on; that of hot air where the air is hot
// or not known.
func TestPlanNotesNameTheirRules(t *testing.T) {
	for air, counts := range map[Temperature]bool{Celsius(24): false, Celsius(32.2): false, Celsius(33): true, {}: true} {
		facts := planFacts(t)
		facts.Air = air
		facts.Dishes[0].DressedAt = time.Time{}
		facts.Dishes[0].History.ChilledAt = facts.Dishes[0].History.CookedAt.Add(50 * time.Minute)
		notes, err := PlanNotes(facts)
		require.NoError(t, err)
		for _, n := range notes {
			assert.Equal(t, n.Rules[0], n.Rule)
			switch n.Kind {
			case NoteCoolBy, NoteTable, NoteStraight:
				assert.Equal(t, counts, slices.Contains(n.Rules, "us-ambient-1h-90f"), "%s in air of %+v", n.Kind, air)
			}
		}
	}
	notes, err := PlanNotes(planFacts(t))
	require.NoError(t, err)
	rules := map[string][]string{}
	for _, n := range notes {
		rules[n.Dishes[0]+" "+string(n.Kind)] = n.Rules
	}
	assert.Subset(t, rules["Salad cool-by"], []string{"uk-cool-home-2h", "cool-spread-steamed", "cool-square-law"})
	assert.Equal(t, []string{"mix-oldest-ingredient", "mayo-no-shield"}, rules["Salad dress"])
	assert.Subset(t, rules["Salad table"], []string{"uk-picnic-2h", "au-2h4h", "us-ambient-2h"})
	assert.Equal(t, []string{"uk-leftovers-48h", "nz-cold-2d"}, rules["Salad left-over"])
	assert.Subset(t, rules["Crushed straight"], []string{"uk-cool-home-2h", "us-ambient-2h", "uk-hot-63"})
	assert.Subset(t, rules["Crushed left-over"], []string{"uk-leftovers-48h", "uk-reheat-once", "au-reheat-75"})
}

// With no serving time there is nothing to tell of the table, and the days are
// told from the first cooking on.
func TestPlanWithoutServing(t *testing.T) {
	facts := planFacts(t)
	facts.TableFrom = time.Time{}
	facts.Dishes[0].DressedAt = time.Time{}
	facts.Dishes = slices.Insert(facts.Dishes, 0, PlanDish{Name: "Radishes", History: Batch{Food: "mash"}}, facts.Dishes[1])
	notes, err := PlanNotes(facts)
	require.NoError(t, err)
	assert.Equal(t, []string{
		"Crushed: cooked at 18:15; eaten or in the fridge by 20:15, unless it is kept at 63 °C or hotter.",
		"Crushed: what is left and went back in time is eaten by Mon 18:15, heated up once, to 75 °C in the middle, steaming all through.",
		"Salad: cooked at 15:40, in the fridge by 17:40. Spread it one layer deep on a tray; heaped in a bowl it would take 5 h.",
		"Salad: what is left and went back in time is eaten by Mon 15:40.",
		"Salad: the dressing buys no time out of the fridge.",
	}, says(notes))
	assert.Equal(t, facts.Dishes[2].History.CookedAt, facts.now())
}

// Each note says what kind it is and whom it is about, apart from its words.
func TestPlanNotesAreTyped(t *testing.T) {
	facts := planFacts(t)
	facts.Fridge, facts.Authority = Celsius(9), AustraliaAndNZ
	facts.Dishes[0].DressedAt = time.Time{}
	facts.Dishes = append(facts.Dishes, PlanDish{Name: "Chives", History: Batch{Food: "mash"}}, PlanDish{Name: "Beets", History: facts.Dishes[1].History})
	notes, err := PlanNotes(facts)
	require.NoError(t, err)
	var typed []Note
	for _, n := range notes {
		typed = append(typed, Note{Kind: n.Kind, Dishes: n.Dishes, Danger: n.Danger, Rule: n.Rule})
	}
	both := []string{"Crushed", "Beets"}
	assert.Equal(t, []Note{
		{Kind: NoteCoolBy, Dishes: []string{"Salad"}, Rule: "au-cool-two-stage"},
		{Kind: NoteTable, Dishes: []string{"Salad"}, Rule: "au-2h4h"},
		{Kind: NoteLeftOver, Dishes: []string{"Salad"}, Rule: "au-2h4h"},
		{Kind: NoteWarning, Dishes: []string{"Salad"}, Rule: "mayo-no-shield"},
		{Kind: NoteWarning, Dishes: []string{"Salad", "Crushed", "Beets"}, Rule: "au-chill-5c"},
		{Kind: NoteStraight, Dishes: both, Rule: "au-cool-two-stage"},
		{Kind: NoteLeftOver, Dishes: both, Rule: "au-2h4h"},
		{Kind: NoteNarrowed, Rule: "au-2h4h"},
	}, typed, "%q", says(notes))
	for _, n := range StandingNotes() {
		assert.Equal(t, NoteStanding, n.Kind)
		assert.Empty(t, n.Dishes)
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
		{Recipe{Name: "Hot with egg", Crops: []string{"potato"}, Items: []string{"egg"}}, "dressed-salad-raw-egg"},
		{Recipe{Name: "Hot with raw egg", Crops: []string{"potato"}, Items: []string{"raw egg yolk"}}, "dressed-salad-raw-egg"},
		{Recipe{Name: "Salad", Cold: true, Items: []string{"eggplant"}}, "dressed-salad"},
	}
	for _, c := range cases {
		assert.Equal(t, c.food, KindsOf(c.recipe).Foods[0], "%+v", c.recipe)
		_, err := LookupBatchFood(KindsOf(c.recipe).Foods[0])
		assert.NoError(t, err)
	}
}

// What nothing ends, such as a bowl of raw roots, has no moment to be eaten by.
func TestNoNoteOfAnEndThatIsNone(t *testing.T) {
	facts := planFacts(t)
	for _, chilled := range []bool{false, true} {
		roots := PlanDish{Name: "Roots", History: Batch{Food: "raw-vegetables", CookedAt: facts.TableFrom.Add(-2 * time.Hour), Fridge: Celsius(4)}}
		if chilled {
			roots.History.ChilledAt = facts.TableFrom.Add(-time.Hour)
		}
		facts.Dishes = []PlanDish{roots}
		notes, err := PlanNotes(facts)
		require.NoError(t, err)
		for _, note := range notes {
			assert.NotContains(t, []NoteKind{NoteLeftOver, NoteTable}, note.Kind)
		}
	}
}
