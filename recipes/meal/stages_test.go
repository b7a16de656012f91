package meal

import (
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/planner"
	"trencher/recipes/schedule"
	"trencher/units"
)

func takeOf(grams int64, texture string, low, high int) Take {
	return Take{Lot: &harvest.Lot{Planting: &harvest.Planting{Texture: texture}, Sizes: units.Band{Low: low, High: high}}, Grams: decimal.NewFromInt(grams)}
}

// Sizes that are taken, the smallest first; ungraded lots count with the sizes that
// the dish asks for, else with the crop's usual ones.
func TestSizeClassesOfWhatIsTaken(t *testing.T) {
	crop := heat.Crop{Usual: heat.Sizes{LowMM: 40, HighMM: 60}}
	graded := recipes.CropLine{Sizes: units.Band{Low: 30, High: 50}}
	for _, c := range []struct {
		about string
		takes []Take
		line  recipes.CropLine
		want  []heat.SizeClass
		most  float64
	}{
		{"nothing yet", nil, recipes.CropLine{}, []heat.SizeClass{{LowMM: 40, HighMM: 60}}, 60},
		{"nothing yet, and the dish asks", nil, graded, []heat.SizeClass{{LowMM: 30, HighMM: 50}}, 50},
		{"not graded", []Take{takeOf(300, "", 0, 0)}, graded, []heat.SizeClass{{LowMM: 30, HighMM: 50, Grams: 300}}, 50},
		{"one band twice", []Take{takeOf(300, "", 20, 45), takeOf(200, "", 20, 45)}, graded, []heat.SizeClass{{LowMM: 20, HighMM: 45, Grams: 500}}, 45},
		{"by the lower end, then by the upper", []Take{takeOf(1, "", 45, 65), takeOf(2, "", 20, 45), takeOf(3, "", 20, 30)}, graded,
			[]heat.SizeClass{{LowMM: 20, HighMM: 30, Grams: 3}, {LowMM: 20, HighMM: 45, Grams: 2}, {LowMM: 45, HighMM: 65, Grams: 1}}, 65},
	} {
		got := sizeClasses(c.takes, c.line, crop)
		assert.Equal(t, c.want, got, c.about)
		assert.Equal(t, c.most, largestOf(got), c.about)
	}
	assert.Equal(t, "", textureOf(nil))
	assert.Equal(t, "waxy", textureOf([]Take{takeOf(1, "waxy", 0, 0), takeOf(1, "waxy", 0, 0)}))
	assert.Equal(t, "", textureOf([]Take{takeOf(1, "waxy", 0, 0), takeOf(1, "floury", 0, 0)}))
}

// The dish's own texture stands before the lots', and the lots' only where all agree.
func TestTextureOfACrop(t *testing.T) {
	for _, c := range []struct {
		crop, texture string
		takes         []Take
		kind          string
	}{
		{"potato", "floury", []Take{takeOf(1, "waxy", 0, 0)}, "floury"},
		{"potato", "any", []Take{takeOf(1, "floury", 0, 0)}, "floury"},
		{"potato", "", []Take{takeOf(1, "floury", 0, 0)}, "floury"},
		{"potato", "", []Take{takeOf(1, "floury", 0, 0), takeOf(1, "waxy", 0, 0)}, "waxy"},
		{"potato", "", nil, "waxy"},
		{"carrot", "", []Take{takeOf(1, "floury", 0, 0)}, ""},
	} {
		crop, err := cropOf(recipes.CropLine{Crop: c.crop, Texture: c.texture}, c.takes)
		require.NoError(t, err)
		assert.Equal(t, c.kind, crop.Kind, c)
	}
	_, err := cropOf(recipes.CropLine{Crop: "moonfruit"}, nil)
	require.ErrorIs(t, err, heat.ErrNoFigures)
}

// What is asked for in rounds and in layers holds both.
func TestHowMuchSteamerThereMayBe(t *testing.T) {
	for _, c := range []struct{ rounds, layers, tiers, want int }{
		{0, 0, 2, 0}, {0, 5, 2, 5}, {2, 0, 2, 4}, {2, 3, 2, 3}, {1, 3, 2, 2}, {2, 4, 2, 4}, {3, 7, 0, 7},
	} {
		q := Question{Rounds: c.rounds, Layers: c.layers}
		q.Kitchen.Steamer.Tiers = c.tiers
		assert.Equal(t, c.want, q.layersThere(), c)
	}
}

