package render

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The clock strip has a line for now while the plan runs, at the same place
// along the clock as a step that begins then, and none before or after.
func TestClockStripHasALineForNow(t *testing.T) {
	plan := spoiling()
	first, last := plan.Steps[0], plan.Steps[len(plan.Steps)-1]
	for at, want := range map[time.Time]string{
		first.At:                         "0.00%",
		last.End():                       "100.00%",
		first.At.Add(-time.Minute):       "",
		plan.ServeAt.Add(24 * time.Hour): "",
	} {
		now := nowOn(plan, at)
		if want == "" {
			assert.Nil(t, now, "%v", at)
			continue
		}
		require.NotNil(t, now, "%v", at)
		assert.Equal(t, want, now.X)
		assert.Equal(t, at.Format("15:04"), now.Label)
	}
	screen, err := PlanScreen(plan, first.At)
	require.NoError(t, err)
	assert.Contains(t, string(screen.Rest), `<line class="now"`)
	assert.NotContains(t, sheetOf(t, plan), `<line class="now"`, "paper has no now")
}

// Each portion is drawn as one plate.
func TestPlatesAreAsManyAsPortions(t *testing.T) {
	for _, n := range []int{1, 12, 13, mostPlates} {
		assert.Len(t, platesIn(drawPlates(n)), n)
	}
	assert.Nil(t, drawPlates(mostPlates+1))
	assert.Nil(t, drawPlates(0))
}

func platesIn(view *platesView) (plates []int) {
	for i, letter := range view.Path {
		if letter == 'M' {
			plates = append(plates, i)
		}
	}
	return plates
}
