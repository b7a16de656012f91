package recipes

import (
	"slices"
	"strings"

	"trencher/units/measures"
)

// ScalesAs is how an ingredient grows with the portions where a dish file does
// not say: salt, spices and strong flavours, leaven and bay leaves with care
// beyond twice the recipe; the oil in the pan, which covers its bottom, not at
// all. All else in step. Common practice, no source; `scales` in the file
// outranks it.
func ScalesAs(item, state string) Scaling {
	for _, word := range panWords {
		if hasWords(state, word) || hasWords(item, word) {
			return Fixed
		}
	}
	m, ok := measures.FoodNamed(item)
	if ok && (slices.Contains(carefully, m.Food.Family) || slices.Contains(carefully, strings.ToLower(m.Food.Name))) {
		return Seasoning
	}
	return Linear
}

// panWords are of oil and butter that go by the pan, not by the portions.
var panWords = []string{"for frying", "for shallow frying", "for deep-frying", "for greasing", "for the tin", "for the pan", "for brushing", "for dusting"}

// carefully are the foods of strong flavour and of leaven.
var carefully = []string{"salt", "black pepper", "white pepper", "salt and pepper", "cayenne", "chilli", "chilli flakes", "chilli powder", "chili powder blend",
	"paprika", "smoked paprika", "cumin", "coriander seed", "caraway seed", "fennel seed", "mustard seed", "celery seed", "celery salt", "garlic salt",
	"turmeric", "ground ginger", "cinnamon", "clove", "nutmeg", "mace", "allspice", "cardamom", "star anise", "saffron", "juniper berry", "sumac",
	"za'atar", "curry powder", "garam masala", "spice blend", "mixed herbs", "bay leaf", "hot pepper sauce", "harissa", "wasabi", "horseradish",
	"baking powder", "bicarbonate of soda", "cream of tartar", "yeast", "asafoetida", "fenugreek", "nigella seed", "vanilla", "fish sauce"}
