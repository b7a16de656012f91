package render

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units/measures"
)

// How long things steam, boil and are blanched, whatever is asked besides.
func TestSteamInFull(t *testing.T) {
	w := allotment(t)
	none := ask.PlotRef{Now: w.Now}
	var faces []face
	for _, c := range []struct {
		name  string
		where ask.PlotRef
		words heat.Words
	}{
		{"a cube", w, heat.Words{Crop: "potato", Cut: "cube 25 mm"}},
		{"without a kitchen, a load, a tray", none, heat.Words{Crop: "potato", Cut: "cube 25 mm", Load: "1.2 kg", Cool: "tray"}},
		{"two tiers and more", w, heat.Words{Crop: "potato", Cut: "cube 20 mm", Load: "3 kg", Cool: "bowl"}},
		{"heaped", w, heat.Words{Crop: "potato", Kind: "floury", Cut: "cube 25 mm", Load: "1.5 kg", Heaped: true, Until: "soft", Start: "5 C"}},
		{"mixed sizes", w, heat.Words{Crop: "potato", Cut: "halves", Lots: []string{"20-45 mm", "820 g 9 pieces"}}},
		{"sizes", none, heat.Words{Crop: "carrot", Cut: "slice", Sizes: "6..20:7"}},
		{"of a tuber, cooled in ice", none, heat.Words{Crop: "beetroot", Cut: "quarters", Tuber: "70 mm", Cool: "ice water", Altitude: "2500 m", Room: "30 C"}},
		{"what must boil", w, heat.Words{Crop: "French bean", Cut: "whole", Load: "300 g"}},
		{"thick, out of range", none, heat.Words{Crop: "beetroot", Cut: "whole 120 mm", Until: "soft"}},
	} {
		c.words.Curve = c.words.Sizes == ""
		answer, err := ask.Steaming(t.Context(), ask.SteamQuestion{PlotRef: c.where, Words: c.words})
		require.NoError(t, err, c.name)
		faces = append(faces, all(whys(c.name, answer, SteamText), whys(c.name+" json", answer, SteamJSON))...)
		if answer.Estimate == nil {
			continue
		}
		first, lines := SteamLines(answer)
		faces = append(faces, says("on the page", append([]string{first}, lines...)...))
		expected, from, to := MinutesCell(*answer.Estimate)
		faces = append(faces, bare("cell", []int{expected, from, to}, writeJSONOf))
		if c.name == "a cube" || c.name == "of a tuber, cooled in ice" {
			faces = append(faces, bare("chart", *answer.Curve, SteamChart))
		}
	}
	found, err := ask.Steaming(t.Context(), ask.SteamQuestion{PlotRef: w, Words: heat.Words{Crop: "potato", Cut: "cube 25 mm"}, Found: "20 min not-yet tender"})
	require.NoError(t, err)
	faces = append(faces, all(whys("a knife test", found, SteamText), whys("json", found, SteamJSON))...)
	faces = append(faces, says("the test", TestWords(*found.Found)))
	inFull(t, "steam", faces...)

	faces = nil
	for _, c := range []struct {
		name  string
		where ask.PlotRef
		words heat.PotWords
	}{
		{"in a pot", w, heat.PotWords{Words: heat.Words{Crop: "potato", Cut: "cube 25 mm", Load: "1 kg"}}},
		{"from cold, lidless", none, heat.PotWords{Words: heat.Words{Crop: "potato", Cut: "whole 45 mm", Load: "3 kg", Until: "soft"}, Lidless: true, Cold: true, Water: "2 l"}},
		{"simmered", none, heat.PotWords{Words: heat.Words{Crop: "potato", Cut: "whole 60 mm"}, Simmer: "94 C"}},
		{"beans", none, heat.PotWords{Words: heat.Words{Crop: "French bean", Cut: "whole", Load: "500 g"}}},
	} {
		boiled, err := ask.Boiling(ask.BoilQuestion{PlotRef: c.where, PotWords: c.words})
		require.NoError(t, err, c.name)
		faces = append(faces, all(whys(c.name, boiled, BoilText), whys("json", boiled, BoilJSON))...)
	}
	for _, c := range []heat.Words{{Crop: "French bean", Cut: "whole", Load: "1 kg"}, {Crop: "carrot", Cut: "cube 10 mm"}} {
		blanched, err := ask.Blanching(ask.BoilQuestion{PlotRef: w, PotWords: heat.PotWords{Words: c}})
		require.NoError(t, err)
		faces = append(faces, all(whys("blanched", blanched, BlanchText), whys("json", blanched, BlanchJSON))...)
	}
	inFull(t, "boil", faces...)
}

