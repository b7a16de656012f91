package render

import (
	"io"
	"strings"

	"trencher/recipes/keeping"
	"trencher/recipes/meal"
)

// DishKindsText tells what foods a dish is kept as, and the words that say so.
func DishKindsText(w io.Writer, k meal.DishKinds) error {
	var p page
	p.wrapped("", k.Dish+" is kept as "+k.Foods[0]+"; the strictest of its parts sets each limit.")
	for _, word := range k.Because {
		p.wrapped("- ", word.Kind+": "+word.Words)
	}
	if len(k.Unknown) > 0 {
		p.wrapped("", "Not understood: "+strings.Join(k.Unknown, ", ")+". Strictest limits taken; ask your food authority.")
	}
	p.gap()
	p.cautions(keeping.Cautions(false))
	return p.writeTo(w)
}

// DishKindsJSON writes the foods of a dish for scripts.
func DishKindsJSON(w io.Writer, k meal.DishKinds) error {
	words := each(k.Because, func(word keeping.KindWord) string { return word.Words })
	return writeJSON(w, struct {
		Dish    string   `json:"dish"`
		Food    string   `json:"food"`
		Kinds   []string `json:"kinds"`
		Because []string `json:"because"`
		Unknown []string `json:"unknown,omitempty"`
		Rules   []string `json:"rules"`
	}{k.Dish, k.Foods[0], k.Foods, words, k.Unknown, k.Rules})
}