// Ties go to the dish made longest ago, never made before all, then as they stand
// (the plan of the sharing problem, level 7).
func TestWhoWinsATie(t *testing.T) {
	q := Question{Dishes: []recipes.Dish{{Name: "Mash"}, {Name: "Soup"}, {Name: "Salad"}, {Name: "Stew"}}}
	assert.Equal(t, []int{0, 1, 2, 3}, q.tieOrder())
	q.Made = harvest.LastMade([]harvest.Entry{
		&harvest.BatchEvent{Header: harvest.Header{At: noon}, Event: harvest.KindCooked, Name: "Mash", Dish: "Mash"},
		&harvest.BatchEvent{Header: harvest.Header{At: noon.Add(-time.Hour)}, Event: harvest.KindCooked, Name: "Soup", Dish: "Soup"},
	}, noon)
	assert.Equal(t, []int{2, 3, 1, 0}, q.tieOrder())
}

// Who may have what: by what is in it, by the strictest rules for who they are, and
// by what they leave out, each with its reason.
func TestWhichDishSuitsAGuest(t *testing.T) {
	dish := func(crops, others string) recipes.Dish {
		d, err := recipes.LoadDish("d.yaml", []byte("name: D\nportions: 2\nserved: cold\ncrops:\n"+crops+"others:\n"+others+"method: [Make it.]\n"), recipes.DefaultKitchen(units.Metric))
		require.NoError(t, err)
		return d
	}
	const steamed, raw = "  - {crop: potato, amount: 300 g, prepared: peeled, cut: cube 25 mm, cook: steam, until: tender}\n", "  - {crop: carrot, amount: 300 g, prepared: peeled, cook: raw}\n"
	butter, mayonnaise, pesto, rawEgg := "  - {item: butter, amount: 20 g}\n", "  - {item: own mayonnaise, amount: 20 g}\n", "  - {item: pesto, amount: 20 g}\n", "  - {item: raw egg, amount: 1}\n"
	for _, c := range []struct {
		who           string
		crops, others string
		why           string // "" where it suits
	}{
		{"1 adult", raw, mayonnaise, ""},
		{"1 adult no milk", steamed, butter, "butter"},
		{"1 adult no raw egg", steamed, butter, ""},
		{"1 adult no raw egg", steamed, rawEgg, "has raw egg"},
		{"1 adult no raw things", steamed, butter, ""},
		{"1 adult no raw things", raw, butter, "has something raw"},
		{"1 adult no raw things", steamed, pesto, "has something raw"},
		{"1 adult no raw things", steamed, rawEgg, "raw"},
		{"1 adult pregnant", steamed, rawEgg, "egg"},
		{"1 adult pregnant", steamed, butter, ""},
	} {
		groups, err := recipes.ParseGuests(c.who)
		require.NoError(t, err)
		d := dish(c.crops, c.others)
		suits, why := suitsGuest(d, MakeupOf(d), groups[0])
		assert.Equal(t, c.why == "", suits, "%s, %s: %s", c.who, c.others, why)
		assert.Contains(t, why, c.why, c.who)
		if c.why == "" {
			assert.Empty(t, why)
		}
	}
	d := dish(raw, butter)
	assert.True(t, eatenRaw(d, nil))
	assert.False(t, eatenRaw(dish(steamed, butter), []string{"boiled-potatoes"}))
	for _, food := range []string{"leaf-salad", "coleslaw", "sprouts", "pesto", "raw-vegetables", keeping.RawEggDish} {
		assert.True(t, eatenRaw(dish(steamed, butter), []string{"boiled-potatoes", food}), food)
	}
}

