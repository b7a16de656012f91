package meal_test

import (
	"encoding"
	"fmt"
	"math/big"
	"reflect"
	"strconv"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/recipes/keeping"
	"trencher/units"
)

// told spells a value out, what is zero left away: a field or an element a line,
// what lies deeper within its line. Figures of heat are told to three places, so that
// a figure moves a golden only where a cook would see it; what others have to say (a
// dish file, a lot, the reckoning of heat, a rule) is told by its name.
func told(value any) string {
	var text strings.Builder
	v := reflect.ValueOf(value)
	for i := range v.NumField() {
		field, name := v.Field(i), v.Type().Field(i).Name
		switch {
		case !v.Type().Field(i).IsExported() || field.IsZero() || name == "Kitchen":
		case field.Kind() == reflect.Slice && field.Type().Elem().Kind() == reflect.Struct:
			for n := range field.Len() {
				fmt.Fprintf(&text, "%s %d: %s\n", name, n+1, inLine(field.Index(n)))
			}
		default:
			fmt.Fprintf(&text, "%s: %s\n", name, inLine(field))
		}
	}
	return text.String()
}

func inLine(v reflect.Value) string {
	if v.Kind() == reflect.Pointer && v.IsNil() {
		return "none"
	}
	if text, ok := named(v.Interface()); ok {
		return text
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		return inLine(v.Elem())
	case reflect.Slice, reflect.Array:
		var all []string
		for i := range v.Len() {
			all = append(all, inLine(v.Index(i)))
		}
		return "[" + strings.Join(all, ", ") + "]"
	case reflect.Struct:
		var all []string
		for i := range v.NumField() {
			if field := v.Type().Field(i); field.IsExported() && !v.Field(i).IsZero() {
				all = append(all, field.Name+" "+inLine(v.Field(i)))
			}
		}
		return "{" + strings.Join(all, ", ") + "}"
	case reflect.Float64:
		return strconv.FormatFloat(v.Float(), 'g', 3, 64)
	}
	return fmt.Sprint(v.Interface())
}

// named are the values that have a word of their own.
func named(value any) (string, bool) {
	switch value := value.(type) {
	case time.Time:
		return value.Format("02 15:04:05"), true
	case time.Duration:
		return value.String(), true
	case *big.Rat:
		return value.RatString(), true
	case *harvest.Lot:
		return value.ID, true
	case recipes.Dish:
		return strconv.Quote(value.Name), true
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
		return strings.TrimSpace(fmt.Sprint(value.Kind, " ", value.Rule, " ", value.Dishes, map[bool]string{true: " broken"}[value.Danger], told(struct{ At time.Time }{value.At}))), true
	case fmt.Stringer:
		return value.String(), true
	case encoding.TextMarshaler:
		text, _ := value.MarshalText()
		return string(text), true
	}
	return "", false
}
