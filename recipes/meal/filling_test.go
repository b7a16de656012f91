package meal

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/schedule"
)

func TestLayersForAWeight(t *testing.T) {
	for _, c := range []struct {
		grams, perLayer float64
		layers          int
	}{{1, 500, 1}, {499.9, 500, 1}, {500, 500, 1}, {500.1, 500, 2}, {1000, 500, 2}, {1001, 500, 3}} {
		assert.Equal(t, c.layers, layersFor(c.grams, c.perLayer), c)
	}
}

// steamed are dishes of one part each that steams so long, from loading, and is
// first tried so long before; one filling has them all, a tier each.
type steamed struct {
	served    recipes.Served
	low, high float64
}

func filled(all ...steamed) (*work, Run) {
	w := &work{}
	run := Run{ID: "r1"}
	for d, s := range all {
		at := PartAt{Dish: d}
		w.loaded.Dishes = append(w.loaded.Dishes, Dish{Recipe: recipes.Dish{Name: string(rune('a' + d)), Served: s.served},
			Parts: []Part{{Steam: &Steaming{Low: s.low, High: s.high}}}})
		run.Parts, run.Tiers = append(run.Parts, at), append(run.Tiers, []PartAt{at})
	}
	w.loaded.Runs = []Run{run}
	return w, run
}

// What needs less than the longest goes in later so that all end together; cold
// dishes come out earlier instead, as hands have time to spread them; less than three
// minutes is not worth opening the lid. Hands load a minute before, try for a minute,
// and are never in two places.
func TestWhenAClassGoesInAndComesOut(t *testing.T) {
	hot, cold := recipes.Hot, recipes.Cold
	for _, c := range []struct {
		about string
		all   []steamed
		want  []lying // tier, from, to, test
	}{
		{"one", []steamed{{hot, 12, 20}}, []lying{{tier: 1, to: 20, test: 12}}},
		{"not known when to try before it is done", []steamed{{hot, 20, 20}}, []lying{{tier: 1, to: 20}}},
		{"parts of a minute", []steamed{{hot, 12.9, 19.2}}, []lying{{tier: 1, to: 20, test: 12}}},
		{"two minutes less: with the longest", []steamed{{hot, 12, 20}, {hot, 9, 18}}, []lying{{tier: 1, to: 20, test: 12}, {tier: 2, to: 20, test: 9}}},
		{"three minutes less: later", []steamed{{hot, 12, 20}, {hot, 10, 17}}, []lying{{tier: 1, to: 20, test: 12}, {tier: 2, from: 3, to: 20, test: 13}}},
		{"the longest stands first", []steamed{{hot, 10, 17}, {hot, 12, 20}}, []lying{{tier: 2, to: 20, test: 12}, {tier: 1, from: 3, to: 20, test: 13}}},
		{"a cold one comes out, in 1 min, and is spread in 2", []steamed{{hot, 12, 20}, {cold, 8, 17}}, []lying{{tier: 1, to: 20, test: 12}, {tier: 2, to: 17, test: 8}}},
		{"a cold one that would be spread when all comes out", []steamed{{hot, 12, 20}, {cold, 8, 18}}, []lying{{tier: 1, to: 20, test: 12}, {tier: 2, to: 20, test: 8}}},
		{"two cold ones at the same minutes: one of them with the longest", []steamed{{hot, 12, 30}, {cold, 8, 15}, {cold, 9, 16}},
			[]lying{{tier: 1, to: 30, test: 12}, {tier: 3, to: 16, test: 9}, {tier: 2, to: 30, test: 8}}},
		{"two later ones, loaded one after the other", []steamed{{hot, 12, 30}, {hot, 9, 20}, {hot, 8, 20}},
			[]lying{{tier: 1, to: 30, test: 12}, {tier: 2, from: 10, to: 30, test: 19}, {tier: 3, from: 9, to: 30, test: 17}}},
		{"tried a minute sooner where the other is tried", []steamed{{hot, 12, 20}, {hot, 12, 19}}, []lying{{tier: 1, to: 20, test: 12}, {tier: 2, to: 20, test: 11}}},
	} {
		w, run := filled(c.all...)
		got := w.lying(run)
		for i := range got {
			assert.Len(t, got[i].parts, 1, c.about)
			got[i].parts = nil
		}
		assert.Equal(t, c.want, got, c.about)
	}
	w, run := filled(steamed{hot, 12, 20}, steamed{hot, 10, 15})
	run.Tiers = [][]PartAt{{{Dish: 0}}, {{Dish: 0}, {Dish: 1}}} // the second tier has of both: they lie and leave together
	got := w.lying(run)
	assert.Equal(t, []lying{{tier: 1, parts: []PartAt{{Dish: 0}, {Dish: 1}}, to: 20, test: 10}}, got)
}

