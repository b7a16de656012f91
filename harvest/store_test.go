package harvest

import (
	"context"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// What is told of a store agrees with what was measured in one; each row of
// the table of checks names where.
func TestLossesAgreeWithTheSources(t *testing.T) {
	days := map[string]float64{"trade store, first month": 30, "trade store, five months": 150, "room, two months, early kinds": 61,
		"10-15 C, 9 weeks": 63, "10-15 C, 20 weeks": 140}
	places := map[string]Keeping{"trade store, first month": InColdStore, "trade store, five months": InColdStore,
		"room, two months, early kinds": InRoom, "10-15 C, 9 weeks": CoolDark, "10-15 C, 20 weeks": CoolDark}
	rows := 0
	for _, want := range table(t, "stores.csv") {
		rows++
		row, ok := StoreLoss(want["crop"], places[want["given"]])
		require.True(t, ok, want)
		low, high := number(t, want["low"]), number(t, want["high"])
		switch at := days[want["given"]]; want["kind"] {
		case "loss":
			assert.GreaterOrEqual(t, row.Dried(at), low-0.0001, want)
			assert.LessOrEqual(t, row.Dried(at), high+0.0001, want)
		case "kept":
			assert.InDelta(t, low, 1-shareAt(row.Spoils, at), 0.05, want["source"])
		}
	}
	assert.Equal(t, 5, rows)
}

// The share still fit to eat, month by month: common practice at home, no
// source, but for squash (University of California, Davis, which cites Oregon
// State University).
func TestFitInStore(t *testing.T) {
	for _, row := range []struct {
		crop  string
		place Keeping
		fit   [6]float64
	}{
		{"potato", CoolDark, [6]float64{0.96, 0.93, 0.90, 0.87, 0.84, 0.80}},
		{"onion", CoolDark, [6]float64{0.96, 0.92, 0.88, 0.84, 0.80, 0.72}},
		{"winter squash", CoolDark, [6]float64{0.91, 0.82, 0.67, 0.50, 0.34, 0.19}},
		{"carrot", InSand, [6]float64{0.95, 0.90, 0.85, 0.80, 0.75, 0.70}},
		{"potato", InColdStore, [6]float64{0.97, 0.965, 0.96, 0.955, 0.95, 0.945}},
	} {
		loss, ok := StoreLoss(row.crop, row.place)
		require.True(t, ok)
		before := 1.0
		for month, want := range row.fit {
			fit := loss.Fit(float64(month+1) * 30.5)
			assert.InDelta(t, want, fit, 0.025, "%s, %s, month %d", row.crop, row.place, month+1)
			assert.Less(t, fit, before, "it only ever shrinks")
			before = fit
		}
		assert.InDelta(t, 1, loss.Fit(0), 1e-9)
	}
	_, ok := StoreLoss("lettuce, head", InRoom)
	assert.False(t, ok)
	for _, row := range StoreRows() {
		for days := 0.0; days < 800; days++ {
			require.GreaterOrEqual(t, row.Fit(days), row.Fit(days+1), row.Crop)
			require.GreaterOrEqual(t, row.Fit(days), 0.0, row.Crop)
		}
	}
}

func TestPlacesWithWhatStandsThere(t *testing.T) {
	warm, cool := units.MustParse("18 C"), units.MustParse("8 C")
	for _, row := range []struct {
		where string
		air   units.Quantity
		place Keeping
	}{
		{"shed, paper sack", units.Quantity{}, CoolDark}, {"Shed", cool, CoolDark}, {"shed", warm, InRoom}, {"paper sack, cellar", cool, CoolDark},
		{"fridge", warm, InFridge}, {"under the bed", cool, ""}, {"", units.Quantity{}, ""},
	} {
		place, _ := placeOf(row.where, row.air)
		assert.Equal(t, row.place, place, row.where)
	}
}

// sacks are 10 kg of maincrops, a sack of them in the shed.
func sacks() ([]Planting, *Lift, *Move) {
	plantings := []Planting{{ID: "bed-9", Crop: "potato", Class: "late maincrop", Planted: day("2031-04-20"), Bed: units.MustParse("4 m2")}}
	lift := liftOf("bed-9", "2031-09-20 12:00", "10 kg")
	return plantings, lift, storeAt("2031-09-20 13:00", "8 kg", "shed, paper sack")
}

func storeAt(at, weight, where string) *Move {
	m := moveOf(KindStore, at, "bed-9/2031-0920-1200/ungraded-sound", weight)
	m.Where = where
	return m
}

func reweighedAt(at, weight, rotten string) *Reweighed {
	r := &Reweighed{Lot: "bed-9/2031-0920-1200/ungraded-sound", Weight: units.MustParse(weight)}
	r.At, r.File = day(at), "journal/2031/"+strings.NewReplacer(" ", "-", ":", "").Replace(at)+"-reweighed-bed-9.yaml"
	if rotten != "" {
		r.Rotten = units.MustParse(rotten)
	}
	return r
}

// A sack weighed again: every gram is eaten, rotten, dried away or there.
func TestASackIsWeighedAgain(t *testing.T) {
	plantings, lift, store := sacks()
	use := moveOf(KindUse, "2031-10-01 12:00", store.Lot, "2 kg")
	later := moveOf(KindUse, "2031-11-10 12:00", store.Lot, "500 g")
	entries := []Entry{later, lift, reweighedAt("2031-11-01 12:00", "7.4 kg", "250 g"), store, use}
	account, err := Settle(plantings, entries, day("2031-11-10"))
	require.NoError(t, err)
	lot := account.Lots[0]
	assert.Equal(t, Went{Kitchen: g("2500"), Stored: g("6900"), Given: g("0"), Compost: g("250"), Dried: g("350"), OnHand: g("0")}.String(), lot.Went.String())
	assert.Equal(t, "10000", lot.Went.Sum().String())
	assert.Equal(t, "6900", lot.Weight.String())
	assert.True(t, lot.First, "some of it was rotten")
	assert.Equal(t, day("2031-11-01 12:00"), lot.Lies().Looked)

	again := reweighedAt("2031-11-12 12:00", "7000 g", "")
	account, err = Settle(plantings, append(entries, again), day("2031-11-12"))
	require.NoError(t, err)
	assert.Equal(t, "250", account.Lots[0].Went.Dried.String(), "the scale counts: 100 g less dried away than was thought")
	assert.Equal(t, "10000", account.Lots[0].Went.Sum().String())
	assert.False(t, account.Lots[0].First, "nothing was rotten this time")
}

// What two people took at once is settled by weighing what is there.
func TestWeighingSettlesWhatWasOverdrawn(t *testing.T) {
	plantings, lift, _ := sacks()
	use := moveOf(KindUse, "2031-10-01 12:00", "bed-9/2031-0920-1200/ungraded-sound", "12 kg")
	account, err := Settle(plantings, []Entry{lift, use}, day("2031-11-10"))
	require.NoError(t, err)
	require.Len(t, account.Warnings, 1)
	account, err = Settle(plantings, []Entry{lift, use, reweighedAt("2031-10-02 12:00", "1 kg", "")}, day("2031-11-10"))
	require.NoError(t, err)
	assert.Empty(t, account.Warnings)
	assert.Equal(t, "-3000", account.Lots[0].Went.Dried.String())
	assert.Equal(t, "10000", account.Lots[0].Went.Sum().String())
}

func TestWhatIsAskedOfASecondWeighing(t *testing.T) {
	ctx, clock := context.Background(), day("2031-11-02")
	reweigh := func(weight, rotten string) (LoggedReweighed, []Doubt, error) {
		plantings, lift, store := sacks()
		s := shelf{2031: {lift, store}}
		r := reweighedAt("2031-11-01 12:00", weight, rotten)
		r.Lot, r.File = "", ""
		logged, err := NewLedger(s, plantings, false).Reweigh(ctx, r, "bed-9", clock)
		var unsure *Unsure
		if err != nil && assert.ErrorAs(t, err, &unsure) {
			assert.Len(t, s[2031], 2, "nothing is written")
			return logged, unsure.Doubts, nil
		}
		assert.Len(t, s[2031], 3)
		return logged, nil, err
	}
	logged, doubts, err := reweigh("9.7 kg", "100 g")
	require.NoError(t, err)
	assert.Empty(t, doubts)
	assert.Equal(t, "200 100 10000", logged.Dried.String()+" "+logged.Rot.String()+" "+logged.Had.String())
	assert.Equal(t, "209", logged.Usual.String(), "1.5 % a month (common practice, no source), six weeks")
	assert.Equal(t, "9700", logged.Of.Weight.String())
	assert.NotEmpty(t, logged.Reasons())
	_, doubts, _ = reweigh("9.95 kg", "100 g")
	assert.IsType(t, MoreThanHad{}, doubts[0])
	_, doubts, _ = reweigh("7.5 kg", "")
	assert.Empty(t, doubts)
	_, doubts, _ = reweigh("7.4 kg", "")
	assert.IsType(t, Shrunk{}, doubts[0])
	for name, row := range map[string]struct{ weight, at, field string }{
		"no weight": {"", "2031-11-01 12:00", "weight"}, "to come": {"1 kg", "2031-12-01 12:00", "at"}, "before the lift": {"1 kg", "2031-09-19 10:00", "at"},
	} {
		plantings, lift, store := sacks()
		r := &Reweighed{}
		if row.weight != "" {
			r.Weight = units.MustParse(row.weight)
		}
		r.At = day(row.at)
		_, err := NewLedger(shelf{2031: {lift, store}}, plantings, false).Reweigh(ctx, r, "bed-9", clock)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, name)
		assert.Equal(t, row.field, wrong.Field, name)
	}
}