// Where a dish is set apart for one who could have had another's as it is made, and
// the other could have had this one, the two change; never a child with an adult.
func TestPlatesAreExchanged(t *testing.T) {
	adult, weak, child := recipes.Guests{Count: 1}, recipes.Guests{Count: 1}, recipes.Guests{Count: 1, Child: true}
	made := func(asMade ...bool) (list []suiting) {
		for _, is := range asMade {
			list = append(list, suiting{asMade: is})
		}
		return list
	}
	for _, c := range []struct {
		about        string
		other        recipes.Guests
		others       []suiting
		mine, theirs []int
		wantMine     []int
		wantTheirs   []int
	}{
		{"changed", adult, made(true, true, true), []int{0}, []int{1}, []int{1}, []int{0}},
		{"and put in order", adult, made(true, true, true), []int{0, 2}, []int{1, 2}, []int{1, 2}, []int{0, 2}},
		{"the other has it already", adult, made(true, true, true), []int{0}, []int{0, 1}, []int{0}, []int{0, 1}},
		{"the other cannot have it either", adult, made(false, true, true), []int{0}, []int{1}, []int{0}, []int{1}},
		{"a child's is no adult's", child, made(true, true, true), []int{0}, []int{1}, []int{0}, []int{1}},
		{"nothing of theirs that I have not", adult, made(true, true, true), []int{0, 1}, []int{1}, []int{0, 1}, []int{1}},
		{"what I have as it is made stays", adult, made(true, true, true), []int{1}, []int{2}, []int{1}, []int{2}},
	} {
		q := Question{Guests: []recipes.Guests{weak, c.other}}
		s := Solved{suits: [][]suiting{made(false, true, true), c.others}}
		shares := []planner.Plate{{Group: 0, Dishes: c.mine}, {Group: 1, Dishes: c.theirs}}
		s.exchange(q, shares, 0, c.mine[0])
		assert.Equal(t, c.wantMine, shares[0].Dishes, c.about)
		assert.Equal(t, c.wantTheirs, shares[1].Dishes, c.about)
	}
}

func TestLikePlatesAreCountedTogether(t *testing.T) {
	plate := func(change func(*Plate)) Plate {
		p := Plate{Guest: recipes.Guests{Count: 4}, Number: 1, Dishes: []string{"Mash"}}
		change(&p)
		return p
	}
	var plates []Plate
	for _, change := range []func(*Plate){
		func(*Plate) {}, func(*Plate) {}, func(p *Plate) { p.Short = 1 }, func(p *Plate) { p.Dishes = []string{"Soup"} },
		func(p *Plate) { p.Apart = []string{"Soup"} }, func(p *Plate) { p.Guest.Child = true }, func(*Plate) {},
	} {
		plates = addPlate(plates, plate(change))
	}
	var numbers []int
	for _, p := range plates {
		numbers = append(numbers, p.Number)
	}
	assert.Equal(t, []int{3, 1, 1, 1, 1}, numbers)
}

// A cold dish lies on the tray until it may go into the fridge; without one until it
// is cool enough to dress, but never past what leaves half an hour to eat it.
func TestHowLongItLiesOnTheTray(t *testing.T) {
	air := cooled{spread: heat.Cooling{FridgeLatest: 25, DressLatest: 60}, most: 90}
	assert.Equal(t, 60.0, air.onTray())
	air.most = 40
	assert.Equal(t, 40.0, air.onTray())
	air.most = -5
	assert.Equal(t, 0.0, air.onTray())
	air.chill = 10
	assert.Equal(t, 25.0, air.onTray())
}

// The fridge that heat is asked about: its own where it is one, a usual one where it
// is too warm to make anything cold.
func TestTheFridgeThatHeatIsAskedAbout(t *testing.T) {
	for c, want := range map[float64]float64{-2: 0.1, 0.1: 0.1, 3: 3, 7.5: 7.5, 7.6: 4, 12: 4} {
		assert.Equal(t, want, fridgeFor(recipes.Kitchen{FridgeC: c}), c)
	}
}

