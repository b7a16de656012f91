package render

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math/big"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/recipes/planner"
	"trencher/recipes/schedule"
	"trencher/units"
)

// An evening with what no other one here has: ice for what is blanched, portions set
// apart, a start and no serving time.
func TestAPlanWithIceAndPortionsSetApart(t *testing.T) {
	w := allotment(t)
	w.Now = time.Date(2031, 7, 20, 9, 0, 0, 0, w.Now.Location())
	writeFile(t, w, "dishes/green.yaml", `name: Green plate
portions: 4
served: cold
largest: 8
crops: [{crop: french bean, amount: 120 g, prepared: as-lifted, cook: blanch}, {crop: carrot, amount: 100 g, prepared: peeled, cut: slice 3 mm, cook: raw}]
others: [{item: olive oil, amount: 2 tbsp}]
method: [Blanch the beans., Dress them.]
`)
	writeFile(t, w, "dishes/mayonnaise.yaml", `name: Potatoes in own mayonnaise
portions: 4
served: cold
crops: [{crop: potato, amount: 400 g, prepared: scrubbed, cut: cube 25 mm, cook: steam, until: just-tender}]
others: [{item: own mayonnaise, amount: 100 g}, {item: chives, amount: 1 tbsp, state: chopped}]
method: [Steam the potatoes and cool them., Stir in the own mayonnaise and scatter the chives.]
`)
	answer, err := ask.Table(t.Context(), ask.ShareWords{Plot: w, PlanWords: meal.PlanWords{Only: []string{"green", "mayonnaise"},
		Eaters: meal.EaterWords{Guests: []string{"3 adults", "1 adult pregnant", "1 child under 5"}, Sides: "2"}, Given: meal.GivenWords{Start: "15:00"}}})
	require.NoError(t, err)
	require.NotEmpty(t, answer.Plan.Apart)
	require.Positive(t, answer.Plan.Supplies.IceG)
	answer.Plot = "allotment"
	answer.Record.File = "journal/2031/plan.yaml" // as if it were recorded
	inFull(t, "plan-apart", bare("text", answer, func(w io.Writer, a ask.MealAnswer) error { return PlanText(w, a, true, true) }),
		bare("json", answer, func(w io.Writer, a ask.MealAnswer) error { return PlanJSON(w, a, true) }), bare("sheet", answer.Plan, Sheet),
		bare("calendar", answer.Plan, func(to io.Writer, p meal.Plan) error { return Calendar(to, p, w.Now, "") }))
}

func TestWordsOfWhatIsSetApart(t *testing.T) {
	mother, child := recipes.Guests{Count: 1, Diet: recipes.Diet{Conditions: recipes.Pregnant}}, recipes.Guests{Count: 1, Child: true}
	apart := func(of *big.Rat, g recipes.Guests, without ...string) meal.Apart {
		return meal.Apart{Dish: "Salad", Guest: g, Portions: of, Without: without, Step: "s7"}
	}
	for words, portions := range map[string]*big.Rat{"1 portion": big.NewRat(1, 1), "half a portion": big.NewRat(1, 2), "1.5 portions": big.NewRat(3, 2), "3 portions": big.NewRat(3, 1)} {
		assert.Equal(t, words, apartPortions(apart(portions, mother)))
	}
	p := meal.Plan{Apart: []meal.Apart{apart(big.NewRat(1, 1), mother, "raw egg"), apart(big.NewRat(1, 2), child, "raw egg"), apart(big.NewRat(1, 1), child, "honey", "walnuts")}}
	assert.Equal(t, "First set apart 1.5 portions without raw egg and 1 portion without honey and walnuts; then ", firstApart(p, meal.Step{Timed: schedule.Timed{Step: schedule.Step{ID: "s7"}}}))
	assert.Equal(t, "", firstApart(p, meal.Step{Timed: schedule.Timed{Step: schedule.Step{ID: "s8"}}}))
	assert.Equal(t, []string{"Salad set apart, without raw egg"}, apartOnPlate(p, meal.Plate{Guest: mother, Apart: []string{"Salad"}}))
	assert.Empty(t, apartOnPlate(p, meal.Plate{Guest: mother, Dishes: []string{"Salad"}}))
	assert.Equal(t, "Salad is not for the guest ("+mother.Label()+"): it has raw egg. The others may have it", setApartWords(meal.Warning{Dish: "Salad", Guest: mother, Says: "has raw egg"}))
	assert.Equal(t, "Salad: set apart 1 portion before the raw egg goes in, for the guest ("+mother.Label()+"). As it is made it is not for them: it has raw egg",
		setApartWords(meal.Warning{Dish: "Salad", Guest: mother, Says: "has raw egg", Apart: p.Apart[0]}))
	assert.Equal(t, "Salad, set apart: served 20 min past its limit (vulnerable-table)", warningWords(meal.Warning{Concern: meal.ClockBroken, Dish: "Salad", Rule: "vulnerable-table",
		Clock: meal.Clock{ServeAt: at(18, 30), LimitAt: at(18, 10)}, Apart: p.Apart[0]}, p))

	out := setApartOf(p.Apart[1])
	assert.Equal(t, "0.5", out.Portions.String())
	assert.Nil(t, out.Holds, "nothing of it is cooked")
	cooked := p.Apart[0]
	cooked.Clock = meal.Clock{Dish: "Salad", LimitAt: at(19, 0), Holds: true}
	out = setApartOf(cooked)
	require.NotNil(t, out.Holds)
	assert.True(t, *out.Holds)
	assert.Equal(t, instant(at(19, 0)), out.LimitAt)
}

