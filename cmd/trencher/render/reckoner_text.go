package render

import (
	"fmt"
	"io"
	"slices"

	"trencher/recipes/meal"
)

// ReckonedText says what was written where, and what is not on it.
func ReckonedText(w io.Writer, r Reckoned) error {
	var p page
	p.wrapped("", fmt.Sprintf("Ready reckoner of %s, two sides of A4: %s", count(len(r.Dishes)-len(r.Omitted), "dish", "dishes"), r.File))
	if says := ReckonerOmits(r.Omitted); says != "" {
		p.wrapped("", says)
	}
	for _, warning := range r.Warnings {
		p.wrapped("", sentence(warningWords(warning, meal.Plan{})))
	}
	return p.writeTo(w)
}

// ReckonedJSON is the same for scripts.
func ReckonedJSON(w io.Writer, r Reckoned) error {
	answer := struct {
		File    string   `json:"file"`
		Dishes  []string `json:"dishes"`
		Omitted []string `json:"omitted"`
	}{r.File, []string{}, append([]string{}, r.Omitted...)}
	for _, dish := range r.Dishes {
		if !slices.Contains(r.Omitted, dish.Recipe.Name) {
			answer.Dishes = append(answer.Dishes, dish.Recipe.Name)
		}
	}
	return writeJSON(w, answer)
}