// Why a dish meant cold is not.
func TestWhyADishIsNotCold(t *testing.T) {
	dish := func(served recipes.Served, cooked bool) Dish {
		d := Dish{Recipe: recipes.Dish{Name: "Salad", Served: served}, Parts: []Part{{Line: recipes.CropLine{Cook: "raw"}}}}
		if cooked {
			d.Parts = append(d.Parts, Part{Steam: &Steaming{}})
		}
		return d
	}
	for _, c := range []struct {
		about   string
		kitchen recipes.Kitchen
		dish    Dish
		tray    *cooled
		want    []NotColdCause
	}{
		{"it is", recipes.Kitchen{FridgeC: 4}, dish(recipes.Cold, true), &cooled{cold: true}, nil},
		{"it is not meant to be", recipes.Kitchen{NoFridge: true}, dish(recipes.Warm, true), nil, nil},
		{"nothing of it is cooked", recipes.Kitchen{NoFridge: true}, dish(recipes.Cold, false), nil, nil},
		{"there is no fridge", recipes.Kitchen{NoFridge: true}, dish(recipes.Cold, true), &cooled{}, []NotColdCause{NoColdPlace}},
		{"only a box", recipes.Kitchen{NoFridge: true, ColdBox: recipes.ColdBox{There: true}}, dish(recipes.Cold, true), &cooled{}, []NotColdCause{OnlyABox}},
		{"the fridge keeps nothing", recipes.Kitchen{FridgeC: 9}, dish(recipes.Cold, true), &cooled{judged: true}, []NotColdCause{FridgeKeepsNothing}},
		{"the fridge is too warm", recipes.Kitchen{FridgeC: 7.6}, dish(recipes.Cold, true), &cooled{judged: true, believed: true}, []NotColdCause{FridgeTooWarm}},
		{"too late for it", recipes.Kitchen{FridgeC: 7.5}, dish(recipes.Cold, true), &cooled{}, []NotColdCause{NotInTime}},
		{"nobody knows how it cools", recipes.Kitchen{FridgeC: 4}, dish(recipes.Cold, true), nil, []NotColdCause{NotInTime}},
	} {
		timetable := Timetable{cool: coolings{dishes: map[string]cooled{}}}
		if c.tray != nil {
			timetable.cool.dishes["Salad"] = *c.tray
		}
		var got []NotColdCause
		for _, w := range notColdOf(c.kitchen, Loaded{Dishes: []Dish{c.dish}}, timetable) {
			assert.Equal(t, Warning{Severity: Notice, Concern: NotCold, Dish: "Salad", NotCold: w.NotCold}, w)
			got = append(got, w.NotCold)
		}
		assert.Equal(t, c.want, got, c.about)
	}
}

// A hot dish may wait ten minutes and a warm one thirty; a minute more is told.
func TestWhatWaitsTooLongIsTold(t *testing.T) {
	for _, c := range []struct {
		served recipes.Served
		waits  int
		told   bool
	}{{recipes.Hot, 10, false}, {recipes.Hot, 11, true}, {recipes.Warm, 30, false}, {recipes.Warm, 31, true}, {recipes.Cold, 300, false}} {
		soon, late := stepAt("s1", schedule.Steam, 0, 20, 1), stepAt("s2", schedule.Steam, 0, 25, 1)
		late.Parts, soon.Parts = []PartAt{{0, 1}}, []PartAt{{0, 0}}
		l := Loaded{Dishes: []Dish{{Recipe: recipes.Dish{Name: "D", Served: c.served}}}}
		got := waitsOf(l, Timetable{Steps: []Step{late, soon}, ServeAt: atMinute(20 + c.waits)})
		if !c.told {
			assert.Empty(t, got, c)
			continue
		}
		assert.Equal(t, []Warning{{Severity: Notice, Concern: Waits, Dish: "D", Waited: time.Duration(c.waits) * time.Minute}}, got, c)
	}
	assert.Empty(t, waitsOf(Loaded{Dishes: []Dish{{Recipe: recipes.Dish{Served: recipes.Hot}}}}, Timetable{ServeAt: noon}), "nothing is cooked")
}

// What the kitchen has too little of, each by next to nothing.
func TestWhatThereIsTooLittleOf(t *testing.T) {
	q := Question{Rounds: 2}
	q.Kitchen.Water = recipes.Water{Carried: true, CarriedML: 2000}
	enough := Timetable{Supplies: Supplies{WaterML: 2000}, Loaded: Loaded{Runs: make([]Run, 2)}, Box: Box{Lasts: 60, Needed: 60}}
	assert.Empty(t, shortOf(q, enough))
	for _, c := range []struct {
		spoil func(*Timetable)
		want  Warning
	}{
		{func(t *Timetable) { t.Supplies.WaterML++ }, Warning{Severity: Shortcoming, Concern: OutOfWater}},
		{func(t *Timetable) { t.Loaded.Runs = make([]Run, 3) }, Warning{Severity: Shortcoming, Concern: MoreRounds, Rounds: 2}},
		{func(t *Timetable) { t.Box.Needed++ }, Warning{Severity: Notice, Concern: BoxWarms}},
		{func(t *Timetable) { t.Supplies.TooLong = true }, Warning{Severity: Shortcoming, Concern: CanisterEmpties}},
	} {
		short := enough
		c.spoil(&short)
		assert.Equal(t, []Warning{c.want}, shortOf(q, short))
	}
	enough.Loaded.Runs, enough.Supplies.WaterML = make([]Run, 9), 9000
	assert.Empty(t, shortOf(Question{}, enough), "any number of fillings, and the tap")
}