// Why nothing can be made, dish by dish and lot by lot.
func TestWordsOfNothing(t *testing.T) {
	lot := harvest.Lot{Name: "tub-1, green", Planting: &harvest.Planting{Crop: "potato"}, Condition: harvest.Green, Weight: decimal.NewFromInt(120)}
	var out bytes.Buffer
	left := meal.LeftOut{Dish: "Mash", Reason: planner.NoLot, Of: "potato"}
	NothingMade(&out, meal.Plan{LeftOut: []meal.LeftOut{left}, SetAside: []meal.Aside{{Lot: &lot, Because: meal.NotEdible}}})
	assert.Equal(t, "nothing can be made:\n  Mash: "+leftOutWords(left)+"\n  set aside: 120 g of potato (tub-1, green), green: bitter and poisonous, cooking does not help; throw them out\n", out.String())
	lot.Condition = harvest.Rotten
	assert.Equal(t, "rotten: throw them out, and keep them away from the sound ones", asideWords(meal.Aside{Lot: &lot}))
	assert.Equal(t, "past keeping: look it over, then weigh it again with `trencher reweigh`, or compost it", asideWords(meal.Aside{Lot: &lot, Because: meal.PastKeeping}))
}

// The last moment is the earlier of the limit and of when it has to be back in the
// cold; without a fridge what is left is thrown out.
func TestWordsOfTheEndOfADish(t *testing.T) {
	clock := meal.Clock{LimitAt: at(20, 30)}
	clock.Deadline.Until = at(20, 30)
	p := meal.Plan{On: at(0, 0)}
	assert.Equal(t, at(20, 30), endOf(clock))
	assert.Equal(t, "eaten or back in the cold by 20:30", endWords(clock, p))
	clock.Deadline.Verdict.KeepBy = at(20, 30)
	assert.Equal(t, at(20, 30), endOf(clock))
	clock.Deadline.Verdict.KeepBy = at(19, 45)
	assert.Equal(t, at(19, 45), endOf(clock))
	assert.Equal(t, "eaten or back in the cold by 19:45", endWords(clock, p))
	p.Kitchen.NoFridge = true
	assert.Equal(t, "eaten by 20:30, else thrown out", endWords(clock, p))
}

