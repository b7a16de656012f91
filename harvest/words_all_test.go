package harvest

import (
	"errors"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Every doubt and every warning, in the words that people read.
func TestDoubtsAndWarningsInWords(t *testing.T) {
	g, m := decimal.NewFromInt, units.MustParse
	slip := func(s Slip) Implausible {
		return Implausible{Planting: "tub-3", Crop: "potato", Grams: g(182000), Low: 999.6, High: 2500.4, Slip: s}
	}
	lifted := day("2031-07-12 16:40")
	for says, d := range map[string]Warning{
		"182 kg from tub-3 this season? Gardens give 1 kg to 2.5 kg of potato there: is the tare still in it, or is it two plantings in one bowl?": slip(SlipUnknown),
		"182 kg from tub-3 this season? Gardens give 1 kg to 2.5 kg of potato there: grams for kilograms?":                                         slip(SlipKilograms),
		"182 kg from tub-3 this season? Gardens give 1 kg to 2.5 kg of potato there: kilograms for grams?":                                         slip(SlipGrams),
		"182 kg from tub-3 this season? Gardens give 1 kg to 2.5 kg of potato there: pounds for kilograms?":                                        slip(SlipPounds),
		`bowl 2, 1.46 kg, without a tare? The others have one (write "1.46 kg - 0 g" for a bag)`:                                                   Untared{2, m("1.46 kg")},
		"the same weights from tub-3 twice, at the same minute? They stand in a.yaml already":                                                      Again{"tub-3", "a.yaml", 59 * time.Second},
		"the same weights from tub-3 twice, 1 min apart? They stand in a.yaml already":                                                             Again{"tub-3", "a.yaml", 119 * time.Second},
		"5 of Soup? Only 4 is left of it":                                                 Overeaten{"Soup", m("5"), m("4")},
		"from tub-3/a at 2031-07-12 16:40? It was lifted at 2031-07-12 17:40, after that": Unlifted{"", "tub-3/a", lifted, lifted.Add(time.Hour)},
		"u.yaml takes from tub-3/a on 2031-07-12 16:40, before it was lifted on 2031-07-12 17:40: it is counted; `trencher journal mend` dates it with the lift": Unlifted{"u.yaml", "tub-3/a", lifted, lifted.Add(time.Hour)},
		"tub-3/a is a name of two lots: is x meant, or y?": TwoLots{"tub-3/a", "x", "y"},
		"1 kg of tub-3/a, with what was thrown out? The journal has only 999 g: is the tare still in it, or was a use logged that was none?": MoreThanHad{"tub-3/a", g(1000), g(999)},
		"1.5 kg of 4 kg dried away from tub-3/a? What was eaten, given or thrown out is logged first":                                        Shrunk{"tub-3/a", g(1500), g(4000), g(10)},
		"left out a.yaml: torn": LeftOut{"a.yaml", errors.New("torn")},
		"a.yaml was corrected on several devices: b.yaml counts; `trencher journal mend` makes that final, or strike that one out first with `trencher journal void`": Conflict{Entry: "a.yaml", Counts: "b.yaml"},
		"a.yaml waits for b.yaml, which is not here: copy the rest of the journal, or strike it out with `trencher journal void a.yaml`":                              Waiting{"a.yaml", "b.yaml"},
		"a.yaml takes 900 g from tub-3/a, which had 800 g left: weigh what is there, or void one of the entries":                                                      Overdrawn{"a.yaml", "tub-3/a", g(900), g(800)},
		"past the longest they keep raw: a, b; look them over, log what was eaten with use and what is gone with compost":                                             PastKeeping{[]string{"a", "b"}},
		"tub-3: nothing tells": Untold{"tub-3", "nothing tells"},
		"this machine's clock says 2031-07-12, before tub-3 was planted; the time given was taken as it is": ClockBehind{lifted, "tub-3 was planted"},
		"a.part was being written when something stopped it; what it holds is in no account":                Unfinished{"a.part"},
	} {
		assert.Equal(t, []string{says}, Said([]Warning{d}))
		d.warning()
		if doubt, asks := d.(Doubt); asks {
			doubt.doubt()
			assert.Equal(t, says, (&Unsure{[]Doubt{doubt}}).Error())
		}
	}
	assert.Equal(t, "a.yaml: a second copy of b.yaml, left by whatever copies this folder; `trencher journal mend` moves it out of the way", (&Copied{"a.yaml", "b.yaml"}).Error())
	assert.Equal(t, []string{"left out a.yaml: torn"}, SaidLeftOut([]LeftOut{{"a.yaml", errors.New("torn")}}))
	two := &Unsure{[]Doubt{TwoLots{"a", "b", "c"}, Untared{1, m("1 kg")}}}
	assert.Equal(t, "a is a name of two lots: is b meant, or c?\nbowl 1, 1 kg, without a tare? The others have one (write \"1 kg - 0 g\" for a bag)", two.Error())
	assert.Equal(t, "nothing was written: mend it, or say that it is right as it is", two.Hint())
	assert.Len(t, two.Mark(), 16)
	assert.NotEqual(t, two.Mark(), (&Unsure{two.Doubts[:1]}).Mark(), "who insisted on one has not insisted on the other")
	assert.Equal(t, two.Mark(), (&Unsure{[]Doubt{TwoLots{"a", "b", "c"}, Untared{1, m("1 kg")}}}).Mark())
}

// What the tables offer, and the names that are free.
func TestSmallLists(t *testing.T) {
	assert.Equal(t, []string{"waxy", "floury"}, Textures())
	assert.Equal(t, []Telling{"done", "not-yet", "over", "five-late"}, Tellings())
	assert.Equal(t, []string{"potato", "beetroot", "carrot"}, CropsOf(plot()))
	assert.Equal(t, "tub-1", FreeID(plot(), "tub"))
	assert.Equal(t, "bed-2", FreeID(plot(), "bed"))
	assert.Equal(t, "tub-2", FreeID(append(plot(), Planting{ID: "tub-1"}), "tub"))
	assert.Equal(t, []string{"2.1kg", "1.46 kg - 0.31 kg"}, Bowls([]string{"2.1kg", "1.46 kg - 0.31 kg"}))
	assert.Equal(t, []string{"2.1 kg"}, Bowls([]string{"2.1", "kg"}))
	assert.Empty(t, Bowls(nil))
	for months, says := range map[Months]string{{}: "", {time.July, time.July}: "July", {time.September, time.March}: "September-March"} {
		assert.Equal(t, says, months.String())
	}
	assert.Equal(t, "July", Window{Months: "June", Printed: Months{time.July, time.July}}.UsualMonths())
	assert.Equal(t, "June", Window{Months: "June"}.UsualMonths())
	assert.Equal(t, "70-90 days from sowing", Window{Since: SinceSowing, Days: Range{70, 90}}.When())
	assert.Equal(t, "04-10 to 06-21 each year", Window{Opens: units.MonthDay{Month: 4, Day: 10}, Closes: units.MonthDay{Month: 6, Day: 21}}.When())
}

// A day is near a stretch of months in it, and in the month before and after it;
// of a stretch of ten months or more every day is.
func TestDaysNearMonths(t *testing.T) {
	near := func(m Months) (list string) {
		for month := time.January; month <= time.December; month++ {
			if m.near(time.Date(2031, month, 15, 0, 0, 0, 0, time.UTC)) {
				list += month.String()[:3] + " "
			}
		}
		return list
	}
	all := "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec "
	for _, row := range []struct {
		from, to time.Month
		near     string
	}{
		{0, 0, all},
		{time.July, time.July, "Jun Jul Aug "},
		{time.June, time.August, "May Jun Jul Aug Sep "},
		{time.November, time.February, "Jan Feb Mar Oct Nov Dec "},
		{time.December, time.January, "Jan Feb Nov Dec "},
		{time.January, time.February, "Jan Feb Mar Dec "},
		{time.February, time.October, "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov "},
		{time.January, time.October, all},
		{time.March, time.December, all},
		{time.May, time.April, all},
	} {
		assert.Equal(t, row.near, near(Months{row.from, row.to}), "%v to %v", row.from, row.to)
	}
}

// A size felt near the surface, as it is typed.
func TestParseFelt(t *testing.T) {
	planting, mm, err := ParseFelt(" tub-3 = 3.8 cm")
	require.NoError(t, err)
	assert.Equal(t, "tub-3", planting)
	assert.InDelta(t, 38, mm, 1e-9)
	for _, wrong := range []string{"tub-3", "tub-3=", "tub-3=38 g", "tub-3=30-40 mm", "tub-3=big"} {
		_, mm, err := ParseFelt(wrong)
		var field *units.FieldError
		require.ErrorAs(t, err, &field, wrong)
		assert.Equal(t, "felt", field.Field)
		assert.Equal(t, wrong, field.Value)
		assert.Zero(t, mm)
	}
	list, _ := Ready(plot(), nil, Site{}, day("2031-07-12"))
	r := ReadyList{On: day("2031-07-12"), List: list}
	require.NoError(t, r.FeelEach([]string{"bed-1=55 mm"}))
	felt := ""
	for _, one := range r.List {
		felt += one.Felt
	}
	assert.Contains(t, felt, "55 mm across: good; lift what you will eat")
	var wrong *units.FieldError
	require.ErrorAs(t, r.FeelEach([]string{"bed-9=55 mm"}), &wrong)
	assert.Equal(t, "bed-9=55 mm", wrong.Value)
	require.ErrorAs(t, r.FeelEach([]string{"bed-1"}), &wrong)
	assert.Equal(t, "bed-1", wrong.Value)
}
