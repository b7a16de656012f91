package meal_test

import (
	"fmt"
	"strconv"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
	"trencher/units/spelled"
)

// told spells an answer out; what others have to say (a dish file, a lot, the
// reckoning of heat, a rule) is told by its name.
func told(value any) string { return spelled.Out(value, named) }

func named(value any) (string, bool) {
	switch value := value.(type) {
	case *harvest.Lot:
		return value.ID, true
	case meal.Levels: // not how far was searched for them
		return spelled.Line(value.Levels, named), true
	case recipes.Dish:
		return strconv.Quote(value.Name), true
	case recipes.Kitchen:
		return "of " + value.File, true
	case recipes.CropLine:
		return value.Crop + " " + value.Cook, true
	case recipes.Guests:
		return fmt.Sprintf("%d %s", value.Count, value.Label()), true
	case heat.Crop:
		return value.Name, true
	case heat.Estimate:
		return fmt.Sprintf("from loading %.3g", value.FromLoading), true
	case keeping.Verdict:
		return string(value.Kind), true
	case units.Reason:
		return value.Figure, true
	case recipes.Poison:
		return value.Rule + ": " + value.Words, true
	case keeping.Note:
		return fmt.Sprint(value.Kind, " ", value.Rule, " ", value.Dishes, " ", value.Danger, " ", value.At.Format("02 15:04")), true
	}
	return "", false
}
