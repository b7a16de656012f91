package harvest

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// planOf is a plan of one dish made from what is on hand on a day.
func planOf(t *testing.T, l *Ledger, on string, lotsAndWeights ...string) *Planned {
	t.Helper()
	fresh := NewLedger(l.journal, l.Plantings, false)
	require.NoError(t, fresh.Read(context.Background(), day(on)))
	account, err := fresh.Account()
	require.NoError(t, err)
	var uses []Use
	for i := 0; i < len(lotsAndWeights); i += 2 {
		uses = append(uses, Use{Lot: lotsAndWeights[i], Weight: units.MustParse(lotsAndWeights[i+1]), Dish: "Mash"})
	}
	return NewPlanned(day(on), account.Stock(), []Making{{"Mash", 4}}, uses)
}

const usualRest = "tub-3/2031-0712-1640/ungraded-sound"

// A plan is one entry: what all its dishes take leaves the stock with it, and
// one void brings all of it back.
func TestAPlanIsOneEntry(t *testing.T) {
	l, s := ledgerOf(usualLift())
	before := onHand(t, l, "2031-07-13")
	p := planOf(t, l, "2031-07-13", usual, "320 g", usualRest, "50 g", usual, "100 g")
	require.NoError(t, l.Record(context.Background(), p, day("2031-07-13 18:00")))
	assert.Len(t, s[2031], 2)
	assert.Equal(t, day("2031-07-13 18:00"), p.At)
	after := onHand(t, l, "2031-07-13")
	assert.Contains(t, after, "tub-3/20-45-scabby=400/400", "820 g less 320 g and 100 g")
	assert.Contains(t, after, "tub-3/ungraded-sound=100/100", "150 g less 50 g")
	_, err := NewLedger(s, plot(), false).Void(context.Background(), p.Stem(), "", day("2031-07-13 19:00"))
	require.NoError(t, err)
	assert.Len(t, s[2031], 3)
	assert.Equal(t, before, onHand(t, l, "2031-07-13"))
}

// What is written is what was shown: a gram used meanwhile, and the answer is
// that the stock has changed.
func TestAPlanOfAnotherStockIsRefused(t *testing.T) {
	clock := day("2031-07-13 18:00")
	for name, row := range map[string]struct {
		at     string // of the plan; "" is now
		change Entry
		field  string
		says   string
	}{
		"a gram used since":       {"", moveOf(KindUse, "2031-07-13 12:00", usual, "1 g"), "plan", "the stock has changed since this plan was made; nothing was written"},
		"a lift since":            {"", liftOf("bed-1", "2031-07-13 12:00", "1 kg"), "plan", "the stock has changed since this plan was made; nothing was written"},
		"nothing, for tomorrow":   {"2031-07-14 12:00", nil, "on", "still to come, by this machine's clock (2031-07-13 18:00)"},
		"used up after its day":   {"2031-07-12 20:00", moveOf(KindUse, "2031-07-13 12:00", usual, "820 g"), "on", usual + " was used since, and less is left than the plan takes"},
		"used in part afterwards": {"2031-07-12 20:00", moveOf(KindUse, "2031-07-13 12:00", usual, "500 g"), "", ""},
	} {
		l, s := ledgerOf(usualLift())
		p := planOf(t, l, "2031-07-12", usual, "320 g")
		if row.at != "" {
			p.At = day(row.at)
		}
		if row.change != nil {
			s[2031] = append(s[2031], row.change)
		}
		entries := len(s[2031])
		err := NewLedger(s, plot(), false).Record(context.Background(), p, clock)
		if row.field == "" {
			require.NoError(t, err, name)
			continue
		}
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, name)
		assert.Equal(t, row.field, wrong.Field, name)
		assert.Equal(t, row.says, wrong.Problem, name)
		assert.Len(t, s[2031], entries, name)
	}
	l, _ := ledgerOf(usualLift())
	empty := planOf(t, l, "2031-07-12")
	require.ErrorContains(t, l.Record(context.Background(), empty, clock), "it takes nothing out of the stock")
}