func TestHandsOfAFilling(t *testing.T) {
	h := handful{end: 20}
	assert.False(t, h.busy(0, 20))
	h.take(5, 2)
	for from, busy := range map[int]bool{2: false, 3: true, 4: true, 5: true, 6: true, 7: false} {
		assert.Equal(t, busy, h.busy(from, 3), from)
	}
}

// Layers of a class hold its parts from first to last: the weights 300, 300 and 400 in
// two layers of 500 share the second part.
func TestWhatLiesInALayer(t *testing.T) {
	var l Loaded
	c := class{grams: 1000, perLayer: 500, layers: 2}
	for d, grams := range []float64{300, 300, 400} {
		l.Dishes = append(l.Dishes, Dish{Parts: []Part{{Piece: Piece{Grams: grams}, Steam: &Steaming{}}}})
		c.parts = append(c.parts, PartAt{Dish: d})
	}
	assert.Equal(t, []PartAt{{Dish: 0}, {Dish: 1}}, l.within(c, 0, 500))
	assert.Equal(t, []PartAt{{Dish: 1}, {Dish: 2}}, l.within(c, 500, 1000))
	assert.Equal(t, []PartAt{{Dish: 1}}, l.within(c, 300, 600), "what ends or begins at the edge lies beside it")

	k := &kitchen{equipment: heat.Equipment{Tiers: 3}}
	one := class{grams: 100, perLayer: 500, layers: 1, parts: c.parts[:1]}
	for _, row := range []struct {
		classes []class
		tiers   int
		runs    []int // layers in each filling
	}{
		{[]class{c}, 3, []int{2}},
		{[]class{c}, 1, []int{1, 1}},
		{[]class{c, one}, 3, []int{3}},
		{[]class{c, c, one}, 3, []int{3, 2}},
		{[]class{c, one}, 2, []int{2, 1}},
		{[]class{one, one}, 0, []int{1, 1}}, // no steamer named: a tier
	} {
		l.Runs, k.equipment.Tiers = nil, row.tiers
		for _, class := range row.classes {
			k.place(&l, class, 0)
		}
		var runs []int
		for i, run := range l.Runs {
			runs = append(runs, len(run.Tiers))
			assert.Equal(t, []string{"r1", "r2"}[i], run.ID)
		}
		assert.Equal(t, row.runs, runs)
	}
	l.Runs = []Run{{ID: "r1"}}
	k.equipment.Tiers = 3
	k.place(&l, one, 1)
	assert.Len(t, l.Runs, 2, "from the second filling on")
	assert.Empty(t, l.Runs[0].Tiers)
}

// A part in three fillings has them numbered; parts that share a filling are in one.
func TestFillingsAreNumbered(t *testing.T) {
	a, b := PartAt{Dish: 0}, PartAt{Dish: 1}
	l := Loaded{Dishes: []Dish{{Parts: []Part{{Steam: &Steaming{}}}}, {Parts: []Part{{Steam: &Steaming{}}}}},
		Runs: []Run{{ID: "r1", Tiers: [][]PartAt{{a}, {a}}}, {ID: "r2", Tiers: [][]PartAt{{a}, {a, b}}}, {ID: "r3", Tiers: [][]PartAt{{b}}}}}
	l.number()
	var got [][2]int
	for _, run := range l.Runs {
		got = append(got, [2]int{run.Number, run.Of})
	}
	assert.Equal(t, [][2]int{{1, 2}, {1, 1}, {2, 2}}, got)
	assert.Equal(t, []PartAt{a, b}, l.Runs[1].Parts)
	assert.Equal(t, []string{"r1", "r2"}, l.part(a).Steam.Runs)
	assert.Equal(t, []string{"r2", "r3"}, l.part(b).Steam.Runs)
	assert.True(t, l.canSplit(), "the third may come between the fillings of a dish, or the first before those of another")
	l.Runs = l.Runs[:2]
	assert.False(t, l.canSplit(), "both fillings are of the first dish, and the other has one")
}

// A part takes as long as in the slowest of its places, with the most that is in the
// steamer at once.
func TestThePlaceThatIsSlowest(t *testing.T) {
	s := Steaming{AtOnceG: 900, Estimate: heat.Estimate{FromLoading: 50}}
	s.slowest(heat.Estimate{FromLoading: 20}, 600)
	assert.Equal(t, []float64{20, 600}, []float64{s.Estimate.FromLoading, s.AtOnceG}, "what it was reckoned at alone counts no more")
	s.slowest(heat.Estimate{FromLoading: 25}, 400)
	assert.Equal(t, []float64{25, 600}, []float64{s.Estimate.FromLoading, s.AtOnceG})
	s.slowest(heat.Estimate{FromLoading: 22}, 700)
	assert.Equal(t, []float64{25, 700}, []float64{s.Estimate.FromLoading, s.AtOnceG})
}