// How long a store lasts is told by what the household took, with what is lost
// on the way: 10 kg at 100 g a day last 94 days, not 100.
func TestLastsAtTheHouseholdsOwnPace(t *testing.T) {
	plantings, lift, store := sacks()
	store.Weight = units.MustParse("10 kg")
	entries := []Entry{lift, store}
	for _, at := range []string{"2031-09-23 12:00", "2031-09-28 12:00", "2031-10-03 12:00"} {
		entries = append(entries, moveOf(KindUse, at, store.Lot, "500 g"))
	}
	list, err := stockOf(plantings, entries, day("2031-10-07"))
	require.NoError(t, err)
	require.Len(t, list.Lasting, 1)
	c := list.Lasting[0]
	assert.InDelta(t, 100, c.Pace, 1e-9, "1.5 kg in the 15 days since the first")
	assert.Equal(t, "8500", c.Grams.String())
	assert.Equal(t, day("2031-09-23"), c.Since)
	days := c.Until.Sub(list.On).Hours() / 24
	assert.Greater(t, days, 78.0)
	assert.Less(t, days, 84.0, "85 days if nothing were lost")
	assert.InDelta(t, 8500-100*days, c.Lost.InexactFloat64(), 101, "what is not eaten is lost")
	require.NotEmpty(t, list.Lots[0].Expect(list.On))
	for _, e := range list.Lots[0].Expect(list.On) {
		assert.True(t, e.Low.LessThan(e.Grams) && e.Grams.LessThan(e.High))
		assert.Equal(t, 1, e.On.Day())
	}
	list, err = stockOf(plantings, entries[:4], day("2031-10-07"))
	require.NoError(t, err)
	assert.Empty(t, list.Lasting, "two uses are no pace")
}

