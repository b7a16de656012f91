package harvest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// A planting goes by the beginning of its name where no other begins so.
func TestFindPlanting(t *testing.T) {
	plantings := []Planting{{ID: "tub-1"}, {ID: "tub-10"}, {ID: "bed-2"}, {ID: "bed-2"}}
	for name, want := range map[string]string{"tub-1": "tub-1", "tub-10": "tub-10", "bed": "bed-2", "B": "bed-2"} {
		id, err := FindPlanting(plantings, name)
		require.NoError(t, err, name)
		assert.Equal(t, want, id, name)
	}
	for name, says := range map[string]string{"tub": "more than one begins so", "row": "not in plantings.yaml", "": "not in plantings.yaml", "bed-22": "not in plantings.yaml"} {
		_, err := FindPlanting(plantings, name)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, name)
		assert.Equal(t, "planting", wrong.Field)
		assert.Equal(t, says, wrong.Problem, name)
	}
}