// Hot food should not wait at all, warm food half an hour, and what keeping ends has
// its own time.
func TestWhatWaitingDoes(t *testing.T) {
	w := &work{cool: coolings{lasts: map[string]time.Duration{"c": time.Hour}}}
	for _, c := range []struct {
		dish recipes.Dish
		want []schedule.Lag
	}{
		{recipes.Dish{Name: "a", Served: recipes.Hot}, []schedule.Lag{{Step: "s1", Goal: schedule.HotWaits}}},
		{recipes.Dish{Name: "b", Served: recipes.Warm}, []schedule.Lag{{Step: "s1", Goal: schedule.WarmWaits, Most: 30 * time.Minute}}},
		{recipes.Dish{Name: "c", Served: recipes.Cold}, []schedule.Lag{{Step: "s1", Goal: schedule.KeepsClock, Most: time.Hour}}},
		{recipes.Dish{Name: "d", Served: recipes.Cold}, nil},
		{recipes.Dish{Name: "c", Served: recipes.Hot}, []schedule.Lag{{Step: "s1", Goal: schedule.HotWaits}, {Step: "s1", Goal: schedule.KeepsClock, Most: time.Hour}}},
	} {
		w.loaded.Dishes = []Dish{{Recipe: c.dish}}
		assert.Equal(t, c.want, w.lagsOf(PartAt{}, "s1"), c.dish.Name)
	}
}

// A boil after more than ten minutes of pause is given back what the pan has cooled,
// as far as its ring is free; at ten minutes it still boils.
func TestTheWaterIsBroughtBackToTheBoil(t *testing.T) {
	steamer := func(s Step) Step { s.Steamer = true; return s }
	for _, c := range []struct {
		about      string
		pause      int
		other      []Step // on the ring meanwhile
		atOnce     string
		from, long int
	}{
		{"ten minutes of pause", 10, nil, "", 30, 1},
		{"eleven", 11, nil, "", 25, 7},
		{"the ring is free for three minutes", 15, []Step{stepAt("x", schedule.Own, 29, 3, 1)}, "", 32, 4},
		{"another ring", 15, []Step{stepAt("x", schedule.Own, 29, 3, 2)}, "", 29, 7},
		{"it follows something at once", 15, nil, "y", 35, 1},
	} {
		boil := steamer(stepAt("s2", schedule.Boil, 20+c.pause, 1, 1))
		boil.Run, boil.AtOnce = "r2", c.atOnce
		beside := stepAt("s3", schedule.TopUp, 20+c.pause, 1, 0)
		beside.Beside = "s2"
		tt := Timetable{Steps: append([]Step{steamer(stepAt("s1", schedule.Steam, 0, 20, 1)), boil, beside}, c.other...)}
		tt.boilLonger(&tt.Steps[1], pan{toBoil: 7})
		assert.Equal(t, atMinute(c.from), tt.Steps[1].At, c.about)
		assert.Equal(t, time.Duration(c.long)*time.Minute, tt.Steps[1].Length, c.about)
		assert.Equal(t, time.Duration(20+c.pause-c.from)*time.Minute, tt.Steps[2].Offset, "what is done beside it stays where it is: "+c.about)
	}
	first := Timetable{Steps: []Step{steamer(stepAt("s1", schedule.Boil, 30, 1, 1))}}
	first.boilLonger(&first.Steps[0], pan{toBoil: 7})
	assert.Equal(t, time.Minute, first.Steps[0].Length, "nothing was in the steamer before")
}

// The first boil and the first filling's own are one step where one follows the other
// on one ring.
func TestOneBoilBeforeTheFirstFilling(t *testing.T) {
	boil := func(id, run string, from, length, ring int) Step {
		s := stepAt(id, schedule.Boil, from, length, ring)
		s.Run = run
		return s
	}
	for about, joined := range map[string]struct {
		own  Step
		want bool
	}{
		"straight after":    {boil("s2", "r1", 8, 1, 1), true},
		"a minute later":    {boil("s2", "r1", 9, 1, 1), false},
		"on another ring":   {boil("s2", "r1", 8, 1, 2), false},
		"of a pot":          {boil("s2", "", 8, 1, 1), false},
		"what is no boil":   {stepAt("s2", schedule.Own, 8, 1, 1), false},
		"there is no first": {boil("s2", "r1", 0, 1, 1), false},
	} {
		own := joined.own
		own.After = []string{"s1"}
		load := stepAt("s3", schedule.Load, 9, 2, 0)
		load.After = []string{"s1", "s2"}
		tt := Timetable{Steps: []Step{boil("s1", "", 0, 8, 1), own, load}}
		if about == "there is no first" {
			tt.Steps = tt.Steps[1:]
		}
		before := len(tt.Steps)
		tt.joinFirstBoil("s1")
		if !joined.want {
			assert.Len(t, tt.Steps, before, about)
			continue
		}
		want := boil("s2", "r1", 0, 9, 1)
		want.After = []string{}
		load.After = []string{"s2", "s2"}
		assert.Equal(t, []Step{want, load}, tt.Steps, about)
	}
}