// A plan goes by what it takes and makes, and by the stock; a plan shown is
// still the plan, or it is said that it is not.
func TestThePlansID(t *testing.T) {
	l, _ := ledgerOf(usualLift())
	p := planOf(t, l, "2031-07-13", usual, "320 g")
	assert.Regexp(t, "^[a-z2-7]{5}$", p.ID)
	assert.Equal(t, p.ID, planOf(t, l, "2031-07-13", usual, "320 g").ID)
	assert.NotEqual(t, p.ID, planOf(t, l, "2031-07-13", usual, "321 g").ID)
	assert.NotEqual(t, p.ID, planOf(t, l, "2031-07-14", usual, "320 g").ID)
	other, _ := ledgerOf(usualLift(), moveOf(KindUse, "2031-07-13 12:00", usualRest, "1 g"))
	assert.NotEqual(t, p.ID, planOf(t, other, "2031-07-13", usual, "320 g").ID)

	require.NoError(t, p.IsStill("", ""))
	require.NoError(t, p.IsStill(p.ID, p.Stock))
	require.ErrorContains(t, p.IsStill(p.ID, "another"), "the stock has changed")
	require.ErrorContains(t, p.IsStill("other", p.Stock), "the plan is another now")

	account, err := Settle(plot(), []Entry{usualLift()}, day("2031-07-13"))
	require.NoError(t, err)
	stock := account.Stock()
	turned := StockList{Lots: slices.Clone(stock.Lots)}
	slices.Reverse(turned.Lots)
	assert.Equal(t, stock.Fingerprint(), turned.Fingerprint(), "the order says nothing")
}

// A meal in January takes from last season's store and from this one's lifts:
// the plan lies with the later of them, and each season's account has its own
// grams, asked for alone or together.
func TestAPlanOverTwoSeasons(t *testing.T) {
	plantings := append(plot(), Planting{ID: "bed-2", Crop: "kale", Planted: day("2031-06-01"), Bed: units.MustParse("2 m2")})
	s := shelf{2031: {usualLift()}, 2032: {liftOf("bed-2", "2032-01-05 11:00", "900 g")}}
	l := NewLedger(s, plantings, false)
	p := planOf(t, l, "2032-01-06", usual, "320 g", "bed-2/2032-0105-1100/ungraded-sound", "200 g")
	require.NoError(t, l.Record(context.Background(), p, day("2032-01-06 18:00")))
	require.Len(t, s[2032], 2, "with the latest lot it takes from")
	kitchen := func(years ...int) (grams []string) {
		fresh := NewLedger(s, plantings, false)
		require.NoError(t, fresh.Read(context.Background(), day("2032-01-07"), years...))
		fresh.On = day("2032-01-07")
		account, err := fresh.Account()
		require.NoError(t, err)
		assert.Empty(t, account.Warnings)
		for _, season := range account.Tally(years...).Seasons {
			for _, row := range season.Rows {
				grams = append(grams, row.Planting.ID+" "+row.Went.Kitchen.String())
			}
		}
		return grams
	}
	assert.Equal(t, []string{"tub-3 320"}, kitchen(2031))
	assert.Equal(t, []string{"bed-2 200"}, kitchen(2032))
	assert.Equal(t, []string{"tub-3 320", "bed-2 200"}, kitchen(2031, 2032))

	_, err := NewLedger(s, plantings, false).Void(context.Background(), "0712-1640-lift-tub-3", "", day("2032-01-07"))
	require.ErrorContains(t, err, "there is no lot "+usual, "the next year's plan rests on it")
	_, err = NewLedger(s, plantings, false).Void(context.Background(), p.Stem(), "", day("2032-01-07"))
	require.NoError(t, err)
	assert.Equal(t, []string{"tub-3 0"}, kitchen(2031), "a struck-out plan takes nothing from the season before")
	old := planOf(t, l, "2032-01-07", usual, "320 g")
	require.NoError(t, NewLedger(s, plantings, false).Record(context.Background(), old, day("2032-01-07")))
	assert.Len(t, s[2031], 2, "a plan of stored lots alone lies with them")
}

