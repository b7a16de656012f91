package recipes

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trencher/recipes/saved"
	"trencher/units"
	"trencher/units/measures"
)

// The vocabulary's context and the members of it a dish uses: schema.org,
// type Recipe with its properties name, recipeYield, recipeIngredient,
// recipeInstructions, cookingMethod, suitableForDiet and additionalProperty;
// type HowToStep with text; type PropertyValue with name and value; the
// enumeration RestrictedDiet (schema.org).
const (
	schemaContext = "https://schema.org"
	schemaDiet    = schemaContext + "/"
)

type linkedRecipe struct {
	Context      string           `json:"@context"`
	Type         string           `json:"@type"`
	Name         string           `json:"name"`
	Yield        string           `json:"recipeYield"`
	Ingredients  []string         `json:"recipeIngredient"`
	Instructions []linkedStep     `json:"recipeInstructions,omitempty"`
	Method       []string         `json:"cookingMethod,omitempty"`
	Diets        []string         `json:"suitableForDiet,omitempty"`
	Properties   []linkedProperty `json:"additionalProperty,omitempty"`
}

type linkedStep struct {
	Type string `json:"@type"`
	Text string `json:"text"`
}

type linkedProperty struct {
	Type  string `json:"@type"`
	Name  string `json:"name"`
	Value string `json:"value"`
}

// JSONLD writes the dish as a schema.org Recipe in JSON-LD: its ingredients in
// plain English, and beside them, as additional properties, all that the
// vocabulary has no word for, so that ImportRecipe gives back the same dish. A
// diet is claimed only if Suits answers yes.
func (d Dish) JSONLD() ([]byte, error) {
	r := linkedRecipe{Context: schemaContext, Type: "Recipe", Name: d.Name, Yield: portionsText(d.Portions), Diets: d.schemaDiets()}
	state := func(name, value string) {
		r.Properties = append(r.Properties, linkedProperty{"PropertyValue", name, value})
	}
	d.stateKeys(state)
	for _, c := range d.Crops {
		text := oneLine(cropText(c))
		r.Ingredients = append(r.Ingredients, text)
		state(text, c.inline())
		if method := schemaMethods[c.Cook]; method != "" && !slices.Contains(r.Method, method) {
			r.Method = append(r.Method, method)
		}
	}
	for _, o := range d.Others {
		text := oneLine(otherText(o))
		r.Ingredients = append(r.Ingredients, text)
		state(text, o.inline())
	}
	for _, step := range d.Method {
		r.Instructions = append(r.Instructions, linkedStep{Type: "HowToStep", Text: step})
	}
	if slices.ContainsFunc(d.Method, func(step string) bool { return !saved.IsPlainStep(step) }) {
		list := textsNode(d.Method)
		flow(list)
		state("method", inlineText(list))
	}
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(r); err != nil {
		return nil, fmt.Errorf("write %s as JSON-LD: %w", d.Name, err)
	}
	return out.Bytes(), nil
}

func portionsText(n int) string {
	if n == 1 {
		return "1 portion"
	}
	return fmt.Sprintf("%d portions", n)
}

// schemaMethods are the words for ways of cooking.
var schemaMethods = map[string]string{"steam": "Steaming", "boil": "Boiling", "blanch": "Blanching"}

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

// stateKeys states the dish's own keys that it does not leave to be assumed.
func (d Dish) stateKeys(state func(name, value string)) {
	if !saved.IsPlainStep(d.Name) {
		state("name", inlineText(plainNode(d.Name)))
	}
	if d.omitted&noServed == 0 {
		state("served", string(d.Served))
	}
	if d.omitted&noSmallest == 0 {
		state("smallest", strconv.Itoa(d.Smallest))
	}
	if d.omitted&noLargest == 0 {
		state("largest", strconv.Itoa(d.Largest))
	}
	if wish := d.Wish.String(); wish != "1" {
		state("wish", wish)
	}
	for _, remark := range d.Remarks {
		state("remark", remark)
	}
	if len(d.Steps) == 0 {
		return
	}
	steps := listNode(nil)
	for _, s := range d.Steps {
		m := mapping{}
		m.add("do", plainNode(s.Do))
		m.add("takes", bareNode(fmt.Sprintf("%d min", s.Minutes)))
		if s.Uses != "" {
			m.add("uses", bareNode(s.Uses))
		}
		steps.Content = append(steps.Content, m.node())
	}
	flow(steps)
	state("steps", inlineText(steps))
}

// inline is a crop line as a dish file may have it, on one line.
func (c CropLine) inline() string {
	m := mapping{}
	m.add("crop", plainNode(c.Crop))
	m.add("amount", plainNode(c.Amount.String()))
	if c.omitted&noPrepared == 0 {
		m.add("prepared", plainNode(c.Prepared))
	}
	if c.Texture != "" {
		m.add("texture", bareNode(c.Texture))
	}
	if c.Sizes.IsGraded() {
		m.add("sizes", plainNode(c.Sizes.String()))
	}
	if c.omitted&noCut == 0 && c.Cut != "" {
		m.add("cut", plainNode(c.Cut))
	}
	m.add("cook", bareNode(c.Cook))
	if c.Minutes > 0 {
		m.add("takes", bareNode(fmt.Sprintf("%d min", c.Minutes)))
	}
	if c.Uses != "" {
		m.add("uses", bareNode(c.Uses))
	}
	if c.omitted&noUntil == 0 && c.Until != "" {
		m.add("until", bareNode(c.Until))
	}
	c.stated.add(&m)
	return m.inline()
}

