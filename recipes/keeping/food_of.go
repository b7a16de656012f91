package keeping

import "strings"

// Recipe is what FoodOf looks at.
type Recipe struct {
	Name   string
	Cold   bool     // served cold
	Crops  []string // the weighed crops
	Items  []string // the other ingredients, with their state: "egg hard-boiled"
	Method []string
}

// FoodOf finds the food whose rules a recipe falls under; where its words
// leave it open, the stricter one.
func FoodOf(r Recipe) string {
	method := strings.ToLower(r.Name + " " + strings.Join(r.Method, " "))
	switch {
	case strings.Contains(method, "in foil"):
		return "baked-in-foil"
	case rawEgg(r):
		return "dressed-salad-raw-egg"
	case r.Cold:
		return "dressed-salad"
	case strings.Contains(method, "mash"):
		return "mash"
	}
	for _, crop := range r.Crops {
		if strings.Contains(strings.ToLower(crop), "potato") {
			return "boiled-potatoes"
		}
	}
	return "cooked-vegetables"
}

// rawEgg tells that a recipe may have raw egg in it: an egg that is not said
// to be cooked, or mayonnaise made at home.
func rawEgg(r Recipe) bool {
	for _, item := range r.Items {
		item = strings.ToLower(item)
		egg := strings.Contains(item, "egg") && !strings.Contains(item, "eggplant") && !strings.Contains(item, "egg-free")
		cooked := false
		for _, word := range []string{"boiled", "cooked", "poached", "fried", "scrambled"} {
			cooked = cooked || strings.Contains(item, word)
		}
		homeMade := strings.Contains(item, "mayonnaise") && (strings.Contains(item, "home-made") || strings.Contains(item, "homemade"))
		if egg && !cooked && (r.Cold || strings.Contains(item, "raw")) || homeMade {
			return true
		}
	}
	return false
}
