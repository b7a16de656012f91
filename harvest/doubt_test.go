package harvest

import (
	"context"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// asked is what a lift is asked about beside others; it is then written as it is
// once that is said to be meant, and told.
func asked(t *testing.T, lift *Lift, others ...Entry) []Doubt {
	t.Helper()
	l, s := ledgerOf(others...)
	_, err := l.Lift(context.Background(), lift, day("2031-10-20"))
	var unsure *Unsure
	if err == nil {
		return nil
	}
	require.ErrorAs(t, err, &unsure)
	require.NotEmpty(t, unsure.Doubts)
	require.NotEmpty(t, unsure.Error())
	require.NotEmpty(t, unsure.Hint())
	assert.Len(t, s[2031], len(others), "nothing is written")
	l.Sure = true
	before := lift.Weighings[0]
	logged, err := l.Lift(context.Background(), lift, day("2031-10-20"))
	require.NoError(t, err)
	assert.Equal(t, before, logged.Weighings[0], "nothing is changed")
	assert.Len(t, logged.Warnings, len(unsure.Doubts), "and it is told")
	assert.Len(t, s[2031], len(others)+1)
	return unsure.Doubts
}

func bowlsAt(planting, at string, bowls ...string) *Lift {
	l := &Lift{Planting: planting}
	l.At = day(at)
	for _, text := range bowls {
		w, err := ParseWeighing(text, units.Metric)
		if err != nil {
			panic(err)
		}
		l.Weighings = append(l.Weighings, w)
	}
	l.File = "journal/2031/" + l.At.Format("0102-1504") + "-lift-" + planting + ".yaml"
	return l
}

// Asked is beyond three times what gardens give (a rule chosen): second earlies
// give 600 to 1000 g a plant (Royal Horticultural Society, grow-your-own advice,
// from memory), and 40 to 80 g a litre of tub (computed).
func TestImplausibleWeightsAreAskedAbout(t *testing.T) {
	tub := Planting{ID: "tub-1", Crop: "potato", Class: "second early", SeedCount: 3, Tub: units.MustParse("40 l")}
	low, high, ok := tub.plausible()
	require.True(t, ok)
	assert.Equal(t, []float64{1600, 3200}, []float64{low, high}, "by its litres, which allow the most and the least")
	for _, row := range []struct {
		grams    string
		finished bool
		slip     Slip
		asked    bool
	}{
		{"9600", true, 0, false},
		{"9601", false, SlipPounds, true},
		{"14290", false, SlipPounds, true},
		{"2290000", false, SlipKilograms, true},
		{"534", true, 0, false},
		{"533", false, 0, false}, // a sample, for all anybody knows
		{"533", true, SlipUnknown, true},
		{"2.29", true, SlipGrams, true},
		{"60000", false, SlipUnknown, true},
	} {
		doubts := doubtYield(tub, grams(units.MustParse(row.grams+" g")), row.finished)
		assert.Equal(t, row.asked, len(doubts) > 0, row.grams)
		if row.asked && len(doubts) > 0 {
			assert.Equal(t, row.slip, doubts[0].(Implausible).Slip, row.grams)
		}
	}
	_, _, ok = Planting{ID: "a", Crop: "oca", SeedCount: 3}.plausible()
	assert.False(t, ok)
	_, _, ok = Planting{ID: "a", Crop: "potato"}.plausible()
	assert.False(t, ok, "nobody knows how much stands there")
}

func TestTheSeasonsSumIsAskedAbout(t *testing.T) {
	p := plot()[0] // tub-3
	_, high, ok := p.plausible()
	require.True(t, ok)
	half := units.New(decimal.NewFromFloat(1.6*high), units.Gram).String()
	first := bowlsAt("tub-3", "2031-07-12 10:00", half+" - 0 g")
	assert.Empty(t, asked(t, bowlsAt("tub-3", "2031-07-20 10:00", half+" - 0 g")))
	doubts := asked(t, bowlsAt("tub-3", "2031-07-20 10:00", half+" - 0 g"), first)
	require.Len(t, doubts, 1)
	assert.IsType(t, Implausible{}, doubts[0])
}

func TestATareLeftOutIsAskedAbout(t *testing.T) {
	tared := []string{"900 g - 310 g", "800 g - 310 g", "700 g - 310 g"}
	doubts := asked(t, bowlsAt("bed-1", "2031-07-12 10:00", "900 g - 310 g", "800 g"))
	assert.Equal(t, []Doubt{Untared{2, units.MustParse("800 g")}}, doubts)
	assert.Empty(t, asked(t, bowlsAt("bed-1", "2031-07-12 10:00", "900 g", "800 g")), "bags, all of them")
	assert.Empty(t, asked(t, bowlsAt("bed-1", "2031-07-12 10:00", "900 g - 310 g", "800 g - 0 g")), "said to have none")
	assert.Len(t, asked(t, bowlsAt("bed-1", "2031-07-13 10:00", "800 g"), bowlsAt("bed-1", "2031-07-12 10:00", tared...)), 1)
	assert.Empty(t, asked(t, bowlsAt("bed-1", "2031-07-13 10:00", "800 g"), bowlsAt("bed-1", "2031-07-12 10:00", tared[:2]...)), "two bowls are no habit")
}

func TestTheSameLiftTwiceIsAskedAbout(t *testing.T) {
	first := bowlsAt("bed-1", "2031-07-12 10:00", "900 g - 310 g")
	doubts := asked(t, bowlsAt("bed-1", "2031-07-12 10:10", "0.9 kg - 0.31 kg"), first)
	assert.Equal(t, []Doubt{Again{"bed-1", first.File, 10 * time.Minute}}, doubts)
	assert.Empty(t, asked(t, bowlsAt("bed-1", "2031-07-12 10:11", "900 g - 310 g"), first))
	assert.Empty(t, asked(t, bowlsAt("bed-1", "2031-07-12 10:05", "901 g - 310 g"), first))
	correction := bowlsAt("bed-1", "2031-07-12 10:00", "900 g - 310 g")
	correction.Replaces = first.File
	assert.Empty(t, asked(t, correction, first), "it takes the other's place")
}

// A use from before its lift is asked about; said to be meant it is counted, on
// any day asked about, and mending dates it with the lift.
func TestAUseBeforeItsLift(t *testing.T) {
	l, s := ledgerOf(usualLift())
	use := &Move{To: KindUse, Weight: units.MustParse("100 g")}
	use.At = day("2031-07-11 18:00")
	_, err := l.Move(context.Background(), use, usual, day("2031-07-13"))
	var unsure *Unsure
	require.ErrorAs(t, err, &unsure)
	assert.Equal(t, []Doubt{Unlifted{"", "tub-3/20-45-scabby", use.At, day("2031-07-12 16:40")}}, unsure.Doubts)
	assert.Len(t, s[2031], 1)
	l.Sure = true
	_, err = l.Move(context.Background(), use, usual, day("2031-07-13"))
	require.NoError(t, err)

	for _, on := range []string{"2031-07-11", "2031-07-12", "2031-08-01"} {
		account, err := Settle(plot(), s[2031], day(on))
		require.NoError(t, err, on)
		if on != "2031-07-11" {
			assert.Equal(t, "100", account.Season(2031).Total().Went.Kitchen.String(), on)
			require.Len(t, account.Warnings, 1, on)
		}
	}
	l, _ = ledgerOf(s[2031]...)
	written, err := l.Mend(context.Background(), day("2031-08-01"))
	require.NoError(t, err)
	require.Len(t, written, 1)
	assert.Equal(t, day("2031-07-12 16:40"), written[0].When())
	account, err := Settle(plot(), append(s[2031], written...), day("2031-08-01"))
	require.NoError(t, err)
	assert.Empty(t, account.Warnings)

	sameDay := &Move{To: KindUse, Weight: units.MustParse("100 g")}
	sameDay.At = day("2031-07-12 12:00") // the day, no hour
	l, _ = ledgerOf(usualLift())
	_, err = l.Move(context.Background(), sameDay, usual, day("2031-07-13"))
	require.NoError(t, err)
}

func TestMoreEatenThanCooked(t *testing.T) {
	event := func(kind, at, amount string) *BatchEvent {
		e := &BatchEvent{Event: kind, Name: "Mash", Food: "mash", Amount: units.MustParse(amount)}
		e.At = day(at)
		return e
	}
	cooked := event(KindCooked, "2031-07-12 18:00", "6")
	cooked.File = "journal/2031/cooked.yaml"
	l, _ := ledgerOf(cooked)
	_, err := l.Fits(context.Background(), event(KindEaten, "2031-07-12 19:00", "6"), day("2031-07-13"))
	require.NoError(t, err)
	_, err = l.Fits(context.Background(), event(KindEaten, "2031-07-12 19:00", "7"), day("2031-07-13"))
	var unsure *Unsure
	require.ErrorAs(t, err, &unsure)
	assert.Equal(t, []Doubt{Overeaten{"Mash", units.MustParse("7"), units.MustParse("6")}}, unsure.Doubts)
	l.Sure = true
	_, err = l.Fits(context.Background(), event(KindEaten, "2031-07-12 19:00", "7"), day("2031-07-13"))
	require.NoError(t, err)
	_, err = l.Fits(context.Background(), event(KindEaten, "2031-07-12 19:00", "700 g"), day("2031-07-13"))
	require.NoError(t, err, "portions and grams cannot be compared")
}
