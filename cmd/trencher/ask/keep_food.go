package ask

import (
	"strings"

	"trencher/recipes"
	"trencher/recipes/keeping"
)

// FoodOf is the food whose keeping rules a dish falls under, whichever of its
// alternatives is taken.
func FoodOf(d recipes.Dish) string {
	r := keeping.Recipe{Name: d.Name, Cold: d.Served == recipes.Cold, Method: d.Method}
	for _, line := range d.Crops {
		r.Crops = append(r.Crops, line.Crop)
	}
	for _, other := range d.Others {
		r.Items = append(r.Items, strings.TrimSpace(other.Item+" "+other.State))
		for _, instead := range other.Instead {
			r.Items = append(r.Items, instead.Item)
		}
	}
	return keeping.FoodOf(r)
}
