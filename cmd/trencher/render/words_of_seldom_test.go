package render

import (
	"bytes"
	"math/big"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
	"trencher/units/measures"
)

// A planting that frost has ended, and a plot with nothing in the ground.
func TestFrostAndAnEmptyPlot(t *testing.T) {
	var out bytes.Buffer
	on := time.Date(2031, 11, 3, 0, 0, 0, 0, time.UTC)
	require.NoError(t, ReadyText(&out, harvest.ReadyList{On: on}, false))
	assert.Equal(t, "Nothing stands in the ground on Monday 3 November 2031\n", out.String())
	r := harvest.Readiness{Planting: harvest.Planting{ID: "bed-1", Crop: "courgette", Planted: on.AddDate(0, -6, 0)}, State: harvest.Over, From: on.AddDate(0, -4, 0), To: on.AddDate(0, -1, 0), Frosted: true}
	r.Check, r.Crop.Left.Says = []string{"pick them small"}, "they grow large"
	out.Reset()
	require.NoError(t, ReadyText(&out, harvest.ReadyList{On: on, List: []harvest.Readiness{r}}, false))
	assert.Contains(t, out.String(), "\n  frost   frost has ended it, unless it stood under cover\n  look    pick them small\n  left    they grow large\n")
	view := Readiness(harvest.ReadyList{On: on, List: []harvest.Readiness{r}})[0]
	assert.Equal(t, []string{"Frost has ended it, unless it stood under cover."}, view.Notes)
	assert.Equal(t, []string{"Pick them small.", "They grow large."}, view.Look)
	r.Frosted, r.State = false, harvest.Early
	out.Reset()
	require.NoError(t, ReadyText(&out, harvest.ReadyList{On: on, List: []harvest.Readiness{r}}, false))
	assert.NotContains(t, out.String(), "frost")
	assert.NotContains(t, out.String(), "look", "it is early yet")
	assert.Empty(t, Readiness(harvest.ReadyList{On: on, List: []harvest.Readiness{r}})[0].Look)
}

// Amounts as people read them, and rows of a table of measures.
func TestWordsOfAmounts(t *testing.T) {
	for amount, want := range map[string]string{"1-2 tbsp": "1–2 tbsp", "852.391875 ml": "852 ml", "0.3333 kg": "0.33 kg", "2": "2", "9.96 g": "10 g", "12.5 g": "13 g"} {
		assert.Equal(t, want, exactWords(units.MustParse(amount)), amount)
	}
	line := recipes.ScaledLine{Item: "salt", Exact: units.MustParse("to taste")}
	assert.Equal(t, "to taste", scaledWords(line).Measured)
	line.Exact, line.Measured.Value = units.MustParse("3 g"), units.MustParse("5 ml")
	assert.Equal(t, line.Exact, asMeasured(line), "another unit altogether")
	assert.Equal(t, []string{"leek, sliced", "chopped leek", "leek"}, []string{itemWords("leek", "sliced"), itemWords("chopped leek", "chopped"), itemWords("leek", "")})
	row := measures.Row{Ingredient: "egg", Measure: units.MustParse("1"), Size: "medium", Grams: big.NewRat(50, 1)}
	row.Source = "a table"
	assert.Contains(t, basis(row), "from: 1 (medium) = 50 g (a table)")
	row.Record, row.KnownBy, row.Note, row.Size = "NDB 01123", "read", "without shell", ""
	assert.Contains(t, basis(row), "from: 1 = 50 g (NDB 01123, read; without shell)")
	assert.Equal(t, "Sat 12 Jul 18:05", Moment(time.Date(2031, 7, 12, 18, 5, 0, 0, time.UTC)))
}

// A line of somebody else's recipe that was kept as it is.
func TestWordsOfALineReadBack(t *testing.T) {
	doubt := []*units.FieldError{units.WrongField("line", "x", "not understood", "")}
	two := measures.Line{Item: "onions", State: "chopped", Amount: units.MustParse("2")}
	for _, c := range []struct {
		line recipes.ImportedLine
		want string
	}{
		{recipes.ImportedLine{As: recipes.AsOther, Read: two}, "2 onions, chopped"},
		{recipes.ImportedLine{As: recipes.AsCrop, Read: two}, "2 onions, chopped"},
		{recipes.ImportedLine{As: recipes.AsHeading, Read: two, Doubts: doubt}, "kept as it is"},
		{recipes.ImportedLine{As: recipes.AsHeading, Read: two}, ""},
		{recipes.ImportedLine{As: recipes.AsStep, Read: two, Doubts: doubt}, ""},
		{recipes.ImportedLine{As: recipes.AsHeading, Doubts: doubt}, ""},
	} {
		assert.Equal(t, c.want, ReadBack(c.line), c.line.As)
	}
	assert.Equal(t, "  3   other   2 chopped onions\n             = 2 onions, chopped", readBackLine(recipes.ImportedLine{Number: 3, Text: "2 chopped onions", As: recipes.AsOther, Read: two}))
	assert.Equal(t, "  3 ? heading For the salad", readBackLine(recipes.ImportedLine{Number: 3, Text: "For the salad", As: recipes.AsHeading, Read: two, Doubts: doubt}))
}