func writeJSONOf(w io.Writer, numbers []int) error { return writeJSON(w, numbers) }

// Amounts in other units, with all that may be said of them.
func TestConvertInFull(t *testing.T) {
	w := allotment(t)
	var faces []face
	for _, q := range []measures.Question{
		{Words: []string{"1½ UK pint", "ml"}}, {Words: []string{"2 lb 4 oz", "kg"}}, {Words: []string{"1-2 tbsp", "ml"}}, {Words: []string{"1 g", "gr"}},
		{Words: []string{"3 tbsp", "g"}, Of: "butter"}, {Words: []string{"1 cup", "g"}, Of: "plain flour"}, {Words: []string{"2", "g"}, Of: "onion"}, {Words: []string{"2 tbsp", "g"}, Of: "chives", State: "chopped"},
		{Words: []string{"a handful", "g"}, Of: "parsley"}, {Words: []string{"gas mark 6", "C"}}, {Words: []string{"212 F", "C"}}, {Words: []string{"210 C", "gas mark"}}, {Words: []string{"1 T", "ml"}}, {Words: []string{"8 oz", "g"}, Of: "milk"},
		{Words: []string{"1 square rod", "m2"}}, {Words: []string{"1 g", "oz"}}, {Words: []string{"70 F", "C"}}, {Words: []string{"1 tin", "g"}, Of: "chickpeas"}, {Words: []string{"300 ml", "g"}, Of: "honey"},
	} {
		answer, err := ask.Convert(ask.ConvertQuestion{PlotRef: w, Question: q})
		if err != nil {
			faces = append(faces, says(q.Words[0]+" "+q.Of, "refused: "+err.Error()))
			continue
		}
		faces = append(faces, all(whys(q.Words[0]+" "+q.Of, answer, ConvertText), whys("json", answer, ConvertJSON))...)
	}
	inFull(t, "convert", faces...)
}