// Words of warnings that few evenings have.
func TestWordsOfSeldomWarnings(t *testing.T) {
	p := meal.Plan{On: at(0, 0), Kitchen: recipes.Kitchen{FridgeC: 9}, Dishes: []meal.Dish{{Recipe: recipes.Dish{Name: "Stew"}, Parts: []meal.Part{{Line: recipes.CropLine{Crop: "leek", Cook: "boil"}}, {Line: recipes.CropLine{Crop: "kale", Cook: "steam"}}}}}}
	assert.Equal(t, "nothing is kept in the cold box: kitchen.yaml does not say how much ice is in it (cold-box: {ice: 2 kg})", boxWords(p))
	p.Box = meal.Box{IceG: 500, Lasts: 70, Needed: 95}
	assert.Equal(t, "nothing is kept in the cold box: its 500 g of ice last about "+minutes(70)+", "+minutes(95)+" are needed", warningWords(meal.Warning{Concern: meal.BoxWarms}, p))
	untimed := func(crop, dish string) string {
		return warningWords(meal.Warning{Concern: meal.Untimed, Crop: crop, Dish: dish}, p)
	}
	assert.Equal(t, "how long leek takes in boiling water is not known here: no time, water or gas is reckoned for it in Stew", untimed("leek", "Stew"))
	assert.Equal(t, "how long kale steams is not known here: no time, water or gas is reckoned for it in Stew", untimed("kale", "Stew"))
	assert.Equal(t, "how long leek steams is not known here: no time, water or gas is reckoned for it in Soup", untimed("leek", "Soup"))
	for cause, words := range map[meal.NotColdCause]string{
		meal.NotInTime: "it cannot be cool enough for the fridge in time", meal.NoColdPlace: "there is no cold place for it",
		meal.OnlyABox: "a cold box keeps cold what is cold and chills nothing", meal.FridgeTooWarm: "the fridge, at 9 °C, makes nothing cold",
		meal.FridgeKeepsNothing: "the fridge, at 9 °C, is too warm to keep it in, so its time runs on there",
	} {
		assert.Equal(t, "Stew is served cool, not cold: "+words, warningWords(meal.Warning{Concern: meal.NotCold, Dish: "Stew", NotCold: cause}, p))
	}
	grave := recipes.Poison{Grave: true, Rule: "cassava-cooked", Words: "raw cassava", Says: "it makes cyanide", Mend: "Boil it."}
	w := meal.Warning{Concern: meal.Poisonous, Dish: "Stew", Rule: grave.Rule, Poison: grave}
	assert.Equal(t, "Stew: raw cassava; it makes cyanide (cassava-cooked)", warningWords(w, p))
	assert.Equal(t, "Boil it.", mendWords(w, p))
	w.Poison.Says = "it makes cyanide, of which little is enough, and which nobody can taste, smell or see"
	assert.Equal(t, "Stew: raw cassava can poison (cassava-cooked)", warningWords(w, p), "no danger is longer than 100 letters")
	w.Poison.Grave = false
	assert.Equal(t, "raw cassava: "+w.Poison.Says+". Boil it.", warningWords(w, p))
	assert.Empty(t, mendWords(w, p))

	clock := meal.Clock{LimitAt: at(20, 10)}
	clock.Deadline.Until, clock.Deadline.Verdict.Until = at(20, 10), at(20, 10)
	broken := meal.Warning{Concern: meal.ClockBroken, Dish: "Stew", Clock: clock}
	assert.Equal(t, "Serve it by 20:10, or cook it later; else throw it out then.", mendWords(broken, p))
	broken.Clock.History = keeping.Batch{ChilledAt: at(19, 0)}
	assert.Equal(t, "Dress and serve it by 20:10, or cook it later and chill it sooner; else throw it out then.", mendWords(broken, p))
	chill := meal.Step{Timed: schedule.Timed{Step: schedule.Step{Kind: schedule.Chill, Dishes: []string{"Stew"}}}}
	p.Steps = []meal.Step{chill, chill}
	assert.Equal(t, "Dress and serve it by 20:10, or make less, so that the last filling is in the fridge sooner; else throw it out then.", mendWords(broken, p))

	assert.Equal(t, "Serve later.", helpWords(nil, p))
	helps := []meal.Change{{Kind: meal.MoreHands, Saves: 20 * time.Minute, Serve: at(18, 40)}, {Kind: meal.ServeWarm, Dish: "Salad", Saves: 15 * time.Minute, Serve: at(18, 45)},
		{Kind: meal.CutSmaller, Dish: "Mash", SizeMM: 20, Saves: 9 * time.Minute, Serve: at(18, 51)}, {Kind: meal.LeaveOut, Dish: "Soup", Saves: 5 * time.Minute, Serve: at(18, 55)}}
	assert.Equal(t, "Sooner by one of these: one more to help: 18:40, 20 min sooner; serving Salad warm: 18:45, 15 min sooner; cutting Mash to 20 mm: 18:51, 9 min sooner; leaving Soup out: 18:55, 5 min sooner.", helpWords(helps, p))
}