// How far apart sizes end, and the drawings of their cuts.
func TestWordsOfUnevenSizes(t *testing.T) {
	part := meal.Part{Steam: &meal.Steaming{}, Line: recipes.CropLine{Crop: "leek", Cook: "steam"}}
	assert.Equal(t, "", unevenWords(part))
	part.Uneven = meal.Uneven{EarlyMinutes: 2.4}
	assert.Equal(t, "the smallest pieces are done 2 min early: take them out first", unevenWords(part))
	part.Uneven = meal.Uneven{EarlyMinutes: 2.5, LateMinutes: 3.2, DiceMM: 24.6}
	assert.Equal(t, "the smallest pieces are done 3 min early: take them out first; the largest are 3 min late; diced to 25 mm, all end together", unevenWords(part))
	part.Steam = nil
	assert.Equal(t, "how long leek steams is not known here: try a piece with a knife", unevenWords(part))

	middle, every, none := spacing{middle: true}, spacing{every: 20}, spacing{}
	for shape, want := range map[heat.Shape][4]spacing{
		heat.Whole: {none, none, none, none}, heat.Halves: {none, middle, none, middle}, heat.HalvesAcross: {middle, none, none, none}, heat.Quarters: {none, middle, middle, middle},
		heat.Wedges: {none, middle, middle, middle}, heat.Eighths: {middle, middle, middle, middle}, heat.Cube: {every, every, every, every}, heat.Slice: {every, none, none, none},
	} {
		across, along, endAcross, endAlong := cutPlanes(meal.Cut{Cut: heat.Cut{Shape: shape}, PieceMM: 20})
		assert.Equal(t, want, [4]spacing{across, along, endAcross, endAlong}, shape)
	}
}

// A season in which nothing was lifted, and a reckoner with something odd to tell.
func TestSeasonsAndReckonersOfLittle(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, TallyText(&out, harvest.Tally{Seasons: []harvest.Season{{Year: 2031}}}, false))
	assert.Equal(t, "Season 2031\n  nothing lifted\n", out.String())
	out.Reset()
	require.NoError(t, YieldPicture(&out, harvest.Tally{}))
	assert.Equal(t, string(YieldDrawing(harvest.Tally{})), out.String())
	out.Reset()
	r := Reckoned{File: "r.html", Reckoner: meal.Reckoner{Dishes: make([]meal.ReckonedDish, 3), Warnings: []meal.Warning{{Concern: meal.Remark, Says: "a file was left out"}}}, Omitted: []string{"Mash"}}
	require.NoError(t, ReckonedText(&out, r))
	assert.True(t, strings.HasPrefix(out.String(), "Ready reckoner of 2 dishes, two sides of A4: r.html\n"), out.String())
	assert.True(t, strings.HasSuffix(out.String(), "\nA file was left out.\n"), out.String())
}

// Several events are a list for scripts, one stands by itself.
func TestSeveralEventsAreAList(t *testing.T) {
	event := meal.LoggedEvent{Event: &harvest.BatchEvent{Event: harvest.KindEaten, Name: "Mash", Header: harvest.Header{File: "f"}}}
	for n, begins := range map[int]string{0: "[", 1: "{", 2: "["} {
		var out bytes.Buffer
		all := make(meal.LoggedEvents, n)
		for i := range all {
			all[i] = event
		}
		require.NoError(t, BatchEventsJSON(&out, all))
		assert.True(t, strings.HasPrefix(out.String(), begins), n)
		assert.Equal(t, n, strings.Count(out.String(), `"Mash"`))
	}
	var out bytes.Buffer
	verdict := keeping.Verdict{Head: "Throw it out.", Sentence: "Nobody knows it.", Warnings: []keeping.Reason{{Says: "ask somebody"}}}
	verdict.Food.ID = keeping.AnythingElse
	event.Batch = &meal.KeptBatch{Batch: &harvest.Batch{Name: "Mash"}, Verdict: verdict}
	require.NoError(t, BatchEventsText(&out, meal.LoggedEvents{event}))
	assert.Contains(t, out.String(), "\nThrow it out.\nNobody knows it.\nask somebody\nwritten to f\n\n  - ")
	p := &page{}
	p.rules([]string{"no such rule"})
	assert.Empty(t, p.lines)
}
