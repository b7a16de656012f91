package harvest

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// Each rule of weighing is told at its place in the file and by its field of
// the question.
func TestProblemsOfALift(t *testing.T) {
	bowl := Weighing{Gross: units.MustParse("1.46 kg"), Tare: units.MustParse("0.31 kg")}
	weight := units.MustParse
	below := units.New(decimal.New(-1, 0), units.Kilogram)
	for _, row := range []struct {
		name             string
		lift             Lift
		key, field, says string
	}{
		{"no bowl", Lift{}, "", "weighing", "a lift without a weighing"},
		{"an empty bowl", Lift{Weighings: []Weighing{{Tare: weight("0.31 kg")}}}, "weighings[0]", "weighing", "a bowl without a gross weight"},
		{"changed about", Lift{Weighings: []Weighing{bowl, {Gross: weight("0.31 kg"), Tare: weight("1.46 kg")}}}, "weighings[1].tare", "weighing", "the empty bowl, 1.46 kg, weighs more than the full one, 0.31 kg"},
		{"no weight", Lift{Weighings: []Weighing{{Gross: weight("2 l")}}}, "weighings[0].gross", "weighing", "2 l is not one weight"},
		{"a range", Lift{Weighings: []Weighing{{Gross: weight("1-2 kg")}}}, "weighings[0].gross", "weighing", "1-2 kg is not one weight"},
		{"below nothing", Lift{Weighings: []Weighing{{Gross: weight("1 kg"), Tare: below}}}, "weighings[0].tare", "weighing", "a weight of -1 kg is below nothing"},
		{"beyond a scale", Lift{Weighings: []Weighing{{Gross: weight("1001 kg")}}}, "weighings[0].gross", "weighing", "1001 kg in one bowl is beyond any scale of a garden"},
		{"nothing in the bowls", Lift{Weighings: []Weighing{{Gross: weight("1 kg"), Tare: weight("1 kg")}}}, "weighings", "weighing", "the bowls were empty: the lift weighs nothing"},
		{"a grade of nothing", Lift{Weighings: []Weighing{bowl}, Grades: []Grade{{Weight: weight("0 g")}}}, "grades[0].weight", "grade", "a grade that weighs nothing"},
		{"fewer than no pieces", Lift{Weighings: []Weighing{bowl}, Grades: []Grade{{Weight: weight("1 g"), Count: -1}}}, "grades[0].count", "grade", "a count below nothing"},
		{"grades above the net", Lift{Weighings: []Weighing{bowl}, Grades: []Grade{{Weight: weight("1 kg")}, {Weight: weight("151 g")}}}, "grades", "grade", "the grades add up to 1151 g, 1 g more than the net weight of 1150 g"},
		{"soil by the litre", Lift{Weighings: []Weighing{bowl}, Soil: weight("1 l")}, "soil", "soil", "1 l is not one weight"},
		{"mothers below nothing", Lift{Weighings: []Weighing{bowl}, Mothers: below}, "mothers", "mothers", "a weight of -1 kg is below nothing"},
	} {
		t.Run(row.name, func(t *testing.T) {
			found := row.lift.Problems()
			require.Len(t, found, 1)
			assert.Equal(t, row.key, found[0].Key)
			assert.Equal(t, row.says, found[0].Text)
			var wrong *units.FieldError
			require.ErrorAs(t, row.lift.Check(), &wrong)
			assert.Equal(t, row.field, wrong.Field)
			assert.Equal(t, row.says, wrong.Problem)
			assert.NotEmpty(t, wrong.Accepted)
		})
	}
	whole := Lift{Weighings: []Weighing{bowl}, Grades: []Grade{{Weight: weight("1150 g")}}}
	require.NoError(t, whole.Check())
	assert.True(t, whole.Rest().IsZero())
}

func TestNamesOfPlantings(t *testing.T) {
	for _, name := range []string{"tub-3", "Bed_2.b", "Hügelbeet", "3"} {
		assert.True(t, IsID(name), name)
	}
	for _, name := range []string{"", "tub 3", "-tub", "a/b", "a..b", "."} {
		assert.False(t, IsID(name), name)
	}
	var wrong *units.FieldError
	_, err := FindPlanting(plot(), "tub-4")
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "one of tub-3, bed-1", wrong.Accepted)
	_, err = FindPlanting(plot(), "bed-1")
	require.NoError(t, err)
}
