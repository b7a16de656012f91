package ask_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/demo"
	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/harvest/tables"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
)

// A recipe is written among the dishes under its name, once; sent again, it is well
// where it stands there word for word; what it leaves open keeps it out.
func TestAddingADish(t *testing.T) {
	w := garden(t)
	q := ask.ImportQuestion{PlotRef: w, File: "soup.txt", Text: []byte("Beet soup\n\nServes 4\n\nIngredients\n\n500 g beetroot\n1 tsp salt\n\nMethod\n\n1. Boil the beetroot for 40 minutes.\n")}
	looked, err := ask.ImportDish(q)
	require.NoError(t, err)
	if len(looked.Open) > 0 {
		_, err = ask.AddDish(q)
		require.Error(t, err)
		q.Served = "hot"
	}
	added, err := ask.AddDish(q)
	require.NoError(t, err)
	assert.Equal(t, filepath.Join(w.Dir, "dishes/beet-soup.yaml"), added.File)
	data, err := os.ReadFile(added.File)
	require.NoError(t, err)
	assert.Equal(t, string(added.Text), string(data))
	_, err = ask.AddDish(q)
	require.Error(t, err, "it is there")
	q.Again = true
	again, err := ask.AddDish(q)
	require.NoError(t, err)
	assert.Empty(t, again.File)
	assert.Equal(t, added.Text, again.Text)
	foods, err := ask.KeepDish(ask.KeepQuestion{PlotRef: w}, "beet soup")
	require.NoError(t, err)
	assert.NotEmpty(t, foods.Foods)
	_, err = ask.KeepDish(ask.KeepQuestion{PlotRef: w}, "no soup")
	require.Error(t, err)
	open := ask.ImportQuestion{PlotRef: w, File: "x.txt", Text: []byte("Ingredients\n\nsome beetroot\n")}
	_, err = ask.AddDish(open)
	require.Error(t, err)
}

// A parcel goes from plot to plot; given away, it is not carried again; an old table
// is looked at, and written where that is asked for.
func TestParcelsAndOldTables(t *testing.T) {
	home, phone := garden(t), garden(t)
	lifted(t, phone, harvest.LiftWords{Planting: "bed-3", Weighings: []string{"1 kg - 0 g"}})
	var packed bytes.Buffer
	parcel, err := ask.Pack(t.Context(), &packed, phone, journal.Untaken)
	require.NoError(t, err)
	assert.Equal(t, 4, parcel.Entries)
	require.NoError(t, ask.Taken(phone, parcel))
	none, err := ask.Pack(t.Context(), &bytes.Buffer{}, phone, journal.Untaken)
	require.NoError(t, err)
	assert.Zero(t, none.Entries)
	brought, err := ask.Bring(t.Context(), home, packed.Bytes(), journal.KeepOwn)
	require.NoError(t, err)
	assert.Equal(t, 1, brought.Entries)
	_, err = ask.Bring(t.Context(), home, []byte("no parcel"), journal.KeepOwn)
	require.Error(t, err)
	require.ErrorIs(t, ask.Taken(ask.PlotRef{Dir: t.TempDir()}, parcel), ask.ErrNoPlot)
	require.ErrorIs(t, second(ask.Bring(t.Context(), ask.PlotRef{Dir: t.TempDir()}, packed.Bytes(), journal.KeepOwn)), ask.ErrNoPlot)
	damage(t, phone)
	packed.Reset()
	_, err = ask.Pack(t.Context(), &packed, phone, journal.WholePlot)
	require.NoError(t, err)
	_, err = ask.Bring(t.Context(), home, packed.Bytes(), journal.KeepOwn)
	require.ErrorContains(t, err, "0719-1100-lift-bed-3.yaml", "what could not be taken is named")

	old := filepath.Join(t.TempDir(), "old.csv")
	require.NoError(t, os.WriteFile(old, []byte("Day;Bed;Weight (kg)\n18.07.2031;bed-3;1,46\n"), 0o600))
	count := entries(t, home)
	q := ask.TableQuestion{PlotRef: home, Words: tables.Words{}, Table: old}
	looked, err := ask.ImportTable(t.Context(), q)
	require.NoError(t, err)
	assert.True(t, looked.Old)
	assert.Equal(t, count, entries(t, home), "an old table is only looked at")
	q.Write = true
	written, err := ask.ImportTable(t.Context(), q)
	require.NoError(t, err)
	assert.Len(t, written.Written, 1)
	assert.Equal(t, count+1, entries(t, home))
	mended, err := ask.Mend(t.Context(), home)
	require.NoError(t, err)
	assert.Empty(t, mended.Aside)
}