// inline is an ingredient as a dish file may have it, on one line.
func (o OtherLine) inline() string {
	m := itemMapping(o.Item, o.Amount, o.State)
	if o.FromPlot {
		m.add("from", bareNode("plot"))
	}
	if o.Optional {
		m.add("optional", bareNode("true"))
	}
	if o.Scales != Linear {
		m.add("scales", bareNode(scalingWords[o.Scales]))
	}
	o.stated.add(&m)
	if len(o.Instead) > 0 {
		instead := listNode(nil)
		for _, a := range o.Instead {
			one := itemMapping(a.Item, a.Amount, a.State)
			a.stated.add(&one)
			instead.Content = append(instead.Content, one.node())
		}
		m.add("instead", instead)
	}
	return m.inline()
}

func itemMapping(item string, amount units.Quantity, state string) mapping {
	m := mapping{}
	m.add("item", plainNode(item))
	m.add("amount", plainNode(amount.String()))
	if state != "" {
		m.add("state", plainNode(state))
	}
	return m
}

// add states what a line's writer says it contains.
func (s stated) add(m *mapping) {
	switch {
	case !s.said:
	case s.contains == 0:
		m.add("contains", bareNode("none"))
	default:
		m.add("contains", textsNode(s.contains.words()))
	}
}

// scalingWords are the kinds of scaling as a dish file has them.
var scalingWords = map[Scaling]string{Linear: "linear", Seasoning: "seasoning", Fixed: "fixed"}

func cropText(c CropLine) string {
	parts := []string{amountText(c.Amount) + " " + plural(c.Crop)}
	if c.Prepared != AsLifted {
		parts = append(parts, c.Prepared)
	}
	if c.Cut != "" && c.Cut != "whole" {
		parts = append(parts, cutText(c.Cut))
	}
	return strings.Join(parts, ", ")
}

// cutText is a cut as a recipe says it: "in 25 mm cubes", "halved".
func cutText(cut string) string {
	form, size, sized := strings.Cut(cut, " ")
	switch {
	case !sized && form == "halves":
		return "halved"
	case !sized && form == "quarters":
		return "quartered"
	case !sized && form == "eighths":
		return "in eighths"
	case form == "cube" || form == "slice" || form == "baton":
		return "in " + size + " " + form + "s"
	}
	return cut
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
	if amount.IsToTaste() {
		text := item
		if state != "" {
			text += ", " + state
		}
		return text + ", to taste"
	}
	if u := amount.Unit(); amount.Dimension() == units.Count && (u.Kind() == "" || u.Kind() == "piece" || u.IsSize()) && amount.High().Rat().Cmp(one) > 0 {
		item = plural(item)
	}
	text := amountText(amount) + " " + item
	if state != "" {
		text += ", " + state
	}
	return text
}

// amountText is an amount as a recipe says it, exactly: the country before its
// measure, the measure in the plural, "2 US cups".
func amountText(q units.Quantity) string {
	unit := q.Unit()
	number := strings.TrimSpace(strings.TrimSuffix(q.String(), unit.Symbol()))
	words := strings.TrimSpace(strings.TrimPrefix(q.Format(system(unit)), number))
	country := map[units.System]string{units.Metric: "metric ", units.UK: "UK ", units.US: "US ", units.AU: "AU "}[unit.System()]
	return strings.TrimSpace(number + " " + country + words)
}

// system is the system to write a unit in: its own, else any, for its plural.
func system(u units.Unit) units.System {
	if own := u.System(); own != units.NoSystem {
		return own
	}
	return units.Metric
}

// uncounted are crops that have no plural: a kilo of kale. Ordinary English, no
// source.
var uncounted = map[string]bool{"garlic": true, "kale": true, "spinach": true, "chard": true, "broccoli": true, "celery": true, "celeriac": true, "sweetcorn": true, "beetroot": true,
	"asparagus": true, "rhubarb": true, "kohlrabi": true, "salsify": true, "mangetout": true, "chives": true, "rocket": true, "cress": true, "watercress": true, "lettuce": true, "fennel": true, "mooli": true, "swede": true, "pak choi": true, "cabbage": true}

// plural is an ingredient's name in the plural, as far as it has one.
func plural(item string) string {
	if crop, ok := measures.CropNamed(item); ok && uncounted[crop.Name] {
		return item
	}
	cut := strings.LastIndexByte(item, ' ') + 1
	word := item[cut:]
	lower := strings.ToLower(word)
	switch {
	case word == "" || strings.HasSuffix(lower, "s") || !isLetter(lower[len(lower)-1]):
		return item
	case lower == "leaf" || lower == "loaf" || lower == "half":
		return item[:len(item)-1] + "ves"
	case strings.HasSuffix(lower, "potato") || strings.HasSuffix(lower, "tomato"), strings.HasSuffix(lower, "sh"), strings.HasSuffix(lower, "ch"), strings.HasSuffix(lower, "x"):
		return item + "es"
	case strings.HasSuffix(lower, "y") && len(lower) > 1 && !strings.ContainsRune("aeiou", rune(lower[len(lower)-2])):
		return item[:len(item)-1] + "ies"
	}
	return item + "s"
}

func isLetter(b byte) bool { return b >= 'a' && b <= 'z' }

var one = units.MustParse("1").Rat()