// Guidance on foods, verdicts of every kind, and the batches of the journal.
func TestKeepInFull(t *testing.T) {
	w := allotment(t)
	var faces []face
	for food, authority := range map[string]string{"grandmother's pie": "uk"} {
		guide, err := ask.KeepGuide(t.Context(), ask.KeepQuestion{PlotRef: w, Words: keeping.Words{Food: food}, Authority: authority})
		require.NoError(t, err)
		faces = append(faces, all(whys(food, guide, GuideText), whys("json", guide, GuideJSON))...)
	}
	potatoes, err := ask.KeepGuide(t.Context(), ask.KeepQuestion{PlotRef: w, Words: keeping.Words{Food: "boiled-potatoes"}})
	require.NoError(t, err)
	faces = append(faces, bare("potatoes", potatoes, func(w io.Writer, g keeping.Guidance) error { return GuideText(w, g, false) }))
	for _, c := range []struct {
		name  string
		words keeping.Words
	}{
		{"out", keeping.Words{Food: "mash", CookedAt: "19:00"}},
		{"eat by", keeping.Words{Food: "mash", CookedAt: "18:00", ChilledAt: "19:00", Fridge: "4 C"}},
		{"discard", keeping.Words{Food: "mash", CookedAt: "yesterday 13:00"}},
		{"unknown", keeping.Words{Food: "mash"}},
		{"out again", keeping.Words{Food: "dressed-salad", CookedAt: "12:00", ChilledAt: "13:00", Out: []string{"15:00..16:00", "19:00.."}, Air: "33 C"}},
		{"frozen", keeping.Words{Food: "stew", CookedAt: "yesterday 12:00", ChilledAt: "yesterday 13:00", FrozenAt: "yesterday 18:00"}},
		{"for somebody", keeping.Words{Food: "raw-egg mayonnaise", CookedAt: "19:00", Eater: "pregnant"}},
		{"hot", keeping.Words{Food: "stew", CookedAt: "12:00", HotAt: "65 C"}},
		{"green", keeping.Words{Food: "boiled-potatoes", CookedAt: "19:00", Tubers: "green"}},
	} {
		verdict, err := ask.KeepVerdict(t.Context(), ask.KeepQuestion{PlotRef: w, Words: c.words})
		require.NoError(t, err, c.name)
		faces = append(faces, all(whys(c.name, verdict, VerdictText), whys("json", verdict, VerdictJSON))...)
	}
	batches, err := ask.KeepBatches(t.Context(), ask.KeepQuestion{PlotRef: w})
	require.NoError(t, err)
	faces = append(faces, all(whys("batches", batches, BatchesText), whys("json", batches, BatchesJSON), whys("none", ask.BatchesAnswer{}, BatchesText), whys("json", ask.BatchesAnswer{}, BatchesJSON))...)
	for _, b := range batches.Batches {
		faces = append(faces, says("one", BatchTitle(b), BatchLeftWords(b)))
	}
	log, err := ask.BatchLog(w)
	require.NoError(t, err)
	for _, words := range []meal.EventWords{
		{Event: harvest.KindCooked, Name: "Crushed potatoes", At: "18:00", Amount: "6"}, {Event: harvest.KindChilled, Name: "Crushed potatoes", At: "18:40"},
		{Event: harvest.KindOut, Name: "Crushed potatoes", At: "19:00", Until: "19:20", Air: "22 C"}, {Event: harvest.KindEaten, Name: "Crushed potatoes", Amount: "2"}, {Event: harvest.KindReheated, Name: "Crushed potatoes"}, {Event: harvest.KindBinned, Name: "Crushed potatoes"},
	} {
		logged, err := log.Write(context.Background(), words)
		require.NoError(t, err)
		faces = append(faces, bare(words.Event, logged, BatchEventsText), bare("json", logged, BatchEventsJSON))
		if log, err = ask.BatchLog(w); err != nil {
			require.NoError(t, err)
		}
	}
	for _, dish := range []string{"crushed", "plate"} {
		kinds, err := ask.KeepDish(ask.KeepQuestion{PlotRef: w}, dish)
		require.NoError(t, err)
		faces = append(faces, bare(dish, kinds, DishKindsText), bare("json", kinds, DishKindsJSON))
	}
	inFull(t, "keep", faces...)
}

// Recipes of others as they are read.
func TestImportedDishesInFull(t *testing.T) {
	w := allotment(t)
	var faces []face
	for _, c := range []struct{ name, text string }{
		{"all is clear", "Beet soup\n\nServes 4\n\nIngredients\n\n500 g beetroot, peeled\n1 onion, chopped\n2 tbsp soured cream\nsalt, to taste\n\nMethod\n\n1. Boil the beetroot for 40 minutes.\n2. Stir in the cream.\n"},
		{"doubts", "Potato thing\n\nFor the salad:\nsome potatoes\n1 lb potatoes, diced\n2 handfuls of whatever grows\na glug of oil\n\nSteam the potatoes for 20 min. Leave to cool.\n"},
		{"raw", "Carrot salad\n\nServes 2-3\n\n300 g carrots, grated\n1-2 tbsp lemon juice\n"},
	} {
		answer, err := ask.ImportDish(ask.ImportQuestion{PlotRef: w, File: c.name + ".txt", Text: []byte(c.text)})
		require.NoError(t, err)
		faces = append(faces, bare(c.name, answer, ImportedText), bare("json", answer, ImportedJSON), bare("dish", answer, ImportedDish))
	}
	written, err := ask.AddDish(ask.ImportQuestion{PlotRef: w, File: "x.txt", Text: []byte("Beet soup\n\nServes 4\n\nIngredients\n\n500 g beetroot\n\nMethod\n\n1. Boil the beetroot for 40 minutes.\n"), ImportWords: recipes.ImportWords{Served: "hot"}})
	require.NoError(t, err)
	written.File = "dishes/beet-soup.yaml"
	faces = append(faces, bare("written", written, ImportedText), bare("json", written, ImportedJSON))
	inFull(t, "import", faces...)
}