// What has to boil half an hour boils so long or is told, by whoever cooks it.
func TestWhoBoilsLongEnough(t *testing.T) {
	const half = 30 * time.Minute
	for about, c := range map[string]struct {
		part Part
		want bool
	}{
		"in the pot":          {Part{Line: recipes.CropLine{Cook: "boil"}, Pot: &Pot{AtLeast: half}}, true},
		"too short":           {Part{Line: recipes.CropLine{Cook: "boil"}, Pot: &Pot{AtLeast: half - 1}}, false},
		"own minutes, enough": {Part{Line: recipes.CropLine{Cook: "boil", Minutes: 30}}, true},
		"own minutes, short":  {Part{Line: recipes.CropLine{Cook: "boil", Minutes: 29}}, false},
		"blanched":            {Part{Line: recipes.CropLine{Cook: "blanch"}, Pot: &Pot{AtLeast: half}}, false},
		"own way":             {Part{Line: recipes.CropLine{Cook: "own", Minutes: 60}}, false},
	} {
		assert.Equal(t, c.want, c.part.boilsFor(half), about)
	}
}

// What to ask the guests back is asked one by one; what only has to be minded is
// told once, what poisons of every dish.
func TestAsksAndPoisons(t *testing.T) {
	q := Question{Guests: []recipes.Guests{{Count: 1, Ask: "milk or lactose?\nraw milk too?"}, {Count: 2}}}
	var says []string
	for _, w := range asksOf(q) {
		assert.Equal(t, []any{Notice, AskGuest, 1}, []any{w.Severity, w.Concern, w.Guest.Count})
		says = append(says, w.Says)
	}
	assert.Equal(t, []string{"milk or lactose?", "raw milk too?"}, says)

	text := "name: D\nportions: 2\nserved: cold\ncrops: [{crop: potato, amount: 300 g, prepared: peeled, cut: cube 25 mm, cook: steam, until: tender}]\nmethod: [Make it.]\n"
	d, err := recipes.LoadDish("d.yaml", []byte(text), recipes.DefaultKitchen(units.Metric))
	require.NoError(t, err)
	other := d
	other.Name = "E"
	var minded []string
	for _, poison := range d.Poisons() {
		if !poison.Grave {
			minded = append(minded, poison.Rule)
		}
	}
	var told []string
	for _, w := range poisonsOf([]Dish{{Recipe: d, Makeup: MakeupOf(d)}, {Recipe: other, Makeup: MakeupOf(other)}}) {
		if w.Severity == Notice {
			assert.Empty(t, w.Dish)
			told = append(told, w.Rule)
		}
	}
	assert.Equal(t, strings.Join(minded, " "), strings.Join(told, " "), "once for both")
}

// Air hotter than heat reckons with is reckoned as the hottest it knows.
func TestTheHottestAir(t *testing.T) {
	crop, err := heat.LookupCrop("potato", "waxy")
	require.NoError(t, err)
	dish := Dish{Recipe: recipes.Dish{Name: "Salad", Served: recipes.Cold}, Parts: []Part{{Steam: &Steaming{}, Piece: Piece{Crop: crop}, Cuts: []Cut{{PieceMM: 20}, {PieceMM: 25}}, Prepared: decimal.NewFromInt(500)}}}
	dish.Makeup.Kinds.Foods = []string{"dressed-salad"}
	assert.Equal(t, 25.0, dish.Parts[0].largestPiece())
	takes := func(roomC, airC float64) float64 {
		q := Question{On: noon, AirC: airC}
		q.Kitchen.RoomC, q.Kitchen.FridgeC = roomC, 4
		all, err := coolAll(q, []Dish{dish})
		require.NoError(t, err)
		c, ok := all.of(dish)
		require.True(t, ok, "%g °C", max(roomC, airC))
		return c.spread.FridgeLatest
	}
	assert.Less(t, takes(20, 30), takes(20, 45))
	assert.Equal(t, takes(30, 20), takes(20, 30), "the hotter of the two")
	for _, hotter := range []float64{45.5, 46, 55} {
		assert.Equal(t, takes(20, 45), takes(20, hotter), hotter)
		assert.Equal(t, takes(20, 45), takes(hotter, 20), hotter)
	}
}