// A recorded plan is made again as it was, whatever was written since; one that
// cannot be is said to have changed.
func TestCookingARecordedPlan(t *testing.T) {
	w := garden(t)
	plan, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, Take: true, PlanWords: meal.PlanWords{Only: []string{"spring"}}})
	require.NoError(t, err)
	later := w
	later.Now = w.Now.Add(30 * time.Minute)
	log, err := ask.Cook(t.Context(), later, harvest.LastPlan)
	require.NoError(t, err)
	assert.Equal(t, plan.Record.ID, log.Record.ID)
	assert.Equal(t, plan.Dishes[0].Portions, log.Plan.Dishes[0].Portions)
	assert.Equal(t, plan.ServeAt, log.Plan.ServeAt)
	named, err := ask.Cook(t.Context(), later, plan.Record.ID)
	require.NoError(t, err)
	assert.Equal(t, log.Plan.Steps, named.Plan.Steps)
	require.Error(t, second(ask.Cook(t.Context(), later, "nosuch")))
	require.ErrorIs(t, second(ask.Cook(t.Context(), ask.PlotRef{Dir: t.TempDir()}, harvest.LastPlan)), ask.ErrNoPlot)
	require.Error(t, second(ask.Cook(t.Context(), garden(t), harvest.LastPlan)), "no plan is recorded")
	dish, err := os.ReadFile(filepath.Join(w.Dir, "dishes/spring-onion-mash.yaml"))
	require.NoError(t, err)
	write(t, w.Dir, "dishes/spring-onion-mash.yaml", strings.Replace(string(dish), "portions: 4", "portions: 3", 1))
	_, err = ask.Cook(t.Context(), later, harvest.LastPlan)
	requireField(t, "plan", err)
}

// The plan shown is the one that is written, or none is; a plan of another day is
// written under its noon.
func TestOnlyThePlanShownIsTaken(t *testing.T) {
	w := garden(t)
	only := meal.PlanWords{Only: []string{"spring"}}
	shown, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: only})
	require.NoError(t, err)
	assert.Empty(t, shown.Record.File)
	before := entries(t, w)
	_, err = ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: only, Take: true, Shown: "other", Stock: shown.Record.Stock})
	require.Error(t, err)
	_, err = ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: only, Take: true, Shown: shown.Record.ID, Stock: "other"})
	require.Error(t, err)
	assert.Equal(t, before, entries(t, w))
	w.On, w.Now = "2031-07-20", w.Now.AddDate(0, 0, 2)
	shown, err = ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: only})
	require.NoError(t, err)
	taken, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: only, Take: true, Shown: shown.Record.ID, Stock: shown.Record.Stock})
	require.NoError(t, err)
	assert.Equal(t, "2031-07-20 12:00", taken.Record.At.Format("2006-01-02 15:04"))
	assert.Equal(t, before+1, entries(t, w))
}

// Ties go to the dish made longest ago, unless dishes are named: then to the first.
func TestTiesGoByTheJournal(t *testing.T) {
	w := garden(t)
	for _, name := range []string{"a", "b"} {
		write(t, w.Dir, "dishes/"+name+".yaml", "name: Plain "+name+"\nportions: 2\nserved: hot\nlargest: 2\ncrops: [{crop: beetroot, amount: 200 g, prepared: as-lifted, cut: cube 20 mm, cook: steam, until: tender}]\nmethod: [Steam.]\n")
	}
	one := func(only ...string) string {
		plan, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: meal.PlanWords{Only: only,
			Without: map[bool][]string{true: {"spring", "crushed", "mustard", "cold", "beetroot-and-potato"}}[only == nil], Eaters: meal.EaterWords{For: "2", Dishes: "1"}}})
		require.NoError(t, err)
		require.Len(t, plan.Dishes, 1)
		return plan.Dishes[0].Name()
	}
	assert.Equal(t, "Plain a", one())
	_, err := ask.Move(t.Context(), ask.MoveQuestion{PlotRef: w, MoveWords: harvest.MoveWords{To: harvest.KindUse, Lot: "bed-3", Weight: "10 g", Dish: "Plain a"}})
	require.NoError(t, err)
	assert.Equal(t, "Plain b", one())
	assert.Equal(t, "Plain a", one("plain a", "plain b"))
}