// Names are cut at a length that leaves room for the rest of a danger.
func TestNamesAreShortened(t *testing.T) {
	assert.Equal(t, "Mash", shortened("Mash"))
	long := "Crushed potatoes with lovage, chives and more butter than is good for anybody"
	assert.Len(t, []rune(shortened(long)), mostNamed)
	assert.Equal(t, long[:mostNamed], shortened(long[:mostNamed]))
	assert.Equal(t, []string{"a", "abc", "ab..."}, []string{short("a", 5), short("abc", 3), short("abcdef", 5)})
}

func TestWhereTheTimeComesFrom(t *testing.T) {
	for took, words := range map[meal.Took]string{meal.AsAsked: "", meal.FromNow: ", as soon as can be from now", meal.FromThen: ", as soon as can be from then", meal.AtSix: "; no time was given, 18:00 is taken"} {
		assert.Equal(t, words, tookWords(meal.Plan{Took: took}))
	}
	assert.Equal(t, "", servedAt(meal.Plan{ServeAt: at(18, 0)}), "nothing is to be done")
}

// What to have at hand, and what to bring.
func TestWordsOfSupplies(t *testing.T) {
	var p meal.Plan
	assert.Equal(t, "", atHandWords(p))
	assert.Empty(t, bringing(p))
	p.Supplies = meal.Supplies{WaterML: 1450, GasG: 52, IceG: 640, Canisters: 1}
	p.Kitchen.Stove.CanisterG, p.Runs = 190, make([]meal.Run, 2)
	assert.Equal(t, litres(1450)+" of drinking water, 640 g of ice, 52 g of gas (1 canister of 190 g), 2 steamings.", atHandWords(p))
	assert.Equal(t, []lineView{{Amount: "52 g (1 canister of 190 g)", Item: "gas"}, {Amount: "640 g", Item: "ice"}}, bringing(p))
	p.Kitchen.Water.Carried, p.Supplies.Canisters = true, 0
	assert.Equal(t, []lineView{{Amount: "52 g", Item: "gas"}, {Amount: "640 g", Item: "ice"}, {Amount: litres(1450), Item: "drinking water"}}, bringing(p))
	p.Supplies = meal.Supplies{GasG: 52}
	assert.Equal(t, "52 g of gas, 2 steamings.", atHandWords(p))
	assert.Equal(t, []lineView{{Amount: "52 g", Item: "gas"}}, bringing(p))
	assert.Equal(t, []string{"640 g", "1 kg", "1.3 kg"}, []string{iceWords(640), iceWords(1000), iceWords(1201)})
}