// A reckoner's table, and what it leaves out.
func TestReckonerInFull(t *testing.T) {
	w := allotment(t)
	reckoner, err := ask.Reckoner(t.Context(), w, nil)
	require.NoError(t, err)
	inFull(t, "reckoner", bare("page", reckoner, func(w io.Writer, r meal.Reckoner) error { _, err := Reckoner(w, r); return err }),
		bare("told", Reckoned{Reckoner: reckoner, File: "r.html"}, ReckonedText), bare("json", Reckoned{Reckoner: reckoner, File: "r.html"}, ReckonedJSON),
		bare("told with some left out", Reckoned{Reckoner: reckoner, File: "r.html", Omitted: []string{"Mash", "Salad"}}, ReckonedText), bare("json", Reckoned{Reckoner: reckoner, File: "r.html", Omitted: []string{"Mash"}}, ReckonedJSON),
		says("left out", ReckonerOmits(nil), ReckonerOmits([]string{"Mash"}), ReckonerOmits([]string{"Mash", "Salad"})))
}

// Evenings of the plot as they are told, drawn and called out.
func TestPlansInFull(t *testing.T) {
	w := allotment(t)
	share := func(w ask.PlotRef, words meal.PlanWords) ask.MealAnswer {
		plan, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: words})
		require.NoError(t, err)
		return plan
	}
	early := w
	early.Now = time.Date(2031, 7, 20, 9, 0, 0, 0, w.Now.Location())
	guests, err := ask.Table(t.Context(), ask.ShareWords{Plot: early, PlanWords: meal.PlanWords{ServeAt: "18:30", Eaters: meal.EaterWords{Guests: []string{"2 adults", "1 adult pregnant", "1 adult vegan", "2 children"}, Sides: "2"}}})
	require.NoError(t, err)
	one, err := ask.ScaleDish(ask.DishWords{Plot: early, Name: "crushed", Lifted: []string{"1.85 kg"}, ServeAt: "18:30"})
	require.NoError(t, err)
	tomorrow := w
	tomorrow.On = "2031-07-21"
	write := func(file, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(w.Dir, filepath.FromSlash(file)), []byte(text), 0o644))
	}
	plans := []struct {
		name string
		ask.MealAnswer
	}{
		{"as soon as can be", share(w, meal.PlanWords{})},
		{"guests", guests},
		{"one dish", one},
		{"limits, another day", share(tomorrow, meal.PlanWords{Limits: []string{"butter=1 oz"}, KeepBack: []string{"500 g potato"}, Without: []string{"embers"}, Air: "34 C"})},
		{"late", share(w, meal.PlanWords{ServeAt: "20:30", Eaters: meal.EaterWords{For: "4", Dishes: "2", Rounds: "1"}, Given: meal.GivenWords{Hands: "2"}})},
	}
	write("kitchen.yaml", "measures: us\nfridge: none\nwater: carried 1 l\nstove: {power: 1.2 kW, canister: 100 g}\nsteamer: {diameter: 200 mm, tiers: 1}\n")
	plans = append(plans, struct {
		name string
		ask.MealAnswer
	}{"a bare kitchen", share(early, meal.PlanWords{ServeAt: "18:30"})})
	var texts, machine, sheets []face
	for _, p := range plans {
		p.Plot = "allotment"
		plan := p.Plan
		texts = append(texts, bare(p.name, p.MealAnswer, func(w io.Writer, a ask.MealAnswer) error { return PlanText(w, a, false, false) }),
			bare(p.name+", in full", p.MealAnswer, func(w io.Writer, a ask.MealAnswer) error { return PlanText(w, a, p.name == "one dish", true) }),
			says("titles", PlanTitle(plan), PlanAnswer(plan)))
		machine = append(machine, bare(p.name, p.MealAnswer, func(w io.Writer, a ask.MealAnswer) error { return PlanJSON(w, a, p.name == "one dish") }),
			bare(p.name+" calendar", plan, func(to io.Writer, p meal.Plan) error { return Calendar(to, p, w.Now, "") }))
		screen, err := PlanScreen(plan, plan.ServeAt.Add(-40*time.Minute))
		require.NoError(t, err)
		sheets = append(sheets, bare(p.name, plan, Sheet), says(p.name+" screen", string(screen.Head), string(screen.Rest)))
	}
	inFull(t, "plan-text", texts...)
	inFull(t, "plan-json", machine...)
	inFull(t, "plan-sheet", sheets...)
}

