package recipes

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"trencher/units"
)

// The vocabulary's context and the members of it a dish uses: schema.org,
// type Recipe with its properties name, recipeYield, recipeIngredient,
// recipeInstructions, cookingMethod and suitableForDiet; type HowToStep with
// text; the enumeration RestrictedDiet (schema.org, from memory).
const (
	schemaContext = "https://schema.org"
	schemaDiet    = schemaContext + "/"
)

type linkedRecipe struct {
	Context      string       `json:"@context"`
	Type         string       `json:"@type"`
	Name         string       `json:"name"`
	Yield        string       `json:"recipeYield"`
	Ingredients  []string     `json:"recipeIngredient"`
	Instructions []linkedStep `json:"recipeInstructions,omitempty"`
	Method       string       `json:"cookingMethod,omitempty"`
	Diets        []string     `json:"suitableForDiet,omitempty"`
}

type linkedStep struct {
	Type string `json:"@type"`
	Text string `json:"text"`
}

// JSONLD writes the dish as a schema.org Recipe in JSON-LD. Every amount
// stands exactly as the dish file has it, regional measures with their system
// beside them, so that ImportRecipe reads it back. A diet is claimed only if
// Suits answers yes.
func (d Dish) JSONLD() ([]byte, error) {
	r := linkedRecipe{Context: schemaContext, Type: "Recipe", Name: d.Name, Yield: fmt.Sprintf("%d portions", d.Portions)}
	for _, c := range d.Crops {
		r.Ingredients = append(r.Ingredients, cropText(c))
		if c.Cook == "steam" {
			r.Method = "Steaming"
		}
	}
	for _, o := range d.Others {
		r.Ingredients = append(r.Ingredients, otherText(o))
	}
	for _, step := range d.Method {
		r.Instructions = append(r.Instructions, linkedStep{Type: "HowToStep", Text: step})
	}
	r.Diets = d.schemaDiets()
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(r); err != nil {
		return nil, fmt.Errorf("write %s as JSON-LD: %w", d.Name, err)
	}
	return out.Bytes(), nil
}

func (d Dish) schemaDiets() []string {
	var diets []string
	for _, one := range []struct {
		name string
		diet Diet
	}{
		{"VeganDiet", Diet{avoid: notVegan}}, {"VegetarianDiet", Diet{avoid: notVegetarian}}, {"GlutenFreeDiet", Diet{avoid: mark(Gluten)}},
	} {
		if suits, _ := d.Suits(one.diet); suits {
			diets = append(diets, schemaDiet+one.name)
		}
	}
	return diets
}

func cropText(c CropLine) string {
	parts := []string{c.Amount.String() + " " + c.Crop}
	if c.Prepared != AsLifted {
		parts = append(parts, c.Prepared)
	}
	if c.Cut != "" && c.Cut != "whole" {
		parts = append(parts, c.Cut)
	}
	return strings.Join(parts, ", ")
}

func otherText(o OtherLine) string {
	text := itemText(o.Amount, o.Item, o.State)
	for _, a := range o.Instead {
		text += ", or " + itemText(a.Amount, a.Item, a.State)
	}
	if o.Optional {
		text += " (optional)"
	}
	return text
}

func itemText(amount units.Quantity, item, state string) string {
	text := amount.String() + " " + item
	if amount.IsToTaste() {
		text = item
	}
	if state != "" {
		text += ", " + state
	}
	if amount.IsToTaste() {
		text += ", to taste"
	}
	return text
}