// Words of a step that no other plan here has.
func TestWordsOfSeldomSteps(t *testing.T) {
	of := func(s schedule.Step, parts ...meal.PartAt) meal.Step {
		return meal.Step{Timed: schedule.Timed{Step: s, At: at(17, 0)}, Parts: parts}
	}
	blanched, embers := meal.Part{Line: recipes.CropLine{Crop: "bean", Cook: "blanch"}, Pot: &meal.Pot{IceMinutes: 3}}, meal.Part{Line: recipes.CropLine{Crop: "potato", Cook: "own", Uses: "embers", Minutes: 35}}
	p := meal.Plan{On: at(0, 0), Dishes: []meal.Dish{{Recipe: recipes.Dish{Name: "Plate", Served: recipes.Cold}, Parts: []meal.Part{blanched, embers}}}}
	plate := []string{"Plate"}
	boil := of(schedule.Step{ID: "s2", Kind: schedule.BoilIn, Crop: "bean", Dishes: plate}, meal.PartAt{})
	assert.Equal(t, "Blanch bean for Plate", stepWords(p, boil))
	knife := of(schedule.Step{ID: "s3", Kind: schedule.Test, Crop: "bean", Beside: "s2", Tier: 2})
	p.Steps = []meal.Step{boil, knife}
	assert.Equal(t, "Blanch bean for Plate; knife 17:00", stepWords(p, boil))
	assert.Equal(t, "Try a knife in the bean, tier 2", stepWords(p, knife))
	knife.Tier = 1
	assert.Equal(t, "Try a knife in the bean", stepWords(p, knife))
	knife.Crop = ""
	assert.Equal(t, "Try a knife in the crops", stepWords(p, knife))
	assert.Equal(t, "Cook potato for Plate in the embers; the minutes are yours", stepWords(p, of(schedule.Step{Kind: schedule.Own, Crop: "potato", Dishes: plate}, meal.PartAt{Part: 1})))
	assert.Equal(t, "35 min in the embers", ownTimeWords(embers.Line))
	assert.Equal(t, "", ownTimeWords(blanched.Line))
	cool := schedule.Step{Kind: schedule.Cool, Crop: "bean", Dishes: plate}
	assert.Equal(t, "The bean for Plate into ice water", stepWords(p, of(cool, meal.PartAt{})))
	assert.Equal(t, "Let Plate cool on its tray", stepWords(p, of(cool, meal.PartAt{Part: 1})))
	assert.Equal(t, "Let Plate cool on its tray", stepWords(p, of(cool)))
	assert.Equal(t, "rest Plate", stepWords(p, of(schedule.Step{Kind: "rest", Dishes: plate})))
	assert.Equal(t, "Plate", stepWords(p, of(schedule.Step{Kind: schedule.Warm, Dishes: plate})))
	assert.Equal(t, "A pot of water to the boil for the bean", stepWords(p, of(schedule.Step{ID: "s9", Kind: schedule.Boil, Crop: "bean", Dishes: plate})))
	p.Apart = []meal.Apart{{Dish: "Plate", Portions: big.NewRat(1, 1), Without: []string{"egg"}, Step: "s5"}}
	assert.Equal(t, "First set apart 1 portion without egg; then dress Plate, cold", stepWords(p, of(schedule.Step{ID: "s5", Kind: schedule.Dress, Dishes: plate})))
	p.Warnings = []meal.Warning{{Concern: meal.NotCold, Dish: "Plate"}}
	assert.Equal(t, "Dress Plate, cooled but not cold", stepWords(p, of(schedule.Step{ID: "s6", Kind: schedule.Dress, Dishes: plate})))

	assert.Equal(t, []string{"steamer", "cook", "wait"}, []string{lane(of(schedule.Step{Ring: 1, Hands: 1})), lane(of(schedule.Step{Hands: 1})), lane(of(schedule.Step{}))})
}

// What an answer rests on, as text and as one member more of its object.
func TestWhatAnAnswerRestsOn(t *testing.T) {
	list := []units.Reason{units.Why("a cup", "250 ml", "a standard", "read")}
	var out bytes.Buffer
	require.NoError(t, Reasons(&out, list))
	assert.Equal(t, "\nWhy\n  a cup: 250 ml (a standard; read)\n", out.String())
	out.Reset()
	require.NoError(t, WithReasons(&out, list, func(w io.Writer) error { return writeJSON(w, map[string]int{"minutes": 8}) }))
	var object struct {
		Minutes int
		Why     []map[string]string
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &object))
	assert.Equal(t, 8, object.Minutes)
	require.Len(t, object.Why, 1)
	refused := errors.New("refused")
	require.ErrorIs(t, WithReasons(io.Discard, list, func(io.Writer) error { return refused }), refused)
}

// A strip of time is ten minutes at least, and holds its serving.
func TestTheSpanOfAStrip(t *testing.T) {
	step := func(from, length int) meal.Step {
		return meal.Step{Timed: schedule.Timed{Step: schedule.Step{Length: time.Duration(length) * time.Minute}, At: at(17, from)}}
	}
	for _, c := range []struct {
		steps    []meal.Step
		serve    time.Time
		from, to time.Time
	}{
		{[]meal.Step{step(0, 5)}, time.Time{}, at(17, 0), at(17, 10)},
		{[]meal.Step{step(0, 10)}, time.Time{}, at(17, 0), at(17, 10)},
		{[]meal.Step{step(10, 20), step(5, 2)}, time.Time{}, at(17, 5), at(17, 30)},
		{[]meal.Step{step(10, 20)}, at(18, 0), at(17, 10), at(18, 0)},
		{[]meal.Step{step(10, 20)}, at(17, 0), at(17, 0), at(17, 30)},
	} {
		assert.Equal(t, clockSpan{c.from, c.to}, spanOf(meal.Plan{Steps: c.steps, ServeAt: c.serve}))
	}
	assert.Equal(t, []string{"", "17:10", "17:50", ""}, []string{tickLabel(at(17, 0), 3.9), tickLabel(at(17, 10), 4), tickLabel(at(17, 50), 96), tickLabel(at(17, 59), 96.1)})
}
