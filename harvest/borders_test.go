package harvest

import (
	"math"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// A lift is called by the first word none of whose names another lot has.
func TestTheWordOfALift(t *testing.T) {
	at := day("2031-07-19 16:40")
	lot := func(id, name string) *Lot { return &Lot{ID: id, Name: name} }
	own := []*Lot{lot("tub-1/x/20-45-sound", ""), lot("tub-1/x/ungraded-green", "")}
	for _, c := range []struct {
		name   string
		word   string
		others []*Lot
		want   string
	}{
		{"nobody has it", "", nil, ""},
		{"its own word is free", "late", []*Lot{lot("tub-1/a/20-45-sound", "tub-1/20-45-sound")}, "late"},
		{"an earlier one has it", "", []*Lot{lot("tub-1/a/ungraded-green", "tub-1/ungraded-green")}, "19jul"},
		{"another one of the day too", "", []*Lot{lot("tub-1/a/20-45-sound", "tub-1/20-45-sound"), lot("tub-1/b/20-45-sound", "tub-1/20-45-sound-19jul")}, "19jul-1640"},
		{"all are taken", "", []*Lot{lot("tub-1/a/20-45-sound", "tub-1/20-45-sound"), lot("tub-1/b/20-45-sound", "tub-1/20-45-sound-19jul"), lot("tub-1/c/20-45-sound", "tub-1/20-45-sound-19jul-1640")}, "20310719-164000"},
		{"a name another would have", "", []*Lot{lot("tub-1/a/20-45-sound", "tub-1/a/20-45-sound")}, "19jul"},
	} {
		assert.Equal(t, c.want, distinct(own, c.word, at, c.others), c.name)
	}
}

// What is eaten at a pace is eaten from what goes off first; what keeps longer than
// anybody looks ahead lasts so long.
func TestEatingUp(t *testing.T) {
	on := day("2031-07-19")
	keeps := func(grams float64, days int) portion {
		return portion{&Lot{Lifted: on, KeepsUntil: on.AddDate(0, 0, days)}, grams}
	}
	for _, c := range []struct {
		name  string
		lots  []portion
		pace  float64
		days  int // from on to the last day there is some
		least float64
	}{
		{"eaten in ten days", []portion{keeps(1000, 30)}, 100, 9, 0},
		{"not a whole day's", []portion{keeps(1050, 30)}, 100, 10, 0},
		{"two, one after the other", []portion{keeps(500, 30), keeps(300, 60)}, 100, 7, 0},
		{"nothing there", nil, 100, 0, 0},
		{"more than anybody looks ahead", []portion{{&Lot{Lifted: on}, 1e6}}, 1, 729, 0},
	} {
		until, lost := eatUp(c.lots, c.pace, on)
		assert.Equal(t, on.AddDate(0, 0, c.days), until, c.name)
		assert.InDelta(t, c.least, lost, 1e-9, c.name)
	}
	_, lost := eatUp([]portion{keeps(5000, 2)}, 100, on)
	assert.Greater(t, lost, 4000.0, "what is long past is eaten by nobody")
}

// A yield is told against the usual one where both are there.
func TestAYieldAgainstTheUsual(t *testing.T) {
	for _, c := range []struct {
		low, high int
		net       string
		ok        bool
	}{{1, 2, "10", true}, {0, 2, "10", false}, {500, 1000, "750", true}} {
		y := Yield{Usual: Usual{Per: PerPlant, Grams: Range{c.low, c.high}}, PerSeed: decimal.NewNullDecimal(decimal.RequireFromString(c.net))}
		_, ok := y.AgainstUsual()
		assert.Equal(t, c.ok, ok, c.low)
	}
	_, ok := Yield{Usual: Usual{Per: PerPlant, Grams: Range{500, 1000}}}.AgainstUsual()
	assert.False(t, ok, "nothing tells how much a seed gave")
}

// How many plants a planting has: counted, else by its bed or tub.
func TestPlantsOfAPlanting(t *testing.T) {
	row, _ := LookupCrop("carrot")
	for _, c := range []struct {
		p    Planting
		want float64
	}{
		{Planting{Crop: "carrot", SeedCount: 1}, 1},
		{Planting{Crop: "carrot", Bed: units.MustParse("2 m2")}, 2 * row.Spacing.PlantsPerM2()},
		{Planting{Crop: "carrot"}, 0},
		{Planting{Crop: "moonflower", Bed: units.MustParse("2 m2")}, 0},
	} {
		assert.InDelta(t, c.want, plantsOf(c.p), 1e-9)
	}
	potato, _ := LookupCrop("potato")
	assert.InDelta(t, 30/potato.Tub.Litres, plantsOf(Planting{Crop: "potato", Tub: units.MustParse("30 l")}), 1e-9)
	r := record{}
	y := Yield{Planting: Planting{Crop: "carrot", SeedCount: 2}}
	r.add(2030, y)
	assert.Empty(t, r.yields, "what gave nothing tells no yield")
	y.Net = decimal.NewFromInt(100)
	r.add(2030, y)
	r.add(2031, Yield{Planting: Planting{Crop: "carrot"}, Net: decimal.NewFromInt(50)})
	assert.Equal(t, []float64{50}, r.yields)
	assert.Equal(t, []int{2030, 2031}, r.years)
	assert.Equal(t, []float64{100, 50}, r.gave)
	assert.False(t, math.IsNaN(r.mean(r.gave)))
	assert.Equal(t, 75.0, r.mean(r.gave))
}

// More eaten than is left is asked about; that much is not, nor what nobody knows.
func TestDoubtsAboutEaten(t *testing.T) {
	event := func(kind, amount string) *BatchEvent {
		e := &BatchEvent{Event: kind, Name: "Mash"}
		if amount != "" {
			e.Amount = units.MustParse(amount)
		}
		return e
	}
	four := units.MustParse("4")
	for _, c := range []struct {
		event *BatchEvent
		left  units.Quantity
		asked bool
	}{
		{event(KindEaten, "5"), four, true}, {event(KindEaten, "4"), four, false}, {event(KindEaten, ""), four, false}, {event(KindEaten, "5"), units.Quantity{}, false},
		{event(KindCooked, "5"), four, false}, {event(KindEaten, "500 g"), four, false}, {event(KindBinned, "5"), four, true},
	} {
		assert.Equal(t, c.asked, len(doubtEaten(c.event, c.left)) == 1, "%s %s of %s", c.event.Event, c.event.Amount, c.left)
	}
}

// Of the lots an entry takes from too early, the one lifted last counts; of two lifted
// at once, one.
func TestOneUnliftedForAnEntry(t *testing.T) {
	at := func(file, lot, lifted string) Unlifted {
		return Unlifted{File: file, Lot: lot, Lifted: day(lifted)}
	}
	all := []Warning{at("a", "x", "2031-07-02"), at("a", "y", "2031-07-03"), at("a", "z", "2031-07-03"), at("b", "x", "2031-07-02"), Untold{Planting: "p"}}
	assert.Equal(t, []Warning{all[2], all[3], all[4]}, onceUnlifted(all))
}

// A second weighing before the lot's lift is refused, of another day even at noon, and
// so is one that is still to come.
func TestMomentsOfASecondWeighing(t *testing.T) {
	lot := &Lot{Name: "tub-1/x", Lifted: day("2031-07-12 16:40")}
	clock := day("2031-07-20 12:00")
	for at, ok := range map[string]bool{"2031-07-12 16:40": true, "2031-07-12 12:00": true, "2031-07-12 16:39": false, "2031-07-11 12:00": false, "2031-07-20 12:00": true, "2031-07-13 09:00": true} {
		r := &Reweighed{Weight: units.MustParse("1 kg")}
		r.At = day(at)
		err := r.check(lot, clock)
		assert.Equal(t, ok, err == nil, "%s: %v", at, err)
		if err != nil {
			var wrong *units.FieldError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, "at", wrong.Field)
		}
		assert.Equal(t, day(at).Before(day("2031-07-12")) || at == "2031-07-12 16:39", lot.isStillToCome(day(at)), at)
	}
	for past, ok := range map[time.Duration]bool{slack: true, slack + time.Second: false} {
		assert.Equal(t, ok, notYet("at", clock.Add(past), clock, "") == nil, past)
	}
	noon := &Lot{Lifted: day("2031-07-12 12:00")}
	assert.False(t, noon.isStillToCome(day("2031-07-12 09:00")), "a lift of a day")
	assert.True(t, noon.isStillToCome(day("2031-07-11 09:00")))
	assert.False(t, isNoon(time.Date(2031, 7, 12, 12, 0, 1, 0, time.UTC)))
}
