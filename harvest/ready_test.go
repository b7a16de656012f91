package harvest

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Second earlies are fit 13 to 16 weeks after planting (Royal Horticultural
// Society, grow-your-own advice, from memory), and stand four weeks more (common
// practice, no source).
func TestReadyThroughASeason(t *testing.T) {
	plantings := plot()[:1]
	for _, row := range []struct {
		on    string
		weeks float64
		state State
	}{
		{"2031-04-02", 0, Early},
		{"2031-07-01", 12.9, Early},
		{"2031-07-02", 13, Due},
		{"2031-07-09", 14, Due},
		{"2031-08-20", 20, Due},
		{"2031-08-21", 20.1, Over},
	} {
		list, unknown := Ready(plantings, nil, Site{}, day(row.on))
		require.Empty(t, unknown)
		require.Len(t, list, 1, row.on)
		assert.Equal(t, row.weeks, list[0].Weeks, row.on)
		assert.Equal(t, row.state, list[0].State, row.on)
		assert.NotEmpty(t, list[0].Check)
	}
	list, _ := Ready(plantings, nil, Site{}, day("2031-04-01"))
	assert.Empty(t, list, "not planted yet")
	list, _ = Ready(plantings, nil, Site{}, day("2032-04-02"))
	assert.Empty(t, list, "nothing of last year's is still standing")
}

func TestReadyLeavesOutWhatIsLifted(t *testing.T) {
	count := func(entries ...Entry) int {
		list, _ := Ready(plot()[:2], entries, Site{}, day("2031-07-13"))
		return len(list)
	}
	part := usualLift()
	part.Left = LeftSome
	last := liftOf("bed-1", "2031-07-12 10:00", "1 kg")
	last.Left = LeftNone
	assert.Equal(t, 2, count())
	assert.Equal(t, 1, count(usualLift()), "a tub is emptied")
	assert.Equal(t, 2, count(part), "but for a sample")
	assert.Equal(t, 2, count(liftOf("bed-1", "2031-07-12 10:00", "1 kg")), "a bed is lifted bit by bit")
	assert.Equal(t, 1, count(last), "until the last of it")
	list, _ := Ready(plot(), nil, Site{}, day("2030-07-13"))
	require.Len(t, list, 1)
	assert.Equal(t, "carrot", list[0].Planting.Crop, "what stood in the tub that year")
}

func TestReadyNamesWhatItCannotTell(t *testing.T) {
	_, unknown := Ready([]Planting{
		{ID: "a", Crop: "oca", Planted: day("2031-04-01")},
		{ID: "b", Crop: "potato", Planted: day("2031-04-01")},
	}, nil, Site{}, day("2031-07-13"))
	assert.Equal(t, []Warning{Untold{"a", "the table has no row for oca"},
		Untold{"b", "give its class in plantings.yaml (first early, second early, early maincrop, late maincrop, second cropping)"}}, unknown)
	assert.Equal(t, "a: the table has no row for oca", unknown[0].String())
}

func readyOn(plantings []Planting, on string) *ReadyList {
	list, _ := Ready(plantings, nil, Site{}, day(on))
	return &ReadyList{On: day(on), List: list}
}

// Nothing under 35 mm: wait a week (common practice, no source).
func TestAdviseBySizeFelt(t *testing.T) {
	for mm, want := range map[float64]string{20: "wait a week", 34.9: "wait a week", 35: "nearly", 40: "good", 80: "good", 81: "lift now"} {
		list := readyOn(plot()[:1], "2031-07-01")
		require.NoError(t, list.Feel("tub-3", mm))
		assert.Contains(t, list.List[0].Felt, want, fmt.Sprint(mm))
	}
	for name, row := range map[string]struct {
		planting string
		mm       float64
		says     string
	}{
		"not judged by size": {"a", 40, "chard is not judged by size"},
		"not planted":        {"b", 40, "no planting of that name stands"},
		"nothing":            {"a", 0, "no size of a crop"},
		"a boulder":          {"a", 1001, "no size of a crop"},
	} {
		list := readyOn([]Planting{{ID: "a", Crop: "chard", Planted: day("2031-04-01")}}, "2031-07-01")
		var wrong *units.FieldError
		require.ErrorAs(t, list.Feel(row.planting, row.mm), &wrong, name)
		assert.Equal(t, "felt", wrong.Field, name)
		assert.Equal(t, row.says, wrong.Problem, name)
	}
}
