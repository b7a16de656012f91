package harvest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Two seasons beside each other: what each crop and planting gave, fed and
// wasted, and the portions of each dish.
func TestDishesAndWasteSideBySide(t *testing.T) {
	dish := func(m *Move) *Move { m.Dish = "Mash"; return m }
	event := func(kind, at, amount string) *BatchEvent {
		e := &BatchEvent{Event: kind, Name: "Mash", Dish: "Mash", Food: "mash", Amount: units.MustParse(amount)}
		e.At, e.File = day(at), "journal/2031/"+at+kind+".yaml"
		return e
	}
	entries := []Entry{
		liftOf("tub-3", "2030-09-01 10:00", "500 g"), usualLift(),
		dish(moveOf(KindUse, "2031-07-12 18:00", usual, "300 g")), dish(moveOf(KindUse, "2031-07-13 18:00", usual, "200 g")),
		moveOf(KindUse, "2031-07-13 19:00", usual, "100 g"), moveOf(KindCompost, "2031-07-14 12:00", usual, "70 g"),
		event(KindCooked, "2031-07-12 18:30", "6"), event(KindEaten, "2031-07-12 19:00", "4"), event(KindBinned, "2031-07-13 19:00", "2"),
		event(KindCooked, "2031-07-13 19:30", "3"), event(KindEaten, "2031-07-13 20:00", "3"), event(KindEaten, "2031-07-13 20:10", "200 g"),
	}
	account, err := Settle(plot(), entries, day("2031-12-31"))
	require.NoError(t, err)
	tally := account.Tally(2030, 2031)
	assert.Equal(t, []DishSeason{{"Mash", 2, 9, 7, 2}}, tally.Seasons[1].Dishes)
	row := tally.Seasons[1].Rows[0]
	require.Len(t, row.Dishes, 1)
	assert.Equal(t, "Mash 500", row.Dishes[0].Dish+" "+row.Dishes[0].Grams.String(), "100 g went into no dish that was told")
	assert.Equal(t, "70", row.Waste().String())

	table := Compare(tally.Seasons)
	assert.Equal(t, []int{2030, 2031}, table.Years)
	require.Len(t, table.Crops, 2)
	assert.Equal(t, "potato", table.Crops[1].Name)
	assert.Equal(t, []string{"0", "1820", "600", "70"}, []string{table.Crops[1].Net[0].String(), table.Crops[1].Net[1].String(), table.Crops[1].Kitchen[1].String(), table.Crops[1].Waste[1].String()})
	require.Len(t, table.Plantings, 1, "one tub, whatever stood in it")
	assert.Equal(t, "500 1820", table.Plantings[0].Net[0].String()+" "+table.Plantings[0].Net[1].String())
	assert.Equal(t, []DishRow{{"Mash", []float64{0, 9}, []float64{0, 7}, []float64{0, 2}}}, table.Dishes)
}

// A tub of 30 l that gave 1820 g gave 60.7 g a litre; 40 to 80 g are usual
// (computed), the middle by ratios 56.6 g.
func TestYieldAgainstTheUsual(t *testing.T) {
	account, err := Settle(plot(), []Entry{usualLift(), liftOf("tub-3", "2030-09-01 10:00", "500 g")}, day("2031-12-31"))
	require.NoError(t, err)
	a, ok := account.Season(2031).Rows[0].AgainstUsual()
	require.True(t, ok)
	assert.Equal(t, PerLitre, a.Per)
	assert.InDelta(t, 60.67, a.Grams, 0.01)
	assert.InDelta(t, 1.0725, a.Times, 0.001)
	assert.InDelta(t, 0.7071, a.Low, 0.001)
	assert.InDelta(t, 1.4142, a.High, 0.001)
	_, ok = (Yield{}).AgainstUsual()
	assert.False(t, ok)
}
