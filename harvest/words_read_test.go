package harvest

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
	"trencher/units/spelled"
)

// fieldsOf are the boxes that errors are told beside, in their order.
func fieldsOf(err error) (fields []string) {
	if err == nil {
		return nil
	}
	all := units.Several(err)
	if len(all) == 0 {
		all = []error{err}
	}
	for _, one := range all {
		var wrong *units.FieldError
		if errors.As(one, &wrong) {
			fields = append(fields, wrong.Field)
		}
	}
	return fields
}

// What is typed of a lift is all in it; each box that cannot be read is told, all at
// once, and then what does not fit together.
func TestWordsOfALiftAreRead(t *testing.T) {
	lift, err := LiftWords{Planting: "tub-3", Weighings: []string{"1.46 kg - 0.31 kg", "2 lb"}, Grades: []string{"820 g 20-45 mm scabby", "60 g green"}, Mothers: "90 g", Soil: "1 lb", Left: LeftSome, Lies: "trug", Says: "wet", Replaces: "a.yaml"}.Read(units.Metric)
	require.NoError(t, err)
	assert.Equal(t, "{Header {Replaces a.yaml}, Planting tub-3, Weighings [{Gross 1.46 kg, Tare 0.31 kg}, {Gross 2 lb}], Grades [{Sizes 20-45 mm, Weight 820 g, Condition scabby}, {Weight 60 g, Condition green}], Mothers 90 g, Soil 1 lb, Left some, Where trug, Says wet}", spelled.Line(*lift, nil))
	_, err = LiftWords{Planting: "tub-3", Weighings: []string{"much", "1 kg"}, Grades: []string{"some"}, Mothers: "few", Soil: "1 m", Left: "half"}.Read(units.Metric)
	assert.Equal(t, []string{"weighing", "grade", "mothers", "soil", "left"}, fieldsOf(err))
	for _, left := range []string{"", LeftSome, LeftNone} {
		_, err = LiftWords{Planting: "tub-3", Weighings: []string{"1 kg"}, Left: left}.Read(units.Metric)
		assert.NoError(t, err)
	}
	_, err = LiftWords{Planting: "tub-3", Weighings: []string{"1 kg"}, Grades: []string{"2 kg"}}.Read(units.Metric)
	assert.Error(t, err, "more is sorted than was weighed")
}

// The same of what leaves a lot, and of a lot weighed again.
func TestWordsOfMovesAreRead(t *testing.T) {
	clock := units.Clock{Now: day("2031-07-20 18:00"), Zone: time.UTC}
	move, err := MoveWords{To: KindStore, Weight: "1 lb", At: "2031-07-19", Dish: "Mash", Whom: "you", Lies: "shed", Air: "8 C", Reason: "soft", Replaces: "a.yaml"}.Read(clock, units.Metric)
	require.NoError(t, err)
	assert.Equal(t, "{Header {At 2031-07-19 12:00:00, Replaces a.yaml}, To store, Weight 1 lb, Dish Mash, Whom you, Where shed, Air 8 C, Reason soft}", spelled.Line(*move, nil))
	_, err = MoveWords{Weight: "much", At: "soon", Air: "cold"}.Read(clock, units.Metric)
	assert.Equal(t, []string{"at", "weight", "air"}, fieldsOf(err))
	again, err := ReweighWords{Weight: "1.2 kg - 0.2 kg", Rotten: "40 g", At: "17:00", Lies: "cellar", Air: "4 C", Replaces: "a.yaml"}.Read(clock, units.Metric)
	require.NoError(t, err)
	assert.Equal(t, "{Header {At 2031-07-20 17:00:00, Replaces a.yaml}, Weight 1 kg, Rotten 40 g, Where cellar, Air 4 C}", spelled.Line(*again, nil))
	_, err = ReweighWords{Weight: "much", Rotten: "some", At: "soon", Air: "8-9 C"}.Read(clock, units.Metric)
	assert.Equal(t, []string{"at", "weight", "rotten", "air"}, fieldsOf(err))
	for text, want := range map[string]string{"": "", "1 kg": "1 kg", "1 kg - 0 g": "1 kg"} {
		net, err := parseNet("weight", text, units.Metric)
		require.NoError(t, err)
		assert.Equal(t, want, net.String())
	}
	for _, text := range []string{"8 kg", "8-9 C", "warm", "-40.1 C", "60.1 C", "900 C"} {
		_, err := ParseAir("air", text)
		assert.Equal(t, []string{"air"}, fieldsOf(err), text)
	}
	for _, text := range []string{"-40 C", "60 C", "140 F"} {
		_, err := ParseAir("air", text)
		require.NoError(t, err, text)
	}
	for kind, e := range map[string]Entry{KindCooked: &BatchEvent{Event: KindCooked}, KindUse: &Move{To: KindUse}, KindLift: &Lift{}, KindReweighed: &Reweighed{}, KindPlan: &Planned{}, KindNote: &Note{}, KindSteamed: &Steamed{}, KindStep: &Told{}, KindVoid: &Void{}} {
		assert.Equal(t, kind, e.Kind())
		assert.Contains(t, Kinds(), kind)
	}
}

// How much ground and seed a number of plants wants, and when it is begun.
func TestLayingPlantsOut(t *testing.T) {
	for _, c := range []struct {
		crop, class string
		plants      float64
		seed        int
		sowings     bool
	}{{"potato", "first early", 1, 1, true}, {"potato", "first early", 3.2, 4, true}, {"carrot", "", 10, 15, true}, {"carrot", "", 0, 0, false}, {"moonflower", "", 10, 0, false}} {
		n := NextCrop{Crop: c.crop, Class: c.class, Plants: Estimate{Likely: c.plants}}
		n.Row, _ = LookupCrop(c.crop)
		n.layOut(2032, UsualSite())
		assert.Equal(t, c.seed, n.Seed, c.crop)
		assert.Equal(t, c.sowings, len(n.Sowings) > 0, c.crop)
		assert.Equal(t, c.sowings, n.M2 > 0, c.crop)
	}
	beans, _ := LookupCrop("runner bean")
	w, ok := beans.window(Planting{})
	require.True(t, ok)
	early, late := units.MonthDay{Month: time.August, Day: 1}, units.MonthDay{Month: time.November, Day: 20}
	first, lastEarly := w.begin(beans, 2032, Site{FirstFrost: early, LastFrost: UsualSite().LastFrost})
	_, lastLate := w.begin(beans, 2032, Site{FirstFrost: late, LastFrost: UsualSite().LastFrost})
	assert.False(t, lastEarly.After(lastLate), "an early frost ends sowing sooner")
	assert.False(t, lastEarly.Before(first))
	assert.True(t, lastEarly.Equal(first) || lastEarly.AddDate(0, 0, w.Days.Low+gatherDays).Equal(early.In(2032)), "two weeks to gather are left")
}

// Portions are counted where portions are told; a weight is none.
func TestPortionsOfBatches(t *testing.T) {
	var d DishSeason
	for _, e := range []*BatchEvent{{Event: KindCooked, Amount: units.MustParse("6")}, {Event: KindCooked, Amount: units.MustParse("500 g")}, {Event: KindEaten, Amount: units.MustParse("4")}, {Event: KindEaten}, {Event: KindBinned, Amount: units.MustParse("1")}, {Event: KindOut, Amount: units.MustParse("9")}} {
		d.add(e)
	}
	assert.Equal(t, DishSeason{Times: 2, Cooked: 6, Eaten: 4, Binned: 1}, d)
}