// What the household does not eat in time at its own pace is used first, from a
// week before its day on.
func TestUseFirstFollowsThePace(t *testing.T) {
	plantings := []Planting{{ID: "bed-9", Crop: "carrot", Planted: day("2031-04-20"), Bed: units.MustParse("4 m2")}}
	lift := liftOf("bed-9", "2031-09-20 12:00", "6 kg")
	lot := lift.Lots(plantings[0], "")[0]
	entries := []Entry{lift}
	before := lot.KeepsUntil.AddDate(0, 0, -8)
	for ago := range 3 {
		entries = append(entries, moveOf(KindUse, before.AddDate(0, 0, -ago).Format("2006-01-02 15:04"), lot.ID, "100 g"))
	}
	list, err := stockOf(plantings, entries, before)
	require.NoError(t, err)
	assert.False(t, list.Lots[0].First)
	list, err = stockOf(plantings, entries, before.AddDate(0, 0, 1))
	require.NoError(t, err)
	assert.True(t, list.Lots[0].First)
	list, err = stockOf(plantings, entries[:1], before.AddDate(0, 0, 1))
	require.NoError(t, err)
	assert.False(t, list.Lots[0].First, "no pace, no hurry")
}

// Twice past its life a lot is set aside, until it was looked over.
func TestPastTwiceItsLife(t *testing.T) {
	past := func(on string, more ...Entry) bool {
		list, err := stockOf(plot(), append(more, bowlsAt("bed-1", "2031-07-12 10:00", "1 kg")), day(on))
		require.NoError(t, err)
		return list.Lots[0].Past
	}
	k, ok := KeptRaw("beetroot", "", Sound, "")
	require.True(t, ok)
	last := day("2031-07-12").AddDate(0, 0, 2*k.Days.Low)
	assert.False(t, past(last.Format("2006-01-02")))
	assert.True(t, past(last.AddDate(0, 0, 1).Format("2006-01-02")))
	looked := &Reweighed{Lot: "bed-1/2031-0712-1000/ungraded-sound", Weight: units.MustParse("900 g")}
	looked.At = last
	assert.False(t, past(last.AddDate(0, 0, 1).Format("2006-01-02"), looked))
}

func g(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// String writes what went where, for comparing.
func (w Went) String() string {
	return strings.Join([]string{w.Kitchen.String(), w.Stored.String(), w.Given.String(), w.Compost.String(), w.Dried.String(), w.OnHand.String()}, " ")
}
