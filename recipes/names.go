package recipes

import (
	"strings"

	"trencher/units"
)

// cropNames gives the name this kitchen uses for a crop written otherwise.
var cropNames = map[string]string{
	"new potato": "potato", "early potato": "potato", "maincrop potato": "potato", "spud": "potato",
	"beet": "beetroot", "beet greens": "beet leaf", "beetroot leaf": "beet leaf",
	"broccoli": "calabrese", "sprout": "Brussels sprout", "brussels sprout": "Brussels sprout",
	"lettuce, head": "lettuce", "head lettuce": "lettuce", "lettuce, leaf": "lettuce", "leaf lettuce": "lettuce",
	"loose-leaf lettuce": "lettuce", "winter squash": "pumpkin", "squash": "pumpkin",
	"summer squash": "courgette", "ridge cucumber": "cucumber", "curly kale": "kale", "leaf beet": "chard",
	"bulb onion": "onion", "onion (dry)": "onion",
	"zucchini": "courgette", "rutabaga": "swede", "daikon": "mooli",
	"scallion": "spring onion", "salad onion": "spring onion", "green onion": "spring onion",
	"welsh onion": "Welsh onion",
	"fennel":      "Florence fennel", "fennel bulb": "Florence fennel", "florence fennel": "Florence fennel",
	"green bean": "French bean", "dwarf bean": "French bean", "climbing bean": "French bean",
	"french bean": "French bean", "dwarf french bean": "French bean", "climbing french bean": "French bean",
	"bush bean": "French bean", "pole bean": "French bean",
	"fava bean": "broad bean", "garden pea": "pea",
	"sugar pea": "mangetout", "snow pea": "mangetout", "sugar snap pea": "mangetout", "mange tout": "mangetout",
	"sweet corn": "sweetcorn", "corn": "sweetcorn", "corn on the cob": "sweetcorn",
	"sweet pepper": "pepper", "bell pepper": "pepper", "chili": "chilli", "chilli pepper": "chilli",
	"arugula": "rocket", "cress": "garden cress", "swiss chard": "chard", "rainbow chard": "chard",
	"spearmint": "mint", "garden mint": "mint", "coriander": "coriander leaf", "cilantro": "coriander leaf",
	"artichoke": "globe artichoke", "summer savory": "savory", "winter savory": "savory",
	"mixed salad leaf": "salad leaf", "cut-and-come-again salad": "salad leaf",
}

// CropName is the one name under which a crop is kept in the tables, whatever
// its plural, capitals or local name: "Potatoes", "new potato" and "potato"
// are all "potato". A crop the tables do not know comes back folded the same
// way. Compare crops of lots and dishes by it.
func CropName(name string) string {
	folded := fold(name)
	known := yieldTable().crops
	for _, form := range singulars(folded) {
		if standard, ok := cropNames[form]; ok {
			return standard
		}
		if standard, ok := known[form]; ok {
			return standard
		}
	}
	return folded
}

// fold brings a name to lower case with single spaces, no accents and no full
// stop at the end.
func fold(name string) string {
	name = strings.Join(strings.Fields(strings.ToLower(name)), " ")
	return strings.Trim(accents.Replace(name), " .")
}

var accents = strings.NewReplacer("’", "'", "à", "a", "á", "a", "â", "a", "ä", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"î", "i", "ï", "i", "í", "i", "ñ", "n", "ô", "o", "ö", "o", "ó", "o", "ù", "u", "û", "u", "ü", "u", "ú", "u")

// singulars lists a folded name and what it may be the plural of, best first.
func singulars(name string) []string {
	forms := []string{name}
	for _, ending := range []struct{ plural, singular string }{
		{"ies", "y"}, {"ves", "f"}, {"oes", "o"}, {"shes", "sh"}, {"ches", "ch"}, {"s", ""},
	} {
		if stem, ok := strings.CutSuffix(name, ending.plural); ok && len(stem) > 1 && !strings.HasSuffix(name, "ss") {
			forms = append(forms, stem+ending.singular)
		}
	}
	return forms
}

// meant returns the name that a mistyped one was most likely meant to be, at
// most two letters away; "" when none is that near.
func meant(name string, names []string) string {
	best, least := "", 3
	for _, other := range names {
		if d := units.LettersApart(fold(name), fold(other)); d < least {
			best, least = other, d
		}
	}
	if len(name) < 2*least {
		return ""
	}
	return best
}