// What the plot's own kitchen, zone, folder and beds say counts where the question says
// nothing else.
func TestWhatThePlotSaysItself(t *testing.T) {
	w := garden(t)
	assert.Equal(t, demo.Zone(), ask.PlotRef{Demo: true, Now: w.Now.In(time.FixedZone("", 7200))}.Clock().Zone)
	assert.Equal(t, time.UTC, ask.PlotRef{Now: w.Now.UTC()}.Clock().Zone)
	write(t, w.Dir, "kitchen.yaml", "measures: metric\nauthority: uk\nfridge: 6 C\n")
	verdict, err := ask.KeepVerdict(t.Context(), ask.KeepQuestion{PlotRef: w, Words: keeping.Words{Food: "mash", CookedAt: "18:00"}})
	require.NoError(t, err)
	assert.Equal(t, keeping.UnitedKingdom, verdict.Authority)

	recipe := []byte("Roots\n\nServes 4\n\nIngredients\n\n500 g beetroot\n200 g carrots\n\nMethod\n\n1. Boil all of it for 40 minutes.\n")
	read, err := ask.ImportDish(ask.ImportQuestion{PlotRef: w, File: "x.txt", Text: recipe})
	require.NoError(t, err)
	require.Len(t, read.Dish.Crops, 1, "carrots do not grow here")
	assert.Equal(t, "beetroot", read.Dish.Crops[0].Crop)

	t.Chdir(w.Dir)
	for _, dir := range []string{"", ".", "./"} {
		plan, err := ask.ScaleDish(ask.DishWords{Plot: ask.PlotRef{Dir: dir, Now: w.Now}, Name: "spring", Portions: 2})
		require.NoError(t, err)
		assert.Empty(t, plan.Plot, "%q needs no name", dir)
	}
	plan, err := ask.ScaleDish(ask.DishWords{Plot: w, Name: "spring", Portions: 2})
	require.NoError(t, err)
	assert.Equal(t, w.Dir, plan.Plot)
}

// What the account faults is told with a plan, though every file can be read; and a
// damaged entry keeps no mistake in.
func TestFaultsOfTheAccountAreTold(t *testing.T) {
	w := garden(t)
	w.Device = func() string { return "k3fqab" }
	lift := lifted(t, w, harvest.LiftWords{Planting: "bed-3", Weighings: []string{"1 kg - 0 g"}})
	damage(t, w)
	ledger, err := ask.Ledger(w)
	require.NoError(t, err)
	last, err := ledger.Last(t.Context())
	require.NoError(t, err)
	assert.Equal(t, lift.File, last.Head().File)
	require.NoError(t, os.Remove(filepath.Join(w.Dir, "journal/2031/0719-1100-lift-bed-3.yaml")))
	write(t, w.Dir, "journal/2031/0719-1900-use.yaml", "kind: use\nlot: tub-1/2031-0719-1005/ungraded-green\nweight: 1 g\nat: 2031-07-19T19:00:00Z\n")
	plan, err := ask.Share(t.Context(), ask.ShareWords{Plot: w})
	require.NoError(t, err)
	assert.True(t, slices.ContainsFunc(plan.Warnings, func(one meal.Warning) bool {
		return one.Concern == meal.Remark && strings.Contains(one.Says, "it never goes to the kitchen")
	}), "what was left out of the account is told with the plan")
}

// A meal of which no dish can be made is an error that holds its plan; one that can be
// is none.
func TestNothingIsMade(t *testing.T) {
	w := garden(t)
	write(t, w.Dir, "dishes/leek.yaml", "name: Leek pie\nportions: 2\nserved: hot\ncrops: [{crop: leek, amount: 200 g, prepared: trimmed, cook: own, takes: 30 min, uses: oven}]\nmethod: [Bake.]\n")
	answer, err := ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: meal.PlanWords{Only: []string{"leek"}}})
	var nothing *meal.NothingMadeError
	require.ErrorAs(t, err, &nothing)
	require.Len(t, nothing.Plan.LeftOut, 1)
	assert.Equal(t, "Leek pie", nothing.Plan.LeftOut[0].Dish)
	assert.Nil(t, answer.Record)
	_, err = ask.Share(t.Context(), ask.ShareWords{Plot: w, PlanWords: meal.PlanWords{Only: []string{"leek", "spring"}}})
	require.NoError(t, err)
}

// What heat refuses of a dish, and dishes that are in no folder, are told.
func TestWhatADishIsRefusedFor(t *testing.T) {
	w := garden(t)
	write(t, w.Dir, "dishes/boulder.yaml", "name: Boulder\nportions: 2\nserved: hot\ncrops: [{crop: beetroot, amount: 900 g, prepared: as-lifted, cut: whole 250 mm, cook: steam, until: soft}]\nmethod: [Steam.]\n")
	_, err := ask.ScaleDish(ask.DishWords{Plot: w, Name: "boulder", Portions: 2})
	require.Error(t, err)
	require.NoError(t, os.RemoveAll(filepath.Join(w.Dir, "dishes")))
	write(t, w.Dir, "dishes", "no folder")
	_, err = ask.DishNames(w)
	require.ErrorContains(t, err, "dishes")
}