// A plan of which one lot is not here is read all the same: that use waits, the
// others count, and the order of reading changes nothing.
func TestAPlanWithALotThatIsNotHere(t *testing.T) {
	p := &Planned{ID: "k3fqa", Uses: []Use{{usual, units.MustParse("320 g"), "Mash"}, {"bed-1/2031-0712-0900/ungraded-sound", units.MustParse("100 g"), "Mash"}}, Spots: []Spot{{5, 5}, {6, 5}}}
	p.At, p.File = day("2031-07-13 18:00"), "journal/2031/0713-1800-plan-k3fqa.yaml"
	random := rand.New(rand.NewPCG(14, 4))
	for range 20 {
		entries := []Entry{usualLift(), p, moveOf(KindUse, "2031-07-13 19:00", usual, "500 g")}
		random.Shuffle(len(entries), func(i, j int) { entries[i], entries[j] = entries[j], entries[i] })
		l, _ := ledgerOf(entries...)
		require.NoError(t, l.Read(context.Background(), day("2031-07-14")))
		account, err := l.Account()
		require.NoError(t, err)
		assert.Equal(t, []Warning{Waiting{p.File, "bed-1/2031-0712-0900/ungraded-sound"}}, account.Warnings)
		assert.NotContains(t, names(account.Stock()), "20-45-scabby", "320 g and 500 g are all of it")
	}
	here, _ := ledgerOf(usualLift(), p, liftOf("bed-1", "2031-07-12 09:00", "1 kg"))
	assert.Contains(t, onHand(t, here, "2031-07-14"), "bed-1/ungraded-sound=900/900")
}

// A plan that takes of what was struck out elsewhere is mended by a plan without
// that part; the rest goes on counting.
func TestMendingAPlan(t *testing.T) {
	beet := liftOf("bed-1", "2031-07-12 09:00", "1 kg")
	l, s := ledgerOf(usualLift(), beet)
	p := planOf(t, l, "2031-07-13", usual, "320 g", "bed-1/2031-0712-0900/ungraded-sound", "100 g")
	require.NoError(t, l.Record(context.Background(), p, day("2031-07-13 18:00")))
	p.Spots = []Spot{{5, 5}, {6, 5}}
	void := &Void{Voids: beet.File}
	void.At, void.File = day("2031-07-13 19:00"), "journal/2031/0713-1900-void-aaaa.yaml"
	s[2031] = append(s[2031], void)
	written, err := NewLedger(s, plot(), true).Mend(context.Background(), day("2031-07-14"))
	require.NoError(t, err)
	require.Len(t, written, 1)
	mended := written[0].(*Planned)
	assert.Equal(t, p.File, mended.Replaces)
	assert.Equal(t, p.Uses[:1], mended.Uses)
	assert.Equal(t, p.ID, mended.ID)
	again, err := NewLedger(s, plot(), true).Mend(context.Background(), day("2031-07-14"))
	require.NoError(t, err)
	assert.Empty(t, again)
	assert.Contains(t, onHand(t, l, "2031-07-14"), "tub-3/20-45-scabby=500/500")
}

func TestPlansByName(t *testing.T) {
	l, s := ledgerOf(usualLift())
	_, err := l.PlanCalled(context.Background(), LastPlan, day("2031-07-15"))
	require.ErrorContains(t, err, "no plan is recorded")
	var ids []string
	for i, weight := range []string{"100 g", "200 g"} {
		fresh := NewLedger(s, plot(), false)
		p := planOf(t, fresh, "2031-07-13", usual, weight)
		require.NoError(t, fresh.Record(context.Background(), p, day("2031-07-13 18:00").Add(time.Duration(i)*time.Hour)))
		ids = append(ids, p.ID)
	}
	called := func(id string) (string, error) {
		p, err := NewLedger(s, plot(), false).PlanCalled(context.Background(), id, day("2031-07-15"))
		if err != nil {
			return "", err
		}
		return p.ID, nil
	}
	for id, want := range map[string]string{LastPlan: ids[1], ids[0]: ids[0], ids[1][:4]: ids[1]} {
		got, err := called(id)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	_, err = called("zzzzz1")
	require.ErrorContains(t, err, "no plan of that id is recorded")
	_, err = NewLedger(s, plot(), false).Void(context.Background(), s[2031][2].Head().File, "", day("2031-07-15"))
	require.NoError(t, err)
	got, err := called(LastPlan)
	require.NoError(t, err)
	assert.Equal(t, ids[0], got, "what is struck out is no plan")
}