// A plan on its way, from before its first step to after its last, with a cook who
// tells every step as done when it was planned to end.
func TestCookingInFull(t *testing.T) {
	w := allotment(t)
	w.Now = w.Now.Add(-10 * time.Hour)
	plan, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: meal.PlanWords{ServeAt: "18:30", Only: []string{"plate", "crushed"}}})
	require.NoError(t, err)
	require.Len(t, plan.Dishes, 2)
	var faces []face
	for _, minutes := range []int{-400, -240, -200, -180, -120, -60, -25, -12, -2, 0, 30} {
		now := plan.ServeAt.Add(time.Duration(minutes) * time.Minute)
		var told []*harvest.Told
		for _, step := range plan.Steps {
			if !step.End().After(now) {
				one := &harvest.Told{Step: step.ID, What: harvest.ToldDone}
				one.At = step.End()
				told = append(told, one)
			}
		}
		slices.SortStableFunc(told, func(a, b *harvest.Told) int { return a.At.Compare(b.At) })
		cooking, err := meal.Follow(plan.Plan, told, now)
		require.NoError(t, err)
		faces = append(faces, bare(now.Format("15:04"), Cook(cooking, plan.Record.ID), func(w io.Writer, v CookView) error { return writeJSON(w, v) }))
	}
	for name, told := range map[string]*harvest.Told{"later": {What: harvest.ToldFiveLate}, "sooner": {What: harvest.ToldDone, Step: plan.Steps[len(plan.Steps)-1].ID}} {
		told.At = plan.ServeAt.Add(-time.Hour)
		cooking, err := meal.Follow(plan.Plan, []*harvest.Told{told}, told.At)
		require.NoError(t, err)
		view := Cook(cooking, plan.Record.ID)
		require.Equal(t, map[string]string{"later": "5 min later than planned", "sooner": "1 h sooner than planned"}[name], view.Late)
	}
	heard := meal.Heard{Told: &harvest.Told{What: harvest.ToldOver}, Events: []*harvest.BatchEvent{{Event: harvest.KindCooked, Name: "mash"}, {Event: harvest.KindOut, Name: "salad"}},
		Knife: &harvest.Steamed{Crop: "potato", Cut: "cube 25 mm", Until: "tender", Minutes: 9}}
	faces = append(faces, says("heard", HeardWords(heard), HeardWords(meal.Heard{Told: &harvest.Told{What: harvest.ToldFiveLate}})))
	inFull(t, "cook", faces...)
}
